//! The trade's own figures: what anyone who has wired a rig expects to read.

use coilwright_solver::answer::{Answer, Configuration, Output, Way};
use coilwright_solver::judge::Overheats::{AnyTime, Cannot, IfClipped};
use coilwright_solver::judge::Verdict::{
    self, BelowStated, Fits, FitsByDerivation, NotStated, TooLow,
};
use coilwright_solver::judge::{Basis, Overheats};
use coilwright_solver::rig::AmplifierDraft;
use proof::rigs::{Drivers, Filters, Stated, drivers, list, list_on, two_channels};

/// The loads of a list, rising, as exact text.
fn loads(answer: &Answer) -> Vec<String> {
    answer.loads.iter().map(|tally| tally.load.to_string()).collect()
}

/// The one output that one driver of so many ohms makes.
fn one_driver(ohms: &str, watts: Option<f64>, amplifier: AmplifierDraft) -> Output {
    let mut rig = [drivers(1, 1, ohms)];
    rig[0].watts = watts;
    let answer = list_on(&rig, Some(amplifier), Filters::ON);
    let all: Vec<&Configuration> = answer.configurations.iter().collect();
    assert_eq!(all.len(), 1, "one coil on one channel: one configuration");
    all[0].outputs[0].clone()
}

/// The configuration on a bridge with this load.
fn bridged(rig: &[Drivers], amplifier: AmplifierDraft, load: &str) -> Output {
    let answer = list_on(rig, Some(amplifier), Filters::ON);
    let outputs = answer.configurations.iter().flat_map(|one| &one.outputs);
    let mut found = outputs.filter(|output| output.way == Some(Way::Bridged));
    let found = found.find(|output| output.load.to_string() == load);
    let found = found.unwrap_or_else(|| panic!("no bridge carries {load} Ω"));
    assert_eq!(found.channels, [1, 2]);
    found.clone()
}

#[track_caller]
fn near(found: f64, want: f64, within: f64) {
    assert!((found - want).abs() <= within, "{found}, expected {want}");
}

/// Common practice, no source.
#[test]
fn two_single_two_ohm_drivers_make_exactly_one_and_four_ohms() {
    for filters in Filters::ALL {
        assert_eq!(loads(&list(&[drivers(2, 1, "2")], filters)), ["1", "4"]);
    }
}

/// Common practice, no source: "dual 4" is 2 Ω or 8 Ω.
#[test]
fn one_dual_four_ohm_driver_is_two_or_eight_ohms() {
    for filters in Filters::ALL {
        assert_eq!(loads(&list(&[drivers(1, 2, "4")], filters)), ["2", "8"]);
    }
}

/// Common practice, no source: at or above the least load fits, below does not.
#[test]
fn one_ohm_fits_a_one_ohm_amplifier_and_is_too_low_for_a_two_ohm_one() {
    for (least, at_one, at_four) in [("1", Fits, Fits), ("2", TooLow, Fits), ("4", TooLow, Fits)] {
        let on = Stated { least: Some(least), rated: &[] };
        let answer = list_on(&[drivers(2, 1, "2")], Some(on.mono()), Filters::ON);
        let verdicts: Vec<Verdict> = answer.loads.iter().map(|tally| tally.verdict).collect();
        assert_eq!(verdicts, [at_one, at_four], "least load {least} Ω");
        for configuration in &answer.configurations {
            let want =
                if configuration.outputs[0].load.to_string() == "1" { at_one } else { at_four };
            assert_eq!(configuration.verdict, want, "{}", configuration.key());
            assert_eq!(configuration.outputs[0].verdict, want, "{}", configuration.key());
        }
    }
}

