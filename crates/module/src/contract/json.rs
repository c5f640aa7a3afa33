//! A tree of values as JSON text that a person can read.

use crate::value::Value;
use core::fmt::Write;

/// The value as JSON text, two spaces a level. What JSON does not have is `null`.
///
/// # Example
/// ```
/// use coilwright_module::{contract::pretty, value::Value};
/// let value = Value::object([("least", Value::Number(0.1)), ("list", Value::List(vec![]))]);
/// assert_eq!(pretty(&value), "{\n  \"least\": 0.1,\n  \"list\": []\n}\n");
/// ```
#[must_use]
pub fn pretty(value: &Value) -> String {
    let mut text = String::new();
    write(&mut text, value, 0);
    text.push('\n');
    text
}

fn write(text: &mut String, value: &Value, depth: usize) {
    match value {
        Value::Null | Value::Unreadable => text.push_str("null"),
        Value::Bool(value) => text.push_str(if *value { "true" } else { "false" }),
        Value::Number(number) if number.is_finite() => {
            let _ = write!(text, "{number}");
        }
        Value::Number(_) => text.push_str("null"),
        Value::Text(value) => quote(text, value),
        Value::List(entries) if entries.iter().all(is_short) => {
            text.push('[');
            for (i, entry) in entries.iter().enumerate() {
                if i > 0 {
                    text.push_str(", ");
                }
                write(text, entry, depth);
            }
            text.push(']');
        }
        Value::List(entries) => {
            let entries = entries.iter().map(|entry| (None, entry));
            block(text, ['[', ']'], entries, depth);
        }
        Value::Object(fields) => {
            let fields = fields.iter().map(|(name, value)| (Some(name), value));
            block(text, ['{', '}'], fields, depth);
        }
    }
}

fn is_short(value: &Value) -> bool {
    !matches!(value, Value::List(_) | Value::Object(_))
}

fn block<'v>(
    text: &mut String,
    [open, close]: [char; 2],
    entries: impl Iterator<Item = (Option<&'v String>, &'v Value)>,
    depth: usize,
) {
    let indent = |text: &mut String, depth: usize| {
        text.push('\n');
        text.push_str(&"  ".repeat(depth));
    };
    text.push(open);
    let mut some = false;
    for (name, value) in entries {
        if some {
            text.push(',');
        }
        some = true;
        indent(text, depth + 1);
        if let Some(name) = name {
            quote(text, name);
            text.push_str(": ");
        }
        write(text, value, depth + 1);
    }
    if some {
        indent(text, depth);
    }
    text.push(close);
}

fn quote(text: &mut String, value: &str) {
    text.push('"');
    for c in value.chars() {
        match c {
            '"' | '\\' => text.extend(['\\', c]),
            c if c.is_control() => {
                let _ = write!(text, "\\u{:04x}", u32::from(c));
            }
            c => text.push(c),
        }
    }
    text.push('"');
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_reads_back() {
        let value = Value::object([
            ("text", Value::Text("a \"quoted\" \\ Ω\u{7}\n\u{85}".to_owned())),
            ("numbers", Value::List(vec![Value::Number(0.1), Value::Number(-3.0)])),
            ("objects", Value::List(vec![Value::Object(vec![]), Value::Null, Value::Bool(true)])),
        ]);
        assert_eq!(serde_json::from_str::<Value>(&pretty(&value)).unwrap(), value);
    }
}
