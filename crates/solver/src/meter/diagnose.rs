//! What is wrong with a plan as it was built, from what the meter showed: explanations
//! ranked, and the next reading that tells them apart for the least effort.

use super::belief::Belief;
use super::built::{self, Between, Posts, Setting, Solved};
use super::faults::{Fault, Variant, faults};
use super::next;
use super::otherwise::{Other, others};
use super::points::{self, Place, Point};
use super::{Agreement, Foretold, Reading, foretold_at, measured};
use crate::answer::Configuration;
use crate::network::Coil;
use crate::rig::{Build, Rig};
use crate::short;
use crate::wiring::{Plan, Step};

/// A reading at a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Read {
    /// Where.
    pub point: Point,
    /// What the meter showed.
    pub reading: Reading,
}

/// An easy cause, asked in words before anything is measured again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// Is every cable off the amplifier?
    AmplifierOff,
    /// Are the leads in the right sockets, the battery good, the tips on bare metal, and does
    /// a known resistor or coil read what it should?
    MeterRight,
    /// Have the coils cooled since they were played?
    Cool,
}

impl Question {
    /// Every question, in the order in which they are asked.
    pub const ALL: [Self; 3] = [Self::AmplifierOff, Self::MeterRight, Self::Cool];

    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::AmplifierOff => "amplifier_off",
            Self::MeterRight => "meter_right",
            Self::Cool => "cool",
        }
    }

    /// The question of a name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|question| question.name() == name)
    }
}

/// How well an explanation fits what was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fit {
    /// Every reading is near what it should be then.
    Well,
    /// Some are far from it.
    Roughly,
    /// One contradicts it.
    Not,
}

impl Fit {
    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Well => "well",
            Self::Roughly => "roughly",
            Self::Not => "not",
        }
    }
}

/// Faults that no reading tells apart, and how likely one of them is.
#[derive(Clone, Debug, PartialEq)]
pub struct Explanation {
    /// The faults, the likeliest first.
    pub faults: Vec<Fault>,
    /// How likely, all explanations together making one.
    pub share: f64,
    /// How well it fits.
    pub fit: Fit,
}

/// What the readings say.
#[derive(Clone, Debug, PartialEq)]
pub struct Diagnosis {
    /// Reading by reading, as given: whether it is what a sound rig reads.
    pub agreements: Vec<Agreement>,
    /// Easy causes that are still to be asked about.
    pub questions: Vec<Question>,
    /// What may be wrong, the likeliest first; at most [`MOST`].
    pub explanations: Vec<Explanation>,
    /// The reading that tells most for its effort; `None` where one explanation is left or
    /// no reading tells those apart that are.
    pub next: Option<Point>,
    /// Whether what is left cannot be told by ohms: sound, or reversed. Polarity is next.
    pub polarity: bool,
    /// Other joinings of the same coils, which [`Fault::Otherwise`] numbers.
    pub others: Vec<Other>,
}

/// At most so many explanations are told.
pub const MOST: usize = 8;
/// As likely as this an explanation is taken for the one.
pub const SURE: f64 = 0.97;
/// The same of what is sound, or reversed: a fault that hardly shows is still a fault.
const SOUND: f64 = 0.99;
/// What is so much less likely than the likeliest is left out of account.
const FAINT: f64 = 1e-4;
/// Readings are alike that differ by less than this in ohms, or by this part.
const ALIKE: (f64, f64) = (0.15, 0.08);
/// How much less likely a rig is sound once a reading is outside of what is right: the
/// normal distributions know no ends.
const OUTSIDE: f64 = 0.1;
/// How much less likely a coil fails after it was read than it was bad before (common
/// practice, no source).
const SINCE: f64 = 0.3;

/// A plan, with what it is of.
#[derive(Clone, Copy, Debug)]
pub struct Job<'a> {
    /// The rig.
    pub rig: &'a Rig,
    /// The box.
    pub build: &'a Build,
    /// The configuration.
    pub configuration: &'a Configuration,
    /// Its plan.
    pub plan: &'a Plan,
}

