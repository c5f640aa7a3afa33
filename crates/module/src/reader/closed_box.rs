//! What a meter showed at a closed box.

use super::{Here, Reader};
use crate::value::Value;
use coilwright_solver::bounds::{Default as Left, Field, OPEN, Object};
use coilwright_solver::meter::Reading;
use coilwright_solver::problem::{Code, Detail, Path, Problem};

/// Reads what was read at the cup of a closed box, and what the leads read touching.
///
/// # Errors
/// Every problem, in the order of the table.
///
/// # Example
/// ```
/// use coilwright_module::{reader, value::Value};
/// use coilwright_solver::meter::Reading;
/// let asked = Value::object([("reading", Value::Number(3.4)), ("leads", Value::Number(0.2))]);
/// let read = reader::closed_box(&asked).unwrap();
/// assert_eq!(read, (Reading::Ohms { ohms: 3.4, count: 0.1 }, Some(0.2)));
/// assert!(reader::closed_box(&Value::Null).is_err());
/// ```
pub fn closed_box(value: &Value) -> Result<(Reading, Option<f64>), Vec<Problem>> {
    let root = Path::root();
    let Value::Object(fields) = value else {
        let detail = Detail::Field(Field::CupReading);
        return Err(vec![Problem::new(root, Code::NotAnObject, detail)]);
    };
    let mut reader = Reader::default();
    let here = Here { object: Object::ClosedBox, fields, path: root };
    let ClosedBoxDraft { reading, leads, .. } = reader.closed_box(&here);
    match reading {
        Some(reading) if reader.problems.is_empty() => Ok((reading, leads)),
        _ => Err(reader.problems),
    }
}

/// What a meter showed at a closed box, as read so far.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ClosedBoxDraft {
    /// At the cup, with the step of the meter.
    pub reading: Option<Reading>,
    /// With the probes touching.
    pub leads: Option<f64>,
    /// The smallest step of the meter, where that is stated.
    pub step: Option<f64>,
}

/// Ohms, or no end, with the step of the meter: the usual one where none is stated.
pub(super) fn step_of(ohms: Option<f64>, step: Option<f64>, field: Field) -> Reading {
    let usual = match field.spec().default {
        Left::Hundredths(n) => f64::from(n) / 100.0,
        _ => 0.0,
    };
    ohms.map_or(Reading::Open, |ohms| Reading::Ohms { ohms, count: step.unwrap_or(usual) })
}

impl Reader {
    pub(super) fn closed_box(&mut self, here: &Here<'_>) -> ClosedBoxDraft {
        let reading = self.reading(here, Field::CupReading);
        let leads = self.number(here, Field::LeadsReading);
        let step = self.number(here, Field::ReadingStep);
        self.unknown(here);
        let reading = reading.map(|ohms| step_of(ohms, step, Field::ReadingStep));
        ClosedBoxDraft { reading, leads, step }
    }

    /// Ohms, or `None` where there is no end; nothing where it cannot be read.
    pub(super) fn reading(&mut self, here: &Here<'_>, field: Field) -> Option<Option<f64>> {
        self.read(here, field, |value| match value {
            Value::Number(ohms) => field.reading(*ohms).map(Some),
            Value::Text(text) if text == OPEN => Ok(None),
            Value::Text(_) => Err(Code::NotOneOf),
            _ => Err(Code::WrongType),
        })
    }
}
