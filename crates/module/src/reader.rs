//! From a tree of JSON values to a checked request, by the one table of fields.
//!
//! Plain JSON values, no coercion: `"2"` is not a number. A field that is left out or
//! `null` takes its default where the table has one. Nothing stops at the first
//! problem: every one is noted with its path, and what could be read is checked on.

mod build;
mod closed_box;
mod diagnose;
mod fields;

use crate::value::{self, Value};
pub use closed_box::closed_box;
use coilwright_solver::answer::Request;
use coilwright_solver::bounds::{Default as Left, Field, Kind, Object};
use coilwright_solver::problem::{Code, Detail, Path, Problem};
use coilwright_solver::rig::{
    AmplifierDraft, BridgeDraft, Build, ChannelDraft, Draft, GroupDraft, PointDraft, WattsPer,
};
pub(crate) use diagnose::unknown;
pub use diagnose::{Entry, readings};
use fields::most_entries;
#[cfg(feature = "js")]
pub(crate) use fields::most_measured;

/// Reads a request.
///
/// # Errors
/// Every problem, in the order of the table, then those that only show between fields.
///
/// # Example
/// ```
/// use coilwright_module::{reader, value::Value};
/// let problems = reader::request(&Value::Null).unwrap_err();
/// assert_eq!(problems[0].code.name(), "not_an_object");
/// assert_eq!(problems[0].path.as_str(), "");
/// ```
pub fn request(value: &Value) -> Result<Request, Vec<Problem>> {
    asked(value).map(|(request, _)| request)
}

/// Reads a request and how its box is built.
///
/// # Errors
/// As [`request`]; what only shows between the box and the rig is told once the rig can
/// be read.
///
/// # Example
/// ```
/// use coilwright_module::{reader, value::Value};
/// assert!(reader::asked(&Value::Null).is_err());
/// ```
pub fn asked(value: &Value) -> Result<(Request, Build), Vec<Problem>> {
    let root = Path::root();
    let Value::Object(fields) = value else {
        return Err(vec![Problem::new(root, Code::NotAnObject, Detail::None)]);
    };
    let mut reader = Reader::default();
    let here = Here { object: Object::Request, fields, path: root };
    let draft = Draft {
        groups: reader.objects(&here, Field::Drivers, Reader::group),
        amplifier: reader.amplifier(&here),
    };
    let build = reader.build(&here);
    let joined_only = reader.boolean(&here, Field::JoinedOnly);
    let even_only = reader.boolean(&here, Field::EvenOnly);
    let limit = reader.whole(&here, Field::Limit);
    reader.unknown(&here);
    let rig = draft.check(reader.problems)?;
    let build = build.check(&rig)?;
    let request = Request {
        rig,
        joined_only: joined_only.unwrap_or(true),
        even_only: even_only.unwrap_or(true),
        limit: limit.unwrap_or(0),
    };
    Ok((request, build))
}

/// An object being read.
struct Here<'v> {
    object: Object,
    fields: &'v [(String, Value)],
    path: Path,
}

impl Here<'_> {
    fn path(&self, field: Field) -> Path {
        debug_assert_eq!(field.spec().object, self.object);
        self.path.field(field.spec().name)
    }
}

#[derive(Default)]
struct Reader {
    problems: Vec<Problem>,
}

impl Reader {
    fn group(&mut self, here: &Here<'_>) -> GroupDraft {
        self.text(here, Field::Name);
        GroupDraft {
            count: self.whole(here, Field::Count),
            coils: self.whole(here, Field::Coils),
            ohms: self.ohms(here, Field::CoilOhms),
            watts: self.watts(here, Field::Watts),
            watts_per: match self.word(here, Field::WattsPer) {
                Some("coil") => WattsPer::Coil,
                _ => WattsPer::Driver,
            },
            unused: self.whole(here, Field::UnusedCoils),
            dc_ohms: self.numbers(here, Field::DcOhms),
        }
    }