/// One way of one fault, under what was read.
pub(super) struct Case {
    fault: usize,
    variant: Variant,
    pub(super) belief: Belief,
    pub(super) weight: f64,
    /// Between the probes of every candidate point.
    pub(super) seen: Vec<Between>,
}

/// Says what is wrong, from readings and from what was answered to the questions.
///
/// Readings of points that are none of the plan's, and all but the last at a point, are
/// passed over. The step of the latest point says how far the work is.
///
/// # Example
/// ```
/// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
/// use coilwright_solver::meter::{self, Fault, Job, Point, Read, Reading};
/// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
/// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
/// let build = Build { cups: Cups::One, ..Build::default() };
/// let configuration = one(&rig, "1a||2a").unwrap();
/// let plan = Plan::of(&rig, &build, &configuration).unwrap();
/// let job = Job { rig: &rig, build: &build, configuration: &configuration, plan: &plan };
/// // 0.2 Ω of leads, and 2.1 Ω at the amplifier's end, where 1.1 Ω should be.
/// let read = |name, ohms| Read {
///     point: Point::named(name).unwrap(),
///     reading: Reading::Ohms { ohms, count: 0.1 },
/// };
/// let last = Point { step: meter::last_check(&plan).unwrap(), place: meter::Place::Step }.name();
/// let found = meter::diagnose(&job, &[read("1", 0.2), read(&last, 2.1)], &[]);
/// assert!(matches!(found.explanations[0].faults[0], Fault::Missing { .. } | Fault::CoilOpen(_)));
/// assert!(found.next.is_some());
/// ```
#[must_use]
pub fn diagnose(job: &Job<'_>, reads: &[Read], answers: &[(Question, bool)]) -> Diagnosis {
    let plan = job.plan;
    let posts = Posts::of(job.rig, plan, &[]);
    let sharp = Posts::of(job.rig, plan, &measured(job, reads));
    let others = others(job.rig, job.build, job.configuration);
    let leads = leads(plan, reads);
    let agreements: Vec<Agreement> = reads.iter().map(|read| judged(&sharp, read, leads)).collect();
    let said = |question: Question| {
        answers.iter().rev().find(|(of, _)| *of == question).map(|(_, answer)| *answer)
    };
    // What counts: the last reading at each point of the plan, in the order of the points,
    // so that the order of reading never matters.
    let mut taken: Vec<Read> = Vec::new();
    for (read, agreement) in reads.iter().zip(&agreements) {
        taken.retain(|one| one.point != read.point);
        if *agreement != Agreement::LeadsFirst && read.point.is_of(plan) {
            taken.push(*read);
        }
    }
    // A coil that was sound by itself may have failed since; that is less likely.
    let was_sound = |coil: Coil| {
        reads.iter().zip(&agreements).any(|(read, agreement)| {
            read.point.place == Place::Coil(coil) && *agreement == Agreement::Right
        })
    };
    short::sort(&mut taken, |a, b| a.point.cmp(&b.point));
    let step = reads
        .iter()
        .map(|read| read.point.step)
        .filter(|step| matches!(plan.steps.get(usize::from(*step)), Some(Step::Check(_))))
        .max();
    let candidates = candidates(plan, step, &taken);
    let points = taken.iter().map(|read| read.point).chain(candidates.iter().copied());
    let settings = Settings::of(plan, points);

    let faults = faults(&posts, &others);
    let sound = built::Built::sound(plan);
    let wrong =
        |agreement: &Agreement| !matches!(agreement, Agreement::Right | Agreement::LeadsFirst);
    let outside = agreements.iter().any(wrong);
    let mut cases: Vec<Case> = Vec::new();
    let mut best = f64::NEG_INFINITY;
    for (number, (fault, weight)) in faults.iter().enumerate() {
        let weight = match (fault, said(Question::AmplifierOff), said(Question::MeterRight)) {
            (Fault::Amplifier, Some(true), _) => continue,
            (Fault::Leads | Fault::Meter, _, Some(true)) => weight * 0.02,
            (Fault::Amplifier, Some(false), _) | (Fault::Leads | Fault::Meter, _, Some(false)) => {
                weight * 50.0
            }
            _ => *weight,
        };
        let failed = match *fault {
            Fault::CoilOpen(coil) | Fault::CoilShort(coil) | Fault::Turns(coil) => {
                Some(coil).filter(|coil| was_sound(*coil))
            }
            _ => None,
        };
        let weight = if failed.is_some() { weight * SINCE } else { weight };
        for variant in fault.variants(&posts, &others) {
            let mut belief = Belief::of(&variant, job.rig.groups().len());
            if said(Question::Cool) == Some(false) {
                belief.warm();
            }
            belief.log += libm::log(weight);
            if outside && matches!(fault, Fault::Nothing | Fault::Reversed) {
                belief.log += libm::log(OUTSIDE);
            }
            let mut solved: Option<(usize, Solved)> = None;
            for (number, read) in taken.iter().enumerate() {
                let mut between = settings.between(&posts, &variant, number, &mut solved);
                if failed.is_some_and(|coil| read.point.place == Place::Coil(coil)) {
                    between = built::read(&posts, &sound, &read.point);
                }
                belief.read(&between, read.reading);
            }
            best = best.max(belief.log);
            if belief.log > best + libm::log(FAINT) {
                // The circuit that was solved last often serves most of these.
                let mut seen = Vec::with_capacity(candidates.len());
                for number in 0..candidates.len() {
                    let number = number.saturating_add(taken.len());
                    seen.push(settings.between(&posts, &variant, number, &mut solved));
                }
                cases.push(Case { fault: number, variant, belief, weight: 0.0, seen });
            }
        }
    }
    cases.retain(|case| case.belief.log > best + libm::log(FAINT));
    let mut sum = 0.0;
    for case in &mut cases {
        case.weight = libm::exp(case.belief.log - best);
        sum += case.weight;
    }
    for case in &mut cases {
        case.weight /= sum;
    }
    let groups = alike(&cases);
    let mut explanations = explain(&cases, &groups, &faults);
    let first = explanations.first();
    let polarity = first.is_some_and(|one| {
        one.faults.iter().any(|fault| matches!(fault, Fault::Nothing | Fault::Reversed))
    });
    let sure = first.is_some_and(|one| one.share >= if polarity { SOUND } else { SURE });
    // Leads come first where they decide.
    let leads_first = agreements.contains(&Agreement::LeadsFirst);
    let at_leads = plan.steps.iter().position(|step| *step == Step::Leads);
    let next = match at_leads.and_then(|step| u16::try_from(step).ok()) {
        Some(step) if leads_first => Some(Point { step, place: Place::Step }),
        _ if sure || step.is_none() => None,
        _ => next::next(plan, &cases, &groups, &candidates),
    };
    explanations.truncate(MOST);
    let mut questions: Vec<Question> = Vec::new();
    if outside {
        questions.extend(Question::ALL.into_iter().filter(|question| said(*question).is_none()));
    }
    Diagnosis { agreements, questions, explanations, next, polarity, others }
}

