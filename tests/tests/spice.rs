//! A sample of configurations solved by ngspice.
#![allow(clippy::unwrap_used, reason = "a proof stops at the first surprise")]

#[path = "spice/failure.rs"]
mod failure;
#[path = "spice/sim.rs"]
mod sim;

use proof::brute::coils;
use proof::nodal::Circuit;
use proof::rigs::{Drivers, Filters, drivers, list, ohms};
use proof::spice::voltages;
use proof::tree::{Leaf, Tree};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// How many configurations of each rig are sampled.
const OF_EACH: usize = 60;

fn spread() -> Vec<Vec<Drivers>> {
    vec![
        vec![drivers(2, 2, "2")],
        vec![drivers(7, 1, "4")],
        vec![drivers(3, 2, "1.4")],
        vec![drivers(2, 4, "4/3")],
        vec![drivers(1, 4, "1"), drivers(2, 1, "8")],
        vec![drivers(2, 2, "4"), drivers(1, 1, "0.1"), drivers(1, 1, "1000")],
        vec![drivers(1, 1, "3"), drivers(1, 1, "5"), drivers(1, 2, "7"), drivers(2, 1, "0.7")],
        vec![drivers(4, 2, "2")],
    ]
}

/// Held to the same circuits solved by hand, so that a misread answer cannot pass.
#[test]
fn ngspice_is_read_aright() {
    let ohms: BTreeMap<Leaf, f64> =
        coils(&[drivers(3, 1, "1")]).into_iter().zip([1.0, 6.0, 13.0]).collect();
    let circuit = |key| (Circuit::of(&Tree::read(key)), ohms.clone());
    let circuits = [circuit("1a+(2a||3a)"), circuit("1a+2a+3a"), circuit("1a||2a||3a")];
    let volts = voltages(&circuits, &folder("by_hand"));
    let loads = [97.0 / 19.0, 20.0, 78.0 / 97.0];
    for ((volts, circuit), load) in volts.iter().zip(&circuits).zip(loads) {
        assert_eq!(volts.len(), circuit.0.nodes);
        assert!((volts[1] - load).abs() < 1e-9, "{} for {load}", volts[1]);
    }
}

/// A folder of a test's own: tests run side by side.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

#[test]
fn loads_and_shares_are_those_that_ngspice_finds() {
    let mut circuits = Vec::new();
    let mut claims = Vec::new();
    for rig in spread() {
        let exact = ohms(&rig);
        let float = |leaf: Leaf| {
            let ohms = exact(leaf);
            *ohms.numer() as f64 / *ohms.denom() as f64
        };
        let by_coil: BTreeMap<Leaf, f64> =
            coils(&rig).into_iter().map(|leaf| (leaf, float(leaf))).collect();
        let all = list(&rig, Filters::OFF).configurations;
        let stride = all.len().div_ceil(OF_EACH).max(1);
        for configuration in all.into_iter().step_by(stride) {
            let circuit = Circuit::of(&Tree::read(&configuration.key()));
            circuits.push((circuit, by_coil.clone()));
            claims.push(configuration);
        }
    }
    assert!(circuits.len() > 300, "{} networks in the deck", circuits.len());
    let volts = voltages(&circuits, &folder("sample"));
    for (((circuit, ohms), claim), volts) in circuits.iter().zip(&claims).zip(&volts) {
        let solved = circuit.reckoned(volts, &|leaf| ohms[&leaf]);
        let (key, load) = (claim.key(), claim.outputs[0].load.to_f64());
        assert!(
            (solved.load / load - 1.0).abs() < 1e-6,
            "{key}: {load} Ω, ngspice {}",
            solved.load
        );
        assert_eq!(solved.shares.len(), claim.coil_shares.len(), "{key}");
        for ((leaf, share), claimed) in solved.shares.iter().zip(&claim.coil_shares) {
            let off = (share - claimed).abs();
            assert!(off < 1e-6, "{key}: {leaf} gets {claimed}, ngspice {share}");
        }
    }
}
