//! Whether readings are what a sound rig reads.

use super::Agreement;
use super::built::{Posts, Winding};
use super::coils::coils;
use super::foretell::Known;
use super::job::{Job, Read};
use super::points::{self, Place};
use super::right::{agree, at};
use crate::defect::Defect;

/// Whether each reading is what a sound rig reads, without asking what is wrong.
///
/// # Errors
/// A defect of the solver.
pub fn judge(job: &Job<'_>, reads: &[Read]) -> Result<Vec<Agreement>, Defect> {
    let known = Known::of(job, reads)?;
    let windings = Winding::all(job.rig, job.plan, &known.measured)?;
    let posts = Posts::of(job.rig, job.plan, &windings);
    let leads = known.leads.is_some();
    let coils = coils(job, reads)?;
    let touching = points::touching(job.plan);
    let judged = |read: &Read| {
        let foretold = at(&posts, known.leads, &read.point)?;
        Ok(match (foretold, read.point.place) {
            (Some(foretold), _) if Some(read.point) == touching => {
                foretold.judge_alone(read.reading)
            }
            (foretold, Place::Coil(coil)) => match agree(foretold, read.reading, leads) {
                Agreement::Right if coils.contains(&(coil, Agreement::Unlike)) => Agreement::Unlike,
                agreement => agreement,
            },
            (foretold, _) => agree(foretold, read.reading, leads),
        })
    };
    reads.iter().map(judged).collect()
}
