//! The order of the list.
//!
//! Fits before not (stated before derived before range-only); even before uneven;
//! unlike drivers in parallel before unlike drivers in series; then target power in
//! steps of half a decibel below the best of any that fits; within a step the higher
//! load; then joined at the driver; then fewest runs; then listing order. Classes are
//! ranked, not configurations: all dealings of a class stand alike but for being joined
//! at the driver.

use super::{LoadTally, Output};
use crate::judge::{Basis, Verdict, overheats};
use crate::listing::{Class, Listing};
use crate::network::Network;
use crate::ohms::{Ohms, Ratio};
use crate::outputs::Place;
use crate::rig::Rig;
use std::collections::BTreeMap;

/// Configurations of one class on one output that stand alike: a stretch of the list.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    fit: u8,
    uneven: bool,
    unlike_in_series: bool,
    target: f64,
    class: u32,
    place: u8,
    pub(super) joined: bool,
}

impl Entry {
    pub(super) fn class(self) -> usize {
        usize::try_from(self.class).unwrap_or(usize::MAX)
    }

    pub(super) fn place(self) -> usize {
        usize::from(self.place)
    }
}

/// Entries being judged class by class, then placed one by one, then sorted.
#[derive(Clone, Debug, Default)]
pub(super) struct Ranking {
    tallies: BTreeMap<Ratio, LoadTally>,
    entries: Vec<Entry>,
    judged: usize,
    /// The tallies in rising order, once all classes are judged.
    loads: Vec<LoadTally>,
    /// The best target of any entry that fits.
    best: f64,
    /// Where each entry placed so far stands: the least first.
    ranks: Vec<(u64, u32)>,
}

impl Ranking {
    /// Works until only the sorting is left (`true`) or the budget is spent.
    pub(super) fn step(
        &mut self,
        listing: &Listing,
        places: &[Place],
        rig: &Rig,
        budget: u64,
    ) -> bool {
        // Judging or placing one takes about as long as so many counted steps.
        const EACH: u64 = 10;
        let most = usize::try_from(budget.div_ceil(EACH)).unwrap_or(usize::MAX);
        let from = self.judged;
        for class in listing.classes().iter().skip(from).take(most) {
            for (place, number) in places.iter().zip(0_u8..) {
                self.judge(class, place, number, rig);
            }
            self.judged = self.judged.saturating_add(1);
        }
        if self.judged < listing.classes().len() {
            return false;
        }
        if self.loads.is_empty() {
            self.loads = core::mem::take(&mut self.tallies).into_values().collect();
            let fitting = self.entries.iter().filter(|entry| entry.fit < 3);
            self.best = fitting.map(|entry| entry.target).fold(0.0, f64::max);
        }
        let from = self.ranks.len();
        for (number, entry) in (0..).zip(&self.entries).skip(from).take(most) {
            let Some(class) = listing.classes().get(entry.class()) else { continue };
            self.ranks.push((self.rank(entry, class), number));
        }
        self.ranks.len() >= self.entries.len()
    }

    fn judge(&mut self, class: &Class, place: &Place, number: u8, rig: &Rig) {
        let load = Ohms::new(class.load);
        let verdict = place.figures.verdict(load);
        let available = place.figures.available(load);
        let fit = match (verdict, available.map(|a| a.basis)) {
            (Verdict::Fits, Some(Basis::Range)) => 2,
            (Verdict::Fits, Some(Basis::Derived)) | (Verdict::FitsByDerivation, _) => 1,
            (Verdict::Fits, _) => 0,
            (Verdict::NotStated, _) => 3,
            (Verdict::BelowStated | Verdict::TooLow, _) => 4,
        };
        let usable = usable(class, rig);
        let target = available.zip(usable).map_or(0.0, |(a, usable)| a.low.min(usable));
        for (joined, count) in [(true, class.joined), (false, class.apart)] {
            if count > 0 {
                self.entries.push(Entry {
                    fit,
                    uneven: !class.even,
                    unlike_in_series: class.unlike_in_series,
                    target,
                    class: u32::try_from(self.judged).unwrap_or(u32::MAX),
                    place: number,
                    joined,
                });
            }
        }
        let new = LoadTally { load, configurations: 0, verdict, even: false };
        let tally = self.tallies.entry(class.load).or_insert(new);
        let more = u64::from(class.joined).saturating_add(u64::from(class.apart));
        tally.configurations = tally.configurations.saturating_add(more);
        tally.verdict = tally.verdict.min(verdict);
        tally.even |= class.even;
    }

    /// Where an entry stands in the list, packed so that smaller comes first.
    fn rank(&self, entry: &Entry, class: &Class) -> u64 {
        let load = Ohms::new(class.load);
        let above = self.loads.partition_point(|tally| tally.load <= load);
        let higher_loads = self.loads.len().saturating_sub(above);
        let mut rank = u64::from(entry.fit);
        let mut then = |bits: u32, value: u64| {
            rank = rank << bits | value.min((1_u64 << bits).saturating_sub(1));
        };
        then(1, entry.uneven.into());
        then(1, entry.unlike_in_series.into());
        then(16, steps_below(self.best, entry.target));
        then(20, u64::try_from(higher_loads).unwrap_or(u64::MAX));
        then(1, (!entry.joined).into());
        then(8, class.runs.into());
        then(5, entry.place.into());
        rank
    }

    /// The loads, rising, and the entries in rank order; equals keep listing order.
    pub(super) fn finish(mut self) -> (Vec<LoadTally>, Vec<Entry>) {
        self.ranks.sort_unstable();
        let entry = |(_, number): &(u64, u32)| {
            let number = usize::try_from(*number).ok()?;
            self.entries.get(number).copied()
        };
        let entries = self.ranks.iter().filter_map(entry).collect();
        (self.loads, entries)
    }
}

/// Whole steps of half a decibel below the best; 0 where a figure is not known.
fn steps_below(best: f64, target: f64) -> u64 {
    if target <= 0.0 || best <= 0.0 {
        return 0;
    }
    // Targets that differ by rounding alone are the same target.
    let steps = libm::floor(20.0 * libm::log10(best / target) + 1e-9);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "casts saturate")]
    let steps = steps as u64;
    steps
}

/// The most total power before the first coil passes its rating, near enough to rank by.
fn usable(class: &Class, rig: &Rig) -> Option<f64> {
    rig.every_rating_known().then(|| 1.0 / class.hottest)
}

/// How one output of a configuration stands.
pub(super) fn output(
    class: &Class,
    place: &Place,
    usable_watts: Option<f64>,
    network: Network,
) -> Output {
    let load = Ohms::new(class.load);
    let available = place.figures.available(load);
    let both = available.zip(usable_watts);
    Output {
        way: place.way,
        channels: place.channels.clone(),
        network,
        load,
        verdict: place.figures.verdict(load),
        available,
        usable_watts,
        target_watts: both.map(|(a, usable)| a.low.min(usable)),
        overheats: both.map(|(a, usable)| overheats(a.high, usable)),
    }
}
