//! One coil fails: what becomes of the others, held to nodal analysis and to laws of
//! circuits.

use coilwright_solver::answer::Configuration;
use coilwright_solver::failure::{After, Failed, Fault, Worst, each, worst};
use coilwright_solver::judge::Verdict::{self, BelowStated, Fits, NotStated, TooLow};
use coilwright_solver::network::{Joint, Network};
use proof::brute::coils;
use proof::faults::{Case, WITHIN, circuit, holds, listed};
use proof::generate::{amplifiers, cases, rigs};
use proof::rigs::{Drivers, Filters, Stated, drivers, request};
use proptest::prelude::*;
use proptest::sample::Index;

const FAULTS: [Fault; 2] = [Fault::Open, Fault::Shorted];

fn joint(network: &Network) -> Option<Joint> {
    match network {
        Network::Coil(_) => None,
        Network::Node(joint, parts) => {
            let bare = parts.iter().all(|part| matches!(part, Network::Coil(_)));
            bare.then_some(*joint)
        }
    }
}

/// Claims of the whole configuration from those of every coil.
fn worst_is_worst_of(
    each_open: &[Failed],
    each_short: &[Failed],
    worst: &Worst,
    one: &Configuration,
) {
    let told = one.key();
    assert!(each_open.contains(&worst.open) && each_short.contains(&worst.short), "{told}");
    let over = |failed: &&Failed| failed.hottest.is_some_and(|hot| hot.overloads() == Some(true));
    let unknown = each_open.iter().any(|failed| failed.hottest.is_some_and(|hot| !hot.of_rating));
    let any = each_open.iter().any(|failed| over(&failed));
    assert_eq!(
        worst.overloads,
        if any { Some(true) } else { (!unknown).then_some(false) },
        "{told}"
    );
    let most = each_open.iter().filter(over).filter_map(|f| f.hottest).map(|hot| hot.times);
    if let Some(most) = most.reduce(f64::max) {
        let hot = worst.open.hottest.unwrap();
        assert!(hot.of_rating && hot.times > most * (1.0 - WITHIN), "{told}: {hot:?}, {most}");
    }
    let forbids = |verdict| matches!(verdict, Some(TooLow | BelowStated));
    let newly = each_short.iter().any(|failed| {
        forbids(failed.verdict) && !forbids(Some(one.outputs[failed.output].verdict))
    });
    assert_eq!(worst.short_too_low, newly, "{told}");
    assert_eq!(worst.short.verdict, each_short.iter().map(|f| f.verdict).max().unwrap(), "{told}");
}

proptest! {
    #![proptest_config(cases(96))]

    /// Every coil of a random configuration of a random rig, solved as a circuit.
    #[test]
    fn loads_and_powers_after_a_fault_are_those_of_nodal_analysis(
        rig in rigs(6),
        amplifier in proptest::option::of(amplifiers()),
        which in any::<Index>(),
    ) {
        let mut all = listed(&rig, request(&rig, amplifier, Filters::OFF));
        let case = all.swap_remove(which.index(all.len()));
        let both = FAULTS.map(|fault| each(&case.checked, &case.one, fault));
        for (fault, all) in FAULTS.into_iter().zip(&both) {
            prop_assert_eq!(all.len(), coils(&rig).len());
            for failed in all {
                let (circuit, ohms) = circuit(&case, failed, fault);
                holds(&case, failed, &circuit.solved(&|leaf| ohms[&leaf]));
            }
        }
        let [open, short] = both;
        worst_is_worst_of(&open, &short, &worst(&case.checked, &case.one).unwrap(), &case.one);
    }

    /// Laws of circuits: more resistance anywhere never lowers the whole (Rayleigh's
    /// monotonicity law; Doyle and Snell, Random Walks and Electric Networks, from memory).
    #[test]
    fn an_open_never_lowers_a_load_and_a_short_never_raises_one(rig in rigs(7), which in any::<Index>()) {
        let mut all = listed(&rig, request(&rig, None, Filters::OFF));
        let case = all.swap_remove(which.index(all.len()));
        let healthy = case.one.outputs[0].load;
        for failed in each(&case.checked, &case.one, Fault::Open) {
            let higher = match failed.after { After::Load(load) => load > healthy, after => after == After::Open };
            prop_assert!(higher, "{:?}", failed);
        }
        for failed in each(&case.checked, &case.one, Fault::Shorted) {
            let lower = match failed.after { After::Load(load) => load < healthy, after => after == After::Short };
            prop_assert!(lower, "{:?}", failed);
        }
    }

    /// Common practice, no source: a string of lamps goes out as one; side by side each
    /// burns for itself.
    #[test]
    fn strings_fall_silent_and_coils_side_by_side_do_not_notice(rig in rigs(6)) {
        let mut met = 0;
        for case in listed(&rig, request(&rig, None, Filters::OFF)) {
            let others = u32::try_from(coils(&rig).len()).unwrap() - 1;
            let opened = each(&case.checked, &case.one, Fault::Open);
            match joint(&case.one.outputs[0].network) {
                Some(Joint::Series) => {
                    met += 1;
                    for failed in &opened {
                        prop_assert_eq!((failed.after, failed.silent), (After::Open, others));
                        prop_assert_eq!(failed.hottest, None);
                    }
                }
                Some(Joint::Parallel) => {
                    met += 1;
                    prop_assert!(!worst(&case.checked, &case.one).unwrap().raises);
                    for failed in &opened {
                        prop_assert_eq!(failed.silent, 0);
                        prop_assert!((failed.hottest.unwrap().times - 1.0).abs() < 1e-12);
                    }
                    for failed in each(&case.checked, &case.one, Fault::Shorted) {
                        prop_assert_eq!((failed.after, failed.silent), (After::Short, others));
                    }
                }
                None => {}
            }
        }
        prop_assert!(met == 2 || coils(&rig).len() == 1, "all in series and all in parallel");
    }
}