/// Whether each reading is what a sound rig reads, without asking what is wrong.
#[must_use]
pub fn judge(job: &Job<'_>, reads: &[Read]) -> Vec<Agreement> {
    let measured = measured(job, reads);
    let posts = Posts::of(job.rig, job.plan, &measured);
    reads.iter().map(|read| judged(&posts, read, leads(job.plan, reads))).collect()
}

fn judged(posts: &Posts<'_>, read: &Read, leads: Option<f64>) -> Agreement {
    let step = posts.plan.steps.get(usize::from(read.point.step));
    if read.point.place == Place::Step && step == Some(&Step::Leads) {
        return judge_leads(read.reading);
    }
    agree(foretold_at(posts, &read.point), read.reading, leads)
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
        changed.runs.push(crate::wiring::Run { from, to, role, stage, amps: None, ..*like });
    }
    changed
}

/// What the leads read by themselves, where that was entered.
pub(super) fn leads(plan: &Plan, reads: &[Read]) -> Option<f64> {
    let of = |read: &&Read| {
        read.point.place == Place::Step
            && matches!(plan.steps.get(usize::from(read.point.step)), Some(Step::Leads))
    };
    match reads.iter().rev().find(of)?.reading {
        Reading::Ohms { ohms, .. } => Some(ohms),
        Reading::Open => None,
    }
}

