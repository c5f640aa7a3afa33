//! What lies between the probes of a point of what was built.

use super::built::{Between, Built, Posts};
use super::points::{self, Place, Point};
use super::setting::Setting;
use super::solved::Solved;
use crate::defect::Defect;
use crate::wiring::Act;

/// What is read where no circuit is needed: the leads, a coil by itself, a basket.
pub(super) fn alone(
    posts: &Posts<'_>,
    built: &Built,
    point: &Point,
) -> Result<Option<Between>, Defect> {
    Ok(match point.place {
        Place::Basket(_) => Some(Between::OPEN),
        // What ties the pairs is in the amplifier, whatever was built outside.
        Place::Tied(..) => Some(Between::LEADS),
        Place::Coil(coil) | Place::Lifted(coil) => {
            let of = posts.coils.iter().find(|winding| winding.coil == coil);
            let of = of.ok_or(Defect::Coil)?;
            // What stays on the terminal that everything is lifted from is a circuit.
            let [lifted, _] = points::ends(coil);
            if matches!(point.place, Place::Lifted(_))
                && built.touching.is_some_and(|touching| touching.stays(lifted))
            {
                return Ok(None);
            }
            if built.open == Some(coil) {
                return Ok(Some(Between::OPEN));
            }
            let ohms = of.ohms * built.factor(coil);
            let mut between = Between { ohms, squares: of.scatter(), ..Between::NOTHING };
            if built.unsure.holds(coil, of.group) {
                between.unsure = 1.0;
            }
            if let Some(slot) = between.groups.get_mut(of.group)
                && !of.measured
            {
                *slot = 1.0;
            }
            Some(between)
        }
        Place::Step => match posts.plan.acts.get(usize::from(point.act)) {
            Some(Act::Check(_)) => None,
            _ => Some(Between::LEADS),
        },
        _ => None,
    })
}

/// What is read at a point of what was built, when the work has come to its act.
pub(super) fn read(posts: &Posts<'_>, built: &Built, point: &Point) -> Result<Between, Defect> {
    if built.touching.is_some_and(|touching| touching.since > point.act) {
        return read(posts, &built.untouched(), point);
    }
    at(posts, built, &Setting::of(posts.plan, point), point)
}

/// The same in a setting that is known.
pub(super) fn at(
    posts: &Posts<'_>,
    built: &Built,
    setting: &Setting,
    point: &Point,
) -> Result<Between, Defect> {
    match alone(posts, built, point)? {
        Some(between) => Ok(between),
        None => Solved::of(posts, built, setting)?.at(posts, built, point),
    }
}
