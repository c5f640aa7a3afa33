//! What one output may take: drivers of each group, the greatest choice first.

use super::{Counts, Weights};
use crate::count::within;

/// What is asked of a choice.
pub(super) struct Choice<'a> {
    pub(super) weights: &'a Weights,
    /// At most so many of each group.
    pub(super) left: Counts,
    /// At most so many in all.
    pub(super) room: u32,
    /// Of just this rating.
    pub(super) target: Option<u64>,
    /// No greater than this.
    pub(super) most: Option<Counts>,
    /// How often a group was looked at.
    pub(super) tried: u64,
}

/// What a choice still has to take of the groups that are not settled.
#[derive(Clone, Copy)]
struct Rest {
    room: u32,
    rating: Option<u64>,
    /// Whether it is as great as it may be so far.
    tight: bool,
}

impl Rest {
    fn less(self, count: u32, weight: u64) -> Option<Self> {
        let rating = match self.rating {
            Some(rating) => Some(rating.checked_sub(weight.checked_mul(count.into())?)?),
            None => None,
        };
        Some(Self { room: self.room.checked_sub(count)?, rating, ..self })
    }
}

impl Choice<'_> {
    /// The greatest choice.
    pub(super) fn first(&mut self) -> Option<Counts> {
        let rest = Rest { room: self.room, rating: self.target, tight: self.most.is_some() };
        self.fill(0, Counts::default(), rest)
    }

    /// The greatest choice that is smaller than one.
    pub(super) fn after(&mut self, taken: Counts) -> Option<Counts> {
        for group in (0..self.weights.groups).rev() {
            let count = taken.of(group);
            if count == 0 {
                continue;
            }
            // What stands before is kept.
            let mut kept = Counts::default();
            let mut rest = Rest { room: self.room, rating: self.target, tight: false };
            for earlier in 0..group {
                kept = kept.with(earlier, taken.of(earlier));
                rest = rest.less(taken.of(earlier), self.weights.driver(earlier))?;
            }
            for fewer in (0..count).rev() {
                if let Some(found) = self.with(group, fewer, kept, rest) {
                    return Some(found);
                }
            }
        }
        None
    }

    fn with(&mut self, group: usize, count: u32, kept: Counts, rest: Rest) -> Option<Counts> {
        let rest = rest.less(count, self.weights.driver(group))?;
        self.fill(group.saturating_add(1), kept.with(group, count), rest)
    }

    /// The greatest choice that begins with what is kept of the groups before one.
    fn fill(&mut self, group: usize, kept: Counts, rest: Rest) -> Option<Counts> {
        self.tried = self.tried.saturating_add(1);
        if group >= self.weights.groups {
            return rest.rating.is_none_or(|rating| rating == 0).then_some(kept);
        }
        if let Some(rating) = rest.rating.filter(|rating| *rating > 0) {
            let within = rating <= self.most_from(group);
            if !within || rating.checked_rem(self.weights.divisor(group)) != Some(0) {
                return None;
            }
        }
        let cap = self.most.filter(|_| rest.tight).map(|most| most.of(group));
        let mut count = self.left.of(group).min(rest.room);
        count = cap.map_or(count, |cap| count.min(cap));
        if let Some(rating) = rest.rating
            && let Some(fit) = rating.checked_div(self.weights.driver(group))
        {
            count = count.min(within(fit));
        }
        loop {
            let tight = cap == Some(count);
            if let Some(found) = self.with(group, count, kept, Rest { tight, ..rest }) {
                return Some(found);
            }
            count = count.checked_sub(1)?;
        }
    }

    /// The rating of all that is left from a group on.
    fn most_from(&self, group: usize) -> u64 {
        let mut sum = 0_u64;
        for group in group..self.weights.groups {
            let weight = self.weights.driver(group);
            sum = sum.saturating_add(weight.saturating_mul(self.left.of(group).into()));
        }
        sum
    }
}
