//! The JSON Schemas, draft 2020-12.

use super::answer_objects;
use super::fields::{about, is_optional, may_be_unfinished, sentence, type_name};
use super::objects;
use crate::answer::{Answer, ClosedBox, Diagnosis, Readings, Shape, Shaped, Wiring};
use crate::reader::most_measured;
use crate::value::Value;
use coilwright_solver::bounds::{Default as Left, Field, Kind, MOST_SAVED_LIMIT, OPEN, Object};

const DIALECT: &str = "https://json-schema.org/draft/2020-12/schema";
/// Exact ohms as text: decimals within their bounds, or a fraction of something. Whether a
/// fraction is within the bounds is beyond a pattern. No part of it looks ahead, since not
/// every validator can.
const OHMS_TEXT: &str = "^(0{1,30}\\.[1-9][0-9]{0,3}\
    |0{0,29}[1-9](\\.[0-9]{1,4})?|0{0,28}[1-9][0-9](\\.[0-9]{1,4})?\
    |0{0,27}[1-9][0-9]{2}(\\.[0-9]{1,4})?|0{0,26}1000(\\.0{1,4})?\
    |[0-9]{1,5}/([1-9][0-9]{0,4}|0[1-9][0-9]{0,3}|00[1-9][0-9]{0,2}|000[1-9][0-9]?|0000[1-9]))$";
/// A character is a code point here as in the reader.
const NO_CONTROLS: &str = "^[^\\u0000-\\u001f\\u007f-\\u009f]*$";

/// The schema of a request. It is a little wider than the reader, which also knows
/// what does not go together.
#[must_use]
pub fn request_schema() -> Value {
    asked_schema(Object::Request, &[])
}

/// The schema of a file of saved rigs. Of a request in it, and of what was read at a closed
/// box, nothing is required; how values go together is checked by whoever opens a rig.
#[must_use]
pub fn rigs_file_schema() -> Value {
    let unfinished =
        Object::ALL.into_iter().flat_map(Object::fields).filter_map(|field| {
            match field.spec().kind {
                Kind::Object(object) if may_be_unfinished(field) => Some(object),
                _ => None,
            }
        });
    let loose: Vec<Object> = unfinished.flat_map(objects).collect();
    asked_schema(Object::File, &loose)
}

/// The schema of what `closed_box` is asked.
#[must_use]
pub fn closed_box_request_schema() -> Value {
    asked_schema(Object::ClosedBox, &[])
}

/// The schema of an object that comes in, with everything in it; of some objects nothing
/// is required.
fn asked_schema(asked: Object, loose: &[Object]) -> Value {
    let mut all = objects(asked).into_iter();
    let schema = |object| request_object(object, loose.contains(&object));
    let root = all.next().map_or(Value::Null, schema);
    let defs = all.map(|object| (type_name(object).to_owned(), schema(object)));
    document(type_name(asked), root, defs.collect())
}

/// The schema of the list that `diagnose` takes beside a request and a key. It is wider
/// than the reader, which knows what goes together in an entry.
#[must_use]
pub fn diagnose_request_schema() -> Value {
    let list = Field::Readings;
    let root = with(request_value(list, false), "description", text(&sentence(list)));
    let entry = Object::Reading;
    document("Readings", root, vec![(type_name(entry).to_owned(), request_object(entry, false))])
}

/// The schema of an answer to `readings`.
#[must_use]
pub fn readings_schema() -> Value {
    schema_of(Readings::SHAPE)
}

/// The schema of an answer to `diagnose`.
#[must_use]
pub fn diagnosis_schema() -> Value {
    schema_of(Diagnosis::SHAPE)
}

/// The schema of an answer to `closed_box`.
#[must_use]
pub fn closed_box_schema() -> Value {
    schema_of(ClosedBox::SHAPE)
}

/// The schema of an answer to `configurations`.
#[must_use]
pub fn answer_schema() -> Value {
    schema_of(Answer::SHAPE)
}

/// The schema of an answer to `wiring`.
#[must_use]
pub fn wiring_schema() -> Value {
    schema_of(Wiring::SHAPE)
}

