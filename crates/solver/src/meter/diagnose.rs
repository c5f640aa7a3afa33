//! What is wrong with a plan as it was built, from what the meter showed: explanations
//! ranked, and the next reading that tells them apart for the least effort.
//!
//! It is worked out in steps: what every fault lets expect of what was read; what those that
//! are left show everywhere else; which of them nothing tells apart; and what each further
//! reading would tell.

mod candidates;
mod doubt;
mod fitting;

use super::Agreement;
use super::belief::Weighed;
use super::built::{Posts, Winding};
use super::diagnosis::{Diagnosis, Explanation, Question};
use super::every::faults;
use super::explain::{Ambiguity, Case, explain};
use super::faults::Fault;
use super::job::{Job, Read};
use super::judged::judge;
use super::next::Choice;
use super::otherwise::{Joining, Other};
use super::points::{self, Place, Point};
use super::settings::Settings;
use super::variants::Variant;
use crate::count::wide;
use crate::defect::Defect;
use crate::network::Coil;
use crate::rig::Rig;
use crate::short;
use crate::wiring::{Act, Plan};
use candidates::{candidates, is_still, is_sure};

/// At most so many explanations are told.
pub const MOST: usize = 8;
/// As likely as this an explanation is taken for the one.
pub const SURE: f64 = 0.99;
/// The same of what is sound, or reversed: a fault that hardly shows is still a fault.
const SOUND: f64 = 0.995;

/// Says what is wrong, from readings and from what was answered to the questions.
///
/// Readings of points that are none of the plan's, and all but the last at a point, are
/// passed over. The act of the latest point says how far the work is.
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
/// let last = Point { act: meter::last_check(&plan).unwrap(), place: meter::Place::Step }.name();
/// let found = meter::diagnose(&job, &[read("1", 0.2), read(&last, 2.1)], &[]);
/// assert!(matches!(found.explanations[0].faults[0], Fault::Missing { .. } | Fault::CoilOpen(_)));
/// assert!(found.next.is_some());
/// ```
#[must_use]
pub fn diagnose(job: &Job<'_>, reads: &[Read], answers: &[(Question, bool)]) -> Diagnosis {
    let mut diagnosing = Diagnosing::new(job, reads, answers);
    loop {
        if let Some(found) = diagnosing.step(u64::MAX) {
            return found;
        }
    }
}

/// Whether a reading is off: wrong, or of a coil that is unlike its group.
fn is_off(agreement: Agreement) -> bool {
    agreement.is_wrong() || agreement == Agreement::Unlike
}

/// A reading that counts.
#[derive(Clone, Copy, Debug)]
struct Taken {
    read: Read,
    /// The act that the work had come to.
    now: u16,
    /// What it weighs.
    weighed: Weighed,
    /// Whether it is off.
    off: bool,
}

/// A diagnosis under way, which can be worked on in slices and dropped.
#[derive(Debug)]
pub struct Diagnosing {
    rig: Rig,
    plan: Plan,
    coils: Vec<Winding>,
    others: Vec<Other>,
    answers: Vec<(Question, bool)>,
    agreements: Vec<Agreement>,
    reads: Vec<Read>,
    /// What counts: the last reading at each point of the plan, in the order of the points.
    taken: Vec<Taken>,
    /// What each would read if nothing were wrong, in ohms without leads.
    usual: Vec<f64>,
    /// Coils that were sound by themselves.
    sound: Vec<Coil>,
    /// How far the work is.
    work: Option<u16>,
    candidates: Vec<Point>,
    settings: Settings,
    faults: Vec<(Fault, f64)>,
    cases: Vec<Case>,
    best: f64,
    stage: Stage,
    spent: u64,
}

/// What is being worked out.
#[derive(Debug)]
enum Stage {
    /// How else the coils may have been joined.
    Joining(Joining),
    /// How well each fault fits: which is next, and the ways in which it may show, the
    /// last of them first.
    Fitting(usize, Vec<Variant>),
    /// What those that are left show elsewhere: how many were looked at.
    Looking(usize),
    Grouping(Ambiguity),
    /// What a further reading would tell, where one is wanted.
    Choosing(Vec<Explanation>, Option<Choice>),
    /// It cannot be worked out.
    Broken(Defect),
    Done,
}

/// What planning another joining costs for each run.
const JOINING: u64 = 64;

