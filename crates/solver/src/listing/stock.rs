//! The drivers that hang on one output, as a listing sees them.

use crate::ohms::{Ohms, Ratio};
use crate::outputs::deals::Portion;
use crate::rig::Rig;

/// Drivers of one kind.
#[derive(Clone, Debug)]
pub(crate) struct Kind {
    /// The driver group.
    pub(crate) group: usize,
    pub(crate) count: u32,
    /// Coils of each driver that hang here.
    pub(crate) coils: u32,
    pub(crate) ohms: Ohms,
    pub(crate) coil_rating: Ratio,
}

/// The drivers that hang on one output: whole ones of each group, then the coil of a
/// driver that is split.
#[derive(Clone, Debug)]
pub(crate) struct Stock {
    pub(super) kinds: Vec<Kind>,
}

impl Stock {
    /// What a portion holds.
    pub(crate) fn of(rig: &Rig, portion: Portion) -> Self {
        let mut kinds = Vec::new();
        let mut add = |number: usize, count: u32, whole: bool| {
            if let Some(group) = rig.groups().get(number).filter(|_| count > 0) {
                kinds.push(Kind {
                    group: number,
                    count,
                    coils: if whole { group.coils } else { 1 },
                    ohms: group.ohms,
                    coil_rating: rig.coil_rating(group),
                });
            }
        };
        for number in 0..rig.groups().len() {
            add(number, portion.counts.of(number), true);
        }
        if let Some(number) = portion.half {
            add(usize::from(number), 1, false);
        }
        Self { kinds }
    }

    pub(crate) fn kinds(&self) -> &[Kind] {
        &self.kinds
    }

    /// Count and coils of each kind.
    pub(crate) fn groups(&self) -> impl Iterator<Item = (u32, u32)> + '_ {
        self.kinds.iter().map(|kind| (kind.count, kind.coils))
    }

    pub(crate) fn coils(&self) -> u32 {
        self.groups().map(|(count, coils)| count.saturating_mul(coils)).sum()
    }

    #[cfg(test)]
    pub(crate) fn plain(groups: &[(u32, u32)]) -> Self {
        let kind = |(group, (count, coils)): (usize, &(u32, u32))| Kind {
            group,
            count: *count,
            coils: *coils,
            ohms: Ohms::new(Ratio::ONE),
            coil_rating: Ratio::ONE,
        };
        Self { kinds: groups.iter().enumerate().map(kind).collect() }
    }
}
