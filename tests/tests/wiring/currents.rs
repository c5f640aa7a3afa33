//! Currents by Kirchhoff's law, and the imbalance of chains by nodal analysis.

use super::{near, spread};
use coilwright_solver::answer::one;
use coilwright_solver::network::Coil;
use coilwright_solver::rig::Build;
use coilwright_solver::wiring::{Plan, Post, Sign, Stage, Terminal};
use nalgebra::{DMatrix, DVector};
use proof::nodal::Circuit;
use proof::rigs::{Drivers, Filters, Stated, drivers, request};
use proof::tree::Leaf;
use proof::wired::{Bench, Case, end, of_amplifier, run};

/// What a run carries is what the coils on its one side take and do not give back: it is
/// found by cutting the run, with coil currents of a circuit solved by nodal analysis.
#[test]
fn every_run_carries_what_lies_beyond_it() {
    let mut told = 0;
    for case in spread().iter().step_by(3) {
        let ohms = near(&case.drivers);
        for (output, claimed) in case.configuration.outputs.iter().enumerate() {
            let circuit = Circuit::of(&case.tree(output));
            let solved = circuit.solved(&|leaf| ohms[&leaf]);
            for (number, wire) in case.plan.runs.iter().enumerate() {
                if usize::from(wire.output) != output {
                    continue;
                }
                let most = claimed.available.map(|available| available.high);
                assert_eq!(wire.amps.is_some(), claimed.target_watts.is_some(), "{}", case.name());
                assert_eq!(wire.most_amps.is_some(), most.is_some(), "{}", case.name());
                let known = [(claimed.target_watts, wire.amps), (most, wire.most_amps)];
                let mut bench = Bench::default();
                bench.tie_hardware(&case.plan);
                for (other, wire) in case.plan.runs.iter().enumerate() {
                    if other != number {
                        bench.tie(wire.from, wire.to);
                    }
                }
                // With one watt on the output; currents go as its root.
                let mut beyond = 0.0;
                for (leaf, share) in &solved.shares {
                    let amps = (share / ohms[leaf]).sqrt();
                    let turned = case.build.mounted_reversed.contains(&leaf.driver);
                    for (sign, into) in [(Sign::Plus, 1.0), (Sign::Minus, -1.0)] {
                        if bench.is_one(end(*leaf, sign), wire.to) {
                            beyond += if turned { -into } else { into } * amps;
                        }
                    }
                }
                let source = [Sign::Plus, Sign::Minus]
                    .map(|sign| of_amplifier(wire.output, sign))
                    .map(|terminal| bench.is_one(terminal, wire.to));
                assert!(!source.contains(&true), "{}: {}", case.name(), run(wire));
                for (watts, amps) in known {
                    let (Some(watts), Some(amps)) = (watts, amps) else { continue };
                    let off = (amps - f64::abs(beyond) * watts.sqrt()).abs();
                    assert!(off < 1e-9 * (1.0 + amps), "{}: {} {amps}", case.name(), run(wire));
                    told += 1;
                }
            }
        }
    }
    assert!(told > 1_000, "{told} runs");
}

/// `physics`: the first jumper of a 1 Ω, 1000 W chain carries 31.6 A.
#[test]
fn the_lead_of_a_thousand_watts_into_one_ohm_carries_the_root_of_a_thousand() {
    let mono = Stated { least: Some("1"), rated: &[("1", 1000.0)] };
    let rig = request(&[drivers(2, 1, "2").rated(500.0)], Some(mono.mono()), Filters::OFF).rig;
    let plan = Plan::of(&rig, &Build::default(), &one(&rig, "1:1a||2a").unwrap()).unwrap();
    let most = plan.runs.iter().filter_map(|run| run.amps).fold(0.0, f64::max);
    assert!((most - 1000.0_f64.sqrt()).abs() < 1e-9, "{most}");
}

/// Worked from first principles: an amplifier rated 500 W at 4 Ω alone gives 11.2 A and
/// 44.7 V there. At 2 Ω it holds at least the current, √(500/4) = 11.2 A, and at most the
/// voltage, √(500·4)/2 = 22.4 A. The level is set by what can be counted on, but a conductor
/// must carry the most, whatever the drivers take and whether or not that is known.
#[test]
fn a_conductor_is_sized_by_the_most_that_the_amplifier_may_give() {
    let mono = Stated { least: Some("2"), rated: &[("4", 500.0)] };
    for (watts, at_target) in [(Some(2000.0), Some(125.0)), (Some(25.0), Some(25.0)), (None, None)]
    {
        let two = Drivers { watts, ..drivers(2, 1, "4") };
        let rig = request(&[two], Some(mono.mono()), Filters::OFF).rig;
        let plan = Plan::of(&rig, &Build::default(), &one(&rig, "1:1a||2a").unwrap()).unwrap();
        let cable = plan.runs.iter().find(|run| run.stage == Stage::Cable).unwrap();
        let want = at_target.map(f64::sqrt);
        let near = |a: Option<f64>, b: Option<f64>| match (a, b) {
            (Some(a), Some(b)) => (a - b).abs() < 1e-9,
            (a, b) => a == b,
        };
        assert!(near(cable.amps, want), "{:?} A at target, {want:?} by hand", cable.amps);
        let most = 2000.0_f64.sqrt() / 2.0;
        assert!(near(cable.most_amps, Some(most)), "{:?}", cable.most_amps);
        let lot = plan.parts.lots.iter().find(|lot| lot.stage == Stage::Cable).unwrap();
        assert!(near(lot.amps, Some(most)), "{:?}", lot.amps);
        assert_eq!(format!("{most:.1}"), "22.4");
    }
}

