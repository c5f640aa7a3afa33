//! What would fit where nothing does: every find solved again, and nothing nearer missed.

use coilwright_solver::answer::{Answer, Request, answer};
use coilwright_solver::bounds::{Field, Kind, MOST_COILS};
use coilwright_solver::judge::Verdict::{Fits, FitsByDerivation};
use coilwright_solver::nearest::{Change, Found, Nearest, changes, with};
use coilwright_solver::rig::{AmplifierDraft, Rig};
use coilwright_words::english::nearest as words;
use proof::generate::{amplifiers, cases, rigs, whole_bounds};
use proof::rigs::{Drivers, Filters, Stated, drivers, request};
use proptest::prelude::*;
use proptest::sample::select;

fn found(asked: &Request, budget: u64) -> Vec<Found> {
    let mut nearest = Nearest::new(asked);
    let mut steps = 0_u32;
    loop {
        if let Some(found) = nearest.step(budget) {
            assert_eq!(nearest.step(budget).as_ref(), Some(&found), "further steps repeat it");
            return found;
        }
        steps += 1;
        assert!(steps < 100_000, "never done");
    }
}

fn solved(asked: &Request, rig: Rig) -> Answer {
    answer(Request { rig, ..asked.clone() })
}

fn fits(answer: &Answer) -> bool {
    answer.configurations.iter().any(|one| matches!(one.verdict, Fits | FitsByDerivation))
}

fn kind(change: &Change) -> u8 {
    match change {
        Change::Coils { .. } => 0,
        Change::Count { .. } => 1,
        Change::Bridge { .. } => 2,
        Change::LeastLoad { .. } => 3,
    }
}

/// A rig within every bound of the table.
fn in_bounds(rig: &Rig) -> bool {
    let (least, most) = whole_bounds(Field::Count);
    let Kind::Ohms { least: low, most: high } = Field::CoilOhms.spec().kind else { return false };
    let ohms = |ohms: f64| ohms * 1e4 >= f64::from(low) && ohms * 1e4 <= f64::from(high);
    let coils = [1, 2, 4];
    rig.coils() <= MOST_COILS
        && rig.groups().iter().all(|group| {
            (least..=most).contains(&group.count)
                && coils.contains(&group.coils)
                && ohms(group.ohms.to_f64())
                && group
                    .dc_ohms
                    .as_ref()
                    .is_none_or(|list| list.len() as u32 == group.coils_in_all())
        })
}

/// Amplifiers that ask for much.
fn hard() -> impl Strategy<Value = AmplifierDraft> {
    let least = select(vec!["8", "16", "20", "6"]);
    let rated: [&'static [(&'static str, f64)]; 2] = [&[], &[("8", 100.0)]];
    (least, select(rated.to_vec()), 1_usize..=3).prop_map(|(least, rated, channels)| {
        let stated = Stated { least: Some(least), rated };
        AmplifierDraft { channels: vec![stated.channel(); channels], ..AmplifierDraft::default() }
    })
}

proptest! {
    #![proptest_config(cases(40))]

    /// Solved again one by one with the whole list: the first two of each kind that fit
    /// are just those found, and the search is needed only where nothing fits.
    #[test]
    fn the_first_changes_that_fit_are_found(
        rig in rigs(4),
        amplifier in prop_oneof![2 => hard(), 1 => amplifiers()],
        filters in select(Filters::ALL.to_vec()),
        budget in 1_u64..50_000,
    ) {
        let asked = request(&rig, Some(amplifier), filters);
        let base = answer(asked.clone());
        prop_assert_eq!(&base.problems, &[]);
        let finds = found(&asked, budget);
        let stated = base.configurations.first().is_none_or(|best| best.verdict.name() != "not_stated");
        if fits(&base) || !stated {
            prop_assert_eq!(&finds, &[], "nothing needs to change");
            return Ok(());
        }
        for wanted in 0..3 {
            let of_kind = changes(&asked.rig).into_iter().filter(|change| kind(change) == wanted);
            let good = of_kind
                .filter(|change| fits(&solved(&asked, with(&asked.rig, change).unwrap())));
            let good: Vec<Change> = good.take(2).collect();
            let told: Vec<Change> =
                finds.iter().map(|f| f.change).filter(|change| kind(change) == wanted).collect();
            prop_assert_eq!(told, good);
        }
        for find in &finds {
            let again = solved(&asked, with(&asked.rig, &find.change).unwrap());
            prop_assert_eq!(&again.configurations[0], &find.configuration);
            let lowest = find.configuration.outputs.iter().map(|output| output.load).min();
            prop_assert_eq!(Some(find.load), lowest);
        }
        let amplifiers: Vec<&Found> = finds.iter().filter(|f| kind(&f.change) == 3).collect();
        prop_assert!(amplifiers.len() <= 1);
        // Nothing above the highest load is ever needed.
        if let Some(find) = amplifiers.first() {
            let Change::LeastLoad { ohms } = find.change else { panic!("{find:?}") };
            prop_assert!(Some(ohms) <= base.loads.iter().map(|tally| tally.load).max());
        }
    }

    #[test]
    fn every_change_stays_within_the_bounds(rig in rigs(32), amplifier in amplifiers()) {
        let rig = request(&rig, Some(amplifier), Filters::ON).rig;
        let all = changes(&rig);
        for (i, change) in all.iter().enumerate() {
            let changed = with(&rig, change).unwrap();
            prop_assert!(in_bounds(&changed), "{change:?}");
            prop_assert_ne!(&changed, &rig);
            prop_assert!(!all[..i].contains(change), "{:?} twice", change);
        }
    }
}

