//! What has to be listed: the ways, the deals, and the distinct portions in them.

use super::Request;
use super::strands::multichoose;
use crate::bounds::MOST_CONFIGURATIONS;
use crate::listing::count::Counter;
use crate::listing::{Stock, Stopped};
use crate::outputs::deals::{Deal, Portion, deals};
use crate::outputs::{Outputs, Place};
use crate::problem::Code;
use crate::rig::Rig;
use std::collections::BTreeMap;

/// The ways to use the amplifier, the deals of the drivers, the portions to list.
#[derive(Clone, Debug, Default)]
pub(super) struct Plan {
    pub(super) outputs: Outputs,
    pub(super) ways: Vec<Vec<Place>>,
    pub(super) deals: Vec<Deal>,
    pub(super) portions: Vec<Portion>,
    /// The portions of each deal, by number.
    pub(super) of_deal: Vec<Vec<usize>>,
}

impl Plan {
    pub(super) fn of(request: &Request) -> Result<Self, Stopped> {
        let rig = &request.rig;
        let split = !request.joined_only && any_dual(rig);
        let outputs = Outputs::of(rig.amplifier());
        let ways = outputs.ways(most_outputs(rig, split));
        let deals = deals(rig, &ways, request.even_only, split, most_deals())?;
        if !request.even_only {
            let total = count(rig, &ways, &deals, request.joined_only);
            if total.is_none_or(|n| n > u128::from(MOST_CONFIGURATIONS)) {
                return Err(Stopped { code: Code::TooMany, exact: total });
            }
        }
        let mut this = Self { outputs, ways, ..Self::default() };
        let mut numbers: BTreeMap<&Portion, usize> = BTreeMap::new();
        for deal in &deals {
            let mut row = Vec::new();
            for portion in &deal.portions {
                let next = numbers.len();
                let number = *numbers.entry(portion).or_insert(next);
                if number == next {
                    this.portions.push(portion.clone());
                }
                row.push(number);
            }
            this.of_deal.push(row);
        }
        this.deals = deals;
        Ok(this)
    }

    /// The kind of an output of a deal's way.
    pub(super) fn kind(&self, deal: usize, output: usize) -> Option<usize> {
        let way = self.deals.get(deal)?.way;
        self.ways.get(way)?.get(output).map(|place| place.kind)
    }
}

fn any_dual(rig: &Rig) -> bool {
    rig.groups().iter().any(|group| group.coils == 2)
}

/// Every output used carries a driver, or a coil of the one that is split.
pub(super) fn most_outputs(rig: &Rig, split: bool) -> usize {
    let drivers = usize::try_from(rig.drivers()).unwrap_or(0);
    drivers.saturating_add(usize::from(split))
}

fn most_deals() -> usize {
    usize::try_from(MOST_CONFIGURATIONS).unwrap_or(usize::MAX)
}

/// How many configurations there are with both filters off, if that can be told and is
/// not more than are listed.
pub(super) fn before_filters(rig: &Rig) -> Option<u64> {
    let split = any_dual(rig);
    let ways = Outputs::of(rig.amplifier()).ways(most_outputs(rig, split));
    let deals = deals(rig, &ways, false, split, most_deals()).ok()?;
    let total = count(rig, &ways, &deals, false)?;
    u64::try_from(total).ok().filter(|n| *n <= MOST_CONFIGURATIONS)
}

/// Configurations of some deals by the counting formula, evenness aside.
fn count(rig: &Rig, ways: &[Vec<Place>], deals: &[Deal], joined: bool) -> Option<u128> {
    let mut counter = Counter::default();
    let mut known: BTreeMap<&Portion, u128> = BTreeMap::new();
    let mut total: u128 = 0;
    for deal in deals {
        let mut product: u128 = 1;
        for (portion, repeats) in alike(ways.get(deal.way)?, &deal.portions) {
            let networks = match known.get(portion) {
                Some(networks) => *networks,
                None => counter.networks(&Stock::of(rig, portion), joined)?,
            };
            known.insert(portion, networks);
            product = product.checked_mul(multichoose(networks, repeats)?)?;
        }
        total = total.checked_add(product)?;
        // Far beyond what is listed nobody needs the last digit.
        if total > TELLING_ENDS && deals.len() > 1 {
            return None;
        }
    }
    Some(total)
}

/// Counts over several deals are told exactly up to here.
const TELLING_ENDS: u128 = 1_000_000_000_000;

/// The portions on outputs of one kind, each with how often it stands there.
fn alike<'a>(way: &[Place], portions: &'a [Portion]) -> Vec<(&'a Portion, u128)> {
    let mut found: Vec<(usize, &Portion, u128)> = Vec::new();
    for (place, portion) in way.iter().zip(portions) {
        let same = |(kind, known, _): &&mut (usize, &Portion, u128)| {
            *kind == place.kind && *known == portion
        };
        match found.iter_mut().find(same) {
            Some((_, _, repeats)) => *repeats = repeats.saturating_add(1),
            None => found.push((place.kind, portion, 1)),
        }
    }
    found.into_iter().map(|(_, portion, repeats)| (portion, repeats)).collect()
}
