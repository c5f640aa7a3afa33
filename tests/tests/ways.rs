//! Every way to use an amplifier: against trying everything, against a count that lists
//! nothing, and against the physics of nodes.

use coilwright_solver::answer::key::Key;
use coilwright_solver::answer::{Answer, Configuration, answer};
use coilwright_solver::bounds::MOST_CONFIGURATIONS;
use coilwright_solver::problem::Code;
use coilwright_solver::rig::AmplifierDraft;
use proof::campaign::{compared, so_many};
use proof::nodal::Circuit;
use proof::rigs::{Drivers, Filters, Stated, drivers, group_of, list_on, ohms, request, written};
use proof::tree::Leaf;
use proof::ways::{Deal, Everything, Form, Outlets, amplifier, counted, every_deal, several};
use std::collections::{BTreeMap, BTreeSet};

const WEAK: Stated = Stated { least: Some("2"), rated: &[("4", 150.0), ("2", 250.0)] };
const STRONG: Stated =
    Stated { least: Some("1"), rated: &[("4", 300.0), ("2", 500.0), ("1", 800.0)] };
const OTHER: Stated = Stated { least: None, rated: &[("4", 75.0)] };
const BRIDGE: Stated = Stated { least: Some("4"), rated: &[("4", 500.0), ("8", 300.0)] };
const SILENT: Stated = Stated { least: None, rated: &[] };

/// Amplifiers of one to five channels, alike or not, with and without bridges.
fn all_amplifiers() -> Vec<(&'static str, AmplifierDraft)> {
    let both = |own: Stated| [([1, 2], own.clone()), ([3, 4], own)];
    let mut tied = amplifier(&[WEAK, WEAK, WEAK], &[]);
    tied.channels[1].terminal_pairs = Some(2);
    vec![
        ("one channel", STRONG.mono()),
        ("two alike", amplifier(&[WEAK, WEAK], &[])),
        ("two alike that bridge", amplifier(&[WEAK, WEAK], &[([1, 2], SILENT)])),
        ("two unlike", amplifier(&[WEAK, STRONG], &[])),
        ("two unlike that bridge", amplifier(&[WEAK, STRONG], &[([2, 1], SILENT)])),
        ("three alike", amplifier(&[WEAK, WEAK, WEAK], &[])),
        ("three, the last two bridging", amplifier(&[WEAK, WEAK, WEAK], &[([2, 3], BRIDGE)])),
        ("three, one with two pairs", tied),
        ("four alike", amplifier(&[WEAK, WEAK, WEAK, WEAK], &[])),
        ("four alike, two bridges", amplifier(&[WEAK, WEAK, WEAK, WEAK], &both(BRIDGE))),
        ("four alike, derived bridges", amplifier(&[WEAK, WEAK, WEAK, WEAK], &both(SILENT))),
        ("two and two, derived", amplifier(&[WEAK, WEAK, STRONG, STRONG], &both(SILENT))),
        ("two and two, bridges alike", amplifier(&[WEAK, WEAK, STRONG, STRONG], &both(BRIDGE))),
        ("mirrored pairs", amplifier(&[WEAK, STRONG, STRONG, WEAK], &both(SILENT))),
        ("four, three kinds", amplifier(&[WEAK, OTHER, WEAK, STRONG], &[([1, 3], SILENT)])),
        ("four and a strong one", amplifier(&[WEAK, WEAK, WEAK, WEAK, STRONG], &both(BRIDGE))),
        ("two mono", several(2, STRONG.mono())),
        ("three mono", several(3, OTHER.mono())),
        ("two of two", several(2, amplifier(&[WEAK, WEAK], &[([1, 2], SILENT)]))),
        ("two of two unlike", several(2, amplifier(&[WEAK, STRONG], &[([1, 2], BRIDGE)]))),
    ]
}

