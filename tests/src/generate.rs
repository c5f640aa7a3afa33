//! Generated rigs and amplifiers, within the bounds of the solver's table of fields.

use crate::campaign;
use crate::rigs::{Drivers, Stated, two_channels};
use coilwright_solver::answer::{Configurations, Request, Step, answer};
use coilwright_solver::bounds::{Field, Kind};
use coilwright_solver::rig::AmplifierDraft;
use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::{FileFailurePersistence, RngSeed};

/// So many cases of a law, always the same ones. A case that once failed is kept
/// beside the test and tried first. `PROPTEST_CASES` and `PROPTEST_RNG_SEED` in the
/// environment ask for more, and for others, and so does a campaign.
pub fn cases(cases: u32) -> ProptestConfig {
    let asked = ProptestConfig::default();
    ProptestConfig {
        cases: match std::env::var_os("PROPTEST_CASES") {
            Some(_) => asked.cases,
            None if campaign::seed().is_some() => cases * campaign::TIMES,
            None => cases,
        },
        rng_seed: match asked.rng_seed {
            RngSeed::Random => RngSeed::Fixed(campaign::seed().unwrap_or(20_261_125)),
            fixed @ RngSeed::Fixed(_) => fixed,
        },
        failure_persistence: Some(Box::new(FileFailurePersistence::WithSource("seeds"))),
        ..asked
    }
}

/// Least and most of a whole-number field.
pub fn whole_bounds(field: Field) -> (u32, u32) {
    match field.spec().kind {
        Kind::Whole { least, most } | Kind::Objects { least, most, .. } => (least, most),
        kind => panic!("{field:?} takes {kind:?}, not a whole number"),
    }
}

/// Ohms as people type them: the usual ones mostly, now and then odd ones.
pub fn ohms() -> impl Strategy<Value = String> {
    let usual = ["4", "2", "8", "1", "6", "16", "3", "1.4", "0.7", "4/3", "8/3", "2.5", "5", "7"];
    let odd = (1_u32..=40, 1_u32..=9)
        .prop_filter("at least a tenth of an ohm", |(p, q)| p * 10 >= *q)
        .prop_map(|(p, q)| format!("{p}/{q}"));
    prop_oneof![4 => select(usual.to_vec()).prop_map(str::to_owned), 1 => odd]
}

/// Any ohms the field takes, to its last place.
pub fn any_ohms() -> impl Strategy<Value = String> {
    let Kind::Ohms { least, most } = Field::CoilOhms.spec().kind else {
        panic!("ohms are a field of ohms");
    };
    let written = |parts: u32| format!("{}.{:04}", parts / 10_000, parts % 10_000);
    prop_oneof![
        3 => (least..=most).prop_map(written),
        1 => select(vec![least, least + 1, most - 1, most]).prop_map(written),
    ]
}

/// Watts of a driver.
pub fn watts() -> impl Strategy<Value = f64> {
    select(vec![50.0, 100.0, 150.0, 200.0, 250.0, 300.0, 400.0, 500.0, 600.0, 1000.0, 62.5])
}

/// Drivers of one kind, with ohms from a strategy.
fn group(most: u32, ohms: impl Strategy<Value = String>) -> impl Strategy<Value = Drivers> {
    let Kind::OneOfNumbers(coils) = Field::Coils.spec().kind else {
        panic!("coils are one of a few numbers");
    };
    let coils: Vec<u32> = coils.iter().copied().filter(|coils| *coils <= most).collect();
    let (least, highest) = whole_bounds(Field::Count);
    (least..=highest.min(most), select(coils), ohms, watts())
        .prop_map(|(count, coils, ohms, watts)| Drivers { count, coils, ohms, watts: Some(watts) })
}

/// A rig of at most so many coils, from generated groups: as many of them as fit.
fn fitted(groups: Vec<Drivers>, most: u32, rated: u32) -> Vec<Drivers> {
    let mut left = most;
    let mut rig = Vec::new();
    for (i, mut group) in groups.into_iter().enumerate() {
        group.count = group.count.min(left / group.coils);
        left -= group.count * group.coils;
        // All rated, none rated, or all but the first.
        if rated == 1 || (rated == 2 && i == 0) {
            group.watts = None;
        }
        if group.count > 0 {
            rig.push(group);
        }
    }
    rig
}

/// Rigs of at most so many coils with ohms that keep fractions short.
pub fn rigs(most: u32) -> impl Strategy<Value = Vec<Drivers>> {
    (proptest::collection::vec(group(most, ohms()), 1..=3), 0_u32..3)
        .prop_map(move |(groups, rated)| fitted(groups, most, rated))
}

/// Rigs of at most so many coils with any ohms at all.
pub fn odd_rigs(most: u32) -> impl Strategy<Value = Vec<Drivers>> {
    (proptest::collection::vec(group(most, any_ohms()), 1..=3), 0_u32..3)
        .prop_map(move |(groups, rated)| fitted(groups, most, rated))
}

/// Rigs of equal drivers.
pub fn equal_drivers(most: u32) -> impl Strategy<Value = Vec<Drivers>> {
    group(most, ohms()).prop_map(move |group| fitted(vec![group], most, 0))
}

/// What a channel may state: with and without a least load, with and without points.
pub fn stated() -> impl Strategy<Value = Stated> {
    let least = select(vec![None, Some("1"), Some("2"), Some("4"), Some("4/3")]);
    let rated: [&'static [(&'static str, f64)]; 6] = [
        &[],
        &[("4", 300.0)],
        &[("4", 300.0), ("2", 500.0), ("1", 800.0)],
        &[("2", 500.0), ("4", 500.0)],
        &[("8", 90.0), ("4", 150.0), ("2", 250.0)],
        &[("1", 1200.0)],
    ];
    (least, select(rated.to_vec())).prop_map(|(least, rated)| Stated { least, rated })
}

/// Amplifiers of one channel, or of two that may be bridged.
pub fn amplifiers() -> impl Strategy<Value = AmplifierDraft> {
    prop_oneof![
        stated().prop_map(|channel| channel.mono()),
        (stated(), stated()).prop_map(|(each, bridge)| two_channels(&each, &bridge)),
    ]
}

/// A request answered in slices of so many counted steps gets the answer it gets in one
/// go, progress never goes back, and further steps give the answer again.
///
/// # Errors
/// If any of that does not hold.
pub fn sliced_alike(asked: Request, budget: u64) -> Result<(), TestCaseError> {
    let mut sliced = Configurations::new(asked.clone());
    let mut slices = 0;
    let mut done = 0;
    let found = loop {
        match sliced.step(budget) {
            Step::Done(answer) => break *answer,
            Step::More(progress) => {
                prop_assert!(progress.done >= done, "progress never goes back");
                prop_assert!(progress.of == 0 || progress.done <= progress.of);
                done = progress.done;
            }
        }
        slices += 1;
        prop_assert!(slices < 2_000_000, "never done");
    };
    prop_assert_eq!(&found, &answer(asked));
    prop_assert_eq!(sliced.step(budget), Step::Done(Box::new(found)), "once more");
    Ok(())
}
