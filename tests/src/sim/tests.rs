//! The bench against textbooks, exact fractions and itself spoilt.

use super::built::{Built, What};
use super::circuit::{Link, between};
use super::dice::Dice;
use super::draw::{FURTHER, PRINCIPAL};
use super::fault::{At, Fault};
use super::judge::{Named, of};
use super::meter::{RANGE, Shown, show, touched};
use super::plan::{Plan, Point};
use super::rigs::{Known, Rig, rig};
use super::session::job;
use super::tally::Case;
use super::{ask, circuit};
use crate::tree::{Exact, Tree};
use serde_json::{Value, json};
use std::collections::BTreeMap;

fn ohms(links: &[(&str, &str, f64)]) -> Option<f64> {
    let links: Vec<Link> = links.iter().map(|(a, b, ohms)| Link::new(a, b, *ohms)).collect();
    between(&links, "p", "m")
}

fn close(one: Option<f64>, two: f64) -> bool {
    one.is_some_and(|one| (one - two).abs() < 1e-4)
}

#[test]
fn circuits_of_textbooks() {
    // OpenStax, University Physics volume 2, 10.2: examples with exact answers.
    let one = [("p", "x", 1.0), ("x", "m", 6.0), ("x", "m", 13.0)];
    assert!(close(ohms(&one), 97.0 / 19.0), "1 + (6 ∥ 13)");
    let two = [("p", "x", 10.0), ("x", "y", 10.0), ("y", "m", 10.0), ("y", "m", 10.0)];
    assert!(close(ohms(&two), 25.0), "10 + 10 + (10 ∥ 10)");
    // A bridge out of balance is neither series nor parallel; by the delta–wye transform:
    // 1/4 + (29/8 ∥ 21/4) = 170/71.
    let bridge =
        [("p", "b", 1.0), ("p", "c", 2.0), ("b", "m", 3.0), ("c", "m", 4.0), ("b", "c", 5.0)];
    assert!(close(ohms(&bridge), 170.0 / 71.0), "a bridge");
    assert_eq!(ohms(&[("p", "x", 1.0), ("y", "m", 1.0)]), None, "nothing joins them");
    assert!(!close(ohms(&two[1..]), 25.0), "one taken out, and it is no longer so");
}

/// Lays a network and solves it.
fn laid(tree: &Tree, plus: &str, minus: &str, next: &mut usize, to: &mut Vec<Link>) {
    match tree {
        Tree::Leaf(leaf) => to.push(Link::new(plus, minus, value(leaf.driver, leaf.coil))),
        Tree::Parallel(parts) => {
            parts.iter().for_each(|part| laid(part, plus, minus, next, to));
        }
        Tree::Series(parts) => {
            let mut from = plus.to_owned();
            for (place, part) in parts.iter().enumerate() {
                *next += 1;
                let last = place + 1 == parts.len();
                let end = if last { minus.to_owned() } else { format!("n{next}") };
                laid(part, &from, &end, next, to);
                from = end;
            }
        }
    }
}

fn value(driver: u8, coil: u8) -> f64 {
    f64::from(driver) * 3.0 + f64::from(coil) + 1.0
}

#[test]
fn networks_as_exact_fractions() {
    for text in ["1a", "1a||1b", "(1a+1b)||(2a+2b)", "1a+1b+(2a||2b||3a)", "(1a||(2a+3a))+4b"] {
        let tree = Tree::read(text);
        let mut links = Vec::new();
        laid(&tree, "p", "m", &mut 0, &mut links);
        let exact = tree.load(&|leaf| {
            Exact::from_integer(i128::from(leaf.driver) * 3 + i128::from(leaf.coil) + 1)
        });
        #[allow(clippy::cast_precision_loss, reason = "small")]
        let exact = *exact.numer() as f64 / *exact.denom() as f64;
        assert!(close(circuit::between(&links, "p", "m"), exact), "{text}");
    }
}

