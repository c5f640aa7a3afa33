//! Reasons, power and heat as they are said.

use super::*;
use coilwright_solver::bounds::Field;
use coilwright_solver::judge::Figures;
use coilwright_solver::ohms::{Ratio, Watts};
use coilwright_solver::rig::RatedPoint;

fn ohms(num: u128, den: u128) -> Ohms {
    Ohms::new(Ratio::new(num, den).unwrap())
}

#[test]
fn a_verdict_gives_its_reason_with_numbers() {
    let cases = [
        (ohms(1, 1), Limit::Least(ohms(2, 1)), "1 Ω is below the least load of 2 Ω"),
        (ohms(2, 1), Limit::Least(ohms(2, 1)), "2 Ω is exactly the least load of 2 Ω"),
        (ohms(4, 3), Limit::Least(ohms(1, 1)), "4/3 Ω ≈ 1.33 Ω is above the least load of 1 Ω"),
        (
            ohms(2, 1),
            Limit::Derived(ohms(4, 1)),
            "2 Ω is below the derived least load of 4 Ω: twice the channel's, as each channel sees half of it",
        ),
        (
            ohms(1, 2),
            Limit::LowestRated(ohms(1, 1)),
            "0.5 Ω is below the lowest rated load of 1 Ω, which stands in for a least load",
        ),
        (ohms(4, 1), Limit::NotStated, "the amplifier states neither a least load nor rated power"),
        (ohms(4, 1), Limit::NoAmplifier, "there is no amplifier to compare with"),
    ];
    for (of, limit, want) in cases {
        assert_eq!(reason(of, limit), want);
    }
}

/// Three 8 Ω in parallel are 8/3 Ω, which rounds to 2.7 and to 2.67 but not to 2.667; half
/// a unit is rounded up; whole numbers and fractions are exact; a bridge's derived least
/// load is met where each channel's half meets its own.
#[test]
fn what_rounds_to_a_least_load_in_decimals_fits_and_is_said_to() {
    let least = |text| Field::ChannelLeast.ohms_text(text).unwrap();
    let number = |number| Field::ChannelLeast.ohms_number(number).unwrap();
    let three = ohms(8, 3);
    for (of, least, fits) in [
        (three, least("2.7"), true),
        (three, number(2.7), true),
        (three, least("2.67"), true),
        (three, number(2.67), true),
        (three, least("2.667"), true),
        (three, least("2.6667"), true),
        (three, least("2.6668"), false),
        (three, least("2.668"), false),
        (three, least("2.70"), false),
        (three, number(2.70), true),
        (three, least("27/10"), false),
        (three, least("8/3"), true),
        (three, least("3"), false),
        (three, number(3.0), false),
        (three, least("3.0"), false),
        (ohms(39, 20), least("2.0"), true),
        (ohms(39, 20), number(2.0), false),
        (ohms(533, 200), least("2.67"), true),
        (ohms(26649, 10000), least("2.67"), false),
        (ohms(28, 10), least("2.7"), true),
    ] {
        let figures = Figures { least: Some(least), ..Figures::default() };
        let (verdict, limit) = (figures.verdict(of), Limit::of(Some(&figures)));
        assert_eq!(verdict == Verdict::Fits, fits, "{of} against {least}");
        let said = reason(of, limit);
        assert_eq!(said.contains("below"), !fits, "{said}");
        let rounded = fits && of < least;
        assert_eq!(said.contains("is within the rounding of"), rounded, "{said}");
    }
    assert_eq!(
        reason(three, Limit::Least(least("2.7"))),
        "8/3 Ω ≈ 2.67 Ω is within the rounding of the least load of 2.7 Ω"
    );
    let point = RatedPoint { ohms: least("2.7"), watts: Watts::from_parts(1_000_000).unwrap() };
    let stands_in = Figures { points: vec![point], ..Figures::default() };
    assert_eq!(stands_in.verdict(three), Verdict::Fits);
    assert_eq!(stands_in.verdict(ohms(5, 2)), Verdict::BelowStated);
    let twice = least("2.7").series(least("2.7")).unwrap();
    let bridge = Figures { least: Some(twice), least_derived: true, ..Figures::default() };
    assert_eq!(bridge.verdict(ohms(16, 3)), Verdict::FitsByDerivation);
    assert_eq!(bridge.verdict(ohms(53, 10)), Verdict::FitsByDerivation);
    assert_eq!(bridge.verdict(ohms(529, 100)), Verdict::TooLow);
    assert_eq!(
        reason(ohms(16, 3), Limit::of(Some(&bridge))),
        "16/3 Ω ≈ 5.33 Ω is within the rounding of the derived least load of 5.4 Ω: twice the channel's, as each channel sees half of it"
    );
}

