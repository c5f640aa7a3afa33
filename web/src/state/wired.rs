//! The plan of the chosen configuration, and how far its work is.

use super::gate::Against;
use super::{Action, Room, State};
use coilwright_solver::answer::Configuration;
use coilwright_solver::meter::{self, Foretold, Known, Point, Question};
use coilwright_solver::problem::Problem;
use coilwright_solver::rig::{Build, Rig};
use coilwright_solver::wiring::Plan;
use std::rc::Rc;

/// A plan, with what it is of.
#[derive(Clone, Debug, PartialEq)]
pub struct Wired {
    /// The rig.
    pub rig: Rig,
    /// How the box is built.
    pub build: Build,
    /// The configuration.
    pub configuration: Configuration,
    /// The plan, or why the box does not allow it.
    pub plan: Result<Plan, Problem>,
    /// What the meter should read, step by step; empty without a plan.
    pub foretold: Vec<Option<Foretold>>,
    /// What the driver groups are called.
    pub names: Vec<String>,
    /// By what its ranges are told.
    pub(super) known: Known,
}

/// How far the work is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Work {
    /// The step at hand, counted from 0.
    pub at: u16,
    /// The steps that are done, rising.
    pub done: Vec<u16>,
    /// What the meter showed, as typed, by the point, in the order taken.
    pub read: Vec<(Point, String)>,
    /// What was answered to the questions about easy causes.
    pub asked: Vec<(Question, bool)>,
    /// What somebody says who goes on against the meter.
    pub against: Against,
    /// Whether steps have the numbers that they had before leads were read first.
    pub old: bool,
}

/// How large the drawing is shown: the whole of it in its room, or so many quarters of
/// its natural size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Zoom {
    /// As wide as its room.
    Whole,
    /// Quarters of its natural size.
    Quarters(u8),
}

impl Default for Zoom {
    /// As it is meant to be read.
    fn default() -> Self {
        Self::Quarters(4)
    }
}

impl Zoom {
    const SIZES: [u8; 6] = [2, 3, 4, 6, 8, 12];

    /// The next size up, or down.
    #[must_use]
    pub fn turned(self, up: bool) -> Self {
        let now = match self {
            Self::Whole => 4,
            Self::Quarters(quarters) => quarters,
        };
        let next = if up {
            Self::SIZES.into_iter().find(|size| *size > now)
        } else {
            Self::SIZES.into_iter().rev().find(|size| *size < now)
        };
        match (next, self) {
            (Some(next), _) => Self::Quarters(next),
            (None, _) => self,
        }
    }
}

impl Room {
    /// Whether the room is about the plan.
    #[must_use]
    pub fn is_wiring(self) -> bool {
        matches!(self, Self::Wire | Self::Work | Self::Sheet)
    }
}

impl Work {
    /// Whether a step is done.
    #[must_use]
    pub fn is_done(&self, step: u16) -> bool {
        self.done.binary_search(&step).is_ok()
    }

    fn tick(&mut self, step: u16, done: bool) {
        match (self.done.binary_search(&step), done) {
            (Err(at), true) => self.done.insert(at, step),
            (Ok(at), false) => {
                self.done.remove(at);
            }
            _ => {}
        }
    }
}

impl State {
    /// The plan, where there is one.
    #[must_use]
    pub fn plan(&self) -> Option<&Plan> {
        self.wired.as_deref()?.plan.as_ref().ok()
    }

    /// The run of the step at hand.
    #[must_use]
    pub fn lit(&self) -> Option<usize> {
        self.plan()?.steps.get(usize::from(self.work.at))?.run()
    }