/// Worked from first principles: the second driver sees 2 Ω behind 0.05 Ω of jumpers, so
/// it gets (2/2.05)² = 0.952 of what the first gets.
#[test]
fn two_drivers_with_a_twentieth_of_an_ohm_of_jumpers_between() {
    let rig = request(&[drivers(2, 1, "2")], None, Filters::OFF).rig;
    let mut build = Build { conductor_mm2: 1.0, ..Build::default() };
    // Two jumpers of 1 mm²: 2 · L / 58 = 0.05 (IEC 60028: 1/58 Ω·mm²/m).
    build.metres[1] = 0.05 * 58.0 / 2.0;
    let plan = Plan::of(&rig, &build, &one(&rig, "1a||2a").unwrap()).unwrap();
    let imbalance = plan.imbalance.unwrap();
    assert!((imbalance.ratio - (2.0_f64 / 2.05).powi(2)).abs() < 1e-9, "{imbalance:?}");
    assert!((imbalance.ratio - 0.952).abs() < 5e-4);
    assert_eq!(imbalance.least, 1);
    assert!((imbalance.decibels - 0.2144).abs() < 5e-4, "{imbalance:?}");
}

/// The power of every driver, with every run a resistance, one volt at each output.
fn powers(case: &Case) -> Vec<(u8, u8, f64)> {
    let ohms = near(&case.drivers);
    let mut places: Vec<Terminal> = Vec::new();
    let mut place = |terminal: Terminal| {
        let post = match terminal.post {
            Post::CupOutside(cup) => Post::CupInside(cup),
            Post::Amplifier { output, .. } => Post::Amplifier { output, pair: 0 },
            post => post,
        };
        let terminal = Terminal { post, ..terminal };
        places.iter().position(|one| *one == terminal).unwrap_or_else(|| {
            places.push(terminal);
            places.len() - 1
        })
    };
    let mut branches: Vec<(usize, usize, f64)> = Vec::new();
    for run in &case.plan.runs {
        let siemens = case.build.conductor_mm2 * 58.0 / run.metres;
        branches.push((place(run.from), place(run.to), siemens));
    }
    let mut coils: Vec<(Leaf, u8, usize, usize)> = Vec::new();
    for (output, one) in (0_u8..).zip(&case.configuration.outputs) {
        for Coil { driver, coil } in one.network.coils() {
            let leaf = Leaf { driver, coil };
            let (plus, minus) = (place(end(leaf, Sign::Plus)), place(end(leaf, Sign::Minus)));
            branches.push((plus, minus, ohms[&leaf].recip()));
            coils.push((leaf, output, plus, minus));
        }
    }
    let count = places.len();
    let mut matrix = DMatrix::<f64>::zeros(count, count);
    let mut right = DVector::<f64>::zeros(count);
    for (a, b, siemens) in branches {
        matrix[(a, a)] += siemens;
        matrix[(b, b)] += siemens;
        matrix[(a, b)] -= siemens;
        matrix[(b, a)] -= siemens;
    }
    for (at, terminal) in places.iter().enumerate() {
        if matches!(terminal.post, Post::Amplifier { .. }) {
            matrix.row_mut(at).fill(0.0);
            matrix[(at, at)] = 1.0;
            right[at] = if terminal.sign == Sign::Plus { 1.0 } else { 0.0 };
        }
    }
    let volts = matrix.lu().solve(&right).unwrap();
    let mut drivers: Vec<(u8, u8, f64)> = Vec::new();
    for (leaf, output, plus, minus) in coils {
        let across = volts[plus] - volts[minus];
        let gets = across * across / ohms[&leaf];
        match drivers.iter_mut().find(|(driver, on, _)| (*driver, *on) == (leaf.driver, output)) {
            Some((.., sum)) => *sum += gets,
            None => drivers.push((leaf.driver, output, gets)),
        }
    }
    drivers
}

#[test]
fn the_imbalance_is_that_of_the_wire_solved_as_a_circuit() {
    let mut told = 0;
    for mut case in spread().into_iter().step_by(5) {
        case.build.conductor_mm2 = 0.75;
        case.plan = Plan::of(&case.rig, &case.build, &case.configuration).unwrap();
        let ohms = near(&case.drivers);
        let gets = powers(&case);
        let mut worst = 1.0_f64;
        let mut several = false;
        for output in 0..case.configuration.outputs.len() {
            let ideal = Circuit::of(&case.tree(output)).solved(&|leaf| ohms[&leaf]);
            let own: Vec<f64> = gets
                .iter()
                .filter(|(_, on, _)| usize::from(*on) == output)
                .map(|(driver, _, gets)| {
                    let of = ideal.shares.iter().filter(|(leaf, _)| leaf.driver == *driver);
                    gets / of.map(|(_, share)| share).sum::<f64>()
                })
                .collect();
            several |= own.len() > 1;
            let least = own.iter().copied().fold(f64::MAX, f64::min);
            let most = own.iter().copied().fold(0.0, f64::max);
            worst = worst.min(least / most);
        }
        match case.plan.imbalance {
            None => assert!(!several, "{}", case.name()),
            Some(found) => {
                assert!((found.ratio - worst).abs() < 1e-9, "{}: {found:?} {worst}", case.name());
                // Decibels back to a ratio of powers: d dB are 10^(−d/10).
                let back = libm::exp10(-found.decibels / 10.0);
                assert!((back - worst).abs() < 1e-9, "{}", case.name());
                told += 1;
            }
        }
    }
    assert!(told > 100, "{told}");
}
