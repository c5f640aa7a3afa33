//! The drivers that hang on one output, as a listing sees them.

use crate::ohms::{Ohms, Ratio};
use crate::outputs::deals::Portion;
use crate::rig::{Group, Rig};

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
    pub(crate) fn of(rig: &Rig, portion: &Portion) -> Self {
        let kind = |number: usize, group: &Group, count, coils| Kind {
            group: number,
            count,
            coils,
            ohms: group.ohms,
            coil_rating: rig.coil_rating(group),
        };
        let whole = rig.groups().iter().zip(&portion.counts).enumerate();
        let mut kinds: Vec<Kind> = whole
            .filter(|(_, (_, count))| **count > 0)
            .map(|(number, (group, count))| kind(number, group, *count, group.coils))
            .collect();
        if let Some(number) = portion.half {
            kinds.extend(rig.groups().get(number).map(|group| kind(number, group, 1, 1)));
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
