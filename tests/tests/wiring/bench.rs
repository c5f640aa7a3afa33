//! A simulated builder follows the steps of a plan on an empty bench.

use super::spread;
use coilwright_solver::rig::Build;
use coilwright_solver::wiring::{Act, Post, Sign, Stage, Terminal};
use proof::wired::{Bench, Case, of_amplifier, written};

/// What a terminal takes, by the box alone.
fn takes(build: &Build, terminal: Terminal) -> u32 {
    let [driver, cup, amplifier] = build.takes;
    match terminal.post {
        Post::Coil(_) => driver.conductors,
        Post::CupInside(_) | Post::CupOutside(_) => cup.conductors,
        Post::Amplifier { .. } => amplifier.conductors,
        Post::Splice(_) => u32::MAX,
    }
}

fn driver_of(terminal: Terminal) -> Option<u8> {
    match terminal.post {
        Post::Coil(coil) => Some(coil.driver),
        _ => None,
    }
}

fn is_of_amplifier(terminal: Terminal) -> bool {
    matches!(terminal.post, Post::Amplifier { .. })
}

/// Follows the steps; whatever must not happen on the way stops it.
fn build(case: &Case) -> Bench {
    let (plan, name) = (&case.plan, case.name());
    let mut bench = Bench::default();
    for sign in [Sign::Plus, Sign::Minus] {
        bench.tie_pairs(plan, sign);
    }
    let mut placed = vec![0_u32; plan.runs.len()];
    let mut laid = vec![false; plan.runs.len()];
    let mut alone: Vec<u8> = Vec::new();
    let mut polarity: Vec<u8> = Vec::new();
    let (mut stage, mut off, mut on) = (Stage::Coils, false, false);
    for (at, step) in plan.acts.iter().enumerate() {
        assert!(!on, "{name}: nothing after the power is on");
        assert_eq!(*step == Act::Leads, at == 0, "{name}: the leads once, before anything");
        match *step {
            Act::Leads => {}
            Act::Coils { driver } => {
                for terminal in bench.held().keys() {
                    assert_ne!(driver_of(*terminal), Some(driver), "{name}: not read alone");
                }
                alone.push(driver);
            }
            Act::Polarity { driver } => {
                assert_eq!(alone.last(), Some(&driver), "{name}: coils not read before");
                polarity.push(driver);
            }
            Act::Insulate { coil } => assert!(plan.open.contains(&coil), "{name}"),
            Act::Join { run } | Act::Lay { run } => {
                let number = usize::from(run);
                let run = &plan.runs[number];
                for driver in [run.from, run.to].into_iter().filter_map(driver_of) {
                    assert!(polarity.contains(&driver), "{name}: {driver} joined unchecked");
                }
                assert!(run.stage >= stage, "{name}: {:?} after {stage:?}", run.stage);
                stage = run.stage;
                assert_eq!(is_of_amplifier(run.from), run.stage == Stage::Cable, "{name}");
                assert!(!is_of_amplifier(run.to), "{name}: the amplifier is the near end");
                if matches!(step, Act::Lay { .. }) {
                    laid[number] = true;
                    bench.hold(run.to);
                } else {
                    assert!(!is_of_amplifier(run.from), "{name}: an amplifier not landed last");
                    placed[number] += 1;
                    bench.join(run.from, run.to);
                }
            }
            Act::Check(check) => {
                let probes = [check.plus, check.minus];
                if check.stage == Stage::Cable {
                    assert!(!off, "{name}: read before the power is off and anything lands");
                    for probe in probes {
                        let ends = plan.runs.iter().zip(&laid);
                        let loose = ends.filter(|(run, laid)| run.from == probe && **laid).count();
                        assert!(loose > 0, "{name}: no cable for {}", written(probe));
                    }
                } else {
                    for probe in probes {
                        // A cup is read from outside once its inside is joined; a driver
                        // at an end that is still free, once it is joined elsewhere.
                        let on = |other: &Terminal| match (probe.post, other.post) {
                            (Post::CupOutside(a), Post::CupInside(b)) => a == b,
                            (Post::Coil(a), Post::Coil(b)) => a.driver == b.driver,
                            (a, b) => a == b,
                        };
                        let whole = bench.held().keys().any(on);
                        assert!(whole, "{name}: nothing at {}", written(probe));
                    }
                }
            }
            Act::PowerOff => off = true,
            Act::Land { run } => {
                assert!(off, "{name}: landed with the power on");
                let number = usize::from(run);
                assert!(laid[number], "{name}: landed before it was laid");
                placed[number] += 1;
                let run = &plan.runs[number];
                bench.hold(run.from);
                bench.tie(run.from, run.to);
            }
            Act::PowerOn => on = true,
        }
        for output in 0..plan.pairs.len() as u8 {
            let [plus, minus] = [Sign::Plus, Sign::Minus].map(|sign| of_amplifier(output, sign));
            assert!(!bench.is_one(plus, minus), "{name}: output {output} is shorted");
        }
        for (terminal, held) in bench.held() {
            let most = takes(&case.build, *terminal);
            assert!(*held <= most, "{name}: {held} conductors on {}", written(*terminal));
        }
    }
    assert!(off && on, "{name}");
    assert!(placed.iter().all(|times| *times == 1), "{name}: {placed:?}");
    assert_eq!(polarity.len(), case.rig.drivers() as usize, "{name}");
    assert_eq!(alone, polarity, "{name}");
    bench
}

