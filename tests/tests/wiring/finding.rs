//! What is wrong, as the trade would tell it from the same readings.

use coilwright_solver::answer::one;
use coilwright_solver::bounds::Field;
use coilwright_solver::meter::{
    self, Agreement, Diagnosis, Fault, Fit, Kind, Place, Point, Read, Reading,
};
use coilwright_solver::rig::{AmplifierDraft, BuildDraft, Cups, Draft, GroupDraft};
use coilwright_solver::wiring::{Act, Check, Plan, Stage};
use proof::rigs::Stated;
use proof::tree::Tree;
use proof::wired::Case;

/// The meter's usual step, in ohms.
const TENTH: f64 = 0.1;

/// Single-coil 2 Ω drivers or dual-coil 4 Ω ones, on an amplifier of so many tied pairs.
fn case(coils: u32, dc_ohms: Option<Vec<f64>>, cups: Cups, pairs: u32, key: &str) -> Case {
    let ohms = if coils == 1 { "2" } else { "4" };
    let group = GroupDraft {
        count: Some(2),
        coils: Some(coils),
        ohms: Field::CoilOhms.ohms_text(ohms).ok(),
        dc_ohms,
        ..GroupDraft::default()
    };
    let mut channel = Stated { least: Some("1/4"), rated: &[] }.channel();
    channel.terminal_pairs = Some(pairs);
    let amplifier = AmplifierDraft { channels: vec![channel], ..AmplifierDraft::default() };
    let rig = Draft { groups: vec![group], amplifier: Some(amplifier) };
    let rig = rig.check(Vec::new()).unwrap();
    let build = BuildDraft { cups, ..BuildDraft::default() }.check(&rig).unwrap();
    let configuration = one(&rig, key).unwrap();
    let plan = Plan::of(&rig, &build, &configuration).unwrap();
    Case { drivers: Vec::new(), rig, build, configuration, plan }
}

/// Where checks of a stage are taken.
fn checks(case: &Case, stage: Stage, tied: bool) -> Vec<Point> {
    let of = |step: &Act| matches!(step, Act::Check(Check { stage: of, tied: held, .. }) if (*of, *held) == (stage, tied));
    let steps = (0_u16..).zip(&case.plan.acts).filter(|(_, step)| of(step));
    steps.map(|(step, _)| Point { act: step, place: Place::Step }).collect()
}

fn alone(case: &Case) -> Vec<Point> {
    let is = |point: &Point| matches!(point.place, Place::Coil(_));
    meter::points(&case.plan).into_iter().filter(is).collect()
}

fn read(point: Point, ohms: f64, count: f64) -> Read {
    Read { point, reading: Reading::Ohms { ohms, count } }
}

fn leads(ohms: f64) -> Read {
    read(Point { act: 0, place: Place::Step }, ohms, TENTH)
}

/// Common practice, no source: two single-coil 2 Ω drivers read 2.0 to 2.1 Ω each, 1.0 to
/// 1.1 Ω in parallel and 3.9 to 4.0 Ω in series at the cup. With a cup for each side every
/// cup reads one driver before anything is landed, and the pair clipped together 1.0 to
/// 1.1 Ω.
#[test]
fn the_figures_of_the_trade_are_judged_right() {
    let right = |case: &Case, points: &[Point], figures: [f64; 2]| {
        assert!(!points.is_empty());
        for point in points {
            for of_leads in [0.0, 0.1, 0.2] {
                for figure in figures {
                    let reads = [leads(of_leads), read(*point, figure, TENTH)];
                    let found = meter::judge(&case.job(), &reads).unwrap();
                    let name = (case.configuration.key(), point.name(), of_leads, figure);
                    assert_eq!(found, [Agreement::Right; 2], "{name:?}");
                }
            }
        }
    };
    let parallel = case(1, None, Cups::One, 1, "1:1a||2a");
    right(&parallel, &alone(&parallel), [2.0, 2.1]);
    right(&parallel, &checks(&parallel, Stage::Cups, false), [1.0, 1.1]);
    let series = case(1, None, Cups::One, 1, "1:1a+2a");
    right(&series, &alone(&series), [2.0, 2.1]);
    right(&series, &checks(&series, Stage::Cups, false), [3.9, 4.0]);
    let each = case(1, None, Cups::Driver, 2, "1:1a||2a");
    let of_cups = checks(&each, Stage::Cups, false);
    assert_eq!(of_cups.len(), 2);
    right(&each, &of_cups, [2.0, 2.1]);
    right(&each, &checks(&each, Stage::Cable, false), [2.0, 2.1]);
    right(&each, &checks(&each, Stage::Cable, true), [1.0, 1.1]);
    // Each figure is wrong where another belongs, so that they prove something.
    let at = checks(&parallel, Stage::Cups, false)[0];
    let judged = |reads: &[Read]| meter::judge(&parallel.job(), reads).unwrap().pop().unwrap();
    assert_eq!(judged(&[leads(0.2), read(at, 2.1, TENTH)]), Agreement::TooHigh);
    assert_eq!(judged(&[leads(0.2), read(at, 3.9, TENTH)]), Agreement::TooHigh);
    let at = checks(&series, Stage::Cups, false)[0];
    let judged = |reads: &[Read]| meter::judge(&series.job(), reads).unwrap().pop().unwrap();
    assert_eq!(judged(&[leads(0.2), read(at, 1.1, TENTH)]), Agreement::TooLow);
    assert_eq!(judged(&[leads(0.2), read(at, 2.1, TENTH)]), Agreement::TooLow);
}

