//! What stands in the page replaced as a whole, and what stood there coming back.

use super::draft::Previous;
use super::{Notice, State};
use crate::answer::Answer;
use crate::job::Job;
use crate::link::{Opened, Saved};
use crate::question::form::Form;
use crate::rooms::Room;
use crate::rooms::rigs::Mine;

impl State {
    fn replace(&mut self, form: Form) {
        self.question.form = form;
        self.question.removed = None;
        // An answer to an earlier state of these values is of use; one to another rig is not.
        let renewed = self.answer.renewed;
        *self.answer = Answer { renewed, ..Answer::default() };
        *self.rooms.list = Default::default();
        // Another rig has another customer.
        *self.rooms.sheet = Default::default();
        let (zoom, reached) = (self.job.zoom, self.job.reached);
        *self.job = Job { zoom, reached, ..Job::default() };
        self.page.room = Room::List;
        self.ask();
    }

    /// Opens what a link holds over what stands in the fields.
    pub(super) fn open(&mut self, opened: Opened, mine: Mine) {
        self.keep_as_previous();
        self.page.notices.clear();
        if !opened.left_out.is_empty() {
            self.page.notices.push(Notice::LeftOut(opened.left_out));
        }
        self.take(opened.saved, mine);
    }

    fn take(&mut self, saved: Saved, mine: Mine) {
        let Job { work, begun, .. } = Job::of(saved.work, &saved.form, saved.key.as_ref());
        self.replace(saved.form);
        self.rooms.begin(saved.rooms);
        self.answer.key = saved.key;
        self.aside.compared = saved.compared;
        self.page.room = saved.room;
        (self.job.work, self.job.begun) = (work, begun);
        self.rooms.rigs.is_of(mine);
        self.keep_what_can_be_compared();
    }

    /// Brings back what stood in the page before it was replaced as a whole; what stands
    /// there now can be brought back in turn.
    pub(super) fn back_to_previous(&mut self) {
        if let Some(previous) = self.page.previous.take() {
            self.keep_as_previous();
            self.page.notices.clear();
            let Previous { saved, mine } = *previous;
            self.take(saved, mine);
        }
    }

    /// Keeps what stands in the page one tap away, unless nobody typed it. Whoever wants
    /// it back wants to see it, not the room in which another one was opened.
    pub(super) fn keep_as_previous(&mut self) {
        let mut previous = Previous { saved: self.saved(), mine: self.rooms.rigs.mine.clone() };
        if self.page.room == Room::Rigs {
            previous.saved.room = Room::List;
        }
        if previous.saved.is_worth_keeping() {
            self.page.previous = Some(Box::new(previous));
        }
    }

    /// Begins anew with these fields.
    pub(super) fn start_with(&mut self, form: Form) {
        self.keep_as_previous();
        self.page.notices.clear();
        self.rooms.rigs.is_of(Mine::default());
        self.replace(form);
    }
}
