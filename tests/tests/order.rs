//! The order of the list, law by law: what comes first, and what decides when that ties.

use coilwright_solver::answer::{Answer, Configuration};
use coilwright_solver::judge::{Basis, Verdict};
use proof::generate::{amplifiers, cases, equal_drivers, rigs};
use proof::rigs::{Filters, Stated, drivers, list_on, written};
use proptest::prelude::*;
use std::collections::BTreeMap;

/// How well a configuration fits: stated before derived before range-only before the rest.
fn fit(configuration: &Configuration) -> u8 {
    let basis =
        |output: &coilwright_solver::answer::Output| output.available.map(|power| power.basis);
    let any = |wanted| configuration.outputs.iter().any(|output| basis(output) == Some(wanted));
    let range = any(Basis::Range);
    match configuration.verdict {
        Verdict::Fits if !range && !any(Basis::Derived) => 0,
        Verdict::Fits | Verdict::FitsByDerivation if !range => 1,
        Verdict::Fits | Verdict::FitsByDerivation => 2,
        Verdict::NotStated => 3,
        Verdict::BelowStated | Verdict::TooLow => 4,
    }
}

/// The power that the whole rig gives, where every output's is known.
fn target(configuration: &Configuration) -> Option<f64> {
    let each = configuration.outputs.iter().map(|output| output.target_watts);
    each.sum()
}

/// Neighbours of a list that agree in everything the laws before this one look at.
fn tied(
    list: Vec<&Configuration>,
    agree: impl Fn(&Configuration, &Configuration) -> bool,
) -> Vec<(&Configuration, &Configuration)> {
    let neighbours = list.windows(2).map(|pair| (pair[0], pair[1]));
    neighbours.filter(|(earlier, later)| agree(earlier, later)).collect()
}

/// The lists of what hangs on one output, each output by itself: there power is known
/// of all that it may drive or of none.
fn by_output(answer: &Answer) -> Vec<Vec<&Configuration>> {
    let mut lists: BTreeMap<&[u32], Vec<&Configuration>> = BTreeMap::new();
    for configuration in &answer.configurations {
        if let [output] = &configuration.outputs[..] {
            lists.entry(&output.channels).or_default().push(configuration);
        }
    }
    lists.into_values().collect()
}

fn any_filters() -> impl Strategy<Value = Filters> {
    proptest::sample::select(Filters::ALL.to_vec())
}

proptest! {
    #![proptest_config(cases(96))]

    #[test]
    fn what_fits_stands_before_what_does_not(rig in rigs(6), on in amplifiers(), filters in any_filters()) {
        let answer = list_on(&rig, Some(on.clone()), filters);
        let fits: Vec<u8> = answer.configurations.iter().map(fit).collect();
        prop_assert!(fits.is_sorted(), "{}: {:?}", written(&rig), fits);
    }

    #[test]
    fn among_equal_fits_the_even_stand_before_the_uneven(rig in rigs(6), on in amplifiers(), filters in any_filters()) {
        let answer = list_on(&rig, Some(on.clone()), filters);
        let all = answer.configurations.iter().collect();
        for (earlier, later) in tied(all, |a, b| fit(a) == fit(b)) {
            prop_assert!(
                earlier.even >= later.even,
                "{}: {} before {}", written(&rig), earlier.key(), later.key()
            );
        }
    }

    /// Equal drivers, so that the law on unlike drivers has nothing to say.
    #[test]
    fn then_power_decides_in_half_decibels_then_the_higher_load_then_joined_then_runs(
        rig in equal_drivers(6), on in amplifiers(), filters in any_filters()
    ) {
        let answer = list_on(&rig, Some(on.clone()), filters);
        let fitting = answer.configurations.iter().filter(|one| fit(one) < 3);
        let best = fitting.filter_map(target).max_by(f64::total_cmp);
        // Half decibels below the best; `None` where power is not known and so decides nothing.
        let steps = |one: &Configuration| Some(20.0 * (best? / target(one)?).log(10.0));
        let agree = |a: &Configuration, b: &Configuration| fit(a) == fit(b) && a.even == b.even;
        for (earlier, later) in by_output(&answer).into_iter().flat_map(|list| tied(list, agree)) {
            let pair = format!("{}: {} before {}", written(&rig), earlier.key(), later.key());
            if let (Some(a), Some(b)) = (steps(earlier), steps(later)) {
                // A hair from the edge of a step either reckoning is right.
                let edge = |x: f64| x > 1e-9 && (x - x.round()).abs() < 1e-9;
                if edge(a) || edge(b) {
                    continue;
                }
                let (a, b) = (a.max(0.0).floor(), b.max(0.0).floor());
                prop_assert!(a <= b, "power: {pair}");
                if a < b {
                    continue;
                }
            }
            let (a, b) = (earlier.outputs[0].load, later.outputs[0].load);
            prop_assert!(a >= b, "load: {pair}");
            if a == b {
                prop_assert!(earlier.joined_at_driver >= later.joined_at_driver, "joined: {pair}");
                if earlier.joined_at_driver == later.joined_at_driver {
                    prop_assert!(earlier.runs <= later.runs, "runs: {pair}");
                }
            }
        }
    }
}

/// Common practice, no source: unlike drivers in series share voltage by impedances
/// that swing around resonance, so parallel ones come first.
#[test]
fn unlike_drivers_in_parallel_stand_before_unlike_drivers_in_series() {
    // Worked by hand: all three have ρ·R = 400, so side by side they are even; two of
    // 8 Ω 50 W side by side are 4 Ω 100 W, which has the ρ/R = 25 of the third.
    let rig = [drivers(1, 1, "4").rated(100.0), drivers(2, 1, "8").rated(50.0)];
    let on = Stated { least: Some("1"), rated: &[("8", 200.0), ("1", 200.0)] };
    let filters = Filters { joined: false, even: true };
    let answer = list_on(&rig, Some(on.mono()), filters);
    let found: Vec<String> = answer.configurations.iter().map(|one| one.key()).collect();
    // The same power at every load and the series one higher: only this law puts it last.
    assert_eq!(found, ["1:1a||2a||3a", "1:1a+(2a||3a)"]);
}

#[test]
fn within_half_a_decibel_the_higher_load_stands_first() {
    let rig = [drivers(2, 1, "2").rated(500.0)];
    let order = |rated| {
        let on = Stated { least: Some("1"), rated };
        let answer = list_on(&rig, Some(on.mono()), Filters::ON);
        let loads = answer.configurations.iter().map(|one| one.outputs[0].load.to_string());
        loads.collect::<Vec<_>>()
    };
    // 1000 against 900 W is 0.46 dB, against 880 W 0.56 dB (worked by hand).
    assert_eq!(order(&[("4", 900.0), ("1", 1000.0)]), ["4", "1"]);
    assert_eq!(order(&[("4", 880.0), ("1", 1000.0)]), ["1", "4"]);
}