/// Rigs of up to five coils: single and dual, equal and unlike, rated and not.
fn small_rigs() -> Vec<Vec<Drivers>> {
    vec![
        vec![drivers(1, 1, "4")],
        vec![drivers(2, 1, "4")],
        vec![drivers(3, 1, "4")],
        vec![drivers(4, 1, "4").rated(100.0)],
        vec![drivers(5, 1, "2")],
        vec![drivers(1, 2, "4")],
        vec![drivers(2, 2, "2").rated(500.0)],
        vec![drivers(1, 4, "2")],
        vec![drivers(1, 1, "4"), drivers(1, 1, "8")],
        vec![drivers(1, 1, "4"), drivers(1, 1, "4")],
        vec![drivers(2, 1, "4").rated(100.0), drivers(2, 1, "8").rated(100.0)],
        vec![drivers(2, 1, "4").rated(200.0), drivers(1, 1, "8").rated(100.0)],
        vec![drivers(1, 2, "4").rated(200.0), drivers(2, 1, "4").rated(100.0)],
        vec![drivers(1, 2, "4"), drivers(1, 2, "2")],
        vec![drivers(2, 2, "4"), drivers(1, 1, "8")],
        vec![drivers(1, 2, "2"), drivers(1, 1, "2"), drivers(1, 1, "2")],
        vec![drivers(1, 1, "4"), drivers(1, 1, "2"), drivers(1, 1, "8"), drivers(1, 1, "6")],
        vec![drivers(1, 4, "4").rated(400.0), drivers(1, 1, "4").rated(100.0)],
    ]
}

fn forms(answer: &Answer, outlets: &Outlets) -> Vec<(String, Form)> {
    let form = |one: &Configuration| (one.key(), Form::of(&outlets.read(&one.key())));
    answer.configurations.iter().map(form).collect()
}

#[test]
fn the_listing_is_what_trying_everything_leaves() {
    let mut compared = 0;
    for (name, on) in all_amplifiers() {
        let outlets = Outlets::of(Some(&on));
        for rig in small_rigs() {
            let everything = Everything::of(&rig, &outlets);
            for filters in Filters::ALL {
                let name = format!("{} on {name} {filters:?}", written(&rig));
                let want = everything.passing(&rig, filters);
                let answer = list_on(&rig, Some(on.clone()), filters);
                let mut found = BTreeSet::new();
                for (key, form) in forms(&answer, &outlets) {
                    let new = found.insert(everything.class(&form));
                    assert!(new, "{name}: {key} is listed before");
                }
                let example = |class: &usize| outlets.writings(&everything.examples()[*class]);
                let missing: Vec<_> = want.difference(&found).map(example).collect();
                let wrong: Vec<_> = found.difference(&want).map(example).collect();
                assert!(missing.is_empty(), "{name}: not listed: {missing:?}");
                assert!(wrong.is_empty(), "{name}: listed against the filters: {wrong:?}");
                assert_eq!(answer.total, Some(want.len() as u64), "{name}");
                let before = everything.examples().len() as u64;
                assert_eq!(answer.before_filters, Some(before), "{name}");
                compared += want.len();
            }
        }
    }
    assert!(compared > 10_000, "{compared} configurations compared");
}

/// One to four drivers, single and dual coil, equal and unlike.
fn rigs_to_deal() -> Vec<Vec<Drivers>> {
    let different = ["4", "2", "8", "6"];
    let mut rigs = Vec::new();
    for coils in [1, 2] {
        for n in 1..=4 {
            rigs.push(vec![drivers(n, coils, "4")]);
            let all: Vec<Drivers> =
                different[..n as usize].iter().map(|ohms| drivers(1, coils, ohms)).collect();
            rigs.push(all);
        }
        rigs.push(vec![drivers(2, coils, "4"), drivers(2, coils, "8")]);
        rigs.push(vec![drivers(3, coils, "4"), drivers(1, coils, "8")]);
        rigs.push(vec![drivers(1, coils, "4"), drivers(2, coils, "8")]);
    }
    rigs.push(vec![drivers(2, 2, "4"), drivers(2, 1, "4")]);
    rigs.push(vec![drivers(1, 2, "4"), drivers(3, 1, "4")]);
    rigs.push(vec![drivers(1, 2, "4"), drivers(1, 2, "8"), drivers(2, 1, "4")]);
    rigs.push(vec![drivers(1, 2, "4"), drivers(1, 1, "8"), drivers(1, 1, "4")]);
    rigs
}

