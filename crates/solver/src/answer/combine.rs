//! Every choice of a strand for each output of each deal: the stretches of the list.

use super::LoadTally;
use super::plan::Plan;
use super::strands::{Strand, multichoose};
use crate::bounds::MOST_CONFIGURATIONS;
use crate::judge::Verdict;
use crate::ohms::{Ohms, Ratio};
use crate::problem::Code;
use crate::rig::Rig;
use std::collections::BTreeMap;

/// Configurations that stand alike: a stretch of the list.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    pub(super) deal: u32,
    /// Where the numbers of its strands, one an output, begin and end in the arena.
    pub(super) strands: (u32, u32),
    /// Configurations in it.
    pub(super) count: u32,
    /// Configurations ranked before it, once they are ranked.
    pub(super) before: u32,
    pub(super) fit: u8,
    pub(super) even: bool,
    pub(super) unlike_in_series: bool,
    pub(super) joined: bool,
    /// Of all outputs together; unknown as soon as one is.
    pub(super) target: Option<f64>,
    pub(super) lowest_load: Ratio,
    pub(super) runs: u32,
}

/// The strands of every portion on every kind of output it meets.
#[derive(Clone, Debug, Default)]
pub(super) struct Strands {
    /// All of them, pair of portion and kind by pair.
    pub(super) all: Vec<Strand>,
    /// Portion and kind with the first of their strands, falling.
    pairs: Vec<(usize, usize, usize)>,
}

impl Strands {
    /// Begins the strands of a pair that comes before all those begun.
    pub(super) fn begin(&mut self, portion: usize, kind: usize) {
        self.pairs.push((portion, kind, self.all.len()));
    }

    /// The strands of the pair begun last.
    pub(super) fn newest(&self) -> &[Strand] {
        let first = self.pairs.last().map_or(0, |pair| pair.2);
        self.all.get(first..).unwrap_or(&[])
    }

    /// The strands of a pair, and the number of the first among all.
    fn of(&self, portion: usize, kind: usize) -> (usize, &[Strand]) {
        let at = self.pairs.partition_point(|pair| (pair.0, pair.1) > (portion, kind));
        let Some(pair) = self.pairs.get(at).filter(|pair| (pair.0, pair.1) == (portion, kind))
        else {
            return (0, &[]);
        };
        let next = at.checked_add(1).and_then(|next| self.pairs.get(next));
        let end = next.map_or(self.all.len(), |next| next.2);
        (pair.2, self.all.get(pair.2..end).unwrap_or(&[]))
    }

    /// A strand by its number.
    pub(super) fn get(&self, number: u32) -> Option<&Strand> {
        self.all.get(usize::try_from(number).ok()?)
    }
}

/// Where the combining stands.
#[derive(Clone, Debug, Default)]
pub(super) struct Combining {
    deal: usize,
    /// The strand chosen for each output of the deal at work; empty before the first.
    chosen: Vec<usize>,
    pub(super) entries: Vec<Entry>,
    /// The strands of all entries by number, entry by entry.
    pub(super) arena: Vec<u32>,
    pub(super) tallies: BTreeMap<Ratio, LoadTally>,
    pub(super) total: u64,
}

impl Combining {
    /// The strand of each output of an entry, by number.
    pub(super) fn strands_of(&self, entry: &Entry) -> &[u32] {
        let (first, end) = entry.strands;
        let range = usize::try_from(first).unwrap_or(0)..usize::try_from(end).unwrap_or(0);
        self.arena.get(range).unwrap_or(&[])
    }

    /// Combines until done (`true`) or the budget is spent.
    pub(super) fn step(
        &mut self,
        plan: &Plan,
        strands: &Strands,
        rig: &Rig,
        even_only: bool,
        budget: &mut u64,
    ) -> Result<bool, Code> {
        while *budget > 0 {
            let Some(lists) = lists(plan, strands, self.deal) else { return Ok(true) };
            *budget = budget.saturating_sub(10);
            if !self.turn(&lists) {
                self.deal = self.deal.saturating_add(1);
                self.chosen.clear();
                continue;
            }
            self.take(plan, &lists, rig, even_only)?;
        }
        Ok(false)
    }

