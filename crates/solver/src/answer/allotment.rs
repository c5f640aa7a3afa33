//! What has to be listed: the ways, the deals, and the distinct portions in them.

use super::Request;
use crate::bounds::MOST_CONFIGURATIONS;
use crate::count::index;
use crate::defect::Defect;
use crate::interner::Interner;
use crate::listing::count::{Counted, Counter};
use crate::listing::{Stock, Stopped};
use crate::outputs::deals::{Deals, Next, Portion, Weights};
use crate::outputs::{Outlet, Outputs};
use crate::problem::Code;
use crate::rig::{Group, Rig};
use crate::work::{Steps, steps};

/// The ways to use the amplifier, the deals of the drivers, the portions to list.
#[derive(Clone, Debug, Default)]
pub(super) struct Allotment {
    pub(super) outputs: Outputs,
    pub(super) ways: Vec<Vec<Outlet>>,
    pub(super) deals: Vec<Row>,
    pub(super) portions: Vec<Portion>,
    /// Of each output of each way the one before it of the same kind.
    kin: Vec<Vec<Option<usize>>>,
    /// What portions are rated.
    pub(super) weights: Weights,
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

impl Allotment {
    /// The outputs of a deal's way.
    pub(super) fn way(&self, deal: usize) -> Option<&[Outlet]> {
        let way = usize::try_from(self.deals.get(deal)?.way).ok()?;
        self.ways.get(way).map(Vec::as_slice)
    }

    /// The kind of an output of a deal's way.
    pub(super) fn kind(&self, deal: usize, output: usize) -> Option<usize> {
        self.way(deal)?.get(output).map(|place| place.kind)
    }

    /// The outputs of a deal's way: before each the last one of the same kind.
    pub(super) fn kin(&self, deal: usize) -> Option<&[Option<usize>]> {
        let way = usize::try_from(self.deals.get(deal)?.way).ok()?;
        self.kin.get(way).map(Vec::as_slice)
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
pub(super) struct Allotting {
    allotment: Allotment,
    /// A walk that only counts the deals, until it has met them all.
    counting: Option<Deals>,
    walk: Deals,
    /// How many deals the first walk met.
    deals: u64,
    joined: bool,
    /// Evenness aside, configurations follow from the counting formula.
    tally: Option<Tally>,
    keep: bool,
    /// Where the portions of a deal begin that is numbered and not yet counted.
    numbered: Option<usize>,
    /// Whether every deal has a configuration.
    none_in_vain: bool,
    /// Every portion met, numbered.
    names: Interner,
}

/// Beyond this many deals a count that is too large is not told to the last digit.
const TELLING_ENDS: usize = 1_000;

impl Allotting {
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
        let kin = ways.iter().map(|way| kin(way)).collect();
        let allotment =
            Allotment { outputs, ways, kin, weights: Weights::of(rig), ..Allotment::default() };
        let tally = (!even).then(|| Tally::new(keep));
        let counting = Some(walk.clone());
        let none_in_vain = !even || all_alike(rig);
        let names = Interner::default();
        let numbered = None;
        Self {
            allotment,
            counting,
            walk,
            deals: 0,
            joined,
            tally,
            keep,
            numbered,
            none_in_vain,
            names,
        }
    }

    /// Works until the plan is made (`true`) or the budget is spent.
    pub(super) fn step(&mut self, rig: &Rig, budget: &mut Steps) -> Result<bool, Stopped> {
        while let Some(counting) = &mut self.counting {
            match counting.next(rig, &self.allotment.ways, budget) {
                Next::Pending => return Ok(false),
                Next::End => self.counting = None,
                Next::Found => {
                    self.deals = self.deals.saturating_add(1);
                    if self.deals > MOST_CONFIGURATIONS {
                        let code =
                            if self.none_in_vain { Code::TooMany } else { Code::TooMuchWork };
                        return Err(code.into());
                    }
                }
            }
        }
        loop {
            if let Some(first) = self.numbered {
                if !self.found(rig, first, budget)? {
                    return Ok(false);
                }
                self.numbered = None;
            }
            match self.walk.next(rig, &self.allotment.ways, budget) {
                Next::Pending => return Ok(false),
                Next::End => break,
                Next::Found => self.number(budget)?,
            }
        }
        match &self.tally {
            Some(tally) if tally.too_many() => {
                Err(Stopped { stop: Code::TooMany.into(), exact: tally.total })
            }
            _ => Ok(true),
        }
    }

    /// Numbers the portions of the deal that the walk stands at.
    fn number(&mut self, budget: &mut Steps) -> Result<(), Defect> {
        // Numbering a portion takes about as long as so many counted steps.
        const EACH: u64 = 3;
        let first = self.allotment.numbers.len();
        for portion in self.walk.portions() {
            let portion = portion.ok_or(Defect::Deals)?;
            let (number, new) = self.names.number(&portion.words());
            if new {
                self.allotment.portions.push(portion);
            }
            self.allotment.numbers.push(number);
        }
        let outputs = self.allotment.numbers.len().saturating_sub(first);
        budget.take(steps(outputs).saturating_mul(EACH));
        self.numbered = Some(first);
        Ok(())
    }

    /// Takes in the deal that the walk stands at, once its networks are counted.
    fn found(&mut self, rig: &Rig, first: usize, budget: &mut Steps) -> Result<bool, Stopped> {
        let way = self.walk.way();
        if let Some(tally) = &mut self.tally {
            if !tally.know(rig, &self.allotment, self.joined, budget) {
                return Ok(false);
            }
            tally.add(&self.allotment, way, first, budget)?;
            if tally.too_many() && (!self.keep || tally.deals > TELLING_ENDS) {
                return Err(Code::TooMany.into());
            }
        }
        if self.keep {
            self.take(way, self.walk.is_split(), first)?;
        } else {
            self.allotment.numbers.clear();
        }
        Ok(true)
    }

    /// Keeps a deal whose portions are numbered.
    fn take(&mut self, way: usize, split: bool, first: usize) -> Result<(), Stopped> {
        let short = |n: usize| u32::try_from(n).map_err(|_| Stopped::from(Code::TooMuchWork));
        let (way, first, end) = (short(way)?, short(first)?, short(self.allotment.numbers.len())?);
        self.allotment.deals.push(Row { way, split, first, end });
        Ok(())
    }

    /// Configurations counted, where that was possible.
    pub(super) fn total(&self) -> Option<u64> {
        let total = self.tally.as_ref()?.total?;
        u64::try_from(total).ok()
    }

    pub(super) fn take_plan(&mut self) -> Allotment {
        self.names = Interner::default();
        self.tally = None;
        core::mem::take(&mut self.allotment)
    }
}

/// Of each output of a way the one before it of the same kind.
fn kin(way: &[Outlet]) -> Vec<Option<usize>> {
    let before = |at: usize| {
        let kind = way.get(at).map(|place| place.kind);
        (0..at).rev().find(|other| way.get(*other).map(|place| place.kind) == kind)
    };
    (0..way.len()).map(before).collect()
}

/// Whether all coils are alike in ohms and in rating. Then whatever hangs on an output is
/// even with all of it in parallel, and outputs of equal rating carry equal loads.
fn all_alike(rig: &Rig) -> bool {
    let coil = |group: &Group| (group.ohms, rig.coil_rating(group));
    let first = rig.groups().first().map(coil);
    rig.groups().iter().all(|group| Some(coil(group)) == first)
}

/// Every output used carries a driver, or a coil of the one that is split.
pub(super) fn most_outputs(rig: &Rig, split: bool) -> usize {
    let drivers = index(rig.drivers());
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
    /// Of the deal at hand: how many outputs up to each take the same.
    repeats: Vec<u128>,
}

/// One coil more and even equal ones make more networks than are listed: 437,502 by
/// OEIS A000084 (from memory; the counting formula agrees).
const MOST_LISTED_COILS: u32 = 13;

impl Tally {
    fn new(telling: bool) -> Self {
        let (counter, known) = (Counter::default(), Vec::new());
        Self { counter, known, telling, total: Some(0), deals: 0, repeats: Vec::new() }
    }
    fn too_many(&self) -> bool {
        self.total.is_none_or(|total| total > u128::from(MOST_CONFIGURATIONS))
    }

