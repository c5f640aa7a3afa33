//! Plans of wiring, held to what their networks are, to a bench, and to the trade.

#[path = "wiring/answered.rs"]
mod answered;
#[path = "wiring/bench.rs"]
mod bench;
#[path = "wiring/boxes.rs"]
mod boxes;
#[path = "wiring/currents.rs"]
mod currents;

#[path = "wiring/diagnosed.rs"]
mod diagnosed;
#[path = "wiring/faulted.rs"]
mod faulted;
#[path = "wiring/faults_found.rs"]
mod faults_found;
#[path = "wiring/finding.rs"]
mod finding;
#[path = "wiring/jobs.rs"]
mod jobs;
#[path = "wiring/meter.rs"]
mod meter;
#[path = "wiring/overturned.rs"]
mod overturned;
#[path = "wiring/steps.rs"]
mod steps;
#[path = "wiring/worked.rs"]
mod worked;

use proof::brute::coils;
use proof::nodal::Circuit;
use proof::rigs::{Drivers, Stated, drivers, ohms, two_channels};
use proof::spice::voltages;
use proof::tree::Leaf;
use proof::wired::{Case, circuit, plans};
use std::collections::BTreeMap;
use std::path::Path;

/// Configurations of a spread of rigs in all boxes that take them.
fn spread() -> Vec<Case> {
    let stated = Stated { least: Some("1"), rated: &[("4", 300.0), ("2", 500.0), ("1", 800.0)] };
    let mut tied = stated.mono();
    tied.channels[0].terminal_pairs = Some(2);
    let mut bridged = two_channels(&stated, &stated);
    for channel in &mut bridged.channels {
        channel.terminal_pairs = Some(2);
    }
    let one = |count, coils, ohms| vec![drivers(count, coils, ohms).rated(400.0)];
    let mixed = vec![drivers(1, 2, "4").rated(300.0), drivers(2, 1, "8").rated(150.0)];
    let mut all = plans(&one(1, 1, "4"), None, 9);
    all.extend(plans(&one(2, 1, "2"), Some(stated.mono()), 9));
    all.extend(plans(&one(2, 1, "2"), Some(tied.clone()), 9));
    all.extend(plans(&one(2, 2, "2"), Some(stated.mono()), 20));
    all.extend(plans(&one(2, 2, "2"), Some(tied.clone()), 20));
    all.extend(plans(&one(1, 4, "4"), Some(tied.clone()), 12));
    all.extend(plans(&one(2, 4, "4/3"), None, 12));
    all.extend(plans(&one(5, 1, "3"), Some(tied), 24));
    all.extend(plans(&mixed, Some(stated.mono()), 20));
    all.extend(plans(&one(2, 2, "4"), Some(bridged.clone()), 24));
    all.extend(plans(&one(4, 1, "4"), Some(bridged), 24));
    all
}

fn near(drivers: &[Drivers]) -> BTreeMap<Leaf, f64> {
    let exact = ohms(drivers);
    let float = |leaf: Leaf| *exact(leaf).numer() as f64 / *exact(leaf).denom() as f64;
    coils(drivers).into_iter().map(|leaf| (leaf, float(leaf))).collect()
}

/// The independent proof that a plan makes its network: ngspice solves a circuit made of
/// terminals and runs only.
#[test]
fn what_is_wired_is_the_network_with_every_coil_driven_from_plus_to_minus() {
    let cases = spread();
    assert!(cases.len() > 800, "{} plans", cases.len());
    let mut circuits = Vec::new();
    let mut claims = Vec::new();
    for case in &cases {
        let ohms = near(&case.drivers);
        let leaves: Vec<Leaf> = ohms.keys().copied().collect();
        for output in 0..case.configuration.outputs.len() {
            circuits.push((circuit(&case.plan, &leaves, output as u8), ohms.clone()));
            claims.push((case, output));
        }
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("wired");
    std::fs::create_dir_all(&folder).unwrap();
    let volts = voltages(&circuits, &folder);
    for (((wired, ohms), (case, output)), volts) in circuits.iter().zip(&claims).zip(&volts) {
        let found = wired.reckoned(volts, &|leaf| ohms[&leaf]);
        let network = Circuit::of(&case.tree(*output)).solved(&|leaf| ohms[&leaf]);
        let name = case.name();
        assert!((found.load / network.load - 1.0).abs() < 1e-6, "{name}: {} Ω", found.load);
        assert_eq!(found.shares.len(), network.shares.len(), "{name}");
        for ((leaf, share), (other, claimed)) in found.shares.iter().zip(&network.shares) {
            assert_eq!(leaf, other, "{name}");
            assert!((share - claimed).abs() < 1e-6, "{name}: {leaf} gets {share}");
        }
        for (leaf, plus, minus) in &wired.coils {
            let facing_in = case.build.mounted_reversed.contains(&leaf.driver);
            let driven = volts[*plus] > volts[*minus];
            assert_eq!(driven, !facing_in, "{name}: {leaf}");
        }
    }
}

#[test]
fn the_same_question_gets_the_same_plan_however_its_key_is_written() {
    use coilwright_solver::answer::one;
    use coilwright_solver::wiring::Plan;
    for case in spread().iter().step_by(7) {
        // Parts the other way round.
        let turned = |tree: &proof::tree::Tree| {
            fn written(tree: &proof::tree::Tree, inside: bool) -> String {
                use proof::tree::Tree;
                let sign = match tree {
                    Tree::Leaf(leaf) => return leaf.to_string(),
                    Tree::Series(_) => "+",
                    Tree::Parallel(_) => "||",
                };
                let parts: Vec<String> =
                    tree.parts().iter().rev().map(|part| written(part, true)).collect();
                let text = parts.join(sign);
                if inside { format!("({text})") } else { text }
            }
            written(tree, false)
        };
        let key = case.configuration.key();
        let parts: Vec<String> = key
            .split(';')
            .enumerate()
            .map(|(output, part)| {
                let channels = part.split_once(':').map_or(String::new(), |(c, _)| format!("{c}:"));
                format!("{channels}{}", turned(&case.tree(output)))
            })
            .collect();
        let again = one(&case.rig, &parts.join(";")).unwrap();
        assert_eq!(Plan::of(&case.rig, &case.build, &again).as_ref(), Ok(&case.plan));
    }
}
