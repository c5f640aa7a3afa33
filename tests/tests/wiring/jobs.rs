//! The classic jobs, and laws that all plans keep.

use super::spread;
use coilwright_solver::answer::one;
use coilwright_solver::rig::{Build, BuildDraft, Cups, Fed};
use coilwright_solver::wiring::{Act, Plan, Post, Stage};
use proof::rigs::{Filters, Stated, drivers, request};
use proof::tree::Tree;
use proof::wired::{run, written};

const MONO: Stated = Stated { least: Some("1"), rated: &[("1", 1000.0)] };

fn plan(count: u32, coils: u32, pairs: u32, cups: Cups, key: &str) -> Plan {
    let mut amplifier = MONO.mono();
    amplifier.channels[0].terminal_pairs = Some(pairs);
    let rig =
        request(&[drivers(count, coils, "2").rated(500.0)], Some(amplifier), Filters::OFF).rig;
    let build = BuildDraft { cups, ..BuildDraft::default() }.check(&rig).unwrap();
    Plan::of(&rig, &build, &one(&rig, key).unwrap()).unwrap()
}

fn steps(plan: &Plan) -> Vec<String> {
    let told = |step: &Act| match (step, step.run()) {
        (Act::Coils { driver }, _) => format!("coils {}", driver + 1),
        (Act::Polarity { driver }, _) => format!("polarity {}", driver + 1),
        (Act::Check(check), _) => {
            format!("read {} and {}", written(check.plus), written(check.minus))
        }
        (step, Some(number)) => format!("{} {}", step.name(), run(&plan.runs[number])),
        (step, None) => step.name().to_owned(),
    };
    plan.acts.iter().map(told).collect()
}

/// Common practice, no source: the lead from the cup goes to the first driver, and the
/// second is fed from the first.
#[test]
fn two_single_coil_drivers_in_parallel_through_one_cup_by_a_chain() {
    let plan = plan(2, 1, 1, Cups::One, "1:1a||2a");
    assert_eq!(
        steps(&plan),
        [
            "leads",
            "coils 1",
            "polarity 1",
            "coils 2",
            "polarity 2",
            "join 1a + to 2a +",
            "join 1a − to 2a −",
            "read 1a + and 1a −",
            "join cup 1 in + to 1a +",
            "join cup 1 in − to 1a −",
            "read cup 1 out + and cup 1 out −",
            "lay amp 1.1 + to cup 1 out +",
            "lay amp 1.1 − to cup 1 out −",
            "read amp 1.1 + and amp 1.1 −",
            "power_off",
            "land amp 1.1 + to cup 1 out +",
            "land amp 1.1 − to cup 1 out −",
            "power_on",
        ]
    );
}

/// Common practice, no source: one jumper from the − of one to the + of the other.
#[test]
fn two_single_coil_drivers_in_series_by_one_jumper() {
    let plan = plan(2, 1, 1, Cups::One, "1:1a+2a");
    let between: Vec<String> =
        plan.runs.iter().filter(|run| run.stage == Stage::Drivers).map(run).collect();
    assert_eq!(between, ["1a − to 2a +"]);
    let whole: Vec<String> = plan.runs.iter().map(run).collect();
    assert_eq!(
        whole,
        [
            "1a − to 2a +",
            "cup 1 in + to 1a +",
            "cup 1 in − to 2a −",
            "amp 1.1 + to cup 1 out +",
            "amp 1.1 − to cup 1 out −",
        ]
    );
}

/// Common practice, no source: a box with a cup for each side needs no joining wire where
/// the amplifier has two tied pairs.
#[test]
fn two_cups_on_two_tied_pairs_need_no_joining_wire() {
    let plan = plan(2, 1, 2, Cups::Driver, "1:1a||2a");
    assert!(plan.joined_at_amplifier);
    assert_eq!(plan.pairs, [2]);
    let stages = |stage| plan.runs.iter().filter(|run| run.stage == stage).count();
    assert_eq!((stages(Stage::Drivers), stages(Stage::Outside)), (0, 0));
    let cables: Vec<String> =
        plan.runs.iter().filter(|run| run.stage == Stage::Cable).map(run).collect();
    assert_eq!(
        cables,
        [
            "amp 1.1 + to cup 1 out +",
            "amp 1.1 − to cup 1 out −",
            "amp 1.2 + to cup 2 out +",
            "amp 1.2 − to cup 2 out −",
        ]
    );
    // Each cable is read, then both together by hand.
    let read = steps(&plan);
    let read: Vec<&String> = read.iter().filter(|step| step.starts_with("read amp")).collect();
    assert_eq!(
        read,
        [
            "read amp 1.1 + and amp 1.1 −",
            "read amp 1.2 + and amp 1.2 −",
            "read amp 1.1 + and amp 1.1 −",
        ]
    );
}

