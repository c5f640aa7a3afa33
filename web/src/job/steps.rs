//! The steps of the plan, as the page counts them: acts that hands do in one go. What is kept
//! of the work is kept act by act, so that it outlives how acts are taken together.

use super::Job;
use coilwright_solver::meter::{Point, at_act};
use coilwright_solver::wiring::{Act, Site, Step};

impl Job {
    /// All of them; none without a plan.
    #[must_use]
    pub fn steps(&self) -> &[Step] {
        self.plan().map_or(&[], |plan| &plan.steps)
    }

    /// The step at hand, counted from 0.
    #[must_use]
    pub fn at(&self) -> usize {
        self.plan().and_then(|plan| plan.step_of(self.work.at)).unwrap_or(0)
    }

    /// The acts of a step, each with its number.
    fn acts(&self, step: usize) -> impl Iterator<Item = (u16, Act)> + '_ {
        let of = self.steps().get(step).map_or(0..0, |step| step.acts());
        of.filter_map(|at| Some((u16::try_from(at).ok()?, *self.plan()?.acts.get(at)?)))
    }

    /// The runs of the step at hand.
    #[must_use]
    pub fn lit(&self) -> Vec<usize> {
        let step = self.steps().get(self.at()).zip(self.plan());
        step.map_or_else(Vec::new, |(step, plan)| step.runs(plan))
    }

    /// Whether all of a step is done.
    #[must_use]
    pub fn is_done(&self, step: usize) -> bool {
        self.steps().get(step).is_some() && self.acts(step).all(|(at, _)| self.work.is_done(at))
    }

    /// How many steps are done.
    #[must_use]
    pub fn done(&self) -> usize {
        (0..self.steps().len()).filter(|step| self.is_done(*step)).count()
    }

    /// Whether a step, counted from 0, lies behind the gate.
    #[must_use]
    pub fn is_behind(&self, step: usize) -> bool {
        self.acts(step).any(|(_, act)| matches!(act, Act::Land { .. } | Act::PowerOn))
    }

    /// What is read at a step.
    #[must_use]
    pub fn points(&self, step: usize) -> Vec<Point> {
        let Some(plan) = self.plan() else { return Vec::new() };
        self.acts(step).flat_map(|(at, _)| at_act(plan, at)).collect()
    }

    /// Whether a point belongs to the step at hand.
    #[must_use]
    pub fn is_at_hand(&self, point: Point) -> bool {
        self.plan().is_some_and(|plan| plan.step_of(point.act) == Some(self.at()))
    }

    /// Whether anything was done or read.
    #[must_use]
    pub fn is_begun(&self) -> bool {
        !self.work.done.is_empty() || !self.work.read.is_empty()
    }

    /// Goes to a step; beyond the last the work is over.
    pub(super) fn go_to_step(&mut self, step: usize) {
        let steps = self.steps();
        let Some(at) = steps.get(step).or(steps.last()) else { return };
        (self.work.at, self.over) = (at.first, step >= steps.len());
    }

    /// Goes to the first step that places a run.
    pub(super) fn go_to_run(&mut self, run: usize) {
        let Some(plan) = self.plan() else { return };
        let step = plan.steps.iter().position(|step| step.runs(plan).contains(&run));
        if let Some(step) = step {
            self.go_to_step(step);
        }
    }

    /// The steps of a stage of the work.
    pub fn steps_at(&self, site: Site) -> impl Iterator<Item = usize> + '_ {
        let steps = self.steps().iter().enumerate();
        steps.filter_map(move |(at, step)| (step.site == site).then_some(at))
    }

    /// What the gate is shut before is not done.
    pub(super) fn tick_all(&mut self, site: Site, done: bool) {
        let steps: Vec<usize> = self.steps_at(site).collect();
        for step in steps {
            if !(done && self.is_shut(step)) {
                self.tick(step, done);
            }
        }
    }

    pub(super) fn tick(&mut self, step: usize, done: bool) {
        let acts: Vec<u16> = self.acts(step).map(|(at, _)| at).collect();
        for act in acts {
            self.work.tick(act, done);
        }
    }
}
