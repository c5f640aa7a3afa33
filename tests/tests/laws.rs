//! Laws that hold of every rig: of the networks and of the lists.

use coilwright_solver::answer::{Answer, answer};
use coilwright_solver::network::{Coil, Network};
use coilwright_solver::ohms::{Ohms, Ratio};
use proof::generate::{amplifiers, cases, equal_drivers, odd_rigs, rigs, sliced_alike};
use proof::rigs::{
    Drivers, Filters, drivers, group_of, list, list_on, ohms, ratings, request, written,
};
use proof::tree::{Exact, Leaf, Tree};
use proptest::prelude::*;
use proptest::sample::Index;
use std::collections::{BTreeMap, BTreeSet};

/// The keys of a list.
fn keys(answer: &Answer) -> BTreeSet<String> {
    let all = answer.configurations.iter().map(|configuration| configuration.key());
    all.collect()
}

/// The networks of a list.
fn trees(answer: &Answer) -> Vec<Tree> {
    let all = answer.configurations.iter();
    all.map(|configuration| Tree::read(&configuration.key())).collect()
}

fn whole(n: u32) -> Exact {
    Exact::from_integer(i128::from(n))
}

/// A fraction of the oracles as one of the solver's.
fn ratio(exact: Exact) -> Ratio {
    let part = |n: &i128| u128::try_from(*n).unwrap();
    Ratio::new(part(exact.numer()), part(exact.denom())).unwrap()
}

/// The ohms of the rig's coils as the solver takes them.
fn solver_ohms(rig: &[Drivers]) -> impl Fn(Coil) -> Ohms {
    |coil| Ohms::new(ratio(group_of(rig, coil.driver).coil_ohms()))
}

/// Rating and load of an even network; `None` where a joint breaks the laws: in series
/// go parts of equal ρ/R, in parallel parts of equal ρ·R.
fn lawful(
    tree: &Tree,
    ohms: &impl Fn(Leaf) -> Exact,
    rating: &impl Fn(Leaf) -> Exact,
) -> Option<(Exact, Exact)> {
    let law = |part: &(Exact, Exact)| match tree {
        Tree::Parallel(_) => part.0 * part.1,
        _ => part.0 / part.1,
    };
    let parts: Option<Vec<(Exact, Exact)>> =
        tree.parts().iter().map(|part| lawful(part, ohms, rating)).collect();
    let parts = parts?;
    if let Tree::Leaf(leaf) = tree {
        return Some((rating(*leaf), ohms(*leaf)));
    }
    let together: Exact = parts.iter().map(|part| part.0).sum();
    let alike = parts.iter().all(|part| law(part) == law(&parts[0]));
    alike.then(|| (together, tree.load(ohms)))
}

