//! Configurations side by side, each with the rig it belongs to.

use super::form::{Form, most};
use super::{State, read};
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

impl State {
    /// Whether a configuration of the answered rig is among those put aside.
    #[must_use]
    pub fn is_compared(&self, key: &str) -> bool {
        self.compared.iter().any(|one| one.key == key && one.same_rig(&self.asked))
    }

    /// Puts a configuration of the rig aside to compare, or takes it back.
    pub(super) fn compare(&mut self, key: String) {
        if self.is_compared(&key) {
            let asked = &self.asked;
            self.compared.retain(|one| one.key != key || !one.same_rig(asked));
        } else if self.compared.len() < MOST {
            self.compared.push(Compared { form: self.asked.clone(), key });
        }
    }

    /// Leaves out what stands in a comparison but is no configuration of its rig.
    pub(super) fn keep_what_can_be_compared(&mut self) {
        let before = self.compared.len();
        self.compared.retain(|one| one.read().is_some());
        if self.compared.len() < before {
            self.left_out("compare");
        }
    }
}
