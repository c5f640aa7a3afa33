//! What the request's fields and objects are called and say, for both writings.

use coilwright_solver::bounds::{Default as Left, Field, Kind, Object};
use coilwright_words::english::fields::{hint, takes, the};

/// What an object of the request is called as a type.
pub(super) const fn type_name(object: Object) -> &'static str {
    match object {
        Object::Request => "Request",
        Object::Group => "DriverGroup",
        Object::Amplifier => "Amplifier",
        Object::Channel => "Channel",
        Object::Bridge => "Bridge",
        Object::Point => "RatedPoint",
        Object::Build => "Box",
        Object::Terminal => "Terminals",
        Object::ClosedBox => "ClosedBoxReading",
        Object::Diagnose => "ReadingList",
        Object::Reading => "Reading",
        Object::File => "RigsFile",
        Object::Saved => "SavedRig",
        Object::Typed => "TypedText",
        Object::Compared => "ComparedConfiguration",
    }
}

/// What an object of the request is.
pub(super) const fn about(object: Object) -> &'static str {
    match object {
        Object::Request => "What is asked: drivers, and the amplifier they are for.",
        Object::Group => "Drivers of one kind.",
        Object::Amplifier => "An amplifier, or several of one kind.",
        Object::Channel => "A channel of the amplifier.",
        Object::Bridge => "Two channels that the maker allows to be bridged.",
        Object::Point => "So many watts into so many ohms, as the maker states it.",
        Object::Build => "How the box is built and wired.",
        Object::Terminal => "What the terminals of one sort take.",
        Object::ClosedBox => "What a meter showed at the cup of a closed box.",
        Object::Diagnose => "What was read and answered so far.",
        Object::Reading => {
            "What a meter showed at a check point (point and reads), or what was answered to a question (question and answer)."
        }
        Object::File => "A file of saved rigs.",
        Object::Saved => "A saved rig: what is asked of it, and how far the work is.",
        Object::Typed => "What stands in a field of the page and is no value yet.",
        Object::Compared => "A configuration that was put aside to compare.",
    }
}

/// What a field is, takes and defaults to.
pub(super) fn sentence(field: Field) -> String {
    let the = the(field);
    let mut text: String = the
        .chars()
        .enumerate()
        .flat_map(|(i, c)| {
            let upper = (i == 0).then(|| c.to_ascii_uppercase());
            [upper.unwrap_or(c)]
        })
        .collect();
    if let Some(takes) = told(field) {
        text.push_str(": ");
        text.push_str(&takes);
    }
    text.push('.');
    if let Some(hint) = hint(field) {
        text.push(' ');
        text.push_str(hint);
    }
    if let Some(left) = left_out(field) {
        text.push_str(" Left out or null: ");
        text.push_str(&left);
        text.push('.');
    }
    text
}

/// What it takes, where its type alone does not say so.
fn told(field: Field) -> Option<String> {
    match field.spec().kind {
        Kind::Boolean | Kind::Object(_) => None,
        Kind::Ohms { .. } => Some(format!(
            "{} (text: digits, optionally a point and one to four digits, or two whole numbers of one to five digits joined by a slash; a number has at most four decimals)",
            takes(field)
        )),
        _ => Some(takes(field)),
    }
}

/// What stands in for a field that is left out; nothing where it must be there.
pub(super) fn left_out(field: Field) -> Option<String> {
    Some(match field.spec().default {
        Left::Required => return None,
        Left::Absent => match field.spec().kind {
            _ if field == Field::ComparedRequest => "the rig that it is kept with".to_owned(),
            Kind::Object(_) | Kind::Text { .. } => "none".to_owned(),
            Kind::Numbers { .. } => "not measured".to_owned(),
            _ if field == Field::LeadsReading => "not read".to_owned(),
            _ => "not stated".to_owned(),
        },
        Left::Whole(number) => number.to_string(),
        Left::Word(word) => format!("\"{word}\""),
        Left::True => "true".to_owned(),
        Left::False => "false".to_owned(),
        Left::Hundredths(n) => (f64::from(n) / 100.0).to_string(),
        Left::Empty => "an empty list".to_owned(),
    })
}

/// Whether of the object that a field takes nothing is required.
pub(super) const fn may_be_unfinished(field: Field) -> bool {
    matches!(field, Field::Asked | Field::ComparedRequest | Field::SavedBox)
}

/// Whether a field may be left out or null.
pub(super) fn is_optional(field: Field) -> bool {
    field.spec().default != Left::Required
}
