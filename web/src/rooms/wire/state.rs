//! What the room of the plan remembers.

use crate::rooms::{Given, Remembers, Wish};

/// What it remembers.
#[derive(Clone, Copy, Debug, Default)]
pub struct State {
    /// Whether the steps were copied.
    copied: bool,
    /// Whether the box was changed here, so that it stays unfolded.
    unfolded: bool,
}

/// What can be done in it.
#[derive(Clone, Copy, Debug)]
pub enum Action {
    /// The steps were copied, or could not be.
    Copied(bool),
}

impl State {
    /// Whether the steps were copied as they are now.
    #[must_use]
    pub const fn is_copied(&self) -> bool {
        self.copied
    }

    /// Whether the box stays unfolded.
    #[must_use]
    pub const fn is_unfolded(&self) -> bool {
        self.unfolded
    }

    /// Something of the box is typed or chosen.
    pub const fn unfold(&mut self) {
        self.unfolded = true;
    }

    /// The steps are others now.
    pub const fn is_planned_anew(&mut self) {
        self.copied = false;
    }
}

impl Remembers for State {
    type Action = Action;
    type Kept = ();

    fn act(&mut self, action: Action, _given: Given<'_>) -> Wish {
        match action {
            Action::Copied(copied) => self.copied = copied,
        }
        Wish::Nothing
    }
}