/// Which deals a list holds.
fn deals(answer: &Answer, outlets: &Outlets, rig: &[Drivers]) -> BTreeSet<Deal> {
    forms(answer, outlets).into_iter().map(|(_, form)| form.deal(rig)).collect()
}

/// Every deal has a configuration joined at the driver if it splits no driver, and any
/// deal one without filters: so the lists hold the deals.
#[test]
fn drivers_are_dealt_as_trying_every_placing_deals_them() {
    let (mut whole_deals, mut split_deals) = (0, 0);
    for (number, (name, on)) in all_amplifiers().into_iter().enumerate() {
        let outlets = Outlets::of(Some(&on));
        for (other, rig) in rigs_to_deal().into_iter().enumerate() {
            if !compared(number, other) {
                continue;
            }
            let name = format!("{} on {name}", written(&rig));
            let want = every_deal(&rig, &outlets);
            let is_split = |deal: &Deal| deal.0.iter().any(|portion| portion.half.is_some());
            let whole: BTreeSet<Deal> =
                want.iter().filter(|deal| !is_split(deal)).cloned().collect();
            let joined = list_on(&rig, Some(on.clone()), Filters { joined: true, even: false });
            assert_eq!(deals(&joined, &outlets, &rig), whole, "{name}");
            whole_deals += whole.len();
            // Beyond seven coils the whole list is long; the count below covers it.
            let coils: u32 = rig.iter().map(|group| group.count * group.coils).sum();
            if coils <= 6 {
                let all = list_on(&rig, Some(on.clone()), Filters::OFF);
                split_deals += want.len() - whole.len();
                assert_eq!(deals(&all, &outlets, &rig), want, "{name}");
            }
        }
    }
    let (whole, split) = (so_many(1_500, 3_000), so_many(250, 500));
    assert!(whole_deals > whole && split_deals > split, "{whole_deals} and {split_deals} deals");
}

/// Counts over all deals, networks counted and not listed.
#[test]
fn lists_are_as_long_as_counting_without_listing_finds() {
    let mut longest = 0;
    for (name, on) in all_amplifiers() {
        let outlets = Outlets::of(Some(&on));
        let larger = [vec![drivers(6, 1, "4")], vec![drivers(1, 4, "4"), drivers(1, 2, "4")]];
        for rig in small_rigs().into_iter().chain(rigs_to_deal()).chain(larger) {
            let name = format!("{} on {name}", written(&rig));
            let all = u64::try_from(counted(&rig, &outlets, false)).unwrap();
            let joined = u64::try_from(counted(&rig, &outlets, true)).unwrap();
            let mut asked = request(&rig, Some(on.clone()), Filters { joined: true, even: false });
            asked.limit = 0;
            let found = answer(asked);
            let before = Some(all).filter(|all| *all <= MOST_CONFIGURATIONS);
            assert_eq!((found.total, found.before_filters), (Some(joined), before), "{name}");
            if all <= 50_000 {
                let mut asked = request(&rig, Some(on.clone()), Filters::OFF);
                asked.limit = 0;
                assert_eq!(answer(asked).total, Some(all), "{name}");
                longest = longest.max(all);
            }
        }
    }
    assert!(longest > 20_000, "{longest} at most");
}

