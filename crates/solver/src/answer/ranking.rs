//! The order of the list.
//!
//! Fits before not (stated before derived before range-only); even before uneven;
//! unlike drivers in parallel before unlike drivers in series; then target power in
//! steps of half a decibel below the best of any that fits; within a step the higher
//! load (of several outputs the lowest counts); then joined at the driver; then fewest
//! runs; then listing order.

use super::LoadTally;
use super::combine::Entry;
use crate::ohms::{Ohms, Ratio};

/// Entries being placed one by one, then sorted.
#[derive(Clone, Debug, Default)]
pub(super) struct Ranking {
    /// The best target of any entry that fits.
    best: f64,
    /// Where each entry placed so far stands, the least first, and its number.
    places: Vec<(u64, u32)>,
}

impl Ranking {
    pub(super) fn new(entries: &[Entry]) -> Self {
        let mut best = 0.0_f64;
        for entry in entries {
            if entry.fit < 3 {
                best = best.max(entry.target.unwrap_or(0.0));
            }
        }
        Self { best, places: Vec::new() }
    }

    /// Works until only the sorting is left (`true`) or the budget is spent.
    pub(super) fn step(&mut self, entries: &[Entry], loads: &[LoadTally], budget: u64) -> bool {
        // Placing one takes about as long as so many counted steps.
        const EACH: u64 = 10;
        let most = usize::try_from(budget.div_ceil(EACH)).unwrap_or(usize::MAX);
        let from = self.places.len();
        for entry in entries.iter().skip(from).take(most) {
            let number = u32::try_from(self.places.len()).unwrap_or(u32::MAX);
            self.places.push((self.place(entry, loads), number));
        }
        self.places.len() >= entries.len()
    }

    /// Where an entry stands in the list, packed so that smaller comes first.
    fn place(&self, entry: &Entry, loads: &[LoadTally]) -> u64 {
        let mut place = u64::from(entry.fit);
        let mut then = |bits: u32, value: u64| {
            place = place << bits | value.min((1_u64 << bits).saturating_sub(1));
        };
        then(1, (!entry.even).into());
        then(1, entry.unlike_in_series.into());
        then(16, steps_below(self.best, entry.target));
        then(20, higher_loads(loads, entry.lowest_load));
        then(1, (!entry.joined).into());
        then(8, entry.runs.into());
        place
    }

    /// The numbers of the entries in rank order; equals keep listing order.
    pub(super) fn finish(&mut self) -> Vec<u32> {
        let mut places = core::mem::take(&mut self.places);
        places.sort_unstable();
        places.into_iter().map(|(_, number)| number).collect()
    }
}

/// How many loads of a rising list are higher.
pub(super) fn higher_loads(loads: &[LoadTally], load: Ratio) -> u64 {
    let load = Ohms::new(load);
    let above = loads.partition_point(|tally| tally.load <= load);
    u64::try_from(loads.len().saturating_sub(above)).unwrap_or(u64::MAX)
}

/// Whole steps of half a decibel below the best. A power that is not known comes after
/// those that are.
fn steps_below(best: f64, target: Option<f64>) -> u64 {
    let Some(target) = target else { return u64::MAX };
    if target >= best {
        return 0;
    }
    // Targets that differ by rounding alone are the same target.
    let steps = 20.0 / core::f64::consts::LN_10 * libm::log(best / target);
    let steps = libm::floor(steps + 1e-9);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "casts saturate")]
    let steps = steps as u64;
    steps
}
