//! Which configurations share the power alike, driver by driver and coil by coil.
//!
//! Networks of one class have coils that get alike, but not drivers: which of the coils are
//! one driver's is for the dealing to say. So all dealings are walked once more, when
//! groups are asked for.

use super::combine::next_choice;
use super::entry::Entry;
use super::listed::Listed;
use super::tiers::Tier;
use crate::count::{index, length, wide};
use crate::defect::{Defect, number};
use crate::interner::Interner;
use crate::listing::contents::Contents;
use crate::listing::{Dealings, Listing};
use crate::network::dealing::Dealt;
use crate::short;
use crate::work::{Steps, steps};

/// The groups of a list.
#[derive(Clone, Debug, Default)]
pub(super) struct Groups {
    /// The group of each configuration in rank order: how many stand before its first.
    of: Vec<u32>,
    /// How many there are of the group that each configuration is the first of, or 0.
    sizes: Vec<u32>,
}

impl Groups {
    /// The group of the configuration before which so many stand.
    pub(super) fn of(&self, place: u32) -> Option<u32> {
        self.of.get(place as usize).copied()
    }

    /// The groups that begin in an entry: how many of its configurations stand before the
    /// first, and how many are of the group.
    pub(super) fn firsts<'a>(
        &'a self,
        entry: &Entry,
    ) -> impl Iterator<Item = (u32, u32)> + use<'a> {
        let sizes = (0_u32..).zip(stretch(&self.sizes, entry));
        sizes.filter(|(_, size)| **size > 0).map(|(skip, size)| (skip, *size))
    }

    /// The members of a group in an entry: how many of its configurations stand before each.
    pub(super) fn members<'a>(
        &'a self,
        entry: &Entry,
        group: u32,
    ) -> impl Iterator<Item = u32> + use<'a> {
        let own = (0_u32..).zip(stretch(&self.of, entry));
        own.filter(move |(_, of)| **of == group).map(|(skip, _)| skip)
    }

    /// Adds a configuration to the group whose first stands at a place.
    fn add(&mut self, group: u32) {
        self.of.push(group);
        self.sizes.push(0);
        if let Some(size) = self.sizes.get_mut(group as usize) {
            *size = size.saturating_add(1);
        }
    }
}

/// What stands in a list for the configurations of an entry.
fn stretch<'a>(all: &'a [u32], entry: &Entry) -> impl Iterator<Item = &'a u32> + use<'a> {
    all.iter().skip(index(entry.before)).take(index(entry.count))
}

/// How the networks of each tier share, by number: equal on outputs of one kind exactly
/// where load and shares are.
#[derive(Clone, Debug, Default)]
struct Sharing {
    /// Where those of each tier end.
    ends: Vec<u32>,
    /// One for each network of a tier, or one for all.
    numbers: Vec<u32>,
}

impl Sharing {
    /// Of a tier's networks: one for each, or one for all.
    fn of(&self, tier: u32) -> Result<&[u32], Defect> {
        let tier = tier as usize;
        let end = |at: usize| self.ends.get(at).map(|end| *end as usize).ok_or(Defect::Tiers);
        let first = tier.checked_sub(1).map_or(Ok(0), end)?;
        self.numbers.get(first..end(tier)?).ok_or(Defect::Tiers)
    }

    fn add(&mut self, numbers: &[u32]) -> Result<(), Defect> {
        self.numbers.extend_from_slice(numbers);
        self.ends.push(number(self.numbers.len())?);
        Ok(())
    }
}

/// Where the finding of groups stands.
#[derive(Clone, Debug, Default)]
pub struct Grouping {
    /// Which tiers are in the list, and how much of the arena was looked at.
    used: Vec<bool>,
    marked: usize,
    /// What was met, numbered: shares of coils, what a driver gets of them, what is the same
    /// in all dealings of a class, and how all drivers share.
    shares: Interner,
    drivers: Interner,
    heads: Interner,
    rows: Interner,
    sharing: Sharing,
    walk: Option<Box<Walk>>,
    /// What the walk of the tier before found of the one that comes next.
    twin: Option<Vec<u32>>,
    /// The entry at work, in rank order, and where its configurations stand.
    at: usize,
    choosing: Option<Choosing>,
    /// How the outputs of a configuration share, numbered, and the first of each.
    whole: Interner,
    firsts: Vec<u32>,
    groups: Groups,
    work: u64,
}

