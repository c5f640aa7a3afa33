//! The JavaScript face: plain objects in, plain objects out, and no exception.
//!
//! What comes in is read by [`value`], and nothing deeper or longer than the table of
//! fields allows.

mod open;

use crate::opened::{Opened, Piece};
use crate::plain::value;
use crate::value::Value;
use coilwright_solver::bounds::{Field, Kind, Object};
use js_sys::{Array, JSON, Reflect};
use serde::Serialize;
use wasm_bindgen::prelude::*;

/// Every distinct configuration of a rig, or every problem with the request. The type
/// declarations that ship beside the module say what goes in and what comes out.
#[wasm_bindgen(skip_typescript)]
pub fn configurations(request: &JsValue) -> JsValue {
    page(&mut Opened::of(&of_request(request)), None, None)
}

/// A list kept open to be read page by page: `page(from, limit)` and `close()`.
#[wasm_bindgen(skip_typescript)]
pub fn open(request: &JsValue) -> JsValue {
    open::open(&of_request(request))
}

/// How one configuration of a rig is wired, or every problem with request and key.
#[wasm_bindgen(skip_typescript)]
pub fn wiring(request: &JsValue, key: &JsValue) -> JsValue {
    written(&crate::wiring(&of_request(request), of_key(key).as_ref()))
}

/// Where a meter can be held to the plan of a configuration and what it should show, or
/// every problem with request and key.
#[wasm_bindgen(skip_typescript)]
pub fn readings(request: &JsValue, key: &JsValue) -> JsValue {
    written(&crate::readings(&of_request(request), of_key(key).as_ref()))
}

/// What readings say is wrong, or every problem with request, key and readings.
#[wasm_bindgen(skip_typescript)]
pub fn diagnose(request: &JsValue, key: &JsValue, readings: &JsValue) -> JsValue {
    let readings = argument(readings, Field::Readings);
    written(&crate::diagnose(&of_request(request), of_key(key).as_ref(), readings.as_ref()))
}

/// What may be in a closed box, or every problem with what was asked.
#[wasm_bindgen(skip_typescript)]
pub fn closed_box(asked: &JsValue) -> JsValue {
    written(&crate::closed_box(&value(asked, Kind::Object(Object::ClosedBox))))
}

fn of_request(request: &JsValue) -> Value {
    value(request, Kind::Object(Object::Request))
}

/// A key is text, so that nothing else is looked into; left out, it is missing.
fn of_key(key: &JsValue) -> Option<Value> {
    argument(key, Field::ChosenKey)
}

/// An argument that takes what a field takes; nothing where it is left out.
fn argument(of: &JsValue, field: Field) -> Option<Value> {
    (!of.is_undefined()).then(|| value(of, field.spec().kind))
}

/// A page of a list as plain objects, its long lists piece by piece.
fn page(list: &mut Opened, from: Option<&Value>, limit: Option<&Value>) -> JsValue {
    let (loads, rows) = (Array::new(), Array::new());
    let head = list.page_in_pieces(from, limit, &mut |piece| match piece {
        Piece::Loads(piece) => add(&loads, &piece),
        Piece::Configurations(piece) => add(&rows, &piece),
    });
    let answer = written(&head);
    if !head.problems.is_empty() {
        return answer;
    }
    for (name, list) in [("loads", loads), ("configurations", rows)] {
        // A fresh object takes every field.
        let _ = Reflect::set(&answer, &JsValue::from_str(name), &list);
    }
    answer
}

/// Adds a piece to a list: as one text, which is read quicker than objects are made field by
/// field.
fn add(list: &Array, piece: &impl Serialize) {
    let entries = serde_json::to_string(piece).ok().and_then(|text| JSON::parse(&text).ok());
    for entry in Array::from(&entries.unwrap_or(JsValue::NULL)).iter() {
        list.push(&entry);
    }
}

/// An answer as plain objects.
fn written(answer: &impl Serialize) -> JsValue {
    answer
        .serialize(&serde_wasm_bindgen::Serializer::json_compatible())
        // No structure of the answer can fail to serialise.
        .unwrap_or(JsValue::NULL)
}
