//! How much is worked at a time, so that the page stays alive.

use super::Host;

/// The longest a slice lasts, in milliseconds, but for its last step.
const SLICE: f64 = 6.0;
/// Counted steps at a time to begin with: far less than a slice on any device.
const FIRST_BUDGET: u64 = 4_000;
/// Longer than a frame of the screen: what was typed is drawn first.
pub(crate) const AFTER_A_FRAME: u32 = 24;

/// The pace of a device.
#[derive(Debug)]
pub(crate) struct Pace {
    budget: u64,
    start: f64,
    before: f64,
}

impl Pace {
    pub(crate) const fn new() -> Self {
        Self { budget: FIRST_BUDGET, start: 0.0, before: 0.0 }
    }

    /// A slice begins.
    pub(crate) fn begin(&mut self, host: &dyn Host) {
        self.start = host.ticks();
        self.before = self.start;
    }

    /// How many counted steps to take next.
    pub(crate) const fn budget(&self) -> u64 {
        self.budget
    }

    /// Takes note of how long they took; `false` once the slice is over.
    pub(crate) fn goes_on(&mut self, host: &dyn Host) -> bool {
        let after = host.ticks();
        // Steps of about a millisecond, whatever the device.
        if after - self.before < 0.5 {
            self.budget = self.budget.saturating_mul(2);
        } else if after - self.before > 2.0 {
            self.budget = (self.budget / 2).max(FIRST_BUDGET);
        }
        self.before = after;
        after - self.start <= SLICE
    }
}
