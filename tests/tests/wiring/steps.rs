//! Acts as hands take them together: what every step is, and how many there are of jobs that
//! installers know.

use super::spread;
use coilwright_solver::answer::one;
use coilwright_solver::rig::{BuildDraft, Cups};
use coilwright_solver::wiring::{Act, Plan, Post, Run, Site, Stage, Step, Terminal};
use proof::rigs::{Filters, Stated, drivers, request};
use proof::wired::written;
use std::collections::BTreeSet;

/// What is done to a run, and at which stage and between which two places it goes: a driver
/// is one place, but for the runs between its own coils.
fn placing(plan: &Plan, act: Act) -> Option<(&'static str, Stage, BTreeSet<String>)> {
    let run = &plan.runs[act.run()?];
    let place = |terminal: Terminal| match terminal.post {
        Post::Coil(coil) if run.stage != Stage::Coils => format!("driver {}", coil.driver),
        post => format!("{post:?}"),
    };
    Some((act.name(), run.stage, [run.from, run.to].map(place).into()))
}

/// Whether a reading is about a run: of its stage, and of its driver where drivers are by
/// themselves.
fn is_about(check: Terminal, stage: Stage, run: &Run) -> bool {
    let own = |terminal: Terminal| terminal.post.driver() == check.post.driver();
    run.stage == stage && (stage != Stage::Coils || own(run.from) || own(run.to))
}

fn acts(plan: &Plan, step: Step) -> &[Act] {
    &plan.acts[step.acts()]
}

#[test]
fn steps_are_all_acts_in_their_order_and_each_once() {
    for case in spread() {
        let plan = &case.plan;
        let mut next = 0;
        for (number, step) in plan.steps.iter().enumerate() {
            assert_eq!(step.acts().start, next, "{}: step {number}", case.name());
            assert!(!step.acts().is_empty(), "{}: step {number} is empty", case.name());
            for act in step.acts() {
                assert_eq!(plan.step_of(act as u16), Some(number), "{}: act {act}", case.name());
            }
            next = step.acts().end;
        }
        assert_eq!(next, plan.acts.len(), "{}", case.name());
        assert_eq!(plan.step_of(next as u16), None, "{}", case.name());
    }
}

#[test]
fn a_step_places_two_runs_at_most_which_go_between_the_same_two_places() {
    let mut pairs = 0;
    for case in spread() {
        let plan = &case.plan;
        for (number, step) in plan.steps.iter().enumerate() {
            let own = acts(plan, *step);
            let placed: Vec<_> = own.iter().filter_map(|act| placing(plan, *act)).collect();
            let name = format!("{}: step {number}: {own:?}", case.name());
            assert!(placed.len() <= 2, "{name}");
            assert!(placed.iter().all(|one| *one == placed[0]), "{name}");
            let runs: Vec<usize> = own.iter().filter_map(|act| act.run()).collect();
            assert_eq!(step.runs(plan), runs, "{name}");
            pairs += usize::from(placed.len() == 2);
        }
        // Nor is one taken apart: what goes on between the same two places is a third run.
        for two in plan.steps.windows(2) {
            let [before, after] = two else { unreachable!() };
            let [last, first] = [acts(plan, *before).last(), acts(plan, *after).first()]
                .map(|act| act.and_then(|act| placing(plan, *act)));
            if last.is_some() && last == first {
                assert_eq!(before.runs(plan).len(), 2, "{}: {two:?}", case.name());
            }
        }
    }
    assert!(pairs > 2000, "{pairs} pairs of runs");
}

#[test]
fn a_reading_stands_behind_every_run_that_it_is_about() {
    let (mut closing, mut alone) = (0, 0);
    for case in spread() {
        let plan = &case.plan;
        for (number, step) in plan.steps.iter().enumerate() {
            let own = acts(plan, *step);
            let name = format!("{}: step {number}: {own:?}", case.name());
            for (at, act) in step.acts().zip(own) {
                let Act::Check(check) = act else { continue };
                for (run, of) in plan.runs.iter().enumerate() {
                    let places = |act: &Act| act.run() == Some(run);
                    let placed = plan.acts.iter().position(places).unwrap();
                    let late = is_about(check.plus, check.stage, of) && placed > at;
                    assert!(!late, "{name}: run {run}");
                }
                // With runs, it is what closes their stage; else it is alone.
                let runs = step.runs(plan);
                assert!(
                    runs.iter().all(|run| is_about(check.plus, check.stage, &plan.runs[*run])),
                    "{name}"
                );
                assert_eq!((own.len(), own.last()), (runs.len() + 1, Some(act)), "{name}");
                if runs.is_empty() {
                    // Several readings close one stage, or another stage lies between.
                    let around = [at.checked_sub(1), Some(at + 1)];
                    let mut around = around.into_iter().flatten().map(|at| plan.acts[at]);
                    assert!(around.any(|act| matches!(act, Act::Check(_))), "{name}");
                    alone += 1;
                } else {
                    closing += 1;
                }
            }
        }
    }
    assert!(closing > 1000 && alone > 100, "{closing} {alone}");
}

