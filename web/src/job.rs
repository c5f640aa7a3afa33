//! The job on the plan of a configuration: how far it is, what the meter showed, what that
//! says, and what stands before the gate to power. Every room that is about the plan looks
//! at this one.

pub mod against;
pub mod begun;
mod carried;
mod doubt;
mod gate;
mod meter;
pub mod plan;
mod steps;
pub mod work;

use crate::later::comes_later;
use begun::{Begun, Origin};
pub use carried::Aside;
use coilwright_solver::answer::Configuration;
use coilwright_solver::meter::{self as metering, Diagnosis, Known, Point, Question};
use coilwright_solver::rig::{Build, Rig};
use coilwright_solver::wiring::{Plan, Site};
pub use gate::{Stop, Why};
pub use meter::{Metered, Sought};
use plan::{Wired, Zoom};
use std::rc::Rc;
use work::Work;

/// The job.
#[derive(Clone, Debug, Default)]
pub struct Job {
    /// The plan of what is shown at large, once one was asked for.
    pub wired: Option<Rc<Wired>>,
    /// How far its work is.
    pub work: Work,
    /// What its readings say.
    pub metered: Metered,
    /// The point whose field was gone to last, and how many were.
    pub reached: (u32, Option<Point>),
    /// What was asked for last and is being answered: its field stays where it is while it is
    /// typed into, whatever is asked for next.
    pub answering: Option<Point>,
    /// The explanation that is drawn as built.
    pub explained: Option<u8>,
    /// What was read and done of what is in no plan for now.
    pub aside: Aside,
    /// Whether its last step is behind.
    pub over: bool,
    /// How large its drawing is.
    pub zoom: Zoom,
    /// What the work is of that was begun elsewhere, until it is planned.
    pub origin: Option<Rc<Origin>>,
    /// What was begun of other plans, until they are.
    pub waits: Vec<Begun>,
}

/// What can be done about it.
#[derive(Clone, Debug)]
pub enum Action {
    /// A step of the plan is looked at, counted from 0; beyond the last the work is over.
    Step(usize),
    /// A run is touched: the step that places it is looked at.
    Run(usize),
    /// The run after the one lit is lit, or the one before.
    NextRun(bool),
    /// A step is done, or not.
    Done(usize, bool),
    /// All steps of a stage of the work are done, or not.
    Stage(Site, bool),
    /// The step at hand is done; the next is looked at.
    DoneNext,
    /// What the meter showed at a point is typed.
    Read(Point, String),
    /// The field of a point is wanted, at its step.
    GoTo(Point),
    /// Why somebody goes on against the meter is typed.
    Against(String),
    /// Somebody goes on against it, with what was typed.
    GoAgainst,
    /// A question about an easy cause is answered.
    Say(Question, bool),
    /// What was read and said in search of a fault is forgotten.
    Forget,
    /// What is wrong was worked out.
    Found(Rc<Diagnosis>),
    /// An explanation by its number is drawn as built, or the plan again.
    Explain(Option<u8>),
    /// Nothing is done yet.
    StartOver,
    /// The drawing is larger or smaller.
    Zoom(Zoom),
}

comes_later! {
    "00000000000000000000000000000005"
    /// Does what is wanted.
    pub fn act(job: &mut Job, action: &mut Option<Action>) {
        if let Some(action) = action.take() {
            job.act(action);
        }
    }
}

/// What a plan is made of.
#[derive(Clone, Debug)]
pub struct Planned<'a> {
    /// The rig.
    pub rig: &'a Rig,
    /// How the box is built.
    pub build: &'a Build,
    /// The configuration.
    pub configuration: &'a Configuration,
    /// What the driver groups are called.
    pub names: Vec<String>,
}

impl Job {
    /// The plan, where there is one.
    #[must_use]
    pub fn plan(&self) -> Option<&Plan> {
        self.wired.as_deref()?.plan.as_ref().ok()
    }