fn schema_of(answer: Shape) -> Value {
    let mut objects = answer_objects(&[answer]).into_iter().map(|object| {
        let fields = object.fields.iter().map(|(name, doc, shape)| {
            let described = with(answer_value(shape), "description", text(doc.trim_start()));
            ((*name).to_owned(), described)
        });
        let required = object.fields.iter().map(|(name, ..)| text(name)).collect();
        let schema = object_of(object.doc.trim_start(), fields.collect(), required);
        (object.name.to_owned(), schema)
    });
    let root = objects.next().map_or(Value::Null, |(_, root)| root);
    let Shape::Object(answer) = answer else {
        return Value::Null;
    };
    document(answer.name, root, objects.collect())
}

fn document(title: &str, root: Value, defs: Vec<(String, Value)>) -> Value {
    let Value::Object(mut fields) = root else {
        return root;
    };
    let mut all = vec![("$schema".to_owned(), text(DIALECT)), ("title".to_owned(), text(title))];
    all.append(&mut fields);
    all.push(("$defs".to_owned(), Value::Object(defs)));
    Value::Object(all)
}

fn request_object(object: Object, loose: bool) -> Value {
    let optional = |field: Field| loose || is_optional(field);
    let fields = object.fields().map(|field| {
        let mut schema = request_value(field, loose);
        if optional(field) {
            schema = nullable(schema);
        }
        schema = with(schema, "description", text(&sentence(field)));
        if let Some(left) = left_out(field) {
            schema = with(schema, "default", left);
        }
        (field.spec().name.to_owned(), schema)
    });
    let required =
        object.fields().filter(|field| !optional(*field)).map(|field| text(field.spec().name));
    object_of(about(object), fields.collect(), required.collect())
}

fn object_of(doc: &str, fields: Vec<(String, Value)>, required: Vec<Value>) -> Value {
    Value::object([
        ("type", text("object")),
        ("description", text(doc)),
        ("properties", Value::Object(fields)),
        ("required", Value::List(required)),
        ("additionalProperties", Value::Bool(false)),
    ])
}

fn request_value(field: Field, loose: bool) -> Value {
    match field.spec().kind {
        Kind::Text { most } => Value::object([
            ("type", text("string")),
            ("maxLength", whole(most)),
            ("pattern", text(NO_CONTROLS)),
        ]),
        Kind::AnyText { most } => {
            Value::object([("type", text("string")), ("maxLength", whole(most))])
        }
        // Of a saved rig it changes nothing.
        Kind::Whole { least, .. } if loose && field == Field::Limit => {
            integer(least, MOST_SAVED_LIMIT)
        }
        Kind::Whole { least, most } => integer(least, most),
        Kind::OneOfNumbers(list) => one_of(list.iter().map(|n| whole(*n)).collect()),
        Kind::OneOfWords(list) => one_of(list.iter().map(|word| text(word)).collect()),
        Kind::Ohms { least, most } => any_of(vec![
            number(f64::from(least) / 10_000.0, f64::from(most) / 10_000.0),
            Value::object([("type", text("string")), ("pattern", text(OHMS_TEXT))]),
        ]),
        Kind::Number { least, most } => number(least, most),
        Kind::Reading { most } => any_of(vec![number(0.0, most), one_of(vec![text(OPEN)])]),
        Kind::Boolean => of_type("boolean"),
        Kind::Object(object) => reference(type_name(object)),
        Kind::Objects { of, least, most } => {
            // What is unfinished may lack entries, as it may lack fields.
            let least = if loose { 0 } else { least };
            list_of(reference(type_name(of)), Some(least), Some(most))
        }
        Kind::Numbers { least, most } => {
            list_of(number(least, most), None, u32::try_from(most_measured()).ok())
        }
        Kind::Different { least, most } => {
            with(list_of(integer(least, most), None, Some(most)), "uniqueItems", Value::Bool(true))
        }
        // Which channels there are is checked beside the amplifier.
        Kind::TwoChannels if loose => list_of(integer(0, u32::MAX), Some(2), Some(2)),
        Kind::TwoChannels => {
            let most = match Field::Channels.spec().kind {
                Kind::Objects { most, .. } => most,
                _ => 0,
            };
            let pair = list_of(integer(1, most), Some(2), Some(2));
            with(pair, "uniqueItems", Value::Bool(true))
        }
    }
}

