//! What the driver groups are called. A name is no part of the question: whoever types one
//! waits for no list, and nothing that was planned or put aside is another thing by it.

use super::fields::{Group, GroupForm, Part};
use super::form::Form;
use super::place::Place;
use super::trouble::{Trouble, What};
use coilwright_solver::bounds::Field;
use coilwright_solver::problem::{Detail, Problem};

impl GroupForm {
    /// Whether both are about the same drivers, whatever they are called.
    #[must_use]
    pub fn same_drivers(&self, other: &Self) -> bool {
        let both = self.texts().into_iter().zip(other.texts());
        let mut rows = Self::ROWS.iter().zip(both);
        rows.all(|(row, (own, other))| row.field == Field::Name || own == other)
    }
}

impl Form {
    /// What every group is called; blank where it is not, or by no name that can be.
    #[must_use]
    pub fn names(&self) -> Vec<String> {
        let mut names = Vec::new();
        for group in &self.groups {
            names.push(Field::Name.text(&group.name).unwrap_or_default().to_owned());
        }
        names
    }

    /// Whether its groups are called as those of another form.
    #[must_use]
    pub fn is_called_as(&self, other: &Self) -> bool {
        let mut both = self.groups.iter().zip(&other.groups);
        both.all(|(group, other)| group.name == other.name)
    }

    /// Calls its groups as another form does.
    pub fn call_as(&mut self, other: &Self) {
        for (group, other) in self.groups.iter_mut().zip(&other.groups) {
            group.name.clone_from(&other.name);
        }
    }
}

/// What is wrong with names: it stands beside them and in the way of nothing.
pub(super) fn troubles(form: &Form) -> Vec<Trouble> {
    let mut troubles = Vec::new();
    for (i, group) in form.groups.iter().enumerate() {
        if let Err(code) = Field::Name.text(&group.name) {
            let place = Place::Group(i, Group::Name).path();
            let problem = Problem::new(place.clone(), code, Detail::Field(Field::Name));
            troubles.push(Trouble { path: place.to_string(), what: What::Problem(problem) });
        }
    }
    troubles
}