/// The networks of a key on any outlets of their kinds, outputs in any order, drivers
/// and coils exchanged: one key, and it is the one in the list.
#[test]
fn every_way_of_writing_reads_as_the_listed_key() {
    let mut read = 0;
    for (name, on) in all_amplifiers() {
        let outlets = Outlets::of(Some(&on));
        for rig in small_rigs().into_iter().filter(|rig| proof::brute::coils(rig).len() <= 4) {
            let everything = Everything::of(&rig, &outlets);
            let asked = request(&rig, Some(on.clone()), Filters::OFF);
            let listed: BTreeMap<usize, String> = forms(&answer(asked.clone()), &outlets)
                .into_iter()
                .map(|(key, form)| (everything.class(&form), key))
                .collect();
            for (form, class) in everything.forms() {
                for text in outlets.writings(form) {
                    let key = Key::read(&asked.rig, &text).map(|key| key.write());
                    let want = listed.get(&class).cloned().unwrap();
                    assert_eq!(key, Ok(want), "{} on {name}: {text}", written(&rig));
                    read += 1;
                }
            }
        }
    }
    assert!(read > 50_000, "{read} keys read");
}

/// What is no configuration of an amplifier: outputs it does not have, two that share a
/// channel, idle channels beside used ones, drivers torn apart.
#[test]
fn keys_that_are_no_configuration_are_refused() {
    let bridges = [([1, 2], BRIDGE), ([3, 4], BRIDGE)];
    let four = amplifier(&[WEAK, WEAK, WEAK, WEAK], &bridges);
    let singles = [drivers(4, 1, "4")];
    let (three, two) = ([drivers(3, 1, "4")], [drivers(2, 1, "4")]);
    let dual = [drivers(2, 2, "4")];
    let stereo = amplifier(&[WEAK, WEAK], &[([1, 2], BRIDGE)]);
    let unlike = amplifier(&[WEAK, STRONG], &[]);
    let cases: [(&[Drivers], &AmplifierDraft, &str, &str); 22] = [
        (&two, &four, "2+3:1a+2a", "a bridge nobody names"),
        (&two, &four, "1+4:1a+2a", "a bridge nobody names"),
        (&three, &four, "1:1a;2+3:2a;4:3a", "a bridge nobody names"),
        (&two, &four, "5:1a+2a", "a channel it does not have"),
        (&two, &four, "0:1a+2a", "a channel it does not have"),
        (&two, &four, "1+2+3+4:1a+2a", "four channels in one"),
        (&two, &four, "1+1:1a+2a", "a channel bridged to itself"),
        (&two, &four, ":1a+2a", "no channel"),
        (&two, &four, "1a+2a", "no channel"),
        (&two, &four, "1:1a;2:2a", "channels 3 and 4 idle"),
        (&two, &stereo, "1:1a;1:2a", "two networks on one channel"),
        (&two, &stereo, "1:1a", "a driver left out"),
        (&two, &stereo, "1:1a+2a;2:2a", "a coil used twice"),
        (&two, &stereo, "1+2:1a;1:2a", "a bridge and one of its channels"),
        (&two, &four, "1+2:1a;1+2:2a", "two networks on one bridge"),
        (&three, &four, "1+2:1a;1:2a;2:3a", "a bridge and its own channels"),
        (&three, &four, "1+2:1a;3:2a;3:3a", "two networks on one channel"),
        (&singles, &four, "1:1a;2:2a;3:3a;3:4a", "two networks on one channel"),
        (&dual, &stereo, "1:1a+2a;2:1b+2b", "two drivers split"),
        (&dual, &unlike, "1:1a+2a+2b;2:1b", "a driver split between unlike channels"),
        (&[drivers(1, 4, "4")], &stereo, "1:1a+1b;2:1c+1d", "a quad-coil driver split"),
        (&two, &stereo, "1:1a;2:", "nothing on a channel"),
    ];
    for (rig, on, text, why) in cases {
        let asked = request(rig, Some(on.clone()), Filters::OFF);
        let read = Key::read(&asked.rig, text).map(|key| key.write());
        let code = read.as_ref().map_err(|problem| problem.code);
        assert_eq!(code, Err(Code::UnknownConfiguration), "{text}: {why}");
    }
}

