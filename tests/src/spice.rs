//! Networks by the thousand in one deck of the circuit simulator ngspice.

use crate::faulted::{Deck, OPEN};
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
    let deck: Vec<_> = circuits
        .iter()
        .map(|(circuit, ohms)| {
            let of = |(leaf, plus, minus): &(Leaf, usize, usize)| (*plus, *minus, ohms[leaf]);
            (circuit.nodes, circuit.coils.iter().map(of).collect())
        })
        .collect();
    solved(&deck, folder)
}

/// What lies between node 1 and node 0 of every list of resistors, in ohms, by ngspice.
/// What does not hang on either is left out, and [`OPEN`] joins the two, so that open is
/// about as much. `folder` takes the decks and their answers.
///
/// # Panics
/// As [`voltages`].
pub fn between_probes(decks: &[Deck], folder: &Path) -> Vec<f64> {
    let hanging: Vec<_> = decks.iter().map(hanging).collect();
    // Deck by deck, since the simulator slows down with their length.
    let solved = hanging.chunks(400).flat_map(|chunk| solved(chunk, folder));
    solved.map(|volts| volts[1]).collect()
}

/// Resistors with their two nodes.
type Resistors = Vec<(usize, usize, f64)>;

/// What hangs on a probe, its nodes numbered anew.
fn hanging(deck: &Deck) -> (usize, Resistors) {
    let mut number: BTreeMap<usize, usize> = [(0, 0), (1, 1)].into();
    let mut left: Vec<_> = deck.resistors.clone();
    let mut kept = vec![(1, 0, OPEN)];
    loop {
        let before = left.len();
        left.retain(|(a, b, ohms)| {
            if !number.contains_key(a) && !number.contains_key(b) {
                return true;
            }
            let [a, b] = [a, b].map(|node| {
                let next = number.len();
                *number.entry(*node).or_insert(next)
            });
            kept.push((a, b, *ohms));
            false
        });
        if left.len() == before {
            return (number.len(), kept);
        }
    }
}

fn solved(circuits: &[(usize, Resistors)], folder: &Path) -> Vec<Vec<f64>> {
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
    let of_circuit = |(i, (nodes, _)): (usize, &(usize, _))| {
        let volts = |node| match node {
            0 => 0.0,
            node => *named
                .get(&name(i, node))
                .unwrap_or_else(|| panic!("ngspice does not tell {}", name(i, node))),
        };
        (0..*nodes).map(volts).collect()
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

fn written(circuits: &[(usize, Resistors)], answer: &str) -> String {
    let mut deck = String::from("networks of voice coils, one ampere through each\n");
    for (i, (_, resistors)) in circuits.iter().enumerate() {
        writeln!(deck, "i{i} 0 {} dc 1", name(i, 1)).unwrap();
        for (j, (plus, minus, ohms)) in resistors.iter().enumerate() {
            let (plus, minus) = (name(i, *plus), name(i, *minus));
            // Seventeen digits: the float itself.
            writeln!(deck, "r{i}_{j} {plus} {minus} {ohms:.16e}").unwrap();
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