    /// What is done about the plan.
    pub(super) fn work(&mut self, action: &Action) {
        let steps = self.plan().map_or(0, |plan| plan.steps.len());
        let last = u16::try_from(steps).unwrap_or(u16::MAX).saturating_sub(1);
        match action {
            Action::Step(step) => self.work.at = (*step).min(last),
            Action::Run(run) => {
                if let Some(step) = self.step_of(*run) {
                    self.work.at = step;
                }
            }
            Action::NextRun(on) => {
                let runs = self.plan().map_or(0, |plan| plan.runs.len());
                let next = match (self.lit(), on) {
                    (None, true) => 0,
                    (None, false) => runs.saturating_sub(1),
                    (Some(run), true) => (run + 1) % runs.max(1),
                    (Some(run), false) => run.checked_sub(1).unwrap_or(runs.saturating_sub(1)),
                };
                if let Some(step) = self.step_of(next) {
                    self.work.at = step;
                }
            }
            Action::Read(point, text) => {
                self.work.note(*point, text);
                self.meter();
            }
            Action::Say(question, answer) => {
                self.work.say(*question, *answer);
                self.meter();
            }
            Action::Forget => {
                self.work.forget();
                self.meter();
            }
            Action::GoTo(point) => self.reach(*point),
            Action::Against(words) => self.say_against(words),
            Action::GoAgainst => self.go_against(),
            Action::Found(found) => self.take_diagnosis(found),
            Action::Explain(which) => self.explained = *which,
            // What the gate is shut before is not done.
            Action::Done(step, true) if self.is_shut(*step) => {}
            Action::DoneNext if self.is_shut(self.work.at) => {}
            Action::Done(step, done) => self.work.tick(*step, *done),
            Action::DoneNext => {
                self.work.tick(self.work.at, true);
                self.work.at = (self.work.at + 1).min(last);
            }
            Action::StartOver => {
                self.work = Work::default();
                self.meter();
            }
            Action::Zoom(zoom) => self.zoom = *zoom,
            Action::Aloud(aloud) => self.aloud = *aloud,
            Action::Copied(copied) => self.copied = *copied,
            _ => {}
        }
    }

    /// The first step that places a run.
    fn step_of(&self, run: usize) -> Option<u16> {
        let step = self.plan()?.steps.iter().position(|step| step.run() == Some(run))?;
        u16::try_from(step).ok()
    }

    /// Plans anew where what is planned has changed. What was done of another plan is
    /// not done of this one.
    pub(super) fn rewire(&mut self) {
        if !self.room.is_wiring() {
            return;
        }
        let (Some(rig), Some(build)) = (self.rig(), &self.read.build) else { return };
        let Some(configuration) = self.shown() else { return };
        let names = self.names();
        let same = |wired: &Wired| {
            (&wired.rig, &wired.build, &wired.names) == (rig, build, &names)
                && wired.configuration.outputs == configuration.outputs
        };
        if self.wired.as_deref().is_some_and(same) {
            return;
        }
        let known = Known::default();
        let foretell = |plan: Plan| match meter::foretell(rig, &plan, &known) {
            Ok(foretold) => (Ok(plan), foretold),
            Err(defect) => (Err(defect.into()), Vec::new()),
        };
        let plan = Plan::of(rig, build, configuration);
        let (plan, foretold) = plan.map_or_else(|why| (Err(why), Vec::new()), foretell);
        let next = Wired {
            foretold,
            plan,
            rig: rig.clone(),
            build: build.clone(),
            configuration: configuration.clone(),
            names,
            known,
        };
        let steps = |wired: &Wired| wired.plan.as_ref().map(|plan| plan.steps.clone()).ok();
        let before = self.wired.as_deref().and_then(steps);
        let now = steps(&next).unwrap_or_default();
        self.copied = false;
        if before.is_some_and(|before| before != now) {
            self.work = Work::default();
        }
        if !now.is_empty() {
            self.work.renumber(&now);
        }
        let count = u16::try_from(now.len()).unwrap_or(u16::MAX);
        if count > 0 {
            self.work.at = self.work.at.min(count - 1);
            self.work.done.retain(|step| *step < count);
            self.work.read.retain(|(point, _)| point.step < count);
        }
        self.wired = Some(Rc::new(next));
        self.meter();
    }
}

#[cfg(test)]
mod tests;
