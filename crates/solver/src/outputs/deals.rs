//! Dealing drivers to the outputs of a way.
//!
//! A *portion* is what hangs on one output. Deals are distinct up to exchanging outputs
//! of one kind and drivers of one group, so outputs of one kind take portions that never
//! rise. One dual-coil driver may be split: a coil on each of two outputs of one kind.

use super::Place;
use crate::ohms::Ratio;
use crate::problem::Code;
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

/// Every deal of a rig to some ways.
///
/// With `even`, outputs of one kind carry equal ratings; `split` allows one driver to be
/// split. At most `most` deals are made: more are `too_many`.
pub(crate) fn deals(
    rig: &Rig,
    ways: &[Vec<Place>],
    even: bool,
    split: bool,
    most: usize,
) -> Result<Vec<Deal>, Code> {
    let mut deals = Vec::new();
    for (number, way) in ways.iter().enumerate() {
        let counts: Vec<u32> = rig.groups().iter().map(|group| group.count).collect();
        let mut dealer = Dealer { rig, way, number, even, most, deals: &mut deals, steps: 0 };
        dealer.deal_whole(counts.clone())?;
        if split {
            for (group, kind) in dealer.splits() {
                let mut counts = counts.clone();
                if let Some(count) = counts.get_mut(group) {
                    *count = count.saturating_sub(1);
                }
                dealer.deal_split(counts, group, kind)?;
            }
        }
    }
    Ok(deals)
}

/// The most portions tried in dealing one way.
const MOST_TRIED: u64 = 1_000_000;

struct Dealer<'a> {
    rig: &'a Rig,
    way: &'a [Place],
    number: usize,
    even: bool,
    most: usize,
    deals: &'a mut Vec<Deal>,
    steps: u64,
}

impl Dealer<'_> {
    /// Each dual-coil group with each kind of output that the way has twice.
    fn splits(&self) -> Vec<(usize, usize)> {
        let mut kinds: Vec<usize> = self.way.iter().map(|place| place.kind).collect();
        short::sort(&mut kinds, usize::cmp);
        let mut twice: Vec<usize> = kinds
            .iter()
            .zip(kinds.iter().skip(1))
            .filter(|(a, b)| a == b)
            .map(|(a, _)| *a)
            .collect();
        twice.dedup();
        let dual = self.rig.groups().iter().enumerate().filter(|(_, group)| group.coils == 2);
        dual.flat_map(|(group, _)| twice.iter().map(move |kind| (group, *kind))).collect()
    }

    fn deal_whole(&mut self, counts: Vec<u32>) -> Result<(), Code> {
        let halves = vec![None; self.way.len()];
        self.next(&halves, counts, &mut Vec::new(), None)
    }

    fn deal_split(&mut self, counts: Vec<u32>, group: usize, kind: usize) -> Result<(), Code> {
        let mut left = 2_u32;
        let mut halves = Vec::new();
        for place in self.way {
            let here = place.kind == kind && left > 0;
            left = left.saturating_sub(u32::from(here));
            halves.push(here.then_some(group));
        }
        self.next(&halves, counts, &mut Vec::new(), Some(group))
    }

    /// Gives the next output every portion it may have, then deals the rest.
    fn next(
        &mut self,
        halves: &[Option<usize>],
        left: Vec<u32>,
        portions: &mut Vec<Portion>,
        split: Option<usize>,
    ) -> Result<(), Code> {
        let at = portions.len();
        let Some(place) = self.way.get(at) else {
            if left.iter().all(|n| *n == 0) {
                if self.deals.len() >= self.most {
                    return Err(Code::TooMany);
                }
                let portions = portions.clone();
                self.deals.push(Deal { way: self.number, portions, split });
            }
            return Ok(());
        };
        let half = halves.get(at).copied().flatten();
        let earlier = self.way.iter().zip(portions.iter()).rev();
        let like = earlier.into_iter().find(|(other, _)| other.kind == place.kind);
        let like = like.map(|(_, portion)| portion.clone());
        // Outputs of one kind take portions that never rise, those with a half first.
        let most = like.clone().filter(|portion| portion.half == half);
        let last = at.saturating_add(1) == self.way.len();
        let mut counts = left.clone();
        loop {
            self.steps = self.steps.saturating_add(1);
            if self.steps > MOST_TRIED {
                return Err(Code::TooMuchWork);
            }
            let portion = Portion { half, counts: counts.clone() };
            let fits = !portion.is_empty() && most.as_ref().is_none_or(|most| portion <= *most);
            if fits && self.even_beside(&portion, like.as_ref()) {
                let rest = left.iter().zip(&counts).map(|(a, b)| a.saturating_sub(*b)).collect();
                portions.push(portion);
                self.next(halves, rest, portions, split)?;
                portions.pop();
            }
            if last || !fewer(&mut counts, &left) {
                return Ok(());
            }
        }
    }

    /// Whether an even deal may give this portion beside one on a like output.
    fn even_beside(&self, portion: &Portion, like: Option<&Portion>) -> bool {
        match like {
            Some(like) if self.even => portion.rating(self.rig) == like.rating(self.rig),
            _ => true,
        }
    }
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
