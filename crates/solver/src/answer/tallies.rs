//! What the configurations with each load come to.

use super::LoadTally;
use super::entry::Entry;
use super::power::Power;
use super::tiers::Tier;
use crate::defect::Defect;
use crate::judge::Verdict;
use crate::loads::Loads;
use crate::ohms::Ohms;
use crate::short;

/// The tallies of all loads, each by the number of its load.
#[derive(Clone, Debug, Default)]
pub(super) struct Tallies {
    all: Vec<Tally>,
    /// The numbers of the loads that some configuration has, rising by load.
    rising: Vec<u32>,
}

#[derive(Clone, Copy, Debug)]
struct Tally {
    target: Power,
    configurations: u32,
    /// How many loads are higher, once all are tallied.
    above: u32,
    verdict: Verdict,
    even: bool,
}

impl Tallies {
    /// Begins to tally so many loads.
    pub(super) fn begin(&mut self, loads: u32) {
        let tally = Tally {
            target: None.into(),
            configurations: 0,
            above: 0,
            verdict: Verdict::TooLow,
            even: false,
        };
        self.all = vec![tally; loads as usize];
    }

    /// Counts a tier of an entry; `again` where another one of the entry with the same
    /// load was counted before.
    pub(super) fn count(&mut self, tier: &Tier, entry: &Entry, again: bool) {
        let Some(tally) = self.all.get_mut(tier.load as usize) else { return };
        tally.verdict = tally.verdict.min(tier.verdict);
        // A configuration counts once for each load, however many outputs have it.
        if !again {
            tally.configurations = tally.configurations.saturating_add(entry.count);
            tally.even |= entry.even;
            if entry.target > tally.target {
                tally.target = entry.target;
            }
        }
    }

    /// Puts the loads in rising order; tells how many there are.
    pub(super) fn order(&mut self, loads: &Loads) -> Result<usize, Defect> {
        let met = |(_, tally): &(u32, &Tally)| tally.configurations > 0;
        let mut order: Vec<(u64, u32)> = Vec::new();
        order.reserve_exact(self.all.len());
        for (number, _) in (0_u32..).zip(&self.all).filter(met) {
            order.push((loads.get(number)?.to_f64().to_bits(), number));
        }
        order.sort_unstable();
        let mut rising = Vec::with_capacity(order.len());
        rising.extend(order.iter().map(|(_, number)| *number));
        drop(order);
        // Loads may be closer than floats can tell.
        short::insertion_sort(&mut rising, |a, b| loads.get(*a).cmp(&loads.get(*b)));
        for (above, number) in (0_u32..).zip(rising.iter().rev()) {
            if let Some(tally) = self.all.get_mut(*number as usize) {
                tally.above = above;
            }
        }
        self.rising = rising;
        Ok(self.rising.len())
    }

    /// How many loads are higher than one of them.
    pub(super) fn above(&self, load: u32) -> u64 {
        self.all.get(load as usize).map_or(0, |tally| tally.above.into())
    }

    /// Each as it is told, rising by load.
    pub(super) fn told<'a>(&'a self, loads: &'a Loads) -> impl Iterator<Item = LoadTally> + 'a {
        // Those that were put in order are there, with their loads.
        self.rising.iter().filter_map(|number| {
            let tally = self.all.get(*number as usize)?;
            Some(LoadTally {
                load: Ohms::new(loads.get(*number).ok()?),
                configurations: tally.configurations.into(),
                verdict: tally.verdict,
                even: tally.even,
                target: tally.target.watts(),
            })
        })
    }

    /// Forgets all.
    pub(super) fn clear(&mut self) {
        *self = Self::default();
    }
}