/// A load is compared with the least load as a fraction, not as what is shown of it.
#[test]
fn three_four_ohm_drivers_in_parallel_fit_an_amplifier_stable_at_four_thirds() {
    let verdict = |least| {
        let on = Stated { least: Some(least), rated: &[] };
        let answer = list_on(&[drivers(3, 1, "4")], Some(on.mono()), Filters::ON);
        answer.loads.iter().find(|tally| tally.load.to_string() == "4/3").unwrap().verdict
    };
    assert_eq!(verdict("4/3"), Fits);
    assert_eq!(verdict("1.3333"), Fits);
    assert_eq!(verdict("1.3334"), TooLow);
}

/// Worked by hand.
#[test]
fn two_dual_two_ohm_drivers_have_sixteen_configurations_six_even_four_of_them_joined() {
    let rig = [drivers(2, 2, "2")];
    let count = |joined, even| list(&rig, Filters { joined, even }).total;
    assert_eq!(count(false, false), Some(16));
    assert_eq!(count(false, true), Some(6));
    assert_eq!(count(true, true), Some(4));
    let answer = list(&rig, Filters::ON);
    let tallies: Vec<_> = answer
        .loads
        .iter()
        .map(|tally| (tally.load.to_string(), tally.configurations, tally.even))
        .collect();
    let want = [("1/2", 1), ("2", 2), ("8", 1)].map(|(load, n)| (load.to_owned(), n, true));
    assert_eq!(tallies, want);
    assert_eq!(answer.before_filters, Some(16));
    let pairs = answer.configurations.iter().find(|one| one.key() == "(1a+1b)||(2a+2b)").unwrap();
    assert_eq!(pairs.outputs[0].network.to_string(), "(1a + 1b) ∥ (2a + 2b)");
    assert_eq!(pairs.runs, 6);
    assert_eq!((&pairs.driver_shares[..], &pairs.coil_shares[..]), (&[0.5; 2][..], &[0.25; 4][..]));
}

/// Worked by hand: three single 4 Ω, 300 W each, a + (b ∥ c).
#[test]
fn one_of_three_equal_drivers_in_series_with_the_others_takes_two_thirds_of_the_power() {
    let rig = [drivers(3, 1, "4").rated(300.0)];
    let answer = list(&rig, Filters::OFF);
    let found = answer.configurations.iter().find(|one| one.key() == "1a+(2a||3a)").unwrap();
    assert_eq!(found.outputs[0].load.to_string(), "6");
    assert!(!found.even);
    for (share, want) in found.driver_shares.iter().zip([2.0 / 3.0, 1.0 / 6.0, 1.0 / 6.0]) {
        near(*share, want, 1e-12);
    }
    near(found.outputs[0].usable_watts.unwrap(), 450.0, 1e-9);
    let even = answer.configurations.iter().find(|one| one.key() == "1a+2a+3a").unwrap();
    near(even.outputs[0].usable_watts.unwrap(), 900.0, 1e-9);
    // Without ratings nobody can say.
    for configuration in list(&[drivers(3, 1, "4")], Filters::OFF).configurations {
        assert_eq!(configuration.outputs[0].usable_watts, None);
    }
}

/// Worked by hand: between rated points watts over ohms is a straight line on
/// logarithmic axes; above the highest load the voltage stays, below the lowest stated
/// one it lies between held current and held voltage.
#[test]
fn available_power_follows_the_rated_points_and_says_on_what_it_rests() {
    let three = Stated { least: Some("1"), rated: &[("4", 300.0), ("2", 500.0), ("1", 800.0)] };
    let one = Stated { least: Some("1"), rated: &[("4", 300.0)] };
    let cases = [
        (&three, "4", 300.0, 300.0, Basis::Stated),
        (&three, "2", 500.0, 500.0, Basis::Stated),
        (&three, "1", 800.0, 800.0, Basis::Stated),
        (&three, "3", 370.8, 370.8, Basis::Interpolated),
        (&three, "4/3", 658.2, 658.2, Basis::Interpolated),
        (&three, "8", 150.0, 150.0, Basis::Extrapolated),
        (&one, "4", 300.0, 300.0, Basis::Stated),
        (&one, "1", 75.0, 1200.0, Basis::Range),
        (&one, "2", 150.0, 600.0, Basis::Range),
        (&one, "16", 75.0, 75.0, Basis::Extrapolated),
    ];
    for (on, load, low, high, basis) in cases {
        let output = one_driver(load, None, on.mono());
        let power = output.available.unwrap_or_else(|| panic!("{load} Ω: no power"));
        assert_eq!(power.basis, basis, "{load} Ω");
        near(power.low, low, 0.05);
        near(power.high, high, 0.05);
        assert_eq!(output.verdict, Fits, "{load} Ω");
    }
}

