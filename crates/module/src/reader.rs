//! From a tree of JSON values to a checked request, by the one table of fields.
//!
//! Plain JSON values, no coercion: `"2"` is not a number. A field that is left out or
//! `null` takes its default where the table has one. Nothing stops at the first
//! problem: every one is noted with its path, and what could be read is checked on.

mod build;
mod closed_box;
mod diagnose;
mod fields;
mod file;
mod page;

use crate::value::{self, Value};
pub use closed_box::{ClosedBoxDraft, closed_box};
use coilwright_solver::answer::Request;
use coilwright_solver::bounds::{
    Default as Left, Field, Kind, MOST_SAVED_LIMIT, MOST_WRITTEN, Object,
};
use coilwright_solver::problem::{Code, Detail, Path, Problem};
use coilwright_solver::rig::{
    AmplifierDraft, BridgeDraft, Build, BuildDraft, ChannelDraft, Draft, GroupDraft, PointDraft,
    WattsPer,
};
pub(crate) use diagnose::unknown;
pub use diagnose::{Entry, readings};
use fields::most_entries;
pub(crate) use fields::most_measured;
pub use file::{Compared, SavedRig, file};
pub(crate) use page::{page, rows};

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
    read(value).map(|(request, build, _)| (request, build))
}

/// The same with what every driver group is called, blank where it is not.
pub(crate) fn named(value: &Value) -> Result<(Request, Build, Vec<String>), Vec<Problem>> {
    let (request, build, rest) = read(value)?;
    let names = rest.names.into_iter().map(Option::unwrap_or_default).collect();
    Ok((request, build, names))
}

/// What else a request says.
struct Rest {
    names: Vec<Option<String>>,
    from: u32,
}

fn read(value: &Value) -> Result<(Request, Build, Rest), Vec<Problem>> {
    let root = Path::root();
    let Value::Object(fields) = value else {
        return Err(vec![Problem::new(root, Code::NotAnObject, Detail::None)]);
    };
    let mut reader = Reader::default();
    let here = Here { object: Object::Request, fields, path: root };
    let RequestDraft { draft, names, build, joined_only, even_only, from, limit } =
        reader.request(&here);
    let rig = draft.check(reader.problems)?;
    let build = build.check(&rig)?;
    Ok((Request { rig, joined_only, even_only, limit }, build, Rest { names, from }))
}

/// A request as read so far: every value in its bounds, and nothing checked between them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RequestDraft {
    /// Drivers and amplifier.
    pub draft: Draft,
    /// What each driver group is called.
    pub names: Vec<Option<String>>,
    /// How the box is built.
    pub build: BuildDraft,
    /// Only configurations joined at the driver.
    pub joined_only: bool,
    /// Only even configurations.
    pub even_only: bool,
    /// The first row to return, counted from 0.
    pub from: u32,
    /// The most configurations to return.
    pub limit: u32,
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
    /// Whether nothing is required of what is read now.
    unfinished: bool,
}

impl Reader {
    fn request(&mut self, here: &Here<'_>) -> RequestDraft {
        let groups = self.objects(here, Field::Drivers, Self::group);
        let (names, groups) = groups.into_iter().unzip();
        let read = RequestDraft {
            draft: Draft { groups, amplifier: self.amplifier(here) },
            names,
            build: self.build(here),
            joined_only: self.boolean(here, Field::JoinedOnly).unwrap_or(true),
            even_only: self.boolean(here, Field::EvenOnly).unwrap_or(true),
            from: self.whole(here, Field::From).unwrap_or(0),
            limit: self.limit(here),
        };
        self.unknown(here);
        read
    }

    /// The most configurations to return. Of a saved rig it changes nothing, and there are
    /// files from when it could be as many as are listed: what is too large is the most.
    fn limit(&mut self, here: &Here<'_>) -> u32 {
        let limit = value::field(here.fields, Field::Limit.spec().name);
        if self.unfinished
            && let Some(Value::Number(number)) = limit
            && (f64::from(MOST_WRITTEN)..=f64::from(MOST_SAVED_LIMIT)).contains(number)
            && number.fract() == 0.0
        {
            return MOST_WRITTEN;
        }
        self.whole(here, Field::Limit).unwrap_or(0)
    }

    fn group(&mut self, here: &Here<'_>) -> (Option<String>, GroupDraft) {
        let name = self.text(here, Field::Name).map(str::to_owned);
        let group = GroupDraft {
            count: self.whole(here, Field::Count),
            coils: self.whole(here, Field::Coils),
            ohms: self.ohms(here, Field::CoilOhms),
            watts: self.watts(here, Field::Watts),
            watts_per: self
                .word(here, Field::WattsPer)
                .and_then(WattsPer::named)
                .unwrap_or_default(),
            unused: self.whole(here, Field::UnusedCoils),
            dc_ohms: self.numbers(here, Field::DcOhms),
        };
        (name, group)
    }

    fn amplifier(&mut self, here: &Here<'_>) -> Option<AmplifierDraft> {
        let here = self.inner(here, Field::Amplifier)?;
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

    /// An object that is a field, if it is there.
    fn inner<'v>(&mut self, here: &Here<'v>, field: Field) -> Option<Here<'v>> {
        let (value, path) = self.look(here, field)?;
        match (value, field.spec().kind) {
            (Value::Object(fields), Kind::Object(object)) => Some(Here { object, fields, path }),
            _ => {
                self.note(path, Code::WrongType, field);
                None
            }
        }
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
        let required = spec.default == Left::Required && !self.unfinished;
        match value::field(here.fields, spec.name) {
            None if required => {
                self.note(path, Code::Missing, field);
                None
            }
            Some(Value::Null) if required => {
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
