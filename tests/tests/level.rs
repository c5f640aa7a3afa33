//! How much louder: worked values, symmetry, and what the trade knows about decibels.

use coilwright_solver::answer::{Configuration, answer};
use coilwright_solver::level::{WhyNot, difference};
use coilwright_solver::rig::{AmplifierDraft, Rig};
use proof::generate::{amplifiers, cases, equal_drivers};
use proof::rigs::{Drivers, Filters, Stated, drivers, request, two_channels};
use proptest::prelude::*;
use proptest::sample::Index;

type One = (Rig, Configuration);

/// The configurations of a rig on an amplifier.
fn all(rig: &[Drivers], amplifier: Option<AmplifierDraft>) -> Vec<One> {
    let asked = request(rig, amplifier, Filters::OFF);
    let rig = asked.rig.clone();
    let found = answer(asked);
    assert_eq!(found.problems, []);
    found.configurations.into_iter().map(|one| (rig.clone(), one)).collect()
}

fn of_key(rig: &[Drivers], amplifier: AmplifierDraft, key: &str) -> One {
    let found = all(rig, Some(amplifier)).into_iter().find(|(_, one)| one.key() == key);
    found.unwrap_or_else(|| panic!("no configuration {key}"))
}

fn louder(first: &One, second: &One) -> Result<f64, WhyNot> {
    difference((&first.0, &first.1), (&second.0, &second.1))
}

#[track_caller]
fn near(found: Result<f64, WhyNot>, want: f64) {
    assert!((found.unwrap() - want).abs() < 0.005, "{found:?}, expected {want} dB");
}

#[expect(clippy::disallowed_methods, reason = "compared within a tolerance")]
fn decibels(ratio_of_powers: f64) -> f64 {
    10.0 * ratio_of_powers.log10()
}

const LEVEL: &[(&str, f64)] = &[("1", 450.0), ("12", 450.0)];

/// An amplifier that gives 450 W into anything from 1 to 12 Ω.
fn steady() -> Stated {
    Stated { least: Some("1"), rated: LEVEL }
}

/// Worked by hand, twice, from first principles: shares of 2/3, 1/6 and 1/6.
#[test]
fn three_uneven_drivers_are_half_a_decibel_quieter_than_even_ones_at_the_same_power() {
    let rig = [drivers(3, 1, "4").rated(300.0)];
    let even = of_key(&rig, steady().mono(), "1:1a+2a+3a");
    let uneven = of_key(&rig, steady().mono(), "1:1a+(2a||3a)");
    for (one, watts) in [(&even, 450.0), (&uneven, 450.0)] {
        let target = one.1.outputs[0].target_watts.unwrap();
        assert!((target - watts).abs() < 1e-9, "{target}");
    }
    near(louder(&even, &uneven), -0.51);
}

/// Common practice, no source: twice the power is 3 dB more, and a second driver at the
/// same total power is 3 dB more.
#[test]
fn twice_the_power_or_twice_the_drivers_is_three_decibels() {
    let watts = |rated| Stated { least: Some("1"), rated };
    let two = [drivers(2, 1, "4").rated(1000.0)];
    let weak = of_key(&two, watts(&[("2", 300.0)]).mono(), "1:1a||2a");
    let strong = of_key(&two, watts(&[("2", 600.0)]).mono(), "1:1a||2a");
    near(louder(&weak, &strong), 3.01);
    let one = [drivers(1, 1, "4").rated(1000.0)];
    let alone = of_key(&one, watts(&[("4", 300.0)]).mono(), "1:1a");
    near(louder(&alone, &weak), 3.01);
    near(louder(&alone, &strong), 6.02);
}

