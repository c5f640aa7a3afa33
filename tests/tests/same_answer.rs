//! The same request gives the same answer natively and in wasm, as it ships and with
//! every check compiled in.

use coilwright_module::{
    closed_box_json, configurations_json, diagnose_json, readings_json, wiring_json,
};
use proof::campaign::{self, so_many};
use proof::requests::requests;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::LazyLock;

/// How many requests are drawn.
fn how_many() -> usize {
    so_many(400, 1_000)
}

/// Requests that were once answered otherwise, one a line.
fn kept_requests() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/same_answer.requests")
}

/// The same answer natively and in wasm; what differs in a campaign is kept.
fn compared(native: &str, wasm: &str, asked: &str, request: &str) {
    if native != wasm {
        campaign::keep(&kept_requests(), request);
    }
    assert_eq!(native, wasm, "{asked}");
}

/// How a module is asked.
#[derive(Clone, Copy)]
enum Face {
    /// From text to text, by the serialiser that native answers go through too.
    Text,
    /// Plans, from text to text.
    Plans,
    /// Check points of plans, from text to text.
    Points,
    /// What readings say is wrong, from text to text.
    Findings,
    /// Closed boxes, from text to text.
    Boxes,
    /// From objects to objects, as its users ask it.
    Objects,
}

/// The answers that a folder's module gives under Node.
fn in_wasm(folder: &Path, face: Face, requests: &[String]) -> Vec<String> {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/answers.mjs");
    let mut node = Command::new("node")
        // The folder has no package.json to say that its script is a module; Node finds out.
        .arg("--no-warnings")
        .arg(script)
        .arg(folder)
        .arg(match face {
            Face::Text => "text",
            Face::Plans => "plans",
            Face::Points => "points",
            Face::Findings => "findings",
            Face::Boxes => "boxes",
            Face::Objects => "objects",
        })
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| panic!("node 20 or newer is needed: {error}"));
    // Node reads everything before it answers, so this never waits on its answers.
    let mut stdin = node.stdin.take().unwrap();
    let sent = stdin.write_all(requests.join("\n").as_bytes());
    drop(stdin);
    let output = node.wait_with_output().unwrap();
    assert!(output.status.success(), "node ended with {}", output.status);
    sent.unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    text.lines().map(str::to_owned).collect()
}

/// An answer as text of one serialiser: JavaScript writes 2 where Rust writes 2.0, and
/// both write every float so that it reads back exactly.
fn normal(answer: &str) -> String {
    fn floats(value: Value) -> Value {
        match value {
            Value::Number(number) => number.as_f64().into(),
            Value::Array(entries) => entries.into_iter().map(floats).collect(),
            Value::Object(fields) => fields.into_iter().map(|(n, v)| (n, floats(v))).collect(),
            other => other,
        }
    }
    floats(serde_json::from_str(answer).unwrap()).to_string()
}

/// The folder that a variable of the environment names.
fn built(variable: &str) -> std::path::PathBuf {
    match std::env::var_os(variable) {
        Some(folder) => folder.into(),
        None => panic!("{variable} names no built module: run `cargo xtask test --only proof`"),
    }
}

/// Each request with its native answer.
static NATIVE: LazyLock<Vec<(String, String)>> = LazyLock::new(|| {
    let answered = |request: &Value| {
        let text = request.to_string();
        let answer = configurations_json(&text);
        (text, answer)
    };
    // A bridge of a channel that is not there, which chance makes seldom.
    let bridged = json!({ "channels": [{}], "bridges": [{ "channels": [1, 2] }] });
    let apart = json!({ "drivers": [{ "count": 1, "coils": 1, "ohms": 4 }], "amplifier": bridged });
    let kept = campaign::kept(&kept_requests()).into_iter();
    let kept = kept.map(|request| serde_json::from_str(&request).unwrap());
    let all: Vec<Value> = kept.chain(requests(how_many() - 1)).chain([apart]).collect();
    all.iter().map(answered).collect()
});

fn same(variable: &str, face: Face) {
    let requests: Vec<String> = NATIVE.iter().map(|(request, _)| request.clone()).collect();
    let found = in_wasm(&built(variable), face, &requests);
    assert_eq!(found.len(), requests.len());
    assert!(found.len() >= how_many());
    for ((request, native), wasm) in NATIVE.iter().zip(&found) {
        match face {
            Face::Objects => compared(&normal(native), &normal(wasm), request, request),
            _ => compared(native, wasm, request, request),
        }
    }
}