/// Common practice, no source.
#[test]
fn one_dual_coil_driver_without_a_box() {
    let told = |key| plan(1, 2, 1, Cups::None, key).runs.iter().map(run).collect::<Vec<_>>();
    assert_eq!(told("1:1a+1b"), ["1a − to 1b +", "amp 1.1 + to 1a +", "amp 1.1 − to 1b −"]);
    assert_eq!(
        told("1:1a||1b"),
        ["1a + to 1b +", "1a − to 1b −", "amp 1.1 + to 1a +", "amp 1.1 − to 1a −"]
    );
}

/// `physics`: runs of a plan are 2n − Σ over series nodes (parts − 1), and 2 more for
/// each cup; a splice adds its own.
#[test]
fn runs_are_counted_by_the_law() {
    fn runs(tree: &Tree) -> usize {
        match tree {
            Tree::Leaf(_) => 2,
            Tree::Series(parts) => parts.iter().map(runs).sum::<usize>() - (parts.len() - 1),
            Tree::Parallel(parts) => parts.iter().map(runs).sum(),
        }
    }
    let mut plain = 0;
    for case in spread() {
        let networks: usize =
            (0..case.configuration.outputs.len()).map(|at| runs(&case.tree(at))).sum();
        let law = networks + 2 * case.plan.cups.len();
        let splices = case.plan.parts.splices.len();
        assert_eq!(case.plan.runs.len(), law + splices, "{}", case.name());
        plain += usize::from(splices == 0);
        let bought: u32 = case.plan.parts.lots.iter().map(|lot| lot.runs).sum();
        assert_eq!(bought as usize, case.plan.runs.len(), "{}", case.name());
        let metres: f64 = case.plan.parts.lots.iter().map(|lot| lot.metres).sum();
        let wire: f64 = case.plan.runs.iter().map(|run| run.metres).sum();
        assert!((metres - wire).abs() < 1e-9, "{}", case.name());
    }
    assert!(plain > 400, "{plain} without a splice");
}

/// Exchanging equal drivers exchanges labels: the plan of the exchanged box is the plan
/// with those labels exchanged.
#[test]
fn which_of_two_equal_drivers_faces_in_changes_signs_alone() {
    let rig = request(&[drivers(2, 2, "2").rated(500.0)], Some(MONO.mono()), Filters::OFF).rig;
    let configuration = one(&rig, "1:(1a+1b)||(2a+2b)").unwrap();
    let plan = |reversed: Vec<u32>| {
        let build =
            BuildDraft { mounted_reversed: reversed, cups: Cups::One, ..BuildDraft::default() };
        Plan::of(&rig, &build.check(&rig).unwrap(), &configuration).unwrap()
    };
    let plain = plan(Vec::new());
    for driver in [0_u8, 1] {
        let turned = plan(vec![u32::from(driver) + 1]);
        assert_eq!(turned.runs.len(), plain.runs.len());
        let of = |post: Post| matches!(post, Post::Coil(coil) if coil.driver == driver);
        let mut ends = 0;
        for set in &turned.joined {
            for terminal in &set.terminals {
                // The same set of the plain plan has the other sign of that driver.
                let mut other = *terminal;
                if of(other.post) {
                    other.sign = other.sign.other();
                    ends += 1;
                }
                let first = plain.joined.iter().find(|one| one.terminals.contains(&other)).unwrap();
                assert_eq!((first.role, first.terminals.len()), (set.role, set.terminals.len()));
            }
        }
        assert_eq!(ends, 4);
    }
}

#[test]
fn a_star_feeds_every_driver_from_the_same_point_where_terminals_take_it() {
    let rig = request(&[drivers(3, 1, "4")], Some(MONO.mono()), Filters::OFF).rig;
    let configuration = one(&rig, "1:1a||2a||3a").unwrap();
    let star = |conductors| {
        let takes = coilwright_solver::rig::Takes { conductors, largest_mm2: None };
        let build =
            Build { cups: Cups::One, fed: Fed::Star, takes: [takes; 3], ..Build::default() };
        Plan::of(&rig, &build, &configuration).unwrap()
    };
    let wide = star(3);
    let from_cup =
        wide.runs.iter().filter(|run| matches!(run.from.post, Post::CupInside(_))).count();
    assert_eq!((from_cup, wide.star_refused), (6, false));
    let narrow = star(2);
    assert!(narrow.star_refused, "two conductors are too few for three drivers");
    assert!(narrow.parts.splices.is_empty());
}
