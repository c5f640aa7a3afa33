//! Boxes that cannot be, each a problem at its field; and coils that are left out.

use coilwright_solver::answer::{Request, answer, one};
use coilwright_solver::bounds::Field;
use coilwright_solver::problem::{Code, Detail, Problem, Why};
use coilwright_solver::rig::{BuildDraft, Cups, Draft, GroupDraft, JoinedAt, Rig, TakesDraft};
use coilwright_solver::wiring::{Act, Plan};
use proof::rigs::{Filters, Stated, drivers, request};
use proof::ways::amplifier;

fn rig(pairs: u32) -> Rig {
    let mut amplifier = Stated { least: Some("1"), rated: &[("2", 500.0)] }.mono();
    amplifier.channels[0].terminal_pairs = Some(pairs);
    request(&[drivers(2, 2, "2").rated(500.0)], Some(amplifier), Filters::OFF).rig
}

fn told(problem: &Problem) -> (&str, Code, &Detail) {
    (problem.path.as_str(), problem.code, &problem.detail)
}

#[test]
fn what_cannot_be_is_told_at_its_field() {
    let tab = TakesDraft { push_on: true, conductors: Some(2), largest_mm2: None };
    let small = TakesDraft { largest_mm2: Some(1.5), ..TakesDraft::default() };
    let usual = TakesDraft::default();
    let none = BuildDraft::default();
    for (draft, path, why) in [
        (
            BuildDraft { cups: Cups::Group(None), cup_count: Some(3), ..none.clone() },
            "box.cup_count",
            Why::MoreCups { cups: 3, drivers: 2 },
        ),
        (
            BuildDraft { cups: Cups::One, cup_count: Some(2), ..none.clone() },
            "box.cup_count",
            Why::CupsNotCounted,
        ),
        (
            BuildDraft { joined_at: Some(JoinedAt::Amplifier), ..none.clone() },
            "box.joined_at",
            Why::NoTiedPairs,
        ),
        (
            BuildDraft { mounted_reversed: vec![1, 3], ..none.clone() },
            "box.mounted_reversed[1]",
            Why::NoSuchDriver { driver: 3, drivers: 2 },
        ),
        (
            BuildDraft { takes: [tab, usual, usual], ..none.clone() },
            "box.driver_terminals.conductors",
            Why::TabTakesOne,
        ),
        (
            BuildDraft { takes: [usual, usual, small], ..none.clone() },
            "box.amplifier_terminals.largest_mm2",
            Why::ConductorTooLarge,
        ),
    ] {
        let problems = draft.check(&rig(1)).unwrap_err();
        assert_eq!(problems.len(), 1, "{problems:?}");
        assert_eq!(told(&problems[0]), (path, Code::NotPossibleHere, &Detail::Why(why)));
    }
}

#[test]
fn a_configuration_that_does_not_go_through_the_cups_is_told_at_them() {
    let rig = rig(2);
    let across = one(&rig, "1:(1a||2a)+(1b||2b)").unwrap();
    let plan = |draft: BuildDraft| Plan::of(&rig, &draft.check(&rig).unwrap(), &across);
    let each = BuildDraft { cups: Cups::Driver, ..BuildDraft::default() };
    let problem = plan(each).unwrap_err();
    let why = Why::CupNotWhole { driver: 1 };
    assert_eq!(told(&problem), ("box.cups", Code::NotPossibleHere, &Detail::Why(why)));
    for cups in [Cups::None, Cups::One, Cups::Coil] {
        assert!(plan(BuildDraft { cups, ..BuildDraft::default() }).is_ok(), "{cups:?}");
    }
    let there = BuildDraft { joined_at: Some(JoinedAt::Amplifier), ..BuildDraft::default() };
    let problem = plan(there).unwrap_err();
    let why = Why::NotJoinedThere;
    assert_eq!(told(&problem), ("box.joined_at", Code::NotPossibleHere, &Detail::Why(why)));
}

/// A cup is one pair of terminals: what would serve two outputs is refused, whether it is the
/// one cup for all, the one of a group, or counted.
#[test]
fn a_cup_never_serves_two_outputs_whatever_it_is_for() {
    let channel = Stated { least: Some("1"), rated: &[] };
    let two = amplifier(&[channel.clone(), channel], &[]);
    let rig = request(&[drivers(2, 1, "4")], Some(two), Filters::OFF).rig;
    let plan = |cups, cup_count, key: &str| {
        let draft = BuildDraft { cups, cup_count, ..BuildDraft::default() };
        let plan = Plan::of(&rig, &draft.check(&rig).unwrap(), &one(&rig, key).unwrap());
        plan.map(|plan| plan.cups.len()).map_err(|problem| {
            assert_eq!(told(&problem).0, "box.cups");
            problem.detail
        })
    };
    let refused = Err(Detail::Why(Why::CupNotWhole { driver: 1 }));
    for (cups, count) in
        [(Cups::One, None), (Cups::Group(None), None), (Cups::Group(None), Some(1))]
    {
        assert_eq!(plan(cups, count, "1:1a;2:2a"), refused, "{cups:?} {count:?}");
        assert_eq!(plan(cups, count, "1:1a||2a"), Ok(1), "{cups:?} {count:?}");
    }
    for (cups, count) in [(Cups::Group(None), Some(2)), (Cups::Driver, None), (Cups::Coil, None)] {
        assert_eq!(plan(cups, count, "1:1a;2:2a"), Ok(2), "{cups:?} {count:?}");
    }
}