#[test]
fn any_request_is_answered_alike_in_wasm_with_every_check() {
    same("COILWRIGHT_COMPARED_QUICK", Face::Text);
}

#[test]
fn any_request_is_answered_alike_in_wasm_made_small() {
    same("COILWRIGHT_COMPARED_SMALL", Face::Text);
}

#[test]
fn any_request_is_answered_alike_as_objects() {
    same("COILWRIGHT_COMPARED_SMALL", Face::Objects);
}

/// The first and the last configuration of every request that has any, each with its plan.
#[test]
fn plans_are_alike_in_wasm_as_it_ships_and_with_every_check() {
    let mut asked: Vec<String> = Vec::new();
    let mut of: Vec<&String> = Vec::new();
    for (request, answer) in NATIVE.iter() {
        let answer: Value = serde_json::from_str(answer).unwrap();
        let listed = answer["configurations"].as_array().unwrap();
        for one in listed.first().into_iter().chain(listed.last()) {
            asked.push(format!("[{request}, {}]", one["key"]));
            of.push(request);
        }
    }
    assert!(asked.len() >= how_many() * 4 / 5, "{} plans", asked.len());
    let native: Vec<String> = asked.iter().map(|asked| wiring_json(asked)).collect();
    let made = native.iter().filter(|plan| !plan.contains(r#""drawing":null"#)).count();
    assert!(made > how_many() * 2 / 5, "{made} of {} have a plan", native.len());
    for variable in ["COILWRIGHT_COMPARED_QUICK", "COILWRIGHT_COMPARED_SMALL"] {
        let found = in_wasm(&built(variable), Face::Plans, &asked);
        assert_eq!(found.len(), asked.len());
        for (((asked, native), wasm), request) in asked.iter().zip(&native).zip(&found).zip(&of) {
            compared(native, wasm, asked, request);
        }
    }
}

/// Every question asked of both builds, with its native answer.
fn alike(face: Face, asked: &[(String, String)]) {
    let questions: Vec<String> = asked.iter().map(|(asked, _)| asked.clone()).collect();
    for variable in ["COILWRIGHT_COMPARED_QUICK", "COILWRIGHT_COMPARED_SMALL"] {
        let found = in_wasm(&built(variable), face, &questions);
        assert_eq!(found.len(), asked.len());
        for ((asked, native), wasm) in asked.iter().zip(&found) {
            let request: Vec<Value> = serde_json::from_str(asked).unwrap();
            compared(native, wasm, asked, &request[0].to_string());
        }
    }
}

/// So many plans of at most eight coils, which a diagnosis is quick with; beside them
/// those that the box does not allow.
fn plans() -> usize {
    so_many(60, 120)
}

/// Check points of plans, and of each plan what three lists of readings say: all as it
/// should be but one; a few far off; a few without the leads.
#[test]
fn check_points_and_diagnoses_are_alike_in_wasm_as_it_ships_and_with_every_check() {
    let mut points: Vec<(String, String)> = Vec::new();
    let mut findings: Vec<(String, String)> = Vec::new();
    // A fixed row of numbers from 0 to 1, spread as if by chance.
    let mut state = 1_u64;
    let mut chance = || {
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        f64::from(u32::try_from(state >> 40).unwrap()) / f64::from(1_u32 << 24)
    };
    for (request, answer) in NATIVE.iter() {
        let answer: Value = serde_json::from_str(answer).unwrap();
        let Some(one) = answer["configurations"].as_array().unwrap().first() else { continue };
        if one["coil_shares"].as_array().unwrap().len() > 8 || findings.len() == 3 * plans() {
            continue;
        }
        let asked = format!("[{request}, {}]", one["key"]);
        let native = readings_json(&asked);
        let told: Value = serde_json::from_str(&native).unwrap();
        let all = told["points"].as_array().unwrap();
        points.push((asked, native.clone()));
        if all.is_empty() {
            continue;
        }
        for list in 0..3 {
            let factors: [f64; 6] = [0.0, 0.5, 0.75, 1.0, 1.6, 2.0];
            let steps: Vec<&Value> = all.iter().filter(|one| one["place"] == "step").collect();
            let mut readings: Vec<String> = Vec::new();
            let mut read = |point: &Value, factor: f64| {
                let expected = point["foretold"]["expected"].as_f64();
                let reads = expected.filter(|_| factor > 0.0).map_or_else(
                    || r#""open""#.to_owned(),
                    |expected| format!("{:.1}", expected * factor),
                );
                readings.push(format!(r#"{{"point": {}, "reads": {reads}}}"#, point["point"]));
            };
            let last = (chance() * steps.len() as f64) as usize;
            for step in steps.iter().take(last + 1).skip(usize::from(list == 2)) {
                read(step, if list == 1 { factors[(chance() * 6.0) as usize] } else { 1.0 });
            }
            read(&all[(chance() * all.len() as f64) as usize], factors[(chance() * 6.0) as usize]);
            if list == 1 {
                readings.push(r#"{"question": "meter_right", "answer": true}"#.to_owned());
            }
            let asked = format!("[{request}, {}, [{}]]", one["key"], readings.join(", "));
            let native = diagnose_json(&asked);
            findings.push((asked, native));
        }
    }
    assert_eq!(findings.len(), 3 * plans());
    let with = |what: &str| findings.iter().filter(|(_, found)| found.contains(what)).count();
    let refused = findings.len() - with(r#""problems":[]"#);
    assert_eq!(refused, 0, "{refused} of {} refused", findings.len());
    let goes_on = findings.len() - with(r#""next":null"#);
    assert!(
        goes_on > 3 * plans() * 5 / 18,
        "{goes_on} of {} ask for a next reading",
        findings.len()
    );
    alike(Face::Points, &points);
    alike(Face::Findings, &findings);
}

/// A comparison of nothing but refusals, or of one kind of answer, would prove little.
#[test]
fn the_requests_are_of_every_kind() {
    let mut codes: BTreeMap<String, u32> = BTreeMap::new();
    let (mut sound, mut configurations, mut powered, mut bridged) = (0, 0, 0, 0);
    for (_, answer) in NATIVE.iter() {
        let answer: Value = serde_json::from_str(answer).unwrap();
        for problem in answer["problems"].as_array().unwrap() {
            *codes.entry(problem["code"].as_str().unwrap().to_owned()).or_default() += 1;
        }
        let listed = answer["configurations"].as_array().unwrap();
        sound += usize::from(answer["problems"].as_array().unwrap().is_empty());
        configurations += listed.len();
        let outputs = || listed.iter().flat_map(|one| one["outputs"].as_array().unwrap());
        powered += outputs().filter(|output| !output["target_watts"].is_null()).count();
        bridged += outputs().filter(|output| output["way"] == "bridged").count();
    }
    let all = how_many();
    assert!(sound > all / 2, "{sound} answered");
    assert!(configurations > all * 2, "{configurations} configurations");
    assert!(powered > all / 5, "{powered} outputs with power");
    assert!(bridged > all / 20, "{bridged} bridged outputs");
    for code in [
        "missing",
        "unknown_field",
        "wrong_type",
        "out_of_range",
        "not_a_number_text",
        "too_many_places",
        "not_one_of",
        "wrong_length",
        "repeated",
        "not_possible_here",
    ] {
        assert!(codes.contains_key(code), "no request with {code}: {codes:?}");
    }
}

/// Readings from a short to a long line of drivers, with the leads read and without.
#[test]
fn closed_boxes_are_alike_in_wasm_as_it_ships_and_with_every_check() {
    let mut asked = vec![r#"{"reading": "open"}"#.to_owned(), "[]".to_owned()];
    for hundredths in (0..2_000).step_by(7) {
        let reading = f64::from(hundredths) / 100.0;
        for leads in ["null", "0.13", "0.4"] {
            asked.push(format!(r#"{{"reading": {reading}, "leads": {leads}, "step": 0.01}}"#));
        }
    }
    for variable in ["COILWRIGHT_COMPARED_QUICK", "COILWRIGHT_COMPARED_SMALL"] {
        let found = in_wasm(&built(variable), Face::Boxes, &asked);
        assert_eq!(found.len(), asked.len());
        for (asked, wasm) in asked.iter().zip(&found) {
            assert_eq!(&closed_box_json(asked), wasm, "{asked}");
        }
    }
}
