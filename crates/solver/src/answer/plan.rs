//! What has to be listed: the ways, the deals, and the distinct portions in them.

use super::Request;
use super::strands::multichoose;
use crate::bounds::MOST_CONFIGURATIONS;
use crate::listing::count::Counter;
use crate::listing::{Stock, Stopped};
use crate::names::Names;
use crate::outputs::deals::{Deals, Next, Portion};
use crate::outputs::{Outputs, Place};
use crate::problem::Code;
use crate::rig::Rig;

/// The ways to use the amplifier, the deals of the drivers, the portions to list.
#[derive(Clone, Debug, Default)]
pub(super) struct Plan {
    pub(super) outputs: Outputs,
    pub(super) ways: Vec<Vec<Place>>,
    pub(super) deals: Vec<Row>,
    pub(super) portions: Vec<Portion>,
    /// The portions of all deals, by number, one after the other.
    numbers: Vec<u32>,
}

/// A deal that is kept: there may be hundreds of thousands.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    way: u32,
    /// Whether a driver is split.
    pub(super) split: bool,
    /// Where its portions begin and end among the numbers.
    first: u32,
    end: u32,
}

impl Plan {
    /// The outputs of a deal's way.
    pub(super) fn way(&self, deal: usize) -> Option<&[Place]> {
        let way = usize::try_from(self.deals.get(deal)?.way).ok()?;
        self.ways.get(way).map(Vec::as_slice)
    }

    /// The kind of an output of a deal's way.
    pub(super) fn kind(&self, deal: usize, output: usize) -> Option<usize> {
        self.way(deal)?.get(output).map(|place| place.kind)
    }

    /// The portions of a deal, by number.
    pub(super) fn portions_of(&self, deal: usize) -> Option<&[u32]> {
        let row = self.deals.get(deal)?;
        self.numbers.get(usize::try_from(row.first).ok()?..usize::try_from(row.end).ok()?)
    }

    /// What hangs on an output of a deal.
    pub(super) fn portion(&self, deal: usize, output: usize) -> Option<Portion> {
        let number = self.portions_of(deal)?.get(output)?;
        self.portions.get(usize::try_from(*number).ok()?).copied()
    }
}

/// A plan being made, or only counted.
#[derive(Clone, Debug)]
pub(super) struct Planning {
    plan: Plan,
    walk: Deals,
    joined: bool,
    /// Evenness aside, configurations follow from the counting formula.
    tally: Option<Tally>,
    keep: bool,
    /// Every portion met, numbered.
    names: Names,
}

/// Beyond this many deals a count that is too large is not told to the last digit.
const TELLING_ENDS: usize = 1_000;

impl Planning {
    /// Plans what a request asks for.
    pub(super) fn of(request: &Request) -> Self {
        Self::new(&request.rig, request.joined_only, request.even_only, true)
    }

    /// Only counts what there is with both filters off.
    pub(super) fn before_filters(rig: &Rig) -> Self {
        Self::new(rig, false, false, false)
    }

    fn new(rig: &Rig, joined: bool, even: bool, keep: bool) -> Self {
        let split = !joined && rig.groups().iter().any(|group| group.coils == 2);
        let outputs = Outputs::of(rig.amplifier());
        let ways = outputs.ways(most_outputs(rig, split));
        let walk = Deals::new(rig, &ways, even, split);
        let plan = Plan { outputs, ways, ..Plan::default() };
        let tally = (!even).then(|| Tally::new(keep));
        Self { plan, walk, joined, tally, keep, names: Names::default() }
    }

    /// Works until the plan is made (`true`) or the budget is spent.
    pub(super) fn step(&mut self, rig: &Rig, budget: &mut u64) -> Result<bool, Stopped> {
        loop {
            match self.walk.next(rig, &self.plan.ways, budget) {
                Next::Pending => return Ok(false),
                Next::End => break,
                Next::Found(deal) => {
                    let first = self.plan.numbers.len();
                    for portion in deal.portions {
                        let (number, new) = self.names.number(&portion.words());
                        if new {
                            self.plan.portions.push(portion);
                        }
                        self.plan.numbers.push(number);
                    }
                    if let Some(tally) = &mut self.tally {
                        tally.add(rig, &self.plan, deal.way, first, self.joined, budget);
                        if tally.too_many() && (!self.keep || tally.deals > TELLING_ENDS) {
                            return Err(Code::TooMany.into());
                        }
                    }
                    if self.keep {
                        self.take(deal.way, deal.split, first)?;
                    } else {
                        self.plan.numbers.clear();
                    }
                }
            }
        }
        match &self.tally {
            Some(tally) if tally.too_many() => {
                Err(Stopped { code: Code::TooMany, exact: tally.total })
            }
            _ => Ok(true),
        }
    }

