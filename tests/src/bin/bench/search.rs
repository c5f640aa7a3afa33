//! Looks for the requests that take longest, over everything that the table allows:
//! several amplifiers of unlike channels, bridges, many groups, coils left out, both
//! filters.

use coilwright_solver::bounds::MOST_COILS;
use proof::hardest::{Asked, Kind, known, taken};
use proof::rigs::Filters;
use std::process::ExitCode;
use std::time::Instant;

/// How many requests are carried from round to round, and how often each is changed.
const KEPT: usize = 12;
const CHANGES: usize = 12;
const ROUNDS: usize = 12;

const OHMS: [&str; 8] = ["4", "2", "8", "1", "16", "3", "6", "4/3"];
/// Ratings that let coils of different ohms be even together, others, and none.
const WATTS: [Option<f64>; 6] =
    [Some(100.0), Some(200.0), Some(400.0), Some(50.0), Some(300.0), None];

/// Numbers that are the same on every machine.
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 33) as usize % most
    }

    fn kind(&mut self) -> Kind {
        let coils = [1, 2, 4][self.below(3)];
        let unused = if self.below(6) == 0 { self.below(coils as usize) as u32 } else { 0 };
        let count = 1 + self.below(16) as u32;
        Kind { count, coils, unused, ohms: OHMS[self.below(8)], watts: WATTS[self.below(6)] }
    }

    /// The channels of an amplifier, in so many kinds, and its bridges.
    fn amplifier(&mut self, asked: &mut Asked) {
        let (length, kinds) = (1 + self.below(8), 1 + self.below(8));
        asked.amplifiers = self.below(5) as u32;
        asked.channels = (0..length).map(|_| self.below(kinds) as u32).collect();
        let pairs = (0..length as u32 / 2).map(|pair| [2 * pair + 1, 2 * pair + 2]);
        asked.bridges = pairs.filter(|_| self.below(3) == 0).collect();
    }

    fn changed(&mut self, asked: &Asked) -> Asked {
        let mut asked = asked.clone();
        let at = self.below(asked.groups.len());
        match self.below(10) {
            0 => asked.groups.push(self.kind()),
            1 if asked.groups.len() > 1 => drop(asked.groups.remove(at)),
            2 => asked.groups[at].count = asked.groups[at].count % 16 + 1,
            3 => asked.groups[at].count = asked.groups[at].count.saturating_sub(1).max(1),
            4 => {
                let like = asked.groups[at];
                asked.groups.push(Kind { count: 1 + self.below(4) as u32, ..like });
            }
            5 => asked.groups[at] = self.kind(),
            6 => self.amplifier(&mut asked),
            7 => asked.amplifiers = self.below(5) as u32,
            8 if !asked.channels.is_empty() => {
                let channel = self.below(asked.channels.len());
                asked.channels[channel] = self.below(8) as u32;
            }
            _ => asked.filters = Filters::ALL[self.below(4)],
        }
        asked
    }
}

fn within_bounds(asked: &Asked) -> bool {
    let coils: u32 = asked.groups.iter().map(|kind| kind.count * (kind.coils - kind.unused)).sum();
    (1..=8).contains(&asked.groups.len()) && coils <= MOST_COILS
}

struct Found {
    milliseconds: f64,
    steps: u64,
    largest: u64,
    outcome: String,
    asked: Asked,
}

fn found(asked: Asked) -> Option<Found> {
    let request = asked.request()?;
    let start = Instant::now();
    let taken = taken(request);
    let milliseconds = start.elapsed().as_secs_f64() * 1e3;
    let outcome = taken.outcome();
    Some(Found { milliseconds, steps: taken.steps, largest: taken.largest, outcome, asked })
}

pub(crate) fn run() -> ExitCode {
    let mut dice = Dice(0x2545_F491_4F6C_DD1D);
    let mut all: Vec<Found> = known().into_iter().filter_map(|(_, asked)| found(asked)).collect();
    for round in 0..ROUNDS {
        all.sort_by(|a, b| b.milliseconds.total_cmp(&a.milliseconds));
        println!("round {round}: {:.1} ms, {}", all[0].milliseconds, all[0].asked);
        let parents: Vec<Asked> = all.iter().take(KEPT).map(|found| found.asked.clone()).collect();
        for parent in &parents {
            for _ in 0..CHANGES {
                let asked = dice.changed(parent);
                if within_bounds(&asked) && all.iter().all(|other| other.asked != asked) {
                    all.extend(found(asked));
                }
            }
        }
    }
    all.sort_by(|a, b| b.milliseconds.total_cmp(&a.milliseconds));
    println!("\nthe slowest of {} requests (steps, the most of them at once):", all.len());
    for Found { milliseconds, steps, largest, outcome, asked } in all.iter().take(10) {
        println!("{milliseconds:8.1} ms {steps:9} {largest:7} {outcome:14} {asked}");
    }
    all.sort_by_key(|found| std::cmp::Reverse(found.largest));
    println!("the most steps at once:");
    for Found { milliseconds, steps, largest, outcome, asked } in all.iter().take(5) {
        println!("{milliseconds:8.1} ms {steps:9} {largest:7} {outcome:14} {asked}");
    }
    ExitCode::SUCCESS
}
