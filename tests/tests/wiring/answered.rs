//! Whatever is entered, something is answered, and every point has its name.

use super::diagnosed::{cases, whole};
use coilwright_solver::answer::one;
use coilwright_solver::meter::{self, Fault, Place, Point, Question, Read, Reading};
use coilwright_solver::network::Coil;
use coilwright_solver::rig::{Build, BuildDraft, Cups};
use coilwright_solver::wiring::{Plan, Sign};
use proof::generate;
use proof::rigs::{Filters, drivers, request};
use proof::wired::Case;
use proptest::prelude::*;
use proptest::sample::Index;
use std::sync::OnceLock;

/// Sixteen dual-coil drivers: as much as there can be.
fn sixteen() -> &'static [Case] {
    static CASES: OnceLock<Vec<Case>> = OnceLock::new();
    CASES.get_or_init(|| {
        let drivers = vec![drivers(16, 2, "4")];
        let rig = request(&drivers, None, Filters::OFF).rig;
        let block = |joint: &str, between: &str| {
            let block = |driver| format!("({driver}a{joint}{driver}b)");
            (1..=16).map(block).collect::<Vec<_>>().join(between)
        };
        let keys = [block("+", "||"), block("||", "+")];
        let all = keys.iter().flat_map(|key| [Cups::None, Cups::One].map(|cups| (key, cups)));
        let of = |(key, cups): (&String, Cups)| {
            let build: Build = BuildDraft { cups, ..BuildDraft::default() }.check(&rig).unwrap();
            let configuration = one(&rig, key).unwrap();
            let plan = Plan::of(&rig, &build, &configuration).unwrap();
            Case { drivers: drivers.clone(), rig: rig.clone(), build, configuration, plan }
        };
        all.map(of).collect()
    })
}

/// Points of other plans, nothing, far too much, open everywhere.
#[derive(Clone, Debug)]
struct Anything {
    case: Index,
    other: Index,
    reads: Vec<(bool, Index, Option<f64>, f64)>,
    answers: Vec<(Index, bool)>,
}

prop_compose! {
    fn anything()(
        case in any::<Index>(),
        other in any::<Index>(),
        reads in prop::collection::vec((
            any::<bool>(),
            any::<Index>(),
            prop::option::of(prop_oneof![
                Just(0.0), Just(f64::MIN_POSITIVE), 0.0..20.0, Just(1e6), Just(1e300), Just(f64::MAX),
            ]),
            prop_oneof![Just(0.0), Just(0.1), Just(1e9)],
        ), 0..7),
        answers in prop::collection::vec((any::<Index>(), any::<bool>()), 0..4),
    ) -> Anything {
        Anything { case, other, reads, answers }
    }
}

fn answered(all: &[Case], asked: &Anything) -> Result<(), TestCaseError> {
    let (case, other) = (asked.case.get(all), asked.other.get(cases()));
    let points = [meter::points(&case.plan), meter::points(&other.plan)];
    let reads: Vec<Read> = asked
        .reads
        .iter()
        .map(|(own, at, ohms, count)| Read {
            point: *at.get(&points[usize::from(!own)]),
            reading: ohms.map_or(Reading::Open, |ohms| Reading::Ohms { ohms, count: *count }),
        })
        .collect();
    let answers: Vec<(Question, bool)> =
        asked.answers.iter().map(|(of, yes)| (*of.get(&Question::ALL), *yes)).collect();
    let job = case.job();
    let found = meter::diagnose(&job, &reads, &answers);
    prop_assert_eq!(found.agreements.len(), reads.len());
    for (judged, told) in meter::judge(&job, &reads).unwrap().into_iter().zip(&found.agreements) {
        let doubted = (judged, *told) == (meter::Agreement::Right, meter::Agreement::Doubtful);
        prop_assert!(judged == *told || doubted && found.sound < 0.5, "{judged:?} {told:?}");
    }
    prop_assert!((0.0..=1.0 + 1e-9).contains(&found.sound), "{}", found.sound);
    if let Some(next) = found.next {
        prop_assert!(next.is_of(&case.plan), "{}: {}", case.name(), next.name());
    }
    let known = meter::coils(&job, &reads).unwrap();
    prop_assert!(known.windows(2).all(|pair| pair[0].0 < pair[1].0), "each coil once: {known:?}");
    for fault in found.explanations.iter().flat_map(|one| &one.faults) {
        let built = meter::as_built(&case.plan, fault, &found.others);
        prop_assert!(
            built.runs.len() + 1 >= case.plan.runs.len() || matches!(fault, Fault::Otherwise(_))
        );
    }
    whole(&found)
}

proptest! {
    #![proptest_config(generate::cases(150))]

    #[test]
    fn whatever_is_read_is_answered(asked in anything()) {
        answered(cases(), &asked)?;
    }

    #[test]
    fn points_are_known_by_their_names(step in 0..=u16::MAX, driver in 0..=u8::MAX, coil in 0..4_u8,
        other in 0..=u8::MAX, of in 0..4_u8, run in 0..u16::MAX, kind in 0..12_usize) {
        let (one, two) = (Coil { driver, coil }, Coil { driver: other, coil: of });
        let place = [
            Place::Step, Place::Coil(one), Place::Basket(driver), Place::Across(one, two),
            Place::Across(one, one), Place::Along(run), Place::CableOpen(run),
            Place::CableJoined(run), Place::Lifted(one), Place::Apart(driver),
            Place::Tied(driver, Sign::Plus), Place::Tied(driver, Sign::Minus),
        ][kind];
        let point = Point { act: step, place };
        // The last step that can be counted from 1 is one less than the most.
        prop_assume!(step < u16::MAX);
        prop_assert_eq!(Point::named(&point.name()), Some(point), "{}", point.name());
    }
}

proptest! {
    #![proptest_config(generate::cases(4))]

    #[test]
    fn sixteen_drivers_are_answered_too(asked in anything()) {
        answered(sixteen(), &asked)?;
    }
}

#[test]
fn every_point_of_every_plan_has_a_name_of_its_own() {
    for case in cases().iter().chain(sixteen()) {
        let points = meter::points(&case.plan);
        let mut names: Vec<String> = points.iter().map(Point::name).collect();
        for (point, name) in points.iter().zip(&names) {
            assert_eq!(Point::named(name), Some(*point), "{name}");
            assert!(point.is_of(&case.plan), "{}: {name}", case.name());
        }
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), points.len(), "{}", case.name());
    }
}

/// Open wherever it is read, nothing wherever it is read, and nothing read at all.
#[test]
fn all_open_and_all_shorted_are_answered() {
    for case in cases().iter().step_by(12).chain(sixteen().iter().take(1)) {
        for reading in [Reading::Open, Reading::Ohms { ohms: 0.0, count: 0.1 }] {
            let points = meter::points(&case.plan);
            let stride = points.len().div_ceil(40);
            let reads: Vec<Read> =
                points.into_iter().step_by(stride).map(|point| Read { point, reading }).collect();
            let found = meter::diagnose(&case.job(), &reads, &[]);
            assert_eq!(found.agreements.len(), reads.len());
            whole(&found).unwrap();
        }
        let found = meter::diagnose(&case.job(), &[], &[]);
        whole(&found).unwrap();
        let nothing = found.explanations.is_empty() && found.next.is_none();
        assert!(nothing && !found.polarity, "{}", case.name());
    }
}
