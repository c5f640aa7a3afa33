//! How the page stands: what is asked of its state, and nothing that changes it.

use super::asking::Answered;
use super::link::Saved;
use super::{Asking, Room, State, example};
use coilwright_solver::answer::{Configuration, Wanted};
use coilwright_solver::rig::Rig;

impl State {
    /// What a link or a draft holds of this page.
    #[must_use]
    pub fn saved(&self) -> Saved {
        Saved {
            form: self.form.clone(),
            order: self.look.order,
            load: self.look.load,
            key: self.key.clone(),
            compared: self.compared.clone(),
            room: self.room,
            work: self.work_to_keep(),
            shown: self.shown_by_meter.clone(),
        }
    }

    /// Whether the fields hold the example as it came.
    #[must_use]
    pub fn is_example(&self) -> bool {
        self.form == example::marigold()
    }

    /// Whether the answer belongs to what stands in the fields now.
    #[must_use]
    pub fn is_current(&self) -> bool {
        match (&self.answered, &self.read.request) {
            (Some(answered), Some(request)) => answered.request == *request,
            _ => false,
        }
    }

    /// What of the answer is wanted.
    #[must_use]
    pub fn wanted(&self) -> Wanted {
        let answered = self.answered.as_deref();
        let total = answered.and_then(|answered| answered.shown().total).unwrap_or(0);
        self.look.wanted(total, answered.is_none_or(Answered::is_filtered))
    }

    /// Whether an answer is on its way.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        match self.asking {
            Asking::Idle => self.read.request.is_some() && !self.is_current(),
            Asking::Working(_) => true,
            Asking::Stopped | Asking::Waiting => false,
        }
    }

    /// Whether the answer shown belongs to earlier values, and not just for a moment.
    #[must_use]
    pub fn is_stale(&self) -> bool {
        let moment = matches!(self.asking, Asking::Working(_)) && !self.slow;
        self.answered.is_some() && !self.is_current() && !moment
    }

    /// The rig that configurations are shown of: the answered one, until there is one that
    /// of the fields.
    #[must_use]
    pub fn rig(&self) -> Option<&Rig> {
        match (&self.answered, &self.read.request) {
            (Some(answered), _) => Some(&answered.request.rig),
            (None, request) => request.as_ref().map(|request| &request.rig),
        }
    }

    /// Whether the first answer is on its way: what is below its place would move.
    #[must_use]
    pub fn is_coming(&self) -> bool {
        self.room == Room::List && self.answered.is_none() && self.is_busy()
    }

    /// The configuration that is shown at large: the chosen one, or the one ranked first.
    #[must_use]
    pub fn shown(&self) -> Option<&Configuration> {
        match &self.chosen {
            Some(one) => Some(one),
            None => self.answered.as_deref()?.first(),
        }
    }
}
