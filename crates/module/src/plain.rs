//! From a plain JavaScript value to a tree of values, no further than a kind allows.
//!
//! A value is read by the table of fields, so that one that loops back on itself, a list
//! with a billion empty places or a text as long as a book is looked at no deeper and no
//! longer than a right one could be. What JSON does not have (a function, a map, an
//! instance of a class, a field that throws) becomes [`Value::Unreadable`], and the reader
//! says so; a field that is `undefined` counts as left out.

use crate::reader::most_measured;
use crate::value::Value;
use coilwright_solver::bounds::{Kind, Object};
use js_sys::{Array, JsString, Reflect};
use wasm_bindgen::prelude::*;

/// The most fields of one object that nobody knows and that are told by name.
const MOST_STRAY: u32 = 20;
/// The most characters of such a name.
const MOST_NAME: u32 = 100;

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

    /// Throws for a proxy that refuses.
    #[wasm_bindgen(catch, js_namespace = Reflect, js_name = getOwnPropertyDescriptor)]
    fn described(object: &JsValue, name: &str) -> Result<JsValue, JsValue>;
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
    if let Some(value) = scalar(of, kind) {
        return value;
    }
    match is_list(of) {
        Ok(true) => list(of, kind),
        Ok(false) if is_plain(of) => object(of, kind),
        _ => None,
    }
    .unwrap_or(Value::Unreadable)
}

/// Whatever is neither a list nor an object.
fn scalar(of: &JsValue, kind: Kind) -> Option<Value> {
    if of.is_null() {
        return Some(Value::Null);
    }
    if let Some(value) = of.as_bool() {
        return Some(Value::Bool(value));
    }
    if let Some(number) = of.as_f64() {
        return Some(Value::Number(number));
    }
    of.is_string().then(|| Value::Text(text(of, kind.longest_text())))
}

/// A text, one character past what may be right: enough to see that it is too long.
fn text(of: &JsValue, most: u32) -> String {
    // JavaScript counts halves of characters.
    let halves = most.saturating_add(1).saturating_mul(2);
    let of: &JsString = of.unchecked_ref();
    if of.length() <= halves { String::from(of) } else { String::from(of.substring(0, halves)) }
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

/// What the entries of a list are, and how many of them may be right.
fn entries(kind: Kind) -> Option<(Entry, usize)> {
    Some(match kind {
        Kind::Objects { of, most, .. } => (Entry::Object(of), usize::try_from(most).ok()?),
        Kind::Numbers { .. } => (Entry::Number, most_measured()),
        Kind::TwoChannels => (Entry::Number, 2),
        Kind::Different { most, .. } => (Entry::Number, usize::try_from(most).ok()?),
        _ => return None,
    })
}

/// An entry of a list is never a list: no entry is looked into as its list was.
#[derive(Clone, Copy)]
enum Entry {
    Object(Object),
    Number,
}

/// A list, one entry past what the field takes: enough to see that it is too long.
fn list(of: &JsValue, kind: Kind) -> Option<Value> {
    let Some((entry, most)) = entries(kind) else {
        return Some(Value::List(Vec::new()));
    };
    let length = Reflect::get(of, &JsValue::from_str("length")).ok()?;
    let length = length.as_f64()?;
    let mut entries = Vec::new();
    for i in 0..=most {
        let index = u32::try_from(i).ok()?;
        if f64::from(index) >= length {
            break;
        }
        entries.push(match (Reflect::get_u32(of, index), entry) {
            (Ok(of), Entry::Object(object)) => value(&of, Kind::Object(object)),
            // Which list or object stands for a number is all one.
            (Ok(of), Entry::Number) => scalar(&of, kind).unwrap_or(Value::Unreadable),
            (Err(_), _) => Value::Unreadable,
        });
    }
    Some(Value::List(entries))
}

/// An object: the fields it should have, and of those it should not only some names.
fn object(of: &JsValue, kind: Kind) -> Option<Value> {
    let keys = own_keys(of).ok()?;
    let Kind::Object(object) = kind else {
        return Some(Value::Object(Vec::new()));
    };
    let mut fields = Vec::new();
    for field in object.fields() {
        let spec = field.spec();
        let read = match described(of, spec.name) {
            Ok(field) if !is_enumerable(&field) => continue,
            Ok(_) => Reflect::get(of, &JsValue::from_str(spec.name)),
            Err(thrown) => Err(thrown),
        };
        fields.push((
            spec.name.to_owned(),
            match read {
                Ok(read) if read.is_undefined() => continue,
                Ok(read) => value(&read, spec.kind),
                Err(_) => Value::Unreadable,
            },
        ));
    }
    let known = u32::try_from(object.fields().count()).ok()?;
    let mut stray = 0;
    for i in 0..keys.length().min(known.saturating_add(MOST_STRAY)) {
        let key = keys.get(i);
        let name = text(&key, MOST_NAME);
        if object.fields().any(|field| field.spec().name == name) || stray == MOST_STRAY {
            continue;
        }
        let read = match Reflect::get(of, &key) {
            Ok(read) if read.is_undefined() => continue,
            Ok(_) => Value::Null,
            Err(_) => Value::Unreadable,
        };
        stray += 1;
        fields.push((name, read));
    }
    Some(Value::Object(fields))
}

/// Whether a description is of a field that the object has and shows.
fn is_enumerable(described: &JsValue) -> bool {
    let enumerable = Reflect::get(described, &JsValue::from_str("enumerable"));
    enumerable.is_ok_and(|is| is.is_truthy())
}
