//! Every way to use an amplifier, law by law.

use coilwright_solver::answer::key::Key;
use coilwright_solver::answer::{Answer, Configuration, Output, answer};
use coilwright_solver::judge::{Basis, Verdict};
use coilwright_solver::rig::AmplifierDraft;
use proof::generate::{cases, odd_rigs, rigs, sliced_alike, stated};
use proof::rigs::{Drivers, Filters, drivers, list, list_on, request, written};
use proof::tree::{Leaf, Tree};
use proof::ways::{Form, Outlets, amplifiers, several};
use proptest::prelude::*;
use proptest::sample::{Index, select};
use std::collections::{BTreeMap, BTreeSet};

fn keys(answer: &Answer) -> BTreeSet<String> {
    answer.configurations.iter().map(Configuration::key).collect()
}

/// How well one output fits: stated before derived before range-only before the rest.
fn fit(output: &Output) -> u8 {
    match (output.verdict, output.available.map(|power| power.basis)) {
        (Verdict::Fits, Some(Basis::Range)) => 2,
        (Verdict::Fits, Some(Basis::Derived)) | (Verdict::FitsByDerivation, _) => 1,
        (Verdict::Fits, _) => 0,
        (Verdict::NotStated, _) => 3,
        (Verdict::BelowStated | Verdict::TooLow, _) => 4,
    }
}

fn worst_fit(configuration: &Configuration) -> u8 {
    configuration.outputs.iter().map(fit).max().unwrap()
}

/// The power that the whole rig gives, where every output's is known.
fn target(configuration: &Configuration) -> Option<f64> {
    configuration.outputs.iter().map(|output| output.target_watts).sum()
}

/// Whether parts of different groups of drivers stand in series somewhere.
fn unlike_in_series(rig: &[Drivers], tree: &Tree) -> bool {
    let groups = |part: &Tree| -> BTreeSet<usize> {
        let group = |leaf: Leaf| {
            let firsts = rig.iter().scan(0, |first, group| {
                *first += group.count;
                Some(*first)
            });
            firsts.take_while(|end| u32::from(leaf.driver) >= *end).count()
        };
        part.leaves().into_iter().map(group).collect()
    };
    let here = matches!(tree, Tree::Series(_))
        && tree.parts().iter().any(|part| groups(part) != groups(&tree.parts()[0]));
    here || tree.parts().iter().any(|part| unlike_in_series(rig, part))
}

/// The same amplifier with its channels counted from the other end.
fn turned_round(amplifier: &AmplifierDraft) -> AmplifierDraft {
    let mut other = amplifier.clone();
    let beyond = other.channels.len() as u32 + 1;
    other.channels.reverse();
    for bridge in &mut other.bridges {
        bridge.channels = bridge.channels.map(|[a, b]| [beyond - b, beyond - a]);
    }
    other
}

fn any_filters() -> impl Strategy<Value = Filters> {
    select(Filters::ALL.to_vec())
}

