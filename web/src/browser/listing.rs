//! Runs a listing in slices, so that the page stays alive.
//!
//! A new question drops the old one with everything it had done: that is how a
//! listing is cancelled.

use crate::state::asking::{Answered, Question};
use coilwright_solver::answer::{Progress, Request};
use gloo_timers::callback::Timeout;
use std::cell::RefCell;
use std::rc::Rc;

/// The longest a slice lasts, in milliseconds, but for its last step.
const SLICE: f64 = 6.0;
/// Counted steps at a time to begin with: far less than a slice on any device.
const FIRST_BUDGET: u64 = 4_000;

/// How a listing is told to go on.
#[derive(Debug)]
pub enum Told {
    /// It is this far.
    Progress(Progress),
    /// It is done.
    Answered(Box<Answered>),
}

/// A listing under way; dropping it ends it.
#[derive(Debug)]
pub struct Listing {
    /// The timer of the next slice.
    next: Rc<RefCell<Option<Timeout>>>,
}

impl Drop for Listing {
    fn drop(&mut self) {
        self.next.borrow_mut().take();
    }
}

fn now() -> f64 {
    web_sys::window()
        .and_then(|window| window.performance())
        .map_or(0.0, |performance| performance.now())
}

/// Begins on a request; the first slice runs at once, so that small questions are
/// answered before the page is drawn again.
pub fn start(request: Request, tell: impl Fn(Told) + 'static) -> Listing {
    let next = Rc::new(RefCell::new(None));
    super::kept::note_working(true);
    slice(Question::new(request), FIRST_BUDGET, Rc::new(tell), Rc::clone(&next));
    Listing { next }
}

fn slice(
    mut question: Question,
    mut budget: u64,
    tell: Rc<dyn Fn(Told)>,
    next: Rc<RefCell<Option<Timeout>>>,
) {
    let start = now();
    let mut before = start;
    let progress = loop {
        match question.step(budget) {
            Ok(answered) => {
                super::kept::note_working(false);
                tell(Told::Answered(Box::new(answered)));
                return;
            }
            Err(progress) => {
                let after = now();
                // Steps of about a millisecond, whatever the device.
                if after - before < 0.5 {
                    budget = budget.saturating_mul(2);
                } else if after - before > 2.0 {
                    budget = (budget / 2).max(FIRST_BUDGET);
                }
                before = after;
                if after - start > SLICE {
                    break progress;
                }
            }
        }
    };
    tell(Told::Progress(progress));
    let timer = Rc::clone(&next);
    let later = Timeout::new(0, move || slice(question, budget, tell, timer));
    *next.borrow_mut() = Some(later);
}
