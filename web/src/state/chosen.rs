//! What of the answered list is looked at, and what of it is chosen.

use super::State;
use super::action::Notice;
use super::asking::Answered;
use coilwright_solver::answer;
use coilwright_solver::ohms::Ohms;
use std::rc::Rc;

impl State {
    pub(super) fn has_load(&self, load: Option<Ohms>) -> bool {
        let loads = self.answered.as_deref().map_or(&[][..], |answered| &answered.shown().loads);
        loads.iter().any(|tally| Some(tally.load) == load)
    }

    /// The list as it is now looked at.
    pub(super) fn arrange(&mut self) {
        let wanted = self.wanted();
        let view = |answered: &Answered| Rc::new(answered.view(&wanted));
        self.view = self.answered.as_deref().map(view);
    }

    /// Knows from the start what is chosen and its plan, for neither takes the list: a page
    /// that opens with them does not move when the list comes.
    pub(super) fn foresee(&mut self) {
        if self.answered.is_none() && self.key.is_some() && self.read.request.is_some() {
            self.asked = self.form.clone();
            let key = self.key.take();
            self.choose(key);
            self.rewire();
        }
    }

    /// Chooses a configuration of the rig that is shown, or none.
    pub(super) fn choose(&mut self, key: Option<String>) {
        self.notices.retain(|notice| *notice != Notice::KeyUnknown);
        self.chosen = None;
        self.key = key;
        let (Some(rig), Some(key)) = (self.rig(), &self.key) else { return };
        match answer::one(rig, key) {
            Ok(one) => self.chosen = Some(Rc::new(one)),
            Err(_) => {
                self.key = None;
                self.notices.push(Notice::KeyUnknown);
            }
        }
    }
}
