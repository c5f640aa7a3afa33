//! Bridges, unlike channels and several amplifiers: the trade's own cases.

#[path = "bridged/decimals.rs"]
mod decimals;

use coilwright_solver::answer::{Answer, Configuration, Output, Way};
use coilwright_solver::judge::Basis;
use coilwright_solver::judge::Verdict::{Fits, FitsByDerivation, NotStated, TooLow};
use coilwright_solver::rig::AmplifierDraft;
use proof::generate::{cases, stated};
use proof::rigs::{Drivers, Filters, Stated, drivers, list_on};
use proof::ways::{amplifier, several};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

const SILENT: Stated = Stated { least: None, rated: &[] };
/// Worked by hand from: each channel 150 W at 4 Ω, 250 W at 2 Ω, least load 2 Ω.
const EACH: Stated = Stated { least: Some("2"), rated: &[("4", 150.0), ("2", 250.0)] };
const FROM_FOUR: Stated = Stated { least: Some("4"), rated: &[] };

fn stereo(bridge: Stated) -> AmplifierDraft {
    amplifier(&[EACH, EACH], &[([1, 2], bridge)])
}

fn of_key<'a>(answer: &'a Answer, key: &str) -> &'a Configuration {
    let found = answer.configurations.iter().find(|one| one.key() == key);
    found.unwrap_or_else(|| {
        let keys: Vec<String> = answer.configurations.iter().map(Configuration::key).collect();
        panic!("no {key} in {keys:?}")
    })
}

fn keys(answer: &Answer) -> Vec<String> {
    let mut keys: Vec<String> = answer.configurations.iter().map(Configuration::key).collect();
    keys.sort();
    keys
}

/// The outputs with these channels and this load, whatever else the rig can do.
fn output(rig: &[Drivers], on: AmplifierDraft, key: &str) -> Output {
    let answer = list_on(rig, Some(on), Filters::OFF);
    let found = of_key(&answer, key);
    assert_eq!(found.outputs.len(), 1, "{key}");
    found.outputs[0].clone()
}

#[track_caller]
fn near(found: f64, want: f64, within: f64) {
    assert!((found - want).abs() <= within, "{found}, expected {want}");
}

/// Worked by hand: two channels, each 150 W at 4 Ω and 250 W at 2 Ω, bridged without
/// figures of the bridge: 500 W into 4 Ω, which is 44.7 V; 300 W into 8 Ω; at 2 Ω each
/// channel would see 1 Ω.
#[test]
fn a_bridge_without_figures_gives_twice_the_power_at_half_the_load() {
    for (load, watts) in [("4", 500.0), ("8", 300.0)] {
        let found = output(&[drivers(1, 1, load)], stereo(SILENT), "1+2:1a");
        assert_eq!((found.way, &found.channels[..]), (Some(Way::Bridged), &[1, 2][..]));
        assert_eq!(found.verdict, FitsByDerivation, "{load} Ω");
        let power = found.available.unwrap();
        assert_eq!(power.basis, Basis::Derived);
        near(power.low, watts, 1e-9);
        near(power.high, watts, 1e-9);
    }
    let volts = (500.0 * 4.0_f64).sqrt();
    near(volts, 44.7, 0.05);
    // Half of it stands across each channel, whose 2 Ω take 250 W.
    near((volts / 2.0).powi(2) / 2.0, 250.0, 1e-9);
    let low = output(&[drivers(1, 1, "2")], stereo(SILENT), "1+2:1a");
    assert_eq!((low.verdict, low.available), (TooLow, None));
    // Stable at 4 Ω exactly, not a ten-thousandth below.
    let below = output(&[drivers(1, 1, "3.9999")], stereo(SILENT), "1+2:1a");
    assert_eq!(below.verdict, TooLow);
}

