//! Any work on a plan, as a link may hold it.

use crate::job::against::Against;
use crate::job::work::Work;
use coilwright_solver::meter::{Place, Point, Question};
use coilwright_solver::network::Coil;
use coilwright_solver::wiring::Sign;
use proptest::prelude::*;

fn any_point() -> impl Strategy<Value = Point> {
    let coil = (0_u8..16, 0_u8..4).prop_map(|(driver, coil)| Coil { driver, coil });
    let place = prop_oneof![
        Just(Place::Step),
        coil.clone().prop_map(Place::Coil),
        coil.clone().prop_map(Place::Lifted),
        (coil.clone(), coil).prop_map(|(into, out)| Place::Across(into, out)),
        (0_u16..200).prop_map(Place::Along),
        (0_u16..200).prop_map(Place::CableOpen),
        (0_u16..200).prop_map(Place::CableJoined),
        (0_u8..16).prop_map(Place::Apart),
        (0_u8..16).prop_map(Place::Basket),
        (0_u8..16).prop_map(|output| Place::Tied(output, Sign::Plus)),
        (0_u8..16).prop_map(|output| Place::Tied(output, Sign::Minus)),
    ];
    (0_u16..200, place).prop_map(|(step, place)| Point { act: step, place })
}

/// Work with the numbers that steps have now, and such as links had before.
pub(super) fn any_work() -> impl Strategy<Value = Work> {
    let read = prop::collection::btree_map(any_point(), ".{1,6}", 0..4)
        .prop_map(|read| read.into_iter().collect::<Vec<_>>())
        .prop_shuffle();
    let against = prop_oneof![
        Just(Against::default()),
        "[^\\p{Cc}]{1,20}".prop_map(|words| Against::typed(&words)),
        "[a-z]{4,9} [0-9~&=%]{0,4}x".prop_map(|words| Against::said(&words)),
    ];
    let asked =
        prop::collection::btree_map(prop::sample::select(&Question::ALL), any::<bool>(), 0..3);
    let done = prop::collection::btree_set(0_u16..200, 0..20);
    let work = (0_u16..200, done, read, asked, against, any::<bool>());
    work.prop_map(|(at, done, mut read, asked, against, old)| {
        let done: Vec<u16> = done.into_iter().collect();
        read.retain(|(point, _)| !old || point.place == Place::Step);
        let old = old && (at > 0 || !done.is_empty() || !read.is_empty());
        Work { at, done, read, asked: asked.into_iter().collect(), against, old }
    })
}
