//! Configurations side by side, each with the rig it belongs to.

use super::form::Form;
use super::read;
use coilwright_solver::answer::{self, Configuration};
use coilwright_solver::rig::Rig;

/// The most that stand side by side.
pub const MOST: usize = 4;

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

    /// Whether both are about the same rig; the filters are no part of it.
    #[must_use]
    pub fn same_rig(&self, form: &Form) -> bool {
        self.form.groups == form.groups && self.form.amplifier == form.amplifier
    }
}
