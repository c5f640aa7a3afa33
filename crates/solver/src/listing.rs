//! Every distinct network of a stock of coils, once each, in a fixed order.
//!
//! Two stages. Everything electrical depends only on the *shape*: a network in which a
//! leaf tells its group but not its driver. Shapes are walked one at a time; each is
//! then dealt to the drivers in every distinct way, and only counted. A dealing that
//! is wanted is made again from its shape.

pub(crate) mod atoms;
mod bucket;
mod content;
pub(crate) mod contents;
pub(crate) mod count;
pub(crate) mod electrics;
mod forms;
mod hand;
mod keys;
mod parts;
mod stock;

use self::count::{Counted, Counter};
use crate::bounds::MOST_CONFIGURATIONS;
use crate::count::length;
use crate::defect::{Defect, number};
use crate::loads::Loads;
use crate::network::Joint;
use crate::network::dealing::{Dealing, Dealt};
use crate::ohms::Ratio;
use crate::problem::{Code, Stop};
use crate::short;
use crate::work::{Steps, steps};
use electrics::Electrics;
pub(crate) use hand::Dealings;
use keys::{Content, Keys};
use parts::{EACH_JOINED, Parts, Walker};
pub(crate) use stock::{Kind, Stock};

/// The most kinds of leaves in one listing.
const MOST_KINDS: usize = 8;

/// What stopped a listing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Stopped {
    pub(crate) stop: Stop,
    /// How many there are, where that is known.
    pub(crate) exact: Option<u128>,
}

impl<T: Into<Stop>> From<T> for Stopped {
    fn from(stop: T) -> Self {
        Self { stop: stop.into(), exact: None }
    }
}

/// The networks of one shape, all alike electrically.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Class {
    joint: Joint,
    parts: (u32, u32),
    /// By its number.
    pub(crate) load: u32,
    pub(crate) even: bool,
    /// The greatest share ÷ rating of any coil, per watt.
    pub(crate) hottest: f64,
    pub(crate) unlike_in_series: bool,
    pub(crate) runs: u32,
    /// Dealings in which each driver's coils are joined at the driver.
    pub(crate) joined: u32,
    /// The other dealings.
    pub(crate) apart: u32,
}

/// Where a listing stands.
#[derive(Clone, Debug)]
pub(crate) struct Listing {
    stock: Stock,
    joined_only: bool,
    even_only: bool,
    /// Whether the keys are not all found yet.
    planning: bool,
    parts: Parts,
    /// The keys of complete networks still to walk, the next one last.
    ahead: Vec<usize>,
    walker: Option<(Joint, Walker)>,
    dealing: Dealing,
    /// Whether a shape is being dealt.
    open: bool,
    /// Shapes in all.
    pub(crate) expected: u64,
    classes: Vec<Class>,
    /// The parts of each class.
    shapes: Vec<u32>,
    found: u64,
}

impl Listing {
    /// Whether the formula was asked to its end (`true`): every question that it shows to be
    /// too large ends here. Of even networks it knows nothing.
    pub(crate) fn is_counted(
        counter: &mut Counter,
        stock: &Stock,
        joined_only: bool,
        budget: &mut Steps,
    ) -> Result<bool, Stopped> {
        let counted = counter.networks(stock, joined_only);
        budget.take(counter.take_work());
        match counted {
            Counted::More => Ok(false),
            Counted::Told(total) if total.is_none_or(|n| n > u128::from(MOST_CONFIGURATIONS)) => {
                Err(Stopped { stop: Code::TooMany.into(), exact: total })
            }
            Counted::Told(_) => Ok(true),
        }
    }