/// Every plan survives its builder, who ends with exactly the sets that it names.
#[test]
fn the_steps_end_in_the_joined_sets_and_never_short_an_output_on_the_way() {
    for case in spread() {
        let mut bench = build(&case);
        let name = case.name();
        let sets = &case.plan.joined;
        for (i, set) in sets.iter().enumerate() {
            for terminal in &set.terminals {
                assert!(
                    bench.is_one(set.terminals[0], *terminal),
                    "{name}: {}",
                    written(*terminal)
                );
            }
            for other in sets.iter().skip(i + 1) {
                assert!(!bench.is_one(set.terminals[0], other.terminals[0]), "{name}");
            }
        }
        let named: Vec<Terminal> = sets.iter().flat_map(|set| set.terminals.clone()).collect();
        let mut told = named.clone();
        told.sort_unstable();
        told.dedup();
        assert_eq!(told.len(), named.len(), "{name}: each terminal in one set");
        for terminal in bench.held().keys() {
            let splice = matches!(terminal.post, Post::Splice(_));
            assert!(splice || named.contains(terminal), "{name}: {}", written(*terminal));
        }
    }
}

/// A builder who lands a cable with the power on, or joins what was not checked, is
/// noticed: the bench itself can fail.
#[test]
fn the_bench_notices_a_plan_out_of_order() {
    let case = spread().into_iter().find(|case| case.plan.runs.len() > 6).unwrap();
    let fails = |change: &dyn Fn(&mut Case)| {
        let mut case = case.clone();
        change(&mut case);
        std::panic::catch_unwind(|| build(&case)).is_err()
    };
    assert!(!fails(&|_| {}));
    let at = |case: &Case, wanted: fn(&Act) -> bool| case.plan.acts.iter().position(wanted);
    assert!(fails(&|case| {
        let off = at(case, |step| *step == Act::PowerOff).unwrap();
        case.plan.acts.remove(off);
    }));
    for wanted in [
        (|step| *step == Act::Leads) as fn(&Act) -> bool,
        |step| matches!(step, Act::Coils { .. }),
        |step| matches!(step, Act::Polarity { .. }),
    ] {
        assert!(fails(&|case| {
            let first = at(case, wanted).unwrap();
            case.plan.acts.remove(first);
        }));
        // Too late: behind the first run.
        assert!(fails(&|case| {
            let first = at(case, wanted).unwrap();
            let step = case.plan.acts.remove(first);
            let run = at(case, |step| matches!(step, Act::Join { .. })).unwrap();
            case.plan.acts.insert(run + 1, step);
        }));
    }
    assert!(fails(&|case| {
        let land = at(case, |step| matches!(step, Act::Land { .. })).unwrap();
        case.plan.acts.remove(land);
    }));
    assert!(fails(&|case| case.build.takes[0].conductors = 0));
    assert!(fails(&|case| {
        let cable = case.plan.runs.len() - 1;
        case.plan.runs[cable].to = case.plan.runs[cable - 1].to;
    }));
}
