//! How the page stands: what is asked of several of its parts, and nothing that changes them.

use super::State;
use crate::answer::Asking;
use crate::job::begun::Begun;
use crate::job::plan::Wired;
use crate::job::work::Work;
use crate::link::{self, Saved};
use crate::question::Question;
use crate::rooms::Room;
use coilwright_solver::answer::{Configuration, Wanted};
use coilwright_solver::rig::Rig;
use std::rc::Rc;

impl State {
    /// What a link or a draft holds of this page.
    #[must_use]
    pub fn saved(&self) -> Saved {
        let (work, waits) = self.work_to_keep();
        Saved {
            form: self.question.form.clone(),
            key: self.answer.key.clone(),
            compared: self.aside.compared.clone(),
            room: self.page.room,
            work,
            waits,
            rooms: self.rooms.kept(),
        }
    }

    /// The work on the plan of what stands in the fields, and what else was done and read.
    fn work_to_keep(&self) -> (Work, Vec<Begun>) {
        let job = &self.job;
        let is_here = match (job.wired.as_deref(), &job.origin) {
            (Some(wired), _) => self.is_plan_of(wired),
            (None, Some(origin)) => {
                origin.form == self.question.form && origin.key == self.answer.key
            }
            (None, None) => true,
        };
        if is_here {
            let mut waits = job.waits.clone();
            waits.extend(job.aside.begun());
            return (job.work_to_keep(), waits);
        }
        (Work::default(), self.all_begun())
    }

    /// All that was done and read, plan by plan.
    pub(super) fn all_begun(&self) -> Vec<Begun> {
        let job = &self.job;
        let mut all = job.waits.clone();
        all.extend(job.aside.begun());
        let work = job.work_to_keep();
        let origin = job.wired.as_deref().map(|wired| &wired.origin).or(job.origin.as_ref());
        if let Some(origin) = origin.filter(|_| work != Work::default()) {
            all.push(Begun { origin: Rc::clone(origin), work });
        }
        all
    }

    /// Whether a plan is that of what stands in the fields and is shown.
    fn is_plan_of(&self, wired: &Wired) -> bool {
        let Question { read, .. } = &*self.question;
        read.request.as_ref().is_some_and(|request| request.rig == wired.rig)
            && read.build.as_ref() == Some(&wired.build)
            && self.shown().is_some_and(|one| one.outputs == wired.configuration.outputs)
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
        matches!(self.page.room, Room::List | Room::Already)
            && self.answer.answered.is_none()
            && self.is_busy()
    }

    /// The configuration that is shown at large: the chosen one, or the one ranked first.
    #[must_use]
    pub fn shown(&self) -> Option<&Configuration> {
        self.answer.shown()
    }
}
