//! What a fault does to every reading, against ngspice on a circuit made of terminals and
//! runs alone.

use super::{near, spread};
use coilwright_solver::answer::one;
use coilwright_solver::meter::{self, Fault, Kind, Place, Point, WEIGHTS};
use coilwright_solver::rig::{BuildDraft, Cups, Fed};
use coilwright_solver::wiring::{Act, Check, Plan, Post, Terminal};
use proof::faulted::{Deck, Way, deck};
use proof::rigs::{Filters, Stated, drivers, request};
use proof::spice::between_probes;
use proof::tree::Leaf;
use proof::wired::{Case, boxes};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// The likely direct-current resistance of a coil over its nominal impedance: the middle of
/// 0.7 to 1.05 (`physics`).
const LIKELY: f64 = 0.875;
/// More than this a meter calls open.
const MEGOHM: f64 = 1e6;
/// Of each kind of fault at each kind of place one is looked at of every plan, and one in
/// so many of the others.
const STRIDE: usize = 307;

fn kind_of(place: Place) -> &'static str {
    match place {
        Place::Step => "step",
        Place::Coil(_) => "coil",
        Place::Basket(_) => "basket",
        Place::Across(into, out) if into == out => "across a coil",
        Place::Across(..) => "across a node",
        Place::Along(_) => "along",
        Place::CableOpen(_) => "cable open",
        Place::CableJoined(_) => "cable joined",
        Place::Lifted(_) => "lifted",
        Place::Apart(_) => "apart",
        Place::Tied(..) => "tied",
    }
}

/// Every point of a plan; what can be looked at more closely at every step that reads.
fn points(case: &Case) -> Vec<Point> {
    let mut points = meter::points(&case.plan);
    let closer: Vec<Place> = points.iter().map(|point| point.place).collect();
    for (step, kind) in (0_u16..).zip(&case.plan.acts) {
        if let Act::Check(_) = kind {
            let here = closer.iter().map(|place| Point { act: step, place: *place });
            points.extend(here.filter(|point| point.is_of(&case.plan)));
        }
    }
    points.sort_unstable();
    points.dedup();
    points
}

