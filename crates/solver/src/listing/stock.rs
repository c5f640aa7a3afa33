//! The drivers that hang on one output, as a listing sees them.

use crate::ohms::{Ohms, Ratio};
use crate::outputs::deals::Portion;
use crate::rig::Rig;

/// Drivers of one kind.
#[derive(Clone, Debug)]
pub(crate) struct Kind {
    /// The driver group.
    pub(crate) group: usize,
    pub(crate) count: u8,
    /// Coils of each driver that hang here.
    pub(crate) coils: u32,
    pub(crate) ohms: Ohms,
    /// What evenness is judged by.
    pub(crate) coil_rating: Ratio,
    /// What heat is judged by: the coil's own watts where all that hang here are known.
    pub(crate) takes: Ratio,
}

/// The drivers that hang on one output: whole ones of each group, then the coil of a
/// driver that is split.
#[derive(Clone, Debug)]
pub(crate) struct Stock {
    pub(super) kinds: Vec<Kind>,
    /// Whether the watts of every driver that hangs here are known.
    pub(crate) rated: bool,
}

impl Stock {
    /// What a portion holds.
    pub(crate) fn of(rig: &Rig, portion: Portion) -> Self {
        let mut kinds = Vec::new();
        let mut rated = true;
        let mut add = |number: usize, count: u8, whole: bool| {
            if let Some(group) = rig.groups().get(number).filter(|_| count > 0) {
                let coil_rating = rig.coil_rating(group);
                rated = rated && group.watts.is_some();
                kinds.push(Kind {
                    group: number,
                    count,
                    coils: if whole { group.coils } else { 1 },
                    ohms: group.ohms,
                    coil_rating,
                    takes: group.coil_rating().unwrap_or(coil_rating),
                });
            }
        };
        for number in 0..rig.groups().len() {
            add(number, portion.counts.byte(number), true);
        }
        if let Some(number) = portion.half {
            add(usize::from(number), 1, false);
        }
        if !rated {
            for kind in &mut kinds {
                kind.takes = kind.coil_rating;
            }
        }
        Self { kinds, rated }
    }

    pub(crate) fn kinds(&self) -> &[Kind] {
        &self.kinds
    }

    /// Count and coils of each kind.
    pub(crate) fn groups(&self) -> impl Iterator<Item = (u32, u32)> + '_ {
        self.kinds.iter().map(|kind| (kind.count.into(), kind.coils))
    }

    pub(crate) fn coils(&self) -> u32 {
        self.groups().map(|(count, coils)| count.saturating_mul(coils)).sum()
    }

    #[cfg(test)]
    pub(crate) fn plain(groups: &[(u32, u32)]) -> Self {
        let kind = |(group, (count, coils)): (usize, &(u32, u32))| Kind {
            group,
            count: *count as u8,
            coils: *coils,
            ohms: Ohms::new(Ratio::ONE),
            coil_rating: Ratio::ONE,
            takes: Ratio::ONE,
        };
        Self { kinds: groups.iter().enumerate().map(kind).collect(), rated: false }
    }
}
