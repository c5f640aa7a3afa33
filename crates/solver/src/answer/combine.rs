//! Every choice of a tier for each output of each deal: the stretches of the list.

use super::allotment::Allotment;
use super::entry::Entry;
use super::tallies::Tallies;
use super::tiers::Tier;
use crate::bounds::MOST_CONFIGURATIONS;
use crate::defect::Defect;
use crate::loads::Loads;
use crate::outputs::evenness::Hanging;
use crate::problem::{Code, Stop};
use crate::short;
use crate::work::{Steps, steps};

/// The tiers of every portion on every kind of output it meets.
#[derive(Clone, Debug, Default)]
pub(super) struct Tiers {
    /// All of them, pair of portion and kind by pair.
    pub(super) all: Vec<Tier>,
    /// Portion and kind with the first of their tiers, falling.
    pairs: Vec<(usize, usize, usize)>,
}

impl Tiers {
    /// Begins the tiers of a pair that comes before all those begun.
    pub(super) fn begin(&mut self, portion: usize, kind: usize) {
        self.pairs.push((portion, kind, self.all.len()));
    }

    /// How many classes of the pair begun last are judged.
    pub(super) fn judged(&self) -> usize {
        let first = self.pairs.last().map_or(0, |pair| pair.2);
        let last = self.all.last().filter(|_| self.all.len() > first);
        last.map_or(0, |tier| (tier.class as usize).saturating_add(1))
    }

    /// The tiers of a pair: the number of the first among all, and how many they are.
    fn of(&self, portion: usize, kind: usize) -> (usize, usize) {
        let at = self.pairs.partition_point(|pair| (pair.0, pair.1) > (portion, kind));
        let Some(pair) = self.pairs.get(at).filter(|pair| (pair.0, pair.1) == (portion, kind))
        else {
            return (0, 0);
        };
        let next = at.checked_add(1).and_then(|next| self.pairs.get(next));
        let end = next.map_or(self.all.len(), |next| next.2);
        (pair.2, end.saturating_sub(pair.2))
    }

    /// The portion of a tier and the kind of output that it hangs on.
    pub(super) fn place(&self, number: u32) -> Option<(usize, usize)> {
        let next = self.pairs.partition_point(|pair| pair.2 <= number as usize);
        let pair = next.checked_sub(1).and_then(|at| self.pairs.get(at))?;
        Some((pair.0, pair.1))
    }

    /// A tier by its number.
    pub(super) fn get(&self, number: u32) -> Option<&Tier> {
        self.all.get(usize::try_from(number).ok()?)
    }
}

/// Where the combining stands.
#[derive(Clone, Debug, Default)]
pub(super) struct Combining {
    deal: usize,
    /// What each output of the deal at work may take; empty before the first choice.
    lists: Vec<List>,
    chosen: Vec<usize>,
    /// The output that chooses next, and from which of its tiers on.
    next: (usize, usize),
    pub(super) entries: Vec<Entry>,
    /// The tiers of all entries by number, entry by entry.
    pub(super) arena: Vec<u32>,
    /// Of each load.
    pub(super) tallies: Tallies,
    pub(super) total: u64,
}

/// The tiers one output may take.
#[derive(Clone, Debug)]
struct List {
    /// The number of the first of them, and how many they are.
    first: usize,
    count: usize,
    /// The kind of the output.
    kind: usize,
    /// The output before it of the same kind.
    same_kind: Option<usize>,
    /// The same, where it also has the same portion.
    like: Option<usize>,
    /// The rating of what hangs on the output.
    rating: u64,
    /// How many outputs up to it that are alike have the same choice.
    repeats: u64,
}

impl Combining {
    /// The tier of each output of an entry, by number.
    pub(super) fn tiers_of(&self, entry: &Entry) -> Result<&[u32], Defect> {
        let (first, end) = entry.tiers;
        self.arena.get(first as usize..end as usize).ok_or(Defect::Tiers)
    }

    /// Combines until done (`true`) or the budget is spent.
    pub(super) fn step(
        &mut self,
        allotment: &Allotment,
        tiers: &Tiers,
        loads: &Loads,
        even_only: bool,
        budget: &mut Steps,
    ) -> Result<bool, Stop> {
        // About as long as so many counted steps, and for each output.
        const EACH: u64 = 6;
        const EACH_OUTPUT: u64 = 3;
        while budget.any() {
            if self.lists.is_empty() {
                if self.begin(allotment, tiers).is_none() {
                    return Ok(true);
                }
                budget.take(EACH.saturating_add(steps(self.lists.len()).saturating_mul(EACH)));
                if self.lists.iter().any(|list| list.count == 0) {
                    self.end_deal();
                    continue;
                }
            }
            let outputs = steps(self.lists.len());
            match self.choose(tiers, even_only, budget)? {
                None => {}
                Some(false) => self.end_deal(),
                Some(true) => {
                    // Loads of one choice are compared each with each.
                    let compared = outputs.saturating_mul(outputs).wrapping_div(16);
                    budget.take(EACH.saturating_add(outputs.saturating_mul(EACH_OUTPUT)));
                    budget.take(compared);
                    self.take(allotment, tiers, loads, even_only)?;
                }
            }
        }
        Ok(false)
    }