proptest! {
    #![proptest_config(cases(48))]

    /// Worked by hand: a series joint gives each part power as its load, so equal
    /// fractions of the rating ask for equal ρ/R; a parallel joint as its conductance.
    #[test]
    fn a_network_is_even_exactly_when_every_joint_obeys_the_even_laws(rig in rigs(6)) {
        let (ohms, rating) = (ohms(&rig), ratings(&rig));
        for configuration in &list(&rig, Filters::OFF).configurations {
            let key = configuration.key();
            let is_lawful = lawful(&Tree::read(&key), &ohms, &rating).is_some();
            prop_assert_eq!(configuration.even, is_lawful, "{} {}", written(&rig), key);
        }
    }

    /// Worked by hand: with ℓ coils in each of w paths the load is Z·ℓ/w and ℓ·w is n.
    #[test]
    fn n_equal_coils_evenly_joined_have_the_load_z_l_over_w_with_l_times_w_being_n(
        rig in equal_drivers(8)
    ) {
        let coils = rig[0].count * rig[0].coils;
        let shapes: Vec<Ratio> = (1..=coils)
            .filter(|paths| coils % paths == 0)
            .map(|paths| ratio(rig[0].coil_ohms() * whole(coils / paths) / whole(paths)))
            .collect();
        let answer = list(&rig, Filters { joined: false, even: true });
        for configuration in &answer.configurations {
            let load = configuration.outputs[0].load.ratio();
            prop_assert!(shapes.contains(&load), "{} {}", configuration.key(), load);
        }
        // And every such load is reached.
        prop_assert_eq!(answer.loads.len(), shapes.len(), "{}", written(&rig));
    }

    /// Duality of series/parallel networks (OEIS A048211: r is reachable exactly when 1/r is).
    #[test]
    fn series_and_parallel_exchanged_with_ohms_inverted_gives_the_reciprocal_load(rig in rigs(6)) {
        let ohms = solver_ohms(&rig);
        let inverted = |coil| Ohms::new(ohms(coil).ratio().recip());
        let answer = list(&rig, Filters::OFF);
        for (configuration, tree) in answer.configurations.iter().zip(trees(&answer)) {
            let dual: Network = tree.dual().ascii().parse().unwrap();
            let load = dual.load(&inverted).unwrap().ratio();
            let want = configuration.outputs[0].load.ratio().recip();
            prop_assert_eq!(load, want, "{}", configuration.key());
        }
    }

    #[test]
    fn the_list_of_equal_coils_holds_the_dual_of_each_network(
        rig in equal_drivers(6), filters in proptest::sample::select(Filters::ALL.to_vec())
    ) {
        let everything = proof::brute::Everything::of(&rig);
        let answer = list(&rig, filters);
        let classes = |dual: bool| -> BTreeSet<usize> {
            let turned = |tree: Tree| if dual { tree.dual() } else { tree };
            trees(&answer).into_iter().map(|tree| everything.class(&turned(tree))).collect()
        };
        prop_assert_eq!(classes(false), classes(true), "{}", written(&rig));
    }

    /// Rayleigh's monotonicity law (Doyle and Snell, Random Walks and Electric Networks,
    /// 1.4, from memory); strict here, since current flows through every coil.
    #[test]
    fn a_coil_of_more_ohms_raises_every_load(rig in rigs(6), which: Index, more in 1_u32..20) {
        let ohms = solver_ohms(&rig);
        let coils = proof::brute::coils(&rig);
        let raised = which.get(&coils);
        let more = Ratio::new(u128::from(more), 10).unwrap();
        let after = |coil: Coil| {
            let before = ohms(coil);
            let here = (coil.driver, coil.coil) == (raised.driver, raised.coil);
            if here { before.series(Ohms::new(more)).unwrap() } else { before }
        };
        for configuration in &list(&rig, Filters::OFF).configurations {
            let network = &configuration.outputs[0].network;
            let (low, high) = (network.load(&ohms).unwrap(), network.load(&after).unwrap());
            prop_assert!(low < high, "{}: {} then {}", configuration.key(), low, high);
            prop_assert_eq!(low, configuration.outputs[0].load);
        }
    }

    #[test]
    fn shares_sum_to_exactly_one_and_are_the_squares_of_the_currents(rig in rigs(6)) {
        let (ohms, exact_ohms) = (solver_ohms(&rig), ohms(&rig));
        for configuration in &list(&rig, Filters::OFF).configurations {
            let key = configuration.key();
            let network = &configuration.outputs[0].network;
            let mut shares = network.shares(&ohms).unwrap();
            let sum = shares.iter().skip(1).try_fold(shares[0].1, |sum, share| sum.plus(share.1));
            prop_assert_eq!(sum, Some(Ratio::ONE), "{}", &key);
            shares.sort_by_key(|(coil, _)| *coil);
            let mut want = Tree::read(&key).shares(&exact_ohms);
            want.sort_by_key(|(leaf, _)| *leaf);
            prop_assert_eq!(configuration.coil_shares.len(), want.len(), "{}", &key);
            for ((coil, share), (leaf, exact)) in shares.iter().zip(&want) {
                prop_assert_eq!((coil.driver, coil.coil), (leaf.driver, leaf.coil));
                prop_assert_eq!(*share, ratio(*exact), "{} {}", &key, leaf);
            }
            for ((_, share), float) in shares.iter().zip(&configuration.coil_shares) {
                prop_assert!((share.to_f64() - float).abs() < 1e-12, "{}: {} is {}", &key, share, float);
            }
        }
    }

    #[test]
    fn a_driver_s_share_is_the_sum_of_its_coils_and_all_drivers_make_one(rig in odd_rigs(5)) {
        for configuration in &list(&rig, Filters::OFF).configurations {
            let mut coils = configuration.coil_shares.iter();
            let mut sums = Vec::new();
            for group in &rig {
                for _ in 0..group.count {
                    sums.push(coils.by_ref().take(group.coils as usize).sum::<f64>());
                }
            }
            prop_assert!(coils.next().is_none());
            prop_assert_eq!(sums.len(), configuration.driver_shares.len());
            for (sum, share) in sums.iter().zip(&configuration.driver_shares) {
                prop_assert!((sum - share).abs() < 1e-12, "{}", configuration.key());
            }
            let all: f64 = configuration.driver_shares.iter().sum();
            prop_assert!((all - 1.0).abs() < 1e-12, "{}: {}", configuration.key(), all);
        }
    }

    #[test]
    fn what_is_listed_passes_the_filters_and_what_passes_is_listed(rig in rigs(6)) {
        let unfiltered = list(&rig, Filters::OFF);
        let (ohms, rating) = (ohms(&rig), ratings(&rig));
        for configuration in &unfiltered.configurations {
            let (key, tree) = (configuration.key(), Tree::read(&configuration.key()));
            prop_assert_eq!(configuration.joined_at_driver, tree.joined(), "{}", &key);
            prop_assert_eq!(configuration.even, tree.even(&ohms, &rating), "{}", &key);
            prop_assert_eq!(configuration.runs as usize, tree.runs(), "{}", &key);
            let by_itself = configuration.outputs[0].network.runs();
            prop_assert_eq!(by_itself, configuration.runs, "{}", &key);
        }
        for filters in Filters::ALL {
            let filtered = list(&rig, filters);
            let passing: BTreeSet<String> = unfiltered
                .configurations
                .iter()
                .filter(|one| one.joined_at_driver || !filters.joined)
                .filter(|one| one.even || !filters.even)
                .map(|one| one.key())
                .collect();
            prop_assert_eq!(keys(&filtered), passing, "{} {:?}", written(&rig), filters);
            prop_assert_eq!(filtered.before_filters, unfiltered.total);
        }
    }

    #[test]
    fn keys_are_unique_and_read_back_to_themselves(rig in odd_rigs(5)) {
        let answer = list(&rig, Filters::OFF);
        prop_assert_eq!(keys(&answer).len(), answer.configurations.len());
        for configuration in &answer.configurations {
            let (key, network) = (configuration.key(), &configuration.outputs[0].network);
            let read: Network = key.parse().unwrap();
            prop_assert_eq!(&read, network, "{}", &key);
            prop_assert_eq!(read.ascii(), key.clone());
            let seen = network.to_string();
            prop_assert_eq!(Tree::read_spaced(&seen), Tree::read(&key), "{}", &seen);
            prop_assert_eq!(&seen.parse::<Network>().unwrap(), network, "{}", &seen);
            first_come_first_numbered(&rig, &Tree::read(&key))?;
        }
    }

    #[test]
    fn ranks_run_from_one_without_gaps_and_a_limit_cuts_nothing_but_the_end(
        rig in rigs(5), on in amplifiers(), limit in 0_u32..40
    ) {
        let whole = list_on(&rig, Some(on.clone()), Filters::OFF);
        let ranks: Vec<u32> = whole.configurations.iter().map(|one| one.rank).collect();
        let count = u32::try_from(ranks.len()).unwrap();
        prop_assert_eq!(ranks, (1..=count).collect::<Vec<_>>());
        let mut asked = request(&rig, Some(on), Filters::OFF);
        asked.limit = limit;
        let mut want = whole;
        want.configurations.truncate(limit as usize);
        prop_assert_eq!(answer(asked), want);
    }

    #[test]
    fn a_listing_does_not_depend_on_how_it_is_sliced(
        rig in rigs(6), filters in proptest::sample::select(Filters::ALL.to_vec()), budget in 1_u64..300
    ) {
        let asked = request(&rig, None, filters);
        sliced_alike(asked, budget)?;
    }

    #[test]
    fn the_loads_are_those_of_the_list_counted(rig in rigs(6), on in amplifiers()) {
        let answer = list_on(&rig, Some(on), Filters::OFF);
        prop_assert!(answer.loads.is_sorted_by(|a, b| a.load < b.load), "rising, each once");
        for tally in &answer.loads {
            let having: Vec<_> = answer
                .configurations
                .iter()
                .filter(|one| one.outputs.iter().any(|output| output.load == tally.load))
                .collect();
            prop_assert_eq!(having.len() as u64, tally.configurations, "{}", tally.load);
            prop_assert!(tally.configurations > 0);
            prop_assert_eq!(tally.even, having.iter().any(|one| one.even), "{}", tally.load);
            let best = having
                .iter()
                .flat_map(|one| &one.outputs)
                .filter(|output| output.load == tally.load)
                .map(|output| output.verdict)
                .min();
            prop_assert_eq!(Some(tally.verdict), best, "{}", tally.load);
        }
        let counted: u64 = answer.loads.iter().map(|tally| tally.configurations).sum();
        let loads = answer.configurations.iter().map(|one| {
            let loads: BTreeSet<Ohms> = one.outputs.iter().map(|output| output.load).collect();
            loads.len() as u64
        });
        prop_assert_eq!(counted, loads.sum::<u64>());
    }
}