    /// Begins a listing.
    pub(crate) fn new(
        stock: Stock,
        joined_only: bool,
        even_only: bool,
        budget: &mut Steps,
    ) -> Result<Self, Stopped> {
        // What it takes in any case, to be let go in the end too.
        const AT_LEAST: u64 = 200;
        budget.take(AT_LEAST);
        // More kinds than contents have room for are far too many to join.
        if stock.kinds().len() > MOST_KINDS {
            return Err(Code::TooMany.into());
        }
        let atoms = if joined_only { forms::drivers(&stock)? } else { atoms::coils(&stock)? };
        let leaf = |kind: &Kind| {
            let count = u32::from(kind.count);
            if joined_only { count } else { count.saturating_mul(kind.coils) }
        };
        let mut whole = Content::default();
        let mut ratings = Vec::new();
        for (group, kind) in stock.kinds.iter().enumerate() {
            whole = whole.with_leaves(group, leaf(kind));
            let rating = if joined_only {
                Ratio::whole(u128::from(kind.coils)).and_then(|n| n.times(kind.coil_rating))
            } else {
                Some(kind.coil_rating)
            };
            ratings.push(rating.ok_or(Code::TooExact)?);
        }
        let keys = Keys::begin(&atoms, whole, ratings, even_only, budget)?;
        let dealing = Dealing::new(
            stock.groups().map(|(count, coils)| (count, if joined_only { 1 } else { coils })),
        );
        Ok(Self {
            stock,
            joined_only,
            even_only,
            planning: true,
            parts: Parts::new(keys, atoms),
            ahead: Vec::new(),
            walker: None,
            dealing,
            open: false,
            expected: 0,
            classes: Vec::new(),
            shapes: Vec::new(),
            found: 0,
        })
    }

    /// Finds the keys, then tells whether what they stand for can be listed (`true`).
    fn plan(&mut self, loads: &mut Loads, budget: &mut Steps) -> Result<bool, Stopped> {
        if !self.parts.keys_mut().find(budget)? {
            return Ok(false);
        }
        self.planning = false;
        let keys = self.parts.keys();
        budget.take(steps(keys.keys.len()));
        self.ahead = keys.complete();
        self.ahead.reverse();
        self.expected = keys.shapes(&self.ahead);
        if self.expected > MOST_CONFIGURATIONS {
            let exact = keys.exact(self.expected).filter(|_| self.joined_only);
            return Err(Stopped { stop: Code::TooMany.into(), exact });
        }
        if keys.useful_parts() > 2 * MOST_CONFIGURATIONS {
            return Err(Code::TooMuchWork.into());
        }
        if keys.whole().leaves() == 1 {
            self.expected = self.take_single(self.even_only, loads)?;
        }
        self.classes.reserve_exact(length(self.expected));
        Ok(true)
    }

    /// A single leaf is its own network, in each of its forms.
    fn take_single(&mut self, even_only: bool, loads: &mut Loads) -> Result<u64, Stop> {
        let forms = number(self.parts.atoms().len())?;
        for part in 0..forms {
            let electrics = self.parts.join(Joint::Series, &[part])?;
            if electrics.even || !even_only {
                self.add_class(Joint::Series, &[part], electrics, loads)?;
                if let Some(class) = self.classes.last_mut() {
                    class.joined = 1;
                }
                self.found = self.found.saturating_add(1);
            }
        }
        Ok(self.found)
    }

    pub(crate) fn classes(&self) -> &[Class] {
        &self.classes
    }

