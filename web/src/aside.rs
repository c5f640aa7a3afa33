//! Configurations put aside to compare, each with the rig it belongs to.

use crate::question::form::{Form, most};
use crate::question::read;
use coilwright_solver::answer::{self, Configuration};
use coilwright_solver::bounds::Field;
use coilwright_solver::rig::Rig;

/// The most that stand side by side.
pub const MOST: usize = most(Field::PutAside);

/// A configuration that was put aside to compare.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Compared {
    /// The rig it belongs to.
    pub form: Form,
    /// Its key.
    pub key: String,
}

impl Compared {
    /// The configuration with its rig, where both can be read.
    #[must_use]
    pub fn read(&self) -> Option<(Rig, Configuration)> {
        let rig = read::read(&self.form).request?.rig;
        let one = answer::one(&rig, &self.key).ok()?;
        Some((rig, one))
    }

    /// Whether both are about the same rig; filters and names are no part of it.
    #[must_use]
    pub fn same_rig(&self, form: &Form) -> bool {
        let (own, others) = (&self.form.groups, &form.groups);
        own.len() == others.len()
            && own.iter().zip(others).all(|(own, other)| own.same_drivers(other))
            && self.form.amplifier == form.amplifier
    }
}

/// What was put aside to compare.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Aside {
    /// The first of them stands first.
    pub compared: Vec<Compared>,
}

/// What can be done about it.
#[derive(Clone, Debug)]
pub enum Action {
    /// A configuration of the rig is put aside to compare, or taken back.
    Compare(String),
    /// One of those put aside goes.
    LeaveOut(usize),
}

impl Aside {
    /// Whether a configuration of a rig is among those put aside.
    #[must_use]
    pub fn has(&self, asked: &Form, key: &str) -> bool {
        self.compared.iter().any(|one| one.key == key && one.same_rig(asked))
    }

    /// Does what is wanted, with what was asked last.
    pub fn act(&mut self, action: Action, asked: &Form) {
        match action {
            Action::Compare(key) if self.has(asked, &key) => {
                self.compared.retain(|one| one.key != key || !one.same_rig(asked));
            }
            Action::Compare(key) => {
                if self.compared.len() < MOST {
                    self.compared.push(Compared { form: asked.clone(), key });
                }
            }
            Action::LeaveOut(i) => {
                if i < self.compared.len() {
                    self.compared.remove(i);
                }
            }
        }
    }

    /// Leaves out what is no configuration of its rig; `false` where something was.
    pub fn keep_what_can_be_read(&mut self) -> bool {
        let before = self.compared.len();
        self.compared.retain(|one| one.read().is_some());
        self.compared.len() == before
    }

    /// Whether something of a rig is called otherwise than its fields do.
    #[must_use]
    pub fn is_called_otherwise(&self, form: &Form) -> bool {
        self.compared.iter().any(|one| one.same_rig(form) && !one.form.is_called_as(form))
    }

    /// Calls what is of a rig as its fields do.
    pub fn call_as(&mut self, form: &Form) {
        for one in &mut self.compared {
            if one.same_rig(form) {
                one.form.call_as(form);
            }
        }
    }
}
