//! The closed box: what a meter showed at its cup, and what that hints at.

use super::State;
use super::form::{Form, GroupForm};
use super::read;
use super::text::{self, Misread};
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
    pub fn set(&mut self, probes: Probes, text: String) {
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

impl State {
    /// The amplifier of the form, whatever its drivers are.
    #[must_use]
    pub fn entered(&self) -> Entered {
        if self.form.amplifier.is_none() {
            return Entered::None;
        }
        let of = |read: &read::Read| read.request.as_ref()?.rig.amplifier().cloned();
        let amplifier = of(&self.read).or_else(|| {
            let some = GroupForm { count: "1".into(), ohms: "4".into(), ..GroupForm::default() };
            let amplifier = self.form.amplifier.clone();
            of(&read::read(&Form { groups: vec![some], amplifier, ..Form::default() }))
        });
        amplifier.map_or(Entered::Unread, |amplifier| Entered::Amplifier(Box::new(amplifier)))
    }

    /// Takes what may be in the box into the form; the list shows the load it makes.
    pub(super) fn plan_with(&mut self, filling: &Filling) {
        let mut form = self.form.clone();
        form.groups = vec![GroupForm {
            count: filling.drivers.to_string(),
            coils: filling.coils.to_string(),
            ohms: text::ohms_typed(filling.ohms),
            ..GroupForm::default()
        }];
        form.build.reversed.clear();
        (form.joined_only, form.even_only) = (true, true);
        self.start_with(form);
        self.look.load = filling.load();
    }
}

#[cfg(test)]
mod tests;
