//! Evenness between outputs: the one rule, for whoever lists and for whoever checks.
//!
//! With *even only* the deals ([`super::deals`]) and the combining of a list make nothing that
//! breaks it, so that little is made in vain; whether a configuration is even is said here.

/// What hangs on an output, as evenness between outputs sees it: the kind of the output, the
/// load, and the rating of all coils together. Loads and ratings may be numbers for what is
/// equal where they are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Hanging<L, R> {
    pub(crate) kind: usize,
    pub(crate) load: L,
    pub(crate) rating: R,
}

impl<L: PartialEq, R: PartialEq> Hanging<L, R> {
    /// Whether two outputs leave a configuration even: those of one kind carry equal loads and
    /// equal ratings, and so equal power; the levels of unlike ones are set apart.
    pub(crate) fn is_even_with(&self, other: &Self) -> bool {
        self.kind != other.kind || (self.load == other.load && self.rating == other.rating)
    }
}