fn plan(request: &Value, key: &str) -> Plan {
    ask::plan(request, key).expect("a plan")
}

fn coils(plan: &Plan, times: f64) -> BTreeMap<String, f64> {
    plan.coils.iter().map(|coil| (coil.name.clone(), coil.ohms * times)).collect()
}

fn felt(plan: &Plan, built: &Built, point: &str) -> Option<f64> {
    let point = plan.points.iter().find(|known| known.name == point);
    built.felt(plan, point.unwrap_or_else(|| panic!("a point of {:?}", plan.key)))
}

/// The last prescribed point.
fn last(plan: &Plan) -> Point {
    plan.prescribed(false, false).pop().expect("a check")
}

#[test]
fn drivers_in_parallel_read_as_the_trade_knows_them() {
    // Two single 2 Ω in parallel settle near 1.0 to 1.1, each alone near 2.0 to 2.1, the leads
    // in them (common practice, no source).
    let two = plan(&json!({"drivers": [{"count": 2, "coils": 1, "ohms": 2}]}), "1a||2a");
    let built = Built::sound(&two, &coils(&two, 0.95), 0.1);
    let read = built.felt(&two, &last(&two)).unwrap();
    assert!((1.0..=1.1).contains(&read), "{read}");
    let alone = felt(&two, &built, "2.coil.1a").unwrap();
    assert!((1.95..=2.1).contains(&alone), "{alone}");

    // Four single 4 Ω in parallel, leads 0.2: 1.1 to 1.2, and 1.4 to 1.5 without one of them.
    let four = plan(&json!({"drivers": [{"count": 4, "coils": 1, "ohms": 4}]}), "1a||2a||3a||4a");
    let of = coils(&four, 0.95);
    let read = Built::sound(&four, &of, 0.2).felt(&four, &last(&four)).unwrap();
    assert!((1.1..=1.25).contains(&read), "{read}");
    let to_the_last = four.runs.iter().find(|run| run.to == "4a+").unwrap().number;
    let built = Fault::Missing(to_the_last).built(&four, &of, 0.2);
    let read = built.felt(&four, &last(&four)).unwrap();
    assert!((1.4..=1.55).contains(&read), "{read}");
}

fn tied() -> (Plan, BTreeMap<String, f64>) {
    let plan = plan(
        &json!({
            "drivers": [{"count": 2, "coils": 2, "ohms": 4}],
            "box": {"cups": "driver", "joined_at": "amplifier"},
            "amplifier": {"channels": [{"least_ohms": 1, "terminal_pairs": 2}]},
        }),
        "1:(1a+1b)||(2a+2b)",
    );
    let coils = coils(&plan, 1.0);
    (plan, coils)
}

#[test]
fn every_place_reads_what_is_there() {
    let (plan, coils) = tied();
    let sound = Built::sound(&plan, &coils, 0.0);
    for (point, expected) in [
        ("1", Some(0.0)),
        ("2.coil.1a", Some(4.0)),
        ("2.basket.1", None),
        ("5", Some(8.0)),
        ("14", Some(8.0)),
        ("20", Some(8.0)),
        // Both cables held together by hand.
        ("22", Some(4.0)),
        ("22.across.1a", Some(4.0)),
        ("22.along.3", Some(0.0)),
        ("22.open.7", None),
        ("22.joined.7", Some(0.0)),
        ("22.lifted.1a", Some(4.0)),
        ("22.apart.1", Some(8.0)),
    ] {
        let found = felt(&plan, &sound, point);
        // 4 m of 2.5 mm² are 28 mΩ.
        let near = found.zip(expected).is_some_and(|(found, is)| (found - is).abs() < 0.06);
        assert!(near || found == expected, "{point}: {found:?}, {expected:?}");
    }
}