fn answer_value(shape: &Shape) -> Value {
    match shape {
        Shape::Whole => Value::object([("type", text("integer")), ("minimum", whole(0))]),
        Shape::Number => of_type("number"),
        Shape::Boolean => of_type("boolean"),
        Shape::Text => of_type("string"),
        Shape::Word(words) => one_of(words.words.iter().map(|word| text(word)).collect()),
        Shape::Nullable(inner) => nullable(answer_value(inner)),
        Shape::List(inner) => list_of(answer_value(inner), None, None),
        Shape::Object(object) => reference(object.name),
    }
}

fn left_out(field: Field) -> Option<Value> {
    match field.spec().default {
        Left::Required | Left::Absent => None,
        Left::Whole(number) => Some(whole(number)),
        Left::Word(word) => Some(text(word)),
        Left::False => Some(Value::Bool(false)),
        Left::Hundredths(n) => Some(Value::Number(f64::from(n) / 100.0)),
        Left::True => Some(Value::Bool(true)),
        Left::Empty => Some(Value::List(Vec::new())),
    }
}

fn text(value: &str) -> Value {
    Value::Text(value.to_owned())
}

fn whole(number: u32) -> Value {
    Value::Number(f64::from(number))
}

fn of_type(name: &str) -> Value {
    Value::object([("type", text(name))])
}

fn integer(least: u32, most: u32) -> Value {
    Value::object([("type", text("integer")), ("minimum", whole(least)), ("maximum", whole(most))])
}

fn number(least: f64, most: f64) -> Value {
    Value::object([
        ("type", text("number")),
        ("minimum", Value::Number(least)),
        ("maximum", Value::Number(most)),
    ])
}

fn one_of(values: Vec<Value>) -> Value {
    Value::object([("enum", Value::List(values))])
}

fn any_of(schemas: Vec<Value>) -> Value {
    Value::object([("anyOf", Value::List(schemas))])
}

fn nullable(schema: Value) -> Value {
    any_of(vec![schema, of_type("null")])
}

fn reference(name: &str) -> Value {
    Value::object([("$ref", text(&format!("#/$defs/{name}")))])
}

fn list_of(items: Value, least: Option<u32>, most: Option<u32>) -> Value {
    let mut schema = Value::object([("type", text("array")), ("items", items)]);
    if let Some(least) = least.filter(|least| *least > 0) {
        schema = with(schema, "minItems", whole(least));
    }
    if let Some(most) = most {
        schema = with(schema, "maxItems", whole(most));
    }
    schema
}

fn with(schema: Value, name: &str, value: Value) -> Value {
    let Value::Object(mut fields) = schema else {
        return schema;
    };
    fields.push((name.to_owned(), value));
    Value::Object(fields)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bound_in_the_schema_is_the_bound_in_the_table() {
        let schema = request_schema();
        let group = schema.get("$defs").and_then(|defs| defs.get("DriverGroup"));
        let count = group
            .and_then(|group| group.get("properties"))
            .and_then(|fields| fields.get("count"))
            .unwrap();
        assert_eq!(count.get("maximum"), Some(&Value::Number(16.0)));
        let required = group.and_then(|group| group.get("required"));
        let want = ["count", "coils", "ohms"].map(text);
        assert_eq!(required, Some(&Value::List(want.into())));
    }

    #[test]
    fn every_object_that_is_referred_to_is_defined() {
        for (name, schema) in super::super::schemas() {
            let value: Value = serde_json::from_str(&schema).unwrap();
            let parts = schema.split("\"#/$defs/").skip(1);
            for part in parts {
                let object = part.split('"').next().unwrap();
                let defs = value.get("$defs").unwrap();
                assert!(defs.get(object).is_some(), "{object} in {name}");
            }
        }
    }
}
