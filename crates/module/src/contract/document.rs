//! The tables of the document about the contract, from the table of fields and the table of
//! the answer. The words around them are the document's own.

mod notes;

use super::answer_objects;
use super::fields::{about, left_out, type_name};
use crate::answer::{Answer, ClosedBox, Diagnosis, Readings, Shape, Shaped, Wiring, Words};
use coilwright_solver::bounds::{Field, Kind, Object};
use coilwright_words::english::fields::{hint, takes, the};
use core::fmt::Write;

/// What a table stands behind: its name follows, then [`TO`].
const FROM: &str = "<!-- table: ";
const TO: &str = " -->";
/// What a table stands before.
const END: &str = "<!-- end of table -->";
/// The name of the table of choices of words.
const CHOICES: &str = "choices";

/// The document with every table as it is now, whatever stood between its marks.
///
/// # Errors
/// A mark without an end, a table that is not known or stands there twice, and one that no
/// mark names.
///
/// # Example
/// ```
/// let found = coilwright_module::contract::filled("<!-- table: Bicycle -->\n<!-- end of table -->\n");
/// assert_eq!(found.unwrap_err(), "there is no table `Bicycle`");
/// ```
pub fn filled(document: &str) -> Result<String, String> {
    let mut tables = tables();
    let mut text = String::new();
    let mut lines = document.lines();
    while let Some(line) = lines.next() {
        let _ = writeln!(text, "{line}");
        let Some(name) = line.strip_prefix(FROM).and_then(|rest| rest.strip_suffix(TO)) else {
            continue;
        };
        let at = tables.iter().position(|(known, _)| *known == name);
        let at = at.ok_or_else(|| format!("there is no table `{name}`"))?;
        if !lines.any(|line| line == END) {
            return Err(format!("the table `{name}` has no end"));
        }
        let (_, table) = tables.swap_remove(at);
        let _ = writeln!(text, "\n{table}\n{END}");
    }
    match tables.first() {
        Some((name, _)) => Err(format!("the table `{name}` is missing")),
        None => Ok(text),
    }
}

/// Every table by its name.
fn tables() -> Vec<(&'static str, String)> {
    // The list of readings is an argument of its own, not a field of an object.
    let asked = Object::ALL.into_iter().filter(|object| *object != Object::Diagnose);
    let mut tables: Vec<(&'static str, String)> =
        asked.map(|object| (type_name(object), taken(object))).collect();
    let mut choices: Vec<&'static Words> = Vec::new();
    let answers =
        [Answer::SHAPE, Wiring::SHAPE, Readings::SHAPE, Diagnosis::SHAPE, ClosedBox::SHAPE];
    for object in answer_objects(&answers) {
        let mut table = String::new();
        let _ = writeln!(table, "{}\n", object.doc.trim_start());
        table.push_str("| field | is | means |\n|---|---|---|\n");
        for (name, doc, shape) in object.fields {
            let is = given(shape, &mut choices);
            let _ = writeln!(table, "| `{name}` | {is} | {} |", cell(doc.trim_start()));
        }
        tables.push((object.name, table));
    }
    let mut table = "| choice | says | words |\n|---|---|---|\n".to_owned();
    for choice in choices {
        let words: Vec<String> = choice.words.iter().map(|word| format!("`{word}`")).collect();
        let doc = cell(choice.doc.trim_start());
        let _ = writeln!(table, "| {} | {doc} | {} |", choice.name, words.join(", "));
    }
    tables.push((CHOICES, table));
    tables
}

/// The table of an object that comes in.
fn taken(object: Object) -> String {
    let mut table = format!("{}\n\n", about(object));
    table.push_str("| field | takes | left out or null | means |\n|---|---|---|---|\n");
    for field in object.fields() {
        let left = match notes::left_out(field) {
            Some(left) => left.to_owned(),
            None => left_out(field).unwrap_or_else(|| "required".to_owned()),
        };
        let cells = [what(field), left, means(field)].map(|text| quoted(&cell(&text)));
        let _ = writeln!(table, "| `{}` | {} |", field.spec().name, cells.join(" | "));
    }
    table
}

/// What a field takes, with the way to what its objects are.
fn what(field: Field) -> String {
    let takes = takes(field);
    let (Kind::Object(of) | Kind::Objects { of, .. }) = field.spec().kind else {
        return takes;
    };
    let name = type_name(of);
    format!("{takes}: {}", link(name))
}

/// What a field means: as the words have it, and what no word of the page says.
fn means(field: Field) -> String {
    let mut text = the(field).to_owned();
    for more in [hint(field), notes::more(field)].into_iter().flatten() {
        text.push_str(if text.ends_with('.') { " " } else { ". " });
        text.push_str(more);
    }
    text
}

/// What a value of an answer is; the choices of words it uses are noted.
fn given(shape: &Shape, choices: &mut Vec<&'static Words>) -> String {
    match shape {
        Shape::Whole => "whole".to_owned(),
        Shape::Number => "number".to_owned(),
        Shape::Boolean => "boolean".to_owned(),
        Shape::Text => "text".to_owned(),
        Shape::Word(choice) => {
            if choices.iter().all(|known| known.name != choice.name) {
                choices.push(choice);
            }
            format!("[{}](#choices)", choice.name)
        }
        Shape::Nullable(inner) => format!("{} or null", given(inner, choices)),
        Shape::List(inner @ Shape::Nullable(_)) => {
            format!("list, each {}", given(inner, choices))
        }
        Shape::List(inner) => format!("list of {}", given(inner, choices)),
        Shape::Object(object) => link(object.name),
    }
}

/// The way to the heading of an object.
fn link(name: &str) -> String {
    format!("[{name}](#{})", name.to_ascii_lowercase())
}

/// Text in a cell of a table.
fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}

/// Words of the contract as such, where the page quotes them.
fn quoted(text: &str) -> String {
    let text = text.replace(['“', '”'], "`");
    match text.strip_prefix('"').and_then(|rest| rest.strip_suffix('"')) {
        Some(word) => format!("`{word}`"),
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A document of nothing but marks, each table once.
    fn bare() -> String {
        let marks = tables().into_iter().map(|(name, _)| format!("{FROM}{name}{TO}\n{END}\n"));
        marks.collect()
    }

    #[test]
    fn what_is_filled_stays_as_it_is() {
        let once = filled(&bare()).unwrap();
        assert_eq!(filled(&once).unwrap(), once);
        let row = "| `coils` | 1, 2 or 4 | required | the number of voice coils on each driver |\n";
        assert!(once.contains(row), "{once}");
        let row = "| `watts_per` | `driver` or `coil` | `driver` | the choice of whose power is rated |\n";
        assert!(once.contains(row), "{once}");
    }

    #[test]
    fn what_was_changed_by_hand_is_seen() {
        let once = filled(&bare()).unwrap();
        let other = once.replace("1, 2 or 4", "1, 2, 3 or 4");
        assert_ne!(other, once);
        assert_eq!(filled(&other).unwrap(), once);
    }

    #[test]
    fn a_table_that_is_missing_or_has_no_end_is_told() {
        let less = bare().replacen("<!-- table: Request -->\n<!-- end of table -->\n", "", 1);
        assert_eq!(filled(&less).unwrap_err(), "the table `Request` is missing");
        let twice = format!("{}{FROM}Box{TO}\n{END}\n", bare());
        assert_eq!(filled(&twice).unwrap_err(), "there is no table `Box`");
        let endless = format!("{FROM}Box{TO}\n");
        assert_eq!(filled(&endless).unwrap_err(), "the table `Box` has no end");
    }
}
