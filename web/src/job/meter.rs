//! What the meter showed along the plan, and what that says.

use super::Job;
use super::gate::Stop;
use crate::question::text::{self, Misread};
use coilwright_solver::defect::Defect;
use coilwright_solver::meter::{
    self, Agreement, Diagnosing, Diagnosis, Fault, Foretold, Known, Open, Other, Point, Question,
    Read,
};
use coilwright_solver::wiring::Act;
use std::rc::Rc;

/// What follows from the readings, worked out once when one of them changes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Metered {
    /// Whether each reading is right, point by point.
    pub(super) judged: Vec<(Point, Agreement)>,
    /// What leads and coils read by themselves.
    pub known: Known,
    /// What right readings leave open.
    pub(super) open: LeftOpen,
    /// Where a 1 stands that may mean over range.
    lone: Vec<Point>,
    /// What stands before the gate to power.
    pub(super) stops: Vec<Stop>,
    /// What stood there when somebody went on against it.
    pub(super) covered: Option<Vec<Stop>>,
    /// Where the solver found itself wrong and told nothing.
    pub defect: Option<Defect>,
    /// What may be wrong, once something was read.
    pub found: Option<Rc<Diagnosis>>,
    /// What that is still to be worked out from.
    pub due: Option<Rc<Sought>>,
    /// What was read.
    reads: Vec<Read>,
}

/// What right readings leave open, point by point, as far as that was worked out.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct LeftOpen {
    pub(super) known: Vec<(Point, Open)>,
    pub(super) others: Vec<Other>,
}

impl Metered {
    /// Whether a point was not read before, or read otherwise.
    fn is_new(&self, reads: &[Read], point: Point) -> bool {
        let of = |reads: &[Read]| reads.iter().find(|read| read.point == point).copied();
        of(&self.reads) != of(reads)
    }
}

/// What was read and answered, to find out what is wrong.
#[derive(Clone, Debug, PartialEq)]
pub struct Sought {
    pub(super) reads: Vec<Read>,
    answers: Vec<(Question, bool)>,
}

/// Whether a sound rig may read 1 Ω at a point.
fn may_be_one(job: &meter::Job<'_>, point: Point) -> bool {
    let foretold = meter::foretold(job.rig, job.plan, &Known::default(), &[point]);
    let foretold = foretold.ok().and_then(|mut one| one.pop().flatten());
    foretold.is_some_and(|foretold| foretold.low <= 1.0 && 1.0 <= foretold.high)
}

impl Job {
    /// What a sound rig reads at a point, by all that was read; `None` where it is open.
    #[must_use]
    pub fn foretold(&self, point: Point) -> Option<Foretold> {
        let job = self.on_bench()?;
        let foretold = meter::foretold(job.rig, job.plan, &self.metered.known, &[point]);
        foretold.ok()?.pop().flatten()
    }

    /// How the reading of a point stands; `None` where nothing is typed.
    #[must_use]
    pub fn agreement(&self, point: Point) -> Option<Result<Agreement, Misread>> {
        if let Err(misread) = text::reading(self.work.reading(point)) {
            return Some(Err(misread));
        }
        if self.metered.lone.contains(&point) {
            return Some(Err(Misread::LoneOne));
        }
        let judged = self.metered.judged.iter().find(|(of, _)| *of == point)?;
        Some(Ok(judged.1))
    }

    /// What may be wrong, once something reads wrong or is in doubt.
    #[must_use]
    pub fn found(&self) -> Option<&Diagnosis> {
        let mut judged = self.metered.judged.iter();
        let shown = judged.any(|(of, told)| of.place.tells_faults() && told.is_suspect());
        self.metered.found.as_deref().filter(|_| shown)
    }

    /// Where the solver found itself wrong, so that nothing is told of the readings.
    #[must_use]
    pub fn defect(&self) -> Option<Defect> {
        let found = self.metered.found.as_deref();
        self.metered.defect.or(found.and_then(|found| found.defect))
    }

    /// Whether something reads wrong, and not merely in doubt.
    #[must_use]
    pub fn is_wrong(&self) -> bool {
        self.metered.judged.iter().any(|(_, told)| told.is_wrong())
    }