#[test]
fn no_power_is_told_where_none_is_stated_or_the_load_is_too_low() {
    let silent = Stated { least: Some("1"), rated: &[] };
    assert_eq!(one_driver("4", Some(300.0), silent.mono()).available, None);
    let stated = Stated { least: Some("2"), rated: &[("2", 500.0)] };
    let low = one_driver("1", Some(300.0), stated.mono());
    assert_eq!((low.verdict, low.available, low.target_watts), (TooLow, None, None));
    let unrated = one_driver("2", None, stated.mono());
    assert_eq!((unrated.usable_watts, unrated.target_watts, unrated.overheats), (None, None, None));
}

#[test]
fn the_five_verdicts_each_have_their_case() {
    let points: &'static [(&'static str, f64)] = &[("4", 300.0), ("2", 500.0)];
    let cases = [
        (Some("1"), points, "1", Fits),
        (Some("1"), points, "0.9", TooLow),
        // No least load: the lowest rated load stands in for it.
        (None, points, "2", Fits),
        (None, points, "4", Fits),
        (None, points, "1.9", BelowStated),
        // Neither.
        (None, &[], "0.1", NotStated),
        (None, &[], "8", NotStated),
        // A least load above the rated points still counts.
        (Some("4"), points, "2", TooLow),
    ];
    for (least, rated, load, verdict) in cases {
        let on = Stated { least, rated };
        assert_eq!(one_driver(load, None, on.mono()).verdict, verdict, "{load} Ω on {on:?}");
    }
    for configuration in list(&[drivers(2, 1, "4")], Filters::ON).configurations {
        assert_eq!(configuration.verdict, NotStated, "no amplifier");
        assert_eq!(configuration.outputs[0].way, None);
        assert!(configuration.outputs[0].channels.is_empty());
    }
    let each = Stated { least: Some("2"), rated: &[] };
    let derived = bridged(&[drivers(1, 1, "4")], two_channels(&each, &Stated::default()), "4");
    assert_eq!(derived.verdict, FitsByDerivation);
}

/// Common practice, no source.
#[test]
fn four_ohms_fit_a_bridge_stated_from_four_ohms() {
    let each = Stated { least: Some("2"), rated: &[("4", 150.0), ("2", 250.0)] };
    let bridge = Stated { least: Some("4"), rated: &[("4", 500.0)] };
    let on = |load| bridged(&[drivers(2, 1, "2")], two_channels(&each, &bridge), load);
    let four = on("4");
    assert_eq!(four.verdict, Fits);
    let power = four.available.unwrap();
    assert_eq!((power.low, power.high, power.basis), (500.0, 500.0, Basis::Stated));
    assert_eq!(on("1").verdict, TooLow);
}

/// Common practice, no source (each channel of a bridge sees half the load), and worked
/// by hand: two channels of 150 W at 4 Ω, 250 W at 2 Ω, least load 2 Ω.
#[test]
fn a_bridge_without_figures_of_its_own_is_two_channels_at_half_the_load() {
    let each = Stated { least: Some("2"), rated: &[("4", 150.0), ("2", 250.0)] };
    for (load, verdict, watts) in [
        ("4", FitsByDerivation, Some(500.0)),
        ("8", FitsByDerivation, Some(300.0)),
        ("16", FitsByDerivation, Some(150.0)),
        ("2", TooLow, None),
        ("39/10", TooLow, None),
    ] {
        let found = bridged(&[drivers(1, 1, load)], two_channels(&each, &Stated::default()), load);
        assert_eq!(found.verdict, verdict, "{load} Ω");
        assert_eq!(
            found.available.map(|power| power.basis),
            watts.map(|_| Basis::Derived),
            "{load} Ω"
        );
        if let (Some(power), Some(watts)) = (found.available, watts) {
            near(power.low, watts, 1e-9);
            near(power.high, watts, 1e-9);
        }
    }
}

