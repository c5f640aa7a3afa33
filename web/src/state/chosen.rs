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

    /// Chooses a configuration of the answered rig, or none.
    pub(super) fn choose(&mut self, key: Option<String>) {
        self.notices.retain(|notice| *notice != Notice::KeyUnknown);
        self.chosen = None;
        self.key = key;
        let (Some(answered), Some(key)) = (self.answered.as_deref(), &self.key) else { return };
        match answer::one(&answered.request.rig, key) {
            Ok(one) => self.chosen = Some(Rc::new(one)),
            Err(_) => {
                self.key = None;
                self.notices.push(Notice::KeyUnknown);
            }
        }
    }
}
