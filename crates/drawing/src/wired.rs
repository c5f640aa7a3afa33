//! The plan as wired: drivers in a column at the right, cups and the amplifier at the
//! left, and between them lanes in which every run goes across, down and across.
//!
//! Every run ends on the axis of its terminal, and where several do they fan out of it, each to
//! a height of its own in its lane; runs whose ways down share a stretch of height have tracks of
//! their own. So no two lie on each other, and none leaves its lane to cross a body. Where two
//! cross, the one that goes across hops; what is joined has a dot. What its number has no room
//! on is made wider, or taller.

mod bodies;
mod bridged;
mod ground;
mod lane;
mod legend;
mod look;
mod marks;
mod suspects;
mod way;

use crate::scene::{Mark, Point, Role, Scene};
use bodies::Bodies;
use coilwright_solver::meter::{self, Fault, Other};
use coilwright_solver::rig::Rig;
use coilwright_solver::wiring::{Plan, Post, Terminal};
use lane::Lane;
pub use look::look;
use way::Way;

/// What stands on the bodies.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Labels {
    /// Of every driver of the rig.
    pub drivers: Vec<String>,
    /// What every driver is called beside that; blank or absent where it is not.
    pub names: Vec<String>,
    /// Of every cup.
    pub cups: Vec<String>,
    /// Of every output.
    pub outputs: Vec<String>,
    /// Of every output, the channels that are bridged in it; none where it is one channel.
    pub bridged: Vec<Vec<String>>,
    /// Which of the terminals of bridged channels are the pair, in short lines.
    pub marked: Vec<String>,
    /// What a run looks like that is one with the positive terminal, with the negative one,
    /// and with neither; nothing is told where these are blank.
    pub legend: [String; 3],
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

/// Draws a plan, with some of its runs lit.
///
/// # Errors
/// [`Unrouted`] with the run that has no way.
pub fn wired(plan: &Plan, labels: &Labels, lit: &[usize]) -> Result<Scene, Unrouted> {
    Drawn::of(plan, lit).scene(plan, labels)
}

/// What may be wrong with a plan, all of it marked: faults that no reading tells apart.
#[derive(Clone, Copy, Debug)]
pub struct Suspects<'a> {
    /// What the plan is of.
    pub rig: &'a Rig,
    /// The faults.
    pub faults: &'a [Fault],
}

/// Draws a plan as [`wired`] does, with a ring beside every place where something may be
/// wrong. What has no place has none: leads, the meter, what is reversed, and
/// [`Fault::Otherwise`], which [`built`] shows.
///
/// # Errors
/// As [`wired`].
pub fn suspected(
    plan: &Plan,
    labels: &Labels,
    lit: &[usize],
    suspects: Suspects<'_>,
) -> Result<Scene, Unrouted> {
    Drawn { suspects: Some(suspects), ..Drawn::of(plan, lit) }.scene(plan, labels)
}

/// Draws what has probably been built, with runs of the plan lit: the plan with a fault in
/// it, its runs numbered as they were planned, its places marked as by [`suspected`]. A run
/// that is missing is drawn thin and dashed, a run too many has a ring in place of a number,
/// and the runs of [`Fault::Otherwise`], which are none of the plan's, have no numbers. A
/// fault that changes no run is drawn in the plan as it is.
///
/// # Errors
/// As [`wired`].
///
/// # Example
/// ```
/// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
/// use coilwright_drawing::wired::{Labels, built};
/// use coilwright_solver::meter::Fault;
/// # let group = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("4").ok(), ..Default::default() };
/// # let rig = Draft { groups: vec![group], amplifier: None }.check(Vec::new()).unwrap();
/// # let plan = Plan::of(&rig, &Build::default(), &one(&rig, "1a||2a").unwrap()).unwrap();
/// let names = || vec!["Left".to_owned(), "Right".to_owned()];
/// let labels = Labels { drivers: names(), outputs: names(), ..Labels::default() };
/// let scene = built(&plan, &labels, &[], &rig, &Fault::Missing { run: 0 }, &[]).unwrap();
/// assert!(scene.svg("wired", None).contains("d-missing"));
/// ```
pub fn built(
    plan: &Plan,
    labels: &Labels,
    lit: &[usize],
    rig: &Rig,
    fault: &Fault,
    others: &[Other],
) -> Result<Scene, Unrouted> {
    if let Fault::Otherwise(_) = fault {
        let other = meter::as_built(plan, fault, others);
        return Drawn { numbered: 0, ..Drawn::of(&other, &[]) }.scene(&other, labels);
    }
    // A run that is missing keeps its place, and one with a capacitor in it is there.
    let missing = match fault {
        Fault::Missing { run } => Some(usize::from(*run)),
        _ => None,
    };
    let changed = match fault {
        Fault::Missing { .. } | Fault::Capacitor { .. } => plan.clone(),
        _ => meter::as_built(plan, fault, others),
    };
    let suspects = Some(Suspects { rig, faults: core::slice::from_ref(fault) });
    let numbered = plan.runs.len();
    Drawn { missing, suspects, numbered, ..Drawn::of(&changed, lit) }.scene(plan, labels)
}

/// How a plan is drawn.
struct Drawn<'a> {
    plan: &'a Plan,
    lit: &'a [usize],
    /// Runs from here on are none of those planned; with 0 none is.
    numbered: usize,
    missing: Option<usize>,
    suspects: Option<Suspects<'a>>,
}

