//! What the meter should read, against ngspice on what is placed, and against the trade.

use super::{near, spread};
use coilwright_solver::answer::one;
use coilwright_solver::meter::{Foretold, Known, LEADS, foretell};
use coilwright_solver::rig::{Build, BuildDraft, Cups, Draft, GroupDraft};
use coilwright_solver::wiring::{Act, Plan, Post, Sign, Stage};
use proof::nodal::Circuit;
use proof::rigs::{Filters, Stated, drivers, request};
use proof::spice::voltages;
use proof::tree::Leaf;
use proof::wired::{Bench, Case, end};
use std::collections::BTreeMap;
use std::path::Path;

/// What lies between the probes of a reading, from the steps before it alone: node 1 is
/// the + probe, node 0 the − probe. Coils that hang on one wire only carry nothing.
fn between(case: &Case, leaves: &[Leaf], at: usize) -> Circuit {
    let Act::Check(check) = case.plan.acts[at] else { panic!("step {at} reads nothing") };
    let mut bench = Bench::default();
    for sign in [Sign::Plus, Sign::Minus] {
        for cup in 0..case.plan.cups.len() as u8 {
            let on = |post| coilwright_solver::wiring::Terminal { post, sign };
            bench.tie(on(Post::CupInside(cup)), on(Post::CupOutside(cup)));
        }
        if check.tied {
            bench.tie_pairs(&case.plan, sign);
        }
    }
    for step in &case.plan.acts[..at] {
        if let (Act::Join { .. } | Act::Lay { .. }, Some(run)) = (step, step.run()) {
            let run = &case.plan.runs[run];
            bench.tie(run.from, run.to);
        }
    }
    let mut nodes = vec![bench.place_of(check.minus), bench.place_of(check.plus)];
    assert_ne!(nodes[0], nodes[1], "{}: a short at step {at}", case.name());
    let mut circuit = Circuit { nodes: 2, coils: Vec::new() };
    // Only what hangs together with both probes: a simulator wants no floating nodes.
    let mut left: Vec<Leaf> = leaves.to_vec();
    loop {
        let before = left.len();
        left.retain(|leaf| {
            let ends = [Sign::Plus, Sign::Minus].map(|sign| bench.place_of(end(*leaf, sign)));
            if !ends.iter().any(|one| nodes.contains(one)) {
                return true;
            }
            let [plus, minus] = ends.map(|one| {
                nodes.iter().position(|node| *node == one).unwrap_or_else(|| {
                    nodes.push(one);
                    nodes.len() - 1
                })
            });
            circuit.coils.push((*leaf, plus, minus));
            false
        });
        if left.len() == before {
            break;
        }
    }
    circuit.nodes = nodes.len();
    circuit
}

#[test]
fn every_foretold_resistance_is_what_ngspice_finds_between_the_probes() {
    let mut circuits = Vec::new();
    let (mut coils, mut tied) = (0, 0);
    let mut claims: Vec<(String, Foretold)> = Vec::new();
    for case in spread().iter().step_by(3) {
        let ohms = near(&case.drivers);
        let leaves: Vec<Leaf> = ohms.keys().copied().collect();
        let foretold = case.foretold();
        assert_eq!(foretold.len(), case.plan.acts.len());
        for (at, (step, foretold)) in case.plan.acts.iter().zip(&foretold).enumerate() {
            match (step, foretold) {
                (Act::Check(check), Some(foretold)) => {
                    circuits.push((between(case, &leaves, at), ohms.clone()));
                    let name = format!("{} {:?} at {at}", case.name(), check.stage);
                    claims.push((name, *foretold));
                }
                (Act::Check(_), None) => panic!("{}: nothing foretold at {at}", case.name()),
                (Act::Leads, Some(leads)) => {
                    assert_eq!([leads.low, leads.high], LEADS);
                }
                // Between pairs that are tied inside there is nothing but the leads.
                (Act::PowerOff, between) if case.plan.pairs.iter().any(|pairs| *pairs > 1) => {
                    let between = between.expect("tied pairs are read");
                    assert_eq!([between.low, between.high], LEADS);
                    tied += 1;
                }
                (Act::Coils { driver }, Some(alone)) => {
                    // One coil of the driver; those of a driver are alike.
                    let coil = ohms[&Leaf { driver: *driver, coil: 0 }];
                    let name = case.name();
                    assert!((alone.nominal - coil).abs() < 1e-9, "{name}: {alone:?}, {coil} Ω");
                    assert!((alone.low - 0.7 * coil).abs() < 1e-9 * coil, "{name}");
                    assert!((alone.high - 1.05 * coil - 0.5).abs() < 1e-9 * (coil + 1.0), "{name}");
                    coils += 1;
                }
                (_, None) => {}
                (step, Some(_)) => panic!("{step:?} reads nothing"),
            }
        }
    }
    assert!(circuits.len() > 900, "{} readings", circuits.len());
    assert!(coils > 600, "{coils} drivers read coil by coil");
    assert!(tied > 5, "{tied} plans with tied pairs");
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("readings");
    std::fs::create_dir_all(&folder).unwrap();
    let volts = voltages(&circuits, &folder);
    for ((name, foretold), volts) in claims.iter().zip(&volts) {
        let found = volts[1];
        assert!((foretold.nominal / found - 1.0).abs() < 1e-6, "{name}: {foretold:?}, {found} Ω");
        // A sound coil has 0.7 to 1.05 of its nominal impedance, leads up to 0.5 Ω.
        assert!((foretold.low - 0.7 * found).abs() < 1e-6 * found, "{name}");
        assert!((foretold.high - 1.05 * found - 0.5).abs() < 1e-6 * (found + 1.0), "{name}");
        assert!(foretold.low < foretold.expected && foretold.expected < foretold.high, "{name}");
    }
}

