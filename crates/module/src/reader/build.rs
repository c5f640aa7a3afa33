//! How the box is built.

use super::{Here, Reader};
use crate::value::Value;
use coilwright_solver::bounds::{Field, Kind};
use coilwright_solver::problem::{Code, Detail, Problem};
use coilwright_solver::rig::{BuildDraft, Cups, Fed, JoinedAt, TakesDraft};

impl Reader {
    /// The box; what is left out is as usual.
    pub(super) fn build(&mut self, here: &Here<'_>) -> BuildDraft {
        let Some(here) = &self.inner(here, Field::Build) else {
            return BuildDraft::default();
        };
        let draft = BuildDraft {
            cups: self.word(here, Field::Cups).and_then(Cups::named).unwrap_or_default(),
            cup_count: self.whole(here, Field::CupCount),
            joined_at: self.word(here, Field::JoinedAt).and_then(JoinedAt::named),
            fed: self.word(here, Field::Fed).and_then(Fed::named).unwrap_or_default(),
            mounted_reversed: self.drivers(here, Field::MountedReversed),
            not_in_vehicle: self.boolean(here, Field::Vehicle) == Some(false),
            conductor_mm2: self.number(here, Field::ConductorArea),
            metres: [
                Field::BetweenCoils,
                Field::BetweenDrivers,
                Field::ToCup,
                Field::BetweenCups,
                Field::ToAmplifier,
            ]
            .map(|field| self.number(here, field)),
            takes: [Field::DriverTerminals, Field::CupTerminals, Field::AmplifierTerminals]
                .map(|field| self.takes(here, field)),
        };
        self.unknown(here);
        draft
    }

    fn takes(&mut self, here: &Here<'_>, field: Field) -> TakesDraft {
        let Some(here) = self.inner(here, field) else { return TakesDraft::default() };
        let draft = TakesDraft {
            conductors: self.whole(&here, Field::Conductors),
            push_on: self.boolean(&here, Field::PushOn) == Some(true),
            largest_mm2: self.number(&here, Field::LargestArea),
        };
        self.unknown(&here);
        draft
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

    /// Driver numbers; whether there are such drivers, the rig knows.
    fn drivers(&mut self, here: &Here<'_>, field: Field) -> Vec<u32> {
        let Some((value, path)) = self.look(here, field) else { return Vec::new() };
        let (Value::List(entries), Kind::DriverNumbers { least, most }) =
            (value, field.spec().kind)
        else {
            self.note(path, Code::WrongType, field);
            return Vec::new();
        };
        if entries.len() > usize::try_from(most).unwrap_or(usize::MAX) {
            self.note(path, Code::OutOfRange, field);
            return Vec::new();
        }
        let mut numbers = Vec::new();
        for (i, entry) in entries.iter().enumerate() {
            let read = super::fields::number(entry).and_then(super::fields::whole);
            let read = read.and_then(|number| match number {
                number if number < least || number > most => Err(Code::OutOfRange),
                number if numbers.contains(&number) => Err(Code::Repeated),
                number => Ok(number),
            });
            match read {
                Ok(number) => numbers.push(number),
                Err(code) => {
                    let detail = Detail::Entry(field);
                    self.problems.push(Problem::new(path.entry(i), code, detail));
                }
            }
        }
        numbers
    }
}

#[cfg(test)]
#[path = "build_tests.rs"]
mod tests;
