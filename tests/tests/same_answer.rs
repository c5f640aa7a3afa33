//! The same request gives the same answer natively and in wasm, as it ships and with
//! every check compiled in.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a proof stops at the first surprise")]

use coilwright_module::{closed_box_json, configurations_json, wiring_json};
use proof::requests::requests;
use serde_json::Value;
use std::collections::BTreeMap;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::LazyLock;

const REQUESTS: usize = 1_000;

/// How a module is asked.
#[derive(Clone, Copy)]
enum Face {
    /// From text to text, by the serialiser that native answers go through too.
    Text,
    /// Plans, from text to text.
    Plans,
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
    requests(REQUESTS).iter().map(answered).collect()
});

fn same(variable: &str, face: Face) {
    let requests: Vec<String> = NATIVE.iter().map(|(request, _)| request.clone()).collect();
    let found = in_wasm(&built(variable), face, &requests);
    assert_eq!(found.len(), REQUESTS);
    for ((request, native), wasm) in NATIVE.iter().zip(&found) {
        match face {
            Face::Text | Face::Plans | Face::Boxes => assert_eq!(native, wasm, "{request}"),
            Face::Objects => assert_eq!(normal(native), normal(wasm), "{request}"),
        }
    }
}

#[test]
fn a_thousand_requests_are_answered_alike_in_wasm_with_every_check() {
    same("COILWRIGHT_COMPARED_QUICK", Face::Text);
}

#[test]
fn a_thousand_requests_are_answered_alike_in_wasm_made_small() {
    same("COILWRIGHT_COMPARED_SMALL", Face::Text);
}

#[test]
fn a_thousand_requests_are_answered_alike_as_objects() {
    same("COILWRIGHT_COMPARED_SMALL", Face::Objects);
}

/// The first and the last configuration of every request that has any, each with its plan.
#[test]
fn plans_are_alike_in_wasm_as_it_ships_and_with_every_check() {
    let mut asked: Vec<String> = Vec::new();
    for (request, answer) in NATIVE.iter() {
        let answer: Value = serde_json::from_str(answer).unwrap();
        let listed = answer["configurations"].as_array().unwrap();
        for one in listed.first().into_iter().chain(listed.last()) {
            asked.push(format!("[{request}, {}]", one["key"]));
        }
    }
    assert!(asked.len() > 800, "{} plans", asked.len());
    let native: Vec<String> = asked.iter().map(|asked| wiring_json(asked)).collect();
    let made = native.iter().filter(|plan| !plan.contains(r#""drawing":null"#)).count();
    assert!(made > 400, "{made} of {} have a plan", native.len());
    for variable in ["COILWRIGHT_COMPARED_QUICK", "COILWRIGHT_COMPARED_SMALL"] {
        let found = in_wasm(&built(variable), Face::Plans, &asked);
        assert_eq!(found.len(), asked.len());
        for ((asked, native), wasm) in asked.iter().zip(&native).zip(&found) {
            assert_eq!(native, wasm, "{asked}");
        }
    }
}

/// A comparison of nothing but refusals, or of one kind of answer, would prove little.
#[test]
fn the_thousand_requests_are_of_every_kind() {
    let mut codes: BTreeMap<String, u32> = BTreeMap::new();
    let (mut sound, mut configurations, mut powered, mut bridged) = (0, 0, 0, 0);
    for (_, answer) in NATIVE.iter() {
        let answer: Value = serde_json::from_str(answer).unwrap();
        for problem in answer["problems"].as_array().unwrap() {
            *codes.entry(problem["code"].as_str().unwrap().to_owned()).or_default() += 1;
        }
        let listed = answer["configurations"].as_array().unwrap();
        sound += u32::from(answer["problems"].as_array().unwrap().is_empty());
        configurations += listed.len();
        let outputs = || listed.iter().flat_map(|one| one["outputs"].as_array().unwrap());
        powered += outputs().filter(|output| !output["target_watts"].is_null()).count();
        bridged += outputs().filter(|output| output["way"] == "bridged").count();
    }
    assert!(sound > 500, "{sound} answered");
    assert!(configurations > 2_000, "{configurations} configurations");
    assert!(powered > 200, "{powered} outputs with power");
    assert!(bridged > 50, "{bridged} bridged outputs");
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