/// Worked by hand: coil 1a gets 3/4 of the power and the others 1/12 each, so the forces
/// are √3/2 + 3·√(1/12) = √3 against 2. Driver by driver it would be 5/6 and 1/6, as if
/// the coils of driver 1 shared alike.
#[test]
fn a_driver_with_unlike_loaded_coils_is_not_as_loud_as_its_power() {
    let rig = [drivers(2, 2, "4").rated(1000.0)];
    let even = of_key(&rig, steady().mono(), "1:(1a+1b)||(2a+2b)");
    let uneven = of_key(&rig, steady().mono(), "1:1a+(1b||2a||2b)");
    near(louder(&even, &uneven), decibels(0.75));
}

/// Worked by hand: 100 W and 400 W to one driver each, against 250 W each.
#[test]
fn unlike_outputs_count_with_their_own_power() {
    let rig = [drivers(2, 1, "4").rated(1000.0)];
    let channel = |watts| Stated { least: Some("4"), rated: watts }.channel();
    let channels = |a, b| AmplifierDraft {
        channels: vec![channel(a), channel(b)],
        ..AmplifierDraft::default()
    };
    let unlike = channels(&[("4", 100.0)], &[("4", 400.0)]);
    let alike = channels(&[("4", 250.0)], &[("4", 250.0)]);
    let (unlike, alike) = (of_key(&rig, unlike, "1:1a;2:2a"), of_key(&rig, alike, "1:1a;2:2a"));
    near(louder(&unlike, &alike), decibels(1000.0 / 900.0));
}

#[test]
fn what_is_not_known_is_not_told() {
    let known = of_key(&[drivers(2, 1, "4").rated(300.0)], steady().mono(), "1:1a+2a");
    let unrated = of_key(&[drivers(2, 1, "4")], steady().mono(), "1:1a+2a");
    let other = of_key(&[drivers(2, 1, "8").rated(300.0)], steady().mono(), "1:1a||2a");
    let mixed = [drivers(1, 1, "4").rated(300.0), drivers(1, 1, "4").rated(200.0)];
    let mixed = of_key(&mixed, steady().mono(), "1:1a+2a");
    for unlike in [&unrated, &other, &mixed] {
        assert_eq!(louder(&known, unlike), Err(WhyNot::UnlikeDrivers));
        assert_eq!(louder(unlike, &known), Err(WhyNot::UnlikeDrivers));
    }
    let too_low = Stated { least: Some("16"), rated: LEVEL }.mono();
    let too_low = of_key(&[drivers(2, 1, "4").rated(300.0)], too_low, "1:1a+2a");
    assert_eq!(louder(&known, &too_low), Err(WhyNot::SecondUnknown));
    assert_eq!(louder(&too_low, &known), Err(WhyNot::FirstUnknown));
    assert_eq!(louder(&unrated, &unrated), Err(WhyNot::FirstUnknown));
}

proptest! {
    #![proptest_config(cases(48))]

    /// A difference told the other way round changes its sign, and of three the outer two
    /// differ by the sum. Where every coil gets the same, the powers alone decide.
    #[test]
    fn differences_are_signed_and_add_up(
        rig in equal_drivers(6),
        amplifier in prop_oneof![amplifiers(), Just(steady().mono()), Just(two_channels(&steady(), &steady()))],
        which in any::<[Index; 3]>(),
    ) {
        let all = all(&rig, Some(amplifier));
        let known: Vec<&One> = all
            .iter()
            .filter(|(_, one)| one.outputs.iter().all(|output| output.target_watts.is_some()))
            .collect();
        prop_assume!(!known.is_empty());
        let [a, b, c] = which.map(|index| known[index.index(known.len())]);
        let (ab, ba) = (louder(a, b).unwrap(), louder(b, a).unwrap());
        prop_assert!((ab + ba).abs() < 1e-9);
        prop_assert!((louder(a, c).unwrap() - ab - louder(b, c).unwrap()).abs() < 1e-9);
        let power = |one: &One| one.1.outputs.iter().filter_map(|o| o.target_watts).sum::<f64>();
        let alone = |one: &One| one.1.even && one.1.outputs.len() == 1;
        if alone(a) && alone(b) {
            prop_assert!((ab - decibels(power(b) / power(a))).abs() < 1e-9);
        }
    }
}
