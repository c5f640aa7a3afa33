//! What a sound rig reads at the points of a plan, by what is known then.

use super::Foretold;
use super::built::{Posts, Winding};
use super::coils::measured;
use super::job::{self, Job, Read};
use super::measured::Measured;
use super::points::{self, Point};
use super::right::at;
use crate::defect::Defect;
use crate::rig::Rig;
use crate::wiring::Plan;

/// What is known when a reading is taken.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Known {
    /// Coils that were read by themselves and are sound.
    pub measured: Vec<Measured>,
    /// What the leads read by themselves.
    pub leads: Option<f64>,
}

impl Known {
    /// What some readings tell.
    ///
    /// # Errors
    /// A defect of the solver.
    pub fn of(job: &Job<'_>, reads: &[Read]) -> Result<Self, Defect> {
        Ok(Self { measured: measured(job, reads)?, leads: job::leads(job.plan, reads) })
    }
}

/// What is read at each act that takes a reading; `None` at the others. Where an act reads
/// several coils, from the least to the most of any.
///
/// # Errors
/// A defect of the solver.
pub fn foretell(rig: &Rig, plan: &Plan, known: &Known) -> Result<Vec<Option<Foretold>>, Defect> {
    let coils = Winding::all(rig, plan, &known.measured)?;
    let posts = Posts::of(rig, plan, &coils);
    let mut foretold = Vec::with_capacity(plan.acts.len());
    for (act, _) in (0_u16..).zip(&plan.acts) {
        let mut all: Option<Foretold> = None;
        for point in points::at_act(plan, act) {
            let Some(one) = at(&posts, known.leads, &point)? else { continue };
            all = Some(match all {
                None => one,
                Some(all) => {
                    Foretold { low: all.low.min(one.low), high: all.high.max(one.high), ..all }
                }
            });
        }
        foretold.push(all);
    }
    Ok(foretold)
}

/// What is read at every one of some points by all that is known then; `None` where it is
/// open. Whatever says what is right says this.
///
/// # Errors
/// A defect of the solver.
pub fn foretold(
    rig: &Rig,
    plan: &Plan,
    known: &Known,
    points: &[Point],
) -> Result<Vec<Option<Foretold>>, Defect> {
    let coils = Winding::all(rig, plan, &known.measured)?;
    let posts = Posts::of(rig, plan, &coils);
    points.iter().map(|point| at(&posts, known.leads, point)).collect()
}

#[cfg(test)]
mod tests;
