//! Whether readings are what a sound rig reads.

use super::built::Posts;
use super::coils::coils;
use super::diagnosis::{Job, Read};
use super::foretell::{self, Known};
use super::points::{self, Place};
use super::{Agreement, Foretold, Reading};
use crate::wiring::Plan;

/// Whether each reading is what a sound rig reads, without asking what is wrong.
#[must_use]
pub fn judge(job: &Job<'_>, reads: &[Read]) -> Vec<Agreement> {
    let known = Known::of(job, reads);
    let posts = Posts::of(job.rig, job.plan, &known.measured);
    let leads = known.leads.is_some();
    let coils = coils(job, reads);
    let touching = points::touching(job.plan);
    let judged = |read: &Read| {
        let foretold = foretell::at(&posts, known.leads, &read.point);
        match (foretold, read.point.place) {
            (Some(foretold), _) if Some(read.point) == touching => {
                foretold.judge_alone(read.reading)
            }
            (foretold, Place::Coil(coil)) => match agree(foretold, read.reading, leads) {
                Agreement::Right if coils.contains(&(coil, Agreement::Unlike)) => Agreement::Unlike,
                agreement => agreement,
            },
            (foretold, _) => agree(foretold, read.reading, leads),
        }
    };
    reads.iter().map(judged).collect()
}

/// What the leads read by themselves, where that was entered.
#[must_use]
pub fn leads(plan: &Plan, reads: &[Read]) -> Option<f64> {
    let touching = points::touching(plan)?;
    match reads.iter().rev().find(|read| read.point == touching)?.reading {
        Reading::Ohms { ohms, .. } => Some(ohms),
        Reading::Open => None,
    }
}

/// Whether a reading is right; `None` is foretold where it must be open.
pub(super) fn agree(foretold: Option<Foretold>, reading: Reading, leads: bool) -> Agreement {
    match (foretold, reading) {
        (Some(foretold), reading) => foretold.judge(reading, leads),
        (None, Reading::Open) => Agreement::Right,
        (None, Reading::Ohms { .. }) => Agreement::TooLow,
    }
}
