//! Boxes as JSON text, and what the reader makes of them.

use crate::reader::asked;
use crate::value::Value;
use coilwright_solver::rig::{Build, Cups, Fed, JoinedAt, Takes};

/// Two dual drivers on a channel with two tied terminal pairs, in this box.
fn read(fields: &str) -> Result<Build, Vec<(String, &'static str)>> {
    let text = format!(
        r#"{{"drivers": [{{"count": 2, "coils": 2, "ohms": 2}}],
            "amplifier": {{"channels": [{{"terminal_pairs": 2}}]}}, "box": {fields}}}"#
    );
    let value: Value = serde_json::from_str(&text).expect("the test's own JSON");
    asked(&value).map(|(_, build)| build).map_err(|problems| {
        problems.iter().map(|one| (one.path.to_string(), one.code.name())).collect()
    })
}

#[test]
fn a_box_left_out_is_none_and_everything_in_it_is_as_usual() {
    let nulls = r#"{"cups": null, "cup_count": null, "joined_at": null, "fed": null,
        "mounted_reversed": null, "vehicle": null, "conductor_mm2": null,
        "between_coils_m": null, "between_drivers_m": null, "to_cup_m": null,
        "between_cups_m": null, "to_amplifier_m": null, "driver_terminals": null,
        "cup_terminals": {}, "amplifier_terminals":
            {"conductors": null, "push_on": null, "largest_mm2": null}}"#;
    let stated = r#"{"cups": "none", "fed": "chain", "mounted_reversed": [], "vehicle": true,
        "conductor_mm2": 2.5, "between_coils_m": 0.1, "between_drivers_m": 0.5,
        "to_cup_m": 0.5, "between_cups_m": 1, "to_amplifier_m": 2,
        "driver_terminals": {"conductors": 2, "push_on": false}}"#;
    for fields in ["null", "{}", nulls, stated] {
        assert_eq!(read(fields), Ok(Build::default()), "{fields}");
    }
}

#[test]
fn a_box_is_read_to_the_last_field() {
    let build = read(
        r#"{"cups": "group", "cup_count": 2, "joined_at": "box", "fed": "star",
            "mounted_reversed": [2, 1], "vehicle": false, "conductor_mm2": 4,
            "between_coils_m": 0.2, "between_drivers_m": 0.6, "to_cup_m": 0.7,
            "between_cups_m": 0.8, "to_amplifier_m": 3.5,
            "driver_terminals": {"push_on": true}, "cup_terminals": {"conductors": 3},
            "amplifier_terminals": {"conductors": 1, "largest_mm2": 10}}"#,
    );
    let takes = |conductors, largest_mm2| Takes { conductors, largest_mm2 };
    let want = Build {
        cups: Cups::Group(Some(2)),
        joined_at: Some(JoinedAt::Box),
        fed: Fed::Star,
        mounted_reversed: vec![0, 1],
        vehicle: false,
        conductor_mm2: 4.0,
        metres: [0.2, 0.6, 0.7, 0.8, 3.5],
        takes: [takes(1, None), takes(3, None), takes(1, Some(10.0))],
    };
    assert_eq!(build, Ok(want));
}

