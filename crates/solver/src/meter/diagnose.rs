//! What is wrong with a plan as it was built, from what the meter showed: explanations
//! ranked, and the next reading that tells them apart for the least effort.

use super::Agreement;
use super::belief::Belief;
use super::built::{self, Posts};
use super::diagnosis::{Diagnosis, Job, Question, Read};
use super::every::faults;
use super::explain::{Case, alike, explain};
use super::faults::Fault;
use super::judged::judge;
use super::next;
use super::otherwise::others;
use super::points::{self, Place, Point};
use super::settings::Settings;
use super::solved::Solved;
use crate::network::Coil;
use crate::short;
use crate::wiring::{Plan, Step};

/// At most so many explanations are told.
pub const MOST: usize = 8;
/// As likely as this an explanation is taken for the one.
pub const SURE: f64 = 0.97;
/// The same of what is sound, or reversed: a fault that hardly shows is still a fault.
const SOUND: f64 = 0.99;
/// What is so much less likely than the likeliest is left out of account.
const FAINT: f64 = 1e-4;
/// How much less likely a rig is sound once a reading is outside of what is right: the
/// normal distributions know no ends.
const OUTSIDE: f64 = 0.1;
/// How much less likely a coil fails after it was read than it was bad before (common
/// practice, no source).
const SINCE: f64 = 0.3;

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
    let others = others(job.rig, job.build, job.configuration);
    let agreements = judge(job, reads);
    let said = |question: Question| {
        answers.iter().rev().find(|(of, _)| *of == question).map(|(_, answer)| *answer)
    };
    // What counts: the last reading at each point of the plan, in the order of the points,
    // so that the order of reading never matters.
    let mut taken: Vec<Read> = Vec::new();
    for (read, agreement) in reads.iter().zip(&agreements) {
        taken.retain(|one| one.point != read.point);
        if agreement.tells() && read.point.place.tells_faults() && read.point.is_of(plan) {
            taken.push(*read);
        }
    }
    // A coil that was sound by itself may have failed since; that is less likely.
    let was_sound = |coil: Coil| {
        reads.iter().zip(&agreements).any(|(read, agreement)| {
            read.point.place == Place::Coil(coil)
                && matches!(agreement, Agreement::Right | Agreement::Unlike)
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
    let outside = agreements.iter().any(|agreement| agreement.is_wrong());
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
            let mut seen = Vec::with_capacity(settings.points.len());
            for (number, read) in taken.iter().enumerate() {
                let mut between = settings.between(&posts, &variant, number, &mut solved);
                seen.push(between);
                if failed.is_some_and(|coil| read.point.place == Place::Coil(coil)) {
                    between = built::read(&posts, &sound, &read.point);
                }
                belief.read(&between, read.reading);
            }
            best = best.max(belief.log);
            if belief.log > best + libm::log(FAINT) {
                // The circuit that was solved last often serves most of these.
                for number in taken.len()..settings.points.len() {
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
    let sound = first.is_some_and(|one| {
        one.faults.iter().any(|fault| matches!(fault, Fault::Nothing | Fault::Reversed))
    });
    let sure = first.is_some_and(|one| one.share >= if sound { SOUND } else { SURE });
    // Leads alone say nothing of the rig, unless they are wrong themselves.
    let nothing = !outside && step.is_none();
    // Leads come first where they decide.
    let leads_first = agreements.contains(&Agreement::LeadsFirst);
    let next = if leads_first {
        points::touching(plan)
    } else if sure || nothing {
        None
    } else {
        next::next(plan, &cases, &groups, &candidates, taken.len())
    };
    let polarity = sound && next.is_none() && !nothing;
    if nothing {
        explanations.clear();
    }
    explanations.truncate(MOST);
    let mut questions: Vec<Question> = Vec::new();
    if outside {
        questions.extend(Question::ALL.into_iter().filter(|question| said(*question).is_none()));
    }
    Diagnosis { agreements, questions, explanations, next, polarity, others }
}

/// What can be read next: at the step that the work has come to, the leads before it, and
/// its own reading.
fn candidates(plan: &Plan, step: Option<u16>, taken: &[Read]) -> Vec<Point> {
    let mut points = Vec::new();
    let unread = |point: &Point| taken.iter().all(|read| read.point != *point);
    // Before anything is checked, coils are read by themselves.
    let Some(step) = step else {
        points.append(&mut points::points(plan));
        points.retain(|point| matches!(point.place, Place::Coil(_)) && unread(point));
        return points;
    };
    points.extend(points::touching(plan));
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
    points.retain(unread);
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
