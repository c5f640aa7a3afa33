//! What the solver costs: instructions, time and memory, natively and in wasm.
//!
//! `bench` measures the cases and ends with failure where one is over its bounds, then all
//! else; `bench solver` the cases alone, `bench plans` plans, `bench finding` of how faults are found, `bench policy`
//! of how near that is to the best; `bench search` looks for the slowest requests of all
//! that the table allows. Instructions
//! repeat exactly from run to run; times are the least of several, and stand beside a
//! fixed loop so that two machines can be compared.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a measurement stops at the first surprise"
)]

mod cases;
mod draw;
mod finding;
mod measure;
mod plans;
mod policy;
mod search;
mod wasm;

use cases::{Bounds, Case, cases};
use proof::told::{FINDING, PLANS, POLICY, SOLVER, Told, counted};
use std::process::ExitCode;

/// Measures, tells and keeps.
fn kept(place: (&str, &str), print: impl FnOnce(&mut Told)) {
    println!();
    let mut told = Told::default();
    print(&mut told);
    told.keep(place);
}

fn plans() {
    kept(PLANS, plans::print);
}

fn finding() {
    kept(FINDING, |told| finding::print(5000, told));
}

fn policy() {
    kept(POLICY, policy::print);
}

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    match words[..] {
        [] => {
            let within = table();
            plans();
            finding();
            policy();
            within
        }
        ["solver"] => table(),
        ["plans"] => {
            plans();
            ExitCode::SUCCESS
        }
        ["finding"] => {
            finding();
            ExitCode::SUCCESS
        }
        // Fewer cases are for whoever looks now.
        ["finding", cases] => {
            finding::print(cases.parse().unwrap(), &mut Told::default());
            ExitCode::SUCCESS
        }
        ["policy"] => {
            policy();
            ExitCode::SUCCESS
        }
        ["search"] => search::run(),
        [measure::CHILD, case, times] => measure::child(case, times),
        _ => {
            eprintln!("bench takes nothing, `solver`, `plans`, `finding`, `policy` or `search`");
            ExitCode::FAILURE
        }
    }
}

/// A row of the table.
struct Row {
    case: Case,
    native: measure::Native,
    /// Milliseconds natively with the profile of what ships.
    as_it_ships: f64,
    wasm: wasm::Wasm,
    instructions: u64,
}

impl Row {
    fn each(&self) -> f64 {
        self.instructions as f64 / self.native.configurations.max(1) as f64
    }

    /// Wasm's time over the native time, equally optimised.
    fn ratio(&self) -> f64 {
        self.wasm.milliseconds / self.as_it_ships
    }

    /// What is over its bound, in words.
    fn over(&self) -> Vec<String> {
        let Bounds { each, milliseconds, megabytes, ratio } = self.case.bounds;
        let figures = [
            (self.each(), each, "instructions each"),
            (self.wasm.milliseconds, milliseconds, "ms in wasm"),
            (self.wasm.megabytes, megabytes, "MB in wasm"),
            (self.native.megabytes, megabytes, "MB"),
            (self.ratio(), ratio, "times native"),
        ];
        let over = figures.into_iter().filter_map(|(found, most, unit)| {
            let most = most.filter(|most| found > *most)?;
            Some(format!("{}: {found:.1} {unit}, at most {most}", self.case.name))
        });
        over.collect()
    }
}

fn table() -> ExitCode {
    let fixed = measure::fixed_loop();
    let shipped = measure::as_it_ships();
    let cases = cases();
    let wasm = wasm::measured(&cases);
    let mut told = Told::default();
    told.line(
        "| case | configurations | instructions | each | native | ÷ fixed loop | as it ships | wasm | wasm ÷ as it ships | memory | in wasm |"
    );
    told.line("|---|--:|--:|--:|--:|--:|--:|--:|--:|--:|--:|");
    let mut over = Vec::new();
    let mut instructions = String::new();
    for (i, (case, wasm)) in cases.into_iter().zip(wasm).enumerate() {
        let row = Row {
            native: measure::native(i),
            as_it_ships: measure::milliseconds(&shipped, i),
            instructions: measure::instructions(i),
            case,
            wasm,
        };
        told.line(format_args!(
            "| {} | {} | {:.1} M | {:.0} | {:.2} ms | {:.3} | {:.2} ms | {:.2} ms | {:.2} | {:.1} MB | {:.1} MB |",
            row.case.name,
            row.native.configurations,
            row.instructions as f64 / 1e6,
            row.each(),
            row.native.milliseconds,
            row.native.milliseconds / fixed,
            row.as_it_ships,
            row.wasm.milliseconds,
            row.ratio(),
            row.native.megabytes,
            row.wasm.megabytes,
        ));
        instructions
            .push_str(&format!("solver: {} = {} instructions\n", row.case.name, row.instructions));
        over.extend(row.over());
    }
    told.line(format_args!("\nThe fixed loop takes {fixed:.0} ms here."));
    for line in &over {
        told.line(format_args!("\nOver: {line}."));
    }
    told.keep(SOLVER);
    counted(&instructions);
    if over.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