#[test]
fn every_fault_does_what_it_must() {
    let (plan, coils) = tied();
    let text = str::to_owned;
    let table: Vec<(Fault, &str, Option<f64>)> = vec![
        (Fault::Missing(1), "5", None),
        (Fault::Missing(7), "20", None),
        // One cable of two tied ones: the other still reads.
        (Fault::Missing(7), "21", Some(8.0)),
        (Fault::Missing(7), "22", Some(8.0)),
        // 1a − on 1a +: 1b alone is left on a wire that goes nowhere.
        (Fault::WrongEnd(1, 0, text("1a+")), "5", Some(4.0)),
        (Fault::WrongEnd(1, 1, text("2b+")), "5", None),
        (Fault::Extra(text("1a+"), text("1a-"), 4), "5", Some(4.0)),
        // A wire that is not there yet.
        (Fault::Extra(text("1a+"), text("1a-"), 10), "5", Some(8.0)),
        (Fault::Loose(1, At::To, 3.0), "5", Some(11.0)),
        (Fault::Loose(7, At::To, 3.0), "22.joined.7", Some(0.0)),
        (Fault::Loose(7, At::Along, 3.0), "22.joined.7", Some(3.0)),
        (Fault::Strand(text("1a-"), text("1b-"), 4), "5", Some(4.0)),
        (Fault::Strand(text("cup1-"), text("cup1+"), 11), "14", Some(0.0)),
        (Fault::CoilOpen(text("1b")), "22", Some(8.0)),
        (Fault::CoilShort(text("1b"), 0.05), "5", Some(4.05)),
        (Fault::Turns(text("1b"), 0.5), "5", Some(6.0)),
        (Fault::OtherDriver(1, 2.0, 0.75), "5", Some(12.0)),
        (Fault::OtherDriver(1, 2.0, 0.75), "9", Some(8.0)),
        (Fault::OtherGroup(1, 0.5, 1.0), "22", Some(2.0)),
        (Fault::Reversed(1), "22", Some(4.0)),
        (Fault::Leads(1.0), "5", Some(9.0)),
        (Fault::Meter(1.5), "5", Some(12.0)),
        (Fault::Crossed(vec![(7, 9)]), "20", None),
        (Fault::Crossed(vec![(7, 9), (8, 10)]), "20", Some(8.0)),
    ];
    for (fault, point, expected) in table {
        let found = felt(&plan, &fault.built(&plan, &coils, 0.0), point);
        let near = found.zip(expected).is_some_and(|(found, is)| (found - is).abs() < 0.06);
        assert!(near || found == expected, "{fault:?} at {point}: {found:?}, {expected:?}");
    }
}

#[test]
fn a_meter_keeps_within_what_is_printed_on_it() {
    let mut dice = Dice::of(7, "a meter");
    let mut seen = [f64::MAX, f64::MIN];
    for _ in 0..2000 {
        let Shown::Ohms(read) = show(Some(10.0), &mut dice) else { panic!("it is not open") };
        assert!((read - 10.0).abs() <= 0.1 + 0.2 + 1e-9, "{read}");
        assert!((read * 10.0 - (read * 10.0).round()).abs() < 1e-9, "{read} in tenths");
        seen = [seen[0].min(read), seen[1].max(read)];
    }
    assert!(seen[0] <= 9.8 && seen[1] >= 10.2, "{seen:?}: it errs");
    assert_eq!(show(None, &mut dice), Shown::Open);
    assert_eq!(show(Some(RANGE * 1.1), &mut dice), Shown::Open);
    assert_eq!(touched(0.26), Shown::Ohms(0.3));
}

#[test]
fn a_case_is_drawn_alike_each_time_and_every_kind_can_be() {
    for kind in PRINCIPAL.into_iter().chain(FURTHER) {
        let case = Case { seed: 3, known: Known::Nominal, kind, index: 0 };
        let (one, fault) = case.drawn().expect(kind);
        let (two, same) = case.drawn().unwrap();
        assert_eq!((one.request, one.key, one.coils), (two.request, two.key, two.coils));
        assert_eq!(fault, same);
        assert!(fault.kind() == kind || kind == "tied_run", "{kind}: {fault:?}");
        let other = Case { index: 1, ..case }.drawn().unwrap();
        assert_ne!(other.0.seed, one.seed);
    }
}

