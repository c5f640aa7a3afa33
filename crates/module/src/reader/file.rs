//! A file of saved rigs, checked whole before anything of it is taken.

use super::closed_box::ClosedBoxDraft;
use super::{Entry, Here, Reader, RequestDraft};
use crate::value::Value;
use coilwright_solver::bounds::{Field, Object};
use coilwright_solver::problem::{Code, Detail, Path, Problem};

/// A rig as it was saved. What only shows between fields is not checked: the rig may be
/// unfinished, and whoever opens it reads on.
#[derive(Clone, Debug, PartialEq)]
pub struct SavedRig {
    /// What it is called.
    pub name: Option<String>,
    /// What is asked of it, finished or not.
    pub request: RequestDraft,
    /// What stands in fields and is no value yet: the path of each, and its text.
    pub typed: Vec<(String, String)>,
    /// The chosen configuration, not checked against the rig.
    pub key: Option<String>,
    /// An act of the step at hand, counted from 1; a plan may have fewer.
    pub step: u32,
    /// The acts that are done, counted from 1 and none twice.
    pub done: Vec<u32>,
    /// What was read and answered, not checked against the plan.
    pub readings: Vec<Entry>,
    /// Why power went on against the meter, where it did.
    pub against: Option<String>,
    /// What a meter showed at a closed box.
    pub closed_box: Option<ClosedBoxDraft>,
    /// What was put aside to compare.
    pub compared: Vec<Compared>,
}

/// A configuration that was put aside to compare.
#[derive(Clone, Debug, PartialEq)]
pub struct Compared {
    /// Its key, not checked against its rig.
    pub key: String,
    /// Its rig; `None` where that is the one it was put aside from.
    pub request: Option<RequestDraft>,
}

/// Reads a file of saved rigs.
///
/// # Errors
/// Every problem, in the order of the table; of a file of another version that alone, since
/// its fields follow other rules.
///
/// # Example
/// ```
/// use coilwright_module::reader;
/// let text = r#"{ "contract_version": 1, "rigs": [
///     { "name": "Float, rear", "request": { "drivers": [{ "count": 2, "coils": 2 }] },
///       "typed": [{ "path": "drivers[0].ohms", "text": "4,5 or so" }] } ] }"#;
/// let rigs = reader::file(&serde_json::from_str(text).unwrap()).unwrap();
/// assert_eq!(rigs[0].name.as_deref(), Some("Float, rear"));
/// assert_eq!(rigs[0].request.draft.groups[0].ohms, None);
/// assert_eq!(rigs[0].typed[0].1, "4,5 or so");
///
/// let text = text.replace("\"count\": 2", "\"count\": \"two\"");
/// let problems = reader::file(&serde_json::from_str(&text).unwrap()).unwrap_err();
/// assert_eq!(problems[0].path.as_str(), "rigs[0].request.drivers[0].count");
/// assert_eq!(problems[0].code.name(), "wrong_type");
/// ```
pub fn file(value: &Value) -> Result<Vec<SavedRig>, Vec<Problem>> {
    let root = Path::root();
    let Value::Object(fields) = value else {
        let detail = Detail::Field(Field::Rigs);
        return Err(vec![Problem::new(root, Code::NotAnObject, detail)]);
    };
    let mut reader = Reader::default();
    let here = Here { object: Object::File, fields, path: root };
    reader.whole(&here, Field::FileVersion);
    if reader.problems.iter().any(|problem| problem.code == Code::NotOneOf) {
        return Err(reader.problems);
    }
    let noted = reader.problems.len();
    let rigs = reader.objects(&here, Field::Rigs, Reader::saved);
    if rigs.is_empty() && reader.problems.len() == noted {
        reader.note(here.path(Field::Rigs), Code::OutOfRange, Field::Rigs);
    }
    reader.unknown(&here);
    if reader.problems.is_empty() {
        Ok(rigs.into_iter().flatten().collect())
    } else {
        Err(reader.problems)
    }
}

impl Reader {
    /// A rig; nothing where it cannot be read.
    fn saved(&mut self, here: &Here<'_>) -> Option<SavedRig> {
        let name = self.own(here, Field::RigName);
        let request = self.unfinished(here, Field::Asked, Self::request);
        let typed = self.objects(here, Field::TypedTexts, |reader, here| {
            let path = reader.own(here, Field::TypedPath);
            (path.unwrap_or_default(), reader.own(here, Field::TypedText).unwrap_or_default())
        });
        let key = self.own(here, Field::ChosenKey);
        let step = self.whole(here, Field::StepAtHand);
        let done = self.different(here, Field::StepsDone);
        let readings = self.objects(here, Field::SavedReadings, Self::entry);
        let against = self.own(here, Field::Against);
        let closed_box = self.unfinished(here, Field::SavedBox, Self::closed_box);
        let compared = self.objects(here, Field::PutAside, |reader, here| {
            let key = reader.own(here, Field::ComparedKey);
            let request = reader.unfinished(here, Field::ComparedRequest, Self::request);
            Some(Compared { key: key?, request })
        });
        Some(SavedRig {
            name,
            request: request?,
            typed,
            key,
            step: step?,
            done,
            readings: readings.into_iter().flatten().collect(),
            against,
            closed_box,
            compared: compared.into_iter().flatten().collect(),
        })
    }

    fn own(&mut self, here: &Here<'_>, field: Field) -> Option<String> {
        self.text(here, field).map(str::to_owned)
    }

    /// An object that is a field, of which nothing is required.
    fn unfinished<T>(
        &mut self,
        here: &Here<'_>,
        field: Field,
        read: fn(&mut Self, &Here<'_>) -> T,
    ) -> Option<T> {
        let here = self.inner(here, field)?;
        self.unfinished = true;
        let read = read(self, &here);
        self.unfinished = false;
        Some(read)
    }
}

#[cfg(test)]
#[path = "file_tests.rs"]
mod tests;
