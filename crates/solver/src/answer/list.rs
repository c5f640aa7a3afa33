//! Looking at a finished list: in another order, at one load, alike ones gathered.
//!
//! A list is never written as a whole. A [`View`] knows where each stretch of it begins;
//! [`Configurations::rows`] writes the rows that are looked at.

use super::Configuration;
use super::alike::Groups;
use super::entry::Entry;
use super::working::Configurations;
use super::writing::write;
use crate::count::{index, tally, within};
use crate::ohms::Ohms;

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
    /// the same kinds whose drivers share the power alike, coil by coil, whichever driver
    /// of a kind gets what; so that their verdicts and powers agree. The first in rank order
    /// stands for them.
    pub gathered: bool,
    /// Only the configurations of this row's group, each in a row of its own.
    pub group: Option<u32>,
}

/// The rows of a list that are wanted, not yet written.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct View {
    /// How many there are.
    pub rows: u64,
    stretches: Vec<Stretch>,
}

/// Configurations of an entry that stand in rows one after the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Stretch {
    entry: u32,
    /// Configurations of the entry before them.
    skip: u32,
    /// Rows before it.
    before: u32,
    /// How many there are.
    rows: u32,
    of: Of,
}

/// Which configurations of the entry a stretch shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Of {
    /// Each, in a row of its own.
    Each,
    /// The members of a group.
    Group(u32),
    /// The first of each group that begins in the entry.
    Firsts,
}

/// A row of a view.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The configuration, with its rank in the whole list.
    pub configuration: Configuration,
    /// Configurations of its group that the row stands for: 1 unless gathered.
    pub alike: u64,
    /// A number by which its group can be asked for; it stays the same as long as the
    /// question does. Rows of one group have the same where groups were asked for.
    pub group: u32,
}

impl Stretch {
    /// The first configuration of an entry in a row of its own.
    fn of(entry: u32) -> Self {
        Self { entry, skip: 0, before: 0, rows: 1, of: Of::Each }
    }
}

impl View {
    fn add(&mut self, stretch: Stretch) {
        let before = within(self.rows);
        self.rows = self.rows.saturating_add(u64::from(stretch.rows));
        let follows = |last: &&mut Stretch| {
            let end = last.skip.saturating_add(last.rows);
            last.entry == stretch.entry && last.of == stretch.of && end == stretch.skip
        };
        match self.stretches.last_mut().filter(follows) {
            Some(last) => last.rows = last.rows.saturating_add(stretch.rows),
            None => self.stretches.push(Stretch { before, ..stretch }),
        }
    }
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
        if !self.is_done() || self.answer.total.is_none() {
            return view;
        }
        let groups = (wanted.gathered || wanted.group.is_some()).then(|| self.groups());
        let only = match wanted.group.map(|place| groups.and_then(|groups| groups.of(place))) {
            Some(None) => return view,
            Some(group) => group,
            None => None,
        };
        for number in self.in_order(wanted.order) {
            let Some(entry) = self.listed.entry(number) else { continue };
            if wanted.at_load.is_some_and(|load| !self.has_load(entry, load)) {
                continue;
            }
            let whole = Stretch { rows: entry.count, ..Stretch::of(number) };
            match (groups, only) {
                (None, _) => view.add(whole),
                (Some(groups), None) => {
                    let rows = tally(groups.firsts(entry));
                    if rows > 0 {
                        view.add(Stretch { rows, of: Of::Firsts, ..whole });
                    }
                }
                (Some(groups), Some(group)) => {
                    for skip in groups.members(entry, group) {
                        view.add(Stretch { skip, of: Of::Group(group), ..Stretch::of(number) });
                    }
                }
            }
        }
        view
    }

    /// Writes `count` rows of a view from row `from` on, counted from 0; fewer at the end.
    #[must_use]
    pub fn rows(&self, view: &View, from: u64, count: u32) -> Vec<Row> {
        let mut rows = Vec::new();
        let most = index(count);
        let Some(from) = u32::try_from(from).ok().filter(|_| from < view.rows) else {
            return rows;
        };
        let next = view.stretches.partition_point(|stretch| stretch.before <= from);
        for stretch in view.stretches.iter().skip(next.saturating_sub(1)) {
            let left = most.saturating_sub(rows.len());
            let Some(entry) = self.listed.entry(stretch.entry).filter(|_| left > 0) else { break };
            // Only in the first of them is anything to be skipped.
            let shown = from.saturating_sub(stretch.before);
            let left = left.min(index(stretch.rows.saturating_sub(shown)));
            if stretch.of == Of::Firsts {
                let firsts = self.groups().firsts(entry).skip(index(shown)).take(left);
                for (skip, alike) in firsts {
                    let one = self.without_defect(write(&self.listed, entry, skip, 1));
                    for configuration in one.into_iter().flatten() {
                        let group = configuration.rank.saturating_sub(1);
                        rows.push(Row { configuration, alike: u64::from(alike), group });
                    }
                }
                continue;
            }
            let skip = stretch.skip.saturating_add(shown);
            let all = self.without_defect(write(&self.listed, entry, skip, left));
            for configuration in all.into_iter().flatten() {
                let own = configuration.rank.saturating_sub(1);
                let group = if let Of::Group(group) = stretch.of { group } else { own };
                rows.push(Row { configuration, alike: 1, group });
            }
        }
        rows
    }

    /// The numbers of the entries in an order.
    fn in_order(&self, order: Order) -> Vec<u32> {
        if order == Order::Rank {
            return self.listed.ranked.clone();
        }
        let mut keys: Vec<(u64, u32)> = Vec::with_capacity(self.listed.ranked.len());
        for (place, number) in (0_u32..).zip(&self.listed.ranked) {
            let key = self.listed.entry(*number).map_or(0, |entry| match order {
                Order::Rank => 0,
                Order::Load => self.listed.combining.tallies.above(entry.lowest_load),
                Order::Power => entry.target.watts().map_or(u64::MAX, |watts| !watts.to_bits()),
                Order::Runs => u64::from(entry.runs),
            });
            keys.push((key, place));
        }
        if order == Order::Power {
            tell_apart(&mut keys, ROUNDING);
        }
        keys.sort_unstable();
        let number = |(_, place): &(u64, u32)| self.listed.ranked.get(index(*place));
        keys.iter().filter_map(number).copied().collect()
    }

    fn has_load(&self, entry: &Entry, load: Ohms) -> bool {
        let load = Ok(load.ratio());
        let is_it = |number: u32| self.listed.loads.get(number) == load;
        let has = |number: &u32| self.listed.tiers.get(*number).is_some_and(|s| is_it(s.load));
        let tiers = self.without_defect(self.listed.combining.tiers_of(entry));
        tiers.is_some_and(|tiers| tiers.iter().any(has))
    }

    /// The groups; found in one go where nobody did so before ([`Configurations::find_groups`]).
    fn groups(&self) -> &Groups {
        self.groups.get_or_init(|| self.all_groups())
    }
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
