//! What stands in the page replaced as a whole.

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
        self.page.notices.clear();
        if !opened.left_out.is_empty() {
            self.page.notices.push(Notice::LeftOut(opened.left_out));
        }
        self.take(opened.saved, mine);
    }

    pub(super) fn take(&mut self, saved: Saved, mine: Mine) {
        let begun = Job::of(saved.work, &saved.form, saved.key.as_ref(), saved.waits);
        self.replace(saved.form);
        self.rooms.begin(saved.rooms);
        self.answer.key = saved.key;
        self.aside.compared = saved.compared;
        self.page.room = saved.room;
        let Job { work, origin, waits, .. } = begun;
        (self.job.work, self.job.origin, self.job.waits) = (work, origin, waits);
        self.rooms.rigs.is_of(mine);
        self.keep_what_can_be_compared();
    }

    /// Begins anew with these fields.
    pub(super) fn start_with(&mut self, form: Form) {
        self.page.notices.clear();
        self.rooms.rigs.is_of(Mine::default());
        self.replace(form);
    }
}
