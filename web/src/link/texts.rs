//! The texts of a part of the form in a link, by the rows of the table.

use super::escape::{escaped, joined, unescaped};
use crate::question::fields::{Linked, Part, Row, Shape};
use coilwright_solver::bounds::Kind;
use std::iter::Peekable;
use std::str::Split;

/// Values that stand one after the other, with a sign between them.
pub(super) type Values<'a> = Peekable<Split<'a, char>>;

/// Whether the text of a row stands in a part of this name.
fn is_in(row: &Row, name: &str) -> bool {
    matches!(row.linked, Linked::In(of) if of == name)
}

/// Whether all that stands in a part of this name is as usual.
pub(super) fn is_usual<P: Part>(part: &P, name: &str) -> bool {
    let mut rows = P::ROWS.iter().zip(part.texts());
    rows.all(|(row, text)| !is_in(row, name) || text == row.usual)
}

/// Writes the texts of a part of this name, with a sign between them.
pub(super) fn write<P: Part>(part: &P, name: &str, sign: char, value: &mut String) {
    write_rows(P::ROWS, &part.texts(), name, sign, value);
}

fn write_rows(rows: &[Row], texts: &[&String], name: &str, sign: char, value: &mut String) {
    let rows = rows.iter().zip(texts).filter(|(row, _)| is_in(row, name));
    for (at, (_, text)) in rows.enumerate() {
        if at > 0 {
            value.push(sign);
        }
        value.push_str(&escaped(text, b""));
    }
}

/// Writes what stands behind them, where it is not as usual.
pub(super) fn write_behind<P: Part>(part: &P, value: &mut String) {
    for (row, text) in P::ROWS.iter().zip(part.texts()) {
        if let Linked::Behind(before) = row.linked
            && text != row.usual
        {
            value.push('~');
            value.push_str(before);
            value.push_str(&escaped(text, b""));
        }
    }
}

/// Writes what stands in parts of its own, of all entries, where one is not as usual.
pub(super) fn write_apart<P: Part>(entries: &[P], part: &mut dyn FnMut(&str, &str)) {
    for (at, row) in P::ROWS.iter().enumerate() {
        if let Linked::Apart(name) = row.linked {
            let texts: Vec<&String> =
                entries.iter().filter_map(|entry| entry.texts().get(at).copied()).collect();
            if texts.iter().any(|text| *text != row.usual) {
                part(name, &joined(&texts));
            }
        }
    }
}

/// Reads the texts of a part of this name.
pub(super) fn read<P: Part>(part: &mut P, name: &str, values: &mut Values<'_>) -> Option<()> {
    read_rows(P::ROWS, part.texts_mut(), name, &mut || values.next())
}

/// The same of an entry whose texts stand between colons: empty ends may be left out.
pub(super) fn read_entry<P: Part>(part: &mut P, name: &str, values: &mut Values<'_>) -> Option<()> {
    read_rows(P::ROWS, part.texts_mut(), name, &mut || Some(values.next().unwrap_or_default()))
}

fn read_rows<'v>(
    rows: &[Row],
    texts: Vec<&mut String>,
    name: &str,
    next: &mut dyn FnMut() -> Option<&'v str>,
) -> Option<()> {
    for (row, into) in rows.iter().zip(texts).filter(|(row, _)| is_in(row, name)) {
        *into = unescaped(next()?).filter(|text| may_hold(row, text))?;
    }
    Some(())
}

/// Reads what stands behind them.
pub(super) fn read_behind<P: Part>(part: &mut P, values: &mut Values<'_>) -> Option<()> {
    for (row, into) in P::ROWS.iter().zip(part.texts_mut()) {
        let Linked::Behind(before) = row.linked else { continue };
        let Some(text) = values.peek().and_then(|value| value.strip_prefix(before)) else {
            continue;
        };
        if may_hold(row, text) && (before.is_empty() || text != row.usual) {
            text.clone_into(into);
            values.next();
        } else if !before.is_empty() {
            return None;
        }
    }
    Some(())
}

/// The row of a part of its own, by its name.
pub(super) fn row_apart<P: Part>(name: &str) -> Option<usize> {
    P::ROWS.iter().position(|row| matches!(row.linked, Linked::Apart(of) if of == name))
}

/// Whether a text may stand in a field: what the page offers to choose from has no other.
fn may_hold(row: &Row, text: &str) -> bool {
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
