//! What is to be bought for a plan.

use super::{Post, Run, Stage};
use crate::count::tally;
use crate::network::Coil;

/// Runs of one stage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lot {
    /// The stage.
    pub stage: Stage,
    /// How many runs.
    pub runs: u32,
    /// Their conductor together, in metres.
    pub metres: f64,
    /// The largest current of any where the amplifier gives the most that it might, where
    /// that is known.
    pub amps: Option<f64>,
}

/// What is to be bought.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Parts {
    /// Wire, stage by stage.
    pub lots: Vec<Lot>,
    /// Terminal cups.
    pub cups: u32,
    /// Splices: the conductors that each joins.
    pub splices: Vec<u32>,
    /// Conductor ends: at drivers, at cups, at the amplifier.
    pub ends: [u32; 3],
    /// Ends of coils that are insulated.
    pub caps: u32,
}

pub(super) fn parts(runs: &[Run], cups: u32, open: &[Coil]) -> Parts {
    let caps = tally(open.iter()).saturating_mul(2);
    let mut parts = Parts { cups, caps, ..Parts::default() };
    for stage in Stage::ALL {
        let mut lot = Lot { stage, runs: 0, metres: 0.0, amps: Some(0.0) };
        for run in runs.iter().filter(|run| run.stage == stage) {
            lot.runs = lot.runs.saturating_add(1);
            lot.metres += run.metres;
            lot.amps = lot.amps.zip(run.most_amps).map(|(most, amps)| most.max(amps));
        }
        if lot.runs > 0 {
            parts.lots.push(lot);
        }
    }
    for post in runs.iter().flat_map(|run| [run.from.post, run.to.post]) {
        let slot = match post {
            Post::Coil(_) => parts.ends.get_mut(0),
            Post::CupInside(_) | Post::CupOutside(_) => parts.ends.get_mut(1),
            Post::Amplifier { .. } => parts.ends.get_mut(2),
            Post::Splice(splice) => {
                let splice = usize::from(splice);
                if parts.splices.len() <= splice {
                    parts.splices.resize(splice.saturating_add(1), 0);
                }
                parts.splices.get_mut(splice)
            }
        };
        if let Some(slot) = slot {
            *slot = slot.saturating_add(1);
        }
    }
    parts
}