/// What is found for a rig, as the page words it.
fn told(rig: &[Drivers], amplifier: AmplifierDraft) -> Vec<String> {
    let asked = request(rig, Some(amplifier), Filters::ON);
    let text = |find: &Found| words::change(&asked.rig, &find.change);
    found(&asked, 10_000).iter().map(text).collect()
}

fn least(ohms: &'static str) -> Stated {
    Stated { least: Some(ohms), rated: &[] }
}

#[track_caller]
fn among(told: &[String], want: &str) {
    assert!(told.iter().any(|text| text == want), "{want} is not among {told:?}");
}

/// Common practice, no source: a dual 2 Ω driver makes 4 Ω at most; for 8 Ω the dual 4 Ω
/// version is bought.
#[test]
fn for_eight_ohms_a_dual_four_takes_the_place_of_a_dual_two() {
    let told = told(&[drivers(1, 2, "2")], least("8").mono());
    among(&told, "dual 4 Ω instead of dual 2 Ω");
    among(&told, "2 drivers instead of 1");
    among(&told, "an amplifier safe down to 4 Ω");
}

/// Common practice, no source: a second 2 Ω driver in series makes 4 Ω.
#[test]
fn a_second_two_ohm_driver_makes_four_ohms() {
    let told = told(&[drivers(1, 1, "2")], least("4").mono());
    among(&told, "2 drivers instead of 1");
    among(&told, "single 4 Ω instead of single 2 Ω");
    among(&told, "an amplifier safe down to 2 Ω");
}

/// Common practice, no source: a pair on two channels and an unlike driver on the other
/// two, bridged.
#[test]
fn a_pair_and_an_unlike_driver_fill_four_channels_with_one_bridge() {
    let rig = [drivers(2, 1, "8").rated(100.0), drivers(1, 1, "8").rated(250.0)];
    let four = vec![least("4").channel(); 4];
    let told = told(&rig, AmplifierDraft { channels: four, ..AmplifierDraft::default() });
    among(&told, "channels 1 and 2 bridged, if its maker names that");
}

/// The most that one search spends, in the solver's own counted steps, with room for
/// finishing the change at hand.
#[test]
fn the_search_is_bounded_for_the_largest_rigs() {
    let rigs = [
        vec![drivers(16, 2, "1").rated(100.0)],
        vec![drivers(8, 4, "0.5").rated(100.0)],
        (0..8).map(|i| drivers(4, 1, ["1", "2"][i % 2]).rated(100.0 + i as f64)).collect(),
    ];
    for rig in rigs {
        for filters in Filters::ALL {
            let amplifier = AmplifierDraft {
                channels: vec![least("1000").channel(); 8],
                ..AmplifierDraft::default()
            };
            let mut nearest = Nearest::new(&request(&rig, Some(amplifier), filters));
            let steps = (0..15_000).take_while(|_| nearest.step(1_000).is_none()).count();
            assert!(steps < 15_000, "{} {filters:?}", proof::rigs::written(&rig));
        }
    }
}

/// A bridge sees half the load on each channel: by itself it never rescues a load that is
/// too low for a channel (common practice, no source).
#[test]
fn a_bridge_is_no_way_out_of_too_low_a_load() {
    let two =
        AmplifierDraft { channels: vec![least("4").channel(); 2], ..AmplifierDraft::default() };
    let told = told(&[drivers(1, 1, "2")], two);
    assert!(!told.iter().any(|text| text.contains("bridged")), "{told:?}");
    among(&told, "2 drivers instead of 1");
}
