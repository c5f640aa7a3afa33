//! The JSON contract, version 1: what everyone outside the Rust code speaks.
//!
//! A request is a tree of plain JSON values ([`value::Value`]). [`reader`] reads it by
//! the solver's one table of fields and reports every problem at once, each with its
//! path; [`answer`] is what comes back. [`contract`] writes the same table and the
//! same answer as type declarations and JSON Schemas.
//!
//! | feature | adds |
//! |---|---|
//! | none | the library: pure Rust, no browser |
//! | `js` | the exports `configurations(request)`, `wiring(request, key)` and `closed_box(asked)` for JavaScript, which never throw |
//! | `json` | `configurations_json`, `wiring_json` and `closed_box_json`, from text to text, no part of the contract: with `js` they are exports too, so that answers of a native and a wasm build can be compared through one serialiser |
//!
//! What this crate does not do: it computes nothing (the solver does) and words
//! nothing (`coilwright-words` does).
#![deny(missing_docs)]

pub mod answer;
pub mod contract;
#[cfg(feature = "js")]
pub mod js;
pub mod reader;
pub mod value;

use answer::{Answer, ClosedBox, Wiring};
use coilwright_solver::problem::{Code, Detail, Path, Problem};
use value::Value;

/// Answers a request: every distinct configuration, judged and ranked, or every
/// problem with the request.
///
/// # Example
/// ```
/// use coilwright_module::{configurations, value::Value};
/// let driver = Value::object([
///     ("count", Value::Number(2.0)),
///     ("coils", Value::Number(1.0)),
///     ("ohms", Value::Number(2.0)),
/// ]);
/// let request = Value::object([("drivers", Value::List(vec![driver]))]);
/// let answer = configurations(&request);
/// assert!(answer.problems.is_empty());
///
/// let answer = configurations(&Value::object([("drivers", Value::Number(2.0))]));
/// assert_eq!(answer.total, None);
/// assert_eq!(answer.problems[0].path, "drivers");
/// assert_eq!(answer.problems[0].code.name(), "wrong_type");
/// ```
#[must_use]
pub fn configurations(request: &Value) -> Answer {
    match reader::request(request) {
        Ok(request) => Answer::from(coilwright_solver::answer::answer(request)),
        Err(problems) => Answer::of_problems(&problems),
    }
}

/// Tells how one configuration of a rig is wired, or every problem with the request and
/// with the key. `limit` and the filters of the request are read and change nothing.
///
/// # Example
/// ```
/// use coilwright_module::{value::Value, wiring};
/// let driver = Value::object([
///     ("count", Value::Number(2.0)),
///     ("coils", Value::Number(1.0)),
///     ("ohms", Value::Number(2.0)),
/// ]);
/// let request = Value::object([("drivers", Value::List(vec![driver]))]);
/// let key = |key: &str| Value::Text(key.to_owned());
/// let wired = wiring(&request, Some(&key("2a || 1a")));
/// assert_eq!((wired.key.as_deref(), wired.runs.len()), (Some("1a||2a"), 4));
///
/// let wired = wiring(&request, Some(&key("1a")));
/// assert_eq!(wired.problems[0].path, "key");
/// assert_eq!(wired.problems[0].code.name(), "unknown_configuration");
/// ```
#[must_use]
pub fn wiring(request: &Value, key: Option<&Value>) -> Wiring {
    let of_key = |code| Problem::new(Path::root().field("key"), code, Detail::None);
    let key = match key {
        Some(Value::Text(key)) => Ok(key),
        Some(_) => Err(of_key(Code::WrongType)),
        None => Err(of_key(Code::Missing)),
    };
    match (reader::asked(request), key) {
        (Ok((request, build)), Ok(key)) => Wiring::of(&request.rig, &build, key)
            .unwrap_or_else(|problem| Wiring::of_problems(&[problem])),
        (Ok(_), Err(problem)) => Wiring::of_problems(&[problem]),
        (Err(mut problems), key) => {
            problems.extend(key.err());
            Wiring::of_problems(&problems)
        }
    }
}

/// Tells what may be in a closed box by one reading at its cup, or every problem with what
/// was asked.
///
/// # Example
/// ```
/// use coilwright_module::{closed_box, value::Value};
/// let asked = Value::object([("reading", Value::Number(3.4)), ("leads", Value::Number(0.2))]);
/// let found = closed_box(&asked);
/// assert_eq!(found.loads[0].exact, "4");
/// assert_eq!(found.loads[0].fillings[0].drivers, 1);
///
/// let found = closed_box(&Value::object([("reading", Value::Number(-1.0))]));
/// assert_eq!(found.problems[0].path, "reading");
/// assert_eq!(found.problems[0].code.name(), "out_of_range");
/// ```
#[must_use]
pub fn closed_box(asked: &Value) -> ClosedBox {
    match reader::closed_box(asked) {
        Ok((reading, leads)) => {
            ClosedBox::from(coilwright_solver::closed_box::closed_box(reading, leads))
        }
        Err(problems) => ClosedBox::of_problems(&problems),
    }
}

/// Answers a request given as JSON text with JSON text.
///
/// Text that is no JSON counts as a request that is no object.
///
/// # Example
/// ```
/// let answer = coilwright_module::configurations_json(r#"{"drivers": []}"#);
/// assert!(answer.contains(r#""path":"drivers","code":"out_of_range""#));
/// ```
#[cfg(feature = "json")]
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
#[cfg(feature = "json")]
#[cfg_attr(feature = "js", wasm_bindgen::prelude::wasm_bindgen)]
#[must_use]
pub fn wiring_json(text: &str) -> String {
    let asked = serde_json::from_str(text).unwrap_or(Value::Unreadable);
    let asked = if let Value::List(asked) = asked { asked } else { Vec::new() };
    let request = asked.first().unwrap_or(&Value::Unreadable);
    serde_json::to_string(&wiring(request, asked.get(1))).unwrap_or_default()
}

/// The same for a closed box.
///
/// # Example
/// ```
/// let found = coilwright_module::closed_box_json(r#"{"reading": "open"}"#);
/// assert!(found.contains(r#""hint":"open""#), "{found}");
/// ```
#[cfg(feature = "json")]
#[cfg_attr(feature = "js", wasm_bindgen::prelude::wasm_bindgen)]
#[must_use]
pub fn closed_box_json(text: &str) -> String {
    let asked = serde_json::from_str(text).unwrap_or(Value::Unreadable);
    serde_json::to_string(&closed_box(&asked)).unwrap_or_default()
}
