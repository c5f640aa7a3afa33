//! What was answered, and what of it is chosen: what every room may look at.

pub mod asking;

use crate::question::Question;
use asking::Answered;
use coilwright_solver::answer::{self, Configuration, Progress};
use coilwright_solver::nearest::Found;
use coilwright_solver::ohms::Ohms;
use coilwright_solver::rig::Rig;
use std::rc::Rc;

/// How the answering of the present request stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Asking {
    /// There is nothing to answer, or it is answered.
    #[default]
    Idle,
    /// It is being worked on.
    Working(Progress),
    /// The visitor stopped it.
    Stopped,
    /// It was being worked on when the page stopped last time; it waits for a tap.
    Waiting,
}

impl Asking {
    /// Just begun.
    pub const BEGUN: Self = Self::Working(Progress { done: 0, of: 0 });
}

/// The answering of the present request.
#[derive(Clone, Copy, Debug, Default)]
pub struct UnderWay {
    /// How it stands.
    pub asking: Asking,
    /// Whether the answer is taking longer than a moment.
    pub slow: bool,
    /// Whether the list is to begin with its first page when the answer comes.
    pub another: bool,
}

/// The last good answer.
#[derive(Clone, Debug, Default)]
pub struct Answer {
    /// With the request it belongs to.
    pub answered: Option<Rc<Answered>>,
    /// What would fit where nothing does, once that is known.
    pub nearest: Option<Rc<Vec<Found>>>,
    /// The key of the chosen configuration.
    pub key: Option<String>,
    /// The chosen configuration, where it is one of the answered rig.
    pub chosen: Option<Rc<Configuration>>,
    /// Counts the answers that came late: what they show is drawn from nothing, so that
    /// nothing moves under a finger long after the last key.
    pub renewed: u32,
}

/// What the answering tells, and what can be done about it.
#[derive(Clone, Debug)]
pub enum Action {
    /// The listing is this far.
    Progress(Progress),
    /// A request is answered.
    Answered(Rc<Answered>),
    /// It is known what would fit where nothing does.
    Nearest(Rc<Vec<Found>>),
    /// The listing is to stop.
    Stop,
    /// The listing is to go on after all.
    GoOn,
}

impl UnderWay {
    /// Takes note of how far it is, unless it was stopped.
    pub fn is_this_far(&mut self, progress: Progress) {
        if matches!(self.asking, Asking::Working(_)) {
            self.asking = Asking::Working(progress);
            self.slow = true;
        }
    }
}

impl Answer {
    /// Whether some listed configuration has a load.
    #[must_use]
    pub fn has_load(&self, load: Option<Ohms>) -> bool {
        let loads = self.answered.as_deref().map_or(&[][..], |answered| &answered.shown().loads);
        loads.iter().any(|tally| Some(tally.load) == load)
    }

    /// The configuration that is shown at large: the chosen one, or the one ranked first.
    #[must_use]
    pub fn shown(&self) -> Option<&Configuration> {
        match &self.chosen {
            Some(one) => Some(one),
            None => self.answered.as_deref()?.first(),
        }
    }

    /// The rig that configurations are shown of: the answered one, until there is one that
    /// of the fields.
    #[must_use]
    pub fn rig<'a>(&'a self, question: &'a Question) -> Option<&'a Rig> {
        match (&self.answered, &question.read.request) {
            (Some(answered), _) => Some(&answered.request.rig),
            (None, request) => request.as_ref().map(|request| &request.rig),
        }
    }

    /// Chooses a configuration of the rig that is shown, or none; `false` where it has none of
    /// that key.
    pub fn choose(&mut self, question: &Question, key: Option<String>) -> bool {
        let one = self.rig(question).zip(key.as_ref()).map(|(rig, key)| answer::one(rig, key));
        let known = !matches!(one, Some(Err(_)));
        self.key = key.filter(|_| known);
        self.chosen = one.and_then(Result::ok).map(Rc::new);
        known
    }
}
