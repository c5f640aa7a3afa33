//! From JSON text to JSON text, to compare what machines answer. No part of the contract.

use crate::value::Value;
use crate::{closed_box, configurations, diagnose, readings, wiring};

/// Answers a request given as JSON text with JSON text.
///
/// Text that is no JSON counts as a request that is no object.
///
/// # Example
/// ```
/// let answer = coilwright_module::configurations_json(r#"{"drivers": []}"#);
/// assert!(answer.contains(r#""path":"drivers","code":"out_of_range""#));
/// ```
#[cfg_attr(feature = "js", wasm_bindgen::prelude::wasm_bindgen)]
#[must_use]
pub fn configurations_json(text: &str) -> String {
    let request = serde_json::from_str(text).unwrap_or(Value::Unreadable);
    serde_json::to_string(&configurations(&request)).unwrap_or_default()
}

/// The same for a plan: JSON text of a list, the request and the key.
///
/// # Example
/// ```
/// let request = r#"{"drivers": [{"count": 1, "coils": 1, "ohms": 4}]}"#;
/// let plan = coilwright_module::wiring_json(&format!(r#"[{request}, "1a"]"#));
/// assert!(plan.contains(r#""key":"1a""#), "{plan}");
/// ```
#[cfg_attr(feature = "js", wasm_bindgen::prelude::wasm_bindgen)]
#[must_use]
pub fn wiring_json(text: &str) -> String {
    let asked = list(text);
    serde_json::to_string(&wiring(first(&asked), asked.get(1))).unwrap_or_default()
}

/// The same for the check points of a plan.
///
/// # Example
/// ```
/// let request = r#"{"drivers": [{"count": 1, "coils": 1, "ohms": 4}]}"#;
/// let found = coilwright_module::readings_json(&format!(r#"[{request}, "1a"]"#));
/// assert!(found.contains(r#""point":"2.coil.1a""#), "{found}");
/// ```
#[cfg_attr(feature = "js", wasm_bindgen::prelude::wasm_bindgen)]
#[must_use]
pub fn readings_json(text: &str) -> String {
    let asked = list(text);
    serde_json::to_string(&readings(first(&asked), asked.get(1))).unwrap_or_default()
}

/// The same for what readings say: JSON text of a list, the request, the key and the
/// readings.
///
/// # Example
/// ```
/// let request = r#"{"drivers": [{"count": 1, "coils": 1, "ohms": 4}]}"#;
/// let read = r#"{"point": "1", "reads": "open"}"#;
/// let found = coilwright_module::diagnose_json(&format!(r#"[{request}, "1a", [{read}]]"#));
/// assert!(found.contains(r#""agreements":["open"]"#), "{found}");
/// ```
#[cfg_attr(feature = "js", wasm_bindgen::prelude::wasm_bindgen)]
#[must_use]
pub fn diagnose_json(text: &str) -> String {
    let asked = list(text);
    let found = diagnose(first(&asked), asked.get(1), asked.get(2));
    serde_json::to_string(&found).unwrap_or_default()
}

/// The same for a closed box.
///
/// # Example
/// ```
/// let found = coilwright_module::closed_box_json(r#"{"reading": "open"}"#);
/// assert!(found.contains(r#""hint":"open""#), "{found}");
/// ```
#[cfg_attr(feature = "js", wasm_bindgen::prelude::wasm_bindgen)]
#[must_use]
pub fn closed_box_json(text: &str) -> String {
    let asked = serde_json::from_str(text).unwrap_or(Value::Unreadable);
    serde_json::to_string(&closed_box(&asked)).unwrap_or_default()
}

/// What stands in a list; nothing where it is none.
fn list(text: &str) -> Vec<Value> {
    match serde_json::from_str(text) {
        Ok(Value::List(asked)) => asked,
        _ => Vec::new(),
    }
}

fn first(asked: &[Value]) -> &Value {
    asked.first().unwrap_or(&Value::Unreadable)
}