/// Worked by hand: 150 W at 4 Ω and no more stated, so at 2 Ω each channel gives 75 W
/// (current held) to 300 W (voltage held), and the bridge into 4 Ω twice that; of two
/// unlike channels the weaker one counts.
#[test]
fn a_bridge_is_no_better_known_and_no_stronger_than_its_channels() {
    let each = Stated { least: Some("2"), rated: &[("4", 150.0)] };
    let found = bridged(&[drivers(1, 1, "4")], two_channels(&each, &Stated::default()), "4");
    let power = found.available.unwrap();
    near(power.low, 150.0, 1e-9);
    near(power.high, 600.0, 1e-9);
    let mut unlike = two_channels(&each, &Stated::default());
    unlike.channels[1] = Stated { least: Some("4"), rated: &[("4", 100.0)] }.channel();
    assert_eq!(bridged(&[drivers(1, 1, "4")], unlike.clone(), "4").verdict, TooLow);
    let found = bridged(&[drivers(1, 1, "8")], unlike, "8");
    assert_eq!(found.verdict, FitsByDerivation);
    near(found.available.unwrap().low, 200.0, 1e-9);
}

/// Worked by hand: a hard-clipped wave carries at most twice the power of the sine.
#[test]
fn what_can_overheat_a_coil_is_told_from_twice_the_power() {
    let cases: [(f64, f64, Overheats); 6] = [
        (600.0, 300.0, Cannot),
        (700.0, 300.0, Cannot),
        (599.0, 300.0, IfClipped),
        (300.0, 300.0, IfClipped),
        (299.0, 300.0, AnyTime),
        (100.0, 300.0, AnyTime),
    ];
    for (driver, amplifier, want) in cases {
        let on: Stated = Stated { least: Some("4"), rated: &[("4", 300.0)] };
        let output = one_driver("4", Some(driver), on.mono());
        assert_eq!(output.overheats, Some(want), "{amplifier} W into a driver of {driver} W");
        near(output.usable_watts.unwrap(), driver, 1e-9);
        near(output.target_watts.unwrap(), driver.min(amplifier), 1e-9);
    }
}

/// The lower end of a range is what may be counted on, the upper end what can do harm.
#[test]
fn a_range_counts_with_its_low_end_and_warns_of_its_high_end() {
    let on = Stated { least: Some("1"), rated: &[("4", 300.0)] };
    for (driver, target, overheats) in [
        (600.0, 75.0, AnyTime),
        (1200.0, 75.0, IfClipped),
        (2400.0, 75.0, Cannot),
        (50.0, 50.0, AnyTime),
    ] {
        let output = one_driver("1", Some(driver), on.mono());
        near(output.target_watts.unwrap(), target, 1e-9);
        assert_eq!(output.overheats, Some(overheats), "a driver of {driver} W");
    }
}

/// Common practice, no source: a second pair of terminals is tied to the first inside.
#[test]
fn a_second_terminal_pair_changes_nothing_about_the_load() {
    let on = Stated { least: Some("1"), rated: &[("1", 1000.0)] };
    let mut pairs = on.mono();
    pairs.channels[0].terminal_pairs = Some(2);
    let rig = [drivers(2, 2, "2").rated(500.0)];
    let (one, two) =
        (list_on(&rig, Some(on.mono()), Filters::ON), list_on(&rig, Some(pairs), Filters::ON));
    assert_eq!(one, two);
    assert_eq!(one.total, Some(4));
}
