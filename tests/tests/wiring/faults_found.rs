//! Laws that a diagnosis does not keep yet.

use super::{near, spread};
use coilwright_solver::answer::one;
use coilwright_solver::meter::{self, Place, Point, Read, Reading};
use coilwright_solver::network::Coil;
use coilwright_solver::rig::{Build, Fed};
use coilwright_solver::wiring::Plan;
use proof::rigs::{Filters, Stated, drivers, request};
use proof::wired::Case;

/// No fault stands twice: where several ends are meant for one terminal of the amplifier,
/// strands there are one fault.
#[test]
fn no_fault_stands_twice() {
    let drivers = vec![drivers(2, 1, "4")];
    let mono = Stated { least: Some("1"), rated: &[] }.mono();
    let rig = request(&drivers, Some(mono), Filters::OFF).rig;
    let configuration = one(&rig, "1:1a||2a").unwrap();
    let build = Build { fed: Fed::Star, ..Build::default() };
    let plan = Plan::of(&rig, &build, &configuration).unwrap();
    let case = Case { drivers, rig, build, configuration, plan };
    let (faults, _) = meter::catalogue(&case.job()).unwrap();
    for (at, (fault, _)) in faults.iter().enumerate() {
        assert!(faults.iter().take(at).all(|(one, _)| one != fault), "{fault:?} twice");
    }
}

/// A coil that the plan does not have is none that is known.
#[test]
fn a_coil_of_another_plan_is_not_known() {
    let case = spread().into_iter().find(|case| near(&case.drivers).len() == 1).unwrap();
    let point = Point { act: 1, place: Place::Coil(Coil { driver: 4, coil: 0 }) };
    assert!(!point.is_of(&case.plan));
    for reading in [Reading::Open, Reading::Ohms { ohms: 3.5, count: 0.1 }] {
        let known = meter::coils(&case.job(), &[Read { point, reading }]).unwrap();
        assert_eq!(known, [], "{reading:?}");
    }
}