/// The case of a rig with this key.
fn of_key(rig: &[Drivers], amplifier: Stated, key: &str) -> Case {
    let all = listed(rig, request(rig, Some(amplifier.mono()), Filters::OFF));
    let found = all.into_iter().find(|case| case.one.key() == key);
    found.unwrap_or_else(|| panic!("no configuration {key}"))
}

/// Worked by hand, twice, from first principles.
#[test]
fn two_dual_two_ohm_drivers_at_two_ohms_differ_only_when_a_coil_opens() {
    let rig = [drivers(2, 2, "2").rated(500.0)];
    let amplifier = Stated { least: Some("2"), rated: &[("2", 1000.0)] };
    let case = of_key(&rig, amplifier.clone(), "1:(1a||1b)+(2a||2b)");
    let found = worst(&case.checked, &case.one).unwrap();
    let hot = found.open.hottest.unwrap();
    assert_eq!((found.open.coil.to_string().as_str(), hot.coil.to_string().as_str()), ("1a", "1b"));
    assert_eq!(load(&found.open), "3");
    assert!((hot.watts.unwrap() - 4000.0 / 9.0).abs() < 1e-9, "{hot:?}");
    assert!((hot.times - 16.0 / 9.0).abs() < 1e-12, "{hot:?}");
    assert_eq!((found.overloads, found.short_too_low), (Some(true), true));
    // One coil shorted takes its driver out: the other alone is 1 Ω.
    assert_eq!((load(&found.short).as_str(), found.short.verdict), ("1", Some(TooLow)));

    let case = of_key(&rig, amplifier, "1:(1a+1b)||(2a+2b)");
    let found = worst(&case.checked, &case.one).unwrap();
    assert_eq!((load(&found.open).as_str(), found.open.silent), ("4", 1));
    assert_eq!((found.overloads, found.raises), (Some(false), false));
    assert!((found.open.hottest.unwrap().times - 1.0).abs() < 1e-9);
    assert_eq!(load(&found.short), "4/3");
}

fn load(failed: &Failed) -> String {
    match failed.after {
        After::Load(load) => load.to_string(),
        after => format!("{after:?}"),
    }
}

/// Worked by hand: alone at the voltage of two in series, a coil gets four times its part.
#[test]
fn without_ratings_a_coil_is_compared_with_what_it_got() {
    let rig = [drivers(2, 1, "4")];
    let amplifier = Stated { least: Some("4"), rated: &[("8", 200.0)] };
    let case = of_key(&rig, amplifier, "1:1a+2a");
    let hot = each(&case.checked, &case.one, Fault::Shorted)[0].hottest.unwrap();
    assert_eq!((hot.times, hot.of_rating, hot.watts, hot.overloads()), (4.0, false, None, None));
    let found = worst(&case.checked, &case.one).unwrap();
    // Everything is silent: nothing is left that could overload.
    assert_eq!((found.open.after, found.overloads), (After::Open, Some(false)));
    assert!(!found.short_too_low, "4 Ω is exactly the least load");
}

/// Worked by hand: (a ∥ b) + c on an amplifier with a stated least load of 1 Ω.
#[test]
fn a_short_is_judged_by_the_load_it_leaves() {
    let verdicts = |least: &'static str| -> Vec<Option<Verdict>> {
        let rig = [drivers(3, 1, "4")];
        let case = of_key(&rig, Stated { least: Some(least), rated: &[] }, "1:1a+(2a||3a)");
        let all = each(&case.checked, &case.one, Fault::Shorted);
        let mut verdicts: Vec<_> = all.iter().map(|failed| failed.verdict).collect();
        verdicts.sort();
        verdicts
    };
    // c shorted leaves 2 Ω, a or b shorted leaves 4 Ω.
    assert_eq!(verdicts("2"), [Some(Fits); 3]);
    assert_eq!(verdicts("4"), [Some(Fits), Some(Fits), Some(TooLow)]);
    let rig = [drivers(3, 1, "4")];
    let silent = listed(&rig, request(&rig, Some(Stated::default().mono()), Filters::OFF));
    let all = silent.iter().flat_map(|case| each(&case.checked, &case.one, Fault::Open));
    assert!(all.filter_map(|failed| failed.verdict).all(|verdict| verdict == NotStated));
}
