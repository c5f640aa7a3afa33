//! Whether readings are what a sound rig reads.

use super::built::Posts;
use super::coils::measured;
use super::diagnosis::{Job, Read};
use super::foretell;
use super::points::Place;
use super::{Agreement, Foretold, Reading};
use crate::wiring::{Plan, Step};

/// Whether each reading is what a sound rig reads, without asking what is wrong.
#[must_use]
pub fn judge(job: &Job<'_>, reads: &[Read]) -> Vec<Agreement> {
    let measured = measured(job, reads);
    let posts = Posts::of(job.rig, job.plan, &measured);
    reads.iter().map(|read| judged(&posts, read, leads(job.plan, reads))).collect()
}

pub(super) fn judged(posts: &Posts<'_>, read: &Read, leads: Option<f64>) -> Agreement {
    let step = posts.plan.steps.get(usize::from(read.point.step));
    if read.point.place == Place::Step && step == Some(&Step::Leads) {
        return judge_leads(read.reading);
    }
    agree(foretell::at(posts, &read.point), read.reading, leads)
}

/// What the leads read by themselves, where that was entered.
pub(super) fn leads(plan: &Plan, reads: &[Read]) -> Option<f64> {
    let of = |read: &&Read| {
        read.point.place == Place::Step
            && matches!(plan.steps.get(usize::from(read.point.step)), Some(Step::Leads))
    };
    match reads.iter().rev().find(of)?.reading {
        Reading::Ohms { ohms, .. } => Some(ohms),
        Reading::Open => None,
    }
}

/// Probes that touch: at most half an ohm is right.
fn judge_leads(reading: Reading) -> Agreement {
    let [low, high] = super::LEADS;
    let touching = Foretold { nominal: 0.0, expected: (low + high) / 2.0, low, high };
    touching.judge_alone(reading)
}

/// Whether a reading is right; `None` is foretold where it must be open.
pub(super) fn agree(foretold: Option<Foretold>, reading: Reading, leads: Option<f64>) -> Agreement {
    match (foretold, reading) {
        (Some(foretold), reading) => foretold.judge(reading, leads),
        (None, Reading::Open) => Agreement::Right,
        (None, Reading::Ohms { .. }) => Agreement::TooLow,
    }
}
