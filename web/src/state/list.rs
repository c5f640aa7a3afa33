//! The list as it is shown: which entries, in which order, a page of them at a time.

use coilwright_solver::answer::{Answer, Configuration};
use coilwright_solver::judge::Verdict;
use coilwright_solver::ohms::Ohms;

/// The most entries in the page at once.
pub const PAGE: usize = 25;

/// The order of the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Order {
    /// As ranked.
    Best,
    /// By load, the highest first: rungs of a ladder.
    Load,
}

impl Order {
    /// Its name in links.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Best => "best",
            Self::Load => "load",
        }
    }

    /// The order of a name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        [Self::Best, Self::Load].into_iter().find(|order| order.name() == name)
    }

    /// The order in use: rungs while they all fit on one page, ranks beyond.
    #[must_use]
    pub fn in_use(chosen: Option<Self>, entries: usize) -> Self {
        chosen.unwrap_or(if entries <= PAGE { Self::Load } else { Self::Best })
    }
}

/// Entries with the same loads on their outputs.
#[derive(Clone, Debug, PartialEq)]
pub struct Rung {
    /// The way its entries use the amplifier, numbered as they first rank; by rank, where
    /// ways stand mixed, 0.
    pub way: usize,
    /// The distinct loads of the outputs, the highest first.
    pub loads: Vec<Ohms>,
    /// The best verdict among its entries.
    pub verdict: Verdict,
    /// Whether any of its entries is even.
    pub even: bool,
    /// Its entries, as places in the answer's list.
    pub entries: Vec<usize>,
}

fn loads(configuration: &Configuration) -> Vec<Ohms> {
    let mut loads: Vec<Ohms> = configuration.outputs.iter().map(|output| output.load).collect();
    loads.sort_unstable_by(|a, b| b.cmp(a));
    loads.dedup();
    loads
}

/// The channels of each output: what tells one way from another.
fn channels(configuration: &Configuration) -> Vec<&[u32]> {
    configuration.outputs.iter().map(|output| output.channels.as_slice()).collect()
}

/// How many ways to use the amplifier there are among the entries.
#[must_use]
pub fn ways(answer: &Answer) -> usize {
    let mut ways: Vec<Vec<&[u32]>> = Vec::new();
    for configuration in &answer.configurations {
        let way = channels(configuration);
        if !ways.contains(&way) {
            ways.push(way);
        }
    }
    ways.len()
}

/// All rungs of an answer in an order; entries within a rung are as ranked. By load the
/// ways to use the amplifier stand one after the other.
#[must_use]
pub fn rungs(answer: &Answer, order: Order) -> Vec<Rung> {
    let mut ways: Vec<Vec<&[u32]>> = Vec::new();
    let mut rungs: Vec<Rung> = Vec::new();
    for (i, configuration) in answer.configurations.iter().enumerate() {
        let loads = loads(configuration);
        let way = match order {
            Order::Best => 0,
            Order::Load => {
                let this = channels(configuration);
                ways.iter().position(|way| *way == this).unwrap_or_else(|| {
                    ways.push(this);
                    ways.len() - 1
                })
            }
        };
        let at =
            match order {
                // Nearly always among the last ones: equal loads rank close together.
                Order::Best => rungs.iter().rposition(|rung| rung.loads == loads),
                Order::Load => Some(rungs.partition_point(|rung| {
                    rung.way < way || rung.way == way && rung.loads > loads
                })),
            };
        let at = at.unwrap_or(rungs.len());
        match rungs.get_mut(at).filter(|rung| rung.way == way && rung.loads == loads) {
            Some(rung) => {
                rung.verdict = rung.verdict.min(configuration.verdict);
                rung.even |= configuration.even;
                rung.entries.push(i);
            }
            None => {
                let (verdict, even) = (configuration.verdict, configuration.even);
                rungs.insert(at, Rung { way, loads, verdict, even, entries: vec![i] });
            }
        }
    }
    rungs
}

/// How many pages so many entries take; one where there are none.
#[must_use]
pub fn pages(entries: usize) -> usize {
    entries.div_ceil(PAGE).max(1)
}

/// One page of the rungs; a rung that goes over its end goes on upon the next.
#[must_use]
pub fn page(rungs: &[Rung], page: usize) -> Vec<Rung> {
    let (from, to) = (page * PAGE, (page + 1) * PAGE);
    let mut at = 0;
    let mut shown = Vec::new();
    for rung in rungs {
        let here = at..at + rung.entries.len();
        at = here.end;
        let first = from.max(here.start);
        let last = to.min(here.end);
        if first < last {
            let inside = first - here.start..last - here.start;
            shown.push(Rung {
                entries: rung.entries.get(inside).unwrap_or_default().to_vec(),
                ..rung.clone()
            });
        }
    }
    shown
}

/// Before which rungs a least load stands: in each way, where its rungs go from high to
/// low and those too low stand together at the end.
#[must_use]
pub fn least_lines(rungs: &[Rung]) -> Vec<usize> {
    let low = |rung: &Rung| matches!(rung.verdict, Verdict::TooLow | Verdict::BelowStated);
    let mut lines = Vec::new();
    let mut from = 0;
    for way in rungs.chunk_by(|a, b| a.way == b.way) {
        let first = way.iter().position(low);
        lines.extend(first.filter(|at| way.iter().skip(*at).all(low)).map(|at| from + at));
        from += way.len();
    }
    lines
}

