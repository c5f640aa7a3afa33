//! Lists of readings as JSON text, and what the reader makes of them.

use super::*;
use coilwright_solver::bounds::Kind;
use coilwright_solver::meter::{Place, Reading};
use coilwright_solver::network::Coil;

fn read(json: &str) -> (Vec<Option<Entry>>, Vec<(String, &'static str)>) {
    let list: Value = serde_json::from_str(json).unwrap();
    let (entries, problems) = readings(Some(&list));
    let told = problems.iter().map(|one| (one.path.to_string(), one.code.name()));
    (entries, told.collect())
}

fn refused(json: &str, want: &[(&str, &str)]) {
    let (_, told) = read(json);
    let told: Vec<(&str, &str)> = told.iter().map(|(path, code)| (path.as_str(), *code)).collect();
    assert_eq!(told, want, "{json}");
}

#[test]
fn readings_and_answers_are_read_in_their_places() {
    let (entries, told) = read(
        r#"[{"point": "1", "reads": 0.2},
            {"question": "cool", "answer": false},
            {"point": "14.across.1a-2b", "reads": "open", "step": null, "question": null},
            {"point": "2.coil.1a", "reads": 0, "step": 0.01}]"#,
    );
    assert_eq!(told, []);
    let coil = |driver, coil| Coil { driver, coil };
    let at = |step, place| Point { act: step, place };
    let of = |point, reading| Some(Entry::Read(Read { point, reading }));
    let ohms = |ohms, count| Reading::Ohms { ohms, count };
    assert_eq!(
        entries,
        [
            of(at(0, Place::Step), ohms(0.2, 0.1)),
            Some(Entry::Answer(Question::Cool, false)),
            of(at(13, Place::Across(coil(0, 0), coil(1, 1))), Reading::Open),
            of(at(1, Place::Coil(coil(0, 0))), ohms(0.0, 0.01)),
        ]
    );
    assert_eq!(read("[]"), (vec![], vec![]));
}

#[test]
fn what_is_missing_is_told_at_its_path() {
    refused("[{}]", &[("readings[0].point", "missing"), ("readings[0].reads", "missing")]);
    refused(
        r#"[{"step": 0.1}]"#,
        &[("readings[0].point", "missing"), ("readings[0].reads", "missing")],
    );
    refused(r#"[{"point": "1"}]"#, &[("readings[0].reads", "missing")]);
    refused(r#"[{"point": "1", "reads": null}]"#, &[("readings[0].reads", "missing")]);
    refused(r#"[{"reads": 1}]"#, &[("readings[0].point", "missing")]);
    refused(r#"[{"question": "cool"}]"#, &[("readings[0].answer", "missing")]);
    refused(r#"[{"answer": true}]"#, &[("readings[0].question", "missing")]);
    let (_, problems) = readings(None);
    assert_eq!((problems[0].path.as_str(), problems[0].code), ("readings", Code::Missing));
}

#[test]
fn an_entry_is_one_of_two() {
    for (json, field) in [
        (r#"[{"point": "1", "reads": 1, "question": "cool", "answer": true}]"#, "question"),
        (r#"[{"question": "cool", "answer": true, "step": 0.1}]"#, "question"),
        (r#"[{"point": "1", "answer": true}]"#, "answer"),
    ] {
        refused(json, &[(&format!("readings[0].{field}"), "not_possible_here")]);
    }
}

#[test]
fn every_problem_of_every_entry_is_told() {
    refused("null", &[("readings", "wrong_type")]);
    refused(r#"{"point": "1", "reads": 1}"#, &[("readings", "wrong_type")]);
    refused(
        r#"[5, null,
            {"point": 1, "reads": "3.4", "step": 0, "where": 1},
            {"point": "1.behind.1a", "reads": -1},
            {"point": "", "reads": 1000001},
            {"point": "1234567890123456789012345678901234567890 ", "reads": true},
            {"question": "why", "answer": "yes"}]"#,
        &[
            ("readings[0]", "wrong_type"),
            ("readings[1]", "wrong_type"),
            ("readings[2].point", "wrong_type"),
            ("readings[2].reads", "not_one_of"),
            ("readings[2].step", "out_of_range"),
            ("readings[2].where", "unknown_field"),
            ("readings[3].point", "not_one_of"),
            ("readings[3].reads", "out_of_range"),
            ("readings[4].point", "not_one_of"),
            ("readings[4].reads", "out_of_range"),
            ("readings[5].point", "out_of_range"),
            ("readings[5].reads", "wrong_type"),
            ("readings[6].question", "not_one_of"),
            ("readings[6].answer", "wrong_type"),
        ],
    );
}

#[test]
fn a_list_may_have_two_hundred_entries() {
    let one = r#"{"point": "1", "reads": 0.2}"#;
    let list = |count: usize| format!("[{}]", vec![one; count].join(","));
    assert_eq!(read(&list(200)).0.len(), 200);
    refused(&list(200), &[]);
    refused(&list(201), &[("readings", "out_of_range")]);
}

/// The table names the questions that the solver asks, in its order.
#[test]
fn the_table_knows_every_question() {
    let names = Question::ALL.map(Question::name);
    assert_eq!(
        Field::Question.spec().kind,
        Kind::OneOfWords(&["amplifier_off", "meter_right", "cool"])
    );
    assert_eq!(names, ["amplifier_off", "meter_right", "cool"]);
}
