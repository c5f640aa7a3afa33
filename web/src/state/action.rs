//! What can happen to the page: of each part its own, and here the sum of them.

use super::page;
use crate::question::Edit;
use crate::rooms::{Doing, rigs};
use crate::{answer, aside, job, rooms};

/// What can happen.
#[derive(Clone, Debug)]
pub enum Action {
    /// The form is changed in part.
    Edit(Edit),
    /// The answering tells something, or is stopped.
    Answer(answer::Action),
    /// What is put aside to compare changes.
    Aside(aside::Action),
    /// The job on the plan goes on.
    Job(job::Action),
    /// Something is done in a room.
    Room(Doing),
    /// The page as a whole changes.
    Page(page::Action),
}

impl Action {
    /// Whether it is the visitor's own: from then on there is something to save.
    #[must_use]
    pub fn is_done(&self) -> bool {
        match self {
            Self::Edit(_) | Self::Aside(_) | Self::Job(_) => true,
            Self::Answer(_) => false,
            Self::Room(doing) => doing.is_done(),
            Self::Page(action) => action.is_done(),
        }
    }
}

macro_rules! is_an_action {
    ($($action:ty, $of:ident => $to:expr;)*) => {
        $(impl From<$action> for Action {
            fn from($of: $action) -> Self {
                $to
            }
        })*
    };
}

is_an_action! {
    Edit, of => Self::Edit(of);
    answer::Action, of => Self::Answer(of);
    aside::Action, of => Self::Aside(of);
    job::Action, of => Self::Job(of);
    page::Action, of => Self::Page(of);
    rooms::list::Action, of => Self::Room(Doing::List(of));
    rooms::already::Action, of => Self::Room(Doing::Already(of));
    rooms::closed::Action, of => Self::Room(Doing::Closed(of));
    rooms::sheet::Action, of => Self::Room(Doing::Sheet(of));
    rooms::wire::Action, of => Self::Room(Doing::Wire(of));
    rooms::work::Action, of => Self::Room(Doing::Work(of));
    rigs::Action, of => Self::Room(Doing::Rigs(of));
}

/// Short names for the actions of every part, for tests.
#[cfg(test)]
pub(crate) mod acts {
    pub(crate) use crate::answer::Action as OnAnswer;
    pub(crate) use crate::aside::Action as OnAside;
    pub(crate) use crate::job::Action as OnJob;
    pub(crate) use crate::question::Edit;
    pub(crate) use crate::rooms::already::Action as InAlready;
    pub(crate) use crate::rooms::closed::Action as InClosed;
    pub(crate) use crate::rooms::list::Action as InList;
    pub(crate) use crate::rooms::rigs::Action as InRigs;
    pub(crate) use crate::rooms::sheet::Action as InSheet;
    pub(crate) use crate::rooms::wire::Action as InWire;
    pub(crate) use crate::state::page::Action as OnPage;
}