impl<'a> Drawn<'a> {
    fn of(plan: &'a Plan, lit: &'a [usize]) -> Self {
        Self { plan, lit, numbered: plan.runs.len(), missing: None, suspects: None }
    }

    /// The picture, its bodies level as those of what was planned.
    fn scene(&self, planned: &Plan, labels: &Labels) -> Result<Scene, Unrouted> {
        Ok(marks::scene(self, labels, &route(self.plan, planned, labels)?))
    }

    /// Whether there is a run that was not planned, among those that were.
    fn has_extra(&self) -> bool {
        (1..self.plan.runs.len()).contains(&self.numbered)
    }
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

/// The part of a drawing that shows some runs and terminals, with what they stand at. Where
/// there is neither, all of it.
///
/// # Errors
/// As [`wired`].
///
/// # Example
/// ```
/// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
/// use coilwright_drawing::wired::{Labels, near, wired};
/// # let group = GroupDraft { count: Some(8), coils: Some(1), ohms: Field::CoilOhms.ohms_text("8").ok(), ..Default::default() };
/// # let rig = Draft { groups: vec![group], amplifier: None }.check(Vec::new()).unwrap();
/// # let key = "1a||2a||3a||4a||5a||6a||7a||8a";
/// # let plan = Plan::of(&rig, &Build::default(), &one(&rig, key).unwrap()).unwrap();
/// let labels = Labels { drivers: vec!["driver".to_owned(); 8], outputs: vec!["amplifier".to_owned()], ..Labels::default() };
/// let whole = wired(&plan, &labels, &[0]).unwrap();
/// let part = near(&whole, &plan, &labels, &[0], &[]).unwrap();
/// // Two drivers of eight.
/// assert!(part.height < whole.height / 3);
/// ```
pub fn near(
    whole: &Scene,
    plan: &Plan,
    labels: &Labels,
    runs: &[usize],
    terminals: &[Terminal],
) -> Result<Scene, Unrouted> {
    let Routed { bodies, ways, .. } = route(plan, plan, labels)?;
    let ends = runs.iter().filter_map(|run| plan.runs.get(*run)).flat_map(|run| [run.from, run.to]);
    let mut corners = bodies.corners(&ends.chain(terminals.iter().copied()).collect::<Vec<_>>());
    for way in ways.iter().filter(|way| runs.contains(&way.run)) {
        corners.extend(&way.places);
    }
    let least = |of: fn(&Point) -> i32| corners.iter().map(of).min();
    let most = |of: fn(&Point) -> i32| corners.iter().map(of).max();
    let (Some(left), Some(top), Some(right), Some(bottom)) =
        (least(|at| at.0), least(|at| at.1), most(|at| at.0), most(|at| at.1))
    else {
        return Ok(whole.clone());
    };
    // Never so near that a driver alone fills a wide screen.
    let wanted = |from: i32, to: i32, least: i32, most: i32| {
        let more = (least - (to - from)).max(0) / 2 + NEAR;
        ((from - more).max(0), (to + more).min(most))
    };
    let (left, right) = wanted(left, right, LEAST.0, whole.width);
    let (top, bottom) = wanted(top, bottom, LEAST.1, bodies.height);
    Ok(Scene { left, top, width: right - left, height: bottom - top, ..whole.clone() })
}

/// Ground round what is shown of a drawing, and the least that is shown.
const NEAR: i32 = 14;
const LEAST: Point = (220, 150);

/// How often runs cross.
///
/// # Errors
/// As [`wired`].
pub fn crossings(plan: &Plan) -> Result<Crossings, Unrouted> {
    let mut sum = Crossings::default();
    for lane in &route(plan, plan, &Labels::default())?.lanes {
        sum.before += lane.crossings.before;
        sum.after += lane.crossings.after;
    }
    Ok(sum)
}

/// Everything in its place.
struct Routed {
    bodies: Bodies,
    /// From left to right.
    lanes: Vec<Lane>,
    ways: Vec<Way>,
}

/// So much more there is between terminals each time, and at the most, where the number of a
/// run has no room in lanes as wide as they may be.
const TALLER: i32 = 2;
const TALLEST: i32 = 16;

/// Puts everything in its place, with as much room as the numbers of runs need.
fn route(plan: &Plan, planned: &Plan, labels: &Labels) -> Result<Routed, Unrouted> {
    let mut more = 0;
    loop {
        let mut bodies = Bodies::of(plan, planned, labels, more);
        let mut lanes = lanes(plan, &bodies)?;
        loop {
            bodies.spread(&mut lanes);
            let (ways, roomy) = way::ways(&lanes);
            let mut wider = false;
            for (lane, _) in lanes.iter_mut().zip(&roomy).filter(|(_, roomy)| !**roomy) {
                wider |= lane.widen();
            }
            if !roomy.contains(&false) || more >= TALLEST && !wider {
                return Ok(Routed { bodies, lanes, ways });
            }
            if !wider {
                break;
            }
        }
        more += TALLER;
    }
}

/// The lanes from left to right, with their runs in order.
fn lanes(plan: &Plan, bodies: &Bodies) -> Result<Vec<Lane>, Unrouted> {
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
        let ends = [bodies.pin(run.from, number), bodies.pin(run.to, number)];
        let Some(lane) = lanes.get_mut(place) else {
            return Err(Unrouted { run: number });
        };
        lane.add(run, ends).ok_or(Unrouted { run: number })?;
    }
    for lane in &mut lanes {
        lane.order();
    }
    Ok(lanes)
}

#[cfg(test)]
mod tests;
