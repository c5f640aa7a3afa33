//! A lane between two columns: every run across, down its track, and across.
//!
//! This is channel routing with one trunk for each run (A. Hashimoto and J. Stevens, 8th Design
//! Automation Workshop, 1971; from memory): which runs stand left of which is ordered so that few
//! cross, by moving each to where it crosses least until none gains; then tracks are given from
//! the right, each run on the first that is free over its height (the left-edge algorithm).

use super::Crossings;
use coilwright_solver::wiring::{Post, Run};

/// Between tracks: as much as the number of a run takes.
const TRACK: i32 = 20;
/// From a column to the first track: past where ways fan out of a terminal there is room for
/// a hop.
const SIDE: i32 = 27;
/// The same beside terminals of many runs.
const FAN_SIDE: i32 = 33;
/// The same beside splices: the numbers of what comes to them stand there.
const BROAD_SIDE: i32 = 54;
/// So much wider it is each time on a side, and at the most, if it has to be.
const WIDER: i32 = 14;
const WIDEST: i32 = 42;
/// Between what shares a track, one above the other.
const APART: i32 = 6;
/// Half the height of a clamp of a splice, and the room under a splice for its name.
pub(super) const CLAMP: i32 = 7;
pub(super) const NAME: i32 = 22;

/// Whether a terminal stands at the right of its lane.
pub(super) fn is_right(post: Post) -> bool {
    matches!(post, Post::Coil(_) | Post::CupOutside(_))
}

/// An end of a run at a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Pin {
    /// The height of its way, and of the axis of its terminal, on which it ends.
    pub(super) y: i32,
    pub(super) axis: i32,
    /// Whether so many end there that ways fan out far.
    pub(super) broad: bool,
    pub(super) right: bool,
    pub(super) run: usize,
}

/// What takes a track: a run, or a splice with all that comes to it.
#[derive(Clone, Debug)]
pub(super) struct Item {
    pub(super) splice: Option<u8>,
    pub(super) pins: Vec<Pin>,
    /// Its track, counted from the right.
    track: i32,
    pub(super) x: i32,
}

impl Item {
    /// From its uppermost to its lowest end.
    pub(super) fn span(&self) -> (i32, i32) {
        let heights = || self.pins.iter().map(|pin| pin.y);
        (heights().min().unwrap_or(0), heights().max().unwrap_or(0))
    }

    /// The first end of every run of its, with the other one; a run to a splice has one.
    pub(super) fn runs(&self) -> impl Iterator<Item = (&Pin, Option<&Pin>)> {
        let (one, other) = match (self.splice, self.pins.as_slice()) {
            (None, [from, to]) => (core::slice::from_ref(from), Some(to)),
            _ => (self.pins.as_slice(), None),
        };
        one.iter().map(move |pin| (pin, other))
    }

    /// Whether its ends lie level.
    fn is_level(&self) -> bool {
        let (top, bottom) = self.span();
        self.splice.is_none() && top == bottom
    }

    /// The stretch of its track that nothing else may stand on.
    fn taken(&self) -> (i32, i32) {
        let (top, bottom) = self.span();
        let (more, name) = if self.splice.is_some() { (CLAMP, NAME) } else { (0, 0) };
        (top - more - APART, bottom + more + name + APART)
    }
}

/// A lane.
#[derive(Debug, Default)]
pub(super) struct Lane {
    pub(super) items: Vec<Item>,
    pub(super) crossings: Crossings,
    tracks: i32,
    /// How much wider it is than its tracks need, before the first of them and past the last.
    more: [i32; 2],
    /// Its edges.
    pub(super) left: i32,
    pub(super) right: i32,
}

impl Lane {
    /// Adds a run with its ends; `None` where one is missing.
    pub(super) fn add(&mut self, run: &Run, ends: [Option<Pin>; 2]) -> Option<()> {
        let mut pins = Vec::new();
        let mut splice = None;
        for (terminal, end) in [run.from, run.to].into_iter().zip(ends) {
            match terminal.post {
                Post::Splice(one) => splice = Some(one),
                _ => pins.push(end?),
            }
        }
        match self.items.iter_mut().find(|item| splice.is_some() && item.splice == splice) {
            Some(item) => item.pins.extend(pins),
            None => self.items.push(Item { splice, pins, track: 0, x: 0 }),
        }
        Some(())
    }