/// The same by what the rig gets: two dual 4 Ω drivers of 250 W.
#[test]
fn the_bridge_is_offered_beside_the_channels_and_stands_for_what_it_gives() {
    let rig = [drivers(2, 2, "4").rated(250.0)];
    let answer = list_on(&rig, Some(stereo(SILENT)), Filters::ON);
    // Worked by hand: each driver 2 or 8 Ω; together 1, 4 (two ways), 16 Ω on one channel
    // or on the bridge; on two channels each 2 or each 8 Ω.
    let want = [
        "1+2:(1a+1b)||(2a+2b)",
        "1+2:(1a||1b)+(2a||2b)",
        "1+2:1a+1b+2a+2b",
        "1+2:1a||1b||2a||2b",
        "1:(1a+1b)||(2a+2b)",
        "1:(1a||1b)+(2a||2b)",
        "1:1a+1b+2a+2b",
        "1:1a+1b;2:2a+2b",
        "1:1a||1b;2:2a||2b",
        "1:1a||1b||2a||2b",
    ];
    let mut want: Vec<String> = want.map(str::to_owned).into();
    want.sort();
    assert_eq!(keys(&answer), want);
    // 2 × 250 W stated before 500 W derived.
    assert_eq!(answer.configurations[0].key(), "1:1a||1b;2:2a||2b");
    assert_eq!(answer.configurations[0].verdict, Fits);
    let watts: f64 =
        answer.configurations[0].outputs.iter().filter_map(|output| output.target_watts).sum();
    near(watts, 500.0, 1e-9);
    for key in ["1+2:(1a+1b)||(2a+2b)", "1+2:(1a||1b)+(2a||2b)"] {
        let bridged = of_key(&answer, key);
        assert_eq!(bridged.verdict, FitsByDerivation);
        near(bridged.outputs[0].target_watts.unwrap(), 500.0, 1e-9);
    }
    assert_eq!(of_key(&answer, "1+2:1a||1b||2a||2b").verdict, TooLow);
}

/// What the maker states of a bridge counts, whatever its channels would give.
#[test]
fn figures_of_the_bridge_itself_stand_before_derived_ones() {
    let bridge = Stated { least: Some("8"), rated: &[("8", 280.0)] };
    let at = |load: &str| output(&[drivers(1, 1, load)], stereo(bridge.clone()), "1+2:1a");
    assert_eq!(at("8").verdict, Fits);
    let power = at("8").available.unwrap();
    assert_eq!((power.low, power.high, power.basis), (280.0, 280.0, Basis::Stated));
    // Derived it would fit: 4 Ω is twice the channels' 2 Ω.
    assert_eq!(at("4").verdict, TooLow);
    let power = at("16").available.unwrap();
    assert_eq!((power.low, power.basis), (140.0, Basis::Extrapolated));
    // A least load alone is stated; the power still follows from the channels.
    let least = |load: &str| output(&[drivers(1, 1, load)], stereo(FROM_FOUR), "1+2:1a");
    assert_eq!(least("4").verdict, Fits);
    let power = least("4").available.unwrap();
    assert_eq!((power.low, power.basis), (500.0, Basis::Derived));
    assert_eq!(least("2").verdict, TooLow);
}

/// Bridging: each channel sees half the load; at the same load per channel a bridge gives
/// twice the power of one channel, 50 W into 4 Ω per channel 100 W into 8 Ω (common
/// practice, no source). A stiff supply, worked by hand: 50 W into 4 Ω is 100 W into 2 Ω
/// at the same voltage, and so ideally 200 W into 4 Ω bridged.
#[test]
fn fifty_watts_a_channel_are_a_hundred_bridged_into_twice_the_load() {
    let each = Stated { least: Some("2"), rated: &[("4", 50.0)] };
    let stiff = Stated { least: Some("2"), rated: &[("4", 50.0), ("2", 100.0)] };
    let at = |load: &str, each: &Stated| {
        let on = amplifier(&[each.clone(), each.clone()], &[([1, 2], SILENT)]);
        output(&[drivers(1, 1, load)], on, "1+2:1a").available.unwrap()
    };
    near(at("8", &each).low, 100.0, 1e-9);
    near(at("8", &stiff).low, 100.0, 1e-9);
    near(at("4", &stiff).low, 200.0, 1e-9);
    // Without a figure at 2 Ω the channel gives 25 to 100 W there.
    near(at("4", &each).low, 50.0, 1e-9);
    near(at("4", &each).high, 200.0, 1e-9);
}

/// Worked by hand: the weaker channel of an unlike pair sets the bridge, since the same
/// current flows through both.
#[test]
fn the_weaker_channel_sets_a_bridge_of_two_unlike_ones() {
    let strong = Stated { least: Some("1"), rated: &[("4", 300.0), ("2", 500.0)] };
    for channels in [[EACH, strong.clone()], [strong, EACH]] {
        let on = amplifier(&channels, &[([1, 2], SILENT)]);
        let at = |load: &str| output(&[drivers(1, 1, load)], on.clone(), "1+2:1a");
        near(at("8").available.unwrap().low, 300.0, 1e-9);
        near(at("4").available.unwrap().low, 500.0, 1e-9);
        assert_eq!(at("4").verdict, FitsByDerivation);
        assert_eq!(at("2").verdict, TooLow);
    }
}

