//! Writing a stretch of the list: networks dealt again, put on their outputs, judged.

use super::arrange::{Hung, arrange};
use super::combine::next_choice;
use super::entry::Entry;
use super::listed::Listed;
use super::shares::{Shares, of_rig};
use super::{Configuration, Output};
use crate::count::{index, within};
use crate::defect::Defect;
use crate::judge::overheats;
use crate::listing::{Dealings, Listing};
use crate::network::Network;
use crate::network::canonical::Form;
use crate::network::dealing::Dealt;
use crate::ohms::Ohms;
use crate::outputs::{Outlet, Outputs};
use crate::rig::Rig;
use crate::work::Steps;

/// What is left to write of the list from some row on.
#[derive(Clone, Debug, Default)]
pub(super) struct Writing {
    /// The entry at work, in rank order.
    at: usize,
    stretch: Option<Stretch>,
}

impl Writing {
    /// Writes until the limit, the end, or the budget is spent (`true`: there is more).
    pub(super) fn step(
        &mut self,
        of: &Listed,
        limit: usize,
        list: &mut Vec<Configuration>,
        budget: &mut Steps,
    ) -> Result<bool, Defect> {
        while budget.any() && list.len() < limit {
            let Some(number) = of.ranked.get(self.at) else { return Ok(false) };
            let entry = of.entry(*number).ok_or(Defect::Table)?;
            let sources = sources(of, entry)?;
            let stretch = match &mut self.stretch {
                Some(stretch) => stretch,
                None => self.stretch.insert(Stretch::new(&sources, 0)?),
            };
            match stretch.next(of, entry, &sources, budget)? {
                Next::Found(configuration) => list.push(*configuration),
                Next::Pending => {}
                Next::End => {
                    self.stretch = None;
                    self.at = self.at.saturating_add(1);
                }
            }
        }
        Ok(list.len() < limit && self.at < of.ranked.len())
    }

    /// What is left to write from a row on.
    pub(super) fn from(of: &Listed, row: u64) -> Result<Self, Defect> {
        let entry = |number: &u32| of.entry(*number);
        let before = |number: &u32| entry(number).is_some_and(|one| u64::from(one.before) <= row);
        let at = of.ranked.partition_point(before).saturating_sub(1);
        let mut stretch = None;
        if let Some(one) = of.ranked.get(at).and_then(entry) {
            let skip = within(row).saturating_sub(one.before);
            stretch = Some(Stretch::new(&sources(of, one)?, skip)?);
        }
        Ok(Self { at, stretch })
    }
}

/// Writes at most so many configurations of an entry, those after the first `skip`.
pub(super) fn write(
    of: &Listed,
    entry: &Entry,
    skip: u32,
    most: usize,
) -> Result<Vec<Configuration>, Defect> {
    let mut list = Vec::new();
    let sources = sources(of, entry)?;
    let mut stretch = Stretch::new(&sources, skip)?;
    let mut unbounded = Steps::unbounded();
    while list.len() < most
        && let Next::Found(next) = stretch.next(of, entry, &sources, &mut unbounded)?
    {
        list.push(*next);
    }
    Ok(list)
}

/// A walk through the configurations of an entry.
#[derive(Clone, Debug)]
struct Stretch {
    /// The next configuration: which network stands on each output.
    chosen: Vec<usize>,
    /// How many stand before it.
    written: u32,
    /// The network last made for each output.
    made: Vec<Option<Made>>,
    ended: bool,
}

/// One of the networks of a tier, and the way to those after it.
#[derive(Clone, Debug)]
struct Made {
    dealings: Dealings,
    /// How many dealings were met.
    met: usize,
    /// What the canonical writings of all of them have in common.
    form: Option<Form>,
    network: Option<Network>,
}

enum Next {
    Found(Box<Configuration>),
    Pending,
    End,
}

