//! The closed box: what a meter showed at its cup, and what that hints at.

use crate::link::escape::{joined, unescaped};
use crate::question::Question;
use crate::question::form::{Form};
use crate::question::fields::{GroupForm};
use crate::question::read;
use crate::question::text::{self, Misread};
use crate::rooms::{Given, Kept, Remembers, Wish};
use coilwright_solver::closed_box::{ClosedBox, Filling, closed_box};
use coilwright_solver::meter::Reading;
use coilwright_solver::rig::Amplifier;

/// Where the probes were.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Probes {
    /// At the cup.
    Cup,
    /// On each other.
    Touching,
}

/// What can be done in the room.
#[derive(Clone, Debug)]
pub enum Action {
    /// What the meter showed is typed.
    Shown(Probes, String),
    /// What may be in the box is taken into the rig.
    PlanWith(Filling),
}

/// What the meter showed, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Shown {
    /// At the cup.
    pub cup: String,
    /// With the probes touching.
    pub leads: String,
}

/// Why what the leads read cannot be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unled {
    /// It cannot be read.
    Misread(Misread),
    /// Leads that touch are never open.
    Open,
}

impl Shown {
    /// What was typed.
    #[must_use]
    pub fn at(&self, probes: Probes) -> &str {
        match probes {
            Probes::Cup => &self.cup,
            Probes::Touching => &self.leads,
        }
    }

    /// Writes what was typed.
    fn set(&mut self, probes: Probes, text: String) {
        match probes {
            Probes::Cup => self.cup = text,
            Probes::Touching => self.leads = text,
        }
    }

    /// What the leads read; `None` where nothing is entered.
    ///
    /// # Errors
    /// Why it cannot be.
    pub fn read_leads(&self) -> Result<Option<f64>, Unled> {
        match text::reading(&self.leads) {
            Ok(None) => Ok(None),
            Ok(Some(Reading::Ohms { ohms, .. })) => Ok(Some(ohms)),
            Ok(Some(Reading::Open)) => Err(Unled::Open),
            Err(misread) => Err(Unled::Misread(misread)),
        }
    }

    /// What it hints at, once it can be read.
    #[must_use]
    pub fn found(&self) -> Option<ClosedBox> {
        let reading = text::reading(&self.cup).ok()??;
        Some(closed_box(reading, self.read_leads().ok()?))
    }
}

/// How an amplifier stands in the form.
#[derive(Clone, Debug, PartialEq)]
pub enum Entered {
    /// There is none.
    None,
    /// It cannot be read.
    Unread,
    /// It can.
    Amplifier(Box<Amplifier>),
}

impl Entered {
    /// The amplifier of a form, whatever its drivers are.
    #[must_use]
    pub fn of(question: &Question) -> Self {
        if question.form.amplifier.is_none() {
            return Self::None;
        }
        let of = |read: &read::Read| read.request.as_ref()?.rig.amplifier().cloned();
        let amplifier = of(&question.read).or_else(|| {
            let some = GroupForm { count: "1".into(), ohms: "4".into(), ..GroupForm::default() };
            let amplifier = question.form.amplifier.clone();
            of(&read::read(&Form { groups: vec![some], amplifier, ..Form::default() }))
        });
        amplifier.map_or(Self::Unread, |amplifier| Self::Amplifier(Box::new(amplifier)))
    }
}

/// A form with what may be in the box in place of its drivers.
fn plan_with(form: &Form, filling: &Filling) -> Form {
    let mut form = form.clone();
    form.groups = vec![GroupForm {
        count: filling.drivers.to_string(),
        coils: filling.coils.to_string(),
        ohms: text::ohms_typed(filling.ohms),
        ..GroupForm::default()
    }];
    form.build.reversed.clear();
    (form.joined_only, form.even_only) = (true, true);
    form
}

impl Remembers for Shown {
    type Action = Action;
    type Kept = Self;

    fn act(&mut self, action: Action, given: Given<'_>) -> Wish {
        match action {
            Action::Shown(probes, text) => {
                self.set(probes, text);
                Wish::Nothing
            }
            // The list shows the load that it makes.
            Action::PlanWith(filling) => {
                let form = plan_with(&given.question.form, &filling);
                Wish::Begin(Box::new(form), filling.load())
            }
        }
    }

    fn kept(&self) -> Self {
        self.clone()
    }

    fn begin(&mut self, kept: Self) {
        *self = kept;
    }
}

impl Kept for Shown {
    fn write(&self, part: &mut dyn FnMut(&str, &str)) {
        if *self != Self::default() {
            part("cup", &joined(&[&self.cup, &self.leads]));
        }
    }

    fn read(&mut self, name: &str, value: &str) -> Option<Option<()>> {
        if name != "cup" {
            return None;
        }
        let read = || {
            let (cup, leads) = value.split_once('~')?;
            Some(Self { cup: unescaped(cup)?, leads: unescaped(leads)? })
        };
        Some(read().map(|read| *self = read))
    }
}
