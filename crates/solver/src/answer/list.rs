//! Looking at a finished list: in another order, at one load, alike ones gathered.
//!
//! A list is never written as a whole. A [`View`] knows where each stretch of it begins;
//! [`Configurations::rows`] writes the rows that are looked at.

use super::Configuration;
use super::combine::Entry;
use super::ranking::higher_loads;
use super::working::Configurations;
use crate::ohms::{Ohms, Ratio};
use crate::short;

/// What the rows of a view are in order of; equals stand in rank order.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Order {
    /// As ranked.
    #[default]
    Rank,
    /// The highest load first; of several outputs the lowest load counts.
    Load,
    /// The greatest power of the whole once the level is set first, the unknown last.
    /// Powers that differ by rounding alone are equal.
    Power,
    /// The fewest runs of wire first.
    Runs,
}

/// Which rows are wanted, and in what order.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Wanted {
    /// Only configurations with an output of exactly this load.
    pub at_load: Option<Ohms>,
    /// The order.
    pub order: Order,
    /// One row for each group: for all configurations with the same loads on outputs of
    /// the same kinds and the same greatest share of its rating on any coil of each, so
    /// that their verdicts and powers agree. The first in rank order stands for them.
    pub gathered: bool,
    /// Only the configurations of this group, each in a row of its own.
    pub group: Option<u32>,
}

/// The rows of a list that are wanted, not yet written.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct View {
    /// How many there are.
    pub rows: u64,
    stretches: Vec<Stretch>,
}

/// An entry whose configurations stand in rows, or in one row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Stretch {
    entry: u32,
    /// Rows before it.
    before: u32,
    /// Configurations that its one row stands for; 0 where each has its own.
    gathered: u32,
}

/// A row of a view.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The configuration, with its rank in the whole list.
    pub configuration: Configuration,
    /// Configurations of its group that the row stands for: 1 unless gathered.
    pub alike: u64,
    /// Its group; a number stays the same as long as the question does.
    pub group: u32,
}

impl Configurations {
    /// The rows that are wanted; none before the list is done, or if it never will be.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::*, bounds::Field, rig::{Draft, GroupDraft}};
    /// # let two = GroupDraft { count: Some(2), coils: Some(2), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// let request = Request { rig, joined_only: false, even_only: false, limit: 0 };
    /// let mut configurations = Configurations::new(request);
    /// while let Step::More(_) = configurations.step(1_000) {}
    /// let view = configurations.view(&Wanted { order: Order::Load, ..Wanted::default() });
    /// let rows = configurations.rows(&view, 0, 1);
    /// assert_eq!((view.rows, rows[0].configuration.key().as_str()), (16, "1a+1b+2a+2b"));
    /// ```
    #[must_use]
    pub fn view(&self, wanted: &Wanted) -> View {
        let mut view = View::default();
        if !self.is_done() {
            return view;
        }
        let gathered = wanted.gathered && wanted.group.is_none();
        let sums = if gathered { self.in_groups() } else { Vec::new() };
        for number in self.in_order(wanted.order) {
            let Some(entry) = self.entry(number) else { continue };
            // The first of a group in rank order gives the group its number.
            let hidden = wanted.at_load.is_some_and(|load| !self.has_load(entry, load))
                || wanted.group.is_some_and(|group| self.group(number) != group)
                || (gathered && self.group(number) != number);
            if hidden {
                continue;
            }
            let before = u32::try_from(view.rows).unwrap_or(u32::MAX);
            let gathered = sums.get(at(number)).copied().unwrap_or(0);
            let rows = if gathered > 0 { 1 } else { entry.count };
            view.stretches.push(Stretch { entry: number, before, gathered });
            view.rows = view.rows.saturating_add(u64::from(rows));
        }
        view
    }

    /// Writes `count` rows of a view from row `from` on, counted from 0; fewer at the end.
    #[must_use]
    pub fn rows(&self, view: &View, from: u64, count: u32) -> Vec<Row> {
        let mut rows = Vec::new();
        let most = usize::try_from(count).unwrap_or(usize::MAX);
        let Some(from) = u32::try_from(from).ok().filter(|_| from < view.rows) else {
            return rows;
        };
        let next = view.stretches.partition_point(|stretch| stretch.before <= from);
        for stretch in view.stretches.iter().skip(next.saturating_sub(1)) {
            let left = most.saturating_sub(rows.len());
            let Some(entry) = self.entry(stretch.entry).filter(|_| left > 0) else { break };
            // Only in the first of them is anything to be skipped.
            let skip = from.saturating_sub(stretch.before);
            let (left, alike) = match stretch.gathered {
                0 => (left, 1),
                alike => (1, alike),
            };
            let group = self.group(stretch.entry);
            for configuration in self.write(entry, skip, left) {
                rows.push(Row { configuration, alike: u64::from(alike), group });
            }
        }
        rows
    }

