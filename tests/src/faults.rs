//! A configuration with one coil failed, as a circuit; and claims about it held to what
//! the circuit comes to.

use crate::brute::coils;
use crate::nodal::{Circuit, Solved};
use crate::rigs::{Drivers, group_of, ohms};
use crate::tree::{Leaf, Tree};
use coilwright_solver::answer::{Configuration, Request, answer};
use coilwright_solver::failure::{After, Failed, Fault};
use coilwright_solver::judge::Verdict::{
    self, BelowStated, Fits, FitsByDerivation, NotStated, TooLow,
};
use coilwright_solver::network::Coil;
use coilwright_solver::ohms::Ohms;
use coilwright_solver::outputs::figures;
use coilwright_solver::rig::Rig;
use std::collections::BTreeMap;

/// An open as a circuit can have it: beside at most some hundreds of ohms, what leaks is
/// less than a millionth.
const OPEN: f64 = 1e9;
/// A short likewise: before some hundredths of an ohm it drops less than ten millionths.
/// Less would be lost in the rounding of conductances that lie too many decades apart.
const SHORT: f64 = 1e-7;
/// What leaks or drops, twice for powers, with some room.
pub const WITHIN: f64 = 3e-5;
/// Power below this part of the whole is none: what leaks is squared.
const NONE: f64 = 1e-9;

/// A configuration of a rig.
#[derive(Clone, Debug)]
pub struct Case {
    /// The drivers as the proofs write them.
    pub rig: Vec<Drivers>,
    /// The rig as the solver has it.
    pub checked: Rig,
    /// The configuration.
    pub one: Configuration,
}

/// Every configuration that is asked for.
///
/// # Panics
/// If the solver has any problem with the rig.
pub fn listed(rig: &[Drivers], asked: Request) -> Vec<Case> {
    let checked = asked.rig.clone();
    let found = answer(asked);
    assert_eq!(found.problems, []);
    let case = |one| Case { rig: rig.to_vec(), checked: checked.clone(), one };
    found.configurations.into_iter().map(case).collect()
}

fn ohms_of(rig: &[Drivers]) -> BTreeMap<Leaf, f64> {
    let exact = ohms(rig);
    let float = |leaf: Leaf| *exact(leaf).numer() as f64 / *exact(leaf).denom() as f64;
    coils(rig).into_iter().map(|leaf| (leaf, float(leaf))).collect()
}

fn leaf(coil: Coil) -> Leaf {
    Leaf { driver: coil.driver, coil: coil.coil }
}

/// The circuit of an output with one coil failed.
pub fn circuit(case: &Case, failed: &Failed, fault: Fault) -> (Circuit, BTreeMap<Leaf, f64>) {
    let network = &case.one.outputs[failed.output].network;
    let mut ohms = ohms_of(&case.rig);
    let stands_in = match fault {
        Fault::Open => OPEN,
        Fault::Shorted => SHORT,
    };
    ohms.insert(leaf(failed.coil), stands_in);
    (Circuit::of(&Tree::read(&network.ascii())), ohms)
}

/// Each coil's power in a circuit at the square of a voltage.
fn powers(solved: &Solved, square: f64) -> BTreeMap<Leaf, f64> {
    solved.shares.iter().map(|(leaf, share)| (*leaf, share * square / solved.load)).collect()
}

/// Holds the claim about one fault to the solved circuit.
///
/// # Panics
/// If they differ.
pub fn holds(case: &Case, failed: &Failed, solved: &Solved) {
    let output = &case.one.outputs[failed.output];
    let told = format!("{} with {} failed", case.one.key(), failed.coil);
    let (load, short, open) = (solved.load, 1e-6, 1e6);
    match failed.after {
        After::Open => assert!(load > open, "{told}: open, solved {load} Ω"),
        After::Short => assert!(load < short, "{told}: short, solved {load} Ω"),
        After::Load(claimed) => {
            let off = (load / claimed.to_f64() - 1.0).abs();
            assert!(off < WITHIN, "{told}: {claimed} Ω, solved {load}");
        }
        After::NoFraction => panic!("{told}: these fractions are short"),
    }
    let verdict = match failed.after {
        After::Load(load) => Some(verdict(case, failed.output, load)),
        After::Short => Some(TooLow),
        _ => None,
    };
    assert_eq!(failed.verdict, verdict, "{told}");
    // Nothing plays on what is open or short as a whole.
    let plays = !matches!(failed.after, After::Open | After::Short);
    let healthy = Circuit::of(&Tree::read(&output.network.ascii()));
    let ohms = ohms_of(&case.rig);
    let before = healthy.solved(&|leaf| ohms[&leaf]);
    // At one volt where no power is known.
    let square = output.target_watts.map_or(1.0, |watts| watts * before.load);
    let (now, before) = (powers(solved, square), powers(&before, square));
    let whole: f64 = before.values().sum();
    let alive = |leaf: &Leaf| plays && now[leaf] > NONE * whole;
    let others: Vec<Leaf> =
        before.keys().copied().filter(|other| *other != leaf(failed.coil)).collect();
    let silent = others.iter().filter(|other| !alive(other)).count();
    assert_eq!(failed.silent as usize, silent, "{told}: silent");
    let times = |other: &Leaf| match output.target_watts {
        Some(_) => {
            let group = group_of(&case.rig, other.driver);
            now[other] / (group.watts.unwrap() / f64::from(group.coils))
        }
        None => now[other] / before[other],
    };
    let most = others.iter().filter(|other| alive(other)).map(times).fold(0.0, f64::max);
    let Some(hot) = failed.hottest else {
        assert_eq!(silent, others.len(), "{told}: some coil still plays");
        return;
    };
    assert_eq!(hot.of_rating, output.target_watts.is_some(), "{told}");
    let near = |a: f64, b: f64| (a / b - 1.0).abs() < WITHIN;
    assert!(near(hot.times, most), "{told}: {hot:?}, solved {most} times");
    assert!(near(times(&leaf(hot.coil)), most), "{told}: {hot:?} is not the hottest");
    match (hot.watts, output.target_watts) {
        (Some(watts), Some(_)) => assert!(near(watts, now[&leaf(hot.coil)]), "{told}: {watts} W"),
        (None, None) => {}
        (watts, target) => panic!("{told}: {watts:?} with a target of {target:?}"),
    }
}

/// A load held to the least load of its output, or to what stands in for one.
fn verdict(case: &Case, output: usize, load: Ohms) -> Verdict {
    let channels = &case.one.outputs[output].channels;
    let figures = case.checked.amplifier().and_then(|amplifier| figures(amplifier, channels));
    let figures = figures.unwrap_or_default();
    match (figures.least, figures.points.first()) {
        (Some(least), _) if load < least => TooLow,
        (Some(_), _) if figures.least_derived => FitsByDerivation,
        (None, Some(lowest)) if load < lowest.ohms => BelowStated,
        (None, None) => NotStated,
        _ => Fits,
    }
}