/// Probes that touch: at most half an ohm is right.
fn judge_leads(reading: Reading) -> Agreement {
    let [low, high] = super::LEADS;
    let touching = Foretold { nominal: 0.0, expected: (low + high) / 2.0, low, high };
    touching.judge_alone(reading)
}

/// Whether a reading is right; `None` is foretold where it must be open.
pub(super) fn agree(foretold: Option<Foretold>, reading: Reading, leads: Option<f64>) -> Agreement {
    match (foretold, reading) {
        (Some(foretold), reading) => foretold.judge(reading, leads),
        (None, Reading::Open) => Agreement::Right,
        (None, Reading::Ohms { .. }) => Agreement::TooLow,
    }
}

/// What can be read next: at the step that the work has come to, the leads before it, and
/// its own reading.
fn candidates(plan: &Plan, step: Option<u16>, taken: &[Read]) -> Vec<Point> {
    let mut points = Vec::new();
    let Some(step) = step else { return points };
    for (number, kind) in (0_u16..).zip(&plan.steps) {
        if *kind == Step::Leads {
            points.push(Point { step: number, place: Place::Step });
        }
    }
    points.push(Point { step, place: Place::Step });
    // What was read at an earlier step of this stage can be read again as it is.
    for (number, kind) in (0_u16..).zip(&plan.steps) {
        if let Step::Check(check) = kind
            && number < step
            && is_still(plan, number, step)
            && !check.tied
        {
            points.push(Point { step: number, place: Place::Step });
        }
    }
    points::closer(plan, step, &mut points);
    points.retain(|point| taken.iter().all(|read| read.point != *point));
    points
}

/// Whether what an earlier step read is as it was: only cables, whose ends hang free, were
/// placed since.
fn is_still(plan: &Plan, earlier: u16, step: u16) -> bool {
    let (before, now) = (points::placed(plan, earlier), points::placed(plan, step));
    before
        .iter()
        .zip(&now)
        .zip(&plan.runs)
        .all(|((before, now), run)| before == now || run.stage == crate::wiring::Stage::Cable)
}

/// The settings in which points are read; points that are alike share one.
struct Settings {
    all: Vec<Setting>,
    points: Vec<(Point, Option<usize>)>,
}

impl Settings {
    fn of(plan: &Plan, points: impl Iterator<Item = Point>) -> Self {
        let mut settings = Self { all: Vec::new(), points: Vec::new() };
        for point in points {
            // These need no circuit.
            if matches!(point.place, Place::Lifted(_) | Place::Coil(_) | Place::Basket(_)) {
                settings.points.push((point, None));
                continue;
            }
            let setting = Setting::of(plan, &point);
            let at = settings.all.iter().position(|one| *one == setting).unwrap_or_else(|| {
                settings.all.push(setting);
                settings.all.len().saturating_sub(1)
            });
            settings.points.push((point, Some(at)));
        }
        settings
    }

