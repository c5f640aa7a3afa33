//! The order of the list.
//!
//! Fits before not (stated before derived before range-only); even before uneven;
//! unlike drivers in parallel before unlike drivers in series; then target power in
//! steps of half a decibel below the best of any that fits; within a step the higher
//! load (of several outputs the lowest counts); then joined at the driver; then fewest
//! runs; then listing order.

use super::entry::Entry;
use super::tallies::Tallies;
use crate::count::index;
use crate::defect::{Defect, number};
use crate::work::{Steps, steps};
use core::cmp::Reverse;
use std::collections::BinaryHeap;

/// Entries being placed one by one and sorted in runs, which are merged in the end.
#[derive(Clone, Debug, Default)]
pub(super) struct Ranking {
    /// The best target of any entry that fits.
    best: f64,
    /// Where each entry placed so far stands, and its number, sorted batch by batch.
    places: Vec<(u64, u32)>,
    /// The first of each batch that is not merged yet, and where it stands.
    heads: BinaryHeap<Reverse<(u64, u32, usize)>>,
    /// Configurations merged so far.
    before: u32,
}

/// As many are sorted at once.
const BATCH: usize = 256;

impl Ranking {
    pub(super) fn new(entries: &[Entry]) -> Self {
        let mut best = 0.0_f64;
        for entry in entries {
            if let Some(watts) = entry.target.watts().filter(|_| entry.fit < 3) {
                best = best.max(watts);
            }
        }
        Self { best, places: Vec::with_capacity(entries.len()), ..Self::default() }
    }

    /// Works until the numbers of all entries stand in rank order (`true`), each entry
    /// told how many configurations stand before it, or until the budget is spent. Equals
    /// keep listing order.
    pub(super) fn step(
        &mut self,
        entries: &mut [Entry],
        loads: &Tallies,
        ranked: &mut Vec<u32>,
        budget: &mut Steps,
    ) -> Result<bool, Defect> {
        // Placing one, and merging one, take about as long as so many counted steps.
        const PLACING: u64 = 10;
        const MERGING: u64 = 4;
        while budget.any() {
            let from = self.places.len();
            if from < entries.len() {
                for entry in entries.iter().skip(from).take(BATCH) {
                    let number = number(self.places.len())?;
                    self.places.push((self.place(entry, loads), number));
                }
                let batch = self.places.get_mut(from..).ok_or(Defect::Table)?;
                batch.sort_unstable();
                budget.take(steps(batch.len()).saturating_mul(PLACING));
                self.head(from);
                continue;
            }
            let Some(Reverse((_, number, at))) = self.heads.pop() else { return Ok(true) };
            budget.take(MERGING);
            ranked.push(number);
            let entry = entries.get_mut(index(number)).ok_or(Defect::Table)?;
            entry.before = self.before;
            self.before = self.before.saturating_add(entry.count);
            let next = at.saturating_add(1);
            if next.checked_rem(BATCH) != Some(0) {
                self.head(next);
            }
        }
        Ok(false)
    }

    /// Takes the next of a batch, if there is one, to be merged.
    fn head(&mut self, at: usize) {
        let head = self.places.get(at).map(|(place, number)| Reverse((*place, *number, at)));
        self.heads.extend(head);
    }

    /// Where an entry stands in the list, packed so that smaller comes first.
    fn place(&self, entry: &Entry, loads: &Tallies) -> u64 {
        let mut place = u64::from(entry.fit);
        let mut then = |bits: u32, value: u64| {
            place = place << bits | value.min((1_u64 << bits).saturating_sub(1));
        };
        then(1, (!entry.even).into());
        then(1, entry.unlike_in_series.into());
        then(16, steps_below(self.best, entry.target.watts()));
        then(20, loads.above(entry.lowest_load));
        then(1, (!entry.joined).into());
        then(8, entry.runs.into());
        place
    }
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
