//! What somebody says who goes on against the meter.

use crate::question::form::longest;
use coilwright_solver::bounds::Field;

/// The fewest letters that say anything.
pub const FEWEST: usize = 4;
/// The most characters that are kept of it.
pub const MOST: usize = longest(Field::Against);

/// What somebody says who goes on against the meter.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Against {
    /// As typed so far, or as it was said.
    pub words: String,
    /// Whether it was said: the work goes on.
    pub went: bool,
}

impl Against {
    /// What is typed, without what no line of text holds.
    #[must_use]
    pub fn typed(words: &str) -> Self {
        let plain = words.chars().filter(|c| !c.is_control());
        Self { words: plain.take(MOST).collect(), went: false }
    }

    /// What was said; where it says too little it is no more than typed.
    #[must_use]
    pub fn said(words: &str) -> Self {
        let Self { words, .. } = Self::typed(words.trim());
        let mut said = Self { words, went: false };
        said.went = said.is_enough();
        said
    }

    /// Whether it says anything.
    #[must_use]
    pub fn is_enough(&self) -> bool {
        self.words.chars().filter(|c| c.is_alphabetic()).count() >= FEWEST
    }
}