impl Stretch {
    fn new(sources: &[Source<'_>], skip: u32) -> Result<Self, Defect> {
        let made = sources.iter().map(|_| None).collect();
        let mut this = Self { chosen: vec![0; sources.len()], written: 0, made, ended: false };
        while this.written < skip && !this.ended {
            this.turn(sources)?;
        }
        Ok(this)
    }

    /// Steps to the next choice of networks; outputs that stand alike choose in an order
    /// that never falls.
    fn turn(&mut self, sources: &[Source<'_>]) -> Result<(), Defect> {
        let lengths: Vec<usize> = sources.iter().map(|source| source.count).collect();
        let likes: Vec<Option<usize>> = sources.iter().map(|source| source.like).collect();
        self.ended = !next_choice(&mut self.chosen, &lengths, &likes)?;
        self.written = self.written.saturating_add(1);
        Ok(())
    }

    fn next(
        &mut self,
        of: &Listed,
        entry: &Entry,
        sources: &[Source<'_>],
        budget: &mut Steps,
    ) -> Result<Next, Defect> {
        // Writing one takes about as long as so many counted steps, and for each coil.
        const EACH: u64 = 100;
        const EACH_COIL: u64 = 20;
        if self.ended {
            return Ok(Next::End);
        }
        for ((made, source), choice) in self.made.iter_mut().zip(sources).zip(&self.chosen) {
            match source.make(made, *choice, budget) {
                Dealt::Found => {}
                Dealt::Pending => return Ok(Next::Pending),
                Dealt::End | Dealt::TooMuch => return Ok(Next::End),
            }
        }
        let coils = u64::from(of.request.rig.coils());
        budget.take(EACH.saturating_add(coils.saturating_mul(EACH_COIL)));
        let rank = entry.before.saturating_add(self.written).saturating_add(1);
        self.turn(sources)?;
        let found = self.configuration(of, entry, sources, rank)?;
        Ok(Next::Found(Box::new(found)))
    }

    fn configuration(
        &self,
        of: &Listed,
        entry: &Entry,
        sources: &[Source<'_>],
        rank: u32,
    ) -> Result<Configuration, Defect> {
        let deal = index(entry.deal);
        let (rig, way) = (&of.request.rig, of.allotment.way(deal).ok_or(Defect::Deals)?);
        let mut hung = Vec::new();
        for (at, (made, source)) in self.made.iter().zip(sources).enumerate() {
            let network = made.as_ref().and_then(|made| made.network.clone());
            let network = network.ok_or(Defect::Tiers)?;
            let portion = of.allotment.portion(deal, at).ok_or(Defect::Deals)?;
            hung.push(Hung { portion, network, load: source.load });
        }
        let facts = Facts {
            even: entry.even,
            joined: entry.joined,
            unlike_in_series: entry.unlike_in_series,
            runs: entry.runs,
        };
        let hung = arrange(rig, way, hung)?;
        configuration(rig, &of.allotment.outputs, way, hung, &facts, rank)
    }
}

/// What is known of a configuration before it is written.
pub(super) struct Facts {
    pub(super) even: bool,
    pub(super) joined: bool,
    pub(super) unlike_in_series: bool,
    pub(super) runs: u32,
}

/// A configuration of networks that hang on the outputs of a way.
pub(super) fn configuration(
    rig: &Rig,
    outputs: &Outputs,
    way: &[Outlet],
    hung: Vec<Hung>,
    facts: &Facts,
    rank: u32,
) -> Result<Configuration, Defect> {
    let shares: Vec<Shares> = hung.iter().map(|hung| Shares::of(&hung.network, rig)).collect();
    let (driver_shares, coil_shares) = of_rig(rig, &hung, &shares);
    let split_driver = split_driver(&hung);
    let mut written = Vec::new();
    for ((place, hung), shares) in way.iter().zip(hung).zip(shares) {
        written.push(output(outputs, place, hung, &shares).ok_or(Defect::Channels)?);
    }
    Ok(Configuration {
        rank,
        verdict: written.iter().map(|output| output.verdict).max().ok_or(Defect::Deals)?,
        outputs: written,
        even: facts.even,
        joined_at_driver: facts.joined,
        split_driver,
        driver_shares,
        coil_shares,
        runs: facts.runs,
        unlike_in_series: facts.unlike_in_series,
    })
}

/// Where one output of an entry takes its networks from.
struct Source<'a> {
    listing: &'a Listing,
    class: usize,
    joined: bool,
    /// How many there are.
    count: usize,
    load: Ohms,
    /// The output before it with the same tier of the same portion on the same kind.
    like: Option<usize>,
}

fn sources<'a>(of: &'a Listed, entry: &Entry) -> Result<Vec<Source<'a>>, Defect> {
    let portions = of.allotment.portions_of(index(entry.deal)).ok_or(Defect::Deals)?;
    let numbers = of.combining.tiers_of(entry)?;
    let mut sources = Vec::new();
    for (at, (portion, number)) in portions.iter().zip(numbers).enumerate() {
        let tier = of.tiers.get(*number).ok_or(Defect::Tiers)?;
        let same = |earlier: &usize| numbers.get(*earlier) == Some(number);
        sources.push(Source {
            listing: of.listings.get(index(*portion)).ok_or(Defect::Deals)?,
            class: index(tier.class),
            joined: tier.joined,
            count: index(tier.count),
            load: Ohms::new(of.loads.get(tier.load)?),
            like: (0..at).rev().find(same),
        });
    }
    Ok(sources)
}

impl Source<'_> {
    /// Makes the network with a number, counted from 0, of those of this source. What
    /// lies before it is dealt but not made; one that is made already is kept.
    fn make(&self, made: &mut Option<Made>, number: usize, budget: &mut Steps) -> Dealt {
        // Making one takes about as long as so many counted steps.
        const EACH: u64 = 50;
        let begin = || {
            let dealings = self.listing.dealings(self.class);
            Made { dealings, met: 0, form: None, network: None }
        };
        if made.as_ref().is_some_and(|made| made.met > number.saturating_add(1)) {
            *made = None;
        }
        let made = made.get_or_insert_with(begin);
        while made.met <= number {
            made.network = None;
            match made.dealings.next(self.listing, self.joined, budget) {
                Dealt::Found => made.met = made.met.saturating_add(1),
                other => return other,
            }
        }
        if made.network.is_none() {
            made.network = made.dealings.canonical(self.listing, &mut made.form);
            budget.take(EACH);
        }
        Dealt::Found
    }
}

/// How one output of a configuration stands.
fn output(outputs: &Outputs, place: &Outlet, hung: Hung, shares: &Shares) -> Option<Output> {
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
    if hung.len() < 2 {
        return None;
    }
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
