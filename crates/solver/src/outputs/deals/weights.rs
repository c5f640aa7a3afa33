//! What portions are rated, in whole numbers.

use super::{Counts, Portion};
use crate::ohms::gcd;
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
            let times = parts.checked_div(gcd(unit, parts)).unwrap_or(1);
            unit = unit.saturating_mul(times);
        }
        let mut this = Self { groups: rig.groups().len(), ..Self::default() };
        let groups = rig.groups().iter().zip(&mut this.coils).zip(&mut this.drivers);
        for ((group, coil), driver) in groups {
            let rating = rig.coil_rating(group);
            let parts = unit.checked_div(rating.denominator()).unwrap_or(1);
            let weight = rating.numerator().saturating_mul(parts);
            *coil = u64::try_from(weight).unwrap_or(u64::MAX);
            *driver = coil.saturating_mul(group.coils.into());
        }
        let mut divisor = 0;
        for (slot, weight) in this.divisors.iter_mut().zip(&this.drivers).rev() {
            divisor = u64::try_from(gcd(divisor.into(), (*weight).into())).unwrap_or(1);
            *slot = divisor;
        }
        this
    }

    pub(super) fn driver(&self, group: usize) -> u64 {
        self.drivers.get(group).copied().unwrap_or(0)
    }

    pub(super) fn half(&self, half: Option<u8>) -> u64 {
        half.and_then(|group| self.coils.get(usize::from(group))).copied().unwrap_or(0)
    }

    /// What every sum of drivers of a group and those after it is a multiple of.
    pub(super) fn divisor(&self, group: usize) -> u64 {
        self.divisors.get(group).copied().unwrap_or(0)
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