/// Cups stand in the order of the column of drivers, whatever output they serve: the first
/// is nearest to driver 1.
#[test]
fn cups_are_numbered_from_the_first_driver_on() {
    let channel = |least| Stated { least: Some(least), rated: &[] };
    let two = amplifier(&[channel("1"), channel("2")], &[]);
    let rig = request(&[drivers(2, 2, "4"), drivers(1, 1, "2")], Some(two), Filters::OFF).rig;
    let mut turned = 0;
    for configuration in &list(rig.clone()).configurations {
        for cups in [Cups::Group(None), Cups::Driver, Cups::Coil] {
            let build = BuildDraft { cups, ..BuildDraft::default() }.check(&rig).unwrap();
            let Ok(plan) = Plan::of(&rig, &build, configuration) else { continue };
            let firsts: Vec<_> = plan.cups.iter().map(|coils| coils.iter().min()).collect();
            assert!(firsts.is_sorted(), "{} {cups:?}: {:?}", configuration.key(), plan.cups);
            let first = configuration.outputs[0].network.coils().into_iter().min();
            turned += u32::from(first.as_ref() > firsts[0]);
        }
    }
    assert!(turned > 0, "some first output feeds other drivers than the first");
}

/// Drivers that leave coils out.
fn leaving_out(count: u32, coils: u32, unused: u32) -> Result<Rig, Vec<Problem>> {
    let group = GroupDraft {
        count: Some(count),
        coils: Some(coils),
        unused: Some(unused),
        ohms: Field::CoilOhms.ohms_text("4").ok(),
        watts: Field::Watts.watts(400.0).ok(),
        ..GroupDraft::default()
    };
    Draft { groups: vec![group], amplifier: None }.check(Vec::new())
}

fn list(rig: Rig) -> coilwright_solver::answer::Answer {
    answer(Request { rig, joined_only: false, even_only: false, limit: 300_000 })
}

/// OEIS A000084 at 1, 2, 3: the coils in use are what there is to join.
#[test]
fn a_quad_that_leaves_coils_out_has_the_networks_of_those_in_use() {
    for (unused, networks) in [(0, 10), (1, 4), (2, 2), (3, 1)] {
        assert_eq!(list(leaving_out(1, 4, unused).unwrap()).total, Some(networks));
        // Joined at the driver, all of one driver's networks are.
        let rig = leaving_out(1, 4, unused).unwrap();
        let joined = Request { rig, joined_only: true, even_only: false, limit: 300_000 };
        assert_eq!(answer(joined).total, Some(networks));
    }
    let problems = leaving_out(1, 2, 2).unwrap_err();
    assert_eq!(problems[0].path.as_str(), "drivers[0].unused_coils");
    assert_eq!(problems[0].detail, Detail::Why(Why::NoCoilLeft));
}

/// `physics`: a coil is rated W/c, and its driver takes that per coil in use.
#[test]
fn a_driver_takes_its_watts_per_coil_in_use() {
    for (unused, usable) in [(0, 400.0), (1, 200.0)] {
        let answer = list(leaving_out(1, 2, unused).unwrap());
        for one in &answer.configurations {
            let watts = one.outputs[0].usable_watts.unwrap();
            assert!((watts - usable).abs() < 1e-9, "{}: {watts}", one.key());
        }
    }
}

#[test]
fn a_coil_that_is_left_out_stays_open_with_its_ends_insulated() {
    let rig = leaving_out(2, 2, 1).unwrap();
    let draft = BuildDraft { cups: Cups::One, ..BuildDraft::default() };
    let build = draft.check(&rig).unwrap();
    let plan = Plan::of(&rig, &build, &one(&rig, "1a||2a").unwrap()).unwrap();
    let open: Vec<String> = plan.open.iter().map(ToString::to_string).collect();
    assert_eq!(open, ["1b", "2b"]);
    let insulated = plan.acts.iter().filter(|step| matches!(step, Act::Insulate { .. })).count();
    assert_eq!((insulated, plan.parts.caps), (2, 4));
    let touched = plan.joined.iter().flat_map(|set| &set.terminals);
    for terminal in touched {
        let coil = match terminal.post {
            coilwright_solver::wiring::Post::Coil(coil) => coil,
            _ => continue,
        };
        assert!(!plan.open.contains(&coil), "{coil} is left out and joined");
    }
}