/// A bridge between channels that state nothing is not judged.
#[test]
fn a_bridge_of_which_nothing_is_known_is_not_stated() {
    let on = amplifier(&[SILENT, SILENT], &[([1, 2], SILENT)]);
    let found = output(&[drivers(1, 1, "4")], on, "1+2:1a");
    assert_eq!((found.verdict, found.available), (NotStated, None));
}

proptest! {
    #![proptest_config(cases(96))]

    /// Each channel of a bridge sees half the load (common practice, no source): whatever
    /// the channels state, the bridge into R is two of them into R/2.
    #[test]
    fn a_bridge_into_a_load_is_two_channels_into_half_of_it(
        each in stated(), p in 1_u32..=400, q in 1_u32..=10
    ) {
        let (half, whole) = (format!("{p}/{q}"), format!("{}/{q}", 2 * p));
        let on = amplifier(&[each.clone(), each.clone()], &[([1, 2], SILENT)]);
        let bridge = output(&[drivers(1, 1, &whole)], on, "1+2:1a");
        let channel = output(&[drivers(1, 1, &half)], each.mono(), "1:1a");
        match channel.verdict {
            Fits => prop_assert_eq!(bridge.verdict, FitsByDerivation),
            NotStated => prop_assert_eq!(bridge.verdict, NotStated),
            // Below the least load, or below the lowest rated that stands in for it.
            _ => prop_assert_eq!(bridge.verdict, TooLow),
        }
        prop_assert_eq!(bridge.available.is_some(), channel.available.is_some());
        if let (Some(bridge), Some(channel)) = (bridge.available, channel.available) {
            prop_assert!((bridge.low / channel.low - 2.0).abs() < 1e-12);
            prop_assert!((bridge.high / channel.high - 2.0).abs() < 1e-12);
            prop_assert_eq!(bridge.basis, Basis::Derived);
        }
    }
}

/// Four channels, bridges 1+2 and 3+4 stated from 4 Ω, four single 4 Ω drivers (worked by
/// hand): two in series on each bridge are 8 Ω, two in parallel 2 Ω.
#[test]
fn eight_ohms_on_each_of_two_bridges_fit_and_two_do_not() {
    let on = amplifier(&[EACH, EACH, EACH, EACH], &[([1, 2], FROM_FOUR), ([3, 4], FROM_FOUR)]);
    let rig = [drivers(4, 1, "4").rated(150.0)];
    for filters in Filters::ALL {
        let answer = list_on(&rig, Some(on.clone()), filters);
        let series = of_key(&answer, "1+2:1a+2a;3+4:3a+4a");
        assert_eq!(series.verdict, Fits);
        let outputs: Vec<_> = series
            .outputs
            .iter()
            .map(|output| (output.way, output.channels.clone(), output.load.to_string()))
            .collect();
        let bridge = |channels: [u32; 2]| (Some(Way::Bridged), channels.to_vec(), "8".to_owned());
        assert_eq!(outputs, [bridge([1, 2]), bridge([3, 4])]);
        assert_eq!(series.driver_shares, [0.25; 4]);
        let parallel = of_key(&answer, "1+2:1a||2a;3+4:3a||4a");
        assert_eq!(parallel.verdict, TooLow);
        assert!(parallel.outputs.iter().all(|output| output.load.to_string() == "2"));
        // One driver on each channel, and all on one channel or one bridge, stand there too.
        assert_eq!(of_key(&answer, "1:1a;2:2a;3:3a;4:4a").verdict, Fits);
        assert_eq!(of_key(&answer, "1+2:1a||2a||3a||4a").verdict, TooLow);
        assert_eq!(of_key(&answer, "1:1a+2a+3a+4a").verdict, Fits);
    }
}

/// Every pair of channels that stands as one output anywhere in a list.
fn bridges_used(answer: &Answer) -> BTreeSet<Vec<u32>> {
    let outputs = answer.configurations.iter().flat_map(|one| &one.outputs);
    let bridged = outputs.filter(|output| output.way == Some(Way::Bridged));
    bridged.map(|output| output.channels.clone()).collect()
}

