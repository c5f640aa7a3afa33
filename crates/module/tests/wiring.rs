//! How a configuration is wired, from text to text: the whole of one, and what the others
//! show besides.
#![allow(clippy::panic, reason = "a test stops at the first surprise")]

use coilwright_module::answer::{Terminal, Wiring};
use coilwright_module::value::Value;
use coilwright_module::wiring;

fn text(key: &str) -> Value {
    Value::Text(key.to_owned())
}

fn asked(request: &str, key: &str) -> Wiring {
    let request = serde_json::from_str(request).unwrap_or(Value::Unreadable);
    wiring(&request, Some(&text(key)))
}

fn wired(request: &str, key: &str) -> Wiring {
    let wired = asked(request, key);
    assert_eq!(wired.problems, [], "{request} {key}");
    wired
}

/// Two dual 2 Ω on one channel of two tied pairs, in this box.
fn dual(fields: &str) -> String {
    format!(
        r#"{{"drivers": [{{"count": 2, "coils": 2, "ohms": 2, "watts": 500}}],
            "amplifier": {{"channels": [{{"least_ohms": 1, "rated": [{{"ohms": 2, "watts": 500}}],
                "terminal_pairs": 2}}]}}, "box": {fields}}}"#
    )
}

const EACH: &str = "1:(1a+1b)||(2a+2b)";

/// A terminal in short: `1a+`, `cup 1-`, `amplifier 1.2+`.
fn short(terminal: &Terminal) -> String {
    let sign = terminal.sign.map_or("", |sign| sign.name());
    match (terminal.coil.as_deref(), terminal.pair) {
        (Some(coil), _) => format!("{coil}{sign}"),
        (_, Some(pair)) => format!("{} {}.{pair}{sign}", terminal.at.name(), terminal.number),
        _ => format!("{} {}{sign}", terminal.at.name(), terminal.number),
    }
}

/// One driver on a cup: everything there is to say, as JSON. Four runs follow from
/// physics (a cup adds two to the two of a single coil); 11.2 A is the root of 500 W over
/// 4 Ω.
#[test]
fn the_whole_answer_to_one_driver_on_a_cup() {
    let request = r#"{"drivers": [{"count": 1, "coils": 1, "ohms": 4, "watts": 500}],
        "amplifier": {"channels": [{"least_ohms": 4, "rated": [{"ohms": 4, "watts": 500}]}]},
        "box": {"cups": "one", "vehicle": false}}"#;
    let found = serde_json::to_value(wired(request, "1:1a")).expect("an answer is JSON");
    let end = |at: &str, sign: &str| {
        let (pair, coil) = match at {
            "amplifier" => (serde_json::json!(1), serde_json::json!(null)),
            "coil" => (serde_json::json!(null), serde_json::json!("1a")),
            _ => (serde_json::json!(null), serde_json::json!(null)),
        };
        serde_json::json!({"at": at, "number": 1, "pair": pair, "coil": coil, "sign": sign})
    };
    let run = |number: u32, from: &str, to: &str, sign: &str, stage: &str, metres: f64| {
        let role = if sign == "+" { "positive" } else { "negative" };
        serde_json::json!({"number": number, "from": end(from, sign), "to": end(to, sign),
            "role": role, "stage": stage, "output": 1, "metres": metres,
            "amps": 125.0_f64.sqrt(), "most_amps": 125.0_f64.sqrt()})
    };
    let joined = |from: &str, to: &str, sign: &str| {
        let role = if sign == "+" { "positive" } else { "negative" };
        serde_json::json!({"role": role, "output": 1, "terminals": [end(from, sign), end(to, sign)]})
    };
    let mut rest = found.clone();
    let Some(fields) = rest.as_object_mut() else { panic!("{found}") };
    let steps = fields.remove("steps").unwrap_or_default();
    let drawing = fields.remove("drawing").unwrap_or_default();
    let drawing = drawing.as_str().unwrap_or_default();
    assert!(drawing.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\""), "{drawing}");
    assert_eq!(drawing.matches("data-run=").count(), 4);
    assert_eq!(
        rest,
        serde_json::json!({
            "contract_version": 1, "key": "1:1a", "joined_at_amplifier": false,
            "star_refused": false, "imbalance": null,
            "cups": [{"number": 1, "coils": ["1a"]}],
            "joined": [
                joined("amplifier", "cup", "+"), joined("amplifier", "cup", "-"),
                joined("cup_inside", "coil", "+"), joined("cup_inside", "coil", "-")],
            "runs": [
                run(1, "cup_inside", "coil", "+", "cups", 0.5),
                run(2, "cup_inside", "coil", "-", "cups", 0.5),
                run(3, "amplifier", "cup", "+", "cable", 2.0),
                run(4, "amplifier", "cup", "-", "cable", 2.0)],
            "parts": {
                "wire": [
                    {"stage": "cups", "runs": 2, "metres": 1.0, "amps": 125.0_f64.sqrt()},
                    {"stage": "cable", "runs": 2, "metres": 4.0, "amps": 125.0_f64.sqrt()}],
                "cups": 1, "splices": [], "ends": {"driver": 2, "cup": 4, "amplifier": 2},
                "caps": 0},
            "problems": []})
    );
    let steps = steps.as_array().cloned().unwrap_or_default();
    let acts: Vec<_> = steps
        .iter()
        .flat_map(|step| step["acts"].as_array().cloned().unwrap_or_default())
        .collect();
    let kinds: Vec<_> = acts.iter().map(|act| act["kind"].clone()).collect();
    let want = [
        "leads",
        "coils",
        "polarity",
        "join",
        "join",
        "check",
        "lay",
        "lay",
        "check",
        "power_off",
        "land",
        "land",
        "power_on",
    ];
    assert_eq!(kinds, want);
    let taken: Vec<_> = steps
        .iter()
        .map(|step| {
            let acts = step["acts"].as_array().map_or(0, Vec::len);
            (step["number"].clone(), step["stage"].clone(), step["runs"].clone(), acts)
        })
        .collect();
    let at = |number: u32, stage: &str, runs: &[u32], acts: usize| {
        (number.into(), stage.into(), serde_json::json!(runs), acts)
    };
    let want = [
        at(1, "driver", &[], 1),
        at(2, "driver", &[], 2),
        at(3, "box", &[1, 2], 3),
        at(4, "cable", &[3, 4], 3),
        at(5, "amplifier", &[], 1),
        at(6, "amplifier", &[3, 4], 2),
        at(7, "amplifier", &[], 1),
    ];
    assert_eq!(taken, want);
    assert_eq!(
        acts[5],
        serde_json::json!({"number": 6, "kind": "check", "run": null, "driver": null,
            "coil": null, "stage": "cups", "probes": [end("cup", "+"), end("cup", "-")], "ends": 1,
            "foretold": {"nominal": 4.0, "expected": (2.8 + 4.2 + 0.5) / 2.0, "low": 2.8, "high": 4.7},
            "title": "Check the cup",
            "text": "Outside the box: + probe to cup +, − probe to cup −, with nothing joined there yet. It should read about 3.8 Ω; 2.8 to 4.7 Ω is right, the leads in it. Write the reading down.",
            "caution": null})
    );
    assert_eq!(
        acts[10],
        serde_json::json!({"number": 11, "kind": "land", "run": 3, "driver": null, "coil": null,
            "stage": "cable", "probes": null, "ends": null, "foretold": null, "title": "Land run 3: cup + to amplifier +",
            "text": "Positive: land the open end of this run, which comes from cup +, on amplifier +.",
            "caution": "No loose strands: one can short an output."})
    );
    assert_eq!((&acts[2]["driver"], &acts[2]["run"]), (&1.into(), &serde_json::Value::Null));
}

