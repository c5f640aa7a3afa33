//! What a sound rig reads at a point.

use super::built::{Built, LIKELY_OF_NOMINAL, Posts, Winding, read};
use super::coils::Measured;
use super::points::{self, Place, Point};
use super::{Foretold, LEADS, OF_MEASURED, OF_NOMINAL};
use crate::given;
use crate::rig::Rig;
use crate::wiring::{Plan, Step};

/// What is read at each step that takes a reading; `None` at the others. Where a step reads
/// several coils, from the least to the most of any.
#[must_use]
pub(crate) fn foretell(rig: &Rig, plan: &Plan) -> Vec<Option<Foretold>> {
    let posts = Posts::of(rig, plan, &[]);
    let mut foretold = Vec::with_capacity(plan.steps.len());
    for step in 0..u16::try_from(plan.steps.len()).unwrap_or(u16::MAX) {
        let mut all: Option<Foretold> = None;
        for point in points::at_step(plan, step) {
            let Some(one) = at(&posts, &point) else { continue };
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

/// What is read at every one of some points, with coils that were measured beside those
/// that the rig states; `None` where it is open.
#[must_use]
pub fn foretold(
    rig: &Rig,
    plan: &Plan,
    measured: &[Measured],
    points: &[Point],
) -> Vec<Option<Foretold>> {
    let posts = Posts::of(rig, plan, measured);
    points.iter().map(|point| at(&posts, point)).collect()
}

/// What is read at a point; `None` where nothing joins the probes.
pub(super) fn at(posts: &Posts<'_>, point: &Point) -> Option<Foretold> {
    let plan = posts.plan;
    if let (Place::Step, Some(Step::Leads)) = (point.place, plan.steps.get(usize::from(point.step)))
    {
        let [low, high] = LEADS;
        return Some(Foretold { nominal: 0.0, expected: (low + high) / 2.0, low, high });
    }
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
    let scaled = |place: usize| {
        let of = |range: &[f64; 2]| range.get(place).copied().unwrap_or(1.0);
        with(&|winding| {
            let off = if place == 0 { -winding.off } else { winding.off };
            winding.ohms
                * match winding.measured {
                    true => of(&OF_MEASURED) + off,
                    false => of(&OF_NOMINAL) / LIKELY_OF_NOMINAL,
                }
        })
    };
    let [least, most] = LEADS;
    let (low, high) = (scaled(0), scaled(1));
    Some(Foretold {
        nominal,
        expected: (low + high + least + most) / 2.0,
        low: low + least,
        high: high + most,
    })
}