/// `physics`: below 1.5 Ω nothing is said before the leads are read.
#[test]
fn two_drivers_in_parallel_wait_for_the_leads() {
    let case = case(1, None, Cups::One, 1, "1:1a||2a");
    let at = checks(&case, Stage::Cups, false)[0];
    for ohms in [0.3, 1.1, 4.1] {
        let reads = [read(at, ohms, TENTH)];
        assert_eq!(meter::judge(&case.job(), &reads).unwrap(), [Agreement::LeadsFirst]);
        let found = meter::diagnose(&case.job(), &reads, &[]);
        assert_eq!(found.next, Some(leads(0.0).point), "{ohms}");
    }
}

/// A meter is off by some counts (common practice, no source: two), so that whole ohms tell
/// one 2 Ω driver from two in parallel by nothing, and speak neither for nor against a fault.
#[test]
fn whole_ohms_are_too_coarse_for_two_drivers_in_parallel() {
    let pair = case(1, None, Cups::One, 1, "1:1a||2a");
    let at = checks(&pair, Stage::Cups, false)[0];
    let found = |reads: &[Read]| meter::diagnose(&pair.job(), reads, &[]);
    for ohms in [0.0, 1.0, 2.0, 3.0] {
        let coarse = found(&[leads(0.2), read(at, ohms, 1.0)]);
        assert_eq!(coarse.agreements, [Agreement::Right, Agreement::Coarse], "{ohms}");
        assert_eq!((coarse.questions.len(), coarse.polarity), (0, false), "{ohms}");
        let other = found(&[leads(0.2), read(at, 1.0, 1.0)]);
        assert_eq!(coarse, other, "whatever it shows, it counts for nothing");
    }
    assert_eq!(found(&[leads(0.2), read(at, 4.0, 1.0)]).agreements[1], Agreement::TooHigh);
    assert_eq!(found(&[leads(0.2), read(at, 2.0, TENTH)]).agreements[1], Agreement::TooHigh);
    assert_eq!(found(&[leads(0.2), read(at, 1.0, TENTH)]).agreements[1], Agreement::Right);
    // So are those of a coil by itself; those of many ohms are not.
    let series = case(2, None, Cups::One, 1, "1:1a+1b+2a+2b");
    let reads = [leads(0.2), read(checks(&series, Stage::Cups, false)[0], 14.0, 1.0)];
    assert_eq!(meter::judge(&series.job(), &reads).unwrap(), [Agreement::Right; 2]);
    let alone = alone(&pair)[0];
    assert_eq!(found(&[read(alone, 2.0, 1.0)]).agreements, [Agreement::Coarse]);
    assert_eq!(meter::measured(&pair.job(), &[leads(0.2), read(alone, 2.0, 1.0)]).unwrap(), []);
}

/// A coil that touches its basket is the driver's own fault: no run or joint makes it, so
/// that it speaks for none of them.
#[test]
fn a_touched_basket_explains_nothing_of_the_wiring() {
    let case = case(1, None, Cups::One, 1, "1:1a||2a");
    let at = checks(&case, Stage::Cups, false)[0];
    let points = meter::points(&case.plan);
    let baskets = points.into_iter().filter(|point| !point.place.tells_faults());
    let baskets: Vec<Point> = baskets.collect();
    assert_eq!(baskets.len(), 2);
    let found = |reads: &[Read]| meter::diagnose(&case.job(), reads, &[]);
    let wrong = [leads(0.2), read(at, 2.2, TENTH)];
    let before = found(&wrong);
    for basket in baskets {
        let [a, b] = wrong;
        let touched = found(&[a, b, read(basket, 0.4, TENTH)]);
        assert_eq!(touched.agreements[2], Agreement::TooLow);
        assert_eq!(touched.explanations, before.explanations);
        assert_eq!((touched.next, touched.polarity), (before.next, false));
        // Alone it still reads wrong: the easy causes are asked about, and nothing is sound.
        let alone = found(&[a, read(basket, 0.4, TENTH)]);
        assert_eq!((alone.questions.len(), alone.polarity), (3, false));
        assert!(!alone.explanations.is_empty());
    }
}

fn told(found: &Diagnosis) -> Vec<(f64, Fit, &[Fault])> {
    found.explanations.iter().map(|one| (one.share, one.fit, one.faults.as_slice())).collect()
}

