//! Dealing drivers to the outputs of a way.
//!
//! A *portion* is what hangs on one output. Deals are distinct up to exchanging outputs
//! of one kind and drivers of one group, so outputs of one kind take portions that never
//! rise. One dual-coil driver may be split: a coil on each of two outputs of one kind.

use super::Place;
use crate::ohms::Ratio;
use crate::rig::Rig;
use crate::short;

/// What hangs on one output.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Portion {
    /// The group of a driver of which one coil hangs here, the other on a like output.
    pub(crate) half: Option<usize>,
    /// Whole drivers of each group.
    pub(crate) counts: Vec<u32>,
}

impl Portion {
    fn is_empty(&self) -> bool {
        self.half.is_none() && self.counts.iter().all(|n| *n == 0)
    }

    /// The rating of everything on it, as evenness sees it.
    pub(crate) fn rating(&self, rig: &Rig) -> Option<Ratio> {
        let mut sum: Option<Ratio> = None;
        for (number, (group, count)) in rig.groups().iter().zip(&self.counts).enumerate() {
            let half = u32::from(self.half == Some(number));
            let coils = count.saturating_mul(group.coils).saturating_add(half);
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
    /// The group of the driver that is split, if one is.
    pub(crate) split: Option<usize>,
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
    ahead: Vec<Option<(usize, usize)>>,
    halves: Option<(usize, usize)>,
    /// What each output so far could take, and what it takes.
    levels: Vec<Level>,
}

#[derive(Clone, Debug)]
struct Level {
    left: Vec<u32>,
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
            self.ahead.extend(splits(rig, way).into_iter().rev().map(Some));
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
            } else if rest.iter().all(|n| *n == 0) {
                let portions = self.levels.iter().filter_map(|level| level.taken.clone()).collect();
                let split = self.halves.map(|(group, _)| group);
                *budget = budget.saturating_sub(20);
                return Next::Found(Deal { way: self.way, portions, split });
            }
        }
        Next::Pending
    }

    fn begin(&mut self, rig: &Rig, halves: Option<(usize, usize)>) {
        let mut left: Vec<u32> = rig.groups().iter().map(|group| group.count).collect();
        if let Some((group, _)) = halves
            && let Some(count) = left.get_mut(group)
        {
            *count = count.saturating_sub(1);
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
                level.taken = Some(Portion { half, counts: level.left.clone() });
                true
            }
            Some(taken) => !last && fewer(&mut taken.counts, &level.left),
        }
    }

    /// The group of the split driver, if an output takes a coil of it: the first two of
    /// its kind do.
    fn half(&self, way: &[Place], at: usize) -> Option<usize> {
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
        let taken = |at: usize| self.levels.get(at).and_then(|level| level.taken.as_ref());
        let (Some(portion), Some(place)) = (taken(at), way.get(at)) else { return false };
        let like = (0..at).rev().find(|i| way.get(*i).is_some_and(|p| p.kind == place.kind));
        let Some(like) = like.and_then(taken) else { return !portion.is_empty() };
        !portion.is_empty()
            && (like.half != portion.half || portion <= like)
            && (!self.even || portion.rating(rig) == like.rating(rig))
    }

    fn rest(&self) -> Option<Vec<u32>> {
        let level = self.levels.last()?;
        let taken = level.taken.as_ref()?;
        Some(level.left.iter().zip(&taken.counts).map(|(a, b)| a.saturating_sub(*b)).collect())
    }
}

/// Each dual-coil group with each kind of output that a way has twice.
fn splits(rig: &Rig, way: &[Place]) -> Vec<(usize, usize)> {
    let mut kinds: Vec<usize> = way.iter().map(|place| place.kind).collect();
    short::sort(&mut kinds, usize::cmp);
    let pairs = kinds.iter().zip(kinds.iter().skip(1));
    let mut twice: Vec<usize> = pairs.filter(|(a, b)| a == b).map(|(a, _)| *a).collect();
    twice.dedup();
    let dual = rig.groups().iter().enumerate().filter(|(_, group)| group.coils == 2);
    dual.flat_map(|(group, _)| twice.iter().map(move |kind| (group, *kind))).collect()
}

/// The next smaller choice of at most so many of each.
fn fewer(counts: &mut [u32], most: &[u32]) -> bool {
    for (count, most) in counts.iter_mut().zip(most).rev() {
        match count.checked_sub(1) {
            Some(less) => {
                *count = less;
                return true;
            }
            None => *count = *most,
        }
    }
    false
}
