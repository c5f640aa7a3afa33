//! Requests as JSON text, and what the reader makes of them.

use super::*;
use coilwright_solver::ohms::Ratio;

fn parse(json: &str) -> Value {
    serde_json::from_str(json).expect("the test's own JSON")
}

#[track_caller]
fn refused(json: &str, want: &[(&str, &str)]) {
    let problems = request(&parse(json)).expect_err(json);
    let found: Vec<(&str, &str)> =
        problems.iter().map(|problem| (problem.path.as_str(), problem.code.name())).collect();
    assert_eq!(found, want, "{json}");
}

/// A request with one good group, and the amplifier given.
fn with_amplifier(amplifier: &str) -> String {
    format!(r#"{{"drivers": [{{"count": 2, "coils": 1, "ohms": 2}}], "amplifier": {amplifier}}}"#)
}

/// A request with one group that has these fields besides or instead.
fn with_group(fields: &str) -> String {
    let mut group = parse(r#"{"count": 2, "coils": 2, "ohms": 2}"#);
    let (Value::Object(group), Value::Object(own)) = (&mut group, parse(fields)) else {
        panic!("{fields}");
    };
    for (name, value) in own {
        group.retain(|(old, _)| *old != name);
        group.push((name, value));
    }
    let group = Value::Object(group.clone());
    crate::contract::pretty(&Value::object([("drivers", Value::List(vec![group]))]))
}

#[test]
fn left_out_and_null_take_their_defaults() {
    let short = r#"{"drivers": [{"count": 2, "coils": 2, "ohms": 4}],
        "amplifier": {"channels": [{}]}}"#;
    let long = r#"{"drivers": [{"name": null, "count": 2, "coils": 2, "ohms": 4,
            "watts": null, "watts_per": null, "dc_ohms": null}],
        "amplifier": {"count": null, "bridges": null,
            "channels": [{"least_ohms": null, "rated": null, "terminal_pairs": null}]},
        "joined_only": null, "even_only": null, "limit": null}"#;
    let stated = r#"{"drivers": [{"count": 2, "coils": 2, "ohms": 4, "watts_per": "driver"}],
        "amplifier": {"count": 1, "bridges": [],
            "channels": [{"rated": [], "terminal_pairs": 1}]},
        "joined_only": true, "even_only": true, "from": 0, "limit": 200}"#;
    let read = request(&parse(short)).unwrap();
    assert_eq!(request(&parse(long)).as_ref(), Ok(&read));
    assert_eq!(request(&parse(stated)).as_ref(), Ok(&read));
    assert_eq!((read.joined_only, read.even_only, read.limit), (true, true, 200));
    assert_eq!(read.rig.amplifier().map(|amplifier| amplifier.count), Some(1));
    assert_eq!(read.rig.groups()[0].watts, None);
    let none = request(&parse(r#"{"drivers": [{"count": 1, "coils": 1, "ohms": 4}]}"#));
    assert_eq!(none.unwrap().rig.amplifier(), None);
}

#[test]
fn a_full_request_is_read_to_the_last_field() {
    let read = request(&parse(
        r#"{"drivers": [
            {"name": "Marigold, left", "count": 1, "coils": 2, "ohms": "4/3", "watts": 250,
             "watts_per": "coil", "dc_ohms": [1.2, 1.3]},
            {"count": 2, "coils": 1, "ohms": 1.4, "watts": 500}],
          "amplifier": {"count": 2,
            "channels": [
                {"least_ohms": 2, "rated": [{"ohms": 4, "watts": 150}, {"ohms": 2, "watts": 250}],
                 "terminal_pairs": 2},
                {}],
            "bridges": [{"channels": [2, 1], "least_ohms": "4", "rated": [{"ohms": 4, "watts": 500.5}]}]},
          "joined_only": false, "even_only": false, "limit": 0}"#,
    ))
    .unwrap();
    assert_eq!((read.joined_only, read.even_only, read.limit), (false, false, 0));
    let [first, second] = read.rig.groups() else {
        panic!("two groups");
    };
    assert_eq!(first.ohms.ratio(), Ratio::new(4, 3).unwrap());
    assert_eq!(first.watts.map(|watts| watts.to_f64()), Some(500.0));
    assert_eq!(first.dc_ohms, Some(vec![1.2, 1.3]));
    assert_eq!(second.ohms.to_string(), "7/5");
    let amplifier = read.rig.amplifier().unwrap();
    assert_eq!(amplifier.count, 2);
    assert_eq!(amplifier.channels[0].terminal_pairs, 2);
    let rated: Vec<String> = amplifier.channels[0]
        .rated
        .iter()
        .map(|point| format!("{} W at {}", point.watts.to_f64(), point.ohms))
        .collect();
    assert_eq!(rated, ["250 W at 2", "150 W at 4"]);
    assert_eq!(amplifier.bridges[0].channels, [1, 2]);
    assert_eq!(amplifier.bridges[0].rated[0].watts.to_f64(), 500.5);
}

