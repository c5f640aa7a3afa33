//! The texts of a part of the form in a link, by the rows of the table.

use super::escape::{escaped, joined, unescaped};
use crate::question::fields::{Linked, Part, Row, Shape};
use coilwright_solver::bounds::Kind;
use std::iter::Peekable;
use std::str::Split;

/// Values that stand one after the other, with a sign between them.
pub(super) type Values<'a> = Peekable<Split<'a, char>>;

/// The rows whose texts stand in a part of this name.
fn rows_in<P: Part>(name: &str) -> impl Iterator<Item = &'static Row<P>> {
    P::ROWS.iter().filter(move |row| matches!(row.linked, Linked::In(of) if of == name))
}

/// Whether all that stands in a part of this name is as usual.
pub(super) fn is_usual<P: Part>(part: &P, name: &str) -> bool {
    rows_in::<P>(name).all(|row| (row.text)(part) == row.usual)
}

/// Writes the texts of a part of this name, with a sign between them.
pub(super) fn write<P: Part>(part: &P, name: &str, sign: char, value: &mut String) {
    for (at, row) in rows_in::<P>(name).enumerate() {
        if at > 0 {
            value.push(sign);
        }
        value.push_str(&escaped((row.text)(part), b""));
    }
}

/// Writes what stands behind them, where it is not as usual.
pub(super) fn write_behind<P: Part>(part: &P, value: &mut String) {
    for row in P::ROWS {
        if let Linked::Behind(before) = row.linked
            && (row.text)(part) != row.usual
        {
            value.push('~');
            value.push_str(before);
            value.push_str(&escaped((row.text)(part), b""));
        }
    }
}

/// Writes what stands in parts of its own, of all entries, where one is not as usual.
pub(super) fn write_apart<P: Part>(entries: &[P], part: &mut dyn FnMut(&str, &str)) {
    for row in P::ROWS {
        if let Linked::Apart(name) = row.linked
            && entries.iter().any(|entry| (row.text)(entry) != row.usual)
        {
            let texts: Vec<&String> = entries.iter().map(row.text).collect();
            part(name, &joined(&texts));
        }
    }
}

/// Reads the texts of a part of this name.
pub(super) fn read<P: Part>(part: &mut P, name: &str, values: &mut Values<'_>) -> Option<()> {
    for row in rows_in::<P>(name) {
        let text = unescaped(values.next()?).filter(|text| may_hold(row, text))?;
        *(row.text_mut)(part) = text;
    }
    Some(())
}

/// Reads what stands behind them.
pub(super) fn read_behind<P: Part>(part: &mut P, values: &mut Values<'_>) -> Option<()> {
    for row in P::ROWS {
        let Linked::Behind(before) = row.linked else { continue };
        let Some(text) = values.peek().and_then(|value| value.strip_prefix(before)) else {
            continue;
        };
        if may_hold(row, text) && (before.is_empty() || text != row.usual) {
            *(row.text_mut)(part) = text.to_owned();
            values.next();
        } else if !before.is_empty() {
            return None;
        }
    }
    Some(())
}

/// The name of a part of its own: of which row it is.
pub(super) fn row_apart<P: Part>(name: &str) -> Option<&'static Row<P>> {
    P::ROWS.iter().find(|row| matches!(row.linked, Linked::Apart(of) if of == name))
}

/// Whether a text may stand in a field: what the page offers to choose from has no other.
fn may_hold<P: Part>(row: &Row<P>, text: &str) -> bool {
    if row.shape != Shape::Choice {
        return true;
    }
    match row.field.spec().kind {
        Kind::OneOfNumbers(numbers) => numbers.iter().any(|number| number.to_string() == text),
        Kind::OneOfWords(words) => words.contains(&text) || text == row.usual,
        Kind::Whole { least, most } => (least..=most).any(|number| number.to_string() == text),
        _ => true,
    }
}
