//! What a sound rig reads at a point.

use super::built::{Built, Posts, Winding, read};
use super::coils::{Measured, measured};
use super::diagnosis::{Job, Read};
use super::points::{self, Place, Point};
use super::{Foretold, LEADS, LEADS_READ, judged};
use crate::given;
use crate::rig::Rig;
use crate::wiring::{Plan, Step};

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
    #[must_use]
    pub fn of(job: &Job<'_>, reads: &[Read]) -> Self {
        Self { measured: measured(job, reads), leads: judged::leads(job.plan, reads) }
    }
}

/// What is read at each step that takes a reading; `None` at the others. Where a step reads
/// several coils, from the least to the most of any.
#[must_use]
pub fn foretell(rig: &Rig, plan: &Plan, known: &Known) -> Vec<Option<Foretold>> {
    let posts = Posts::of(rig, plan, &known.measured);
    let mut foretold = Vec::with_capacity(plan.steps.len());
    for step in 0..u16::try_from(plan.steps.len()).unwrap_or(u16::MAX) {
        let mut all: Option<Foretold> = None;
        for point in points::at_step(plan, step) {
            let Some(one) = at(&posts, known.leads, &point) else { continue };
            all = Some(match all {
                None => one,
                Some(all) => {
                    Foretold { low: all.low.min(one.low), high: all.high.max(one.high), ..all }
                }
            });
        }
        foretold.push(all);
    }
    foretold
}

/// What is read at every one of some points by all that is known then; `None` where it is
/// open. Whatever says what is right says this.
#[must_use]
pub fn foretold(rig: &Rig, plan: &Plan, known: &Known, points: &[Point]) -> Vec<Option<Foretold>> {
    let posts = Posts::of(rig, plan, &known.measured);
    points.iter().map(|point| at(&posts, known.leads, point)).collect()
}

/// What is read at a point; `None` where nothing joins the probes.
pub(super) fn at(posts: &Posts<'_>, leads: Option<f64>, point: &Point) -> Option<Foretold> {
    let plan = posts.plan;
    let touching =
        point.place == Place::Step && plan.steps.get(usize::from(point.step)) == Some(&Step::Leads);
    let [least, most] = match leads.filter(|_| !touching) {
        Some(leads) => [leads - LEADS_READ, leads + LEADS_READ],
        None => LEADS,
    };
    // Terminals that the amplifier ties show the leads alone, as the probes do.
    let alone = touching || matches!(point.place, Place::Tied(..));
    let (nominal, [low, high]) = if alone { (0.0, [0.0; 2]) } else { bare(posts, point)? };
    let (low, high) = (low + least, high + most);
    Some(Foretold { nominal, expected: (low + high) / 2.0, low, high })
}

/// What lies between the probes of a point without leads: by nominal impedances, and from
/// the least to the most; `None` where nothing does.
pub(super) fn bare(posts: &Posts<'_>, point: &Point) -> Option<(f64, [f64; 2])> {
    let plan = posts.plan;
    let built = Built::sound(plan);
    let with = |ohms: &dyn Fn(&Winding) -> f64| {
        let coils = posts.coils.iter().map(|of| Winding { ohms: ohms(of), ..*of });
        let posts = Posts { plan, rig: posts.rig, coils: coils.collect() };
        read(&posts, &built, point).ohms
    };
    let nominal = with(&|of| given::ohms(posts.rig, of.coil));
    if !nominal.is_finite() {
        return None;
    }
    // What a coil by itself should read is not told by its own reading.
    let alone = matches!(point.place, Place::Coil(_));
    let bound = |place: usize| {
        with(&|of| {
            let range = if alone { of.stated } else { of.range };
            range.get(place).copied().unwrap_or(of.ohms)
        })
    };
    Some((nominal, [bound(0), bound(1)]))
}

#[cfg(test)]
mod tests;