    /// Counts the networks of every portion met, until they are known (`true`) or the budget
    /// is spent.
    fn know(&mut self, rig: &Rig, allotment: &Allotment, joined: bool, budget: &mut Steps) -> bool {
        while let Some(portion) = allotment.portions.get(self.known.len()) {
            if !budget.any() {
                return false;
            }
            let stock = Stock::of(rig, *portion);
            let hopeless = !self.telling && stock.coils() > MOST_LISTED_COILS;
            if hopeless {
                self.known.push(None);
            } else if let Counted::Told(told) = self.counter.networks(&stock, joined) {
                self.known.push(told);
            }
            budget.take(self.counter.take_work());
        }
        true
    }

    /// Adds a deal whose portions are the last ones numbered, from `first` on.
    fn add(
        &mut self,
        allotment: &Allotment,
        way: usize,
        first: usize,
        budget: &mut Steps,
    ) -> Result<(), Defect> {
        let kin = allotment.kin.get(way).ok_or(Defect::Deals)?;
        let portions = allotment.numbers.get(first..).ok_or(Defect::Deals)?;
        budget.take(steps(portions.len()).saturating_mul(3));
        let mut product = Some(1_u128);
        self.repeats.clear();
        for (portion, like) in portions.iter().zip(kin) {
            let networks = *self.known.get(index(*portion)).ok_or(Defect::Deals)?;
            // Portions on outputs of one kind never rise, so equal ones follow each other.
            // So many outputs that are alike may be exchanged; one more of them takes its
            // networks in so many ways.
            let same = like.filter(|like| portions.get(*like) == Some(portion));
            let before = match same {
                Some(like) => *self.repeats.get(like).ok_or(Defect::Deals)?,
                None => 0,
            };
            let repeats = before.saturating_add(1);
            self.repeats.push(repeats);
            product = product
                .zip(networks.and_then(|networks| networks.checked_add(before)))
                .and_then(|(product, next)| product.checked_mul(next)?.checked_div(repeats));
        }
        self.total = self.total.zip(product).and_then(|(a, b)| a.checked_add(b));
        self.deals = self.deals.saturating_add(1);
        Ok(())
    }
}
