//! Dealing drivers to the outputs of a way.
//!
//! A *portion* is what hangs on one output. Deals are distinct up to exchanging outputs
//! of one kind and drivers of one group, so outputs of one kind take portions that never
//! rise. One dual-coil driver may be split: a coil on each of two outputs of one kind.

use super::Place;
use crate::ohms::Ratio;
use crate::rig::Rig;
use crate::short;

/// Whole drivers of each group, a byte a group, the first group's highest.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Counts(pub(crate) u64);

impl Counts {
    /// How many there are of a group.
    pub(crate) fn of(self, group: usize) -> u32 {
        (self.0.wrapping_shr(place(group)) & 0xFF) as u32
    }

    /// With so many more of a group, of which there are never more than 32.
    pub(crate) fn with(self, group: usize, count: u32) -> Self {
        Self(self.0.saturating_add(u64::from(count).wrapping_shl(place(group))))
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
    fn is_empty(self) -> bool {
        self.half.is_none() && self.counts.0 == 0
    }

    /// In words, to be numbered.
    pub(crate) fn words(self) -> [u64; 2] {
        [self.half.map_or(0, |half| u64::from(half).saturating_add(1)), self.counts.0]
    }

    /// The rating of everything on it, as evenness sees it.
    pub(crate) fn rating(self, rig: &Rig) -> Option<Ratio> {
        let mut sum: Option<Ratio> = None;
        for (number, group) in rig.groups().iter().enumerate() {
            let half = u32::from(self.half.map(usize::from) == Some(number));
            let coils = self.counts.of(number).saturating_mul(group.coils).saturating_add(half);
            let Some(coils) = Ratio::whole(u128::from(coils)) else { continue };
            let part = rig.coil_rating(group).times(coils)?;
            sum = Some(match sum {
                Some(sum) => sum.plus(part)?,
                None => part,
            });
        }
        sum
    }
}

/// A portion for each output of a way.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Deal {
    /// The way, by number.
    pub(crate) way: usize,
    /// What hangs on each output, in the way's order.
    pub(crate) portions: Vec<Portion>,
    /// Whether a driver is split.
    pub(crate) split: bool,
}

/// Every deal of a rig to some ways, walked one by one.
#[derive(Clone, Debug)]
pub(crate) struct Deals {
    /// With `even`, outputs of one kind carry equal ratings.
    even: bool,
    /// Whether one driver may be split.
    split: bool,
    /// The way at work.
    way: usize,
    /// What is still to be dealt to it: the group of the driver that is split, and the
    /// kind of output that takes its coils.
    ahead: Vec<Option<(u8, usize)>>,
    halves: Option<(u8, usize)>,
    /// What each output so far could take, and what it takes.
    levels: Vec<Level>,
}

#[derive(Clone, Copy, Debug)]
struct Level {
    left: Counts,
    taken: Option<Portion>,
}

/// What a walk to the next deal came to.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Next {
    /// A deal.
    Found(Deal),
    /// The budget ran out; ask again.
    Pending,
    /// There are no more.
    End,
}

impl Deals {
    pub(crate) fn new(rig: &Rig, ways: &[Vec<Place>], even: bool, split: bool) -> Self {
        let mut this =
            Self { even, split, way: 0, ahead: Vec::new(), halves: None, levels: Vec::new() };
        this.begin_way(rig, ways);
        this
    }

    /// Lines up what is to be dealt to a way, whole drivers first.
    fn begin_way(&mut self, rig: &Rig, ways: &[Vec<Place>]) {
        let Some(way) = ways.get(self.way) else { return };
        self.ahead.clear();
        if self.split {
            splits(rig, way, &mut self.ahead);
        }
        self.ahead.push(None);
    }