    /// Puts what crosses least where it crosses least, from left to right, and gives tracks.
    pub(super) fn order(&mut self) {
        let count = self.items.len();
        let cost: Vec<Vec<u32>> =
            self.items.iter().map(|a| self.items.iter().map(|b| crossed(a, b)).collect()).collect();
        let at = |a: usize, b: usize| cost.get(a).and_then(|row| row.get(b)).copied().unwrap_or(0);
        let sum = |order: &[usize]| {
            let mut sum = 0;
            for (i, a) in order.iter().enumerate() {
                for b in order.iter().skip(i + 1) {
                    sum += at(*a, *b);
                }
            }
            sum
        };
        let mut order: Vec<usize> = (0..count).collect();
        self.crossings.before = sum(&order);
        // Each goes where it crosses least among the others, until none gains by going.
        // Every move lowers the sum, so this ends.
        let mut moved = true;
        while moved {
            moved = false;
            for place in 0..count {
                let Some(&item) = order.get(place) else { continue };
                let (mut gain, mut best, mut target) = (0_i64, 0_i64, place);
                for other in (0..place).rev() {
                    let Some(&b) = order.get(other) else { continue };
                    gain += i64::from(at(b, item)) - i64::from(at(item, b));
                    if gain > best {
                        (best, target) = (gain, other);
                    }
                }
                gain = 0;
                for other in place + 1..count {
                    let Some(&b) = order.get(other) else { continue };
                    gain += i64::from(at(item, b)) - i64::from(at(b, item));
                    if gain > best {
                        (best, target) = (gain, other);
                    }
                }
                if target != place {
                    let item = order.remove(place);
                    order.insert(target, item);
                    moved = true;
                }
            }
        }
        self.crossings.after = sum(&order);
        self.give_tracks(&order, at);
    }

    /// Gives tracks from the right, each filled before the next: a run waits only for those that
    /// it would cross more often from their right, so no crossing is added.
    fn give_tracks(&mut self, order: &[usize], at: impl Fn(usize, usize) -> u32) {
        let items = &self.items;
        let taken = |one: &usize| items.get(*one).map_or((0, 0), Item::taken);
        // What lies level needs none.
        let is_level = |one: &usize| items.get(*one).is_some_and(Item::is_level);
        let mut left: Vec<usize> = order.iter().rev().copied().collect();
        left.retain(|one| !is_level(one));
        let mut tracks: Vec<(usize, i32)> = Vec::new();
        while !left.is_empty() {
            let mut on: Vec<usize> = Vec::new();
            let mut waiting: Vec<usize> = Vec::new();
            for one in left {
                let (top, bottom) = taken(&one);
                let fits = on.iter().all(|other| {
                    let other = taken(other);
                    other.0 >= bottom || top >= other.1
                });
                let waits = |other: &usize| at(one, *other) != at(*other, one);
                if fits && !on.iter().chain(&waiting).any(waits) {
                    on.push(one);
                } else {
                    waiting.push(one);
                }
            }
            tracks.extend(on.into_iter().map(|one| (one, self.tracks)));
            left = waiting;
            self.tracks += 1;
        }
        for (one, track) in tracks {
            if let Some(item) = self.items.get_mut(one) {
                item.track = track;
            }
        }
    }

    /// Makes it wider for the numbers of its runs, unless it is as wide as it may be.
    pub(super) fn widen(&mut self) -> bool {
        let narrow = self.more.iter_mut().min_by_key(|more| **more).filter(|more| **more < WIDEST);
        narrow.map(|more| *more += WIDER).is_some()
    }

    /// Stands it from a left edge on; gives its right edge.
    pub(super) fn stand(&mut self, left: i32) -> i32 {
        self.left = left;
        let broad = self.items.iter().any(|item| item.splice.is_some());
        let fans = self.items.iter().flat_map(|item| &item.pins).any(|pin| pin.broad);
        let side = if broad {
            BROAD_SIDE
        } else if fans {
            FAN_SIDE
        } else {
            SIDE
        };
        self.right =
            left + 2 * side + self.more[0] + self.more[1] + TRACK * (self.tracks - 1).max(0);
        for item in &mut self.items {
            item.x = self.right - self.more[1] - side - TRACK * item.track;
        }
        self.right
    }
}

/// How often two cross where the first stands left of the second: ends of the first that
/// go right past the second, and ends of the second that go left past the first.
fn crossed(a: &Item, b: &Item) -> u32 {
    let across = |from: &Item, right: bool, past: &Item| {
        let (top, bottom) = past.span();
        let mut count = 0;
        for pin in from.pins.iter().filter(|pin| pin.right == right) {
            count += u32::from(top < pin.y && pin.y < bottom);
        }
        count
    };
    across(a, true, b) + across(b, false, a)
}