proptest! {
    #![proptest_config(cases(48))]

    #[test]
    fn an_answer_does_not_depend_on_how_the_work_is_sliced(
        rig in rigs(5), on in amplifiers(4), filters in any_filters(), budget in 1_u64..300, one: bool
    ) {
        let budget = if one { 1 } else { budget };
        let asked = request(&rig, Some(on), filters);
        sliced_alike(asked, budget)?;
    }

    #[test]
    fn keys_are_unique_and_read_back_to_themselves(rig in odd_rigs(5), on in amplifiers(4)) {
        let asked = request(&rig, Some(on.clone()), Filters::OFF);
        let answer = answer(asked.clone());
        prop_assert_eq!(&answer.problems, &[]);
        prop_assert_eq!(keys(&answer).len(), answer.configurations.len());
        let outlets = Outlets::of(Some(&on));
        for configuration in &answer.configurations {
            let key = configuration.key();
            let read = Key::read(&asked.rig, &key).map(|key| key.write());
            prop_assert_eq!(read, Ok(key.clone()));
            // Driver by driver in the order of the key, coil by coil likewise.
            let mut met: Vec<Leaf> = Vec::new();
            for (_, tree) in outlets.read(&key) {
                for leaf in tree.leaves() {
                    let own = met.iter().filter(|other| other.driver == leaf.driver).count();
                    prop_assert_eq!(usize::from(leaf.coil), own, "{}", &key);
                    let first: u32 = rig
                        .iter()
                        .scan(0, |end, group| { *end += group.count; Some(*end) })
                        .take_while(|end| *end <= u32::from(leaf.driver))
                        .last()
                        .unwrap_or(0);
                    for driver in first as u8..leaf.driver {
                        prop_assert!(met.iter().any(|other| other.driver == driver), "{}", &key);
                    }
                    met.push(leaf);
                }
            }
            prop_assert_eq!(
                configuration.split_driver,
                Form::of(&outlets.read(&key)).split().map(u32::from), "{}", &key
            );
        }
    }

    #[test]
    fn the_filters_leave_what_passes_them(rig in rigs(5), on in amplifiers(4)) {
        let unfiltered = list_on(&rig, Some(on.clone()), Filters::OFF);
        for filters in Filters::ALL {
            let filtered = list_on(&rig, Some(on.clone()), filters);
            let passing: BTreeSet<String> = unfiltered
                .configurations
                .iter()
                .filter(|one| one.joined_at_driver || !filters.joined)
                .filter(|one| one.even || !filters.even)
                .map(Configuration::key)
                .collect();
            prop_assert_eq!(filtered.before_filters, unfiltered.total);
            prop_assert_eq!(filtered.total, Some(passing.len() as u64));
            prop_assert_eq!(keys(&filtered), passing, "{} {:?}", written(&rig), filters);
        }
    }

    #[test]
    fn shares_over_the_rig_sum_to_one_and_the_worst_output_gives_the_verdict(
        rig in odd_rigs(5), on in amplifiers(4)
    ) {
        for configuration in &list_on(&rig, Some(on), Filters::OFF).configurations {
            for shares in [&configuration.coil_shares, &configuration.driver_shares] {
                let sum: f64 = shares.iter().sum();
                prop_assert!((sum - 1.0).abs() < 1e-12, "{}: {}", configuration.key(), sum);
                prop_assert!(shares.iter().all(|share| *share > 0.0));
            }
            let worst = configuration.outputs.iter().map(|output| output.verdict).max();
            prop_assert_eq!(Some(configuration.verdict), worst, "{}", configuration.key());
            let runs: usize = configuration
                .outputs
                .iter()
                .map(|output| Tree::read_spaced(&output.network.to_string()).runs())
                .sum();
            prop_assert_eq!(configuration.runs as usize, runs, "{}", configuration.key());
        }
    }

    #[test]
    fn ranks_have_no_gaps_and_a_limit_cuts_the_end_alone(
        rig in rigs(5), on in amplifiers(4), filters in any_filters(), limit in 0_u32..60
    ) {
        let whole = list_on(&rig, Some(on.clone()), filters);
        let ranks: Vec<u32> = whole.configurations.iter().map(|one| one.rank).collect();
        let count = u32::try_from(ranks.len()).unwrap();
        prop_assert_eq!(ranks, (1..=count).collect::<Vec<_>>());
        prop_assert_eq!(whole.total, Some(u64::from(count)));
        let mut asked = request(&rig, Some(on), filters);
        asked.limit = limit;
        let mut want = whole;
        want.configurations.truncate(limit as usize);
        prop_assert_eq!(answer(asked), want);
    }

    #[test]
    fn a_load_counts_once_for_each_configuration_that_has_it(
        rig in rigs(5), on in amplifiers(4), filters in any_filters()
    ) {
        let answer = list_on(&rig, Some(on), filters);
        prop_assert!(answer.loads.is_sorted_by(|a, b| a.load < b.load), "rising, each once");
        let mut all = BTreeSet::new();
        for configuration in &answer.configurations {
            all.extend(configuration.outputs.iter().map(|output| output.load));
        }
        let tallied: BTreeSet<_> = answer.loads.iter().map(|tally| tally.load).collect();
        prop_assert_eq!(all, tallied);
        for tally in &answer.loads {
            let has = |output: &&Output| output.load == tally.load;
            let having: Vec<&Configuration> = answer
                .configurations
                .iter()
                .filter(|one| one.outputs.iter().any(|output| has(&output)))
                .collect();
            prop_assert_eq!(having.len() as u64, tally.configurations, "{}", tally.load);
            prop_assert_eq!(tally.even, having.iter().any(|one| one.even), "{}", tally.load);
            let outputs = having.iter().flat_map(|one| &one.outputs);
            let best = outputs.filter(has).map(|output| output.verdict).min();
            prop_assert_eq!(Some(tally.verdict), best, "{}", tally.load);
        }
    }

    #[test]
    fn the_order_is_fit_even_unlike_power_load_joined_runs(
        rig in rigs(5), on in amplifiers(4), filters in any_filters()
    ) {
        let answer = list_on(&rig, Some(on), filters);
        let all = &answer.configurations;
        let fitting = all.iter().filter(|one| worst_fit(one) < 3);
        let best = fitting.filter_map(target).max_by(f64::total_cmp);
        let below = |one: &Configuration| Some(20.0 * (best? / target(one)?).log(10.0));
        let series = |one: &Configuration| {
            let networks = one.outputs.iter().map(|output| output.network.to_string());
            networks.into_iter().any(|text| unlike_in_series(&rig, &Tree::read_spaced(&text)))
        };
        for (earlier, later) in all.iter().zip(all.iter().skip(1)) {
            let pair = format!("{}: {} before {}", written(&rig), earlier.key(), later.key());
            let first = |one: &Configuration| (worst_fit(one), !one.even, series(one));
            prop_assert!(first(earlier) <= first(later), "fit, even, unlike: {pair}");
            if first(earlier) < first(later) {
                continue;
            }
            let (a, b) = (below(earlier), below(later));
            // Power decides where that of both is known.
            if let (Some(a), Some(b)) = (a, b) {
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
            } else if a.is_some() != b.is_some() {
                continue;
            }
            let last = |one: &Configuration| {
                let lowest = one.outputs.iter().map(|output| output.load).min();
                (std::cmp::Reverse(lowest), !one.joined_at_driver, one.runs)
            };
            prop_assert!(last(earlier) <= last(later), "load, joined, runs: {pair}");
        }
    }

    /// An output's verdict and power come from its load and the channel alone: the same
    /// as for one driver of that load on an amplifier with that channel only.
    #[test]
    fn a_channel_is_judged_as_if_it_were_the_only_one(rig in rigs(4), on in amplifiers(4)) {
        let mut asked = BTreeMap::new();
        for configuration in &list_on(&rig, Some(on.clone()), Filters::OFF).configurations {
            for output in configuration.outputs.iter().filter(|one| one.channels.len() == 1) {
                asked.insert((output.channels[0], output.load), output.clone());
            }
        }
        prop_assert!(!asked.is_empty());
        for ((channel, load), output) in asked {
            let mono = AmplifierDraft {
                channels: vec![on.channels[channel as usize - 1].clone()],
                ..AmplifierDraft::default()
            };
            let one = [drivers(1, 1, &load.to_string())];
            let alone = list_on(&one, Some(mono), Filters::OFF).configurations.remove(0);
            let alone = alone.outputs[0].clone();
            prop_assert_eq!((alone.verdict, alone.available), (output.verdict, output.available));
        }
    }

    /// One output has the configurations that there are without an amplifier.
    #[test]
    fn one_output_has_the_configurations_of_no_amplifier(
        rig in rigs(6), on in stated(), filters in any_filters()
    ) {
        let (without, with) = (list(&rig, filters), list_on(&rig, Some(on.mono()), filters));
        type Facts = (bool, bool, u32, Vec<u64>, Vec<u64>, Option<u64>);
        let facts = |one: &Configuration| -> (String, Facts) {
            let bits = |shares: &[f64]| shares.iter().map(|share| share.to_bits()).collect();
            let key = one.key();
            let key = key.strip_prefix("1:").unwrap_or(&key).to_owned();
            let usable = one.outputs[0].usable_watts.map(f64::to_bits);
            let (coils, drivers) = (bits(&one.coil_shares), bits(&one.driver_shares));
            (key, (one.even, one.joined_at_driver, one.runs, coils, drivers, usable))
        };
        let all = |answer: &Answer| -> BTreeMap<String, Facts> {
            answer.configurations.iter().map(facts).collect()
        };
        prop_assert_eq!(all(&without), all(&with));
        prop_assert_eq!((without.total, without.before_filters), (with.total, with.before_filters));
        let loads = |answer: &Answer| -> Vec<_> {
            answer.loads.iter().map(|one| (one.load, one.configurations, one.even)).collect()
        };
        prop_assert_eq!(loads(&without), loads(&with));
        for one in &with.configurations {
            prop_assert!(one.key().starts_with("1:") && one.split_driver.is_none());
        }
    }

    /// Those that use one channel alone are those of an amplifier with that channel.
    #[test]
    fn what_uses_one_channel_is_what_an_amplifier_of_that_channel_has(
        rig in rigs(5), on in amplifiers(4), filters in any_filters(), which: Index
    ) {
        let number = which.index(on.channels.len());
        let mono = AmplifierDraft {
            channels: vec![on.channels[number].clone()],
            ..AmplifierDraft::default()
        };
        let key = |one: &Configuration| one.key().split_once(':').unwrap().1.to_owned();
        let alone = list_on(&rig, Some(mono), filters);
        let want: BTreeMap<String, Vec<Option<f64>>> = alone
            .configurations
            .iter()
            .map(|one| (key(one), vec![one.outputs[0].target_watts, one.outputs[0].usable_watts]))
            .collect();
        // The lowest channel like it stands for all of its kind.
        let first = on.channels.iter().position(|other| *other == on.channels[number]).unwrap();
        let channel = u32::try_from(first + 1).unwrap();
        let found: BTreeMap<String, Vec<Option<f64>>> = list_on(&rig, Some(on), filters)
            .configurations
            .iter()
            .filter(|one| one.outputs.len() == 1 && one.outputs[0].channels == [channel])
            .map(|one| (key(one), vec![one.outputs[0].target_watts, one.outputs[0].usable_watts]))
            .collect();
        prop_assert_eq!(found, want);
    }

    #[test]
    fn the_numbers_on_the_channels_do_not_matter(
        rig in rigs(5), on in amplifiers(4), filters in any_filters()
    ) {
        let one = list_on(&rig, Some(on.clone()), filters);
        let other = list_on(&rig, Some(turned_round(&on)), filters);
        prop_assert_eq!((one.total, one.before_filters), (other.total, other.before_filters));
        prop_assert_eq!(one.loads, other.loads);
    }

    /// Channels are numbered through: two amplifiers of a kind are one with all their
    /// channels and bridges.
    #[test]
    fn several_amplifiers_of_a_kind_are_one_with_all_their_channels(
        rig in rigs(5), on in amplifiers(2), count in 1_u32..=2, filters in any_filters()
    ) {
        let each = on.channels.len() as u32;
        let mut one = AmplifierDraft::default();
        for before in (0..count).map(|copy| copy * each) {
            one.channels.extend(on.channels.clone());
            one.bridges.extend(on.bridges.iter().cloned().map(|mut bridge| {
                bridge.channels = bridge.channels.map(|pair| pair.map(|n| before + n));
                bridge
            }));
        }
        let found = list_on(&rig, Some(several(count, on)), filters);
        prop_assert_eq!(found, list_on(&rig, Some(one), filters));
    }
}
