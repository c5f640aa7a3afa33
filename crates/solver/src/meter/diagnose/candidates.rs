//! What can be read next, and when enough was read.

use super::super::diagnosis::Explanation;
use super::super::faults::Fault;
use super::super::points::{self, Place, Point};
use super::{SOUND, SURE, Taken};
use crate::wiring::{Act, Plan};

/// Whether an explanation holds what is sound, or reversed.
pub(super) fn is_sound(one: &Explanation) -> bool {
    one.faults.iter().any(Fault::is_sound)
}

/// Whether the first explanation is taken for the one.
pub(super) fn is_sure(explanations: &[Explanation]) -> bool {
    let first = explanations.first();
    first.is_some_and(|one| one.share >= if is_sound(one) { SOUND } else { SURE })
}

/// What can be read next: at the check that the work has come to, the leads before it, and
/// its own reading; and the coils of an act that `come` has come to behind it.
pub(super) fn candidates(
    plan: &Plan,
    step: Option<u16>,
    come: Option<u16>,
    taken: &[Taken],
) -> Vec<Point> {
    let mut points = Vec::new();
    let unread = |point: &Point| taken.iter().all(|one| one.read.point != *point);
    // Before anything is checked, coils are read by themselves.
    let Some(step) = step else {
        points.append(&mut points::points(plan));
        points.retain(|point| matches!(point.place, Place::Coil(_)) && unread(point));
        return points;
    };
    points.extend(points::touching(plan));
    points.push(Point { act: step, place: Place::Step });
    // What was read at an earlier act of this stage can be read again as it is.
    for (number, kind) in (0_u16..).zip(&plan.acts) {
        if let Act::Check(check) = kind
            && number < step
            && is_still(plan, number, step)
            && !check.tied
        {
            points.push(Point { act: number, place: Place::Step });
        }
    }
    points::closer(plan, step, &mut points);
    if let Some(come) = come.filter(|come| *come > step) {
        points.append(&mut points::at_act(plan, come));
        points.retain(|point| point.place.tells_faults());
    }
    points.retain(unread);
    points
}

/// Whether what an earlier act read is as it was: only cables, whose ends hang free, were
/// placed since.
pub(super) fn is_still(plan: &Plan, earlier: u16, step: u16) -> bool {
    let (before, now) = (points::placed(plan, earlier), points::placed(plan, step));
    before
        .iter()
        .zip(&now)
        .zip(&plan.runs)
        .all(|((before, now), run)| before == now || run.stage == crate::wiring::Stage::Cable)
}