    /// Walks to the next deal.
    pub(crate) fn next(&mut self, rig: &Rig, ways: &[Vec<Place>], budget: &mut u64) -> Next {
        while *budget > 0 {
            *budget = budget.saturating_sub(2);
            let Some(way) = ways.get(self.way) else { return Next::End };
            if self.levels.is_empty() {
                match self.ahead.pop() {
                    Some(halves) => self.begin(rig, halves),
                    None => {
                        self.way = self.way.saturating_add(1);
                        self.begin_way(rig, ways);
                    }
                }
                continue;
            }
            if !self.turn(way) {
                self.levels.pop();
                continue;
            }
            if !self.fits(rig, way) {
                continue;
            }
            let Some(rest) = self.rest() else { continue };
            if self.levels.len() < way.len() {
                self.levels.push(Level { left: rest, taken: None });
            } else if rest == Counts(0) {
                let portions = self.levels.iter().filter_map(|level| level.taken).collect();
                *budget = budget.saturating_sub(20);
                return Next::Found(Deal { way: self.way, portions, split: self.halves.is_some() });
            }
        }
        Next::Pending
    }

    fn begin(&mut self, rig: &Rig, halves: Option<(u8, usize)>) {
        let mut left = Counts(0);
        for (number, group) in rig.groups().iter().enumerate() {
            left = left.with(number, group.count);
        }
        if let Some((group, _)) = halves {
            left = left.less(usize::from(group), 1);
        }
        self.halves = halves;
        self.levels.push(Level { left, taken: None });
    }

    /// Gives the last output the next smaller portion; the last of all takes everything.
    fn turn(&mut self, way: &[Place]) -> bool {
        let at = self.levels.len().saturating_sub(1);
        let half = self.half(way, at);
        let last = self.levels.len() == way.len();
        let Some(level) = self.levels.last_mut() else { return false };
        match &mut level.taken {
            None => {
                level.taken = Some(Portion { half, counts: level.left });
                true
            }
            Some(taken) => !last && fewer(&mut taken.counts, level.left),
        }
    }

    /// The group of the split driver, if an output takes a coil of it: the first two of
    /// its kind do.
    fn half(&self, way: &[Place], at: usize) -> Option<u8> {
        let (group, kind) = self.halves?;
        let of_kind = |place: &&Place| place.kind == kind;
        let before = way.iter().take(at).filter(of_kind).count();
        let here = way.get(at).is_some_and(|place| place.kind == kind);
        (here && before < 2).then_some(group)
    }

    /// Outputs of one kind take portions that never rise, those with a half first, and in
    /// an even deal portions of equal rating.
    fn fits(&self, rig: &Rig, way: &[Place]) -> bool {
        let at = self.levels.len().saturating_sub(1);
        let taken = |at: usize| self.levels.get(at).and_then(|level| level.taken);
        let (Some(portion), Some(place)) = (taken(at), way.get(at)) else { return false };
        let like = (0..at).rev().find(|i| way.get(*i).is_some_and(|p| p.kind == place.kind));
        let Some(like) = like.and_then(taken) else { return !portion.is_empty() };
        !portion.is_empty()
            && (like.half != portion.half || portion <= like)
            && (!self.even || portion.rating(rig) == like.rating(rig))
    }

    fn rest(&self) -> Option<Counts> {
        let level = self.levels.last()?;
        Some(Counts(level.left.0.saturating_sub(level.taken?.counts.0)))
    }
}

/// Each dual-coil group with each kind of output that a way has twice, the last first.
fn splits(rig: &Rig, way: &[Place], ahead: &mut Vec<Option<(u8, usize)>>) {
    let mut kinds: Vec<usize> = way.iter().map(|place| place.kind).collect();
    short::sort(&mut kinds, usize::cmp);
    for (group, number) in rig.groups().iter().zip(0_u8..) {
        let mut last = None;
        for pair in kinds.windows(2) {
            if let [kind, next] = pair
                && kind == next
                && last.replace(*kind) != Some(*kind)
                && group.coils == 2
            {
                ahead.push(Some((number, *kind)));
            }
        }
    }
    ahead.reverse();
}

/// The next smaller choice of at most so many of each.
fn fewer(counts: &mut Counts, most: Counts) -> bool {
    for group in (0..8).rev() {
        if counts.of(group) > 0 {
            *counts = counts.less(group, 1);
            return true;
        }
        *counts = counts.with(group, most.of(group));
    }
    false
}