#[test]
fn only_the_bridges_the_maker_names_appear_and_no_channel_serves_twice() {
    let all = [EACH, EACH, EACH, EACH];
    type Case = (&'static [[u32; 2]], &'static [[u32; 2]]);
    let cases: [Case; 5] = [
        (&[], &[]),
        (&[[1, 2]], &[[1, 2]]),
        (&[[1, 2], [3, 4]], &[[1, 2], [3, 4]]),
        (&[[4, 1]], &[[1, 4]]),
        (&[[1, 3], [4, 2]], &[[1, 3], [2, 4]]),
    ];
    for (named, want) in cases {
        let bridges: Vec<_> = named.iter().map(|pair| (*pair, FROM_FOUR)).collect();
        let on = amplifier(&all, &bridges);
        let answer = list_on(&[drivers(4, 1, "4")], Some(on), Filters::OFF);
        let want: BTreeSet<Vec<u32>> = want.iter().map(|pair| pair.to_vec()).collect();
        assert_eq!(bridges_used(&answer), want, "bridges {named:?}");
        for configuration in &answer.configurations {
            let key = configuration.key();
            let used: Vec<u32> =
                configuration.outputs.iter().flat_map(|one| one.channels.clone()).collect();
            let different: BTreeSet<u32> = used.iter().copied().collect();
            assert_eq!(different.len(), used.len(), "{key}: a channel serves twice");
            assert!(configuration.outputs.len() == 1 || used.len() == 4, "{key}: some are idle");
            for output in &configuration.outputs {
                let channels = if output.way == Some(Way::Bridged) { 2 } else { 1 };
                assert_eq!(output.channels.len(), channels, "{key}");
                assert!(!output.network.coils().is_empty(), "{key}: an output carries nothing");
            }
        }
    }
}

/// Four channels alike and one strong, as cars have them (common practice, no source):
/// four drivers for the doors of 4 Ω and one of 2 Ω for the strong channel.
#[test]
fn five_channels_with_a_strong_one() {
    let strong = Stated { least: Some("1"), rated: &[("4", 250.0), ("2", 400.0), ("1", 600.0)] };
    let on =
        amplifier(&[EACH, EACH, EACH, EACH, strong], &[([1, 2], FROM_FOUR), ([3, 4], FROM_FOUR)]);
    let rig = [drivers(4, 1, "4").rated(100.0), drivers(1, 1, "2").rated(500.0)];
    let answer = list_on(&rig, Some(on.clone()), Filters::ON);
    let apart = of_key(&answer, "1:1a;2:2a;3:3a;4:4a;5:5a");
    assert_eq!(apart.verdict, Fits);
    assert!(apart.even);
    let targets: Vec<f64> = apart.outputs.iter().filter_map(|output| output.target_watts).collect();
    assert_eq!(targets, [100.0, 100.0, 100.0, 100.0, 400.0]);
    let bridged = of_key(&answer, "1+2:1a+2a;3+4:3a+4a;5:5a");
    assert_eq!(bridged.verdict, Fits);
    let loads: Vec<String> = bridged.outputs.iter().map(|output| output.load.to_string()).collect();
    assert_eq!(loads, ["8", "8", "2"]);
    // The strong one is not exchanged for the others: the same drivers the other way
    // round are another configuration, uneven between like channels.
    let uneven = list_on(&rig, Some(on), Filters { joined: true, even: false });
    let other = of_key(&uneven, "1:1a;2:2a;3:3a;4:5a;5:4a");
    assert!(!other.even);
    // One channel alone: the first of the four stands for all of them.
    let alone: BTreeSet<Vec<u32>> = uneven
        .configurations
        .iter()
        .filter(|one| one.outputs.len() == 1)
        .map(|one| one.outputs[0].channels.clone())
        .collect();
    assert_eq!(alone, [vec![1], vec![5], vec![1, 2]].into());
}

/// Worked by hand: two equal drivers on two mono amplifiers, both on one of them or one
/// on each.
#[test]
fn two_mono_amplifiers() {
    let mono = Stated { least: Some("1"), rated: &[("4", 300.0), ("2", 500.0)] };
    let rig = [drivers(2, 1, "4").rated(600.0)];
    let answer = list_on(&rig, Some(several(2, mono.mono())), Filters::OFF);
    assert_eq!(keys(&answer), ["1:1a+2a", "1:1a;2:2a", "1:1a||2a"]);
    let each = of_key(&answer, "1:1a;2:2a");
    assert_eq!(each.verdict, Fits);
    let watts: Vec<_> = each.outputs.iter().map(|output| output.target_watts).collect();
    assert_eq!(watts, [Some(300.0), Some(300.0)]);
    // 600 W of two before 500 W of one: 0.79 dB (worked by hand).
    assert_eq!(answer.configurations[0].key(), "1:1a;2:2a");
    // Amplifiers are never bridged with each other.
    assert!(bridges_used(&answer).is_empty());
}

