//! Faults that a right reading does not exclude, and a finer way to read where there is one.

use super::built::{Built, Posts, Winding};
use super::every::faults;
use super::faults::{Fault, Kind};
use super::finer::{self, Finer};
use super::foretell::Known;
use super::job::Job;
use super::otherwise::Other;
use super::points::{Place, Point};
use super::right::{self, agree};
use super::settings::Settings;
use super::variants::felt;
use super::{Agreement, Foretold, LEADS, Reading};
use crate::defect::Defect;
use crate::short;
use crate::wiring::Act;

/// The step of the meter that is expected, in ohms.
const COUNT: f64 = 0.1;
/// What changes a reading by less than this, in ohms, is not in what is read.
const NOT_IN_IT: f64 = 1e-6;

/// What a right reading at a point leaves open.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Open {
    /// Of every kind of fault that would be read as right there, the one that is hardest to
    /// tell from what is planned; the likeliest kind first.
    pub faults: Vec<Fault>,
    /// A way to read that excludes some of them; `None` where that would not help or is not
    /// needed.
    pub finer: Option<Finer>,
}

/// What right readings at some points leave open, by all that is known then, with a meter
/// that shows tenths; `others` are the joinings that [`Fault::Otherwise`] numbers
/// ([`super::others`]).
///
/// A fault counts where the coils and wires that it changes are in what is read. Leads,
/// meter and an amplifier that is still connected are asked about instead.
///
/// # Example
/// ```
/// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
/// use coilwright_solver::meter::{self, Job, Kind, Known, Place, Point};
/// # let group = GroupDraft { count: Some(3), coils: Some(1), ohms: Field::CoilOhms.ohms_text("1").ok(), ..Default::default() };
/// # let rig = Draft { groups: vec![group], amplifier: None }.check(Vec::new()).unwrap();
/// # let build = Build { cups: Cups::One, ..Build::default() };
/// # let configuration = one(&rig, "1a||2a||3a").unwrap();
/// # let plan = Plan::of(&rig, &build, &configuration).unwrap();
/// let job = Job { rig: &rig, build: &build, configuration: &configuration, plan: &plan };
/// // A third of an ohm reads as a short does.
/// let last = Point { act: meter::last_check(&plan).unwrap(), place: Place::Step };
/// let others = meter::others(&job);
/// let open = meter::left_open(&job, &Known::default(), &[last], &others).unwrap();
/// assert!(open[0].faults.iter().any(|fault| fault.kind() == Kind::Strand));
/// assert!(open[0].finer.is_some());
/// ```
///
/// # Errors
/// A defect of the solver, or of whoever asks about a point that is none of the plan's.
pub fn left_open(
    job: &Job<'_>,
    known: &Known,
    points: &[Point],
    others: &[Other],
) -> Result<Vec<Open>, Defect> {
    Ok(counted(job, known, points, others)?.0)
}

/// The same with the counted steps that it took.
fn counted(
    job: &Job<'_>,
    known: &Known,
    points: &[Point],
    others: &[Other],
) -> Result<(Vec<Open>, u64), Defect> {
    let coils = Winding::all(job.rig, job.plan, &known.measured)?;
    let posts = Posts::of(job.rig, job.plan, &coils);
    let mut settings = Settings::of(&posts, points.iter().map(|point| (*point, point.act)))?;
    let sound = settings.ohms(&posts, &Built::sound(job.plan), 0..points.len())?;
    let mut all: Vec<Right> = Vec::with_capacity(points.len());
    for (point, sound) in points.iter().zip(sound) {
        all.push(Right::of(job, &posts, known, point, sound)?);
    }
    let mut steps: Vec<u16> = points.iter().map(|point| point.act).collect();
    steps.dedup();
    for (fault, weight) in faults(&posts, others)? {
        if matches!(fault.kind(), Kind::Nothing | Kind::Leads | Kind::Meter | Kind::Amplifier) {
            continue;
        }
        for variant in felt(fault.variants(&posts, others), &steps) {
            let seen = settings.ohms(&posts, &variant.built, 0..points.len())?;
            for (right, ohms) in all.iter_mut().zip(seen) {
                right.take(fault, weight * variant.weight, ohms);
            }
        }
    }
    Ok((all.into_iter().map(Right::told).collect(), settings.take_spent()))
}

/// What is right at a point, and what of that is not sound.
#[derive(Debug)]
struct Right {
    foretold: Option<Foretold>,
    leads: f64,
    /// Of a sound rig, without leads.
    sound: f64,
    /// Whether coils that are joined lie in what is read, so that one may be reversed.
    joined: bool,
    bare: Option<Finer>,
    /// Whether a finer way excludes some fault.
    helps: bool,
    found: Vec<Found>,
}

/// A kind that is not excluded: its weight, and the fault that is nearest.
#[derive(Debug)]
struct Found {
    kind: Kind,
    weight: f64,
    nearest: Fault,
    off: f64,
}

impl Right {
    fn of(
        job: &Job<'_>,
        posts: &Posts<'_>,
        known: &Known,
        point: &Point,
        sound: f64,
    ) -> Result<Self, Defect> {
        let [least, most] = LEADS;
        let likely = (least + most) / 2.0;
        let usual = right::at(posts, known.leads, point)?;
        // At so few ohms nothing is right before the leads are read.
        let few = usual.is_some_and(|one| one.is_little());
        let leads = known.leads.or(few.then_some(likely));
        let act = job.plan.acts.get(usize::from(point.act));
        let joined = matches!(point.place, Place::Step | Place::Across(..) | Place::Apart(_))
            && matches!(act, Some(Act::Check(_)));
        let foretold = match (point.place, act) {
            // Leads alone and baskets say nothing of coils and wires.
            (Place::Basket(_), _) | (Place::Step, Some(Act::Leads)) => None,
            _ => right::at(posts, leads, point)?,
        };
        Ok(Self {
            foretold,
            leads: leads.unwrap_or(likely),
            sound,
            joined,
            bare: finer::bare(posts, point)?.filter(|_| few),
            helps: false,
            found: Vec::new(),
        })
    }

    /// Takes what would be there under a fault, without leads.
    fn take(&mut self, fault: Fault, weight: f64, ohms: f64) {
        let Some(foretold) = self.foretold else { return };
        let kind = fault.kind();
        let off = (ohms - self.sound).abs();
        // What is the wrong way round reads as what is not.
        let in_it = if kind == Kind::Reversed { self.joined } else { off >= NOT_IN_IT };
        if !in_it || !ohms.is_finite() {
            return;
        }
        let reading = Reading::Ohms { ohms: ohms + self.leads, count: COUNT };
        if agree(Some(foretold), reading, true) != Agreement::Right {
            return;
        }
        self.helps |= self.bare.is_some_and(|bare| bare.excludes(ohms));
        match self.found.iter_mut().find(|found| found.kind == kind) {
            Some(found) => {
                found.weight += weight;
                if off < found.off {
                    (found.nearest, found.off) = (fault, off);
                }
            }
            None => self.found.push(Found { kind, weight, nearest: fault, off }),
        }
    }

    fn told(mut self) -> Open {
        short::insertion_sort(&mut self.found, |a, b| b.weight.total_cmp(&a.weight));
        let faults = self.found.iter().map(|found| found.nearest).collect();
        Open { faults, finer: self.bare.filter(|_| self.helps) }
    }
}

#[cfg(test)]
mod tests;
