//! How many configurations there are: against published sequences, against trying
//! everything, and against a count that lists nothing.

use coilwright_solver::answer::answer;
use coilwright_solver::problem::Code;
use proof::brute::Everything;
use proof::burnside;
use proof::generate::{cases, rigs};
use proof::rigs::{Drivers, Filters, count, drivers, exact, list, ohms, ratings, request, written};
use proof::tree::Tree;
use proptest::prelude::*;
use std::collections::BTreeSet;

/// OEIS A000084: configurations of n equal single-coil drivers.
const ALIKE: [u64; 12] = [1, 2, 4, 10, 24, 66, 180, 522, 1532, 4624, 14136, 43930];
/// OEIS A006351: configurations of n single-coil drivers that are all different.
const DIFFERENT: [u64; 7] = [1, 2, 8, 52, 472, 5504, 78416];
/// OEIS A048211: distinct loads of exactly n equal coils.
const LOADS: [usize; 11] = [1, 2, 4, 9, 22, 53, 131, 337, 869, 2213, 5691];

/// Single-coil drivers of n different groups.
fn all_different(n: usize) -> Vec<Drivers> {
    ["4", "2", "8", "6", "3", "16", "1"][..n].iter().map(|ohms| drivers(1, 1, ohms)).collect()
}

#[test]
fn equal_single_coil_drivers_have_as_many_configurations_as_oeis_a000084() {
    for (n, want) in (1..).zip(ALIKE) {
        let answer = list(&[drivers(n, 1, "4")], Filters::OFF);
        assert_eq!(answer.total, Some(want), "{n} drivers");
        assert_eq!(answer.before_filters, Some(want), "{n} drivers");
        assert_eq!(answer.configurations.len() as u64, want, "{n} drivers");
    }
}

#[test]
fn all_different_drivers_have_as_many_configurations_as_oeis_a006351() {
    for (n, want) in (1..).zip(DIFFERENT) {
        let answer = list(&all_different(n), Filters::OFF);
        assert_eq!(answer.total, Some(want), "{n} drivers");
        assert_eq!(answer.configurations.len() as u64, want, "{n} drivers");
    }
}

#[test]
fn equal_groups_are_never_merged() {
    // Alike in everything, but their owner told them apart: OEIS A006351 again.
    for (n, want) in (1..).zip(DIFFERENT).take(6) {
        let answer = list(&vec![drivers(1, 1, "4"); n], Filters::OFF);
        assert_eq!(answer.total, Some(want), "{n} groups");
    }
}

#[test]
fn equal_coils_reach_as_many_loads_as_oeis_a048211() {
    let (mut before, mut bound) = (1, 1);
    for (n, want) in (1..).zip(LOADS) {
        let answer = list(&[drivers(n, 1, "1")], Filters::OFF);
        let loads: Vec<_> = answer.loads.iter().map(|tally| tally.load.ratio()).collect();
        assert_eq!(loads.len(), want, "{n} coils");
        assert!(loads.is_sorted_by(|a, b| a < b), "{n} coils: rising, each once");
        let configurations: u64 = answer.loads.iter().map(|tally| tally.configurations).sum();
        assert_eq!(Some(configurations), answer.total, "{n} coils");
        // Same entry: r is reachable exactly when 1/r is, and neither part of the
        // fraction exceeds the Fibonacci number F(n+1).
        let mirrored: Vec<_> = loads.iter().rev().map(|load| load.recip()).collect();
        assert_eq!(loads, mirrored, "{n} coils");
        for load in &loads {
            let largest = load.numerator().max(load.denominator());
            assert!(largest <= bound, "{n} coils reach {load}");
        }
        (before, bound) = (bound, before + bound);
    }
}

#[test]
fn four_equal_coils_reach_the_loads_of_oeis_a048211() {
    let answer = list(&[drivers(4, 1, "1")], Filters::OFF);
    let found: Vec<_> =
        answer.loads.iter().map(|tally| (tally.load.to_string(), tally.configurations)).collect();
    let want = ["1/4", "2/5", "3/5", "3/4", "1", "4/3", "5/3", "5/2", "4"];
    // Every load in one network, 1 Ω in two (same entry).
    let want: Vec<_> =
        want.into_iter().map(|load| (load.to_owned(), 1 + u64::from(load == "1"))).collect();
    assert_eq!(found, want);
}

