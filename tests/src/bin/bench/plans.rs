//! What planning and drawing cost, and how much the order of tracks saves.

use coilwright_drawing::wired::{Crossings, Labels, crossings, wired};
use coilwright_solver::answer::one;
use coilwright_solver::rig::{BuildDraft, Cups};
use coilwright_solver::wiring::Plan;
use proof::rigs::{Filters, drivers, request};
use proof::told::Told;
use std::hint::black_box;
use std::time::Instant;

/// Drivers one after the other, each with its coils joined inside by a sign.
fn each(from: u32, to: u32, join: &str, inside: &str) -> String {
    let one = |n: u32| format!("({n}a{inside}{n}b)");
    (from..=to).map(one).collect::<Vec<_>>().join(join)
}

/// Prints a row for each rig and box. Crossings are counted, times are the least of ten.
pub(crate) fn print(told: &mut Told) {
    let four = |first: u32| format!("({})", each(first, first + 3, "||", "+"));
    let quad = |n: u32| format!("(({n}a+{n}b)||({n}c+{n}d))");
    let cases = [
        ("two duals, no box", 2, 2, Cups::None, each(1, 2, "||", "+")),
        ("two duals in parallel, one cup", 2, 2, Cups::One, "1a||1b||2a||2b".to_owned()),
        ("two duals across, a cup for each coil", 2, 2, Cups::Coil, "(1a||2a)+(1b||2b)".to_owned()),
        ("four duals, one cup", 4, 2, Cups::One, each(1, 4, "||", "+")),
        ("eight quads, no box", 8, 4, Cups::None, (1..=8).map(quad).collect::<Vec<_>>().join("||")),
        ("sixteen duals, one cup", 16, 2, Cups::One, [1, 5, 9, 13].map(four).join("+")),
    ];
    told.line("| plan | runs | crossings before | after | planned | drawn |");
    told.line("|---|--:|--:|--:|--:|--:|");
    for (name, count, coils, cups, key) in cases {
        let rig = request(&[drivers(count, coils, "4").rated(400.0)], None, Filters::OFF).rig;
        let build = BuildDraft { cups, ..BuildDraft::default() }.check(&rig).unwrap();
        let configuration = one(&rig, &key).unwrap();
        let plan = Plan::of(&rig, &build, &configuration).unwrap();
        let labels = Labels {
            drivers: (1..=count).map(|n| format!("driver {n}")).collect(),
            ..Labels::default()
        };
        let Crossings { before, after } = crossings(&plan).unwrap();
        let planned = least(|| {
            black_box(Plan::of(black_box(&rig), &build, &configuration)).unwrap();
        });
        let drawn = least(|| {
            black_box(wired(black_box(&plan), &labels, &[])).unwrap();
        });
        told.line(format_args!(
            "| {name} | {} | {before} | {after} | {planned:.2} ms | {drawn:.2} ms |",
            plan.runs.len()
        ));
    }
}

fn least(work: impl Fn()) -> f64 {
    let once = || {
        let start = Instant::now();
        work();
        start.elapsed().as_secs_f64() * 1e3
    };
    (0..10).map(|_| once()).fold(f64::MAX, f64::min)
}