    /// Count and coils of each kind of driver in it.
    pub(crate) fn kinds(&self) -> impl Iterator<Item = (u32, u32)> + '_ {
        self.stock.groups()
    }

    /// Whether the watts of every driver in it are known.
    pub(crate) fn rated(&self) -> bool {
        self.stock.rated
    }

    /// Works until done (`true`) or the budget of counted steps is spent.
    pub(crate) fn step(&mut self, loads: &mut Loads, budget: &mut Steps) -> Result<bool, Stopped> {
        if (self.planning && !self.plan(loads, budget)?) || !self.parts.fill(budget)? {
            return Ok(false);
        }
        while budget.any() {
            if self.open {
                self.deal(budget)?;
            } else if !self.next_shape(loads, budget)? {
                self.parts.let_go();
                return Ok(true);
            }
        }
        Ok(false)
    }

    fn next_shape(&mut self, loads: &mut Loads, budget: &mut Steps) -> Result<bool, Stopped> {
        loop {
            if let Some((joint, mut walker)) = self.walker.take()
                && self.parts.next(&mut walker, budget)
            {
                budget.take(steps(walker.children.len()).saturating_mul(EACH_JOINED));
                let electrics = self.parts.join(joint, &walker.children)?;
                self.add_class(joint, &walker.children, electrics, loads)?;
                self.walker = Some((joint, walker));
                self.count_dealings(budget)?;
                return Ok(true);
            }
            let Some(key) = self.ahead.pop() else {
                return Ok(false);
            };
            self.walker = Some((self.parts.joint_of(key), self.parts.walker(key)));
        }
    }

    fn add_class(
        &mut self,
        joint: Joint,
        parts: &[u32],
        electrics: Electrics,
        loads: &mut Loads,
    ) -> Result<(), Defect> {
        let first = number(self.shapes.len())?;
        short::extend(&mut self.shapes, parts);
        let end = number(self.shapes.len())?;
        let ends = self.stock.coils().saturating_mul(2);
        self.classes.push(Class {
            joint,
            parts: (first, end),
            load: loads.number(electrics.load),
            even: electrics.even,
            hottest: electrics.hottest,
            unlike_in_series: electrics.unlike_in_series,
            runs: ends.saturating_sub(electrics.joints),
            joined: 0,
            apart: 0,
        });
        Ok(())
    }

    /// Begins to deal the newest class, or knows its dealings already.
    fn count_dealings(&mut self, budget: &mut Steps) -> Result<(), Stopped> {
        let dealt =
            !self.joined_only && self.stock.groups().any(|(count, coils)| count > 0 && coils > 1);
        if !dealt {
            if let Some(class) = self.classes.last_mut() {
                class.joined = 1;
            }
            return self.count(1);
        }
        // Without the even filter series and parallel mirror each other shape by shape.
        let newest = self.classes.len().saturating_sub(1);
        if let Some(twin) = self.twin(newest) {
            if let Some(class) = self.classes.last_mut() {
                (class.joined, class.apart) = (twin.joined, twin.apart);
            }
            return self.count(u64::from(twin.joined).saturating_add(u64::from(twin.apart)));
        }
        // Loading a shape takes about as long as so many counted steps a coil.
        const EACH: u64 = 2;
        budget.take(u64::from(self.stock.coils()).saturating_mul(EACH));
        let mut dealing = core::mem::take(&mut self.dealing);
        self.load(newest, &mut dealing);
        self.dealing = dealing;
        self.open = true;
        Ok(())
    }

    fn twin(&self, newest: usize) -> Option<Class> {
        let half = usize::try_from(self.expected).ok()?.checked_div(2)?;
        let class = self.classes.get(newest)?;
        let mirrored = self.parts.keys().mirrored() && class.joint == Joint::Parallel;
        newest
            .checked_sub(half)
            .filter(|_| mirrored)
            .and_then(|twin| self.classes.get(twin))
            .copied()
    }

    fn deal(&mut self, budget: &mut Steps) -> Result<(), Stopped> {
        loop {
            match self.dealing.next(budget) {
                Dealt::Found => {
                    let joined = self.dealing.joined_at_driver();
                    if let Some(class) = self.classes.last_mut() {
                        let tally = if joined { &mut class.joined } else { &mut class.apart };
                        *tally = tally.saturating_add(1);
                    }
                    self.count(1)?;
                }
                Dealt::Pending => return Ok(()),
                Dealt::TooMuch => return Err(Code::TooMuchWork.into()),
                Dealt::End => {
                    self.open = false;
                    return Ok(());
                }
            }
        }
    }

    fn count(&mut self, more: u64) -> Result<(), Stopped> {
        self.found = self.found.saturating_add(more);
        if self.found > MOST_CONFIGURATIONS { Err(Code::TooMany.into()) } else { Ok(()) }
    }

    fn shape(&self, class: usize) -> Option<(Joint, &[u32])> {
        let class = self.classes.get(class)?;
        let range = usize::try_from(class.parts.0).ok()?..usize::try_from(class.parts.1).ok()?;
        Some((class.joint, self.shapes.get(range)?))
    }

    /// Loads a class's shape for dealing.
    fn load(&self, class: usize, dealing: &mut Dealing) {
        dealing.clear();
        if let Some((_, parts)) = self.shape(class) {
            self.load_node(parts, 0, u32::MAX, dealing);
        }
        dealing.begin();
    }

    fn load_node(&self, parts: &[u32], parent: usize, name: u32, dealing: &mut Dealing) {
        let mut leaves = [0_u8; 8];
        for part in parts {
            if let Some(slot) = self.parts.atom(*part).and_then(|atom| leaves.get_mut(atom.group)) {
                *slot = slot.saturating_add(1);
            }
        }
        let node = dealing.open(parent, name, &leaves);
        for part in parts.iter().filter(|part| self.parts.atom(**part).is_none()) {
            self.load_node(self.parts.children_of(*part), node, *part, dealing);
        }
        dealing.close(node);
    }

    /// The dealings of a class, to be made into networks.
    pub(crate) fn dealings(&self, class: usize) -> Dealings {
        let mut dealing = self.dealing.clone();
        self.load(class, &mut dealing);
        Dealings { class, dealing }
    }
}

#[cfg(test)]
mod tests;