fn readings(cups: Cups, pairs: u32, key: &str) -> BTreeMap<(Stage, bool), Vec<Foretold>> {
    let mut amplifier = Stated { least: Some("1"), rated: &[("1", 1000.0)] }.mono();
    amplifier.channels[0].terminal_pairs = Some(pairs);
    let rig = request(&[drivers(2, 1, "2").rated(500.0)], Some(amplifier), Filters::OFF).rig;
    let build = BuildDraft { cups, ..BuildDraft::default() }.check(&rig).unwrap();
    let plan = Plan::of(&rig, &build, &one(&rig, key).unwrap()).unwrap();
    let mut told: BTreeMap<(Stage, bool), Vec<Foretold>> = BTreeMap::new();
    for (step, foretold) in plan.acts.iter().zip(foretell(&rig, &plan, &Known::default()).unwrap())
    {
        if let Act::Check(check) = step {
            told.entry((check.stage, check.tied)).or_default().extend(foretold);
        }
    }
    told
}

/// Common practice, no source: two single-coil 2 Ω drivers read 2.0 to 2.1 Ω each, 1.0 to
/// 1.1 Ω in parallel and 3.9 to 4.0 Ω in series at the cup. All of these are right.
#[test]
fn the_figures_of_the_trade_are_right_readings() {
    let right = |foretold: &Foretold, figures: [f64; 2]| {
        for figure in figures {
            assert!(foretold.low < figure && figure < foretold.high, "{figure} in {foretold:?}");
        }
    };
    let parallel = readings(Cups::One, 1, "1:1a||2a");
    right(&parallel[&(Stage::Cups, false)][0], [1.0, 1.1]);
    right(&parallel[&(Stage::Cable, false)][0], [1.0, 1.1]);
    let series = readings(Cups::One, 1, "1:1a+2a");
    right(&series[&(Stage::Cups, false)][0], [3.9, 4.0]);
    // With a cup each, every cup reads one driver before it is landed, and the pair held
    // together by hand 1.0 to 1.1 Ω.
    let each = readings(Cups::Driver, 2, "1:1a||2a");
    for cup in &each[&(Stage::Cups, false)] {
        right(cup, [2.0, 2.1]);
    }
    assert_eq!(each[&(Stage::Cable, false)].len(), 2);
    for cable in &each[&(Stage::Cable, false)] {
        right(cable, [2.0, 2.1]);
    }
    right(&each[&(Stage::Cable, true)][0], [1.0, 1.1]);
}

/// Worked: all parallel, two dual 4 Ω whose coils measure 3.6: 0.90 Ω, and as much more
/// as the leads read.
#[test]
fn measured_coils_tell_themselves() {
    let group = GroupDraft {
        count: Some(2),
        coils: Some(2),
        ohms: coilwright_solver::bounds::Field::CoilOhms.ohms_text("4").ok(),
        dc_ohms: Some(vec![3.6; 4]),
        ..GroupDraft::default()
    };
    let rig = Draft { groups: vec![group], amplifier: None }.check(Vec::new()).unwrap();
    let plan = Plan::of(&rig, &Build::default(), &one(&rig, "1a||1b||2a||2b").unwrap()).unwrap();
    let last =
        foretell(&rig, &plan, &Known::default()).unwrap().into_iter().flatten().last().unwrap();
    assert!((last.nominal - 1.0).abs() < 1e-12, "{last:?}");
    assert!(last.low < 0.9 && 0.9 + 0.2 < last.high, "{last:?}");
    assert!((last.expected - (0.9 + 0.25)).abs() < 1e-9, "{last:?}");
    // Tighter than by nominal impedance alone: two counts of a tenth beside a twenty-fifth.
    let either_way = 0.04 + 0.2 / 3.6;
    assert!(last.high - last.low < 0.9 * 2.0 * either_way + 0.5 + 1e-9, "{last:?}");
}
