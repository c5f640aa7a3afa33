//! Work in counted steps: what there is for a slice, and what was done.
//!
//! A step stands for some 20 ns of a native processor, whatever it is spent on; what
//! costs more is counted as more. Nothing here looks at a clock, so that the same request
//! ends at the same place everywhere.

/// Steps that are left of a slice. An operation is never cut short: what it takes beyond
/// the end of the slice is owed, and counted all the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Steps {
    left: i64,
    given: i64,
}

impl Steps {
    /// A slice of so many steps.
    pub(crate) fn new(given: u64) -> Self {
        let given = i64::try_from(given).unwrap_or(i64::MAX);
        Self { left: given, given }
    }

    /// No end of steps, for what is small by itself.
    pub(crate) fn unbounded() -> Self {
        Self::new(u64::MAX)
    }

    /// Counts what was done.
    #[inline]
    pub(crate) fn take(&mut self, steps: u64) {
        self.left = self.left.saturating_sub_unsigned(steps);
    }

    /// Whether anything is left to do things with.
    #[inline]
    pub(crate) fn any(&self) -> bool {
        self.left > 0
    }

    /// What was done so far, beyond the end too.
    pub(crate) fn taken(&self) -> u64 {
        u64::try_from(self.given.saturating_sub(self.left)).unwrap_or(0)
    }
}

/// So many things as counted steps.
pub(crate) fn steps(things: usize) -> u64 {
    u64::try_from(things).unwrap_or(u64::MAX)
}