    /// What is probably wrong, where the readings leave one explanation, to be shown at its
    /// place in the drawing.
    #[must_use]
    pub fn suspects(&self) -> &[Fault] {
        let first = self.found().and_then(|found| found.explanations.first());
        first.map_or(&[], |one| &one.faults)
    }

    /// The fault that is drawn as built, where that is wanted.
    #[must_use]
    pub fn drawn(&self) -> Option<&Fault> {
        let of = self.found()?.explanations.get(usize::from(self.explained?))?;
        of.faults.first()
    }

    /// Begins to work out what is wrong, where that is due.
    #[must_use]
    pub fn diagnosing(&self) -> Option<Diagnosing> {
        let Sought { reads, answers } = self.metered.due.as_deref()?;
        let job = self.on_bench()?;
        Some(Diagnosing::new(&job, reads, answers))
    }

    /// Takes what came of it.
    pub(super) fn take_diagnosis(&mut self, found: &Rc<Diagnosis>) {
        if let Some(sought) = self.metered.due.take() {
            self.take_doubts(&found.agreements, &sought);
            if self.metered.found.as_ref() != Some(found) {
                self.explained = None;
            }
            self.metered.found = Some(Rc::clone(found));
            // What is in doubt stands before the gate too.
            self.gate();
        }
    }

    /// Works out what the readings say, but for what is wrong, which takes longer.
    pub(super) fn meter(&mut self) {
        let mut metered = Metered::default();
        if let Some(job) = self.on_bench() {
            let mut reads = Vec::new();
            for (point, text) in &self.work.read {
                if !point.is_of(job.plan) {
                    continue;
                }
                if text::is_lone_one(text) && !may_be_one(&job, *point) {
                    metered.lone.push(*point);
                } else if let Ok(Some(reading)) = text::reading(text) {
                    reads.push(Read { point: *point, reading });
                }
            }
            // What the solver cannot tell is not told: no verdict, and nothing learnt.
            match meter::judge(&job, &reads) {
                Ok(judged) => {
                    for (read, agreement) in reads.iter().zip(judged) {
                        metered.judged.push((read.point, agreement));
                    }
                }
                Err(defect) => metered.defect = Some(defect),
            }
            match Known::of(&job, &reads) {
                Ok(known) => metered.known = known,
                Err(defect) => metered.defect = Some(defect),
            }
            // Leads and coils alone say nothing of what was built, unless they are wrong.
            let alone = |point: &Point| {
                let step = job.plan.acts.get(usize::from(point.act));
                matches!(step, Some(Act::Leads | Act::Coils { .. }))
            };
            let mut judged = metered.judged.iter();
            let tells =
                judged.any(|(of, told)| of.place.tells_faults() && (told.is_wrong() || !alone(of)));
            if tells {
                // What was found before stands until more is known.
                for (of, told) in &mut metered.judged {
                    let before = self.metered.judged.iter().find(|(point, _)| point == of);
                    let stands = before.is_some_and(|(_, told)| *told == Agreement::Doubtful);
                    if stands && *told == Agreement::Right && !self.metered.is_new(&reads, *of) {
                        *told = Agreement::Doubtful;
                    }
                }
                metered.reads.clone_from(&reads);
                metered.found.clone_from(&self.metered.found);
                metered.due = Some(Rc::new(Sought { reads, answers: self.work.asked.clone() }));
            }
        }
        if metered.found != self.metered.found {
            self.explained = None;
        }
        metered.covered = self.metered.covered.take();
        self.metered = metered;
        self.foretell();
        self.gate();
    }

    /// What every step says is right follows what was read.
    fn foretell(&mut self) {
        let known = &self.metered.known;
        let Some(wired) = self.wired.as_mut().filter(|wired| wired.known != *known) else { return };
        let wired = Rc::make_mut(wired);
        if let Ok(plan) = &wired.plan
            && let Ok(foretold) = meter::foretell(&wired.rig, plan, known)
        {
            wired.foretold = foretold;
        }
        wired.known.clone_from(known);
    }
}