    /// The plan with what it is of, for the solver.
    pub(crate) fn on_bench(&self) -> Option<metering::Job<'_>> {
        self.wired.as_deref()?.job()
    }

    fn act(&mut self, action: Action) {
        self.answering = self.answered_by(&action);
        match action {
            Action::Step(step) => self.go_to_step(step),
            Action::Run(run) => self.go_to_run(run),
            Action::NextRun(on) => {
                let runs = self.plan().map_or(0, |plan| plan.runs.len());
                let lit = self.lit();
                let next = match (lit.first(), lit.last(), on) {
                    (_, Some(run), true) => (run + 1) % runs.max(1),
                    (Some(run), _, false) => run.checked_sub(1).unwrap_or(runs.saturating_sub(1)),
                    (_, _, true) => 0,
                    (_, _, false) => runs.saturating_sub(1),
                };
                self.go_to_run(next);
            }
            Action::Read(point, text) => {
                self.work.note(point, &text);
                self.meter();
            }
            Action::Say(question, answer) => {
                self.work.say(question, answer);
                self.meter();
            }
            Action::Forget => {
                self.work.forget();
                self.meter();
            }
            Action::GoTo(point) => {
                let step = self.plan().and_then(|plan| plan.step_of(point.act));
                self.go_to_step(step.unwrap_or(0));
                self.reached = (self.reached.0.wrapping_add(1), Some(point));
            }
            Action::Against(words) => self.say_against(&words),
            Action::GoAgainst => self.go_against(),
            Action::Found(found) => self.take_diagnosis(&found),
            Action::Explain(which) => self.explained = which,
            // What the gate is shut before is not done.
            Action::Done(step, true) if self.is_shut(step) => {}
            Action::DoneNext if self.is_shut(self.at()) => {}
            Action::Done(step, done) => self.tick(step, done),
            Action::Stage(site, done) => self.tick_all(site, done),
            Action::DoneNext => {
                self.tick(self.at(), true);
                self.go_to_step(self.at() + 1);
            }
            Action::StartOver => {
                self.work = Work::default();
                self.aside = Aside::default();
                self.waits.clear();
                self.over = false;
                self.meter();
            }
            Action::Zoom(zoom) => self.zoom = zoom,
        }
    }

    /// What is being answered once an action is done.
    fn answered_by(&self, action: &Action) -> Option<Point> {
        match action {
            Action::Read(point, _)
                if self.found().is_some_and(|found| found.next == Some(*point)) =>
            {
                Some(*point)
            }
            Action::Read(point, _) => self.answering.filter(|answering| answering == point),
            Action::Found(_) | Action::Say(..) | Action::Explain(_) | Action::Zoom(_) => {
                self.answering
            }
            _ => None,
        }
    }

    /// Whether this is what was planned last.
    #[must_use]
    pub fn is_of(&self, of: &Planned<'_>) -> bool {
        self.wired.as_deref().is_some_and(|wired| {
            (&wired.rig, &wired.build, &wired.names) == (of.rig, of.build, &of.names)
                && wired.configuration.outputs == of.configuration.outputs
        })
    }

    /// Plans anew. What was done and read of another plan holds of what is in this one too.
    pub fn plan_anew(&mut self, of: Planned<'_>, origin: Rc<Origin>) {
        let known = Known::default();
        let foretell = |plan: Plan| match metering::foretell(of.rig, &plan, &known) {
            Ok(foretold) => (Ok(plan), foretold),
            Err(defect) => (Err(defect.into()), Vec::new()),
        };
        let plan = Plan::of(of.rig, of.build, of.configuration);
        let (plan, foretold) = plan.map_or_else(|why| (Err(why), Vec::new()), foretell);
        let next = Wired {
            plan,
            foretold,
            rig: of.rig.clone(),
            build: of.build.clone(),
            configuration: of.configuration.clone(),
            names: of.names,
            origin,
            known,
        };
        let acts = |wired: &Wired| wired.plan.as_ref().map(|plan| plan.acts.clone()).ok();
        let before = self.wired.as_deref().and_then(acts);
        let now = acts(&next).unwrap_or_default();
        if before.is_some_and(|before| before != now)
            && let Some(before) = self.wired.take()
        {
            self.aside.take_in(&mut self.work, &before);
            self.over = false;
        }
        if !now.is_empty() {
            self.work.renumber(&now);
        }
        self.aside.give_back(&mut self.work, &next);
        let count = u16::try_from(now.len()).unwrap_or(u16::MAX);
        if count > 0 {
            self.work.at = self.work.at.min(count - 1);
            self.work.done.retain(|act| *act < count);
            self.work.read.retain(|(point, _)| point.act < count);
        }
        self.answering = None;
        self.wired = Some(Rc::new(next));
        self.meter();
    }
}
