//! What stands at the head of the job sheet beside the name of the rig: whose it is, what it
//! is in, who did it. Text of whoever wrote it, kept as it was typed.

use crate::link::escape::{escaped, unescaped};
use crate::rooms::{Given, Kept, Remembers, Wish};

/// A line of the head.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// Whose rig it is.
    Customer,
    /// What it is in.
    Vehicle,
    /// Who did it.
    DoneBy,
}

impl Line {
    /// Every line, in the order of the paper.
    pub const ALL: [Self; 3] = [Self::Customer, Self::Vehicle, Self::DoneBy];

    /// Its name in links.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Customer => "customer",
            Self::Vehicle => "vehicle",
            Self::DoneBy => "done_by",
        }
    }
}

/// What can be done in the room.
#[derive(Clone, Debug)]
pub enum Action {
    /// A line is typed.
    Write(Line, String),
}

/// What was typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct About([String; 3]);

impl About {
    /// What stands in a line.
    #[must_use]
    pub fn line(&self, line: Line) -> &str {
        let [customer, vehicle, done_by] = &self.0;
        match line {
            Line::Customer => customer,
            Line::Vehicle => vehicle,
            Line::DoneBy => done_by,
        }
    }

    /// Writes a line.
    fn write_line(&mut self, line: Line, text: String) {
        let [customer, vehicle, done_by] = &mut self.0;
        let place = match line {
            Line::Customer => customer,
            Line::Vehicle => vehicle,
            Line::DoneBy => done_by,
        };
        *place = text;
    }

    /// What was typed into some lines.
    #[cfg(test)]
    pub(crate) fn of(lines: [&str; 3]) -> Self {
        Self(lines.map(str::to_owned))
    }
}

impl Remembers for About {
    type Action = Action;
    type Kept = Self;

    fn act(&mut self, action: Action, _given: Given<'_>) -> Wish {
        let Action::Write(line, text) = action;
        self.write_line(line, text);
        Wish::Nothing
    }

    fn kept(&self) -> Self {
        self.clone()
    }

    fn begin(&mut self, kept: Self) {
        *self = kept;
    }
}

impl Kept for About {
    fn write(&self, part: &mut dyn FnMut(&str, &str)) {
        for line in Line::ALL {
            let text = self.line(line);
            if !text.is_empty() {
                part(line.name(), &escaped(text, b""));
            }
        }
    }

    fn read(&mut self, name: &str, value: &str) -> Option<Option<()>> {
        let line = Line::ALL.into_iter().find(|line| line.name() == name)?;
        Some(unescaped(value).map(|text| self.write_line(line, text)))
    }
}
