//! What portions are rated, in whole numbers.

use super::{Counts, Portion};
use crate::ohms::{gcd, gcd64};
use crate::rig::Rig;

/// What drivers and coils are rated, as evenness sees it: whole numbers in one unit for
/// the whole rig, so that sums of them are compared and divided as they are.
#[derive(Clone, Debug, Default)]
pub(crate) struct Weights {
    /// How many groups there are.
    pub(super) groups: usize,
    /// Of a whole driver of each group.
    drivers: [u64; 8],
    /// Of one coil of each group.
    coils: [u64; 8],
    /// What every sum of drivers from a group on is a multiple of.
    divisors: [u64; 8],
}

impl Weights {
    pub(crate) fn of(rig: &Rig) -> Self {
        let mut unit = 1_u128;
        for group in rig.groups() {
            // Denominators divide the parts that a watt has, times 4.
            let parts = rig.coil_rating(group).denominator();
            let times = parts.checked_div(gcd(unit, parts));
            unit = times.map_or(unit, |times| unit.saturating_mul(times));
        }
        let mut this = Self { groups: rig.groups().len(), ..Self::default() };
        let groups = rig.groups().iter().zip(&mut this.coils).zip(&mut this.drivers);
        for ((group, coil), driver) in groups {
            let weight = rig.coil_rating(group).in_parts(unit);
            // What does not fit weighs more than anything that does: the bounds of watts
            // leave it far below.
            *coil = weight.and_then(|weight| u64::try_from(weight).ok()).map_or(u64::MAX, |w| w);
            *driver = coil.saturating_mul(group.coils.into());
        }
        let mut divisor = 0;
        for (slot, weight) in this.divisors.iter_mut().zip(&this.drivers).rev() {
            divisor = gcd64(divisor, *weight);
            *slot = divisor;
        }
        this
    }

    /// Of a driver of a group; a group that is not there weighs nothing.
    pub(super) fn driver(&self, group: usize) -> u64 {
        self.drivers.get(group).map_or(0, |weight| *weight)
    }

    /// Of the coil of a driver that is split, where there is one.
    pub(super) fn half(&self, half: Option<u8>) -> u64 {
        half.and_then(|group| self.coils.get(usize::from(group))).map_or(0, |weight| *weight)
    }

    /// What every sum of drivers of a group and those after it is a multiple of.
    pub(super) fn divisor(&self, group: usize) -> u64 {
        self.divisors.get(group).map_or(0, |divisor| *divisor)
    }

    /// Of everything on one output.
    pub(crate) fn portion(&self, portion: Portion) -> u64 {
        self.counts(portion.counts).saturating_add(self.half(portion.half))
    }

    pub(super) fn counts(&self, counts: Counts) -> u64 {
        let mut sum = 0_u64;
        for (group, weight) in self.drivers.iter().enumerate() {
            sum = sum.saturating_add(weight.saturating_mul(counts.of(group).into()));
        }
        sum
    }
}
