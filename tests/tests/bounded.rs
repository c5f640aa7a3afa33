//! Every request within the bounds of the fields is answered or refused with a reason,
//! in a bounded number of steps.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a proof stops at the first surprise")]

use coilwright_solver::answer::{Configurations, Step};
use coilwright_solver::bounds::{MOST_COILS, MOST_CONFIGURATIONS, MOST_WORK};
use coilwright_solver::problem::Code;
use proof::generate::{cases, odd_rigs, rigs, stated};
use proof::rigs::{Drivers, Filters, Stated, drivers, request, written};
use proptest::prelude::*;

/// Asks in slices and returns what the answer came to.
fn ask(rig: &[Drivers], on: &Stated, filters: Filters) -> Result<u64, Vec<Code>> {
    const SLICE: u64 = 100_000;
    let mut request = request(rig, Some(on.mono()), filters);
    request.limit = 20;
    let mut configurations = Configurations::new(request);
    let mut slices = 0;
    let answer = loop {
        match configurations.step(SLICE) {
            Step::Done(answer) => break *answer,
            Step::More(_) => slices += 1,
        }
        // Some slack: a slice is about as long as asked.
        assert!(slices <= 2 * MOST_WORK / SLICE, "{}: no end of work", written(rig));
    };
    let name = format!("{} {filters:?}", written(rig));
    let codes: Vec<Code> = answer.problems.iter().map(|problem| problem.code).collect();
    let Some(total) = answer.total else {
        assert!(!codes.is_empty(), "{name}: neither answered nor refused");
        assert!(answer.loads.is_empty() && answer.configurations.is_empty(), "{name}");
        return Err(codes);
    };
    assert_eq!(codes, [], "{name}: answered and refused");
    assert!(total <= MOST_CONFIGURATIONS, "{name}: {total}");
    assert_eq!(answer.configurations.len() as u64, total.min(20), "{name}");
    assert_eq!(total == 0, answer.loads.is_empty(), "{name}");
    Ok(total)
}

#[test]
fn each_refusal_for_size_has_its_case() {
    let even = Filters { joined: false, even: true };
    // Prime ten-thousandths: nothing ever cancels, and seven of them outgrow 128 bits.
    let odd = ["999.9991", "999.9973", "999.9971", "999.9943", "999.9937", "999.9931", "999.9929"];
    let odd = odd.map(|ohms| drivers(1, 1, ohms));
    let on = Stated::default();
    assert_eq!(ask(&[drivers(6, 2, "2")], &on, Filters::OFF), Err(vec![Code::TooMany]));
    assert_eq!(ask(&[drivers(16, 2, "2")], &on, even), Err(vec![Code::TooMuchWork]));
    assert_eq!(ask(&odd, &on, Filters::OFF), Err(vec![Code::TooExact]));
    assert_eq!(ask(&odd[..4], &on, Filters::OFF), Ok(52));
}

/// What a rig of few enough coils may be refused for: nothing but size.
const OF_SIZE: [Code; 3] = [Code::TooMany, Code::TooMuchWork, Code::TooExact];

proptest! {
    #![proptest_config(cases(24))]

    #[test]
    fn any_rig_with_both_filters_on_is_answered_or_refused_for_its_size(
        rig in rigs(MOST_COILS), on in stated()
    ) {
        if let Err(codes) = ask(&rig, &on, Filters::ON) {
            prop_assert!(codes.iter().all(|code| OF_SIZE.contains(code)), "{:?}", codes);
        }
    }

    #[test]
    fn any_rig_under_any_filter_is_answered_or_refused_for_its_size(
        rig in odd_rigs(MOST_COILS), on in stated(), filters in proptest::sample::select(Filters::ALL.to_vec())
    ) {
        if let Err(codes) = ask(&rig, &on, filters) {
            prop_assert!(codes.iter().all(|code| OF_SIZE.contains(code)), "{:?}", codes);
        }
    }
}
