//! A closed box whose coils, leads and meter are drawn from the model: what it truly is
//! must be among what its reading allows.
//!
//! The box is put together coil by coil here, each with a resistance of its own; how the
//! solver comes from a reading to loads is not looked at. That a coil reads 0.7 to 1.05 of
//! its nominal ohms, that leads add up to half an ohm and that a meter is off by 1 % and
//! two counts is common practice, no source.

use coilwright_solver::closed_box::{Hint, closed_box};
use coilwright_solver::meter::Reading;
use proptest::prelude::*;
use proptest::sample::select;

/// A box: `paths` paths of `in_path` coils of so many ohms, and each coil's part of them.
#[derive(Debug)]
struct Drawn {
    ohms: f64,
    in_path: usize,
    paths: usize,
    parts: Vec<f64>,
}

impl Drawn {
    fn nominal(&self) -> f64 {
        self.ohms * self.in_path as f64 / self.paths as f64
    }

    /// Paths side by side: conductances add.
    fn resistance(&self) -> f64 {
        let paths = self.parts.chunks(self.in_path);
        let path = |parts: &[f64]| parts.iter().map(|part| part * self.ohms).sum::<f64>();
        1.0 / paths.map(|parts| 1.0 / path(parts)).sum::<f64>()
    }
}

fn any_box() -> impl Strategy<Value = Drawn> {
    let ohms = select(vec![0.7, 1.0, 1.4, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 16.0]);
    let coils = (1_usize..=8, 1_usize..=2);
    (ohms, coils, any::<prop::sample::Index>()).prop_flat_map(|(ohms, (drivers, each), at)| {
        let coils = drivers * each;
        let even: Vec<usize> = (1..=coils).filter(|n| coils % n == 0).collect();
        let in_path = *at.get(&even);
        // Coils of a box are alike, more or less: now and then all at one end.
        let own = prop::collection::vec(0.7..=1.05, coils);
        let end = select(vec![0.7, 1.05]).prop_map(move |part| vec![part; coils]);
        prop_oneof![3 => own, 1 => end].prop_map(move |parts| Drawn {
            ohms,
            in_path,
            paths: coils / in_path,
            parts,
        })
    })
}

/// What a meter may show of so many ohms: whole counts, off by no more than 1 % of what is
/// shown and two counts.
fn shown(truth: f64, count: f64, off: f64) -> f64 {
    let least = (truth - 2.0 * count) / 1.01;
    let most = (truth + 2.0 * count) / 0.99;
    let wanted = least + (most - least) * off;
    let counts = (wanted / count).round();
    let within = counts.clamp((least / count).ceil(), (most / count).floor());
    (within * count).max(0.0)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4_000))]

    #[test]
    fn what_a_box_truly_is_is_among_what_its_reading_allows(
        drawn in any_box(),
        leads in 0.0..=0.5,
        off in prop_oneof![Just(0.0), Just(1.0), 0.0..=1.0],
        count in select(vec![0.1, 0.01, 1.0]),
        read_by in prop::option::of(-0.05..=0.05_f64),
    ) {
        let ohms = shown(drawn.resistance() + leads, count, off);
        let found = closed_box(Reading::Ohms { ohms, count }, read_by.map(|by| leads + by));
        if found.hint == Hint::LeadsFirst {
            prop_assert!(read_by.is_none() && ohms < 1.5);
            prop_assert!(found.loads.is_empty() && found.lowest.is_none());
            return Ok(());
        }
        let nominal = drawn.nominal();
        let is = |load: f64| (load - nominal).abs() < 1e-9;
        prop_assert!(
            found.loads.iter().any(|one| is(one.load.to_f64())),
            "{:?} of {} Ω reads {}: {:?}", drawn, nominal, ohms, found
        );
        match found.lowest {
            // An amplifier chosen by the lowest load is safe with the true one.
            Some(lowest) => prop_assert!(lowest.to_f64() <= nominal + 1e-9),
            None => prop_assert!(matches!(found.hint, Hint::Short | Hint::Coarse)),
        }
    }
}

/// The lowest nominal load that so many ohms at the probes allow, counted here one box after
/// the other: one to eight like drivers of one or two usual coils, every even joining. A box
/// of R Ω nominal reads 0.7 R to 1.05 R, and the leads and the meter add what they add.
fn lowest_of_all(ohms: f64, count: f64, leads: Option<f64>) -> Option<f64> {
    let off = 0.01 * ohms + 2.0 * count;
    let leads = leads.map_or((0.0, 0.5), |leads| ((leads - 0.05).max(0.0), leads + 0.05));
    let (low, high) = (ohms - off - leads.1, ohms + off - leads.0);
    let mut lowest: Option<f64> = None;
    for coils in (1..=8).flat_map(|drivers| [drivers, 2 * drivers]) {
        for in_path in (1..=coils).filter(|in_path| coils % in_path == 0) {
            for coil in [0.7, 1.0, 1.4, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 16.0] {
                // ℓ coils in each of w paths: Z·ℓ/w, with ℓ·w coils.
                let nominal = coil * f64::from(in_path * in_path) / f64::from(coils);
                let reads = 0.7 * nominal <= high + 1e-9 && low <= 1.05 * nominal + 1e-9;
                if reads && lowest.is_none_or(|lowest| nominal < lowest) {
                    lowest = Some(nominal);
                }
            }
        }
    }
    lowest
}

/// An amplifier that is chosen by the lowest load told is safe with any box that there may be.
#[test]
fn the_lowest_load_told_is_the_lowest_of_any_box_of_one_to_eight_drivers() {
    let mut told = 0;
    for step in 1..=1_000_u32 {
        let ohms = f64::from(step) / 20.0;
        for (count, leads) in [(0.1, Some(0.2)), (0.1, None), (0.01, Some(0.1))] {
            let found = closed_box(Reading::Ohms { ohms, count }, leads);
            let Some(lowest) = found.lowest else { continue };
            let want = lowest_of_all(ohms, count, leads).unwrap();
            assert!(
                (lowest.to_f64() - want).abs() < 1e-9,
                "{ohms} Ω, steps of {count}, leads {leads:?}: {lowest} told, {want} counted"
            );
            told += 1;
        }
    }
    assert!(told > 2_500, "{told} readings");
}

/// Leads that are read and tenths of an ohm tell usual boxes from a short.
#[test]
fn a_box_of_an_ohm_is_never_taken_for_a_short() {
    for part in [0.7, 0.85, 1.05] {
        for off in [0.0, 0.5, 1.0] {
            let ohms = shown(part + 0.2, 0.1, off);
            let found = closed_box(Reading::Ohms { ohms, count: 0.1 }, Some(0.2));
            assert_eq!(found.hint, Hint::Loads, "{part} {off} {ohms}");
        }
    }
}
