//! Looks for the slowest request with both filters on, over rigs of up to 32 coils.

use crate::cases::{Bounds, Case};
use crate::measure::timed;
use coilwright_solver::bounds::MOST_COILS;
use proof::rigs::{Drivers, Filters, drivers, written};
use std::process::ExitCode;

/// How many rigs are carried from round to round, and how often each is changed.
const KEPT: usize = 12;
const CHANGES: usize = 24;
const ROUNDS: usize = 12;

/// Numbers that are the same on every machine.
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 33) as usize % most
    }

    fn group(&mut self) -> Drivers {
        let ohms = ["4", "2", "8", "1", "16", "3", "6", "4/3"][self.below(8)];
        let coils = [1, 2, 4][self.below(3)];
        let mut group = drivers(1 + self.below(16) as u32, coils, ohms);
        // Ratings that let coils of different ohms be even together, and others.
        group.watts = Some([100.0, 200.0, 400.0, 50.0, 300.0][self.below(5)]);
        group
    }

    fn changed(&mut self, rig: &[Drivers]) -> Vec<Drivers> {
        let mut rig = rig.to_vec();
        let at = self.below(rig.len());
        match self.below(6) {
            0 => rig.push(self.group()),
            1 if rig.len() > 1 => drop(rig.remove(at)),
            2 => rig[at].count = (rig[at].count % 16) + 1,
            3 => rig[at].count = rig[at].count.saturating_sub(1).max(1),
            4 => {
                let like = rig[at].clone();
                rig.push(Drivers { count: 1 + self.below(4) as u32, ..like });
            }
            _ => rig[at] = self.group(),
        }
        rig
    }
}

fn within_bounds(rig: &[Drivers]) -> bool {
    let coils: u32 = rig.iter().map(|group| group.count * group.coils).sum();
    (1..=8).contains(&rig.len()) && coils <= MOST_COILS
}

fn cost(rig: &[Drivers]) -> f64 {
    let case = Case {
        name: "",
        rig: rig.to_vec(),
        channels: &[],
        filters: Filters::ON,
        written: 0,
        bounds: Bounds::default(),
    };
    timed(&case, 2).0
}

pub(crate) fn run() -> ExitCode {
    let mut dice = Dice(0x2545_F491_4F6C_DD1D);
    let mut found: Vec<(f64, Vec<Drivers>)> = Vec::new();
    for coils in [1, 2, 4] {
        for count in 1..=16 {
            let rig = vec![drivers(count, coils, "4")];
            if within_bounds(&rig) {
                found.push((cost(&rig), rig));
            }
        }
    }
    for round in 0..ROUNDS {
        found.sort_by(|a, b| b.0.total_cmp(&a.0));
        found.dedup_by(|a, b| a.1 == b.1);
        let parents: Vec<_> = found.iter().take(KEPT).map(|(_, rig)| rig.clone()).collect();
        println!("round {round}: {:.1} ms, {}", found[0].0, written(&parents[0]));
        for parent in &parents {
            for _ in 0..CHANGES {
                let rig = dice.changed(parent);
                let new = within_bounds(&rig) && found.iter().all(|(_, other)| *other != rig);
                if new {
                    found.push((cost(&rig), rig));
                }
            }
        }
    }
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    println!("\nthe slowest of {} rigs with both filters on:", found.len());
    for (milliseconds, rig) in found.iter().take(8) {
        println!("{milliseconds:8.1} ms  {}", written(rig));
    }
    ExitCode::SUCCESS
}
