//! What is asked, what is answered, what of it is chosen, and what is planned for that.

use super::{Notice, State};
use crate::answer::Asking;
use crate::answer::asking::Answered;
use crate::job::begun::Origin;
use crate::job::{self, Planned};
use crate::later::comes_later;
use crate::question::form::Form;
use crate::rooms::Room;
use coilwright_solver::meter;
use std::rc::Rc;

comes_later! {
    "00000000000000000000000000000004"
    /// Plans anew where what is planned has changed.
    pub(super) fn plan(state: &mut State) {
        state.plan_anew();
    }
}

comes_later! {
    "00000000000000000000000000000009"
    /// Reads what the cup showed by what the rig is believed to be.
    pub(super) fn believe(state: &mut State) {
        state.plan_anew();
        state.read_as_believed();
    }
}

impl State {
    /// What was read before anybody knew of what: the last check of the plan.
    fn read_as_believed(&mut self) {
        let text = self.rooms.already.reads.clone();
        let Some(point) = self.job.plan().and_then(meter::closing) else { return };
        if self.answer.chosen.is_some() && self.job.work.reading(point).is_empty() {
            self.act_on_job(job::Action::Read(point, text));
        }
    }

    /// Reads the form; a new question ends an old one.
    pub(super) fn ask(&mut self) {
        self.question.read();
        self.under_way.slow = false;
        self.under_way.asking = if self.question.read.request.is_none() || self.is_current() {
            Asking::Idle
        } else {
            Asking::BEGUN
        };
        self.spread_names();
    }

    pub(super) fn answer_with(&mut self, answered: Rc<Answered>) {
        if self.question.read.request.as_ref() != Some(&answered.request) {
            return;
        }
        let first = self.answer.answered.is_none();
        if self.under_way.slow {
            self.answer.renewed = self.answer.renewed.wrapping_add(1);
        }
        if self.under_way.another {
            self.rooms.list.start_over();
        }
        *self.under_way = Default::default();
        self.answer.answered = Some(answered);
        self.answer.nearest = None;
        *self.asked = self.question.form.clone();
        if !self.rooms.list.look_anew(&self.answer) && first {
            self.page.left_out("load");
        }
        let key = self.answer.key.take();
        // What was said of a key on opening still holds when the first answer comes.
        if !first || key.is_some() {
            self.choose(key);
        }
    }

    /// Chooses a configuration of the rig that is shown, or none.
    pub(super) fn choose(&mut self, key: Option<String>) {
        let known = self.answer.choose(&self.question, key);
        let notices = &mut self.page.notices;
        notices.retain(|notice| *notice != Notice::KeyUnknown);
        if !known {
            notices.push(Notice::KeyUnknown);
        }
    }

    /// Knows from the start what is chosen and its plan, for neither takes the list: a page
    /// that opens with them does not move when the list comes.
    pub(super) fn foresee(&mut self) {
        let request = self.question.read.request.is_some();
        if self.answer.answered.is_none() && self.answer.key.is_some() && request {
            *self.asked = self.question.form.clone();
            let key = self.answer.key.take();
            self.choose(key);
            self.plan();
        }
    }

    /// Plans anew where what is planned has changed, and works out what right readings leave
    /// open where that is shown.
    fn plan_anew(&mut self) {
        self.plan_of_shown();
        let missing = self.job.missing_open(self.page.room == Room::Sheet);
        if !missing.is_empty() {
            self.job.leave_open(missing);
        }
    }

    fn plan_of_shown(&mut self) {
        let names = self.names();
        let Self { question, answer, asked, job, rooms, .. } = self;
        let (Some(rig), Some(build)) = (answer.rig(question), &question.read.build) else { return };
        let Some(configuration) = answer.shown() else { return };
        let of = Planned { rig, build, configuration, names };
        if !job.is_of(&of) {
            rooms.wire.is_planned_anew();
            // The rig of the last answer, and the box of the fields.
            let form = match answer.answered {
                Some(_) => Form { build: question.form.build.clone(), ..Form::clone(asked) },
                None => question.form.clone(),
            };
            job.go_on_from(&form, answer.key.as_ref(), configuration);
            job.plan_anew(of, Rc::new(Origin { form, key: Some(configuration.key()) }));
        }
    }

    /// What was answered, and what of this rig was put aside, is called as it is in the fields.
    pub(super) fn spread_names(&mut self) {
        let form = &self.question.form;
        if self.is_current() && !self.asked.is_called_as(form) {
            self.asked.call_as(form);
        }
        if self.aside.is_called_otherwise(form) {
            self.aside.call_as(form);
        }
    }

    /// Leaves out what was put aside but is no configuration of its rig.
    pub(super) fn keep_what_can_be_compared(&mut self) {
        if !self.aside.keep_what_can_be_read() {
            self.page.left_out("compare");
        }
    }
}
