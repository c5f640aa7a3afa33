//! Single fields: each kind of value in the table, read or noted.

use super::{Here, Reader};
use crate::value::Value;
use coilwright_solver::bounds::{Default as Left, Field, Kind};
use coilwright_solver::ohms::{Ohms, Watts};
use coilwright_solver::problem::{Code, Detail, Problem};

impl Reader {
    /// A field's value by a reading of it; what cannot be read is noted.
    pub(super) fn read<'v, T>(
        &mut self,
        here: &Here<'v>,
        field: Field,
        read: impl FnOnce(&'v Value) -> Result<T, Code>,
    ) -> Option<T> {
        let (value, path) = self.look(here, field)?;
        match read(value) {
            Ok(read) => Some(read),
            Err(code) => {
                self.note(path, code, field);
                None
            }
        }
    }

    pub(super) fn whole(&mut self, here: &Here<'_>, field: Field) -> Option<u32> {
        let read = self.read(here, field, |value| field.whole(number(value)?));
        read.or(match field.spec().default {
            Left::Whole(number) => Some(number),
            _ => None,
        })
    }

    pub(super) fn boolean(&mut self, here: &Here<'_>, field: Field) -> Option<bool> {
        let read = self.read(here, field, |value| match value {
            Value::Bool(value) => Ok(*value),
            _ => Err(Code::WrongType),
        });
        read.or((field.spec().default == Left::True).then_some(true))
    }

    pub(super) fn ohms(&mut self, here: &Here<'_>, field: Field) -> Option<Ohms> {
        self.read(here, field, |value| match value {
            Value::Number(number) => field.ohms_number(*number),
            Value::Text(text) => field.ohms_text(text),
            _ => Err(Code::WrongType),
        })
    }

    pub(super) fn watts(&mut self, here: &Here<'_>, field: Field) -> Option<Watts> {
        self.read(here, field, |value| field.watts(number(value)?))
    }

    pub(super) fn number(&mut self, here: &Here<'_>, field: Field) -> Option<f64> {
        self.read(here, field, |value| field.number(number(value)?))
    }

    pub(super) fn word(&mut self, here: &Here<'_>, field: Field) -> Option<&'static str> {
        let read = self.read(here, field, |value| match (value, field.spec().kind) {
            (Value::Text(text), Kind::OneOfWords(words)) => {
                let word = words.iter().find(|word| *word == text);
                word.copied().ok_or(Code::NotOneOf)
            }
            _ => Err(Code::WrongType),
        });
        read.or(match field.spec().default {
            Left::Word(word) => Some(word),
            _ => None,
        })
    }

    pub(super) fn text<'v>(&mut self, here: &Here<'v>, field: Field) -> Option<&'v str> {
        self.read(here, field, |value| match value {
            Value::Text(text) => field.text(text),
            _ => Err(Code::WrongType),
        })
    }

    /// Different whole numbers; whether the rig has what they count is not asked here.
    pub(super) fn different(&mut self, here: &Here<'_>, field: Field) -> Vec<u32> {
        let Some((value, path)) = self.look(here, field) else { return Vec::new() };
        let (Value::List(entries), Kind::Different { least, most }) = (value, field.spec().kind)
        else {
            self.note(path, Code::WrongType, field);
            return Vec::new();
        };
        if entries.len() > size(most) {
            self.note(path, Code::OutOfRange, field);
            return Vec::new();
        }
        let mut numbers = Vec::new();
        for (i, entry) in entries.iter().enumerate() {
            let read = number(entry).and_then(whole).and_then(|number| match number {
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

    /// A list of numbers. One that cannot be read keeps its place, so that the length
    /// is still checked against the rig.
    pub(super) fn numbers(&mut self, here: &Here<'_>, field: Field) -> Option<Vec<f64>> {
        let (value, path) = self.look(here, field)?;
        let Value::List(entries) = value else {
            self.note(path, Code::WrongType, field);
            return None;
        };
        let most = most_measured();
        if entries.len() > most {
            let most = u64::try_from(most).unwrap_or(u64::MAX);
            let detail = Detail::Most { most, found: None };
            self.problems.push(Problem::new(path, Code::OutOfRange, detail));
            return None;
        }
        let mut numbers = Vec::with_capacity(entries.len());
        for (i, entry) in entries.iter().enumerate() {
            let read = number(entry).and_then(|number| field.number(number));
            numbers.push(read.unwrap_or_else(|code| {
                let detail = Detail::Entry(field);
                self.problems.push(Problem::new(path.entry(i), code, detail));
                f64::NAN
            }));
        }
        Some(numbers)
    }

    /// Two channel numbers; whether there are such channels, the rig knows.
    pub(super) fn pair(&mut self, here: &Here<'_>, field: Field) -> Option<[u32; 2]> {
        let (value, path) = self.look(here, field)?;
        let Value::List(entries) = value else {
            self.note(path, Code::WrongType, field);
            return None;
        };
        let [first, second] = entries.as_slice() else {
            self.note(path, Code::OutOfRange, field);
            return None;
        };
        let mut pair = [first, second].into_iter().enumerate().map(|(i, entry)| {
            let read = number(entry).and_then(whole);
            if let Err(code) = read {
                let detail = Detail::Entry(field);
                self.problems.push(Problem::new(path.entry(i), code, detail));
            }
            read.ok()
        });
        let (first, second) = (pair.next()?, pair.next()?);
        Some([first?, second?])
    }
}

pub(super) fn number(value: &Value) -> Result<f64, Code> {
    match value {
        Value::Number(number) => Ok(*number),
        _ => Err(Code::WrongType),
    }
}

/// A whole number that is not negative.
pub(super) fn whole(number: f64) -> Result<u32, Code> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "casts saturate, and the result is compared"
    )]
    let whole = number as u32;
    if f64::from(whole) == number {
        Ok(whole)
    } else if number.is_finite() && number.fract() == 0.0 {
        Err(Code::OutOfRange)
    } else {
        Err(Code::WrongType)
    }
}

/// The most entries of a list of objects.
pub(crate) fn most_entries(field: Field) -> usize {
    match field.spec().kind {
        Kind::Objects { most, .. } => size(most),
        _ => 0,
    }
}

/// The most coils a group can have, and so the most readings.
pub(crate) fn most_measured() -> usize {
    let drivers = match Field::Count.spec().kind {
        Kind::Whole { most, .. } => most,
        _ => 0,
    };
    let coils = match Field::Coils.spec().kind {
        Kind::OneOfNumbers(list) => list.iter().copied().max().unwrap_or(0),
        _ => 0,
    };
    size(drivers.saturating_mul(coils))
}

fn size(n: u32) -> usize {
    usize::try_from(n).unwrap_or(usize::MAX)
}
