//! Work in counted steps: what there is for a slice, and what was done.
//!
//! A step stands for some 20 ns of a native processor, whatever it is spent on; what
//! costs more is counted as more. Nothing here looks at a clock, so that the same request
//! ends at the same place everywhere.

use crate::count::wide;

/// The steps of a slice. An operation is never cut short: what it takes beyond the end of
/// the slice is counted all the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Steps {
    taken: u64,
    given: u64,
}

impl Steps {
    /// A slice of so many steps.
    pub(crate) fn new(given: u64) -> Self {
        Self { taken: 0, given }
    }

    /// No end of steps, for what is small by itself.
    pub(crate) fn unbounded() -> Self {
        Self::new(u64::MAX)
    }

    /// Counts what was done. Wrapping: no request does anything near so much, and this is
    /// the innermost step of all.
    #[inline]
    pub(crate) fn take(&mut self, steps: u64) {
        self.taken = self.taken.wrapping_add(steps);
    }

    /// Whether anything is left to do things with.
    #[inline]
    pub(crate) fn any(&self) -> bool {
        self.taken < self.given
    }

    /// What was done so far, beyond the end too.
    pub(crate) fn taken(&self) -> u64 {
        self.taken
    }
}

/// So many things as counted steps.
pub(crate) fn steps(things: usize) -> u64 {
    wide(things)
}
