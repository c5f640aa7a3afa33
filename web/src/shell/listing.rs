//! Runs a listing in slices, so that the page stays alive.
//!
//! A new question drops the old one with everything it had done: that is how a
//! listing is cancelled.

use super::drafts::AtWork;
use crate::act::{Do, Message};
use crate::answer::Action;
use crate::answer::asking::{Answered, Question};
use crate::host::pace::{AFTER_A_FRAME, Pace};
use crate::later::{self, comes_later};
use coilwright_solver::answer::Request;
use coilwright_solver::nearest::{Found, Nearest};
use gloo_timers::callback::Timeout;
use std::rc::Rc;

/// The longest that an answer waits for the next key, in milliseconds: beyond it whoever types
/// wonders whether anything happens.
const LONGEST_WAIT: f64 = 200.0;

/// What is being worked on.
#[derive(Debug)]
enum Work {
    Question(Box<Question>),
    /// What would fit where nothing of the answer does, once that was begun.
    Nearest(Rc<Answered>, Option<Box<Nearest>>),
    Done,
}

comes_later! {
    "00000000000000000000000000000008"
    /// Searches for what would fit, for so many counted steps.
    fn search(
        request: &Request,
        nearest: &mut Option<Box<Nearest>>,
        budget: u64,
        found: &mut Option<Vec<Found>>,
    ) {
        let nearest = nearest.get_or_insert_with(|| Box::new(Nearest::new(request)));
        *found = nearest.step(budget);
    }
}

/// A listing under way; dropping it ends it.
#[derive(Debug)]
pub(super) struct Listing {
    work: Work,
    pace: Pace,
    /// When the work began, until what came of it is drawn.
    began: Option<f64>,
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
        Self { work, pace: Pace::new(), began: None, at_work: at_work.clone(), next: None }
    }

    /// Whether the answer is still to come.
    #[must_use]
    pub(super) const fn is_answering(&self) -> bool {
        matches!(self.work, Work::Question(_))
    }

    /// Waits until what was typed is drawn, so that keys never wait for an answer, and one
    /// that the next key makes idle is not begun: where the last took long, for twice as long.
    pub(super) fn wait(&mut self, last: f64, act: &Do) {
        let wait = (2.0 * last).clamp(f64::from(AFTER_A_FRAME), LONGEST_WAIT);
        // Within these bounds a number of milliseconds is whole and fits.
        let wait = wait as u32;
        self.next = Some(act.later(wait, Message::Slice));
    }

    /// How long it took until the answer was drawn, once it is.
    pub(super) fn took(&mut self, act: &Do) -> Option<f64> {
        let began = if self.is_answering() { None } else { self.began.take() };
        began.map(|began| act.host().ticks() - began)
    }

    /// Goes on where it was left until what comes later had come.
    pub(super) fn go_on(&mut self, act: &Do) {
        if self.next.is_none() {
            self.slice(act);
        }
    }

    /// Works for a slice, tells what came of it, and asks for the next while there is
    /// more to do.
    pub(super) fn slice(&mut self, act: &Do) {
        self.next = None;
        self.pace.begin(act.host());
        if self.is_answering() && self.began.is_none() {
            self.began = Some(act.host().ticks());
        }
        loop {
            let mut progress = None;
            match &mut self.work {
                Work::Question(question) => match question.step(self.pace.budget()) {
                    Ok(answered) => {
                        self.at_work.note(act.host(), false);
                        let answered = Rc::new(answered);
                        self.work = if answered.none_fits() {
                            Work::Nearest(Rc::clone(&answered), None)
                        } else {
                            Work::Done
                        };
                        act.now(Action::Answered(answered));
                        break;
                    }
                    Err(so_far) => progress = Some(so_far),
                },
                Work::Nearest(answered, nearest) => {
                    // It goes on when what it takes has come.
                    let Some(there) = later::there() else { return };
                    let mut found = None;
                    search(there, &answered.request, nearest, self.pace.budget(), &mut found);
                    if let Some(found) = found {
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
