//! Every choice of a strand for each output of each deal: the stretches of the list.

use super::LoadTally;
use super::plan::Plan;
use super::strands::Strand;
use crate::bounds::MOST_CONFIGURATIONS;
use crate::judge::Verdict;
use crate::names::Names;
use crate::ohms::{Ohms, Ratio};
use crate::problem::Code;
use crate::rig::Rig;
use crate::short;

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

    /// How many classes of the pair begun last are judged.
    pub(super) fn judged(&self) -> usize {
        let first = self.pairs.last().map_or(0, |pair| pair.2);
        let last = self.all.last().filter(|_| self.all.len() > first);
        last.map_or(0, |strand| (strand.class as usize).saturating_add(1))
    }

    /// The strands of a pair: the number of the first among all, and how many they are.
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

    /// The portion of a strand and the kind of output that it hangs on.
    pub(super) fn place(&self, number: u32) -> Option<(usize, usize)> {
        let next = self.pairs.partition_point(|pair| pair.2 <= number as usize);
        let pair = next.checked_sub(1).and_then(|at| self.pairs.get(at))?;
        Some((pair.0, pair.1))
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
    /// What each output of the deal at work may take; empty before the first choice.
    lists: Vec<List>,
    chosen: Vec<usize>,
    pub(super) entries: Vec<Entry>,
    /// The strands of all entries by number, entry by entry.
    pub(super) arena: Vec<u32>,
    /// The loads met, numbered, and their tallies.
    loads: Names,
    tallies: Vec<LoadTally>,
    pub(super) total: u64,
}

/// The strands one output may take.
#[derive(Clone, Debug)]
struct List {
    /// The number of the first of them, and how many they are.
    first: usize,
    count: usize,
    /// The output before it of the same kind.
    same_kind: Option<usize>,
    /// The same, where it also has the same portion.
    like: Option<usize>,
    /// The rating of what hangs on the output.
    rating: Option<Ratio>,
    /// How many outputs up to it that are alike have the same choice.
    repeats: u64,
}

