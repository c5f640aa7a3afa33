//! What working mode remembers.

use crate::rooms::{Given, Remembers, Wish};

/// What it remembers.
#[derive(Clone, Copy, Debug, Default)]
pub struct State {
    /// Whether steps are read aloud.
    aloud: bool,
}

/// What can be done in it.
#[derive(Clone, Copy, Debug)]
pub enum Action {
    /// Steps are read aloud, or no longer.
    Aloud(bool),
}

impl State {
    /// Whether steps are read aloud.
    #[must_use]
    pub const fn is_aloud(&self) -> bool {
        self.aloud
    }
}

impl Remembers for State {
    type Action = Action;
    type Kept = ();

    fn act(&mut self, action: Action, _given: Given<'_>) -> Wish {
        match action {
            Action::Aloud(aloud) => self.aloud = aloud,
        }
        Wish::Nothing
    }
}
