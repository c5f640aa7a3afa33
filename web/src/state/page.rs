//! What is left of the page beside its rooms: which one fills it, and what is said above it.

use crate::later::Later;
use crate::link::{LeftOut, Opened};
use crate::rooms::Room;
use crate::rooms::rigs::Mine;
use crate::state::undo::Left;

/// What came of giving the link away.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Handed {
    /// Nothing that is to be told: it was passed on, or something was done since.
    #[default]
    No,
    /// It was copied.
    Copied,
    /// The browser did neither: it stands in a field, to be copied by hand.
    Shown,
}

/// Something the visitor should know.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notice {
    /// Parts of a link were left out.
    LeftOut(Vec<LeftOut>),
    /// What is typed cannot be kept on this device: the browser refuses.
    NotKept,
    /// Nor can it where there is no space left.
    Full,
    /// The chosen configuration is not among those of the rig.
    KeyUnknown,
}

/// The page beside its rooms.
#[derive(Clone, Debug, Default)]
pub struct Page {
    /// What fills it.
    pub room: Room,
    /// Whether it is drawn for the sun.
    pub sun: bool,
    /// What the visitor should know.
    pub notices: Vec<Notice>,
    /// What came of giving the link away.
    pub handed: Handed,
    /// Whether it is kept on this device.
    pub kept: bool,
    /// Whether a newer version of it is.
    pub newer: bool,
    /// Whether anything was done on it yet: before, there is nothing to save.
    pub touched: bool,
    /// How what comes later stands.
    pub later: Later,
}

/// What can be done about the page as a whole.
#[derive(Clone, Debug)]
pub enum Action {
    /// A configuration is chosen, or none.
    Choose(Option<String>),
    /// The browser went back or forth to a choice and a room.
    Return(Option<String>, Room),
    /// Back to the list: from a room, or from the chosen configuration.
    Leave,
    /// The list is wanted with nothing of it chosen.
    All,
    /// Another room is wanted.
    Room(Room),
    /// The plan of a configuration is wanted.
    Wire(String),
    /// A rig that is wired already is believed to be this configuration, or nobody knows.
    Believe(Option<String>),
    /// The page is drawn for the sun, or no longer.
    Sun,
    /// An empty form is wanted.
    StartEmpty,
    /// The example is wanted.
    ShowExample,
    /// What was left behind last is wanted, or what undoing left.
    Undo(bool),
    /// A rig that is kept was erased or replaced.
    Erased(Left),
    /// It was exchanged for what stood in its place before, where this was kept meanwhile.
    Exchanged(bool, Option<String>),
    /// A link was opened while the page was running, or a rig that is kept.
    Open(Box<Opened>, Mine),
    /// What is typed could not be kept, because of this.
    NotKept(Notice),
    /// The page is kept on this device, or a newer version of it is.
    Kept {
        /// Whether it is a newer one.
        newer: bool,
    },
    /// The newer version can wait.
    NotNow,
    /// A notice was read.
    Dismiss(usize),
    /// Something came of giving the link away.
    Handed(Handed),
    /// What comes later stands otherwise.
    Later(Later),
}

impl Action {
    /// Whether it is the visitor's own, and changes what is kept of the page.
    #[must_use]
    pub const fn is_done(&self) -> bool {
        match self {
            Self::Choose(_)
            | Self::Return(..)
            | Self::Leave
            | Self::All
            | Self::Room(_)
            | Self::Wire(_)
            | Self::Believe(_)
            | Self::StartEmpty
            | Self::ShowExample
            | Self::Undo(_)
            | Self::Open(..) => true,
            Self::Sun
            | Self::NotKept(_)
            | Self::Erased(_)
            | Self::Exchanged(..)
            | Self::Kept { .. }
            | Self::NotNow
            | Self::Dismiss(_)
            | Self::Handed(_)
            | Self::Later(_) => false,
        }
    }
}

impl Page {
    /// Tells something, once.
    pub fn notice(&mut self, notice: Notice) {
        if !self.notices.contains(&notice) {
            self.notices.push(notice);
        }
    }

    /// Tells that a part of the link was left out.
    pub fn left_out(&mut self, part: &str) {
        let part = LeftOut::Impossible(part.to_owned());
        for notice in &mut self.notices {
            if let Notice::LeftOut(parts) = notice {
                if !parts.contains(&part) {
                    parts.push(part);
                }
                return;
            }
        }
        self.notices.push(Notice::LeftOut(vec![part]));
    }
}
