//! Dealing drivers to the outputs of a way.
//!
//! A *portion* is what hangs on one output. Deals are distinct up to exchanging outputs
//! of one kind and drivers of one group, so outputs of one kind take portions that never
//! rise. One dual-coil driver may be split: a coil on each of two outputs of one kind.

mod choice;
mod seats;
mod weights;

use super::Outlet;
use crate::rig::Rig;
use crate::work::{Steps, steps};
use choice::Choice;
use seats::{Seat, seats, splits};
pub(crate) use weights::Weights;

/// Whole drivers of each group, a byte a group, the first group's highest.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Counts(pub(crate) u64);

impl Counts {
    /// How many there are of a group.
    pub(crate) fn of(self, group: usize) -> u32 {
        self.byte(group).into()
    }

    /// The same as it is held.
    pub(crate) fn byte(self, group: usize) -> u8 {
        (self.0.wrapping_shr(place(group)) & 0xFF) as u8
    }

    /// With so many more of a group, of which there are never more than 32.
    pub(crate) fn with(self, group: usize, count: u32) -> Self {
        Self(self.0.saturating_add(u64::from(count).wrapping_shl(place(group))))
    }

    /// How many there are in all.
    fn total(self) -> u32 {
        self.0.to_be_bytes().iter().map(|count| u32::from(*count)).sum()
    }

    /// A number that stands in order as the counts do and has room for sums of them.
    fn spread(self) -> u128 {
        self.0.to_be_bytes().iter().fold(0, |wide, count| wide << 16 | u128::from(*count))
    }

    /// With so many fewer of a group that has at least as many.
    fn less(self, group: usize, count: u32) -> Self {
        Self(self.0.saturating_sub(u64::from(count).wrapping_shl(place(group))))
    }
}

/// Where the byte of a group begins. There are at most eight groups.
fn place(group: usize) -> u32 {
    56_u32.saturating_sub((group as u32).saturating_mul(8))
}

/// What hangs on one output.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Portion {
    /// The group of a driver of which one coil hangs here, the other on a like output.
    pub(crate) half: Option<u8>,
    /// Whole drivers of each group.
    pub(crate) counts: Counts,
}

impl Portion {
    /// In words, to be numbered.
    pub(crate) fn words(self) -> [u64; 2] {
        [self.half.map_or(0, |half| u64::from(half).saturating_add(1)), self.counts.0]
    }
}

/// Every deal of a rig to some ways, walked one by one.
///
/// Nearly every step leads to a deal: an output never takes so much that those after it
/// go without, nor so little that those after it, which may not take more, cannot take
/// the rest; in an even deal it takes just the rating that is left for it.
#[derive(Clone, Debug)]
pub(crate) struct Deals {
    /// With `even`, outputs of one kind carry equal ratings.
    even: bool,
    /// Whether one driver may be split.
    split: bool,
    weights: Weights,
    /// The way at work.
    way: usize,
    /// What is still to be dealt to it: the group of the driver that is split, and the
    /// kind of output that takes its coils.
    ahead: Vec<Option<(u8, usize)>>,
    halves: Option<(u8, usize)>,
    /// The outputs of the way.
    seats: Vec<Seat>,
    /// What each output so far could take, and what it takes.
    levels: Vec<Level>,
}

#[derive(Clone, Copy, Debug)]
struct Level {
    left: Counts,
    /// The rating of all that this output and those after it take.
    rating: u64,
    /// The rating that it must take, where that is settled.
    target: Option<u64>,
    taken: Option<Counts>,
}

/// What a walk to the next deal came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Next {
    /// A deal.
    Found,
    /// The budget ran out; ask again.
    Pending,
    /// There are no more.
    End,
}

impl Deals {
    pub(crate) fn new(rig: &Rig, ways: &[Vec<Outlet>], even: bool, split: bool) -> Self {
        let mut this = Self {
            even,
            split,
            weights: Weights::of(rig),
            way: 0,
            ahead: Vec::new(),
            halves: None,
            seats: Vec::new(),
            levels: Vec::new(),
        };
        this.begin_way(rig, ways);
        this
    }

    /// The way of the deal it stands at, by number.
    pub(crate) fn way(&self) -> usize {
        self.way
    }

    /// Whether a driver is split in the deal it stands at.
    pub(crate) fn is_split(&self) -> bool {
        self.halves.is_some()
    }