fn float(exact: proof::tree::Exact) -> f64 {
    *exact.numer() as f64 / *exact.denom() as f64
}

#[track_caller]
fn close(found: f64, want: f64, what: &str) {
    assert!((found - want).abs() <= 1e-9 * want.abs().max(1.0), "{what}: {found}, by nodes {want}");
}

/// Solves every output of a configuration as a circuit of its own with the same voltage
/// on each, and holds loads, shares, usable and target power to it.
fn solved_alike(rig: &[Drivers], configuration: &Configuration, outlets: &Outlets) {
    let exact = ohms(rig);
    let ohms = |leaf: Leaf| float(exact(leaf));
    let key = configuration.key();
    let name = format!("{} {key}", written(rig));
    let mut powers: Vec<(Leaf, f64)> = Vec::new();
    let hung = outlets.read(&key);
    assert_eq!(hung.len(), configuration.outputs.len(), "{name}");
    for ((outlet, tree), output) in hung.iter().zip(&configuration.outputs) {
        assert_eq!(outlet.channels, output.channels, "{name}");
        let solved = Circuit::of(tree).solved(&ohms);
        close(output.load.to_f64() / solved.load, 1.0, &name);
        powers.extend(solved.shares.iter().map(|(leaf, share)| (*leaf, share / solved.load)));
        let takes = |(leaf, share): &(Leaf, f64)| {
            let group = group_of(rig, leaf.driver);
            group.watts.map(|watts| watts / f64::from(group.coils) / share)
        };
        // The ratings of its own coils; what hangs elsewhere is nothing to it.
        let rated = solved.shares.iter().all(|one| takes(one).is_some());
        let usable = solved.shares.iter().filter_map(takes).fold(f64::INFINITY, f64::min);
        assert_eq!(output.usable_watts.is_some(), rated, "{name}");
        if let Some(found) = output.usable_watts {
            close(found / usable, 1.0, &name);
        }
        let target = output.available.filter(|_| rated).map(|power| power.low.min(usable));
        assert_eq!(output.target_watts.is_some(), target.is_some(), "{name}");
        if let (Some(found), Some(want)) = (output.target_watts, target) {
            close(found / want, 1.0, &name);
        }
    }
    powers.sort_by_key(|(leaf, _)| *leaf);
    let whole: f64 = powers.iter().map(|(_, power)| power).sum();
    assert_eq!(powers.len(), configuration.coil_shares.len(), "{name}");
    let mut drivers = vec![0.0; configuration.driver_shares.len()];
    for ((leaf, power), share) in powers.iter().zip(&configuration.coil_shares) {
        close(*share, power / whole, &name);
        drivers[usize::from(leaf.driver)] += power / whole;
    }
    for (share, want) in configuration.driver_shares.iter().zip(drivers) {
        close(*share, want, &name);
    }
}

#[test]
fn every_output_of_every_configuration_solves_alike_by_nodes() {
    let larger = [
        vec![drivers(3, 2, "1.4").rated(250.0)],
        vec![drivers(1, 4, "8/3").rated(400.0), drivers(2, 1, "0.7").rated(62.5)],
        vec![drivers(2, 1, "1000"), drivers(2, 1, "0.1"), drivers(1, 2, "3")],
        vec![drivers(1, 2, "7"), drivers(1, 1, "5"), drivers(1, 1, "3")],
    ];
    let mut solved = 0;
    for (_, on) in all_amplifiers() {
        let outlets = Outlets::of(Some(&on));
        for rig in small_rigs().into_iter().chain(larger.clone()) {
            for configuration in &list_on(&rig, Some(on.clone()), Filters::OFF).configurations {
                solved_alike(&rig, configuration, &outlets);
                solved += 1;
            }
        }
    }
    assert!(solved > 10_000, "{solved} configurations solved");
}
