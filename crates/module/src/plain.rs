//! From a plain JavaScript value to a tree of values, no further than a kind allows.
//!
//! A value is read by the table of fields, so that one that loops back on itself or a list
//! with a billion empty places is looked at no deeper and no longer than a right one could
//! be. What JSON does not have (a function, a map, an instance of a class, a field that
//! throws) becomes [`Value::Unreadable`], and the reader says so; a field that is
//! `undefined` counts as left out.

use crate::reader::most_measured;
use crate::value::Value;
use coilwright_solver::bounds::Kind;
use js_sys::{Array, Reflect};
use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    /// Throws for a proxy that refuses.
    #[wasm_bindgen(catch, js_namespace = Object, js_name = keys)]
    fn own_keys(object: &JsValue) -> Result<Array, JsValue>;

    /// Throws for a proxy that was revoked.
    #[wasm_bindgen(catch, js_namespace = Array, js_name = isArray)]
    fn is_list(value: &JsValue) -> Result<bool, JsValue>;

    /// Throws for a proxy that refuses.
    #[wasm_bindgen(catch, js_namespace = Reflect, js_name = getPrototypeOf)]
    fn prototype(object: &JsValue) -> Result<JsValue, JsValue>;
}

/// A value, looked into only as far as its kind allows.
///
/// # Example
/// ```no_run
/// use coilwright_module::{plain, reader};
/// use coilwright_solver::bounds::{Kind, Object};
/// let parsed = js_sys::JSON::parse("{}").unwrap();
/// let problems = reader::file(&plain::value(&parsed, Kind::Object(Object::File)));
/// ```
#[must_use]
pub fn value(of: &JsValue, kind: Kind) -> Value {
    if of.is_null() {
        return Value::Null;
    }
    if let Some(value) = of.as_bool() {
        return Value::Bool(value);
    }
    if let Some(number) = of.as_f64() {
        return Value::Number(number);
    }
    if let Some(text) = of.as_string() {
        return Value::Text(text);
    }
    match is_list(of) {
        Ok(true) => list(of, kind),
        Ok(false) if is_plain(of) => object(of, kind),
        _ => None,
    }
    .unwrap_or(Value::Unreadable)
}

/// An object of no class: its prototype is none, or the one that has none, whichever
/// window it comes from.
fn is_plain(of: &JsValue) -> bool {
    let above = |of: &JsValue| prototype(of).unwrap_or(JsValue::UNDEFINED);
    if !of.is_object() {
        return false;
    }
    let class = above(of);
    class.is_null() || (class.is_object() && above(&class).is_null())
}

/// A list, one entry past what the field takes: enough to see that it is too long.
fn list(of: &JsValue, kind: Kind) -> Option<Value> {
    let (entry, most) = match kind {
        Kind::Objects { of, most, .. } => (Kind::Object(of), usize::try_from(most).ok()?),
        Kind::Numbers { .. } => (kind, most_measured()),
        Kind::TwoChannels => (kind, 2),
        Kind::Different { most, .. } => (kind, usize::try_from(most).ok()?),
        _ => return Some(Value::List(Vec::new())),
    };
    let length = Reflect::get(of, &JsValue::from_str("length")).ok()?;
    let length = length.as_f64()?;
    let mut entries = Vec::new();
    for i in 0..=most {
        let index = u32::try_from(i).ok()?;
        if f64::from(index) >= length {
            break;
        }
        entries.push(match Reflect::get_u32(of, index) {
            Ok(of) => value(&of, entry),
            Err(_) => Value::Unreadable,
        });
    }
    Some(Value::List(entries))
}

/// An object: the fields it should have, and of those it should not only the names.
fn object(of: &JsValue, kind: Kind) -> Option<Value> {
    let Kind::Object(object) = kind else {
        return Some(Value::Object(Vec::new()));
    };
    let mut fields = Vec::new();
    for key in own_keys(of).ok()?.iter() {
        let name = key.as_string()?;
        let field = object.fields().find(|field| field.spec().name == name);
        let read = match (Reflect::get(of, &key), field) {
            (Ok(read), _) if read.is_undefined() => continue,
            (Ok(read), Some(field)) => value(&read, field.spec().kind),
            (Ok(_), None) => Value::Null,
            (Err(_), _) => Value::Unreadable,
        };
        fields.push((name, read));
    }
    Some(Value::Object(fields))
}
