//! Runs a listing in slices, so that the page stays alive.
//!
//! A new question drops the old one with everything it had done: that is how a
//! listing is cancelled.

use crate::app::Do;
use crate::state::Action;
use crate::state::asking::Question;
use coilwright_solver::answer::Request;
use coilwright_solver::nearest::Nearest;
use gloo_timers::callback::Timeout;
use std::rc::Rc;

/// The longest a slice lasts, in milliseconds, but for its last step.
const SLICE: f64 = 6.0;
/// Counted steps at a time to begin with: far less than a slice on any device.
const FIRST_BUDGET: u64 = 4_000;

/// What is being worked on.
#[derive(Debug)]
enum Work {
    Question(Box<Question>),
    Nearest(Box<Nearest>),
    Done,
}

/// A listing under way; dropping it ends it.
#[derive(Debug)]
pub struct Listing {
    work: Work,
    budget: u64,
    /// The timer of the next slice.
    next: Option<Timeout>,
}

fn now() -> f64 {
    web_sys::window()
        .and_then(|window| window.performance())
        .map_or(0.0, |performance| performance.now())
}

impl Listing {
    /// Begins on a request.
    #[must_use]
    pub fn new(request: &Request) -> Self {
        super::kept::note_working(true);
        let work = Work::Question(Box::new(Question::new(request.clone())));
        Self { work, budget: FIRST_BUDGET, next: None }
    }

    /// Whether the answer is still to come.
    #[must_use]
    pub const fn is_answering(&self) -> bool {
        matches!(self.work, Work::Question(_))
    }

    /// Waits until what was typed is drawn, so that keys never wait for an answer, and one
    /// that the next key makes idle is not begun.
    pub fn wait(&mut self, act: &Do) {
        // Longer than a frame of the screen.
        const AFTER_A_FRAME: u32 = 24;
        self.next = Some(act.slice_later(AFTER_A_FRAME));
    }

    /// Works for a slice, tells what came of it, and asks for the next while there is
    /// more to do.
    pub fn slice(&mut self, act: &Do) {
        self.next = None;
        let start = now();
        let mut before = start;
        loop {
            let mut progress = None;
            match &mut self.work {
                Work::Question(question) => match question.step(self.budget) {
                    Ok(answered) => {
                        super::kept::note_working(false);
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
                    if let Some(found) = nearest.step(self.budget) {
                        self.work = Work::Done;
                        act.now(Action::Nearest(Rc::new(found)));
                        break;
                    }
                }
                Work::Done => return,
            }
            let after = now();
            // Steps of about a millisecond, whatever the device.
            if after - before < 0.5 {
                self.budget = self.budget.saturating_mul(2);
            } else if after - before > 2.0 {
                self.budget = (self.budget / 2).max(FIRST_BUDGET);
            }
            before = after;
            if after - start > SLICE {
                if let Some(progress) = progress {
                    act.now(Action::Progress(progress));
                }
                break;
            }
        }
        if !matches!(self.work, Work::Done) {
            self.next = Some(act.slice_later(0));
        }
    }
}