    /// What lies between the probes of a point by its number; the circuit is kept for the
    /// next one.
    fn between(
        &self,
        posts: &Posts<'_>,
        variant: &Variant,
        number: usize,
        solved: &mut Option<(usize, Solved)>,
    ) -> Between {
        let Some((point, at)) = self.points.get(number) else { return Between::OPEN };
        if let Some(between) = built::alone(posts, &variant.built, point) {
            return between;
        }
        let Some(at) = *at else { return Between::OPEN };
        match solved {
            Some((known, solved)) if *known == at => solved.at(posts, &variant.built, point),
            _ => {
                let Some(setting) = self.all.get(at) else { return Between::OPEN };
                let fresh = Solved::of(posts, &variant.built, setting);
                let between = fresh.at(posts, &variant.built, point);
                *solved = Some((at, fresh));
                between
            }
        }
    }
}

/// The cases of a fault, which stand together, and a number that it shares with what it
/// is alike to.
type Kin<'a> = (&'a [Case], usize);

/// Which faults no point tells apart: a number for each case that its alike ones share.
/// What is alike to two faults makes them one group.
fn alike(cases: &[Case]) -> Vec<usize> {
    let mut known: Vec<Kin<'_>> = Vec::new();
    for own in cases.chunk_by(|a, b| a.fault == b.fault) {
        let group = known.len();
        let mut joined: Vec<usize> = Vec::new();
        for (other, of) in &known {
            if !joined.contains(of)
                && other.len() == own.len()
                && other.iter().zip(own).all(|(a, b)| looks_alike(a, b))
            {
                joined.push(*of);
            }
        }
        for (_, of) in &mut known {
            if joined.contains(of) {
                *of = group;
            }
        }
        known.push((own, group));
    }
    known.iter().flat_map(|(own, group)| own.iter().map(|_| *group)).collect()
}

fn looks_alike(a: &Case, b: &Case) -> bool {
    let meter = |case: &Case| (case.variant.shows, case.variant.leads);
    let (ohms, part) = ALIKE;
    meter(a) == meter(b)
        && a.seen.iter().zip(&b.seen).all(|(a, b)| match (a.ohms.is_finite(), b.ohms.is_finite()) {
            (true, true) => (a.ohms - b.ohms).abs() < ohms.max(part * a.ohms.max(b.ohms)),
            (a, b) => a == b,
        })
}

/// An explanation as it grows: the number of its group, and its faults with their weights.
struct Growing {
    group: usize,
    share: f64,
    fit: Fit,
    members: Vec<(usize, f64)>,
}

fn explain(cases: &[Case], groups: &[usize], faults: &[(Fault, f64)]) -> Vec<Explanation> {
    let mut found: Vec<Growing> = Vec::new();
    for (case, group) in cases.iter().zip(groups) {
        let fit = match case.belief.farthest {
            far if far <= 2.2 => Fit::Well,
            far if far <= 3.5 => Fit::Roughly,
            _ => Fit::Not,
        };
        let at = found.iter().position(|one| one.group == *group).unwrap_or_else(|| {
            found.push(Growing { group: *group, share: 0.0, fit: Fit::Not, members: Vec::new() });
            found.len().saturating_sub(1)
        });
        let Some(one) = found.get_mut(at) else { continue };
        one.share += case.weight;
        one.fit = one.fit.min(fit);
        match one.members.iter_mut().find(|(fault, _)| *fault == case.fault) {
            Some((_, weight)) => *weight += case.weight,
            None => one.members.push((case.fault, case.weight)),
        }
    }
    short::sort(&mut found, |a, b| b.share.total_cmp(&a.share));
    let mut all = Vec::new();
    for mut one in found {
        short::sort(&mut one.members, |a, b| b.1.total_cmp(&a.1));
        let of = one.members.iter().filter_map(|(fault, _)| faults.get(*fault));
        let faults = of.map(|(fault, _)| *fault).collect();
        all.push(Explanation { faults, share: one.share, fit: one.fit });
    }
    all
}