/// Rigs of up to seven coils: single, dual, quad, mixed, rated, unlike in ohms.
fn small_rigs() -> Vec<Vec<Drivers>> {
    vec![
        vec![drivers(1, 1, "4")],
        vec![drivers(1, 2, "4")],
        vec![drivers(1, 4, "2")],
        vec![drivers(6, 1, "8")],
        vec![drivers(2, 2, "2")],
        vec![drivers(3, 2, "1.4")],
        vec![drivers(1, 4, "4"), drivers(1, 2, "4")],
        vec![drivers(1, 4, "4"), drivers(3, 1, "4")],
        vec![drivers(1, 4, "1").rated(800.0), drivers(1, 2, "2").rated(400.0)],
        vec![drivers(2, 2, "4").rated(300.0), drivers(2, 1, "4").rated(150.0)],
        vec![drivers(1, 2, "2"), drivers(1, 2, "2"), drivers(1, 2, "2")],
        vec![drivers(2, 1, "4").rated(100.0), drivers(1, 2, "8").rated(200.0)],
        vec![drivers(2, 1, "4").rated(200.0), drivers(2, 1, "8").rated(200.0)],
        vec![drivers(2, 1, "4").rated(200.0), drivers(3, 1, "4").rated(100.0)],
        vec![drivers(2, 1, "4").rated(200.0), drivers(3, 1, "4")],
        vec![drivers(3, 1, "4/3"), drivers(2, 2, "8/3")],
        vec![drivers(2, 1, "4"), drivers(1, 1, "8"), drivers(1, 2, "2"), drivers(1, 1, "3")],
        vec![drivers(2, 2, "4"), drivers(1, 2, "2"), drivers(1, 1, "1")],
    ]
}

/// Holds the listing, under every filter, to what trying everything finds.
fn listed_as_tried(rig: &[Drivers]) {
    let everything = Everything::of(rig);
    for filters in Filters::ALL {
        let passes = |tree: &Tree| {
            (!filters.joined || tree.joined())
                && (!filters.even || tree.even(&ohms(rig), &ratings(rig)))
        };
        let want: BTreeSet<usize> = (0..)
            .zip(everything.examples())
            .filter_map(|(class, tree)| passes(tree).then_some(class))
            .collect();
        let answer = list(rig, filters);
        let name = format!("{} {filters:?}", written(rig));
        let mut found = BTreeSet::new();
        for configuration in &answer.configurations {
            let key = configuration.key();
            let class = everything.class(&Tree::read(&key));
            assert!(found.insert(class), "{name}: {key} is listed before");
        }
        let example = |class: &usize| &everything.examples()[*class];
        let missing: Vec<_> = want.difference(&found).map(example).collect();
        let wrong: Vec<_> = found.difference(&want).map(example).collect();
        assert!(missing.is_empty(), "{name}: not listed: {missing:?}");
        assert!(wrong.is_empty(), "{name}: listed against the filters: {wrong:?}");
        assert_eq!(answer.total, Some(want.len() as u64), "{name}");
        let before = everything.examples().len() as u64;
        assert_eq!(answer.before_filters, Some(before), "{name}");
    }
}

#[test]
fn the_listing_is_what_trying_everything_leaves_of_small_rigs() {
    for rig in small_rigs() {
        listed_as_tried(&rig);
    }
}

proptest! {
    #![proptest_config(cases(24))]

    #[test]
    fn the_listing_is_what_trying_everything_leaves_of_any_small_rig(rig in rigs(6)) {
        listed_as_tried(&rig);
    }

    #[test]
    fn any_rig_has_as_many_configurations_as_counting_without_listing_finds(rig in rigs(9)) {
        let all = u64::try_from(burnside::all(&rig)).unwrap();
        let joined = u64::try_from(burnside::joined(&rig)).unwrap();
        if all <= 100_000 {
            prop_assert_eq!(count(&rig, Filters::OFF).total, Some(all), "{}", written(&rig));
        }
        let filtered = count(&rig, Filters { joined: true, even: false });
        prop_assert_eq!(filtered.total, Some(joined), "{}", written(&rig));
        let before = (all <= 300_000).then_some(all);
        prop_assert_eq!(filtered.before_filters, before, "{}", written(&rig));
    }
}

/// Rigs whose coils are all alike in ohms and rating, too large to try everything.
fn larger_rigs() -> Vec<Vec<Drivers>> {
    vec![
        vec![drivers(4, 2, "2")],
        vec![drivers(2, 4, "2")],
        vec![drivers(1, 4, "4"), drivers(4, 1, "4")],
        vec![drivers(2, 2, "4").rated(200.0), drivers(4, 1, "4").rated(100.0)],
        vec![drivers(2, 2, "4"), drivers(2, 2, "4")],
        vec![drivers(1, 4, "8"), drivers(2, 2, "8")],
        vec![drivers(5, 1, "4"), drivers(4, 1, "4")],
        vec![drivers(5, 2, "4")],
        vec![drivers(11, 1, "8")],
    ]
}