/// A walk through all dealings of a class.
#[derive(Clone, Debug)]
struct Walk {
    dealings: Dealings,
    contents: Option<(Contents, u32)>,
    /// How those joined at the driver share, and the others.
    joined: Vec<u32>,
    apart: Vec<u32>,
}

/// The configurations of an entry, one after the other.
#[derive(Clone, Debug)]
struct Choosing {
    chosen: Vec<usize>,
    lengths: Vec<usize>,
    likes: Vec<Option<usize>>,
    /// Whether all of them share alike.
    all_alike: bool,
    left: u32,
    group: u32,
}

/// What one takes, in counted steps: looking at a number of the arena (so many at once), the
/// shares of a coil, one dealing, and one configuration with each of its outputs.
const MARKED: usize = 4_096;
const EACH_COIL: u64 = 12;
const EACH_DEALING: u64 = 10;
const EACH_ROW: u64 = 3;

impl Grouping {
    /// Counted steps spent so far.
    #[must_use]
    pub fn work(&self) -> u64 {
        self.work
    }

    /// How many of the tiers and entries of a list were looked at, and how many there are.
    pub(super) fn looked_at(&self, of: &Listed) -> (usize, usize) {
        let done = self.sharing.ends.len().saturating_add(self.at);
        (done, of.tiers.all.len().saturating_add(of.ranked.len()))
    }

    /// Works until the groups are found, which it gives then, or the budget is spent.
    pub(super) fn find(
        &mut self,
        of: &Listed,
        budget: &mut Steps,
    ) -> Result<Option<Groups>, Defect> {
        let known = self.step(of, budget);
        self.work = self.work.saturating_add(budget.taken());
        Ok(known?.then(|| core::mem::take(&mut self.groups)))
    }

    /// Works until the groups are found (`true`) or the budget is spent.
    fn step(&mut self, of: &Listed, budget: &mut Steps) -> Result<bool, Defect> {
        while budget.any() {
            let tier = number(self.sharing.ends.len())?;
            if self.marked < of.combining.arena.len() {
                self.mark(of, budget);
            } else if let Some(found) = of.tiers.get(tier) {
                self.share(of, tier, found, budget)?;
            } else if let Some(number) = of.ranked.get(self.at) {
                budget.take(1);
                let entry = of.entry(*number).ok_or(Defect::Table)?;
                self.place(of, entry, budget)?;
            } else {
                return Ok(true);
            }
        }
        Ok(false)
    }

    fn mark(&mut self, of: &Listed, budget: &mut Steps) {
        if self.marked == 0 {
            self.used = vec![false; of.tiers.all.len()];
            let total = length(of.combining.total);
            self.rows = Interner::with_room(total);
            self.whole = Interner::with_room(total);
        }
        for number in of.combining.arena.iter().skip(self.marked).take(MARKED) {
            if let Some(used) = self.used.get_mut(*number as usize) {
                *used = true;
            }
        }
        self.marked = self.marked.saturating_add(MARKED);
        budget.take(steps(MARKED).wrapping_div(8));
    }

    /// Finds how the networks of the next tier share. Those of a class that are joined at
    /// the driver and those that are not stand in neighbouring tiers, and are met in one
    /// walk.
    fn share(
        &mut self,
        of: &Listed,
        number: u32,
        tier: &Tier,
        budget: &mut Steps,
    ) -> Result<(), Defect> {
        budget.take(1);
        if let Some(numbers) = self.twin.take() {
            return self.sharing.add(&numbers);
        }
        let next = number.saturating_add(1);
        let twins = tier.joined && of.same_class(number, next);
        let is_used = |number: u32| self.used.get(number as usize) == Some(&true);
        let place = of.tiers.place(number);
        let listing = place.and_then(|(portion, _)| of.listings.get(portion));
        let (Some(listing), Some((_, kind)), true) =
            (listing, place, is_used(number) || (twins && is_used(next)))
        else {
            return self.sharing.add(&[]);
        };
        // It is large, and is taken up again with every slice.
        let mut walk = self.walk.take().unwrap_or_else(|| {
            Box::new(Walk {
                dealings: listing.dealings(tier.class as usize),
                contents: None,
                joined: Vec::new(),
                apart: Vec::new(),
            })
        });
        if !self.walk_on(&mut walk, listing, kind, tier, budget) {
            self.walk = Some(walk);
            return Ok(());
        }
        let (own, other) =
            if tier.joined { (walk.joined, walk.apart) } else { (walk.apart, walk.joined) };
        self.twin = twins.then_some(other);
        self.sharing.add(&own)
    }

