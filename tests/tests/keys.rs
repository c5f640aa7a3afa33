//! Keys: any equal way of writing a configuration leads to the one that is listed.

use coilwright_solver::answer::key::Key;
use coilwright_solver::problem::Code;
use coilwright_solver::rig::Rig;
use proof::brute::{exchanged, neighbour_exchanges};
use proof::generate::{cases, rigs};
use proof::rigs::{
    Drivers, Filters, Stated, drivers, list, list_on, request, two_channels, written,
};
use proof::tree::Tree;
use proptest::prelude::*;
use proptest::sample::Index;

fn solver_rig(rig: &[Drivers]) -> Rig {
    request(rig, None, Filters::OFF).rig
}

/// The same network with the parts of every node in another order.
fn turned(tree: &Tree, by: usize) -> Tree {
    let parts = |parts: &[Tree]| {
        let mut parts: Vec<Tree> = parts.iter().map(|part| turned(part, by / 2)).collect();
        let places = by % parts.len();
        parts.rotate_left(places);
        if by % 2 == 1 {
            parts.reverse();
        }
        parts
    };
    match tree {
        Tree::Leaf(leaf) => Tree::Leaf(*leaf),
        Tree::Series(all) => Tree::Series(parts(all)),
        Tree::Parallel(all) => Tree::Parallel(parts(all)),
    }
}

proptest! {
    #![proptest_config(cases(48))]

    #[test]
    fn every_equal_way_of_writing_reads_as_the_listed_key(
        rig in rigs(6), by in any::<usize>(), words in proptest::collection::vec(any::<Index>(), 0..12)
    ) {
        let exchanges = neighbour_exchanges(&rig);
        let asked = solver_rig(&rig);
        for configuration in &list(&rig, Filters::OFF).configurations {
            let key = configuration.key();
            let mut other = turned(&Tree::read(&key), by);
            if !exchanges.is_empty() {
                for word in &words {
                    other = exchanged(&other, word.get(&exchanges));
                    other = turned(&other, by / 3);
                }
            }
            for text in [other.ascii(), format!(" ({}) ", other.ascii().replace("||", " ∥ "))] {
                let read = Key::read(&asked, &text).map(|key| key.write());
                prop_assert_eq!(read, Ok(key.clone()), "{}: {}", written(&rig), text);
            }
        }
    }
}

#[test]
fn every_key_of_long_lists_of_large_rigs_reads_back_to_itself() {
    let cases = [
        (vec![drivers(10, 2, "2")], Filters::ON),
        (vec![drivers(16, 2, "4")], Filters::ON),
        (vec![drivers(8, 4, "1")], Filters::ON),
        (vec![drivers(16, 1, "4")], Filters::ON),
        (vec![drivers(6, 1, "4"), drivers(6, 1, "4")], Filters::ON),
        (vec![drivers(3, 4, "2")], Filters { joined: false, even: true }),
        (vec![drivers(4, 2, "2")], Filters::OFF),
        (vec![drivers(9, 1, "4")], Filters::OFF),
    ];
    for (rig, filters) in cases {
        let asked = solver_rig(&rig);
        let all = list(&rig, filters).configurations;
        assert!(!all.is_empty(), "{}", written(&rig));
        for configuration in all {
            let key = configuration.key();
            let read = Key::read(&asked, &key).map(|key| key.write());
            assert_eq!(read, Ok(key), "{}", written(&rig));
        }
    }
}

#[test]
fn a_key_with_an_output_reads_back_too() {
    let each = Stated { least: Some("2"), rated: &[] };
    let amplifier = two_channels(&each, &Stated::default());
    let rig = [drivers(2, 2, "2")];
    let asked = request(&rig, Some(amplifier.clone()), Filters::ON).rig;
    let all = list_on(&rig, Some(amplifier), Filters::ON).configurations;
    let bridged = all.iter().filter(|one| one.key().starts_with("1+2:")).count();
    assert!(bridged > 0 && bridged < all.len());
    for configuration in all {
        let key = configuration.key();
        assert_eq!(Key::read(&asked, &key).map(|key| key.write()), Ok(key));
    }
}

#[test]
fn what_is_no_configuration_of_the_rig_is_unknown() {
    let asked = solver_rig(&[drivers(2, 2, "2")]);
    for text in [
        "",
        "1a",
        "1a+1b+2a",
        "1a+1b+2a+2a",
        "1a+1b+2a+2b+3a",
        "1a+1b+2a+2c",
        "1a+1b||2a+2b",
        "1:1a+1b+2a+2b",
        "1a+1b;2a+2b",
        "1a+1b+2a+2b;",
        "(1a+1b+2a+2b",
        "none",
    ] {
        let code = Key::read(&asked, text).map_err(|problem| problem.code);
        assert_eq!(code.map(|key| key.write()), Err(Code::UnknownConfiguration), "{text:?}");
    }
}