/// Whether all groups hold the same kind of driver.
fn one_kind(rig: &[Drivers]) -> bool {
    rig.iter().all(|group| group.coils == rig[0].coils)
}

/// Whether all coils of a rig are alike in what they may take.
fn ratings_alike(rig: &[Drivers]) -> bool {
    let per_coil = |group: &Drivers| {
        let known = rig.iter().all(|group| group.watts.is_some());
        let watts = group.watts.filter(|_| known).unwrap_or(1.0);
        exact(&watts.to_string()) / i128::from(group.coils)
    };
    rig.iter().all(|group| per_coil(group) == per_coil(&rig[0]))
}

#[test]
fn the_listing_has_as_many_configurations_as_counting_without_listing_finds() {
    let mut counted = 0;
    for rig in small_rigs().into_iter().chain(larger_rigs()) {
        for filters in Filters::ALL {
            let alike = ratings_alike(&rig) && rig.iter().all(|group| group.ohms == rig[0].ohms);
            let want = match (filters.joined, filters.even) {
                (false, false) => burnside::all(&rig),
                (true, false) => burnside::joined(&rig),
                (false, true) if alike => burnside::even(&rig),
                (true, true) if alike && one_kind(&rig) => burnside::joined_and_even(&rig),
                // Unlike coils: evenness has no such count.
                _ => continue,
            };
            let answer = count(&rig, filters);
            let name = format!("{} {filters:?}", written(&rig));
            assert_eq!(answer.total, Some(u64::try_from(want).unwrap()), "{name}");
            let before = u64::try_from(burnside::all(&rig)).unwrap();
            assert_eq!(answer.before_filters, Some(before), "{name}");
            counted += 1;
        }
    }
    assert!(counted > 70, "{counted} counts compared");
}

#[test]
fn filters_reach_rigs_whose_whole_list_is_too_long() {
    let cases = [
        (
            vec![drivers(10, 2, "2")],
            Filters::ON,
            burnside::joined_and_even as fn(&[Drivers]) -> i128,
        ),
        (vec![drivers(8, 4, "1")], Filters::ON, burnside::joined_and_even),
        (vec![drivers(16, 2, "4")], Filters::ON, burnside::joined_and_even),
        (vec![drivers(16, 1, "4")], Filters::ON, burnside::joined_and_even),
        (vec![drivers(4, 4, "2")], Filters { joined: false, even: true }, burnside::even),
        (vec![drivers(8, 2, "2")], Filters { joined: false, even: true }, burnside::even),
        (vec![drivers(6, 2, "2")], Filters { joined: true, even: false }, burnside::joined),
        (vec![drivers(3, 4, "2")], Filters { joined: true, even: false }, burnside::joined),
    ];
    for (rig, filters, counted) in cases {
        let answer = list(&rig, filters);
        let name = format!("{} {filters:?}", written(&rig));
        assert_eq!(answer.total.map(i128::from), Some(counted(&rig)), "{name}");
        let listed = answer.configurations.len() as u64;
        assert_eq!(Some(listed), answer.total, "{name}");
        // OEIS A000084: fourteen coils alone have 437,502 (memory), more than are listed.
        assert_eq!(answer.before_filters, None, "{name}");
    }
}

#[test]
fn too_many_to_list_is_a_problem_that_tells_how_many() {
    let joined = Filters { joined: true, even: false };
    let cases = [
        (vec![drivers(6, 2, "2")], Filters::OFF, burnside::all as fn(&[Drivers]) -> i128),
        (vec![drivers(3, 4, "2")], Filters::OFF, burnside::all),
        (vec![drivers(16, 1, "2")], Filters::OFF, burnside::all),
        (vec![drivers(1, 1, "4"); 8], Filters::OFF, burnside::all),
        (vec![drivers(4, 1, "2"), drivers(3, 2, "4")], Filters::OFF, burnside::all),
        (vec![drivers(10, 2, "2")], joined, burnside::joined),
    ];
    for (rig, filters, counted) in cases {
        let answer = answer(request(&rig, None, filters));
        let name = format!("{} {filters:?}", written(&rig));
        let codes: Vec<Code> = answer.problems.iter().map(|problem| problem.code).collect();
        assert_eq!(codes, [Code::TooMany], "{name}");
        assert_eq!(answer.total, None, "{name}");
        assert_eq!(answer.before_filters, None, "{name}");
        let want = u128::try_from(counted(&rig)).unwrap();
        assert_eq!(answer.total_exact, Some(want), "{name}");
        assert!(answer.loads.is_empty() && answer.configurations.is_empty(), "{name}");
    }
}