    /// Keeps a deal whose portions are numbered.
    fn take(&mut self, way: usize, split: bool, first: usize) -> Result<(), Stopped> {
        let most = usize::try_from(MOST_CONFIGURATIONS).unwrap_or(usize::MAX);
        if self.plan.deals.len() >= most {
            return Err(Code::TooMany.into());
        }
        let short = |n: usize| u32::try_from(n).map_err(|_| Stopped::from(Code::TooMuchWork));
        let (way, first, end) = (short(way)?, short(first)?, short(self.plan.numbers.len())?);
        self.plan.deals.push(Row { way, split, first, end });
        Ok(())
    }

    /// Configurations counted, where that was possible.
    pub(super) fn total(&self) -> Option<u64> {
        let total = self.tally.as_ref()?.total?;
        u64::try_from(total).ok()
    }

    pub(super) fn take_plan(&mut self) -> Plan {
        self.names = Names::default();
        self.tally = None;
        core::mem::take(&mut self.plan)
    }
}

/// Every output used carries a driver, or a coil of the one that is split.
pub(super) fn most_outputs(rig: &Rig, split: bool) -> usize {
    let drivers = usize::try_from(rig.drivers()).unwrap_or(0);
    drivers.saturating_add(usize::from(split))
}

/// Configurations by the counting formula, deal by deal.
#[derive(Clone, Debug)]
struct Tally {
    counter: Counter,
    /// The networks of each portion met, by its number.
    known: Vec<Option<u128>>,
    /// Whether a total that is too large to list is still to be told.
    telling: bool,
    /// `None` once it is too large to tell.
    total: Option<u128>,
    deals: usize,
}

/// One coil more and even equal ones make more networks than are listed: 437,502 by
/// OEIS A000084 (from memory; the counting formula agrees).
const MOST_LISTED_COILS: u32 = 13;

impl Tally {
    fn new(telling: bool) -> Self {
        let (counter, known) = (Counter::default(), Vec::new());
        Self { counter, known, telling, total: Some(0), deals: 0 }
    }
    fn too_many(&self) -> bool {
        self.total.is_none_or(|total| total > u128::from(MOST_CONFIGURATIONS))
    }

    /// Adds a deal whose portions are the last ones numbered, from `first` on.
    fn add(
        &mut self,
        rig: &Rig,
        plan: &Plan,
        way: usize,
        first: usize,
        joined: bool,
        budget: &mut u64,
    ) {
        // Counting the networks of a portion takes about as long as so many counted steps.
        const EACH: u64 = 2_000;
        while let Some(portion) = plan.portions.get(self.known.len()) {
            *budget = budget.saturating_sub(EACH);
            let stock = Stock::of(rig, *portion);
            let hopeless = !self.telling && stock.coils() > MOST_LISTED_COILS;
            self.known.push(if hopeless { None } else { self.counter.networks(&stock, joined) });
        }
        let way = plan.ways.get(way).map_or(&[][..], Vec::as_slice);
        let portions = plan.numbers.get(first..).unwrap_or(&[]);
        let mut product = Some(1_u128);
        for (at, (place, portion)) in way.iter().zip(portions).enumerate() {
            // The portions on outputs of one kind count together, with the first of them.
            let mut repeats = 0_u128;
            for (other, (there, same)) in way.iter().zip(portions).enumerate() {
                if there.kind == place.kind && same == portion {
                    if other < at {
                        repeats = 0;
                        break;
                    }
                    repeats = repeats.saturating_add(1);
                }
            }
            let number = usize::try_from(*portion).unwrap_or(usize::MAX);
            let networks = self.known.get(number).copied().flatten();
            if repeats > 0 {
                let ways = networks.and_then(|networks| multichoose(networks, repeats));
                product = product.zip(ways).and_then(|(a, b)| a.checked_mul(b));
            }
        }
        self.total = self.total.zip(product).and_then(|(a, b)| a.checked_add(b));
        self.deals = self.deals.saturating_add(1);
    }
}