impl Diagnosing {
    /// Begins on what was read and answered.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
    /// use coilwright_solver::meter::{Diagnosing, Job, diagnose};
    /// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// # let build = Build::default();
    /// # let configuration = one(&rig, "1a||2a").unwrap();
    /// # let plan = Plan::of(&rig, &build, &configuration).unwrap();
    /// let job = Job { rig: &rig, build: &build, configuration: &configuration, plan: &plan };
    /// let mut diagnosing = Diagnosing::new(&job, &[], &[]);
    /// let found = loop {
    ///     if let Some(found) = diagnosing.step(100) {
    ///         break found;
    ///     }
    /// };
    /// assert_eq!(found, diagnose(&job, &[], &[]));
    /// ```
    #[must_use]
    pub fn new(job: &Job<'_>, reads: &[Read], answers: &[(Question, bool)]) -> Self {
        match Self::begun(job, reads, answers) {
            Ok(diagnosing) => diagnosing,
            Err(defect) => Self { stage: Stage::Broken(defect), ..Self::bare(job, reads, answers) },
        }
    }

    /// With nothing looked at yet.
    fn bare(job: &Job<'_>, reads: &[Read], answers: &[(Question, bool)]) -> Self {
        Self {
            rig: job.rig.clone(),
            plan: job.plan.clone(),
            coils: Vec::new(),
            others: Vec::new(),
            answers: answers.to_vec(),
            agreements: Vec::new(),
            reads: reads.to_vec(),
            taken: Vec::new(),
            usual: Vec::new(),
            sound: Vec::new(),
            work: None,
            candidates: Vec::new(),
            settings: Settings::default(),
            faults: Vec::new(),
            cases: Vec::new(),
            best: f64::NEG_INFINITY,
            stage: Stage::Done,
            spent: 0,
        }
    }

    fn begun(job: &Job<'_>, reads: &[Read], answers: &[(Question, bool)]) -> Result<Self, Defect> {
        let plan = job.plan;
        let coils = Winding::all(job.rig, plan, &[])?;
        let posts = Posts::of(job.rig, plan, &coils);
        let joining = Joining::of(job.build, job.configuration);
        let agreements = judge(job, reads)?;
        // In the order of the points: the order of reading tells only what touched by then.
        let mut taken: Vec<Taken> = Vec::new();
        let mut now = 0;
        for (read, agreement) in reads.iter().zip(&agreements) {
            taken.retain(|one| one.read.point != read.point);
            if agreement.tells() && read.point.place.tells_faults() && read.point.is_of(plan) {
                now = read.point.act.max(now);
                // Read again it sees what touches now.
                let again = now > read.point.act && is_still(plan, read.point.act, now);
                let now = if again { now } else { read.point.act };
                let (weighed, off) = (Weighed::of(read.reading), is_off(*agreement));
                taken.push(Taken { read: *read, now, weighed, off });
            }
        }
        let mut sound = Vec::new();
        for (read, agreement) in reads.iter().zip(&agreements) {
            if let (Place::Coil(coil), Agreement::Right) = (read.point.place, agreement) {
                sound.push(coil);
            }
        }
        short::insertion_sort(&mut taken, |a, b| a.read.point.cmp(&b.read.point));
        let work = reads
            .iter()
            .map(|read| read.point.act)
            .filter(|step| matches!(plan.acts.get(usize::from(*step)), Some(Act::Check(_))))
            .max();
        let come = reads.iter().map(|read| read.point.act).max();
        let candidates = candidates(plan, work, come, &taken);
        let come = |point: &Point| (*point, work.unwrap_or(point.act));
        let points = taken.iter().map(|one| (one.read.point, one.now));
        let settings = Settings::of(&posts, points.chain(candidates.iter().map(come)))?;
        let stage = Stage::Joining(joining);
        let bare = Self::bare(job, reads, answers);
        Ok(Self { coils, agreements, taken, sound, work, candidates, settings, stage, ..bare })
    }

    /// Works for about `budget` counted steps (at least one piece of work), and tells what
    /// came of it once it is done. The answer is given once.
    pub fn step(&mut self, budget: u64) -> Option<Diagnosis> {
        self.work_on(budget).unwrap_or_else(|defect| Some(Diagnosis::broken(defect)))
    }

    fn work_on(&mut self, budget: u64) -> Result<Option<Diagnosis>, Defect> {
        let until = self.spent.saturating_add(budget);
        loop {
            match core::mem::replace(&mut self.stage, Stage::Done) {
                Stage::Joining(joining) => self.join(joining)?,
                Stage::Fitting(next, ways) => self.fit(next, ways)?,
                Stage::Looking(done) => self.look(done)?,
                Stage::Grouping(alike) => self.group(alike),
                Stage::Choosing(explanations, choice) => {
                    if let Some(found) = self.choose(explanations, choice)? {
                        return Ok(Some(found));
                    }
                }
                Stage::Broken(defect) => return Err(defect),
                Stage::Done => return Ok(None),
            }
            self.spent = self.spent.saturating_add(self.settings.take_spent());
            if self.spent >= until {
                return Ok(None);
            }
        }
    }

