//! Answers from text to text: the whole of one, and what the others show besides.
#![allow(clippy::panic, reason = "a test stops at the first surprise")]

use coilwright_module::answer::{Answer, Configuration, Output};
use coilwright_module::configurations;
use coilwright_module::value::Value;

fn answer(request: &str) -> Answer {
    let answer = configurations(&serde_json::from_str(request).unwrap_or(Value::Unreadable));
    assert_eq!(answer.problems, [], "{request}");
    answer
}

fn of_key<'a>(answer: &'a Answer, key: &str) -> (&'a Configuration, &'a Output) {
    let found = answer.configurations.iter().find(|one| one.key == key);
    match found.map(|found| (found, found.outputs.as_slice())) {
        Some((found, [output])) => (found, output),
        _ => panic!("{key} with one output is not in the list"),
    }
}

/// The contract's own example. Loads, runs and the count are worked from first
/// principles in the design; 500 W at 2 Ω is what the request states.
#[test]
fn the_whole_answer_to_two_dual_drivers() {
    let request = r#"{
        "drivers": [{"count": 2, "coils": 2, "ohms": 2, "watts": 500}],
        "amplifier": {"channels": [{"least_ohms": 1, "rated": [{"ohms": 2, "watts": 500}]}]},
        "limit": 1}"#;
    let want = r#"{
        "contract_version": 1,
        "total": 4,
        "total_exact": null,
        "before_filters": 16,
        "loads": [
            {"ohms": 0.5, "exact": "1/2", "configurations": 1, "verdict": "too_low", "even": true},
            {"ohms": 2.0, "exact": "2", "configurations": 2, "verdict": "fits", "even": true},
            {"ohms": 8.0, "exact": "8", "configurations": 1, "verdict": "fits", "even": true}],
        "configurations": [{
            "rank": 1, "key": "1:(1a+1b)||(2a+2b)", "verdict": "fits", "even": true,
            "joined_at_driver": true,
            "outputs": [{
                "way": "apart", "channels": [1], "network": "(1a + 1b) ∥ (2a + 2b)",
                "ohms": 2.0, "exact": "2", "verdict": "fits",
                "available_watts": {"low": 500.0, "high": 500.0, "basis": "stated"},
                "usable_watts": 1000.0, "target_watts": 500.0, "overheats": "cannot"}],
            "driver_shares": [0.5, 0.5],
            "coil_shares": [0.25, 0.25, 0.25, 0.25],
            "runs": 6}],
        "problems": []}"#;
    let compact: String = want
        .lines()
        .map(str::trim_start)
        .collect::<String>()
        .replace(", \"", ",\"")
        .replace("\": ", "\":")
        .replace("}, {", "},{");
    let compact = compact.replace("0.5, 0.5", "0.5,0.5").replace("0.25, ", "0.25,");
    assert_eq!(serde_json::to_string(&answer(request)).ok(), Some(compact));
}

/// Three single 4 Ω, 300 W each, a + (b ∥ c): 6 Ω, shares 2/3, 1/6, 1/6, usable 450 W
/// of 900; and 300 W stated at 4 Ω only is a range of 100 to 900 W at 4/3 Ω (worked
/// from first principles: current held, voltage held).
#[test]
fn uneven_shares_and_a_range() {
    let answer = answer(
        r#"{"drivers": [{"count": 3, "coils": 1, "ohms": 4, "watts": 300}],
            "amplifier": {"channels": [{"least_ohms": 1, "rated": [{"ohms": 4, "watts": 300}]}]},
            "even_only": false}"#,
    );
    let (uneven, output) = of_key(&answer, "1:1a+(2a||3a)");
    assert_eq!((uneven.even, uneven.joined_at_driver, output.ohms), (false, true, 6.0));
    for (share, want) in uneven.driver_shares.iter().zip([2.0 / 3.0, 1.0 / 6.0, 1.0 / 6.0]) {
        assert!((share - want).abs() < 1e-12, "{share}");
    }
    assert!((output.usable_watts.unwrap_or(0.0) - 450.0).abs() < 1e-9);
    assert_eq!(output.target_watts, Some(200.0));
    let (_, output) = of_key(&answer, "1:1a||2a||3a");
    let range = output.available_watts.as_ref().map(|given| (given.low, given.high));
    let (low, high) = range.unwrap_or_default();
    assert!((low - 100.0).abs() < 1e-9 && (high - 900.0).abs() < 1e-9, "{range:?}");
    assert_eq!(output.available_watts.as_ref().map(|given| given.basis.name()), Some("range"));
    assert_eq!(output.exact, "4/3");
}

/// One dual driver whose coils are not alone: shares of drivers and of coils differ.
#[test]
fn coils_and_drivers_have_shares_of_their_own() {
    let answer = answer(
        r#"{"drivers": [{"count": 1, "coils": 2, "ohms": 4}, {"count": 1, "coils": 1, "ohms": 8}],
            "joined_only": false, "even_only": false}"#,
    );
    let (found, output) = of_key(&answer, "2a||(1a+1b)");
    assert_eq!(found.driver_shares, [0.5, 0.5]);
    assert_eq!(found.coil_shares, [0.25, 0.25, 0.5]);
    assert_eq!((output.way, output.usable_watts), (None, None));
    let (apart, _) = of_key(&answer, "1a+(1b||2a)");
    assert!(!apart.joined_at_driver && !apart.even);
}

/// Eight dual drivers with both filters off: the count of distinct configurations is
/// the solver's own; that it stands as decimal text beside a null total is the contract.
#[test]
fn a_count_that_is_too_large_to_list_is_text() {
    let request = r#"{"drivers": [{"count": 8, "coils": 2, "ohms": 2}],
        "joined_only": false, "even_only": false}"#;
    let answer = configurations(&serde_json::from_str(request).unwrap_or(Value::Unreadable));
    assert_eq!((answer.total, answer.before_filters), (None, None));
    let exact = answer.total_exact.unwrap_or_default();
    assert!(exact.len() > 6 && exact.bytes().all(|b| b.is_ascii_digit()), "{exact}");
    let [problem] = answer.problems.as_slice() else {
        panic!("one problem: {:?}", answer.problems);
    };
    assert_eq!((problem.path.as_str(), problem.code.name()), ("", "too_many"));
    assert!(problem.message.replace(',', "").contains(&exact), "{}", problem.message);
}