#[test]
fn what_is_no_object_is_one_problem() {
    for json in ["null", "2", "\"{}\"", "[]", "true"] {
        refused(json, &[("", "not_an_object")]);
    }
    assert_eq!(request(&Value::Unreadable).unwrap_err().len(), 1);
}

#[test]
fn required_fields_are_missing_or_of_the_wrong_type_when_null() {
    refused("{}", &[("drivers", "missing")]);
    refused(r#"{"drivers": null}"#, &[("drivers", "wrong_type")]);
    refused(r#"{"drivers": []}"#, &[("drivers", "out_of_range")]);
    refused(r#"{"drivers": {}}"#, &[("drivers", "wrong_type")]);
    refused(
        r#"{"drivers": [null, 2]}"#,
        &[("drivers[0]", "wrong_type"), ("drivers[1]", "wrong_type")],
    );
    refused(
        r#"{"drivers": [{}]}"#,
        &[
            ("drivers[0].count", "missing"),
            ("drivers[0].coils", "missing"),
            ("drivers[0].ohms", "missing"),
        ],
    );
    refused(
        &with_group(r#"{"count": null, "coils": null, "ohms": null}"#),
        &[
            ("drivers[0].count", "wrong_type"),
            ("drivers[0].coils", "wrong_type"),
            ("drivers[0].ohms", "wrong_type"),
        ],
    );
    refused(&with_amplifier("{}"), &[("amplifier.channels", "missing")]);
    refused(
        &with_amplifier(r#"{"channels": [{"rated": [{}, null]}]}"#),
        &[
            ("amplifier.channels[0].rated[0].ohms", "missing"),
            ("amplifier.channels[0].rated[0].watts", "missing"),
            ("amplifier.channels[0].rated[1]", "wrong_type"),
        ],
    );
}

#[test]
fn unknown_fields_are_told_at_every_depth() {
    refused(
        r#"{"drivers": [{"count": 2, "coils": 1, "ohms": 2, "ohm": 2, "a.b": 1, "": 1}],
            "amplifier": {"channels": [{"least": 1, "rated": [{"ohms": 2, "watts": 1, "amps": 9}]}],
                "bridges": [], "watts": 5}, "Limit": 1}"#,
        &[
            ("drivers[0].ohm", "unknown_field"),
            ("drivers[0][\"a.b\"]", "unknown_field"),
            ("drivers[0][\"\"]", "unknown_field"),
            ("amplifier.channels[0].rated[0].amps", "unknown_field"),
            ("amplifier.channels[0].least", "unknown_field"),
            ("amplifier.watts", "unknown_field"),
            ("Limit", "unknown_field"),
        ],
    );
}

#[test]
fn a_value_of_one_field_is_read_or_told() {
    let cases = [
        (r#"{"count": "2"}"#, "count", "wrong_type"),
        (r#"{"count": 1.5}"#, "count", "wrong_type"),
        (r#"{"count": true}"#, "count", "wrong_type"),
        (r#"{"count": 0}"#, "count", "out_of_range"),
        (r#"{"count": 17}"#, "count", "out_of_range"),
        (r#"{"count": -1}"#, "count", "out_of_range"),
        (r#"{"coils": 3}"#, "coils", "not_one_of"),
        (r#"{"coils": [2]}"#, "coils", "wrong_type"),
        (r#"{"ohms": "four"}"#, "ohms", "not_a_number_text"),
        (r#"{"ohms": ""}"#, "ohms", "not_a_number_text"),
        (r#"{"ohms": " 4"}"#, "ohms", "not_a_number_text"),
        (r#"{"ohms": "4/0"}"#, "ohms", "not_a_number_text"),
        (r#"{"ohms": "1.33333"}"#, "ohms", "too_many_places"),
        (r#"{"ohms": 1.33333}"#, "ohms", "too_many_places"),
        (r#"{"ohms": 0}"#, "ohms", "out_of_range"),
        (r#"{"ohms": -4}"#, "ohms", "out_of_range"),
        (r#"{"ohms": "1001"}"#, "ohms", "out_of_range"),
        (r#"{"ohms": [4]}"#, "ohms", "wrong_type"),
        (r#"{"watts": 0}"#, "watts", "out_of_range"),
        (r#"{"watts": 100000.1}"#, "watts", "out_of_range"),
        (r#"{"watts": "500"}"#, "watts", "wrong_type"),
        (r#"{"watts_per": "Coil"}"#, "watts_per", "not_one_of"),
        (r#"{"watts_per": 1}"#, "watts_per", "wrong_type"),
        (r#"{"name": 5}"#, "name", "wrong_type"),
        (r#"{"name": "a\nb"}"#, "name", "out_of_range"),
        (r#"{"name": "\u0085"}"#, "name", "out_of_range"),
        (r#"{"unused_coils": "1"}"#, "unused_coils", "wrong_type"),
        (r#"{"unused_coils": 4}"#, "unused_coils", "out_of_range"),
        (r#"{"unused_coils": 2}"#, "unused_coils", "not_possible_here"),
        (r#"{"dc_ohms": 2}"#, "dc_ohms", "wrong_type"),
        (r#"{"dc_ohms": [2, 2, 2]}"#, "dc_ohms", "wrong_length"),
        (r#"{"dc_ohms": [2, "2", 2, 2]}"#, "dc_ohms[1]", "wrong_type"),
        (r#"{"dc_ohms": [2, 2, 2, 0]}"#, "dc_ohms[3]", "out_of_range"),
        (r#"{"dc_ohms": [null, 2, 2, 2]}"#, "dc_ohms[0]", "wrong_type"),
    ];
    for (fields, path, code) in cases {
        let path = format!("drivers[0].{path}");
        refused(&with_group(fields), &[(path.as_str(), code)]);
    }
}

#[test]
fn a_name_is_measured_in_characters() {
    let name = |n: usize| with_group(&format!(r#"{{"name": "{}"}}"#, "ß".repeat(n)));
    assert!(request(&parse(&name(60))).is_ok());
    refused(&name(61), &[("drivers[0].name", "out_of_range")]);
}

#[test]
fn the_request_and_the_amplifier_have_their_bounds() {
    let group = r#""drivers": [{"count": 2, "coils": 1, "ohms": 2}]"#;
    let cases = [
        (r#""limit": -1"#, "limit", "out_of_range"),
        (r#""limit": 10001"#, "limit", "out_of_range"),
        (r#""from": -1"#, "from", "out_of_range"),
        (r#""from": 300001"#, "from", "out_of_range"),
        (r#""from": 0.5"#, "from", "wrong_type"),
        (r#""from": "0""#, "from", "wrong_type"),
        (r#""limit": 0.5"#, "limit", "wrong_type"),
        (r#""joined_only": 0"#, "joined_only", "wrong_type"),
        (r#""even_only": "true""#, "even_only", "wrong_type"),
        (r#""amplifier": []"#, "amplifier", "wrong_type"),
        (r#""amplifier": false"#, "amplifier", "wrong_type"),
    ];
    for (field, path, code) in cases {
        refused(&format!("{{{group}, {field}}}"), &[(path, code)]);
    }
    let cases = [
        (r#"{"channels": []}"#, "channels", "out_of_range"),
        (r#"{"channels": [{}], "count": 5}"#, "count", "out_of_range"),
        (r#"{"channels": [{"terminal_pairs": 3}]}"#, "channels[0].terminal_pairs", "out_of_range"),
        (
            r#"{"channels": [{"rated": [{"ohms": 2, "watts": 9}, {"ohms": "4/2", "watts": 8}]}]}"#,
            "channels[0].rated[1].ohms",
            "repeated",
        ),
        (r#"{"channels": [{}, {}], "bridges": [{}]}"#, "bridges[0].channels", "missing"),
        (
            r#"{"channels": [{}, {}], "bridges": [{"channels": [1]}]}"#,
            "bridges[0].channels",
            "out_of_range",
        ),
        (
            r#"{"channels": [{}, {}], "bridges": [{"channels": 12}]}"#,
            "bridges[0].channels",
            "wrong_type",
        ),
        (
            r#"{"channels": [{}, {}], "bridges": [{"channels": [1, "2"]}]}"#,
            "bridges[0].channels[1]",
            "wrong_type",
        ),
        (
            r#"{"channels": [{}, {}], "bridges": [{"channels": [1, -2]}]}"#,
            "bridges[0].channels[1]",
            "out_of_range",
        ),
        (
            r#"{"channels": [{}, {}], "bridges": [{"channels": [0, 2]}]}"#,
            "bridges[0].channels[0]",
            "not_possible_here",
        ),
        (
            r#"{"channels": [{}, {}], "bridges": [{"channels": [1, 3]}]}"#,
            "bridges[0].channels[1]",
            "not_possible_here",
        ),
        (
            r#"{"channels": [{}, {}], "bridges": [{"channels": [2, 2]}]}"#,
            "bridges[0].channels",
            "not_possible_here",
        ),
        (
            r#"{"channels": [{}, {}, {}], "bridges": [{"channels": [1, 2]}, {"channels": [2, 3]}]}"#,
            "bridges[1].channels[0]",
            "repeated",
        ),
    ];
    for (amplifier, path, code) in cases {
        let path = format!("amplifier.{path}");
        refused(&with_amplifier(amplifier), &[(path.as_str(), code)]);
    }
}

#[test]
fn a_list_that_is_too_long_is_told_once_and_read_to_its_bound() {
    let group = r#"{"count": 1, "coils": 1, "ohms": 2}"#;
    let bad = r#"{"count": 1, "coils": 1, "ohms": 0}"#;
    let groups = |n: usize| vec![group; n].join(",");
    refused(
        &format!(r#"{{"drivers": [{bad}, {}]}}"#, groups(8)),
        &[("drivers", "out_of_range"), ("drivers[0].ohms", "out_of_range")],
    );
    refused(
        &with_group(&format!(r#"{{"dc_ohms": [{}]}}"#, vec!["2"; 65].join(","))),
        &[("drivers[0].dc_ohms", "out_of_range")],
    );
    refused(
        &with_group(&format!(r#"{{"dc_ohms": [{}]}}"#, vec!["2"; 64].join(","))),
        &[("drivers[0].dc_ohms", "wrong_length")],
    );
    let channels = ["{}"; 9].join(",");
    refused(
        &with_amplifier(&format!(r#"{{"channels": [{channels}]}}"#)),
        &[("amplifier.channels", "out_of_range")],
    );
}

#[test]
fn every_problem_is_told_at_once() {
    refused(
        r#"{"drivers": [
                {"count": 17, "coils": 3, "ohms": "x", "watts": -1, "colour": "red"},
                7,
                {"count": 16, "coils": 4, "ohms": 2, "dc_ohms": [1, "a"]}],
            "amplifier": {"channels": [{"least_ohms": 0.00001, "rated": [{"ohms": 2}]}],
                "bridges": [{"channels": [1, 2]}]},
            "limit": "all", "even": true}"#,
        &[
            ("drivers[0].count", "out_of_range"),
            ("drivers[0].coils", "not_one_of"),
            ("drivers[0].ohms", "not_a_number_text"),
            ("drivers[0].watts", "out_of_range"),
            ("drivers[0].colour", "unknown_field"),
            ("drivers[1]", "wrong_type"),
            ("drivers[2].dc_ohms[1]", "wrong_type"),
            ("amplifier.channels[0].least_ohms", "too_many_places"),
            ("amplifier.channels[0].rated[0].watts", "missing"),
            ("limit", "wrong_type"),
            ("even", "unknown_field"),
            ("drivers", "too_many_coils"),
            ("drivers[2].dc_ohms", "wrong_length"),
            ("amplifier.bridges[0].channels[1]", "not_possible_here"),
        ],
    );
}

/// No row of the table is forgotten: a value that nothing can read is told at its
/// own path, and as a field that is known.
#[test]
fn every_field_of_the_table_is_read() {
    for field in Field::ALL {
        let spec = field.spec();
        let hold = |object: Object| {
            if object == spec.object {
                vec![(spec.name.to_owned(), Value::Unreadable)]
            } else {
                Vec::new()
            }
        };
        let nest = |mut fields: Vec<(String, Value)>, name: &str, value: Value| {
            if fields.iter().all(|(own, _)| own != name) {
                fields.push((name.to_owned(), value));
            }
            Value::Object(fields)
        };
        let list = |value| Value::List(vec![value]);
        let point = Value::Object(hold(Object::Point));
        let channel = nest(hold(Object::Channel), "rated", list(point.clone()));
        let bridge = nest(hold(Object::Bridge), "rated", list(point));
        let amplifier = nest(hold(Object::Amplifier), "channels", list(channel));
        let Value::Object(amplifier) = amplifier else { unreachable!() };
        let amplifier = nest(amplifier, "bridges", list(bridge));
        let group = Value::Object(hold(Object::Group));
        let Value::Object(root) = nest(hold(Object::Request), "drivers", list(group)) else {
            unreachable!()
        };
        let Value::Object(root) = nest(root, "amplifier", amplifier) else { unreachable!() };
        let terminals = Value::Object(hold(Object::Terminal));
        let root = nest(root, "box", nest(hold(Object::Build), "driver_terminals", terminals));
        let problems = match spec.object {
            Object::ClosedBox => {
                let asked = nest(hold(Object::ClosedBox), "reading", Value::Number(4.0));
                closed_box(&asked).unwrap_err()
            }
            Object::Diagnose => readings(Some(&Value::Unreadable)).1,
            Object::Reading => readings(Some(&list(Value::Object(hold(spec.object))))).1,
            Object::File | Object::Saved | Object::Typed | Object::Compared => {
                let rig = nest(hold(Object::Saved), "request", Value::Object(Vec::new()));
                let Value::Object(rig) = rig else { unreachable!() };
                let typed = list(Value::Object(hold(Object::Typed)));
                let Value::Object(rig) = nest(rig, "typed", typed) else { unreachable!() };
                let rig = nest(rig, "compared", list(Value::Object(hold(Object::Compared))));
                file(&nest(hold(Object::File), "rigs", list(rig))).unwrap_err()
            }
            _ => request(&root).unwrap_err(),
        };
        let told = problems.iter().any(|problem| {
            problem.code == Code::WrongType && problem.detail == Detail::Field(field)
        });
        assert!(told, "{field:?}: {problems:?}");
        let unknown = problems.iter().find(|p| p.code == Code::UnknownField);
        assert_eq!(unknown, None, "{field:?}");
    }
}
