//! Looks for what is wrong in slices, once what was typed is drawn.
//!
//! What is read or answered anew drops what was begun.

use crate::act::{Do, Errand};
use crate::host::pace::{AFTER_A_FRAME, Pace};
use crate::job::Action;
use crate::job::Sought;
use crate::state::State;
use coilwright_solver::meter::Diagnosing;
use gloo_timers::callback::Timeout;
use std::rc::Rc;

/// A diagnosis under way; dropping it ends it.
#[derive(Debug)]
pub(super) struct Finding {
    sought: Rc<Sought>,
    work: Option<Box<Diagnosing>>,
    pace: Pace,
    /// The timer of the next slice.
    next: Option<Timeout>,
}

impl Finding {
    /// Begins, goes on with or drops what is under way, as the state wants it.
    pub(super) fn follow(under_way: &mut Option<Self>, state: &State, act: &Do) {
        match (&*under_way, &state.job.metered.due) {
            (Some(one), Some(due)) if Rc::ptr_eq(&one.sought, due) => {}
            (_, due) => {
                *under_way = due.as_ref().map(|sought| Self {
                    sought: Rc::clone(sought),
                    work: None,
                    pace: Pace::new(),
                    next: Some(act.later(AFTER_A_FRAME, Errand::Find.into())),
                });
            }
        }
    }

    /// Works for a slice, tells what came of it, and asks for the next while there is
    /// more to do.
    pub(super) fn slice(&mut self, state: &State, act: &Do) {
        self.next = None;
        self.pace.begin(act.host());
        if self.work.is_none() {
            self.work = state.job.diagnosing().map(Box::new);
        }
        let Some(work) = &mut self.work else { return };
        loop {
            if let Some(found) = work.step(self.pace.budget()) {
                return act.now(Action::Found(Rc::new(found)));
            }
            if !self.pace.goes_on(act.host()) {
                break;
            }
        }
        self.next = Some(act.later(0, Errand::Find.into()));
    }
}
