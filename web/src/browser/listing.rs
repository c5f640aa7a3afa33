//! Runs a listing in slices, so that the page stays alive.
//!
//! A new question drops the old one with everything it had done: that is how a
//! listing is cancelled.

use crate::state::asking::{Answered, Question};
use coilwright_solver::answer::{Progress, Request};
use coilwright_solver::nearest::{Found, Nearest};
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
    /// What would fit, where nothing does.
    Nearest(Vec<Found>),
}

/// What is being worked on.
enum Work {
    Question(Box<Question>),
    Nearest(Box<Nearest>),
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

/// Begins on a request: at once, or, while somebody types, once the key is drawn, so that
/// keys never wait for an answer, and one that the next key makes idle is not begun.
pub fn start(request: Request, typing: bool, tell: impl Fn(Told) + 'static) -> Listing {
    // Longer than a frame of the screen.
    const AFTER_A_FRAME: u32 = 24;
    let next = Rc::new(RefCell::new(None));
    super::kept::note_working(true);
    if typing {
        let timer = Rc::clone(&next);
        let work = Work::Question(Box::new(Question::new(request)));
        let tell: Rc<dyn Fn(Told)> = Rc::new(tell);
        let later = Timeout::new(AFTER_A_FRAME, move || slice(work, FIRST_BUDGET, tell, timer));
        *next.borrow_mut() = Some(later);
        return Listing { next };
    }
    slice(
        Work::Question(Box::new(Question::new(request))),
        FIRST_BUDGET,
        Rc::new(tell),
        Rc::clone(&next),
    );
    Listing { next }
}

fn slice(
    mut work: Work,
    mut budget: u64,
    tell: Rc<dyn Fn(Told)>,
    next: Rc<RefCell<Option<Timeout>>>,
) {
    let start = now();
    let mut before = start;
    loop {
        let mut progress = None;
        match &mut work {
            Work::Question(question) => match question.step(budget) {
                Ok(answered) => {
                    super::kept::note_working(false);
                    let nearest = answered.none_fits().then(|| Nearest::new(&answered.request));
                    tell(Told::Answered(Box::new(answered)));
                    let Some(nearest) = nearest else { return };
                    work = Work::Nearest(Box::new(nearest));
                    break;
                }
                Err(so_far) => progress = Some(so_far),
            },
            Work::Nearest(nearest) => {
                if let Some(found) = nearest.step(budget) {
                    tell(Told::Nearest(found));
                    return;
                }
            }
        }
        let after = now();
        // Steps of about a millisecond, whatever the device.
        if after - before < 0.5 {
            budget = budget.saturating_mul(2);
        } else if after - before > 2.0 {
            budget = (budget / 2).max(FIRST_BUDGET);
        }
        before = after;
        if after - start > SLICE {
            if let Some(progress) = progress {
                tell(Told::Progress(progress));
            }
            break;
        }
    }
    let timer = Rc::clone(&next);
    let later = Timeout::new(0, move || slice(work, budget, tell, timer));
    *next.borrow_mut() = Some(later);
}
