//! What working mode remembers.

use crate::rooms::{Given, Remembers, Wish};

/// What it remembers.
#[derive(Clone, Copy, Debug, Default)]
pub struct State {
    /// Whether steps are read aloud.
    aloud: bool,
    /// Whether it is told how a step is done.
    how: bool,
    /// Whether the whole drawing is shown, and not what the step at hand is about.
    whole: bool,
}

/// What can be done in it.
#[derive(Clone, Copy, Debug)]
pub enum Action {
    /// Steps are read aloud, or no longer.
    Aloud(bool),
    /// It is told how a step is done, or no longer.
    How(bool),
    /// The whole drawing is shown, or what the step at hand is about.
    Whole(bool),
}

impl State {
    /// Whether steps are read aloud.
    #[must_use]
    pub const fn is_aloud(&self) -> bool {
        self.aloud
    }

    /// Whether it is told how a step is done.
    #[must_use]
    pub const fn tells_how(&self) -> bool {
        self.how
    }

    /// Whether the whole drawing is shown.
    #[must_use]
    pub const fn is_whole(&self) -> bool {
        self.whole
    }
}

impl Remembers for State {
    type Action = Action;
    type Kept = ();

    fn act(&mut self, action: Action, _given: Given<'_>) -> Wish {
        match action {
            Action::Aloud(aloud) => self.aloud = aloud,
            Action::How(how) => self.how = how,
            Action::Whole(whole) => self.whole = whole,
        }
        Wish::Nothing
    }
}
