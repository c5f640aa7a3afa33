//! Writing the first of the list: networks dealt again, put on their outputs, judged.

use super::arrange::{Hung, arrange};
use super::combine::{Combining, Entry, Strands, next_choice};
use super::plan::Plan;
use super::shares::{Shares, of_rig};
use super::{Configuration, Output};
use crate::judge::overheats;
use crate::listing::{Dealings, Listing};
use crate::network::Network;
use crate::network::canonical::canonical;
use crate::network::dealing::Dealt;
use crate::ohms::{Ohms, Ratio};
use crate::outputs::{Outputs, Place};
use crate::rig::Rig;

/// What is left to write.
#[derive(Clone, Debug)]
pub(super) struct Writing {
    /// Entries by number, in rank order.
    order: Vec<u32>,
    at: usize,
    /// The networks of each output of the entry at work, as many as can be wanted.
    gathered: Vec<Vec<Network>>,
    gathering: Option<(Dealings, Vec<Network>)>,
    /// Which of them stand in the next configuration; empty before the first.
    chosen: Vec<usize>,
}

/// What the listing and the combining came to.
pub(super) type Parts<'a> = (&'a [Listing], &'a Strands, &'a Combining);

impl Writing {
    pub(super) fn new(order: Vec<u32>) -> Self {
        Self { order, at: 0, gathered: Vec::new(), gathering: None, chosen: Vec::new() }
    }

    /// Writes until the limit, the end, or the budget is spent (`true`: there is more).
    pub(super) fn step(
        &mut self,
        rig: &Rig,
        plan: &Plan,
        parts: Parts<'_>,
        limit: usize,
        list: &mut Vec<Configuration>,
        budget: u64,
    ) -> bool {
        // Writing one takes about as long as so many counted steps.
        const EACH: u64 = 100;
        let (_, _, combining) = parts;
        let mut left = budget;
        while left > 0 && list.len() < limit {
            let number = self.order.get(self.at).and_then(|number| usize::try_from(*number).ok());
            let Some(entry) = number.and_then(|number| combining.entries.get(number)) else {
                return false;
            };
            let wanted = limit.saturating_sub(list.len());
            let Some(sources) = sources(plan, parts, entry) else { return false };
            if self.gathered.len() < sources.len() {
                self.gather(&sources, wanted, &mut left);
                continue;
            }
            left = left.saturating_sub(EACH);
            if self.turn(&sources) {
                list.extend(self.configuration(rig, plan, entry, &sources, list.len()));
            } else {
                self.at = self.at.saturating_add(1);
                self.gathered.clear();
                self.chosen.clear();
            }
        }
        list.len() < limit && self.at < self.order.len()
    }

