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
use core::cmp::Reverse;

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

/// Entries being judged, class by class.
#[derive(Clone, Debug, Default)]
pub(super) struct Ranking {
    entries: Vec<Entry>,
    loads: Vec<(Ratio, LoadTally)>,
    next: usize,
}

impl Ranking {
    /// Judges classes until all are (`true`) or the budget is spent.
    pub(super) fn judge(
        &mut self,
        listing: &Listing,
        places: &[Place],
        rig: &Rig,
        budget: u64,
    ) -> bool {
        // Judging one class takes about as long as so many counted steps.
        const EACH: u64 = 10;
        let most = usize::try_from(budget.div_ceil(EACH)).unwrap_or(usize::MAX);
        let from = self.next;
        for class in listing.classes().iter().skip(from).take(most) {
            for (place, number) in places.iter().zip(0_u8..) {
                self.judge_one(class, place, number, rig);
            }
            self.next = self.next.saturating_add(1);
        }
        self.next >= listing.classes().len()
    }

    fn judge_one(&mut self, class: &Class, place: &Place, number: u8, rig: &Rig) {
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
                    class: u32::try_from(self.next).unwrap_or(u32::MAX),
                    place: number,
                    joined,
                });
            }
        }
        let configurations = u64::from(class.joined).saturating_add(u64::from(class.apart));
        let tally = LoadTally { load, configurations, verdict, even: class.even };
        self.loads.push((class.load, tally));
    }

    /// The loads, rising, and the entries in rank order.
    pub(super) fn finish(
        mut self,
        listing: &Listing,
        places: &[Place],
    ) -> (Vec<LoadTally>, Vec<Entry>) {
        self.loads.sort_by_key(|(load, _)| *load);
        let mut loads: Vec<LoadTally> = Vec::new();
        for (_, tally) in self.loads {
            match loads.last_mut().filter(|last| last.load == tally.load) {
                Some(last) => {
                    last.configurations = last.configurations.saturating_add(tally.configurations);
                    last.verdict = last.verdict.min(tally.verdict);
                    last.even |= tally.even;
                }
                None => loads.push(tally),
            }
        }
        let fitting = self.entries.iter().filter(|entry| entry.fit < 3);
        let best = fitting.map(|entry| entry.target).fold(0.0, f64::max);
        let place_of = |load: Ohms| loads.partition_point(|tally| tally.load < load);
        let mut keyed: Vec<_> = self
            .entries
            .into_iter()
            .filter_map(|entry| {
                let class = listing.classes().get(entry.class())?;
                let step = steps_below(best, entry.target);
                let load = Reverse(place_of(Ohms::new(class.load)));
                let (fit, uneven, unlike) = (entry.fit, entry.uneven, entry.unlike_in_series);
                let last = (!entry.joined, class.runs, entry.place, entry.class);
                Some(((fit, uneven, unlike, step, load, last), entry))
            })
            .collect();
        keyed.sort_by_key(|(key, _)| *key);
        debug_assert!(places.len() < 256, "places are numbered in a byte");
        (loads, keyed.into_iter().map(|(_, entry)| entry).collect())
    }
}

/// Whole steps of half a decibel below the best; 0 where a figure is not known.
fn steps_below(best: f64, target: f64) -> u32 {
    if target <= 0.0 || best <= 0.0 {
        return 0;
    }
    // Targets that differ by rounding alone are the same target.
    let steps = libm::floor(20.0 * libm::log10(best / target) + 1e-9);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "casts saturate")]
    let steps = steps as u32;
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