#[test]
fn hands_are_at_one_place_in_a_step() {
    for case in spread() {
        let plan = &case.plan;
        for step in &plan.steps {
            for act in acts(plan, *step) {
                let ends = act.run().map(|run| [plan.runs[run].from, plan.runs[run].to]);
                let stage = act.run().map(|run| plan.runs[run].stage);
                let at = |driver| move |end: &Terminal| end.post.driver() == Some(driver);
                let is_there = match (step.site, *act) {
                    (Site::Driver(_), Act::Leads) => plan.acts[0] == Act::Leads,
                    (Site::Driver(here), Act::Coils { driver } | Act::Polarity { driver }) => {
                        here == driver
                    }
                    (Site::Driver(here), Act::Insulate { coil }) => here == coil.driver,
                    (Site::Driver(here), Act::Join { .. }) => {
                        stage == Some(Stage::Coils)
                            && ends.iter().flatten().any(|end| at(here)(end))
                    }
                    (Site::Driver(here), Act::Check(check)) => {
                        check.stage == Stage::Coils
                            && [check.plus, check.minus].iter().all(at(here))
                    }
                    (Site::Together, Act::Join { .. }) => stage == Some(Stage::Drivers),
                    (Site::Together, Act::Check(check)) => check.stage == Stage::Drivers,
                    (Site::Box, Act::Join { .. }) => {
                        matches!(stage, Some(Stage::Cups | Stage::Outside))
                    }
                    (Site::Box, Act::Check(check)) => {
                        matches!(check.stage, Stage::Cups | Stage::Outside)
                    }
                    (Site::Cable, Act::Lay { .. }) => true,
                    (Site::Cable, Act::Check(check)) => check.stage == Stage::Cable,
                    (Site::Amplifier, Act::PowerOff | Act::Land { .. } | Act::PowerOn) => true,
                    _ => false,
                };
                assert!(is_there, "{}: {act:?} in {step:?}", case.name());
            }
        }
    }
}

/// A step in a line: where, and what is done.
fn told(plan: &Plan, step: Step) -> String {
    let site = match step.site {
        Site::Driver(driver) => format!("driver {}", driver + 1),
        site => site.name().to_owned(),
    };
    let mut text = format!("{site}:");
    for act in acts(plan, step) {
        text.push_str(&match act {
            Act::Check(check) => format!(" read {}", written(check.plus)),
            act => act.run().map_or_else(
                || format!(" {}", act.name()),
                |run| format!(" {} {}", act.name(), run + 1),
            ),
        });
    }
    text
}

/// Counted by hand, with the most that a job may ask for: leads, each driver by itself, what
/// joins coils, drivers, cups and cable, then power off, landed, power on.
#[test]
fn jobs_have_no_more_steps_than_hands_need() {
    let mono = Stated { least: Some("1"), rated: &[("2", 500.0), ("1", 800.0)] }.mono();
    let mut tied = mono.clone();
    tied.channels[0].terminal_pairs = Some(2);
    let plan = |count, coils, cups, key: &str, amplifier| {
        let rig = request(&[drivers(count, coils, "2")], Some(amplifier), Filters::OFF).rig;
        let build = BuildDraft { cups, ..BuildDraft::default() }.check(&rig).unwrap();
        Plan::of(&rig, &build, &one(&rig, &format!("1:{key}")).unwrap()).unwrap()
    };
    for (count, coils, cups, key, steps, most) in [
        // Leads, driver, cable, off, landed, on.
        (1, 1, Cups::None, "1a", 6, 6),
        (1, 1, Cups::One, "1a", 7, 7),
        (1, 2, Cups::None, "1a+1b", 7, 8),
        (1, 2, Cups::None, "1a||1b", 7, 8),
        (2, 1, Cups::One, "1a||2a", 9, 10),
        // + of the cup goes to one driver, − to the other: two places, two steps.
        (2, 1, Cups::One, "1a+2a", 10, 10),
        // Each driver by itself, and its coils joined.
        (3, 2, Cups::None, "(1a+1b)||(2a+2b)||(3a+3b)", 13, 14),
        (8, 1, Cups::None, "1a||2a||3a||4a||5a||6a||7a||8a", 20, 20),
    ] {
        let plan = plan(count, coils, cups, key, mono.clone());
        let lines: Vec<String> = plan.steps.iter().map(|step| told(&plan, *step)).collect();
        assert_eq!(lines.len(), steps, "{key}: {lines:#?}");
        assert!(lines.len() <= most, "{key}: {lines:#?}");
    }
    // Two cables for two tied pairs: each cup and each cable is read by itself, then both
    // cables together.
    let plan = plan(2, 1, Cups::Driver, "1a||2a", tied);
    let lines: Vec<String> = plan.steps.iter().map(|step| told(&plan, *step)).collect();
    assert_eq!(
        lines,
        [
            "driver 1: leads",
            "driver 1: coils polarity",
            "driver 2: coils polarity",
            "box: join 1 join 2",
            "box: join 3 join 4",
            "box: read cup 1 out +",
            "box: read cup 2 out +",
            "cable: lay 5 lay 6",
            "cable: lay 7 lay 8",
            "cable: read amp 1.1 +",
            "cable: read amp 1.2 +",
            "cable: read amp 1.1 +",
            "amplifier: power_off",
            "amplifier: land 5 land 6",
            "amplifier: land 7 land 8",
            "amplifier: power_on",
        ]
    );
}