    /// Walks until the end (`true`) or the budget is spent.
    fn walk_on(
        &mut self,
        walk: &mut Walk,
        listing: &Listing,
        kind: usize,
        tier: &Tier,
        budget: &mut Steps,
    ) -> bool {
        let mut row: Vec<u64> = Vec::new();
        while budget.any() {
            let (dealt, joined) = walk.dealings.next_of_any(listing, budget);
            match dealt {
                Dealt::Found => {}
                Dealt::Pending => continue,
                Dealt::End | Dealt::TooMuch => return true,
            }
            budget.take(EACH_DEALING);
            if walk.contents.is_none() {
                walk.contents =
                    Contents::of(listing, &walk.dealings, &mut self.shares).map(|contents| {
                        let mut head = vec![wide(kind)];
                        head.push(tier.load.into());
                        contents.write_fixed(&mut head);
                        budget.take(EACH_COIL.saturating_mul(contents.coils()));
                        (contents, self.heads.number(&head).0)
                    });
            }
            let Some((contents, head)) = &walk.contents else { return true };
            row.clear();
            row.push(u64::from(*head));
            contents.write_dealt(&walk.dealings, &mut self.drivers, &mut row);
            let name = self.rows.number(&row).0;
            if tier.even {
                // Every coil of a kind gets alike, so every driver of it does.
                (walk.joined, walk.apart) = (vec![name], vec![name]);
                return true;
            }
            if joined { walk.joined.push(name) } else { walk.apart.push(name) }
        }
        false
    }

    /// Puts the configurations of an entry into their groups.
    fn place(&mut self, of: &Listed, entry: &Entry, budget: &mut Steps) -> Result<(), Defect> {
        let tiers = of.combining.tiers_of(entry)?;
        let mut choosing = match self.choosing.take() {
            Some(choosing) => choosing,
            None => Choosing::of(of, tiers, entry.count, &self.sharing)?,
        };
        let mut row: Vec<u64> = Vec::new();
        let mut first = choosing.left == entry.count;
        while choosing.left > 0 && budget.any() {
            choosing.left = choosing.left.saturating_sub(1);
            if first || !choosing.all_alike {
                budget.take(steps(tiers.len()).saturating_mul(EACH_ROW));
                row.clear();
                for (tier, choice) in tiers.iter().zip(&choosing.chosen) {
                    let numbers = self.sharing.of(*tier)?;
                    // One for each network, or one for all.
                    let own = numbers.get(*choice).or(numbers.first()).ok_or(Defect::Tiers)?;
                    row.push(u64::from(*own));
                }
                short::insertion_sort(&mut row, u64::cmp);
                let (name, new) = self.whole.number(&row);
                if new {
                    self.firsts.push(number(self.groups.of.len())?);
                }
                choosing.group = *self.firsts.get(index(name)).ok_or(Defect::Table)?;
                next_choice(&mut choosing.chosen, &choosing.lengths, &choosing.likes)?;
                first = false;
            } else {
                budget.take(1);
            }
            self.groups.add(choosing.group);
        }
        if choosing.left > 0 {
            self.choosing = Some(choosing);
        } else {
            self.at = self.at.saturating_add(1);
        }
        Ok(())
    }
}

impl Choosing {
    fn of(of: &Listed, tiers: &[u32], count: u32, sharing: &Sharing) -> Result<Self, Defect> {
        let mut this = Self {
            chosen: vec![0; tiers.len()],
            lengths: Vec::new(),
            likes: Vec::new(),
            all_alike: true,
            left: count,
            group: 0,
        };
        for (at, tier) in tiers.iter().enumerate() {
            this.all_alike &= sharing.of(*tier)?.len() == 1;
            let networks = of.tiers.get(*tier).ok_or(Defect::Tiers)?.count;
            this.lengths.push(index(networks));
            this.likes.push((0..at).rev().find(|earlier| tiers.get(*earlier) == Some(tier)));
        }
        Ok(this)
    }
}
