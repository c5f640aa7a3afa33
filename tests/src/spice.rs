//! Networks by the thousand in one deck of the circuit simulator ngspice.

use crate::nodal::Circuit;
use crate::tree::Leaf;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;
use std::process::Command;

/// The voltage of every node of every circuit with one ampere through it, by ngspice.
///
/// `folder` takes the deck and its answer.
///
/// # Panics
/// If ngspice is missing or leaves anything unanswered.
pub fn voltages(circuits: &[(Circuit, BTreeMap<Leaf, f64>)], folder: &Path) -> Vec<Vec<f64>> {
    let (deck, answer) = (folder.join("networks.cir"), folder.join("networks.raw"));
    std::fs::write(&deck, written(circuits, "networks.raw")).expect("a folder to write in");
    // An answer of an earlier run must not stand in for this one's.
    if answer.exists() {
        std::fs::remove_file(&answer).expect("a folder to write in");
    }
    let run = Command::new("ngspice").current_dir(folder).args(["-b", "networks.cir"]).output();
    let output = match run {
        Ok(output) => output,
        Err(error) => panic!(
            "ngspice could not be started ({error}). Install it: on Debian or Ubuntu, as root, \
             `apt-get install ngspice`"
        ),
    };
    let raw = std::fs::read_to_string(&answer).unwrap_or_else(|error| {
        panic!(
            "ngspice left no answer ({error}): {}{}",
            String::from_utf8_lossy(&output.stdout),
            String::from_utf8_lossy(&output.stderr)
        )
    });
    let named = read(&raw);
    let of_circuit = |(i, (circuit, _)): (usize, &(Circuit, _))| {
        let volts = |node| match node {
            0 => 0.0,
            node => *named
                .get(&name(i, node))
                .unwrap_or_else(|| panic!("ngspice does not tell {}", name(i, node))),
        };
        (0..circuit.nodes).map(volts).collect()
    };
    circuits.iter().enumerate().map(of_circuit).collect()
}

/// A node of a circuit in the deck; node 0 of each is the common ground.
fn name(circuit: usize, node: usize) -> String {
    match node {
        0 => "0".to_owned(),
        node => format!("n{circuit}_{node}"),
    }
}

fn written(circuits: &[(Circuit, BTreeMap<Leaf, f64>)], answer: &str) -> String {
    let mut deck = String::from("networks of voice coils, one ampere through each\n");
    for (i, (circuit, ohms)) in circuits.iter().enumerate() {
        writeln!(deck, "i{i} 0 {} dc 1", name(i, 1)).unwrap();
        for (j, (leaf, plus, minus)) in circuit.coils.iter().enumerate() {
            let (plus, minus) = (name(i, *plus), name(i, *minus));
            // Seventeen digits: the float itself.
            writeln!(deck, "r{i}_{j} {plus} {minus} {:.16e}", ohms[leaf]).unwrap();
        }
    }
    // The smallest conductance to ground that the simulator adds, out of the way.
    writeln!(
        deck,
        ".options gmin=1e-18\n.control\nset filetype=ascii\nset numdgt=15\nop\nwrite {answer} all\nquit\n.endc\n.end"
    )
    .unwrap();
    deck
}

/// Names and values of an ASCII raw file with one point.
fn read(raw: &str) -> BTreeMap<String, f64> {
    let (head, values) = raw.split_once("\nValues:").expect("a raw file has values");
    let (_, variables) = head.split_once("\nVariables:").expect("a raw file has variables");
    let named = variables.lines().filter_map(|line| {
        let name = line.split_whitespace().nth(1)?;
        let name = name.strip_prefix("v(").unwrap_or(name);
        Some(name.trim_end_matches(')').to_owned())
    });
    // The first value follows the number of the point.
    let mut numbers = values.split_whitespace();
    assert_eq!(numbers.next(), Some("0"), "one point, the first");
    let numbers = numbers.map(|number| number.parse().expect("a number"));
    named.zip(numbers).collect()
}
