//! Every fault of every coil of a spread of configurations, solved by ngspice.

use super::folder;
use coilwright_solver::failure::{Fault, each};
use proof::faults::{Case, circuit, holds, listed};
use proof::rigs::{Filters, Stated, drivers, request, two_channels};
use proof::spice::voltages;

const HIFI: Stated = Stated { least: Some("2"), rated: &[("8", 90.0), ("4", 150.0), ("2", 250.0)] };
const SMALL: Stated =
    Stated { least: Some("1"), rated: &[("4", 300.0), ("2", 500.0), ("1", 800.0)] };

/// Every configuration of each; those with many coils only in part.
fn spread() -> Vec<Case> {
    let filters = Filters::OFF;
    let mut all = Vec::new();
    let asked = [
        (vec![drivers(2, 2, "2").rated(500.0)], Some(SMALL.mono())),
        (vec![drivers(5, 1, "4")], None),
        (
            vec![drivers(1, 4, "4/3").rated(300.0), drivers(1, 1, "8").rated(100.0)],
            Some(HIFI.mono()),
        ),
        (
            vec![drivers(1, 2, "4").rated(400.0), drivers(2, 1, "1.4").rated(150.0)],
            Some(two_channels(&SMALL, &HIFI)),
        ),
        (vec![drivers(2, 2, "4").rated(250.0)], Some(two_channels(&HIFI, &Stated::default()))),
        (vec![drivers(1, 1, "3"), drivers(1, 1, "5"), drivers(1, 2, "7")], None),
    ];
    for (rig, amplifier) in asked {
        let list = listed(&rig, request(&rig, amplifier, filters));
        let stride = list.len().div_ceil(60).max(1);
        all.extend(list.into_iter().step_by(stride));
    }
    all
}

#[test]
fn loads_and_powers_after_a_fault_are_those_that_ngspice_finds() {
    let all = spread();
    let (mut circuits, mut claims) = (Vec::new(), Vec::new());
    for case in &all {
        for fault in [Fault::Open, Fault::Shorted] {
            for failed in each(&case.checked, &case.one, fault) {
                circuits.push(circuit(case, &failed, fault));
                claims.push((case, failed));
            }
        }
    }
    assert!(circuits.len() > 800, "{} networks in the deck", circuits.len());
    let volts = voltages(&circuits, &folder("failure"));
    for (((circuit, ohms), (case, failed)), volts) in circuits.iter().zip(&claims).zip(&volts) {
        holds(case, failed, &circuit.reckoned(volts, &|leaf| ohms[&leaf]));
    }
}
