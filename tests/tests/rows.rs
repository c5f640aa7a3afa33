//! A row of the list and the same configuration worked out alone are one and the same: the
//! list knows what it says before it writes a network, the other reads it off the network.

use coilwright_solver::answer::{Answer, Configuration, Request, answer, one};
use coilwright_solver::bounds::Field;
use coilwright_solver::rig::{AmplifierDraft, Draft, GroupDraft, Rig};
use proof::generate::{cases, ohms, watts};
use proof::rigs::{Filters, Stated};
use proof::ways::{amplifier, amplifiers};
use proptest::prelude::*;
use proptest::sample::select;

/// Drivers of one kind, some of whose coils are left out.
#[derive(Clone, Debug)]
struct Kind {
    count: u32,
    coils: u32,
    unused: u32,
    ohms: String,
    watts: Option<f64>,
}

impl Kind {
    fn draft(&self) -> GroupDraft {
        GroupDraft {
            count: Some(self.count),
            coils: Some(self.coils),
            unused: Some(self.unused),
            ohms: Field::CoilOhms.ohms_text(&self.ohms).ok(),
            watts: self.watts.map(|watts| Field::Watts.watts(watts).unwrap()),
            ..GroupDraft::default()
        }
    }
}

fn rig(kinds: &[Kind], amplifier: Option<AmplifierDraft>) -> Rig {
    let groups = kinds.iter().map(Kind::draft).collect();
    Draft { groups, amplifier }.check(Vec::new()).unwrap()
}

/// At most so many coils in use, quads with a coil left out among them more often than not.
fn kinds(most: u32) -> impl Strategy<Value = Vec<Kind>> {
    let built = select(vec![(4, 1), (4, 1), (4, 2), (4, 0), (2, 0), (2, 1), (1, 0), (4, 3)]);
    let kind = (1_u32..=3, built, ohms(), prop::option::weighted(0.7, watts())).prop_map(
        |(count, (coils, unused), ohms, watts)| Kind { count, coils, unused, ohms, watts },
    );
    proptest::collection::vec(kind, 1..=3).prop_map(move |all| {
        let mut left = most;
        let mut rig = Vec::new();
        for mut kind in all {
            let used = kind.coils - kind.unused;
            kind.count = kind.count.min(left / used);
            left -= kind.count * used;
            if kind.count > 0 {
                rig.push(kind);
            }
        }
        rig
    })
}

fn listed(rig: &Rig, filters: Filters) -> Answer {
    let (joined_only, even_only) = (filters.joined, filters.even);
    answer(Request { rig: rig.clone(), joined_only, even_only, limit: 300_000 })
}

/// Holds every field of every row to the configuration worked out from its key alone.
fn rows_are_what_they_are_alone(rig: &Rig, filters: Filters) -> Result<(), TestCaseError> {
    for row in &listed(rig, filters).configurations {
        let alone = one(rig, &row.key()).unwrap();
        let alone = Configuration { rank: row.rank, ..alone };
        prop_assert_eq!(&alone, row, "{}", row.key());
        if filters.joined {
            prop_assert!(row.joined_at_driver, "{}", row.key());
        }
        if filters.even {
            prop_assert!(row.even, "{}", row.key());
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases(96))]

    #[test]
    fn every_field_of_a_row_is_that_of_the_configuration_alone(
        kinds in kinds(6), on in prop::option::of(amplifiers(3)),
        filters in select(Filters::ALL.to_vec())
    ) {
        rows_are_what_they_are_alone(&rig(&kinds, on), filters)?;
    }
}

fn quads(count: u32, unused: u32) -> Kind {
    Kind { count, coils: 4, unused, ohms: "4".into(), watts: Some(300.0) }
}

/// By hand: of the three coils in use all stand side by side under one node, in series or
/// in parallel, or two of them do and the third beside those: joined either way, as long as
/// no other driver's coil comes between.
#[test]
fn three_coils_in_use_are_joined_where_nothing_comes_between() {
    let two = rig(&[quads(2, 1)], None);
    let all = listed(&two, Filters::OFF).configurations;
    for (key, joined) in [
        ("1a||1b||1c||2a||2b||2c", true),
        ("1a+1b+1c+2a+2b+2c", true),
        ("(1a+1b+1c)||(2a+2b+2c)", true),
        ("(1a||1b||1c)+(2a||2b||2c)", true),
        ("(1a+(1b||1c))||(2a+(2b||2c))", true),
        ("(1a+2a)||(1b+2b)||(1c+2c)", false),
        ("(1a+1b+2a)||(1c+2b+2c)", false),
    ] {
        let row = all.iter().find(|row| row.key() == one(&two, key).unwrap().key()).unwrap();
        assert_eq!(row.joined_at_driver, joined, "{key}");
    }
    // With one driver alone every network is of its own coils.
    for unused in 0..3 {
        let single = rig(&[quads(1, unused)], None);
        assert!(
            listed(&single, Filters::OFF).configurations.iter().all(|row| row.joined_at_driver)
        );
    }
}

/// `usable_watts` of an output is the least over its own coils: a driver on another output
/// whose rating is not known hides nothing.
#[test]
fn a_rating_that_is_missing_on_another_output_hides_nothing() {
    let single =
        |ohms: &str, watts| Kind { count: 1, coils: 1, unused: 0, ohms: ohms.into(), watts };
    let strong = Stated { least: Some("2"), rated: &[("4", 200.0)] };
    let kinds = [single("4", Some(150.0)), single("8", None)];
    let rig = rig(&kinds, Some(amplifier(&[strong.clone(), strong], &[])));
    let all = listed(&rig, Filters::OFF).configurations;
    let apart: Vec<_> = all.iter().filter(|row| row.outputs.len() == 2).collect();
    assert_eq!(apart.len(), 1, "each driver on an output of its own");
    let [rated, unrated] = apart[0].outputs.as_slice() else { panic!("two outputs") };
    assert_eq!((rated.usable_watts, rated.target_watts), (Some(150.0), Some(150.0)));
    assert!(rated.overheats.is_some());
    assert_eq!((unrated.usable_watts, unrated.target_watts), (None, None));
    assert_eq!(unrated.overheats, None);
    // 200 W into 150 W: nothing on the other output makes that better.
    assert_eq!(apart[0].overheats(), rated.overheats);
    // Of the whole it is not known.
    assert_eq!(apart[0].target_watts(), None);
    // On one output with the other, its rating is not enough.
    let together = all.iter().find(|row| row.outputs.len() == 1).unwrap();
    assert_eq!(together.outputs[0].usable_watts, None);
}
