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
//! | `plain` | the conversion of JavaScript's values, and no exports: for a page that reads files |
//! | `js` | the exports `configurations(request)`, `open(request)`, `wiring(request, key)`, `readings(request, key)`, `diagnose(request, key, readings)` and `closed_box(asked)` for JavaScript, which never throw |
//! | `json` | the same by the names `configurations_json` and so on, from text to text (in `text`), no part of the contract: with `js` they are exports too, so that answers of a native and a wasm build can be compared through one serialiser |
//!
//! What this crate does not do: it computes nothing (the solver does) and words
//! nothing (`coilwright-words` does).
#![deny(missing_docs)]

pub mod answer;
pub mod contract;
#[cfg(feature = "js")]
pub mod js;
pub mod opened;
#[cfg(feature = "plain")]
pub mod plain;
mod planned;
pub mod reader;
#[cfg(feature = "json")]
pub mod text;
pub mod value;

use answer::{Answer, ClosedBox, Diagnosis, Readings, Wiring};
use planned::Planned;
#[cfg(feature = "json")]
pub use text::{closed_box_json, configurations_json, diagnose_json, readings_json, wiring_json};
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
    opened::Opened::of(request).page(None, None)
}

/// Tells how one configuration of a rig is wired, or every problem with the request and
/// with the key. `from`, `limit` and the filters of the request are read and change nothing.
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
    match Planned::of(request, key) {
        Ok(planned) => Wiring::of(&planned),
        Err(problems) => Wiring::of_problems(&problems),
    }
}

/// Tells every place where a meter can be held to the plan of a configuration, and what it
/// should show there; or every problem with the request and with the key.
///
/// # Example
/// ```
/// use coilwright_module::{readings, value::Value};
/// let driver = Value::object([
///     ("count", Value::Number(2.0)),
///     ("coils", Value::Number(1.0)),
///     ("ohms", Value::Number(2.0)),
/// ]);
/// let request = Value::object([("drivers", Value::List(vec![driver]))]);
/// let found = readings(&request, Some(&Value::Text("1a||2a".to_owned())));
/// // The probes touching come first; then every coil by itself.
/// assert_eq!((found.points[0].point.as_str(), found.points[0].place.name()), ("1", "step"));
/// assert_eq!(found.points[1].point, "2.coil.1a");
/// assert_eq!(found.points[1].foretold.as_ref().map(|read| read.nominal), Some(2.0));
/// ```
#[must_use]
pub fn readings(request: &Value, key: Option<&Value>) -> Readings {
    match Planned::of(request, key) {
        Ok(planned) => Readings::of(&planned),
        Err(problems) => Readings::of_problems(&problems),
    }
}

/// Tells what may be wrong with a plan as it was built, from what a meter showed at its
/// check points; or every problem with the request, the key and the readings.
///
/// # Example
/// ```
/// use coilwright_module::{diagnose, value::Value};
/// let driver = Value::object([
///     ("count", Value::Number(2.0)),
///     ("coils", Value::Number(1.0)),
///     ("ohms", Value::Number(2.0)),
/// ]);
/// let request = Value::object([("drivers", Value::List(vec![driver]))]);
/// let key = Value::Text("1a||2a".to_owned());
/// let read = |point: &str, ohms| {
///     Value::object([("point", Value::Text(point.to_owned())), ("reads", Value::Number(ohms))])
/// };
/// let told = diagnose(&request, Some(&key), Some(&Value::List(vec![read("1", 0.2)])));
/// assert_eq!(told.agreements[0].map(|agreement| agreement.name()), Some("right"));
///
/// let told = diagnose(&request, Some(&key), Some(&Value::List(vec![read("99", 0.2)])));
/// assert_eq!(told.problems[0].path, "readings[0].point");
/// assert_eq!(told.problems[0].code.name(), "not_one_of");
/// ```
#[must_use]
pub fn diagnose(request: &Value, key: Option<&Value>, readings: Option<&Value>) -> Diagnosis {
    let (entries, of_readings) = reader::readings(readings);
    let (planned, mut problems) = match Planned::of(request, key) {
        Ok(planned) => (Some(planned), Vec::new()),
        Err(problems) => (None, problems),
    };
    problems.extend(of_readings);
    if let Some(planned) = &planned {
        problems.extend(reader::unknown(&entries, planned.wording().plan));
    }
    match planned {
        Some(planned) if problems.is_empty() => {
            let entries: Vec<_> = entries.into_iter().flatten().collect();
            Diagnosis::of(&planned, &entries)
        }
        _ => Diagnosis::of_problems(&problems),
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
