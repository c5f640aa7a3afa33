//! The module, asked in text as anybody would.

use super::plan::Plan;
use coilwright_module::{configurations_json, diagnose_json, readings_json, wiring_json};
use serde_json::{Value, json};

fn read(answer: &str) -> Value {
    serde_json::from_str(answer).expect("an answer is JSON")
}

/// Every configuration of a rig.
pub fn configurations(request: &Value) -> Value {
    read(&configurations_json(&request.to_string()))
}

/// The plan of one; nothing where it has none.
pub fn plan(request: &Value, key: &str) -> Option<Plan> {
    let asked = json!([request, key]).to_string();
    Plan::of(request, &read(&wiring_json(&asked)), &read(&readings_json(&asked)))
}

/// What may be wrong.
///
/// # Panics
/// If anything is wrong with what was asked.
pub fn diagnose(request: &Value, key: &str, entries: &[Value]) -> Value {
    let told = read(&diagnose_json(&json!([request, key, entries]).to_string()));
    assert_eq!(told["problems"], json!([]), "{request} {key} {entries:?}");
    told
}