fn of_four() -> Rig {
    let request = json!({"drivers": [{"count": 4, "coils": 1, "ohms": 4}]});
    let plan = plan(&request, "1a||2a||3a||4a");
    let coils = coils(&plan, 0.95);
    let known = Known::Nominal;
    Rig {
        key: plan.key.clone(),
        coils,
        request,
        plan,
        leads: 0.2,
        known,
        leads_read: true,
        seed: 1,
    }
}

#[test]
fn what_is_named_is_held_to_what_is_wrong() {
    let rig = of_four();
    let end = |coil: &str, sign: &str| json!({"at": "coil", "number": 1, "pair": null, "coil": coil, "sign": sign});
    let named = |fault: Value| json!({"faults": [fault]});
    let wire = |kind: &str, a: Value, b: Value| named(json!({"kind": kind, "terminals": [a, b]}));
    let last = last(&rig.plan).act;
    let short = Fault::CoilShort("2a".to_owned(), 0.0);
    for (truth, told, expected) in [
        (Fault::Missing(5), named(json!({"kind": "missing", "run": 5})), Named::Itself),
        (Fault::Missing(5), named(json!({"kind": "missing", "run": 3})), Named::Other),
        // To a meter an open run is open, whatever opens it.
        (Fault::Missing(7), named(json!({"kind": "capacitor", "run": 7})), Named::Alike),
        (Fault::Missing(5), named(json!({"kind": "nothing"})), Named::Other),
        // A strand of the wire on 2a − stays on 2a + when that is lifted: as a shorted coil.
        (short, wire("strand", end("2a", "-"), end("2a", "+")), Named::Alike),
        (Fault::Turns("2a".to_owned(), 0.5), named(json!({"kind": "nothing"})), Named::Other),
        (Fault::Turns("2a".to_owned(), 0.97), named(json!({"kind": "nothing"})), Named::Alike),
        (Fault::Turns("2a".to_owned(), 0.9), named(json!({"kind": "nothing"})), Named::Near),
        (Fault::Reversed(1), named(json!({"kind": "reversed"})), Named::Itself),
    ] {
        assert_eq!(of(&rig, &truth, &told, last), expected, "{truth:?}, {told}");
    }
}

#[test]
fn a_job_on_a_sound_rig_is_done_and_one_on_a_spoilt_one_is_noticed() {
    let mut rig = of_four();
    let sound = job(&rig, &Fault::Nothing);
    assert_eq!((sound.noticed, sound.wrong), (None, false));
    let open = job(&rig, &Fault::Missing(8));
    assert_eq!(open.noticed.map(|(_, agreement)| agreement).as_deref(), Some("open"));
    assert_eq!(open.named, Named::Itself);
    // Without the first reading it is taken where no verdict is given before it.
    rig.leads_read = false;
    let entries = job(&rig, &Fault::Nothing).entries;
    assert_eq!(entries[0]["point"], "1", "{entries:?}");
}

#[test]
fn a_bench_spoilt_is_seen() {
    // Wires of the plan taken out of what is built, one at a time: every one is felt somewhere.
    let rig = rig(11, Known::Nominal);
    let sound = Built::sound(&rig.plan, &rig.coils, rig.leads);
    for run in &rig.plan.runs {
        let mut spoilt = sound.clone();
        spoilt.wires.retain(|wire| wire.what != What::Run(run.number));
        let differs =
            |point: &Point| match (sound.felt(&rig.plan, point), spoilt.felt(&rig.plan, point)) {
                (Some(one), Some(two)) => (one - two).abs() > 0.1,
                (one, two) => one.is_some() != two.is_some(),
            };
        assert!(rig.plan.points.iter().any(differs), "run {}", run.number);
    }
}
