//! The fault dictionary of a plan: everything that may be wrong with it, one by one, and what
//! each shows, for whoever wants to look at it or to check it.

use super::built::{Posts, Winding};
use super::every::faults;
use super::faults::Fault;
use super::job::Job;
use super::otherwise::{Other, others};
use super::points::Point;
use super::reading;
use super::variants::Variant;
use crate::defect::Defect;
use crate::wiring::{Plan, Sign, Terminal};

/// Every fault with its weight before anything is read, and the other joinings that
/// [`Fault::Otherwise`] numbers.
pub type Dictionary = (Vec<(Fault, f64)>, Vec<Other>);

/// Everything that may be wrong with a plan, with its weight before anything is read, and
/// the other joinings that [`Fault::Otherwise`] numbers.
///
/// # Example
/// ```
/// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
/// use coilwright_solver::meter::{Fault, Job, Place, Point, catalogue, last_check, shown};
/// # let group = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("4").ok(), ..Default::default() };
/// # let rig = Draft { groups: vec![group], amplifier: None }.check(Vec::new()).unwrap();
/// # let build = Build::default();
/// # let configuration = one(&rig, "1a||2a").unwrap();
/// # let plan = Plan::of(&rig, &build, &configuration).unwrap();
/// let job = Job { rig: &rig, build: &build, configuration: &configuration, plan: &plan };
/// let (faults, others) = catalogue(&job).unwrap();
/// assert_eq!(faults[0], (Fault::Nothing, 25.0));
/// // Two 4 Ω coils in parallel, each likely 3.5 Ω.
/// let last = Point { act: last_check(&plan).unwrap(), place: Place::Step };
/// assert!((shown(&job, &faults[0].0, &others, &last).unwrap()[0].ohms - 1.75).abs() < 1e-9);
/// ```
///
/// # Errors
/// A defect of the solver.
pub fn catalogue(job: &Job<'_>) -> Result<Dictionary, Defect> {
    let others = others(job);
    let coils = Winding::all(job.rig, job.plan, &[])?;
    let posts = Posts::of(job.rig, job.plan, &coils);
    Ok((faults(&posts, &others)?, others))
}

/// What a fault does to a reading: one of the ways in which it may show.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shown {
    /// Its part among the ways.
    pub weight: f64,
    /// Ohms of a loose joint or of the amplifier, the factor of a coil or of the meter.
    pub value: Option<f64>,
    /// Of exchanged cables: which conductors are, where it is not both.
    pub only: Option<Sign>,
    /// Of what touches: the terminal whose wire it is, `None` of a wire that ends on both, and
    /// the first act at which it is there.
    pub came: Option<(Option<Terminal>, u16)>,
    /// Between the probes in ohms, without leads, every coil at its likely resistance;
    /// without end where it is open.
    pub ohms: f64,
}

/// The ways in which a fault may show at a point.
///
/// # Errors
/// A defect of the solver, or of whoever asks about a point that is none of the plan's.
pub fn shown(
    job: &Job<'_>,
    fault: &Fault,
    others: &[Other],
    point: &Point,
) -> Result<Vec<Shown>, Defect> {
    let coils = Winding::all(job.rig, job.plan, &[])?;
    let posts = Posts::of(job.rig, job.plan, &coils);
    let variants = fault.variants(&posts, others);
    variants
        .iter()
        .map(|variant| {
            let ohms = reading::read(&posts, &variant.built, point)?.ohms * variant.shows;
            let came = variant.built.touching.map(|touching| (touching.of, touching.since));
            let Variant { weight, value, only, .. } = *variant;
            Ok(Shown { weight, value, only, came, ohms })
        })
        .collect()
}

/// A plan as a fault has probably left it: what can be drawn beside what was planned. A
/// fault that changes no run leaves it as it is.
#[must_use]
pub fn as_built(plan: &Plan, fault: &Fault, others: &[Other]) -> Plan {
    if let Fault::Otherwise(at) = fault {
        return others
            .get(usize::from(*at))
            .map_or_else(|| plan.clone(), |other| other.plan.clone());
    }
    let mut built = super::built::Built::sound(plan);
    fault.wires(&mut built);
    let mut changed = plan.clone();
    changed.runs.clear();
    for wire in &built.wires {
        if let Some(run) = plan.runs.get(wire.run) {
            changed.runs.push(crate::wiring::Run { from: wire.from, to: wire.to, ..*run });
        }
    }
    if let Fault::Extra { from, to } = *fault
        && let Some(like) = plan.runs.first()
    {
        let role = crate::wiring::Role::Between;
        let stage = crate::wiring::Stage::Coils;
        changed.runs.push(crate::wiring::Run {
            from,
            to,
            role,
            stage,
            amps: None,
            most_amps: None,
            ..*like
        });
    }
    changed
}
