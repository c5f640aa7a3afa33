//! The plan as wired: drivers in a column at the right, cups and the amplifier at the
//! left, and between them lanes in which every run goes across, down and across.
//!
//! Every end of a run has a height of its own in its lane, and runs whose ways down
//! share a stretch of height have tracks of their own: so no two lie on each other, and
//! none leaves its lane to cross a body.

mod bodies;
mod lane;
mod marks;

use crate::scene::{Mark, Role, Scene};
use bodies::Bodies;
use coilwright_solver::wiring::{Plan, Post};
use lane::Lane;

/// What stands on the bodies.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Labels {
    /// Of every driver of the rig.
    pub drivers: Vec<String>,
    /// Of every cup.
    pub cups: Vec<String>,
    /// Of every output.
    pub outputs: Vec<String>,
}

/// A run that has no way: a defect to be reported.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unrouted {
    /// The run, counted from 0.
    pub run: usize,
}

/// Crossings of runs: with tracks in the order of the runs, and as they are drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Crossings {
    /// In the order of the runs.
    pub before: u32,
    /// As drawn.
    pub after: u32,
}

/// Draws a plan, with one of its runs lit.
///
/// # Errors
/// [`Unrouted`] with the run that has no way.
pub fn wired(plan: &Plan, labels: &Labels, lit: Option<usize>) -> Result<Scene, Unrouted> {
    let mut bodies = Bodies::of(plan, labels);
    let lanes = route(plan, &mut bodies)?;
    Ok(marks::scene(plan, &bodies, &lanes, lit))
}

/// The drawing in parts that are at most so tall, cut between drivers where they can be.
#[must_use]
pub fn parts(whole: &Scene, tall: i32) -> Vec<Scene> {
    let mut parts = Vec::new();
    let mut top = 0;
    while top < whole.height {
        let mut end = whole.height;
        if end - top > tall {
            // Midway between the last driver that fits and the next one.
            end = top + tall;
            let mut last = None;
            for mark in &whole.marks {
                if let Mark::Rect(Role::Body, at, _, high, _) = mark {
                    let bottom = at.1 + high;
                    if bottom > top && bottom <= top + tall {
                        last = Some(bottom + bodies::APART / 2);
                    }
                }
            }
            end = last.map_or(end, |last| last.min(end));
        }
        parts.push(Scene { top, height: end - top, ..whole.clone() });
        top = end;
    }
    parts
}

/// How often runs cross.
///
/// # Errors
/// As [`wired`].
pub fn crossings(plan: &Plan) -> Result<Crossings, Unrouted> {
    let lanes = route(plan, &mut Bodies::of(plan, &Labels::default()))?;
    let mut sum = Crossings::default();
    for lane in &lanes {
        sum.before += lane.crossings.before;
        sum.after += lane.crossings.after;
    }
    Ok(sum)
}

/// The lanes from left to right, with their runs routed and the bodies in place.
fn route(plan: &Plan, bodies: &mut Bodies) -> Result<Vec<Lane>, Unrouted> {
    let count = if plan.cups.is_empty() { 1 } else { 2 };
    let mut lanes: Vec<Lane> = (0..count).map(|_| Lane::default()).collect();
    // A splice lies where what it serves is.
    let of_post = |post: Post| match post {
        Post::Amplifier { .. } | Post::CupOutside(_) => Some(0),
        Post::CupInside(_) => Some(1),
        Post::Coil(_) => Some(count - 1),
        Post::Splice(_) => None,
    };
    for (number, run) in plan.runs.iter().enumerate() {
        let place = match (of_post(run.from.post), of_post(run.to.post)) {
            (Some(a), Some(b)) if a != b => return Err(Unrouted { run: number }),
            (Some(place), _) | (None, Some(place)) => place,
            (None, None) => return Err(Unrouted { run: number }),
        };
        let ends = [bodies.end(run.from, number), bodies.end(run.to, number)];
        let Some(lane) = lanes.get_mut(place) else {
            return Err(Unrouted { run: number });
        };
        lane.add(number, run, ends).ok_or(Unrouted { run: number })?;
    }
    for lane in &mut lanes {
        lane.order();
    }
    bodies.spread(&mut lanes);
    Ok(lanes)
}

/// The style of a picture that is saved: the page's, in colours of its own.
pub const STYLE: &str = "svg{background:#fff;color:#1b1f29;font-family:system-ui,sans-serif}\
text{fill:#1b1f29}.d-body{fill:#fdfbf5;stroke:#1b1f29;stroke-width:1.5}.d-box{fill:none;stroke:#857c68;stroke-width:1.5;stroke-dasharray:6 4}\
.d-cone{fill:none;stroke:#857c68;stroke-width:1.5}.d-body-label,.d-coil-name,.d-badge-label{font-weight:700}\
.d-tab{fill:#fff;stroke:#1b1f29;stroke-width:1.5}.d-cap{fill:#1b1f29}.d-splice{fill:#fff;stroke:#1b1f29;stroke-width:1.5}\
.d-hit,.d-halo{fill:none;stroke:none}.d-conductor{fill:none;stroke:#1b1f29;stroke-width:3.5;stroke-linejoin:round}\
.d-plus .d-conductor{stroke:#9a4312}.d-tracer{fill:none;stroke:#fff;stroke-width:1.25;stroke-linejoin:round}\
.d-plus .d-tracer{stroke-dasharray:7 5}.d-minus .d-tracer{stroke:none}.d-badge{fill:#fff;stroke:#1b1f29}";

#[cfg(test)]
mod tests;
