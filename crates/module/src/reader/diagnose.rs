//! What was read at check points, and what was answered to questions.

use super::closed_box::step_of;
use super::{Here, Reader};
use crate::value::{self, Value};
use coilwright_solver::bounds::{Field, Object};
use coilwright_solver::meter::{Point, Question, Read};
use coilwright_solver::problem::{Code, Detail, Path, Problem};
use coilwright_solver::wiring::Plan;

/// One entry of the list that `diagnose` takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Entry {
    /// A reading at a check point.
    Read(Read),
    /// What was answered to a question.
    Answer(Question, bool),
}

/// Reads the list of readings and answers: what stands at each place, where it can be
/// read, and every problem with the list. Whether a plan has the points is not asked here.
///
/// # Example
/// ```
/// use coilwright_module::{reader, value::Value};
/// let read = Value::object([("point", Value::Text("2".to_owned())), ("reads", Value::Number(-1.0))]);
/// let (entries, problems) = reader::readings(Some(&Value::List(vec![read])));
/// assert_eq!(entries, [None]);
/// assert_eq!(problems[0].path.as_str(), "readings[0].reads");
/// assert_eq!(problems[0].code.name(), "out_of_range");
/// ```
#[must_use]
pub fn readings(list: Option<&Value>) -> (Vec<Option<Entry>>, Vec<Problem>) {
    let name = Field::Readings.spec().name;
    let fields: Vec<(String, Value)> =
        list.map(|list| (name.to_owned(), list.clone())).into_iter().collect();
    let here = Here { object: Object::Diagnose, fields: &fields, path: Path::root() };
    let mut reader = Reader::default();
    let entries = reader.objects(&here, Field::Readings, Reader::entry);
    (entries, reader.problems)
}

/// A problem for each entry whose point is none of a plan's.
pub(crate) fn unknown<'a>(
    entries: &'a [Option<Entry>],
    plan: &'a Plan,
) -> impl Iterator<Item = Problem> + 'a {
    entries.iter().enumerate().filter_map(|(at, entry)| match entry {
        Some(Entry::Read(read)) if !read.point.is_of(plan) => {
            let list = Path::root().field(Field::Readings.spec().name);
            let path = list.entry(at).field(Field::CheckPoint.spec().name);
            Some(Problem::new(path, Code::NotOneOf, Detail::Field(Field::CheckPoint)))
        }
        _ => None,
    })
}

impl Reader {
    /// A point and what was read there, or a question and its answer.
    pub(super) fn entry(&mut self, here: &Here<'_>) -> Option<Entry> {
        let has = |field: &Field| {
            let value = value::field(here.fields, field.spec().name);
            value.is_some_and(|value| *value != Value::Null)
        };
        let point = self.check_point(here);
        let reads = self.reading(here, Field::Reads);
        let step = self.number(here, Field::ReadsStep);
        let question = self.word(here, Field::Question);
        let answer = self.boolean(here, Field::Answered);
        let is_read = [Field::CheckPoint, Field::Reads, Field::ReadsStep].iter().any(has);
        let of_question = [Field::Question, Field::Answered];
        let asked = of_question.into_iter().find(has);
        if let (Some(field), true) = (asked, is_read) {
            self.note(here.path(field), Code::NotPossibleHere, field);
            return None;
        }
        let both = if asked.is_some() { of_question } else { [Field::CheckPoint, Field::Reads] };
        for field in both {
            if !has(&field) {
                self.note(here.path(field), Code::Missing, field);
            }
        }
        if asked.is_some() {
            return Some(Entry::Answer(Question::named(question?)?, answer?));
        }
        let (point, reads) = (point?, reads?);
        Some(Entry::Read(Read { point, reading: step_of(reads, step, Field::ReadsStep) }))
    }

    /// A check point by a name that some plan may have.
    fn check_point(&mut self, here: &Here<'_>) -> Option<Point> {
        let name = self.text(here, Field::CheckPoint)?;
        let point = Point::named(name);
        if point.is_none() {
            self.note(here.path(Field::CheckPoint), Code::NotOneOf, Field::CheckPoint);
        }
        point
    }
}

#[cfg(test)]
#[path = "diagnose_tests.rs"]
mod tests;
