//! A tree of plain JSON values, as a request arrives.

use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// A JSON value.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// `null`.
    Null,
    /// `true` or `false`.
    Bool(bool),
    /// A number.
    Number(f64),
    /// Text.
    Text(String),
    /// A list.
    List(Vec<Value>),
    /// An object: its fields in the order given. Of two with one name the first counts.
    Object(Vec<(String, Value)>),
    /// Something that JSON does not have: a function, a map, a field that throws.
    Unreadable,
}

impl Value {
    /// An object of these fields.
    ///
    /// # Example
    /// ```
    /// use coilwright_module::value::Value;
    /// let object = Value::object([("limit", Value::Number(5.0))]);
    /// assert_eq!(object.get("limit"), Some(&Value::Number(5.0)));
    /// assert_eq!(object.get("total"), None);
    /// ```
    #[must_use]
    pub fn object<const N: usize>(fields: [(&str, Self); N]) -> Self {
        Self::Object(fields.map(|(name, value)| (name.to_owned(), value)).into())
    }

    /// A field of an object.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Self> {
        match self {
            Self::Object(fields) => field(fields, name),
            _ => None,
        }
    }
}

/// The first field of that name.
pub(crate) fn field<'v>(fields: &'v [(String, Value)], name: &str) -> Option<&'v Value> {
    let (_, value) = fields.iter().find(|(own, _)| own == name)?;
    Some(value)
}

impl<'de> Deserialize<'de> for Value {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(Anything)
    }
}

struct Anything;

impl<'de> Visitor<'de> for Anything {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_f64<E>(self, value: f64) -> Result<Value, E> {
        Ok(Value::Number(value))
    }

    #[expect(clippy::cast_precision_loss, reason = "JSON numbers are floats here")]
    fn visit_u64<E>(self, value: u64) -> Result<Value, E> {
        Ok(Value::Number(value as f64))
    }

    #[expect(clippy::cast_precision_loss, reason = "JSON numbers are floats here")]
    fn visit_i64<E>(self, value: i64) -> Result<Value, E> {
        Ok(Value::Number(value as f64))
    }

    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(Value::Text(value.to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Value, A::Error> {
        let mut entries = Vec::new();
        while let Some(entry) = list.next_element()? {
            entries.push(entry);
        }
        Ok(Value::List(entries))
    }

    /// As in JavaScript, the last of two fields with one name stands, in the first's place.
    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Value, A::Error> {
        let mut fields: Vec<(String, Value)> = Vec::new();
        while let Some((name, value)) = map.next_entry::<String, Value>()? {
            match fields.iter_mut().find(|(own, _)| *own == name) {
                Some((_, earlier)) => *earlier = value,
                None => fields.push((name, value)),
            }
        }
        Ok(Value::Object(fields))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn json_text_becomes_the_tree_it_says() {
        let text = r#"{"b": [null, true, -1, 2.5, "Ω"], "a": {}, "b": 18446744073709551615}"#;
        let value: Value = serde_json::from_str(text).unwrap();
        let want = Value::object([
            ("b", Value::Number(18_446_744_073_709_551_615.0)),
            ("a", Value::Object(vec![])),
        ]);
        assert_eq!(value, want);
        let list: Value = serde_json::from_str(r#"[null, true, -1, 2.5, "Ω"]"#).unwrap();
        let want = Value::List(vec![
            Value::Null,
            Value::Bool(true),
            Value::Number(-1.0),
            Value::Number(2.5),
            Value::Text("Ω".to_owned()),
        ]);
        assert_eq!(list, want);
    }
}