#[test]
fn every_value_of_the_box_is_read_or_told() {
    let cases = [
        (r#"{"cups": "two"}"#, "cups", "not_one_of"),
        (r#"{"cups": 1}"#, "cups", "wrong_type"),
        (r#"{"cups": "group", "cup_count": 0}"#, "cup_count", "out_of_range"),
        (r#"{"cups": "group", "cup_count": 17}"#, "cup_count", "out_of_range"),
        (r#"{"cups": "group", "cup_count": 1.5}"#, "cup_count", "wrong_type"),
        (r#"{"cups": "group", "cup_count": 3}"#, "cup_count", "not_possible_here"),
        (r#"{"cups": "one", "cup_count": 1}"#, "cup_count", "not_possible_here"),
        (r#"{"joined_at": "cup"}"#, "joined_at", "not_one_of"),
        (r#"{"joined_at": true}"#, "joined_at", "wrong_type"),
        (r#"{"fed": "Chain"}"#, "fed", "not_one_of"),
        (r#"{"fed": ["star"]}"#, "fed", "wrong_type"),
        (r#"{"mounted_reversed": 1}"#, "mounted_reversed", "wrong_type"),
        (r#"{"mounted_reversed": ["1"]}"#, "mounted_reversed[0]", "wrong_type"),
        (r#"{"mounted_reversed": [1, 1.5]}"#, "mounted_reversed[1]", "wrong_type"),
        (r#"{"mounted_reversed": [null]}"#, "mounted_reversed[0]", "wrong_type"),
        (r#"{"mounted_reversed": [0]}"#, "mounted_reversed[0]", "out_of_range"),
        (r#"{"mounted_reversed": [17]}"#, "mounted_reversed[0]", "out_of_range"),
        (r#"{"mounted_reversed": [2, 2]}"#, "mounted_reversed[1]", "repeated"),
        (r#"{"mounted_reversed": [2, 3]}"#, "mounted_reversed[1]", "not_possible_here"),
        (r#"{"vehicle": "no"}"#, "vehicle", "wrong_type"),
        (r#"{"conductor_mm2": "2.5"}"#, "conductor_mm2", "wrong_type"),
        (r#"{"conductor_mm2": 0.05}"#, "conductor_mm2", "out_of_range"),
        (r#"{"conductor_mm2": 121}"#, "conductor_mm2", "out_of_range"),
        (r#"{"between_coils_m": 0}"#, "between_coils_m", "out_of_range"),
        (r#"{"between_drivers_m": 101}"#, "between_drivers_m", "out_of_range"),
        (r#"{"to_cup_m": -1}"#, "to_cup_m", "out_of_range"),
        (r#"{"between_cups_m": "1"}"#, "between_cups_m", "wrong_type"),
        (r#"{"to_amplifier_m": []}"#, "to_amplifier_m", "wrong_type"),
        (r#"{"driver_terminals": 2}"#, "driver_terminals", "wrong_type"),
        (r#"{"cup_terminals": []}"#, "cup_terminals", "wrong_type"),
        (r#"{"amplifier_terminals": "tab"}"#, "amplifier_terminals", "wrong_type"),
        (
            r#"{"driver_terminals": {"conductors": 0}}"#,
            "driver_terminals.conductors",
            "out_of_range",
        ),
        (r#"{"cup_terminals": {"conductors": 5}}"#, "cup_terminals.conductors", "out_of_range"),
        (r#"{"cup_terminals": {"push_on": 1}}"#, "cup_terminals.push_on", "wrong_type"),
        (
            r#"{"driver_terminals": {"push_on": true, "conductors": 2}}"#,
            "driver_terminals.conductors",
            "not_possible_here",
        ),
        (
            r#"{"amplifier_terminals": {"largest_mm2": 121}}"#,
            "amplifier_terminals.largest_mm2",
            "out_of_range",
        ),
        (
            r#"{"conductor_mm2": 4, "amplifier_terminals": {"largest_mm2": 2.5}}"#,
            "amplifier_terminals.largest_mm2",
            "not_possible_here",
        ),
        (r#"{"cup": "one"}"#, "cup", "unknown_field"),
        (r#"{"cup_terminals": {"conductor": 1}}"#, "cup_terminals.conductor", "unknown_field"),
    ];
    for (fields, path, code) in cases {
        assert_eq!(read(fields), Err(vec![(format!("box.{path}"), code)]), "{fields}");
    }
    for text in ["[]", "1", "\"none\"", "true"] {
        assert_eq!(read(text), Err(vec![("box".to_owned(), "wrong_type")]), "{text}");
    }
    let long = format!(r#"{{"mounted_reversed": [{}]}}"#, vec!["1"; 17].join(","));
    assert_eq!(read(&long), Err(vec![("box.mounted_reversed".to_owned(), "out_of_range")]));
}

#[test]
fn joining_at_the_amplifier_takes_tied_terminal_pairs() {
    assert!(read(r#"{"joined_at": "amplifier"}"#).is_ok());
    let mono = r#"{"drivers": [{"count": 2, "coils": 1, "ohms": 2}],
        "amplifier": {"channels": [{}]}, "box": {"joined_at": "amplifier"}}"#;
    let value: Value = serde_json::from_str(mono).expect("the test's own JSON");
    let problems = asked(&value).expect_err("one pair only");
    let told: Vec<_> = problems.iter().map(|one| (one.path.as_str(), one.code.name())).collect();
    assert_eq!(told, [("box.joined_at", "not_possible_here")]);
}

#[test]
fn all_that_is_wrong_with_a_box_is_told_at_once() {
    let found = read(
        r#"{"cups": "driver", "cup_count": 2, "mounted_reversed": [9],
            "driver_terminals": {"push_on": true, "conductors": 3, "largest_mm2": 1}}"#,
    );
    let want = [
        "cup_count",
        "mounted_reversed[0]",
        "driver_terminals.conductors",
        "driver_terminals.largest_mm2",
    ];
    let want = want.map(|path| (format!("box.{path}"), "not_possible_here"));
    assert_eq!(found, Err(want.to_vec()));
}
