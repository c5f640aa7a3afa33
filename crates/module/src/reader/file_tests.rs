//! Files of saved rigs: what is taken, and every kind of damage with its path.

use super::*;
use crate::reader;
use coilwright_solver::meter::{Point, Question, Read, Reading};
use coilwright_solver::rig::{Cups, WattsPer};

const MARIGOLD: &str = include_str!("../../tests/marigold.json");

fn parse(json: &str) -> Value {
    serde_json::from_str(json).expect("the test's own JSON")
}

/// A file of one rig with these fields beside a request without any.
fn one(fields: &str) -> String {
    let comma = if fields.is_empty() { "" } else { ", " };
    format!(r#"{{"contract_version": 1, "rigs": [{{"request": {{}}{comma}{fields}}}]}}"#)
}

/// A file of one rig that asks this.
fn asking(request: &str) -> String {
    format!(r#"{{"contract_version": 1, "rigs": [{{"request": {request}}}]}}"#)
}

#[track_caller]
fn refused(json: &str, want: &[(&str, &str)]) {
    let problems = file(&parse(json)).expect_err(json);
    let found: Vec<(&str, &str)> =
        problems.iter().map(|problem| (problem.path.as_str(), problem.code.name())).collect();
    assert_eq!(found, want, "{json}");
}

#[track_caller]
fn taken(json: &str) -> SavedRig {
    let rigs = file(&parse(json)).unwrap_or_else(|problems| panic!("{problems:?}: {json}"));
    let [rig] = rigs.try_into().expect("one rig");
    rig
}

#[test]
fn a_saved_rig_is_read_to_the_last_field() {
    let rigs = file(&parse(MARIGOLD)).unwrap();
    let rig = &rigs[0];
    assert_eq!(rigs.len(), 3);
    assert_eq!(rig.name.as_deref(), Some("Float, rear"));
    let RequestDraft { draft, names, build, joined_only, even_only, .. } = &rig.request;
    assert_eq!(names, &[Some("Marigold, rear".to_owned())]);
    assert_eq!(draft.groups[0].dc_ohms, Some(vec![1.8, 1.9, 1.8, 1.85]));
    assert_eq!(draft.amplifier.as_ref().unwrap().channels[0].rated.len(), 3);
    assert_eq!((build.cups, build.mounted_reversed.as_slice()), (Cups::Driver, &[2][..]));
    assert_eq!((*joined_only, *even_only), (true, false));
    let text = |path: &str, text: &str| (path.to_owned(), text.to_owned());
    let typed = [text("readings[3].reads", "1."), text("box.to_cup_m", "half\ta metre")];
    assert_eq!(rig.typed, typed);
    assert_eq!(rig.key.as_deref(), Some("1:(1a+1b)||(2a+2b)"));
    assert_eq!((rig.step, rig.done.as_slice()), (3, &[1, 2][..]));
    let read =
        |name: &str, reading| Entry::Read(Read { point: Point::named(name).unwrap(), reading });
    let ohms = |ohms, count| Reading::Ohms { ohms, count };
    let want = [
        read("1", ohms(0.2, 0.1)),
        read("2.coil.1a", ohms(2.0, 0.01)),
        read("2.basket.1", Reading::Open),
        Entry::Answer(Question::Cool, true),
    ];
    assert_eq!(rig.readings, want);
    let closed_box = ClosedBoxDraft { reading: Some(ohms(2.1, 0.1)), leads: Some(0.1), step: None };
    assert_eq!(rig.closed_box, Some(closed_box));
    let [own, other] = rig.compared.as_slice() else { panic!("two") };
    assert_eq!((own.key.as_str(), &own.request), ("1:(1a||1b)+(2a||2b)", &None));
    let request = other.request.as_ref().unwrap();
    assert_eq!(request.draft.groups[0].ohms.unwrap().to_string(), "4/3");
}

#[test]
fn an_unfinished_rig_keeps_what_it_has() {
    let rigs = file(&parse(MARIGOLD)).unwrap();
    let [first, second, third] = rigs[1].request.draft.groups.as_slice() else { panic!("three") };
    assert_eq!((first.coils, first.count, first.ohms), (Some(4), None, None));
    assert_eq!((second.watts.is_some(), second.watts_per), (true, WattsPer::Coil));
    assert_eq!((third.count, &rigs[1].request.names[2]), (None, &None));
    let amplifier = rigs[1].request.draft.amplifier.as_ref().unwrap();
    assert_eq!((amplifier.channels.len(), amplifier.bridges.len()), (0, 2));
    let closed_box = ClosedBoxDraft { step: Some(0.01), ..ClosedBoxDraft::default() };
    assert_eq!(rigs[1].closed_box, Some(closed_box));
    assert_eq!((rigs[1].name.as_ref(), rigs[1].key.as_ref(), rigs[1].step), (None, None, 1));
    let front = &rigs[2];
    assert_eq!((front.request.joined_only, front.request.even_only), (true, true));
    assert_eq!(front.request.draft, coilwright_solver::rig::Draft::default());
    assert_eq!((front.done.len(), front.readings.len(), front.compared.len()), (0, 0, 0));
    assert_eq!((front.typed.len(), front.closed_box), (0, None));
}

/// What a finished rig holds is what the other readers read.
#[test]
fn a_finished_rig_is_the_request_it_was() {
    let saved = parse(MARIGOLD);
    let Some(Value::List(rigs)) = saved.get("rigs") else { panic!("a list") };
    let request = rigs[0].get("request").unwrap();
    let (asked, build) = reader::asked(request).unwrap();
    let rig = file(&saved).unwrap().swap_remove(0);
    let checked = rig.request.draft.check(Vec::new()).unwrap();
    assert_eq!(rig.request.build.check(&checked).as_ref(), Ok(&build));
    assert_eq!(checked, asked.rig);
    let key = rigs[0].get("key");
    assert_eq!(crate::wiring(request, key).problems, []);
    assert_eq!(crate::diagnose(request, key, rigs[0].get("readings")).problems, []);
    assert_eq!(crate::closed_box(rigs[0].get("closed_box").unwrap()).problems, []);
}

#[test]
fn what_is_no_file_is_one_problem() {
    for json in ["null", "1", "\"{}\"", "[]", "true"] {
        refused(json, &[("", "not_an_object")]);
    }
    assert_eq!(file(&Value::Unreadable).unwrap_err()[0].detail, Detail::Field(Field::Rigs));
    refused("{}", &[("contract_version", "missing"), ("rigs", "missing")]);
    refused(r#"{"contract_version": 1}"#, &[("rigs", "missing")]);
    refused(
        r#"{"contract_version": null, "rigs": null, "drivers": []}"#,
        &[("contract_version", "wrong_type"), ("rigs", "wrong_type"), ("drivers", "unknown_field")],
    );
}

#[test]
fn only_version_1_is_read() {
    for (version, code) in [
        ("2", "not_one_of"),
        ("0", "not_one_of"),
        ("-1", "not_one_of"),
        ("1e300", "not_one_of"),
        ("1.5", "wrong_type"),
        ("\"1\"", "wrong_type"),
        ("true", "wrong_type"),
    ] {
        let json = one("").replace(r#"_version": 1"#, &format!(r#"_version": {version}"#));
        refused(&json, &[("contract_version", code)]);
    }
    // What another version holds is not judged by the rules of this one.
    refused(
        r#"{"contract_version": 2, "rigs": {}, "more": 1}"#,
        &[("contract_version", "not_one_of")],
    );
}

#[test]
fn a_file_holds_1_to_200_rigs() {
    let list = |rigs: usize| {
        format!(
            r#"{{"contract_version": 1, "rigs": [{}]}}"#,
            vec![r#"{"request": {}}"#; rigs].join(",")
        )
    };
    refused(&list(0), &[("rigs", "out_of_range")]);
    assert_eq!(file(&parse(&list(200))).unwrap().len(), 200);
    refused(&list(201), &[("rigs", "out_of_range")]);
    refused(
        r#"{"contract_version": 1, "rigs": [5, null, []]}"#,
        &[("rigs[0]", "wrong_type"), ("rigs[1]", "wrong_type"), ("rigs[2]", "wrong_type")],
    );
}

/// Every damage to the fields of a rig, the rest of the file being sound.
#[test]
fn damage_is_told_at_its_path() {
    let long = |most: usize| "Ω".repeat(most + 1);
    let typed = |count: usize| vec![r#"{"path": "a", "text": ""}"#; count].join(",");
    let cases = [
        (format!(r#""name": "{}""#, long(60)), "name", "out_of_range"),
        (r#""name": "a\u0000b""#.into(), "name", "out_of_range"),
        (r#""name": "a\nb""#.into(), "name", "out_of_range"),
        (r#""name": "a\u0085b""#.into(), "name", "out_of_range"),
        (r#""name": 5"#.into(), "name", "wrong_type"),
        (r#""typed": {}"#.into(), "typed", "wrong_type"),
        (format!(r#""typed": [{}]"#, typed(201)), "typed", "out_of_range"),
        (r#""typed": ["4"]"#.into(), "typed[0]", "wrong_type"),
        (r#""typed": [{"text": "4"}]"#.into(), "typed[0].path", "missing"),
        (r#""typed": [{"path": "a"}]"#.into(), "typed[0].text", "missing"),
        (r#""typed": [{"path": "a", "text": null}]"#.into(), "typed[0].text", "wrong_type"),
        (r#""typed": [{"path": "a", "text": 4}]"#.into(), "typed[0].text", "wrong_type"),
        (
            format!(r#""typed": [{{"path": "{}", "text": ""}}]"#, long(100)),
            "typed[0].path",
            "out_of_range",
        ),
        (
            format!(r#""typed": [{{"path": "a", "text": "{}"}}]"#, long(1000)),
            "typed[0].text",
            "out_of_range",
        ),
        (r#""key": ["1a"]"#.into(), "key", "wrong_type"),
        (format!(r#""key": "{}""#, long(1000)), "key", "out_of_range"),
        (r#""step": 0"#.into(), "step", "out_of_range"),
        (r#""step": 1001"#.into(), "step", "out_of_range"),
        (r#""step": 1.5"#.into(), "step", "wrong_type"),
        (r#""step": "1""#.into(), "step", "wrong_type"),
        (r#""done": 1"#.into(), "done", "wrong_type"),
        (r#""done": [1, 0]"#.into(), "done[1]", "out_of_range"),
        (r#""done": [1, 1001]"#.into(), "done[1]", "out_of_range"),
        (r#""done": [3, 1, 3]"#.into(), "done[2]", "repeated"),
        (r#""done": [3, null]"#.into(), "done[1]", "wrong_type"),
        (format!(r#""done": [{}]"#, vec!["1"; 1001].join(",")), "done", "out_of_range"),
        (r#""readings": {}"#.into(), "readings", "wrong_type"),
        (
            r#""readings": [{"point": "1", "reads": "1."}]"#.into(),
            "readings[0].reads",
            "not_one_of",
        ),
        (r#""readings": [{"point": "1"}]"#.into(), "readings[0].reads", "missing"),
        (r#""readings": [{"point": "one", "reads": 1}]"#.into(), "readings[0].point", "not_one_of"),
        (r#""closed_box": 2.1"#.into(), "closed_box", "wrong_type"),
        (r#""closed_box": {"reading": "2.1"}"#.into(), "closed_box.reading", "not_one_of"),
        (r#""closed_box": {"leads": -1}"#.into(), "closed_box.leads", "out_of_range"),
        (r#""closed_box": {"cup": 1}"#.into(), "closed_box.cup", "unknown_field"),
        (r#""compared": [{}]"#.into(), "compared[0].key", "missing"),
        (
            r#""compared": [{"key": "1a", "request": []}]"#.into(),
            "compared[0].request",
            "wrong_type",
        ),
        (
            r#""compared": [{"key": "1a", "request": {"drivers": [{"coils": 3}]}}]"#.into(),
            "compared[0].request.drivers[0].coils",
            "not_one_of",
        ),
        (
            format!(r#""compared": [{}]"#, [r#"{"key": "1a"}"#; 5].join(",")),
            "compared",
            "out_of_range",
        ),
        (r#""colour": 1"#.into(), "colour", "unknown_field"),
        (r#""__proto__": {}"#.into(), "__proto__", "unknown_field"),
        (r#""constructor": null"#.into(), "constructor", "unknown_field"),
    ];
    for (fields, path, code) in cases {
        refused(&one(&fields), &[(&format!("rigs[0].{path}"), code)]);
    }
}

#[test]
fn as_much_as_fits_is_taken() {
    let text = |most: usize| "Ω".repeat(most);
    let rig = taken(&one(&format!(
        r#""name": "{}", "typed": [{{"path": "{}", "text": "{}"}}], "key": "{}", "step": 1000,
            "done": [1000, 1]"#,
        text(60),
        text(100),
        text(1000),
        text(1000)
    )));
    assert_eq!((rig.step, rig.done.as_slice()), (1000, &[1000, 1][..]));
    // A text is kept as it was typed, whatever is in it.
    let rig = taken(&one(r#""typed": [{"path": "a", "text": "\t\u0000\n"}]"#));
    assert_eq!(rig.typed[0].1, "\t\0\n");
    let null = r#""name": null, "typed": null, "key": null, "step": null, "done": null,
        "readings": null, "closed_box": null, "compared": null"#;
    assert_eq!(taken(&one(null)), taken(&one("")));
}

/// The table ends: no object holds itself at any depth, so that neither the reader nor what
/// converts JavaScript's values goes on for ever.
#[test]
fn no_object_of_the_table_holds_itself() {
    use coilwright_solver::bounds::Kind;
    fn depth(object: Object, above: &[Object]) -> usize {
        assert!(!above.contains(&object), "{object:?} in {above:?}");
        let above: Vec<Object> = above.iter().copied().chain([object]).collect();
        let held = object.fields().filter_map(|field| match field.spec().kind {
            Kind::Object(of) | Kind::Objects { of, .. } => Some(depth(of, &above)),
            _ => None,
        });
        1 + held.max().unwrap_or(0)
    }
    let deepest = Object::ALL.into_iter().map(|object| depth(object, &[])).max();
    // File, rig, compared, request, amplifier, channel, rated point.
    assert_eq!(deepest, Some(7));
}

/// What is missing, and what only shows between fields, is no problem of a file.
#[test]
fn an_unfinished_or_impossible_request_is_no_damage() {
    for request in [
        "{}",
        r#"{"drivers": []}"#,
        r#"{"drivers": null, "amplifier": null, "box": null}"#,
        r#"{"drivers": [{}, {"count": null, "coils": null, "ohms": null}]}"#,
        r#"{"drivers": [{"count": 16, "coils": 4, "ohms": 2}, {"count": 16, "coils": 4}]}"#,
        r#"{"drivers": [{"count": 2, "coils": 2, "dc_ohms": [1.8], "unused_coils": 3}]}"#,
        r#"{"amplifier": {"channels": [{"rated": [{}, {"ohms": 2}, {"ohms": 2}]}]}}"#,
        r#"{"amplifier": {"bridges": [{"channels": [9, 9]}, {"channels": [9, 1]}]}}"#,
        r#"{"box": {"cups": "one", "cup_count": 16, "joined_at": "amplifier"}}"#,
        r#"{"box": {"mounted_reversed": [16], "cup_terminals": {"conductors": 4, "push_on": true}}}"#,
    ] {
        taken(&asking(request));
        assert!(reader::asked(&parse(request)).is_err(), "{request}");
    }
}

#[test]
fn wrong_types_unknown_fields_and_bounds_of_a_request_are_damage() {
    for (request, path, code) in [
        (r#"{"drivers": 5}"#, "drivers", "wrong_type"),
        (r#"{"drivers": [null]}"#, "drivers[0]", "wrong_type"),
        (r#"{"drivers": [{"ohms": true}]}"#, "drivers[0].ohms", "wrong_type"),
        (r#"{"drivers": [{"ohms": "4,5"}]}"#, "drivers[0].ohms", "not_a_number_text"),
        (r#"{"drivers": [{"ohms": 0.00001}]}"#, "drivers[0].ohms", "too_many_places"),
        (r#"{"drivers": [{"count": 17}]}"#, "drivers[0].count", "out_of_range"),
        (r#"{"drivers": [{"name": "a\tb"}]}"#, "drivers[0].name", "out_of_range"),
        (r#"{"drivers": [{"dc_ohms": [1, null]}]}"#, "drivers[0].dc_ohms[1]", "wrong_type"),
        (
            r#"{"amplifier": {"channels": [{}, {"rated": [{"ohms": 2, "amps": 1}]}]}}"#,
            "amplifier.channels[1].rated[0].amps",
            "unknown_field",
        ),
        (
            r#"{"amplifier": {"bridges": [{"channels": [1]}]}}"#,
            "amplifier.bridges[0].channels",
            "out_of_range",
        ),
        (r#"{"box": {"mounted_reversed": [1, 1]}}"#, "box.mounted_reversed[1]", "repeated"),
        (
            r#"{"box": {"cup_terminals": {"__proto__": 1}}}"#,
            "box.cup_terminals.__proto__",
            "unknown_field",
        ),
        (r#"{"box": {"a.b": 1}}"#, r#"box["a.b"]"#, "unknown_field"),
        (r#"{"even_only": "yes"}"#, "even_only", "wrong_type"),
        (r#"{"limit": -1}"#, "limit", "out_of_range"),
    ] {
        refused(&asking(request), &[(&format!("rigs[0].request.{path}"), code)]);
    }
    // Nothing is loose beyond the request and the closed box.
    refused(
        r#"{"contract_version": 1, "rigs": [{"request": {}, "closed_box": {}}, {"request": null}, {}]}"#,
        &[("rigs[1].request", "wrong_type"), ("rigs[2].request", "missing")],
    );
}

#[test]
fn every_problem_is_told_at_once_in_the_order_of_the_table() {
    refused(
        r#"{"extra": 1, "rigs": [
            {"request": {"drivers": [{"count": 2, "ohm": 2}], "limit": "all"}, "done": [2, 2],
                "step": 0, "name": "a\rb", "readings": [{}]},
            {"request": {}, "typed": [{"path": 1}]},
            {"compared": [{"key": "1a", "request": {"box": {"fed": "ring"}}, "name": ""}]}]}"#,
        &[
            ("contract_version", "missing"),
            ("rigs[0].name", "out_of_range"),
            ("rigs[0].request.drivers[0].ohm", "unknown_field"),
            ("rigs[0].request.limit", "wrong_type"),
            ("rigs[0].step", "out_of_range"),
            ("rigs[0].done[1]", "repeated"),
            ("rigs[0].readings[0].point", "missing"),
            ("rigs[0].readings[0].reads", "missing"),
            ("rigs[1].typed[0].path", "wrong_type"),
            ("rigs[1].typed[0].text", "missing"),
            ("rigs[2].request", "missing"),
            ("rigs[2].compared[0].request.box.fed", "not_one_of"),
            ("rigs[2].compared[0].name", "unknown_field"),
            ("extra", "unknown_field"),
        ],
    );
}

#[test]
fn files_from_when_a_limit_could_be_larger_still_open() {
    let limit = |text: &str| taken(&asking(&format!(r#"{{"limit": {text}}}"#))).request.limit;
    for (text, want) in [("10000", 10_000), ("10001", 10_000), ("300000", 10_000), ("7", 7)] {
        assert_eq!(limit(text), want, "{text}");
    }
    for (text, code) in [("300001", "out_of_range"), ("20000.5", "wrong_type")] {
        let json = asking(&format!(r#"{{"limit": {text}}}"#));
        refused(&json, &[("rigs[0].request.limit", code)]);
    }
    // What is compared is saved as well, and asked at once it is read as ever.
    let compared = r#""compared": [{"key": "1a", "request": {"limit": 300000}}]"#;
    assert_eq!(
        taken(&one(compared)).compared[0].request.as_ref().map(|one| one.limit),
        Some(10_000)
    );
    assert!(
        reader::request(&parse(
            r#"{"drivers": [{"count": 1, "coils": 1, "ohms": 4}], "limit": 300000}"#
        ))
        .is_err()
    );
}