    /// What hangs on each output in the deal it stands at, in the way's order; `None` of one
    /// that has nothing yet.
    pub(crate) fn portions(&self) -> impl Iterator<Item = Option<Portion>> + '_ {
        let portion = |(seat, level): (&Seat, &Level)| {
            level.taken.map(|counts| Portion { half: seat.half, counts })
        };
        self.seats.iter().zip(&self.levels).map(portion)
    }

    /// Lines up what is to be dealt to a way, whole drivers first.
    fn begin_way(&mut self, rig: &Rig, ways: &[Vec<Outlet>]) {
        let Some(way) = ways.get(self.way) else { return };
        self.ahead.clear();
        if self.split {
            splits(rig, way, &mut self.ahead);
        }
        self.ahead.push(None);
    }

    /// Walks to the next deal.
    pub(crate) fn next(&mut self, rig: &Rig, ways: &[Vec<Outlet>], budget: &mut Steps) -> Next {
        while budget.any() {
            let Some(way) = ways.get(self.way) else { return Next::End };
            if self.levels.is_empty() {
                budget.take(steps(way.len()).saturating_mul(4).saturating_add(4));
                match self.ahead.pop() {
                    Some(halves) => self.begin(rig, way, halves),
                    None => {
                        self.way = self.way.saturating_add(1);
                        self.begin_way(rig, ways);
                    }
                }
                continue;
            }
            match self.turn(budget) {
                Turn::Spent => {
                    self.levels.pop();
                }
                Turn::Useless => {}
                Turn::Taken(level) => {
                    if self.levels.len() == self.seats.len() {
                        return Next::Found;
                    }
                    self.levels.push(level);
                }
            }
        }
        Next::Pending
    }

    fn begin(&mut self, rig: &Rig, way: &[Outlet], halves: Option<(u8, usize)>) {
        let mut left = Counts(0);
        for (number, group) in rig.groups().iter().enumerate() {
            left = left.with(number, group.count);
        }
        let mut rating = self.weights.counts(left);
        if let Some((group, _)) = halves {
            left = left.less(usize::from(group), 1);
            let coil = self.weights.half(Some(group));
            rating = self.weights.counts(left).saturating_add(coil.saturating_mul(2));
        }
        self.halves = halves;
        self.seats = seats(way, halves);
        let first = self.level(0, left, rating);
        self.levels.extend(first);
    }

    /// What is left for an output and those after it, if they can take it.
    fn level(&self, at: usize, left: Counts, rating: u64) -> Option<Level> {
        let seat = self.seats.get(at)?;
        let mut target = None;
        if self.even {
            let known = seat.same_kind.and_then(|other| self.rating_of(other));
            target = match known {
                Some(known) => Some(known),
                // The last kind to begin takes what all others leave, in equal parts.
                None if seat.new_kinds == 0 => {
                    let rest = rating.checked_sub(self.settled(at))?;
                    let parts = seat.more.saturating_add(1);
                    if rest.checked_rem(parts) != Some(0) {
                        return None;
                    }
                    rest.checked_div(parts)
                }
                None => None,
            };
        }
        Some(Level { left, rating, target, taken: None })
    }

    /// The rating on an output that has its portion.
    fn rating_of(&self, at: usize) -> Option<u64> {
        let (seat, level) = (self.seats.get(at)?, self.levels.get(at)?);
        Some(self.weights.counts(level.taken?).saturating_add(self.weights.half(seat.half)))
    }

    /// What the outputs after one take whose kinds have begun before it, all together.
    fn settled(&self, at: usize) -> u64 {
        let mut sum = 0_u64;
        for seat in self.seats.iter().skip(at.saturating_add(1)) {
            let mut first = seat.same_kind;
            while let Some(other) = first.filter(|other| *other >= at) {
                first = self.seats.get(other).and_then(|seat| seat.same_kind);
            }
            if let Some(known) = first.and_then(|first| self.rating_of(first)) {
                sum = sum.saturating_add(known);
            }
        }
        sum
    }

    /// Gives the last output the next smaller portion; the last of all takes everything.
    fn turn(&mut self, budget: &mut Steps) -> Turn {
        let at = self.levels.len().saturating_sub(1);
        let (Some(seat), Some(level)) = (self.seats.get(at).copied(), self.levels.last().copied())
        else {
            return Turn::Spent;
        };
        let last = at.saturating_add(1) == self.seats.len();
        if last && level.taken.is_some() {
            return Turn::Spent;
        }
        let like = seat.like.and_then(|like| self.levels.get(like)).and_then(|level| level.taken);
        let half = self.weights.half(seat.half);
        let target = match level.target {
            Some(target) if target < half => return Turn::Spent,
            Some(target) => Some(target.saturating_sub(half)),
            None => None,
        };
        let mut choice = Choice {
            weights: &self.weights,
            left: level.left,
            room: level.left.total().saturating_sub(seat.needy),
            target,
            most: like,
            tried: 0,
        };
        let next = if last {
            let whole = like.is_none_or(|like| level.left <= like)
                && target.is_none_or(|target| self.weights.counts(level.left) == target);
            whole.then_some(level.left)
        } else {
            match level.taken {
                None => choice.first(),
                Some(taken) => choice.after(taken),
            }
        };
        // A group is looked at in about half a step.
        budget.take(choice.tried.wrapping_div(2).saturating_add(3));
        let Some(taken) = next.filter(|taken| seat.half.is_some() || taken.0 > 0) else {
            return Turn::Spent;
        };
        if let Some(level) = self.levels.last_mut() {
            level.taken = Some(taken);
        }
        if last {
            return Turn::Taken(level);
        }
        let rest = Counts(level.left.0.saturating_sub(taken.0));
        if seat.bounded {
            budget.take(steps(self.seats.len()).wrapping_div(8));
            // As this output takes less, those after it may take less and must take more.
            if rest.spread() > self.most_after(at) {
                return Turn::Spent;
            }
        }
        let here = self.weights.counts(taken).saturating_add(half);
        let Some(rating) = level.rating.checked_sub(here) else { return Turn::Useless };
        if self.even {
            budget.take(steps(self.seats.len()).wrapping_div(2));
        }
        self.level(at.saturating_add(1), rest, rating).map_or(Turn::Useless, Turn::Taken)
    }

    /// The most that the outputs after one may take together, each like one up to it.
    fn most_after(&self, at: usize) -> u128 {
        let mut sum = 0_u128;
        for seat in self.seats.iter().skip(at.saturating_add(1)) {
            let mut like = seat.like;
            while let Some(other) = like.filter(|other| *other > at) {
                like = self.seats.get(other).and_then(|seat| seat.like);
            }
            if let Some(taken) =
                like.and_then(|like| self.levels.get(like)).and_then(|level| level.taken)
            {
                sum = sum.saturating_add(taken.spread());
            }
        }
        sum
    }
}

/// What giving an output its next portion came to.
enum Turn {
    /// It has one, and this is what is left for the next output.
    Taken(Level),
    /// It has one that leaves what the others cannot take.
    Useless,
    /// It has had them all.
    Spent,
}
