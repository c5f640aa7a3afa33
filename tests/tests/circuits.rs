//! Loads, currents and powers: against textbooks, and against the plain physics of nodes.

use coilwright_solver::answer::Configuration;
use proof::generate::{cases, odd_rigs};
use proof::nodal::Circuit;
use proof::rigs::{Drivers, Filters, drivers, list, ohms, written};
use proof::tree::{Leaf, Tree};
use proptest::prelude::*;

/// The configuration of a rig that is written like this.
fn written_as(rig: &[Drivers], key: &str) -> Configuration {
    let all = list(rig, Filters::OFF).configurations;
    let found = all.into_iter().find(|configuration| configuration.key() == key);
    found.unwrap_or_else(|| panic!("{} has no {key}", written(rig)))
}

/// Agreement within one unit of the last digit that a textbook prints: it rounds on the way.
#[track_caller]
fn printed(found: f64, book: &str) {
    let places = book.split_once('.').map_or(0, |(_, places)| places.len());
    let unit = 10_f64.powi(-i32::try_from(places).unwrap());
    let off = (found - book.parse::<f64>().unwrap()).abs();
    assert!(off < unit, "{found}, printed {book}");
}

/// OpenStax, University Physics vol. 2, 10.2 (seen): 12 V across 1 Ω + (6 Ω ∥ 13 Ω).
/// The 1 Ω can stand for wire.
#[test]
fn the_textbook_circuit_of_three_resistors_comes_out_as_printed() {
    let rig = [drivers(1, 1, "1"), drivers(1, 1, "6"), drivers(1, 1, "13")];
    let found = written_as(&rig, "1a+(2a||3a)");
    let output = &found.outputs[0];
    let load = output.load.to_f64();
    assert_eq!(output.load.to_string(), "97/19");
    printed(load, "5.10");
    printed(12.0 / load, "2.35");
    let watts: Vec<f64> = found.coil_shares.iter().map(|share| share * 144.0 / load).collect();
    printed((watts[1] / 6.0).sqrt(), "1.61");
    printed(watts[1], "15.5");
}

/// Same section (seen): 10 + 10 + (10 ∥ 10) Ω at 2 A: 25 Ω, 50 V, 40, 40, 10 and 10 W.
#[test]
fn equal_resistors_of_the_textbook_get_unequal_power() {
    let found = written_as(&[drivers(4, 1, "10")], "1a+2a+(3a||4a)");
    let load = found.outputs[0].load;
    assert_eq!(load.to_string(), "25");
    assert!(!found.even);
    printed(2.0 * load.to_f64(), "50.000");
    let watts: Vec<f64> =
        found.coil_shares.iter().map(|share| share * 4.0 * load.to_f64()).collect();
    for (found, book) in watts.into_iter().zip(["40.000", "40.000", "10.000", "10.000"]) {
        printed(found, book);
    }
}

/// OpenStax, University Physics vol. 2, 10.1 (seen): a 12 V source with 0.1 Ω inside
/// and a 0.5 Ω load: 20 A, 10 V, 200 W in the load.
#[test]
fn the_textbook_source_with_resistance_inside_gives_its_load_as_printed() {
    let found = written_as(&[drivers(1, 1, "0.1"), drivers(1, 1, "0.5")], "1a+2a");
    let load = found.outputs[0].load.to_f64();
    printed(12.0 / load, "20.00");
    printed(found.coil_shares[1] * 144.0 / load, "200.00");
}

/// Solves a configuration as a circuit and holds the solver to it.
fn solved_alike(rig: &[Drivers], configuration: &Configuration) {
    let exact = ohms(rig);
    let float = |leaf: Leaf| {
        let ohms = exact(leaf);
        *ohms.numer() as f64 / *ohms.denom() as f64
    };
    let key = configuration.key();
    let solved = Circuit::of(&Tree::read(&key)).solved(&float);
    let load = configuration.outputs[0].load.to_f64();
    let off = (solved.load / load - 1.0).abs();
    assert!(off < 1e-9, "{} {key}: {load} Ω, by nodes {}", written(rig), solved.load);
    assert_eq!(solved.shares.len(), configuration.coil_shares.len(), "{key}");
    for ((leaf, share), claimed) in solved.shares.iter().zip(&configuration.coil_shares) {
        let off = (share - claimed).abs();
        assert!(off < 1e-9, "{key}: {leaf} gets {claimed}, by nodes {share}");
    }
}

#[test]
fn every_configuration_of_a_spread_of_rigs_solves_alike_by_nodes() {
    let spread = [
        vec![drivers(1, 4, "2")],
        vec![drivers(4, 2, "2")],
        vec![drivers(7, 1, "4")],
        vec![drivers(1, 4, "1"), drivers(3, 1, "8")],
        vec![drivers(2, 2, "1.4"), drivers(2, 1, "8/3")],
        vec![drivers(2, 2, "4"), drivers(1, 1, "0.1"), drivers(1, 1, "1000")],
        vec![drivers(1, 1, "3"), drivers(1, 1, "5"), drivers(1, 2, "7"), drivers(1, 1, "0.7")],
    ];
    for rig in spread {
        let answer = list(&rig, Filters::OFF);
        assert!(!answer.configurations.is_empty(), "{}", written(&rig));
        for configuration in &answer.configurations {
            solved_alike(&rig, configuration);
        }
    }
}

proptest! {
    #![proptest_config(cases(32))]

    #[test]
    fn coils_of_any_ohms_solve_alike_by_nodes(rig in odd_rigs(4)) {
        for configuration in &list(&rig, Filters::OFF).configurations {
            solved_alike(&rig, configuration);
        }
    }
}
