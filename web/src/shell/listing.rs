//! Runs a listing in slices, so that the page stays alive.
//!
//! A new question drops the old one with everything it had done: that is how a
//! listing is cancelled.

use super::drafts::AtWork;
use crate::act::{Do, Message};
use crate::answer::Action;
use crate::answer::asking::Question;
use crate::host::pace::{AFTER_A_FRAME, Pace};
use coilwright_solver::answer::Request;
use coilwright_solver::nearest::Nearest;
use gloo_timers::callback::Timeout;
use std::rc::Rc;

/// What is being worked on.
#[derive(Debug)]
enum Work {
    Question(Box<Question>),
    Nearest(Box<Nearest>),
    Done,
}

/// A listing under way; dropping it ends it.
#[derive(Debug)]
pub(super) struct Listing {
    work: Work,
    pace: Pace,
    at_work: AtWork,
    /// The timer of the next slice.
    next: Option<Timeout>,
}

impl Listing {
    /// Begins on a request.
    #[must_use]
    pub(super) fn new(request: &Request, at_work: &AtWork, act: &Do) -> Self {
        at_work.note(act.host(), true);
        let work = Work::Question(Box::new(Question::new(request.clone())));
        Self { work, pace: Pace::new(), at_work: at_work.clone(), next: None }
    }

    /// Whether the answer is still to come.
    #[must_use]
    pub(super) const fn is_answering(&self) -> bool {
        matches!(self.work, Work::Question(_))
    }

    /// Waits until what was typed is drawn, so that keys never wait for an answer, and one
    /// that the next key makes idle is not begun.
    pub(super) fn wait(&mut self, act: &Do) {
        self.next = Some(act.later(AFTER_A_FRAME, Message::Slice));
    }

    /// Works for a slice, tells what came of it, and asks for the next while there is
    /// more to do.
    pub(super) fn slice(&mut self, act: &Do) {
        self.next = None;
        self.pace.begin(act.host());
        loop {
            let mut progress = None;
            match &mut self.work {
                Work::Question(question) => match question.step(self.pace.budget()) {
                    Ok(answered) => {
                        self.at_work.note(act.host(), false);
                        self.work = if answered.none_fits() {
                            Work::Nearest(Box::new(Nearest::new(&answered.request)))
                        } else {
                            Work::Done
                        };
                        act.now(Action::Answered(Rc::new(answered)));
                        break;
                    }
                    Err(so_far) => progress = Some(so_far),
                },
                Work::Nearest(nearest) => {
                    if let Some(found) = nearest.step(self.pace.budget()) {
                        self.work = Work::Done;
                        act.now(Action::Nearest(Rc::new(found)));
                        break;
                    }
                }
                Work::Done => return,
            }
            if !self.pace.goes_on(act.host()) {
                if let Some(progress) = progress {
                    act.now(Action::Progress(progress));
                }
                break;
            }
        }
        if !matches!(self.work, Work::Done) {
            self.next = Some(act.later(0, Message::Slice));
        }
    }
}