    /// The counted steps so far.
    #[must_use]
    pub const fn spent(&self) -> u64 {
        self.spent
    }

    fn said(&self, question: Question) -> Option<bool> {
        let mut answers = self.answers.iter().rev();
        answers.find(|(of, _)| *of == question).map(|(_, answer)| *answer)
    }

    /// Whether something reads as nothing sound does.
    fn outside(&self) -> bool {
        self.agreements.iter().any(|agreement| agreement.is_wrong())
    }

    /// Plans one other joining of the same coils.
    fn join(&mut self, mut joining: Joining) -> Result<(), Defect> {
        let runs = wide(self.plan.runs.len());
        self.spent = self.spent.saturating_add(runs.saturating_mul(JOINING));
        self.stage = if joining.step(&self.rig) {
            Stage::Joining(joining)
        } else {
            self.others = joining.found();
            self.faults = faults(&Posts::of(&self.rig, &self.plan, &self.coils), &self.others)?;
            Stage::Fitting(0, Vec::new())
        };
        Ok(())
    }

    /// Looks at what one of those that are left shows at every candidate.
    fn look(&mut self, done: usize) -> Result<(), Defect> {
        let posts = Posts::of(&self.rig, &self.plan, &self.coils);
        if let Some(case) = self.cases.get_mut(done) {
            let numbers = self.taken.len()..self.settings.count();
            case.seen.append(&mut self.settings.ohms(&posts, &case.variant.built, numbers)?);
            self.stage = Stage::Looking(done.saturating_add(1));
            return Ok(());
        }
        let mut sum = 0.0;
        for case in &mut self.cases {
            case.weight = libm::exp(case.belief.log - self.best);
            sum += case.weight;
        }
        for case in &mut self.cases {
            case.weight /= sum;
        }
        self.stage = Stage::Grouping(Ambiguity::default());
        Ok(())
    }

    /// Compares one fault with those before it.
    fn group(&mut self, mut alike: Ambiguity) {
        self.stage = match alike.step(&self.cases) {
            Some(steps) => {
                self.spent = self.spent.saturating_add(steps);
                Stage::Grouping(alike)
            }
            None => {
                let groups = alike.groups();
                let explanations = explain(&self.cases, &groups, &self.faults);
                self.spent = self.spent.saturating_add(wide(groups.len()));
                let leads_first = self.agreements.contains(&Agreement::LeadsFirst);
                let told = leads_first || is_sure(&explanations) || self.says_nothing();
                let choice = (!told).then(|| Choice::of(&self.cases, &groups));
                let choice = choice.map(|(choice, steps)| {
                    self.spent = self.spent.saturating_add(steps);
                    choice
                });
                Stage::Choosing(explanations, choice)
            }
        };
    }

    /// Leads alone say nothing of the rig, unless they are wrong themselves.
    fn says_nothing(&self) -> bool {
        self.work.is_none() && !self.agreements.iter().any(|agreement| is_off(*agreement))
    }

    /// Weighs one further reading; once all are weighed, or none need be, tells what came
    /// of it.
    fn choose(
        &mut self,
        explanations: Vec<Explanation>,
        mut choice: Option<Choice>,
    ) -> Result<Option<Diagnosis>, Defect> {
        if let Some(choice) = &mut choice {
            if let Some(case) = choice.lacks().and_then(|at| self.cases.get(at)) {
                let posts = Posts::of(&self.rig, &self.plan, &self.coils);
                let numbers = self.taken.len()..self.settings.count();
                choice.see(self.settings.between(&posts, &case.variant.built, numbers)?);
            } else if let Some(steps) = choice.step(&self.plan, &self.cases, &self.candidates) {
                self.spent = self.spent.saturating_add(steps);
            } else {
                return self.told(explanations, choice.best()).map(Some);
            }
        } else {
            let leads_first = self.agreements.contains(&Agreement::LeadsFirst);
            // Leads come first where they decide.
            let next = points::touching(&self.plan).filter(|_| leads_first);
            return self.told(explanations, next).map(Some);
        }
        self.stage = Stage::Choosing(explanations, choice);
        Ok(None)
    }
}