    /// Steps to the next choice of strands. Outputs of one kind with one portion choose
    /// in an order that never falls.
    fn turn(&mut self, lists: &[List<'_>]) -> bool {
        if self.chosen.is_empty() {
            self.chosen = vec![0; lists.len()];
            return lists.iter().all(|list| !list.strands.is_empty());
        }
        let lengths: Vec<usize> = lists.iter().map(|list| list.strands.len()).collect();
        let likes: Vec<Option<usize>> = lists.iter().map(|list| list.like).collect();
        next_choice(&mut self.chosen, &lengths, &likes)
    }

    fn take(
        &mut self,
        plan: &Plan,
        lists: &[List<'_>],
        rig: &Rig,
        even_only: bool,
    ) -> Result<(), Code> {
        let pick = |(list, choice): (&List<'_>, &usize)| list.strands.get(*choice).copied();
        let picked: Option<Vec<Strand>> = lists.iter().zip(&self.chosen).map(pick).collect();
        let (Some(picked), Some(deal)) = (picked, plan.deals.get(self.deal)) else { return Ok(()) };
        let mut even = picked.iter().all(|strand| strand.even);
        for (at, list) in lists.iter().enumerate() {
            // Outputs of one kind carry equal loads and equal power.
            let same = |other: usize| {
                let load = |at: usize| picked.get(at).map(|strand: &Strand| strand.load);
                let rating = |at: usize| plan.portion(self.deal, at).map(|p| p.rating(rig));
                load(other) == load(at) && rating(other) == rating(at)
            };
            even = even && list.same_kind.is_none_or(same);
        }
        if even_only && !even {
            return Ok(());
        }
        let count = count(lists, &self.chosen, &picked).ok_or(Code::TooMany)?;
        self.total = self.total.saturating_add(count);
        if self.total > MOST_CONFIGURATIONS {
            return Err(Code::TooMany);
        }
        let target = picked.iter().map(|strand| strand.target).sum();
        self.tally(&picked, count, even, target);
        let first = u32::try_from(self.arena.len()).map_err(|_| Code::TooMuchWork)?;
        for (list, choice) in lists.iter().zip(&self.chosen) {
            let number = u32::try_from(list.first.saturating_add(*choice));
            self.arena.push(number.map_err(|_| Code::TooMuchWork)?);
        }
        let end = u32::try_from(self.arena.len()).map_err(|_| Code::TooMuchWork)?;
        let lowest_load = picked.iter().map(|strand| strand.load).min().unwrap_or(Ratio::ONE);
        self.entries.push(Entry {
            deal: u32::try_from(self.deal).unwrap_or(u32::MAX),
            strands: (first, end),
            count: u32::try_from(count).unwrap_or(u32::MAX),
            before: 0,
            fit: picked.iter().map(|strand| strand.fit).max().unwrap_or(0),
            even,
            unlike_in_series: picked.iter().any(|strand| strand.unlike_in_series),
            joined: !deal.split && picked.iter().all(|strand| strand.joined),
            target,
            lowest_load,
            runs: picked.iter().map(|strand| strand.runs).sum(),
        });
        Ok(())
    }

    fn tally(&mut self, picked: &[Strand], count: u64, even: bool, target: Option<f64>) {
        for (at, strand) in picked.iter().enumerate() {
            let load = strand.load;
            let new = || LoadTally {
                load: Ohms::new(load),
                configurations: 0,
                verdict: Verdict::TooLow,
                even: false,
                target: None,
            };
            let tally = self.tallies.entry(load).or_insert_with(new);
            tally.verdict = tally.verdict.min(strand.verdict);
            // A configuration counts once for each load, however many outputs have it.
            if !picked.iter().take(at).any(|earlier| earlier.load == load) {
                tally.configurations = tally.configurations.saturating_add(count);
                tally.even |= even;
                if target > tally.target {
                    tally.target = target;
                }
            }
        }
    }
}

/// The next choice of one from each list, the last list turning fastest. A list that is
/// like an earlier one never chooses before it: their order does not matter.
pub(super) fn next_choice(
    chosen: &mut [usize],
    lengths: &[usize],
    likes: &[Option<usize>],
) -> bool {
    for at in (0..chosen.len()).rev() {
        let Some(next) = chosen.get(at).and_then(|choice| choice.checked_add(1)) else { break };
        if lengths.get(at).is_none_or(|length| next >= *length) {
            continue;
        }
        if let Some(choice) = chosen.get_mut(at) {
            *choice = next;
        }
        for later in at.saturating_add(1)..chosen.len() {
            let like = likes.get(later).copied().flatten();
            let least = like.and_then(|like| chosen.get(like)).copied().unwrap_or(0);
            if let Some(choice) = chosen.get_mut(later) {
                *choice = least;
            }
        }
        return true;
    }
    false
}

/// The strands one output may take.
struct List<'a> {
    /// The number of the first of them.
    first: usize,
    strands: &'a [Strand],
    /// The output before it of the same kind.
    same_kind: Option<usize>,
    /// The same, where it also has the same portion.
    like: Option<usize>,
}

fn lists<'a>(plan: &Plan, strands: &'a Strands, deal: usize) -> Option<Vec<List<'a>>> {
    let portions = plan.portions_of(deal)?;
    let mut lists = Vec::new();
    for (at, portion) in portions.iter().enumerate() {
        let kind = plan.kind(deal, at)?;
        let same_kind = (0..at).rev().find(|earlier| plan.kind(deal, *earlier) == Some(kind));
        let like = same_kind.filter(|earlier| portions.get(*earlier) == Some(portion));
        let portion = usize::try_from(*portion).ok()?;
        let (first, strands) = strands.of(portion, kind);
        lists.push(List { first, strands, same_kind, like });
    }
    Some(lists)
}

/// Configurations that a choice of strands stands for.
fn count(lists: &[List<'_>], chosen: &[usize], picked: &[Strand]) -> Option<u64> {
    let mut product: u128 = 1;
    for (at, strand) in picked.iter().enumerate() {
        let repeats_it = |later: usize| {
            lists.get(later).is_some_and(|list| list.like == Some(at))
                && chosen.get(later) == chosen.get(at)
        };
        let after = (at.saturating_add(1)..lists.len()).any(repeats_it);
        if after {
            // Counted with the last of its run.
            continue;
        }
        let mut repeats: u128 = 1;
        let mut back = at;
        while let Some(like) = lists.get(back).and_then(|list| list.like)
            && chosen.get(like) == chosen.get(at)
        {
            repeats = repeats.saturating_add(1);
            back = like;
        }
        product = product.checked_mul(multichoose(u128::from(strand.count), repeats)?)?;
    }
    u64::try_from(product).ok()
}