#[test]
fn a_cup_for_each_driver_joins_at_the_amplifier_where_it_can_be() {
    let tied = wired(&dual(r#"{"cups": "driver"}"#), EACH);
    assert!(tied.joined_at_amplifier);
    let first: Vec<String> = tied.joined[0].terminals.iter().map(short).collect();
    assert_eq!(first, ["amplifier 1.1+", "amplifier 1.2+", "cup 1+", "cup 2+"]);
    let cups: Vec<_> = tied.cups.iter().map(|cup| (cup.number, cup.coils.join(" "))).collect();
    assert_eq!(cups, [(1, "1a 1b".to_owned()), (2, "2a 2b".to_owned())]);
    // Fed alike, the drivers differ by nothing, and nothing has no sign.
    let alike = tied.imbalance.map(|imbalance| imbalance.decibels.to_bits());
    assert_eq!(alike, Some(0.0_f64.to_bits()));
    let at_box = wired(&dual(r#"{"cups": "driver", "joined_at": "box"}"#), EACH);
    assert!(!at_box.joined_at_amplifier);
    let outside = at_box.runs.iter().filter(|run| run.stage.name() == "outside").count();
    assert_eq!((tied.runs.len(), at_box.runs.len(), outside), (10, 10, 2));
    let imbalance = at_box.imbalance.unwrap_or_else(|| panic!("two drivers"));
    assert_eq!(imbalance.least_driver, 2);
    assert!(imbalance.ratio < 1.0 && imbalance.decibels > 0.0, "{imbalance:?}");
}

#[test]
fn splices_coils_left_out_and_a_refused_star_are_told() {
    let few = r#"{"drivers": [{"count": 3, "coils": 1, "ohms": 4}],
        "box": {"fed": "star", "driver_terminals": {"push_on": true}, "amplifier_terminals": {"conductors": 1}}}"#;
    let found = wired(few, "1a||2a||3a");
    assert!(found.star_refused);
    let splice = found.runs.iter().find(|run| run.from.at.name() == "splice");
    let splice = splice.unwrap_or_else(|| panic!("{:?}", found.runs));
    assert_eq!(
        (short(&splice.from), splice.from.sign, splice.amps),
        ("splice 1".to_owned(), None, None)
    );
    assert_eq!(found.parts.map(|parts| parts.splices), Some(vec![4, 4]));
    let open = r#"{"drivers": [{"count": 1, "coils": 2, "ohms": 4, "unused_coils": 1}]}"#;
    let found = wired(open, "1a");
    let mut acts = found.steps.iter().flat_map(|step| &step.acts);
    let insulate = acts.find(|act| act.kind.name() == "insulate");
    assert_eq!(insulate.and_then(|act| act.coil.as_deref()), Some("1b"));
    assert_eq!(found.parts.map(|parts| parts.caps), Some(2));
}

#[test]
fn any_equal_way_of_writing_a_key_is_the_same_plan() {
    let one = wired(&dual("null"), EACH);
    let two = wired(&dual("null"), " 1: (2b + 2a) ∥ (1b + 1a) ");
    assert_eq!(one, two);
    assert_eq!(one.key.as_deref(), Some(EACH));
}

#[test]
fn a_plan_that_cannot_be_is_nothing_but_problems() {
    let cases = [
        (dual("null"), "1:1a", "key", "unknown_configuration"),
        (dual("null"), "", "key", "unknown_configuration"),
        (dual("null"), "1:(1a+1b)||(2a+2b", "key", "unknown_configuration"),
        (dual("null"), "9:(1a+1b)||(2a+2b)", "key", "unknown_configuration"),
        (dual(r#"{"cups": "driver"}"#), "1:(1a+2a)||(1b+2b)", "box.cups", "not_possible_here"),
        (
            dual(r#"{"joined_at": "amplifier"}"#),
            "1:1a+1b+2a+2b",
            "box.joined_at",
            "not_possible_here",
        ),
        (dual(r#"{"cups": "group", "cup_count": 3}"#), EACH, "box.cup_count", "not_possible_here"),
        ("{}".to_owned(), EACH, "drivers", "missing"),
        ("5".to_owned(), EACH, "", "not_an_object"),
    ];
    for (request, key, path, code) in cases {
        let found = asked(&request, key);
        let told: Vec<_> =
            found.problems.iter().map(|one| (one.path.as_str(), one.code.name())).collect();
        assert_eq!(told, [(path, code)], "{request} {key}");
        assert_eq!(found, Wiring { problems: found.problems.clone(), ..Wiring::of_problems(&[]) });
    }
}

#[test]
fn a_key_that_is_no_text_is_told_beside_what_else_is_wrong() {
    let good = serde_json::from_str(&dual("null")).unwrap_or(Value::Unreadable);
    let bad = Value::object([("drivers", Value::Number(2.0))]);
    let none = Value::Number(1.0);
    let cases = [
        (&good, None, vec![("key", "missing")]),
        (&good, Some(&Value::Null), vec![("key", "wrong_type")]),
        (&good, Some(&none), vec![("key", "wrong_type")]),
        (&bad, Some(&none), vec![("drivers", "wrong_type"), ("key", "wrong_type")]),
    ];
    for (request, key, want) in cases {
        let found = wiring(request, key);
        let told: Vec<_> =
            found.problems.iter().map(|one| (one.path.as_str(), one.code.name())).collect();
        assert_eq!(told, want, "{request:?} {key:?}");
        assert!(found.problems.iter().all(|problem| problem.message.ends_with('.')));
    }
}

/// What looks like markup, marks that turn text round, and a letter that XML does not have.
#[test]
fn what_drivers_are_called_is_text_in_the_drawing_and_the_steps() {
    let wired_as = |name: &str| {
        let name = serde_json::to_string(name).unwrap();
        let group = format!(r#"{{"name": {name}, "count": 2, "coils": 1, "ohms": 4}}"#);
        wired(&format!(r#"{{"drivers": [{group}]}}"#), "1a+2a")
    };
    let plain = wired("{\"drivers\": [{\"count\": 2, \"coils\": 1, \"ohms\": 4}]}", "1a+2a");
    for (name, full) in [
        ("Rear", "Rear"),
        ("<img src=x onerror=alert(1)>\"'&]]>", "<img src=x onerror=alert(1)>\"'&]]>"),
        ("\u{202e}\u{5d0}\u{1f50a}", "\u{5d0}\u{1f50a}"),
        ("a\u{ffff}b", "a\u{fffd}b"),
    ] {
        let plan = wired_as(name);
        let drawing = plan.drawing.unwrap();
        let file = roxmltree::Document::parse(&drawing).unwrap();
        let texts = file.descendants().filter(|node| node.attribute("class") == Some("d-name"));
        let texts: Vec<&str> = texts
            .map(|text| text.descendants().find(roxmltree::Node::is_text).unwrap().text().unwrap())
            .collect();
        assert_eq!(texts, [full, full], "{name:?}");
        assert_eq!(file.descendants().filter(|node| node.has_tag_name("img")).count(), 0);
        assert!(plan.steps.iter().any(|step| step.title.contains('(')), "{name:?}");
        let mut acts = plan.steps.iter().flat_map(|step| &step.acts);
        assert!(acts.any(|act| act.title.contains('(')), "{name:?}");
        // It is no part of the plan.
        assert_eq!((plan.runs, plan.key), (plain.runs.clone(), plain.key.clone()));
    }
    assert!(!plain.drawing.unwrap().contains("d-name"));
}