/// Worked by hand: a dual-coil driver with a coil on each of two like amplifiers.
#[test]
fn a_driver_is_split_between_two_like_amplifiers_when_coils_need_not_be_joined() {
    let mono = Stated { least: Some("1"), rated: &[("4", 300.0)] };
    let rig = [drivers(1, 2, "4").rated(600.0)];
    let two = several(2, mono.mono());
    let answer = list_on(&rig, Some(two.clone()), Filters::OFF);
    assert_eq!(keys(&answer), ["1:1a+1b", "1:1a;2:1b", "1:1a||1b"]);
    let split = of_key(&answer, "1:1a;2:1b");
    assert_eq!((split.split_driver, split.joined_at_driver, split.even), (Some(0), false, true));
    assert_eq!((&split.coil_shares[..], &split.driver_shares[..]), (&[0.5; 2][..], &[1.0][..]));
    let watts: Vec<_> = split.outputs.iter().map(|output| output.target_watts).collect();
    assert_eq!(watts, [Some(300.0), Some(300.0)]);
    let joined = list_on(&rig, Some(two), Filters::ON);
    assert_eq!(keys(&joined), ["1:1a+1b", "1:1a||1b"]);
    assert!(joined.configurations.iter().all(|one| one.split_driver.is_none()));
}

/// Worked by hand: two amplifiers of two channels that bridge are four channels with the
/// bridges 1+2 and 3+4; 2+3 would join two amplifiers.
#[test]
fn bridges_stay_within_their_amplifier() {
    let on = several(2, stereo(FROM_FOUR));
    let answer = list_on(&[drivers(4, 1, "4")], Some(on), Filters::OFF);
    assert_eq!(bridges_used(&answer), [vec![1, 2], vec![3, 4]].into());
    assert_eq!(of_key(&answer, "1+2:1a+2a;3+4:3a+4a").verdict, Fits);
    assert_eq!(of_key(&answer, "1:1a;2:2a;3:3a;4:4a").verdict, Fits);
    assert_eq!(of_key(&answer, "1+2:1a;3:2a+3a;4:4a").verdict, Fits);
}

/// Worked by hand: with two on one channel and one on the other, at the same voltage a
/// load of 2 Ω takes twice the power of one of 4 Ω.
#[test]
fn shares_over_two_channels_are_those_at_the_same_voltage() {
    let on = amplifier(&[EACH, EACH], &[]);
    let answer = list_on(&[drivers(3, 1, "4")], Some(on), Filters::OFF);
    let found: BTreeMap<String, Vec<f64>> =
        answer.configurations.iter().map(|one| (one.key(), one.driver_shares.clone())).collect();
    let third = 1.0 / 3.0;
    for (share, want) in found["1:1a||2a;2:3a"].iter().zip([third; 3]) {
        near(*share, want, 1e-15);
    }
    // 8 Ω beside 4 Ω: a third of the power for the two in series.
    for (share, want) in found["1:1a+2a;2:3a"].iter().zip([third / 2.0, third / 2.0, 2.0 * third]) {
        near(*share, want, 1e-15);
    }
}

/// Tied pairs of terminals are one output (common practice, no source): a channel with
/// two of them is still one, but is not taken for one with a single pair.
#[test]
fn two_pairs_of_one_channel_are_no_second_output() {
    let mut on = amplifier(&[EACH], &[]);
    on.channels[0].terminal_pairs = Some(2);
    let answer = list_on(&[drivers(2, 1, "4")], Some(on), Filters::OFF);
    assert_eq!(keys(&answer), ["1:1a+2a", "1:1a||2a"]);
    let mut two = amplifier(&[EACH, EACH], &[]);
    two.channels[1].terminal_pairs = Some(2);
    let answer = list_on(&[drivers(2, 1, "4")], Some(two), Filters::OFF);
    assert_eq!(keys(&answer), ["1:1a+2a", "1:1a;2:2a", "1:1a||2a", "2:1a+2a", "2:1a||2a"]);
}
