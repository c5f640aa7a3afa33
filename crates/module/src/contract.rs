//! The contract as files for others: type declarations and JSON Schemas, both from
//! the table of fields and the table of the answer; and the tables of the document about it.

mod document;
mod fields;
mod json;
mod schema;
mod typescript;
#[cfg(feature = "json")]
mod unstarted;

pub use document::filled;
pub use json::pretty;
pub use schema::{
    answer_schema, closed_box_request_schema, closed_box_schema, diagnose_request_schema,
    diagnosis_schema, readings_schema, request_schema, rigs_file_schema, wiring_schema,
};
pub use typescript::typescript;
#[cfg(feature = "json")]
pub use unstarted::unstarted;

use crate::answer::{Described, Shape};
use coilwright_solver::bounds::{Kind, Object};

/// The JSON Schemas (draft 2020-12): file name and text.
///
/// # Example
/// ```
/// let names: Vec<&str> = coilwright_module::contract::schemas()
///     .iter()
///     .map(|(name, _)| *name)
///     .collect();
/// assert_eq!(
///     names,
///     [
///         "request.json", "answer.json", "wiring.json", "readings.json",
///         "diagnose_request.json", "diagnosis.json", "closed_box_request.json", "closed_box.json",
///         "rigs_file.json",
///     ]
/// );
/// ```
#[must_use]
pub fn schemas() -> Vec<(&'static str, String)> {
    vec![
        ("request.json", pretty(&request_schema())),
        ("answer.json", pretty(&answer_schema())),
        ("wiring.json", pretty(&wiring_schema())),
        ("readings.json", pretty(&readings_schema())),
        ("diagnose_request.json", pretty(&diagnose_request_schema())),
        ("diagnosis.json", pretty(&diagnosis_schema())),
        ("closed_box_request.json", pretty(&closed_box_request_schema())),
        ("closed_box.json", pretty(&closed_box_schema())),
        ("rigs_file.json", pretty(&rigs_file_schema())),
    ]
}

/// An object that comes in and what its fields hold, at any depth: itself first, then in
/// the order of the contract.
fn objects(of: Object) -> Vec<Object> {
    let mut found = vec![of];
    let mut looked = 0;
    while let Some(object) = found.get(looked).copied() {
        looked += 1;
        for field in object.fields() {
            if let Kind::Object(inner) | Kind::Objects { of: inner, .. } = field.spec().kind
                && !found.contains(&inner)
            {
                found.push(inner);
            }
        }
    }
    if let Some((_, held)) = found.split_first_mut() {
        held.sort_unstable();
    }
    found
}

/// The objects of answers, the first answer first, each once.
fn answer_objects(answers: &[Shape]) -> Vec<&'static Described> {
    let mut objects: Vec<&'static Described> = Vec::new();
    let mut shapes: Vec<Shape> = answers.iter().rev().copied().collect();
    while let Some(shape) = shapes.pop() {
        match shape {
            Shape::Nullable(inner) | Shape::List(inner) => shapes.push(*inner),
            Shape::Object(object) if objects.iter().all(|o| o.name != object.name) => {
                objects.push(object);
                shapes.extend(object.fields.iter().rev().map(|(_, _, shape)| *shape));
            }
            _ => {}
        }
    }
    objects
}