    /// The numbers of the entries in an order.
    fn in_order(&self, order: Order) -> Vec<u32> {
        if order == Order::Rank {
            return self.ranked.clone();
        }
        let mut keys: Vec<(u64, u32)> = Vec::with_capacity(self.ranked.len());
        for (place, number) in (0_u32..).zip(&self.ranked) {
            let key = self.entry(*number).map_or(0, |entry| match order {
                Order::Rank => 0,
                Order::Load => self.above(entry.lowest_load),
                Order::Power => entry.target.map_or(u64::MAX, |watts| !watts.to_bits()),
                Order::Runs => u64::from(entry.runs),
            });
            keys.push((key, place));
        }
        if order == Order::Power {
            tell_apart(&mut keys, ROUNDING);
        }
        keys.sort_unstable();
        let number = |(_, place): &(u64, u32)| self.ranked.get(at(*place));
        keys.iter().filter_map(number).copied().collect()
    }

    fn has_load(&self, entry: &Entry, load: Ohms) -> bool {
        let has = |number: &u32| self.strands.get(*number).is_some_and(|s| s.load == load.ratio());
        self.combining.strands_of(entry).iter().any(has)
    }

    /// The group of an entry: the number of its first in rank order.
    fn group(&self, number: u32) -> u32 {
        let groups = self.groups.get_or_init(|| self.find_groups());
        groups.get(at(number)).copied().unwrap_or(number)
    }

    /// How many configurations are in the group of each entry that is the first of one.
    fn in_groups(&self) -> Vec<u32> {
        let mut sums = vec![0_u32; self.combining.entries.len()];
        for (number, entry) in (0_u32..).zip(&self.combining.entries) {
            if let Some(sum) = sums.get_mut(at(self.group(number))) {
                *sum = sum.saturating_add(entry.count);
            }
        }
        sums
    }

    fn find_groups(&self) -> Vec<u32> {
        let arena = self.told_apart();
        let outputs = |number: &u32| {
            let (first, end) = self.entry(*number).map_or((0, 0), |entry| entry.strands);
            arena.get(at(first)..at(end)).unwrap_or(&[])
        };
        // Entries of as many outputs are told apart by one output after the other; what
        // is not yet told apart shares the place of its first.
        let mut firsts: Vec<u32> = Vec::with_capacity(self.ranked.len());
        for number in &self.ranked {
            firsts.push(u32::try_from(outputs(number).len()).unwrap_or(u32::MAX));
        }
        let mut keys: Vec<(u64, u32)> = Vec::new();
        for output in 0.. {
            keys.clear();
            for ((place, number), first) in (0_u32..).zip(&self.ranked).zip(&firsts) {
                if let Some(kind) = outputs(number).get(output) {
                    keys.push((u64::from(*first) << 32 | u64::from(*kind), place));
                }
            }
            if keys.is_empty() {
                break;
            }
            keys.sort_unstable();
            let mut first = (u64::MAX, 0);
            for (key, place) in &keys {
                if *key != first.0 {
                    first = (*key, *place);
                }
                if let Some(slot) = firsts.get_mut(at(*place)) {
                    *slot = first.1;
                }
            }
        }
        let mut groups = vec![0; self.combining.entries.len()];
        for (number, first) in self.ranked.iter().zip(&firsts) {
            if let (Some(slot), Some(first)) =
                (groups.get_mut(at(*number)), self.ranked.get(at(*first)))
            {
                *slot = *first;
            }
        }
        groups
    }

    /// The strands of all entries, as in the arena, but by numbers that agree exactly
    /// where kind of output, load and sharing do, rising within each entry.
    fn told_apart(&self) -> Vec<u32> {
        let mut keys: Vec<(u64, u32)> = Vec::with_capacity(self.strands.all.len());
        for (number, strand) in (0_u32..).zip(&self.strands.all) {
            keys.push((strand.hottest.to_bits(), number));
        }
        tell_apart(&mut keys, ROUNDING);
        for (key, number) in &mut keys {
            let load = self.strands.get(*number).map_or(0, |strand| self.above(strand.load));
            *key |= load << 32 | self.strands.kind(*number) << 56;
        }
        tell_apart(&mut keys, 0);
        let mut kinds = vec![0_u32; keys.len()];
        for (key, number) in keys {
            if let Some(kind) = kinds.get_mut(at(number)) {
                *kind = u32::try_from(key).unwrap_or(u32::MAX);
            }
        }
        let kind = |number: &u32| kinds.get(at(*number)).copied().unwrap_or(0);
        let mut arena: Vec<u32> = self.combining.arena.iter().map(kind).collect();
        for entry in &self.combining.entries {
            let (first, end) = entry.strands;
            if let Some(kinds) = arena.get_mut(at(first)..at(end)) {
                short::sort(kinds, u32::cmp);
            }
        }
        arena
    }

    /// How many loads of the list are higher.
    fn above(&self, load: Ratio) -> u64 {
        higher_loads(&self.answer.loads, load)
    }
}

/// A number that counts entries of a list, as an index into it.
fn at(number: u32) -> usize {
    usize::try_from(number).unwrap_or(usize::MAX)
}

/// As many floats lie between two that differ by some 1 in 10¹²: rounding takes fewer.
const ROUNDING: u64 = 1 << 12;

/// Puts keys in order and replaces them by small ones that are equal where they are no
/// further apart than `near`.
fn tell_apart(keys: &mut [(u64, u32)], near: u64) {
    keys.sort_unstable();
    let (mut last, mut class) = (0, 0_u64);
    for (key, _) in keys {
        if key.saturating_sub(last) > near {
            class = class.saturating_add(1);
        }
        last = core::mem::replace(key, class);
    }
}