    /// Deals the networks of the next output of an entry.
    fn gather(&mut self, sources: &[Source<'_>], wanted: usize, budget: &mut u64) {
        // Writing one takes about as long as so many counted steps.
        const EACH: u64 = 50;
        let Some(source) = sources.get(self.gathered.len()) else { return };
        let listing = source.listing;
        let begin = || (listing.dealings(source.class), Vec::new());
        let (mut dealings, mut networks) = self.gathering.take().unwrap_or_else(begin);
        let kinds: Vec<(u32, u32)> = listing.kinds().collect();
        while networks.len() < wanted {
            if *budget == 0 {
                self.gathering = Some((dealings, networks));
                return;
            }
            match dealings.next(listing, source.joined, budget) {
                Dealt::Found => {
                    let network = dealings.network(listing);
                    networks.extend(network.map(|n| canonical(&n, &kinds).unwrap_or(n)));
                    *budget = budget.saturating_sub(EACH);
                }
                Dealt::Pending => {}
                Dealt::End | Dealt::TooMuch => break,
            }
        }
        self.gathered.push(networks);
    }

    /// Steps to the next choice of networks; outputs that stand alike choose in an order
    /// that never falls.
    fn turn(&mut self, sources: &[Source<'_>]) -> bool {
        if self.chosen.is_empty() {
            self.chosen = vec![0; sources.len()];
            return self.gathered.iter().all(|networks| !networks.is_empty());
        }
        let lengths: Vec<usize> = self.gathered.iter().map(Vec::len).collect();
        let likes: Vec<Option<usize>> = sources.iter().map(|source| source.like).collect();
        next_choice(&mut self.chosen, &lengths, &likes)
    }

    fn configuration(
        &self,
        rig: &Rig,
        plan: &Plan,
        entry: &Entry,
        sources: &[Source<'_>],
        written: usize,
    ) -> Option<Configuration> {
        let deal = usize::try_from(entry.deal).ok()?;
        let way = plan.way(deal)?;
        let mut hung = Vec::new();
        for (at, choice) in self.chosen.iter().enumerate() {
            let network = self.gathered.get(at)?.get(*choice)?.clone();
            let (portion, load) = (plan.portion(deal, at)?.clone(), sources.get(at)?.load);
            hung.push(Hung { portion, network, load: Ohms::new(load) });
        }
        let hung = arrange(rig, way, hung);
        let shares: Vec<Shares> = hung.iter().map(|hung| Shares::of(&hung.network, rig)).collect();
        let (driver_shares, coil_shares) = of_rig(rig, &hung, &shares);
        let split_driver = split_driver(&hung);
        let outputs: Vec<Output> = way
            .iter()
            .zip(hung)
            .zip(shares)
            .filter_map(|((place, hung), shares)| output(&plan.outputs, place, hung, &shares))
            .collect();
        Some(Configuration {
            rank: u32::try_from(written).ok()?.checked_add(1)?,
            verdict: outputs.iter().map(|output| output.verdict).max()?,
            outputs,
            even: entry.even,
            joined_at_driver: entry.joined,
            split_driver,
            driver_shares,
            coil_shares,
            runs: entry.runs,
        })
    }
}

/// Where one output of an entry takes its networks from.
struct Source<'a> {
    listing: &'a Listing,
    class: usize,
    joined: bool,
    load: Ratio,
    /// The output before it with the same strand of the same portion on the same kind.
    like: Option<usize>,
}

fn sources<'a>(plan: &Plan, parts: Parts<'a>, entry: &Entry) -> Option<Vec<Source<'a>>> {
    let (listings, strands, combining) = parts;
    let deal = usize::try_from(entry.deal).ok()?;
    let portions = plan.portions_of(deal)?;
    let numbers = combining.strands_of(entry);
    let mut sources = Vec::new();
    for (at, (portion, number)) in portions.iter().zip(numbers).enumerate() {
        let kind = plan.kind(deal, at)?;
        let listing = usize::try_from(*portion).ok()?;
        let strand = strands.get(&(listing, kind))?.get(usize::try_from(*number).ok()?)?;
        let same = |earlier: &usize| {
            plan.kind(deal, *earlier) == Some(kind)
                && portions.get(*earlier) == Some(portion)
                && numbers.get(*earlier) == Some(number)
        };
        sources.push(Source {
            listing: listings.get(listing)?,
            class: usize::try_from(strand.class).ok()?,
            joined: strand.joined,
            load: strand.load,
            like: (0..at).rev().find(same),
        });
    }
    Some(sources)
}

/// How one output of a configuration stands.
fn output(outputs: &Outputs, place: &Place, hung: Hung, shares: &Shares) -> Option<Output> {
    let figures = outputs.figures(place.kind)?;
    let available = figures.available(hung.load);
    let both = available.zip(shares.usable);
    Some(Output {
        way: place.way,
        channels: place.channels.clone(),
        network: hung.network,
        load: hung.load,
        verdict: figures.verdict(hung.load),
        available,
        usable_watts: shares.usable,
        target_watts: both.map(|(a, usable)| a.low.min(usable)),
        overheats: both.map(|(a, usable)| overheats(a.high, usable)),
    })
}

/// The driver whose coils hang on more than one output, counted from 0.
fn split_driver(hung: &[Hung]) -> Option<u32> {
    let mut met: Vec<u8> = Vec::new();
    for hung in hung {
        let drivers: Vec<u8> = hung.network.coils().iter().map(|coil| coil.driver).collect();
        if let Some(split) = drivers.iter().find(|driver| met.contains(driver)) {
            return Some(u32::from(*split));
        }
        met.extend(drivers);
    }
    None
}
