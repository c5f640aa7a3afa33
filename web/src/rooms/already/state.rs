//! What the cup of a rig that is wired already reads, while nobody knows how it is wired.

use crate::link::escape::{escaped, unescaped};
use crate::rooms::{Given, Kept, Remembers, Wish};

/// What can be done in the room.
#[derive(Clone, Debug)]
pub enum Action {
    /// What the cup reads is typed.
    Reads(String),
}

/// What the cup reads, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cup {
    /// Empty while nothing is.
    pub reads: String,
}

impl Remembers for Cup {
    type Action = Action;
    type Kept = Self;

    fn act(&mut self, action: Action, _given: Given<'_>) -> Wish {
        let Action::Reads(text) = action;
        self.reads = text;
        Wish::Nothing
    }

    fn kept(&self) -> Self {
        self.clone()
    }

    fn begin(&mut self, kept: Self) {
        *self = kept;
    }
}

/// Its part of a link.
const READS: &str = "reads";

impl Kept for Cup {
    fn write(&self, part: &mut dyn FnMut(&str, &str)) {
        if !self.reads.is_empty() {
            part(READS, &escaped(&self.reads, b""));
        }
    }

    fn read(&mut self, name: &str, value: &str) -> Option<Option<()>> {
        (name == READS).then(|| unescaped(value).map(|text| self.reads = text))
    }
}