    fn end_deal(&mut self) {
        self.deal = self.deal.saturating_add(1);
        self.lists.clear();
    }

    /// Lines up what the outputs of a deal may take; `None` after the last deal.
    fn begin(&mut self, allotment: &Allotment, tiers: &Tiers) -> Option<()> {
        let portions = allotment.portions_of(self.deal)?;
        let kin = allotment.kin(self.deal)?;
        self.chosen.clear();
        self.next = (0, 0);
        for (at, (portion, same_kind)) in portions.iter().zip(kin).enumerate() {
            let kind = allotment.kind(self.deal, at)?;
            let same_kind = *same_kind;
            let like = same_kind.filter(|earlier| portions.get(*earlier) == Some(portion));
            let (first, count) = tiers.of(*portion as usize, kind);
            let rating = allotment.weights.portion(allotment.portion(self.deal, at)?);
            self.lists.push(List { first, count, kind, same_kind, like, rating, repeats: 1 });
            self.chosen.push(0);
        }
        // The choices of one output are foretold; doubling would take twice the memory.
        if let [list] = self.lists.as_slice() {
            self.entries.reserve_exact(list.count);
            self.arena.reserve_exact(list.count);
        }
        Some(())
    }

    /// Steps to the next choice of tiers (`true`), past the last one (`false`), or as far
    /// as the budget goes. Outputs of one kind with one portion choose in an order that
    /// never falls; with `even_only` those of one kind choose equal loads.
    fn choose(
        &mut self,
        tiers: &Tiers,
        even_only: bool,
        budget: &mut Steps,
    ) -> Result<Option<bool>, Defect> {
        while budget.any() {
            let (at, from) = self.next;
            budget.take(1);
            match self.fitting(at, from, tiers, even_only, budget) {
                Some(choice) => {
                    *self.chosen.get_mut(at).ok_or(Defect::Tiers)? = choice;
                    let later = at.saturating_add(1);
                    if later == self.lists.len() {
                        self.next = (at, choice.saturating_add(1));
                        return Ok(Some(true));
                    }
                    let least = match self.lists.get(later).and_then(|list| list.like) {
                        Some(like) => *self.chosen.get(like).ok_or(Defect::Tiers)?,
                        None => 0,
                    };
                    self.next = (later, least);
                }
                None => {
                    let Some(before) = at.checked_sub(1) else { return Ok(Some(false)) };
                    let choice = *self.chosen.get(before).ok_or(Defect::Tiers)?;
                    self.next = (before, choice.saturating_add(1));
                }
            }
        }
        Ok(None)
    }

    /// The first tier of an output that may be chosen beside those before it.
    fn fitting(
        &self,
        at: usize,
        from: usize,
        tiers: &Tiers,
        even_only: bool,
        budget: &mut Steps,
    ) -> Option<usize> {
        let list = self.lists.get(at)?;
        let other = list.same_kind.filter(|_| even_only);
        let Some(other) = other else { return (from < list.count).then_some(from) };
        let load = |at: usize, choice: usize| {
            let list = self.lists.get(at)?;
            tiers.all.get(list.first.saturating_add(choice)).map(|tier| tier.load)
        };
        let same = load(other, *self.chosen.get(other)?);
        let found = (from..list.count).find(|choice| load(at, *choice) == same);
        let seen = found.unwrap_or(list.count).saturating_sub(from);
        budget.take(steps(seen).wrapping_div(4));
        found
    }

