//! The contract as files for others: type declarations and JSON Schemas, both from
//! the table of fields and the table of the answer.

mod fields;
mod json;
mod schema;
mod typescript;

pub use json::pretty;
pub use schema::{
    answer_schema, closed_box_request_schema, closed_box_schema, diagnose_request_schema,
    diagnosis_schema, readings_schema, request_schema, wiring_schema,
};
pub use typescript::typescript;

use crate::answer::{Described, Shape};

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
    ]
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
