//! How the page stands: what is asked of several of its parts, and nothing that changes them.

use super::State;
use crate::answer::Asking;
use crate::link::{self, Saved};
use crate::rooms::Room;
use coilwright_solver::answer::{Configuration, Wanted};
use coilwright_solver::rig::Rig;

impl State {
    /// What a link or a draft holds of this page.
    #[must_use]
    pub fn saved(&self) -> Saved {
        Saved {
            form: self.question.form.clone(),
            key: self.answer.key.clone(),
            compared: self.aside.compared.clone(),
            room: self.page.room,
            work: self.job.work_to_keep(),
            rooms: self.rooms.kept(),
        }
    }

    /// What a rig is kept as.
    #[must_use]
    pub fn link_to_keep(&self) -> String {
        link::write(&Saved { room: Room::List, ..self.saved() })
    }

    /// Whether the fields hold the example as it came.
    #[must_use]
    pub fn is_example(&self) -> bool {
        self.question.is_example()
    }

    /// Whether the answer belongs to what stands in the fields now.
    #[must_use]
    pub fn is_current(&self) -> bool {
        match (&self.answer.answered, &self.question.read.request) {
            (Some(answered), Some(request)) => answered.request == *request,
            _ => false,
        }
    }

    /// What of the answer is wanted.
    #[must_use]
    pub fn wanted(&self) -> Wanted {
        self.rooms.list.wanted(&self.answer)
    }

    /// Whether an answer is on its way.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        match self.under_way.asking {
            Asking::Idle => self.question.read.request.is_some() && !self.is_current(),
            Asking::Working(_) => true,
            Asking::Stopped | Asking::Waiting => false,
        }
    }

    /// Whether the answer shown belongs to earlier values, and not just for a moment.
    #[must_use]
    pub fn is_stale(&self) -> bool {
        let moment = matches!(self.under_way.asking, Asking::Working(_)) && !self.under_way.slow;
        self.answer.answered.is_some() && !self.is_current() && !moment
    }

    /// The rig that configurations are shown of: the answered one, until there is one that
    /// of the fields.
    #[must_use]
    pub fn rig(&self) -> Option<&Rig> {
        self.answer.rig(&self.question)
    }

    /// What the groups of the answered rig are called.
    #[must_use]
    pub fn names(&self) -> Vec<String> {
        self.asked.names()
    }

    /// Whether a configuration of the answered rig is among those put aside.
    #[must_use]
    pub fn is_compared(&self, key: &str) -> bool {
        self.aside.has(&self.asked, key)
    }

    /// Whether the first answer is on its way: what is below its place would move.
    #[must_use]
    pub fn is_coming(&self) -> bool {
        self.page.room == Room::List && self.answer.answered.is_none() && self.is_busy()
    }

    /// The configuration that is shown at large: the chosen one, or the one ranked first.
    #[must_use]
    pub fn shown(&self) -> Option<&Configuration> {
        self.answer.shown()
    }
}