/// The entry with a key.
#[must_use]
pub fn find<'a>(answer: &'a Answer, key: &str) -> Option<&'a Configuration> {
    answer.configurations.iter().find(|configuration| configuration.key() == key)
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use coilwright_solver::answer::{Output, Way};
    use coilwright_solver::ohms::Ratio;

    /// A made answer: one entry for each load, written as so many coils in series.
    pub(crate) fn answer(loads: &[(u128, Verdict)]) -> Answer {
        let configurations = loads.iter().enumerate().map(|(i, (load, verdict))| {
            let network = format!("1a + {}a", i + 2).parse().unwrap();
            Configuration {
                rank: u32::try_from(i + 1).unwrap(),
                outputs: vec![Output {
                    way: Some(Way::Apart),
                    channels: vec![1],
                    network,
                    load: Ohms::new(Ratio::new(*load, 2).unwrap()),
                    verdict: *verdict,
                    available: None,
                    usable_watts: None,
                    target_watts: None,
                    overheats: None,
                }],
                verdict: *verdict,
                even: true,
                joined_at_driver: true,
                split_driver: None,
                driver_shares: Vec::new(),
                coil_shares: Vec::new(),
                runs: 2,
            }
        });
        let configurations: Vec<Configuration> = configurations.collect();
        Answer {
            total: Some(configurations.len() as u64),
            before_filters: Some(configurations.len() as u64),
            configurations,
            ..Answer::default()
        }
    }

    use Verdict::{Fits, TooLow};

    #[test]
    fn rungs_gather_equal_loads_in_either_order() {
        let answer = answer(&[(4, Fits), (16, Fits), (4, Fits), (1, TooLow)]);
        let entries = |order| -> Vec<Vec<usize>> {
            let rungs = rungs(&answer, order);
            rungs.into_iter().map(|rung| rung.entries).collect()
        };
        assert_eq!(entries(Order::Best), [vec![0, 2], vec![1], vec![3]]);
        assert_eq!(entries(Order::Load), [vec![1], vec![0, 2], vec![3]]);
        assert_eq!(least_lines(&rungs(&answer, Order::Load)), [2]);
    }

    #[test]
    fn by_load_the_ways_stand_one_after_the_other_and_by_rank_they_mix() {
        let mut answer = answer(&[(8, Fits), (4, Fits), (8, Fits), (2, TooLow), (1, TooLow)]);
        for bridged in [0, 2, 3] {
            answer.configurations[bridged].outputs[0].channels = vec![1, 2];
        }
        assert_eq!(ways(&answer), 2);
        let by_load: Vec<(usize, Vec<usize>)> =
            rungs(&answer, Order::Load).into_iter().map(|r| (r.way, r.entries)).collect();
        let want = [(0, vec![0, 2]), (0, vec![3]), (1, vec![1]), (1, vec![4])];
        assert_eq!(by_load, want);
        // Each way has a least load of its own.
        assert_eq!(least_lines(&rungs(&answer, Order::Load)), [1, 3]);
        assert_eq!(rungs(&answer, Order::Best).len(), 4);
    }

    #[test]
    fn the_least_load_is_drawn_only_where_one_line_parts_the_rungs() {
        let rungs = |loads: &[(u128, Verdict)]| rungs(&answer(loads), Order::Best);
        let none: [usize; 0] = [];
        assert_eq!(least_lines(&rungs(&[(8, Fits), (4, Fits)])), none);
        assert_eq!(least_lines(&rungs(&[(8, TooLow), (4, Fits)])), none);
        assert_eq!(least_lines(&rungs(&[(8, TooLow), (4, TooLow)])), [0]);
        assert_eq!(least_lines(&[]), none);
    }

    #[test]
    fn pages_hold_every_entry_once_and_no_more_than_they_may() {
        let loads: Vec<(u128, Verdict)> = (0..130).map(|i| (1 + i / 7, Fits)).collect();
        let answer = answer(&loads);
        let all = rungs(&answer, Order::Load);
        let mut seen = Vec::new();
        for n in 0..pages(130) {
            let shown = page(&all, n);
            let entries: Vec<usize> = shown.into_iter().flat_map(|rung| rung.entries).collect();
            assert!(!entries.is_empty() && entries.len() <= PAGE);
            seen.extend(entries);
        }
        let whole: Vec<usize> = all.into_iter().flat_map(|rung| rung.entries).collect();
        assert_eq!(seen, whole);
        assert_eq!(pages(0), 1);
        assert_eq!(page(&[], 0), []);
    }

    #[test]
    fn few_entries_are_a_ladder_and_many_are_ranked() {
        assert_eq!(Order::in_use(None, PAGE), Order::Load);
        assert_eq!(Order::in_use(None, PAGE + 1), Order::Best);
        assert_eq!(Order::in_use(Some(Order::Best), 3), Order::Best);
    }
}
