//! What a workshop would say of a closed box.

use super::*;
use crate::rig::{Bridge, Channel};

fn read(ohms: f64, leads: Option<f64>) -> ClosedBox {
    closed_box(Reading::Ohms { ohms, count: 0.1 }, leads)
}

fn loads(found: &ClosedBox) -> Vec<String> {
    found.loads.iter().map(|one| one.load.to_string()).collect()
}

fn ohms(over: u128, under: u128) -> Ohms {
    Ohms::new(Ratio::new(over, under).unwrap())
}

/// Common practice, no source: a 4 Ω load reads a little over 3 Ω, an 8 Ω load about
/// 6 Ω, a 2 Ω load about 1.7 Ω, a 1 Ω load about 0.9 Ω. A little under 3 Ω may be a usual
/// 3 Ω load or an unusual one of 4 Ω, which is sold far more often.
#[test]
fn what_is_usual_comes_first() {
    for (reading, leads, first) in [
        (2.9, None, "4"),
        (2.9, Some(0.2), "4"),
        (3.2, None, "4"),
        (3.2, Some(0.2), "4"),
        (3.6, None, "4"),
        (6.2, None, "8"),
        (6.8, Some(0.3), "8"),
        (1.9, Some(0.2), "2"),
        (1.0, Some(0.1), "1"),
        (12.8, None, "16"),
    ] {
        let found = read(reading, leads);
        assert_eq!(found.hint, Hint::Loads, "{reading}");
        assert_eq!(loads(&found)[0], first, "{reading} {leads:?}: {:?}", loads(&found));
    }
}

#[test]
fn around_one_ohm_one_ohm_is_among_them_and_the_lowest_is_no_higher() {
    for reading in [1.0, 1.1] {
        let found = read(reading, Some(0.1));
        assert!(loads(&found).contains(&"1".to_owned()), "{:?}", loads(&found));
        assert!(found.lowest.unwrap() <= ohms(1, 1));
    }
}

#[test]
fn what_makes_four_ohms_is_a_single_driver_before_anything_else() {
    let found = read(3.4, Some(0.2));
    let four = &found.loads[0];
    let all: Vec<_> = four
        .fillings
        .iter()
        .map(|one| (one.drivers, one.coils, one.ohms.to_string(), one.in_path, one.paths))
        .collect();
    assert_eq!(all[0], (1, 1, "4".to_owned(), 1, 1));
    // One dual 2 Ω driver in series.
    assert!(all.contains(&(1, 2, "2".to_owned(), 2, 1)), "{all:?}");
    assert!(all.len() <= MOST_FILLINGS);
    for one in &four.fillings {
        assert_eq!(one.load(), Some(four.load));
        assert_eq!(one.in_path * one.paths, one.drivers * one.coils);
    }
}

#[test]
fn shares_add_up_and_fall() {
    for tenths in 1..400 {
        let found = read(f64::from(tenths) / 10.0, Some(0.1));
        if found.loads.is_empty() {
            continue;
        }
        let sum: f64 = found.loads.iter().map(|one| one.likely).sum();
        assert!((sum - 1.0).abs() < 1e-9, "{tenths}: {sum}");
        assert!(found.loads.is_sorted_by(|a, b| a.likely >= b.likely));
        for one in &found.loads {
            let own: f64 = one.fillings.iter().map(|filling| filling.likely).sum();
            assert!(own > 0.0 && own <= one.likely + 1e-12);
            assert!(one.fillings.is_sorted_by(|a, b| a.likely >= b.likely));
        }
    }
}

#[test]
fn at_few_ohms_the_leads_are_asked_for_first() {
    for reading in [0.0, 0.4, 1.1, 1.4] {
        let found = read(reading, None);
        assert_eq!((found.hint, found.lowest), (Hint::LeadsFirst, None), "{reading}");
        assert!(found.loads.is_empty());
    }
    assert_eq!(read(1.5, None).hint, Hint::Loads);
    assert_eq!(read(1.1, Some(0.3)).hint, Hint::Loads);
}

#[test]
fn leads_that_were_read_leave_fewer_loads() {
    let (unread, read) = (read(1.9, None), read(1.9, Some(0.2)));
    assert!(read.loads.len() < unread.loads.len());
    assert!(read.loads.iter().all(|one| unread.loads.iter().any(|known| known.load == one.load)));
}

#[test]
fn no_reading_at_all_is_open_and_no_more_than_the_leads_may_be_a_short() {
    assert_eq!(closed_box(Reading::Open, Some(0.1)).hint, Hint::Open);
    let short = read(0.3, Some(0.3));
    assert_eq!((short.hint, short.lowest), (Hint::Short, None));
    assert_eq!(read(0.1, Some(0.9)).hint, Hint::BelowLeads);
    assert_eq!(read(700.0, None).hint, Hint::Unusual);
    let coarse = closed_box(Reading::Ohms { ohms: 2.0, count: 1.0 }, None);
    assert_eq!((coarse.hint, coarse.lowest), (Hint::Coarse, None));
}

#[test]
fn nothing_that_is_typed_stops_it() {
    let odd = [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e-300, 1e300, f64::MAX];
    for ohms in odd {
        for count in odd {
            for leads in odd.map(Some).into_iter().chain([None]) {
                let found = closed_box(Reading::Ohms { ohms, count }, leads);
                assert_eq!(found.lowest.is_some(), found.hint == Hint::Loads);
                assert!(found.loads.iter().all(|one| one.likely.is_finite()), "{found:?}");
            }
        }
    }
}

/// Every output is judged by the lowest load: a bridge without figures needs twice the
/// channels' least load (common practice, no source).
#[test]
fn outputs_of_a_kind_are_judged_together_and_a_bridge_by_itself() {
    let channel = Channel { least: Some(ohms(2, 1)), rated: Vec::new(), terminal_pairs: 1 };
    let bridge = Bridge { channels: [1, 2], least: None, rated: Vec::new() };
    let channels = vec![channel.clone(), channel];
    let amplifier = Amplifier { count: 1, channels, bridges: vec![bridge] };
    let told = |lowest| {
        let all = hangs(&amplifier, lowest);
        all.iter().map(|one| (one.places.len(), one.verdict)).collect::<Vec<_>>()
    };
    assert_eq!(told(ohms(8, 3)), [(2, Verdict::Fits), (1, Verdict::TooLow)]);
    assert_eq!(told(ohms(4, 1)), [(2, Verdict::Fits), (1, Verdict::FitsByDerivation)]);
    assert_eq!(told(ohms(1, 1)), [(2, Verdict::TooLow), (1, Verdict::TooLow)]);
}

/// Amplifiers are sold as stable at 4, 2, 1 or 0.5 Ω (common practice, no source).
#[test]
fn the_amplifier_is_the_usual_one_that_is_safe_with_the_lowest_load() {
    let least = |reading, leads| read(reading, leads).least.map(|least| least.to_string());
    assert_eq!(least(6.4, Some(0.2)).as_deref(), Some("4"));
    assert_eq!(least(3.6, Some(0.2)).as_deref(), Some("2"));
    assert_eq!(least(1.9, Some(0.2)).as_deref(), Some("1"));
    assert_eq!(least(1.0, Some(0.1)).as_deref(), Some("1/2"));
    assert_eq!(least(0.6, Some(0.2)), None, "hardly any is");
    assert_eq!(least(0.6, None), None);
}