    /// Takes the choice as an entry, if it passes the filter.
    fn take(
        &mut self,
        allotment: &Allotment,
        tiers: &Tiers,
        loads: &Loads,
        even_only: bool,
    ) -> Result<(), Stop> {
        let too_much = |_| Code::TooMuchWork;
        let first = self.arena.len();
        let mut entry = Entry {
            deal: u32::try_from(self.deal).map_err(too_much)?,
            tiers: (u32::try_from(first).map_err(too_much)?, 0),
            count: 0,
            before: 0,
            fit: 0,
            even: true,
            unlike_in_series: false,
            joined: allotment.deals.get(self.deal).is_some_and(|deal| !deal.split),
            target: Some(0.0).into(),
            lowest_load: 0,
            runs: 0,
        };
        let mut count = Some(1_u64);
        for at in 0..self.lists.len() {
            let (Some(list), Some(choice)) = (self.lists.get(at), self.chosen.get(at)) else {
                return Err(Defect::Tiers.into());
            };
            let Some(tier) = tiers.all.get(list.first.saturating_add(*choice)) else {
                return Err(Defect::Tiers.into());
            };
            entry.fit = entry.fit.max(tier.fit);
            entry.even &= tier.even;
            entry.unlike_in_series |= tier.unlike_in_series;
            entry.joined &= tier.joined;
            entry.target = entry.target.plus(tier.target);
            entry.runs = entry.runs.saturating_add(tier.runs);
            let lower = |load: u32, than: u32| -> Result<bool, Defect> {
                Ok(load != than && loads.get(load)? < loads.get(than)?)
            };
            if at == 0 || lower(tier.load, entry.lowest_load)? {
                entry.lowest_load = tier.load;
            }
            // What is even with the last of its kind is so with all of them.
            if let Some(other) = list.same_kind {
                let number = self.arena.get(first.saturating_add(other));
                let there = number.and_then(|number| tiers.get(*number));
                let there = self.lists.get(other).zip(there).ok_or(Defect::Tiers)?;
                let [here, there] = [(list, tier), there].map(|(list, tier)| Hanging {
                    kind: list.kind,
                    load: tier.load,
                    rating: list.rating,
                });
                entry.even &= here.is_even_with(&there);
            }
            // Outputs that are alike and choose alike may be exchanged: in so many ways,
            // taken one more each time, they take networks of the tier.
            let before = list.like.filter(|like| self.chosen.get(*like) == Some(choice));
            let before = before.and_then(|like| self.lists.get(like)).map_or(0, |l| l.repeats);
            let repeats = before.saturating_add(1);
            count = count
                .and_then(|count| count.checked_mul(u64::from(tier.count).checked_add(before)?))
                .and_then(|count| count.checked_div(repeats));
            let number = u32::try_from(list.first.saturating_add(*choice)).map_err(too_much)?;
            short::room(&mut self.arena);
            self.arena.push(number);
            if let Some(list) = self.lists.get_mut(at) {
                list.repeats = repeats;
            }
        }
        if even_only && !entry.even {
            self.arena.truncate(first);
            return Ok(());
        }
        let count = count.ok_or(Code::TooMany)?;
        self.total = self.total.saturating_add(count);
        if self.total > MOST_CONFIGURATIONS {
            return Err(Code::TooMany.into());
        }
        entry.count = u32::try_from(count).map_err(too_much)?;
        entry.tiers.1 = u32::try_from(self.arena.len()).map_err(too_much)?;
        self.tally(tiers, &entry)?;
        short::room(&mut self.entries);
        self.entries.push(entry);
        Ok(())
    }

    fn tally(&mut self, tiers: &Tiers, entry: &Entry) -> Result<(), Defect> {
        let (first, end) = entry.tiers;
        let own = self.arena.get(first as usize..end as usize).ok_or(Defect::Tiers)?;
        for (at, number) in own.iter().enumerate() {
            let tier = tiers.get(*number).ok_or(Defect::Tiers)?;
            let has = |n: &u32| tiers.get(*n).is_some_and(|other| other.load == tier.load);
            let again = own.iter().take(at).any(has);
            self.tallies.count(tier, entry, again);
        }
        Ok(())
    }
}

/// The next choice of one from each list, the last list turning fastest. A list that is
/// like an earlier one never chooses before it: their order does not matter.
pub(super) fn next_choice(
    chosen: &mut [usize],
    lengths: &[usize],
    likes: &[Option<usize>],
) -> Result<bool, Defect> {
    for at in (0..chosen.len()).rev() {
        let Some(next) = chosen.get(at).and_then(|choice| choice.checked_add(1)) else { break };
        if lengths.get(at).is_none_or(|length| next >= *length) {
            continue;
        }
        if let Some(choice) = chosen.get_mut(at) {
            *choice = next;
        }
        for later in at.saturating_add(1)..chosen.len() {
            let least = match likes.get(later).ok_or(Defect::Tiers)? {
                Some(like) => *chosen.get(*like).ok_or(Defect::Tiers)?,
                None => 0,
            };
            if let Some(choice) = chosen.get_mut(later) {
                *choice = least;
            }
        }
        return Ok(true);
    }
    Ok(false)
}