/// The reason never contradicts the verdict it stands beside.
#[test]
fn the_limit_is_what_the_verdict_was_judged_by() {
    let point = |n| RatedPoint { ohms: ohms(n, 1), watts: Watts::from_parts(1_000_000).unwrap() };
    let of = |least: Option<u128>, least_derived, points| Figures {
        least: least.map(|n| ohms(n, 1)),
        least_derived,
        points,
        halves: Vec::new(),
    };
    let cases = [
        (of(Some(2), false, vec![point(4)]), Limit::Least(ohms(2, 1)), Verdict::TooLow),
        (of(Some(2), true, Vec::new()), Limit::Derived(ohms(2, 1)), Verdict::TooLow),
        (
            of(None, false, vec![point(2), point(4)]),
            Limit::LowestRated(ohms(2, 1)),
            Verdict::BelowStated,
        ),
        (of(None, false, Vec::new()), Limit::NotStated, Verdict::NotStated),
    ];
    for (figures, limit, below) in cases {
        assert_eq!(Limit::of(Some(&figures)), limit);
        assert_eq!(figures.verdict(ohms(1, 1)), below);
        assert_eq!(reason(ohms(1, 1), limit).contains("below"), below != Verdict::NotStated);
        assert!(!reason(ohms(2, 1), limit).contains("below"));
    }
}

#[test]
fn power_is_told_for_each_for_one_or_for_all() {
    assert_eq!(target(62.5, Whose::Driver(3)), "up to 62.5 W for driver 3 once the level is set");
    assert_eq!(target(370.8, Whose::All), "up to 371 W in all once the level is set");
    let stated = Available { low: 500.0, high: 500.0, basis: Basis::Stated };
    assert_eq!(available(&stated), "500 W");
}

/// Over every pair: the sentence stands exactly where a load that fits meets heat at any
/// time, and what is said of the heat is never lost by it.
#[test]
fn a_load_that_fits_and_heat_at_any_time_are_joined_in_one_sentence() {
    use Overheats::{AnyTime, Cannot, IfClipped};
    use Verdict::{BelowStated, Fits, FitsByDerivation, NotStated, TooLow};
    for of in [Fits, FitsByDerivation, NotStated, BelowStated, TooLow] {
        assert_eq!(joined(of, None), None);
        for heat in [Cannot, IfClipped, AnyTime] {
            let both = matches!(of, Fits | FitsByDerivation) && heat == AnyTime;
            assert_eq!(joined(of, Some(heat)).is_some(), both, "{of:?}, {heat:?}");
            let said = heat_beside(of, heat);
            assert!(said.ends_with(overheats(heat)), "{said}");
            assert_eq!(said.starts_with("safe for the amplifier, not"), both, "{said}");
        }
    }
}

#[test]
fn heat_gives_its_reason() {
    assert_eq!(
        overheats_because(Overheats::Cannot, 200.0, 1000.0),
        "by its rated figures it can give 200 W, about twice that when it clips hard, and the coils take 1000 W; headroom and supply may give more, and no power figure bounds how far a cone moves"
    );
    assert_eq!(
        overheats_because(Overheats::IfClipped, 600.0, 1000.0),
        "by its rated figures it can give 600 W, about twice that when it clips hard, and the coils take 1000 W"
    );
}