#[test]
fn a_load_is_even_where_any_of_its_networks_is() {
    let mut mixed = 0;
    // Ratings rather than ohms make the second kind of rig even or not.
    let alike = (1..=9).map(|n| vec![drivers(n, 1, "1")]);
    let rated = |watts| vec![drivers(2, 1, "4").rated(watts), drivers(3, 1, "4").rated(100.0)];
    for rig in alike.chain([25.0, 50.0, 100.0, 200.0, 400.0].map(rated)) {
        let answer = list(&rig, Filters::OFF);
        let mut kinds: BTreeMap<String, BTreeSet<bool>> = BTreeMap::new();
        for one in &answer.configurations {
            kinds.entry(one.outputs[0].load.to_string()).or_default().insert(one.even);
        }
        for tally in &answer.loads {
            let kinds = &kinds[&tally.load.to_string()];
            assert_eq!(tally.even, kinds.contains(&true), "{}: {}", written(&rig), tally.load);
            mixed += u32::from(kinds.len() == 2);
        }
    }
    assert!(mixed > 5, "{mixed} loads of even and of uneven networks");
}

/// Coils take letters in order of appearance, drivers of a group the lowest numbers.
fn first_come_first_numbered(rig: &[Drivers], tree: &Tree) -> Result<(), TestCaseError> {
    let mut met: Vec<Leaf> = Vec::new();
    for leaf in tree.leaves() {
        let letters = met.iter().filter(|other| other.driver == leaf.driver).count();
        prop_assert_eq!(usize::from(leaf.coil), letters, "{}", tree.ascii());
        if letters == 0 {
            // Every driver of the group with a lower number has been met.
            let mut first = 0_u8;
            for group in rig {
                let numbers = first..first + group.count as u8;
                if numbers.contains(&leaf.driver) {
                    let earlier = |driver| met.iter().any(|other| other.driver == driver);
                    prop_assert!((first..leaf.driver).all(earlier), "{}", tree.ascii());
                }
                first = numbers.end;
            }
        }
        met.push(leaf);
    }
    Ok(())
}