    fn amplifier(&mut self, here: &Here<'_>) -> Option<AmplifierDraft> {
        let field = Field::Amplifier;
        let (value, path) = self.look(here, field)?;
        let Value::Object(fields) = value else {
            self.note(path, Code::WrongType, field);
            return None;
        };
        let here = Here { object: Object::Amplifier, fields, path };
        let draft = AmplifierDraft {
            count: self.whole(&here, Field::AmplifierCount),
            channels: self.objects(&here, Field::Channels, Self::channel),
            bridges: self.objects(&here, Field::Bridges, Self::bridge),
        };
        self.unknown(&here);
        Some(draft)
    }

    fn channel(&mut self, here: &Here<'_>) -> ChannelDraft {
        ChannelDraft {
            least: self.ohms(here, Field::ChannelLeast),
            rated: self.objects(here, Field::ChannelRated, Self::point),
            terminal_pairs: self.whole(here, Field::TerminalPairs),
        }
    }

    fn bridge(&mut self, here: &Here<'_>) -> BridgeDraft {
        BridgeDraft {
            channels: self.pair(here, Field::BridgeChannels),
            least: self.ohms(here, Field::BridgeLeast),
            rated: self.objects(here, Field::BridgeRated, Self::point),
        }
    }

    fn point(&mut self, here: &Here<'_>) -> PointDraft {
        PointDraft {
            ohms: self.ohms(here, Field::PointOhms),
            watts: self.watts(here, Field::PointWatts),
        }
    }

    /// The entries of a list of objects. One that is no object keeps its place, so that
    /// those after it keep their paths. A list that is too long is read to its bound.
    fn objects<T: Default>(
        &mut self,
        here: &Here<'_>,
        field: Field,
        read: fn(&mut Self, &Here<'_>) -> T,
    ) -> Vec<T> {
        let Some((value, path)) = self.look(here, field) else {
            return Vec::new();
        };
        let (Value::List(entries), Kind::Objects { of, .. }) = (value, field.spec().kind) else {
            self.note(path, Code::WrongType, field);
            return Vec::new();
        };
        let most = most_entries(field);
        if entries.len() > most {
            self.note(path.clone(), Code::OutOfRange, field);
        }
        let mut read_so_far = Vec::new();
        for (i, entry) in entries.iter().take(most).enumerate() {
            let path = path.entry(i);
            let Value::Object(fields) = entry else {
                let detail = Detail::Entry(field);
                self.problems.push(Problem::new(path, Code::WrongType, detail));
                read_so_far.push(T::default());
                continue;
            };
            let here = Here { object: of, fields, path };
            read_so_far.push(read(self, &here));
            self.unknown(&here);
        }
        read_so_far
    }

    /// Notes every field that the object does not have.
    fn unknown(&mut self, here: &Here<'_>) {
        for (name, _) in here.fields {
            if !here.object.fields().any(|field| field.spec().name == name) {
                let detail = Detail::Name(name.clone());
                let path = here.path.field(name);
                self.problems.push(Problem::new(path, Code::UnknownField, detail));
            }
        }
    }

    /// The value of a field, if there is one; a required one that is not is noted.
    fn look<'v>(&mut self, here: &Here<'v>, field: Field) -> Option<(&'v Value, Path)> {
        let path = here.path(field);
        let spec = field.spec();
        match value::field(here.fields, spec.name) {
            None if spec.default == Left::Required => {
                self.note(path, Code::Missing, field);
                None
            }
            Some(Value::Null) if spec.default == Left::Required => {
                self.note(path, Code::WrongType, field);
                None
            }
            None | Some(Value::Null) => None,
            Some(value) => Some((value, path)),
        }
    }

    fn note(&mut self, path: Path, code: Code, field: Field) {
        self.problems.push(Problem::new(path, code, Detail::Field(field)));
    }
}

#[cfg(test)]
#[path = "reader_tests.rs"]
mod tests;