impl Combining {
    /// The strand of each output of an entry, by number.
    pub(super) fn strands_of(&self, entry: &Entry) -> &[u32] {
        let (first, end) = entry.strands;
        self.arena.get(first as usize..end as usize).unwrap_or(&[])
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
            *budget = budget.saturating_sub(10);
            let found = if self.lists.is_empty() {
                if self.begin(plan, strands, rig).is_none() {
                    return Ok(true);
                }
                self.lists.iter().all(|list| list.count > 0)
            } else {
                self.turn()
            };
            if found {
                self.take(plan, strands, even_only)?;
            } else {
                self.deal = self.deal.saturating_add(1);
                self.lists.clear();
            }
        }
        Ok(false)
    }

    /// Lines up what the outputs of a deal may take; `None` after the last deal.
    fn begin(&mut self, plan: &Plan, strands: &Strands, rig: &Rig) -> Option<()> {
        let portions = plan.portions_of(self.deal)?;
        self.chosen.clear();
        for (at, portion) in portions.iter().enumerate() {
            let kind = plan.kind(self.deal, at)?;
            let mut same_kind = None;
            for earlier in 0..at {
                if plan.kind(self.deal, earlier) == Some(kind) {
                    same_kind = Some(earlier);
                }
            }
            let like = same_kind.filter(|earlier| portions.get(*earlier) == Some(portion));
            let (first, count) = strands.of(*portion as usize, kind);
            let rating = plan.portion(self.deal, at)?.rating(rig);
            self.lists.push(List { first, count, same_kind, like, rating, repeats: 1 });
            self.chosen.push(0);
        }
        // The choices of one output are foretold; doubling would take twice the memory.
        if let [list] = self.lists.as_slice() {
            self.entries.reserve_exact(list.count);
            self.arena.reserve_exact(list.count);
        }
        Some(())
    }

    /// Steps to the next choice of strands. Outputs of one kind with one portion choose
    /// in an order that never falls.
    fn turn(&mut self) -> bool {
        let lengths: Vec<usize> = self.lists.iter().map(|list| list.count).collect();
        let likes: Vec<Option<usize>> = self.lists.iter().map(|list| list.like).collect();
        next_choice(&mut self.chosen, &lengths, &likes)
    }

    /// Takes the choice as an entry, if it passes the filter.
    fn take(&mut self, plan: &Plan, strands: &Strands, even_only: bool) -> Result<(), Code> {
        let too_much = |_| Code::TooMuchWork;
        let first = self.arena.len();
        let mut entry = Entry {
            deal: u32::try_from(self.deal).map_err(too_much)?,
            strands: (u32::try_from(first).map_err(too_much)?, 0),
            count: 0,
            before: 0,
            fit: 0,
            even: true,
            unlike_in_series: false,
            joined: plan.deals.get(self.deal).is_some_and(|deal| !deal.split),
            target: Some(0.0),
            lowest_load: Ratio::ONE,
            runs: 0,
        };
        let mut count = Some(1_u64);
        for at in 0..self.lists.len() {
            let (Some(list), Some(choice)) = (self.lists.get(at), self.chosen.get(at)) else {
                continue;
            };
            let Some(strand) = strands.all.get(list.first.saturating_add(*choice)) else {
                continue;
            };
            entry.fit = entry.fit.max(strand.fit);
            entry.even &= strand.even;
            entry.unlike_in_series |= strand.unlike_in_series;
            entry.joined &= strand.joined;
            entry.target = match (entry.target, strand.target) {
                (Some(sum), Some(watts)) => Some(sum + watts),
                _ => None,
            };
            entry.runs = entry.runs.saturating_add(strand.runs);
            if at == 0 || strand.load < entry.lowest_load {
                entry.lowest_load = strand.load;
            }
            // Outputs of one kind carry equal loads and equal power.
            if let Some(other) = list.same_kind {
                let rating = self.lists.get(other).and_then(|list| list.rating);
                let number = self.arena.get(first.saturating_add(other));
                let load = number.and_then(|n| strands.get(*n)).map(|strand| strand.load);
                entry.even &= rating == list.rating && load == Some(strand.load);
            }
            // Outputs that are alike and choose alike may be exchanged: in so many ways,
            // taken one more each time, they take networks of the strand.
            let before = list.like.filter(|like| self.chosen.get(*like) == Some(choice));
            let before = before.and_then(|like| self.lists.get(like)).map_or(0, |l| l.repeats);
            let repeats = before.saturating_add(1);
            count = count
                .and_then(|count| count.checked_mul(u64::from(strand.count).checked_add(before)?))
                .and_then(|count| count.checked_div(repeats));
            let number = u32::try_from(list.first.saturating_add(*choice)).map_err(too_much)?;
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
            return Err(Code::TooMany);
        }
        entry.count = u32::try_from(count).unwrap_or(u32::MAX);
        entry.strands.1 = u32::try_from(self.arena.len()).map_err(too_much)?;
        self.tally(strands, &entry);
        self.entries.push(entry);
        Ok(())
    }

    fn tally(&mut self, strands: &Strands, entry: &Entry) {
        let (first, end) = entry.strands;
        for at in first..end {
            let number = self.arena.get(at as usize);
            let Some(strand) = number.and_then(|number| strands.get(*number)) else { continue };
            let (number, new) = self.loads.number(&strand.load.words());
            if new {
                short::room(&mut self.tallies);
                self.tallies.push(LoadTally {
                    load: Ohms::new(strand.load),
                    configurations: 0,
                    verdict: Verdict::TooLow,
                    even: false,
                    target: None,
                });
            }
            let earlier = self.arena.get(first as usize..at as usize).unwrap_or(&[]);
            let has = |n: &u32| strands.get(*n).is_some_and(|other| other.load == strand.load);
            let again = earlier.iter().any(has);
            let Some(tally) = self.tallies.get_mut(number as usize) else { continue };
            tally.verdict = tally.verdict.min(strand.verdict);
            // A configuration counts once for each load, however many outputs have it.
            if !again {
                tally.configurations = tally.configurations.saturating_add(entry.count.into());
                tally.even |= entry.even;
                if entry.target > tally.target {
                    tally.target = entry.target;
                }
            }
        }
    }

    /// The tallies in rising order of load.
    pub(super) fn loads(&mut self) -> Vec<LoadTally> {
        // There can be as many as configurations: what is done with goes first.
        self.loads = Names::default();
        let tallies = core::mem::take(&mut self.tallies);
        let mut order: Vec<(u64, u32)> = Vec::with_capacity(tallies.len());
        for (number, tally) in (0_u32..).zip(&tallies) {
            order.push((tally.load.to_f64().to_bits(), number));
        }
        order.sort_unstable();
        let tally = |(_, number): &(u64, u32)| tallies.get(*number as usize).copied();
        let mut loads: Vec<LoadTally> = Vec::with_capacity(order.len());
        loads.extend(order.iter().filter_map(tally));
        // Loads may be closer than floats can tell.
        short::sort(&mut loads, |a, b| a.load.cmp(&b.load));
        loads
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