/// What the solver says is read.
struct Claim {
    key: (Kind, &'static str),
    name: String,
    ohms: f64,
}

/// Six drivers on tied pairs: cables to exchange, and a node inside that no coil spans.
pub(super) fn six() -> Vec<Case> {
    let drivers = vec![drivers(6, 1, "2").rated(400.0)];
    let mut amplifier = Stated { least: Some("1"), rated: &[] }.mono();
    amplifier.channels[0].terminal_pairs = Some(2);
    let rig = request(&drivers, Some(amplifier), Filters::OFF).rig;
    let configuration = one(&rig, "1:(((1a+2a)||(3a+4a))+5a)||6a").unwrap();
    let of = |draft: BuildDraft| {
        let build = draft.check(&rig).ok()?;
        let plan = Plan::of(&rig, &build, &configuration).ok()?;
        let (drivers, rig) = (drivers.clone(), rig.clone());
        Some(Case { drivers, rig, build, configuration: configuration.clone(), plan })
    };
    let cases: Vec<Case> = boxes().into_iter().filter_map(of).collect();
    assert!(cases.len() > 9, "{}", cases.len());
    cases
}

/// A part of the spread, in which is everything that makes circuits differ.
fn sample() -> Vec<Case> {
    let mut cases: Vec<Case> = spread().into_iter().step_by(7).collect();
    cases.extend(six());
    assert!(cases.len() > 60, "{} plans", cases.len());
    let some = |what: &str, is: &dyn Fn(&Case) -> bool| {
        assert!(cases.iter().any(is), "no plan with {what}");
    };
    for cups in [Cups::None, Cups::One, Cups::Group(None), Cups::Driver, Cups::Coil] {
        some(&format!("{cups:?}"), &|case| case.build.cups == cups);
    }
    some("a splice", &|case| !case.plan.parts.splices.is_empty());
    some("a star", &|case| case.build.fed == Fed::Star && !case.plan.star_refused);
    some("a driver that faces in", &|case| !case.build.mounted_reversed.is_empty());
    some("two outputs", &|case| case.configuration.outputs.len() > 1);
    for coils in [1, 2, 4] {
        some(&format!("{coils} coils"), &|case| case.drivers.iter().any(|of| of.coils == coils));
    }
    let tied = |step: &Act| matches!(step, Act::Check(Check { tied: true, .. }));
    some("tied pairs", &|case| case.plan.acts.iter().any(tied));
    cases
}

/// Coils of which all of a group are others than stated.
pub(super) fn with_group(case: &Case, coils: &[(Leaf, f64)], fault: &Fault) -> Vec<(Leaf, f64)> {
    let Fault::OtherGroup { group, times } = *fault else { return coils.to_vec() };
    let groups = case.drivers.iter().enumerate();
    let of: Vec<usize> = groups.flat_map(|(number, of)| vec![number; of.count as usize]).collect();
    let changed = |(leaf, ohms): &(Leaf, f64)| {
        let hit = of[usize::from(leaf.driver)] == usize::from(group);
        (*leaf, if hit { ohms * f64::from(times.0) / f64::from(times.1) } else { *ohms })
    };
    coils.iter().map(changed).collect()
}

/// The solver's circuits of whatever may be wrong, at whatever may be read, are those that
/// ngspice finds from terminals and runs.
#[test]
fn what_every_fault_does_to_a_reading_is_what_ngspice_finds() {
    let mut decks: Vec<Deck> = Vec::new();
    let mut claims: Vec<Claim> = Vec::new();
    let mut covered: BTreeMap<(Kind, &'static str), usize> = BTreeMap::new();
    let mut all = 0;
    for (number, case) in sample().iter().enumerate() {
        let coils: Vec<(Leaf, f64)> =
            near(&case.drivers).into_iter().map(|(leaf, ohms)| (leaf, LIKELY * ohms)).collect();
        let job = case.job();
        let (faults, others) = meter::catalogue(&job).unwrap();
        let mut of_key: BTreeMap<(Kind, &'static str), Vec<(Fault, Point)>> = BTreeMap::new();
        for point in points(case) {
            for (fault, _) in &faults {
                let key = (fault.kind(), kind_of(point.place));
                of_key.entry(key).or_default().push((*fault, point));
            }
        }
        let mut taken = Vec::new();
        for (key, pairs) in &of_key {
            all += pairs.len();
            // Others in every plan.
            let begun = (number * 37) % pairs.len().min(STRIDE);
            let some = pairs.iter().skip(begun).step_by(STRIDE);
            *covered.entry(*key).or_default() += some.len();
            taken.extend(some.map(|pair| (*key, *pair)));
        }
        for (key, (fault, point)) in taken {
            for shown in meter::shown(&job, &fault, &others, &point).unwrap() {
                let name =
                    format!("{}: {fault:?} at {:?} ({})", case.name(), shown.value, point.name());
                let value = shown.value.unwrap_or(1.0);
                let (came, only) = (shown.came, shown.only);
                // The meter's own factor is not of the circuit.
                let meter = fault.kind() == Kind::Meter;
                let ohms = if meter { shown.ohms / value } else { shown.ohms };
                match deck(
                    &case.plan,
                    &with_group(case, &coils, &fault),
                    &fault,
                    Way { value, came, only },
                    &others,
                    &point,
                ) {
                    Some(deck) => {
                        decks.push(deck);
                        claims.push(Claim { key, name, ohms });
                    }
                    None => assert!(ohms == 0.0, "{name}: {ohms} Ω with the probes touching"),
                }
            }
        }
    }
    println!("{} circuits of {all} faults at points", decks.len());
    let places: BTreeSet<&str> = covered.keys().map(|(_, place)| *place).collect();
    assert_eq!(places.len(), 11, "{places:?}");
    for (kind, _) in WEIGHTS {
        for place in &places {
            let times = covered.get(&(kind, place)).copied().unwrap_or(0);
            assert!(times > 5, "{kind:?} at {place}: {times} times");
        }
    }
    assert!(decks.len() > 20_000, "{} circuits", decks.len());
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("faulted");
    std::fs::create_dir_all(&folder).unwrap();
    let found = between_probes(&decks, &folder);
    let mut wrong: BTreeMap<(Kind, &'static str), Vec<String>> = BTreeMap::new();
    let mut open = 0;
    for (claim, found) in claims.iter().zip(&found) {
        let Claim { key, name, ohms } = claim;
        open += usize::from(*found > MEGOHM);
        let right = match (ohms.is_finite(), *found > MEGOHM) {
            (false, true) => true,
            (true, false) => (ohms - found).abs() < 1e-3 * found + 3e-3,
            _ => false,
        };
        if !right {
            wrong.entry(*key).or_default().push(format!("{name}: {ohms} Ω, ngspice {found}"));
        }
    }
    assert!(open > 1000 && open * 2 < decks.len(), "{open} open");
    for (key, all) in &wrong {
        println!("{key:?}: {} wrong, such as {}", all.len(), all[0]);
    }
    assert!(wrong.is_empty(), "{} of {} circuits", wrong.values().flatten().count(), decks.len());
}

/// Ngspice is asked about the resistors that it should be asked about.
#[test]
fn what_hangs_on_neither_probe_is_left_out_and_what_is_apart_is_open() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("hanging");
    std::fs::create_dir_all(&folder).unwrap();
    let decks = [
        // A bridge of 1, 2, 3 and 4 Ω with 5 Ω across: worked by hand, star for triangle
        // (1, 3, 5): 1/3, 5/9, 5/3; (2 + 5/9) ∥ (4 + 5/3) + 1/3 = 23/9 ∥ 17/3 + 1/3.
        Deck {
            nodes: 4,
            resistors: vec![(1, 2, 1.0), (2, 0, 2.0), (1, 3, 3.0), (3, 0, 4.0), (2, 3, 5.0)],
        },
        Deck { nodes: 4, resistors: vec![(2, 3, 1.0), (1, 0, 7.0)] },
        Deck { nodes: 4, resistors: vec![(1, 2, 1.0), (3, 0, 7.0)] },
    ];
    let found = between_probes(&decks, &folder);
    let bridge = 1.0 / (9.0 / 23.0 + 3.0 / 17.0) + 1.0 / 3.0;
    assert!((found[0] - bridge).abs() < 1e-6, "{found:?}, {bridge}");
    assert!((found[1] - 7.0).abs() < 1e-6, "{found:?}");
    assert!(found[2] > 0.9e9, "{found:?}");
}

/// The faults of a plan name what is there, and each kind has its weight.
#[test]
fn every_fault_is_of_its_plan() {
    for case in &sample() {
        let job = case.job();
        let (faults, others) = meter::catalogue(&job).unwrap();
        let name = case.name();
        for (fault, weight) in &faults {
            assert!(*weight > 0.0, "{name}: {fault:?}");
            match *fault {
                Fault::Missing { run } | Fault::Loose { run } | Fault::Capacitor { run } => {
                    assert!(usize::from(run) < case.plan.runs.len(), "{name}: {fault:?}");
                }
                Fault::Strand { a: Terminal { post: Post::CupInside(cup), .. }, .. } => {
                    assert!(usize::from(cup) < case.plan.cups.len(), "{name}: {fault:?}");
                }
                Fault::Otherwise(at) => assert!(usize::from(at) < others.len(), "{name}"),
                _ => {}
            }
        }
        for (kind, whole) in WEIGHTS {
            let of: Vec<f64> =
                faults.iter().filter(|(one, _)| one.kind() == kind).map(|(_, w)| *w).collect();
            let sum: f64 = of.iter().sum();
            assert!(of.is_empty() || (sum - whole).abs() < 1e-9, "{name}: {kind:?} {sum}");
        }
    }
}
