//! Which rows of a list are wanted.

use super::fields::number;
use super::{Here, Reader};
use crate::value::Value;
use coilwright_solver::answer::Request;
use coilwright_solver::bounds::{Field, Object};
use coilwright_solver::problem::{Path, Problem};

/// Reads a request and the first row of its list that is wanted, counted from 0.
///
/// # Errors
/// As [`super::request`].
pub(crate) fn rows(value: &Value) -> Result<(Request, u32), Vec<Problem>> {
    super::read(value).map(|(request, _, draft)| (request, draft.from))
}

/// Reads the first row and the most rows of a page, each where it is given.
///
/// # Errors
/// Every problem with either.
pub(crate) fn page(
    from: Option<&Value>,
    limit: Option<&Value>,
) -> Result<(Option<u32>, Option<u32>), Vec<Problem>> {
    let fields: Vec<(String, Value)> = [(Field::From, from), (Field::Limit, limit)]
        .into_iter()
        .filter_map(|(field, value)| Some((field.spec().name.to_owned(), value?.clone())))
        .collect();
    let here = Here { object: Object::Request, fields: &fields, path: Path::root() };
    let mut reader = Reader::default();
    let mut whole = |field: Field| reader.read(&here, field, |value| field.whole(number(value)?));
    let read = (whole(Field::From), whole(Field::Limit));
    if reader.problems.is_empty() { Ok(read) } else { Err(reader.problems) }
}
