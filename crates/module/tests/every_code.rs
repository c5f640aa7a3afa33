//! Every code that a request can meet, from text in to text out, with its message.
//! How the other messages read is in the tests of `coilwright-words`.

use coilwright_module::answer::Answer;
use coilwright_module::configurations;
use coilwright_module::value::Value;
use coilwright_solver::problem::Code;

fn answer(request: &str) -> Answer {
    configurations(&serde_json::from_str(request).unwrap_or(Value::Unreadable))
}

/// What cannot be read.
const READING: [(&str, &str, &str); 11] = [
    ("[]", "", "not_an_object"),
    ("{}", "drivers", "missing"),
    (r#"{"drivers": 2}"#, "drivers", "wrong_type"),
    (r#"{"drivers": []}"#, "drivers", "out_of_range"),
    (
        r#"{"drivers": [{"count": 1, "coils": 1, "ohms": 4}], "driver": 1}"#,
        "driver",
        "unknown_field",
    ),
    (
        r#"{"drivers": [{"count": 1, "coils": 1, "ohms": "4 ohms"}]}"#,
        "drivers[0].ohms",
        "not_a_number_text",
    ),
    (
        r#"{"drivers": [{"count": 1, "coils": 1, "ohms": 1.33333}]}"#,
        "drivers[0].ohms",
        "too_many_places",
    ),
    (r#"{"drivers": [{"count": 1, "coils": 3, "ohms": 4}]}"#, "drivers[0].coils", "not_one_of"),
    (
        r#"{"drivers": [{"count": 1, "coils": 2, "ohms": 4, "dc_ohms": [3.6]}]}"#,
        "drivers[0].dc_ohms",
        "wrong_length",
    ),
    (
        r#"{"drivers": [{"count": 1, "coils": 1, "ohms": 4}], "amplifier": {"channels":
            [{"rated": [{"ohms": 4, "watts": 1}, {"ohms": 4, "watts": 1}]}]}}"#,
        "amplifier.channels[0].rated[1].ohms",
        "repeated",
    ),
    (
        r#"{"drivers": [{"count": 1, "coils": 1, "ohms": 4}], "amplifier": {"channels":
            [{}], "bridges": [{"channels": [1, 2]}]}}"#,
        "amplifier.bridges[0].channels[1]",
        "not_possible_here",
    ),
];

/// What can be read and is too much.
const SIZE: [(&str, &str, &str); 4] = [
    (r#"{"drivers": [{"count": 9, "coils": 4, "ohms": 4}]}"#, "drivers", "too_many_coils"),
    (
        r#"{"drivers": [{"count": 8, "coils": 2, "ohms": 2}], "joined_only": false, "even_only": false}"#,
        "",
        "too_many",
    ),
    (
        r#"{"drivers": [{"count": 2, "coils": 4, "ohms": 2}, {"count": 2, "coils": 4, "ohms": 2},
            {"count": 2, "coils": 4, "ohms": 2}, {"count": 2, "coils": 4, "ohms": 2}], "joined_only": false}"#,
        "",
        "too_much_work",
    ),
    (
        r#"{"drivers": [{"count": 5, "coils": 1, "ohms": "99991/99989"}, {"count": 4, "coils": 1, "ohms": "99971/99961"}],
            "joined_only": false, "even_only": false}"#,
        "",
        "too_exact",
    ),
];

#[test]
fn a_request_meets_every_code_but_those_of_keys_of_loading_of_open_lists_and_of_defects() {
    for (request, path, code) in READING.into_iter().chain(SIZE) {
        let found: Vec<_> = answer(request)
            .problems
            .iter()
            .map(|problem| (problem.path.clone(), problem.code.name()))
            .collect();
        assert_eq!(found, [(path.to_owned(), code)], "{request}");
    }
    let met = READING.into_iter().chain(SIZE).map(|(.., code)| code);
    let mut met: Vec<&str> =
        met.chain(["unknown_configuration", "not_started", "closed", "defect"]).collect();
    let mut all = Code::ALL.map(Code::name);
    met.sort_unstable();
    all.sort_unstable();
    assert_eq!(met, all);
}
