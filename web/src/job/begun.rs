//! Work that was begun on another plan than the one in hand: what it is of, and that plan made
//! once more, so that what was read and done comes to the things that it is of.

use super::work::Work;
use super::{Job, Planned};
use crate::answer::Answer;
use crate::question::Question;
use crate::question::form::Form;
use coilwright_solver::answer::Configuration;
use std::rc::Rc;

/// What a plan is of, as it stood in the fields.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Origin {
    /// What stood in them.
    pub form: Form,
    /// The chosen configuration; none for the one that is ranked first.
    pub key: Option<String>,
}

/// Work on the plan of an origin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Begun {
    /// What the plan is of.
    pub origin: Rc<Origin>,
    /// How far its work is.
    pub work: Work,
}

impl Job {
    /// A job that was begun elsewhere and is this far, with what else was read and done.
    #[must_use]
    pub fn of(work: Work, form: &Form, key: Option<&String>, waits: Vec<Begun>) -> Self {
        let origin = || Rc::new(Origin { form: form.clone(), key: key.cloned() });
        let origin = (work != Work::default()).then(origin);
        Self { work, origin, waits, ..Self::default() }
    }

    /// Plans what was begun elsewhere, so that it is carried into the plan that comes next.
    pub fn go_on_from(&mut self, form: &Form, key: Option<&String>, shown: &Configuration) {
        let (work, wired) = (core::mem::take(&mut self.work), self.wired.take());
        for one in core::mem::take(&mut self.waits) {
            self.carry(one, shown);
        }
        (self.work, self.wired) = (work, wired);
        // What was done of the plan that was begun with is not done of another.
        if let Some(origin) = self.origin.take()
            && self.wired.is_none()
            && (origin.form != *form || origin.key.as_ref() != key)
        {
            self.plan_origin(&origin, shown);
        }
    }

    /// Puts what was begun of another plan aside, thing by thing; what cannot be planned waits
    /// as it is.
    fn carry(&mut self, begun: Begun, shown: &Configuration) {
        self.work = begun.work.clone();
        self.plan_origin(&begun.origin, shown);
        match self.wired.take().filter(|wired| wired.plan.is_ok()) {
            Some(before) => self.aside.take_in(&mut self.work, &before),
            None => self.waits.push(begun),
        }
    }

    /// Plans an origin, of a key of its own or of the configuration that is shown. Where that
    /// cannot be planned nothing is known of it.
    fn plan_origin(&mut self, origin: &Rc<Origin>, shown: &Configuration) {
        let mut question = Question::of(origin.form.clone());
        question.read();
        let mut answer = Answer::default();
        answer.choose(&question, Some(origin.key.clone().unwrap_or_else(|| shown.key())));
        let of = (answer.rig(&question), &question.read.build, answer.shown());
        if let (Some(rig), Some(build), Some(configuration)) = of {
            let names = question.form.names();
            self.plan_anew(Planned { rig, build, configuration, names }, Rc::clone(origin));
        }
    }
}
