//! Every request within the bounds of the fields is answered or refused with a reason,
//! in a bounded number of steps.

use coilwright_solver::answer::{Configurations, Step, answer};
use coilwright_solver::bounds::{MOST_COILS, MOST_CONFIGURATIONS, MOST_WORK};
use coilwright_solver::problem::Code;
use proof::generate::{cases, odd_rigs, rigs, stated};
use proof::hardest::{Asked, Taken, asked, known, taken};
use proof::rigs::{Drivers, Filters, Stated, drivers, request, written};
use proptest::prelude::*;
use std::sync::LazyLock;

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

/// One step may go beyond what was asked for by what cannot be cut short: 250,000 counted
/// steps are some 5 ms. Mostly it is a portion of a thousand.
const LARGEST: u64 = 250_000;

/// What each known request took: two laws are about them, and some take all that may be.
static KNOWN: LazyLock<Vec<(&str, Asked, Taken)>> = LazyLock::new(|| {
    let all = known().into_iter();
    all.map(|(name, asked)| {
        let taken = taken(asked.request().unwrap());
        (name, asked, taken)
    })
    .collect()
});

/// These ran for seconds or minutes while dealing drivers to outputs was not counted as
/// the work that it is.
#[test]
fn what_once_ran_without_an_end_ends_within_the_bound() {
    let mut over = Vec::new();
    for (name, asked, taken) in KNOWN.iter() {
        println!("{name}: {:?}: {}, {}", asked.filters, taken.steps, taken.outcome());
        if taken.steps > MOST_WORK + LARGEST || taken.largest > LARGEST {
            over.push(format!("{name} {:?}: {} {}", asked.filters, taken.steps, taken.largest));
        }
        // Whatever hangs on an output of these is even in parallel, so a deal is never in
        // vain, and there are far too many deals.
        if ["8 × 4 singles on 8 alike", "8 × 2 duals with bridges"].contains(name) {
            assert_eq!(taken.outcome(), "too_many", "{name} {:?}", asked.filters);
            assert!(taken.steps < MOST_WORK / 2, "{name}: {} steps to tell", taken.steps);
        }
    }
    assert_eq!(over, Vec::<String>::new());
}

/// The ten that take most of them, with no more steps than when this was written.
#[test]
fn the_ten_hardest_take_no_more_steps() {
    const JOINED: Filters = Filters { joined: true, even: false };
    const EVEN: Filters = Filters { joined: false, even: true };
    const ALL_OF_IT: u64 = MOST_WORK + LARGEST;
    let hardest = [
        ("13 duals", EVEN, ALL_OF_IT, "too_much_work"),
        ("16 duals", EVEN, ALL_OF_IT, "too_much_work"),
        ("8 quads", EVEN, ALL_OF_IT, "too_much_work"),
        ("8 × 2 duals on 4 × 8 unlike with bridges", EVEN, ALL_OF_IT, "too_much_work"),
        ("8 × 2 duals on 4 × 8 unlike with bridges", Filters::ON, ALL_OF_IT, "too_much_work"),
        ("8 × 2 duals on 4 × 8 unlike with bridges", JOINED, 30_000_000, "too_many"),
        ("2 × 16 of 2 kinds on 4 × 8 unlike", EVEN, 33_000_000, "70"),
        ("2 × 16 of 2 kinds on 4 × 8 unlike", Filters::ON, 33_000_000, "70"),
        ("2 × 16 on 4 × 8 unlike", EVEN, 24_000_000, "too_many"),
        ("8 × 2 duals with bridges", EVEN, 19_000_000, "too_many"),
    ];
    for (name, filters, steps, outcome) in hardest {
        let of = KNOWN.iter().find(|(other, asked, _)| *other == name && asked.filters == filters);
        let (.., taken) = of.unwrap();
        assert_eq!(taken.outcome(), outcome, "{name} {filters:?}");
        assert!(taken.steps <= steps, "{name} {filters:?}: {} steps", taken.steps);
    }
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

    /// Seven, a few, many or all at once, in whatever order: to the last bit the same.
    #[test]
    fn no_slicing_changes_an_answer(
        asked in asked(), budgets in proptest::collection::vec(1_u64..3_000_000, 1..6)
    ) {
        let Some(request) = asked.request() else { return Ok(()) };
        let whole = answer(request.clone());
        let by_one = taken(request.clone());
        prop_assert!(by_one.steps <= MOST_WORK + LARGEST, "{}: {} steps", asked, by_one.steps);
        prop_assert!(by_one.largest <= LARGEST, "{}: {} at once", asked, by_one.largest);
        prop_assert_eq!(&by_one.answer, &whole, "{} by one", &asked);
        for budgets in [vec![7], budgets] {
            let mut sliced = Configurations::new(request.clone());
            let mut at = 0;
            let found = loop {
                if let Step::Done(found) = sliced.step(budgets[at % budgets.len()]) {
                    break *found;
                }
                at += 1;
            };
            prop_assert_eq!(&found, &whole, "{} by {:?}", &asked, budgets);
            prop_assert_eq!(sliced.work(), by_one.steps);
        }
    }
}