/// Common practice, no source: at the cup of two 2 Ω drivers in parallel, leads 0.2 Ω, twice
/// the ohms mean one driver that is not there: a run is missing or a coil open.
#[test]
fn one_driver_alone_at_the_cup_is_a_run_missing_or_a_coil_open() {
    let case = case(1, None, Cups::One, 1, "1:1a||2a");
    let at = checks(&case, Stage::Cups, false)[0];
    let found = meter::diagnose(&case.job(), &[leads(0.2), read(at, 2.2, TENTH)], &[]);
    assert_eq!(found.agreements, [Agreement::Right, Agreement::TooHigh]);
    let first = &found.explanations[0];
    for fault in &first.faults {
        let kinds = [Kind::Missing, Kind::CoilOpen];
        assert!(kinds.contains(&fault.kind()), "{:#?}", told(&found));
    }
    assert_eq!(first.fit, Fit::Well);
    assert!(found.next.is_some(), "which of them is read next");
    assert!(!found.polarity);
}

/// Common practice, no source: four times the ohms are two drivers in series.
#[test]
fn four_ohms_at_the_cup_of_two_in_parallel_are_the_two_in_series() {
    let case = case(1, None, Cups::One, 1, "1:1a||2a");
    let at = checks(&case, Stage::Cups, false)[0];
    let found = meter::diagnose(&case.job(), &[leads(0.2), read(at, 4.1, TENTH)], &[]);
    assert_eq!(found.agreements, [Agreement::Right, Agreement::TooHigh]);
    let Fault::Otherwise(other) = found.explanations[0].faults[0] else {
        panic!("{:#?}", told(&found))
    };
    let other = &found.others[usize::from(other)];
    assert_eq!((other.output, other.network.to_string().as_str()), (0, "1a + 2a"));
    assert_eq!(found.explanations[0].fit, Fit::Well);
}

/// Worked (`checks`): all parallel, two dual 4 Ω whose coils measure 3.6. What each mistake
/// reads, and that the reading, 0.20 Ω of leads in it, names the mistake among the first
/// explanations.
#[test]
fn the_worked_readings_of_four_coils_in_parallel() {
    let case = case(2, Some(vec![3.6; 4]), Cups::None, 1, "1:1a||1b||2a||2b");
    let job = case.job();
    let (faults, others) = meter::catalogue(&job).unwrap();
    let at = Point { act: meter::last_check(&case.plan).unwrap(), place: Place::Step };
    let shown = |fault: &Fault| {
        let ways = meter::shown(&job, fault, &others, &at).unwrap();
        assert_eq!(ways.len(), 1);
        ways[0].ohms
    };
    let network = |fault: &Fault, wanted: &str| match fault {
        Fault::Otherwise(other) => {
            let written = others[usize::from(*other)].network.to_string();
            let key = written.replace(" ∥ ", "||").replace(' ', "");
            Tree::read(&key).sorted() == Tree::read(wanted).sorted()
        }
        _ => false,
    };
    type Is<'a> = &'a dyn Fn(&Fault) -> bool;
    let rows: [(f64, &str, Is<'_>, usize); 6] = [
        (0.90, "healthy", &|fault| *fault == Fault::Nothing, 1),
        (1.20, "one coil open", &|fault| fault.kind() == Kind::CoilOpen, 4),
        (1.44, "the coils of driver 1 in series", &|fault| network(fault, "(1a+1b)||2a||2b"), 1),
        // Fed by a chain, driver 2 is gone with one of its runs.
        (
            1.80,
            "one driver missing",
            &|fault| fault.kind() == Kind::Missing && (shown(fault) - 1.8).abs() < 1e-9,
            2,
        ),
        (3.60, "each driver's coils in series", &|fault| network(fault, "(1a+1b)||(2a+2b)"), 1),
        (3.60, "drivers in series", &|fault| network(fault, "(1a||1b)+(2a||2b)"), 1),
    ];
    for (ohms, what, is, least) in rows {
        let of: Vec<&Fault> = faults.iter().map(|(fault, _)| fault).filter(|one| is(one)).collect();
        assert!(of.len() >= least, "{what}: {of:?}");
        for fault in &of {
            assert!((shown(fault) - ohms).abs() < 1e-9, "{what}: {fault:?} {}", shown(fault));
        }
        let reads = [leads(0.2), read(at, ohms + 0.2, 0.01)];
        let found = meter::diagnose(&job, &reads, &[]);
        let place = found.explanations.iter().position(|one| one.faults.iter().any(is));
        let place = place.unwrap_or_else(|| panic!("{what} is not told: {:#?}", told(&found)));
        for one in &found.explanations[..=place] {
            assert_eq!(one.fit, Fit::Well, "{what}: {:#?}", told(&found));
        }
        assert!(place < 3, "{what} comes late: {:#?}", told(&found));
    }
}
