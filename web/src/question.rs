//! What every room is about: drivers, amplifier and box, as typed and as read.

pub mod edit;
pub mod example;
pub mod fields;
pub mod form;
pub mod names;
pub mod place;
pub mod read;
pub mod text;
pub mod trouble;

pub use edit::{Edit, Removed};
use form::Form;
use read::Read;
use std::rc::Rc;

/// What stands in the fields, and what came of reading it.
#[derive(Clone, Debug, Default)]
pub struct Question {
    /// What stands in the fields.
    pub form: Form,
    /// What came of reading it.
    pub read: Rc<Read>,
    /// What was removed last.
    pub removed: Option<Removed>,
}

impl Question {
    /// The question of a form, not read yet.
    #[must_use]
    pub fn of(form: Form) -> Self {
        Self { form, ..Self::default() }
    }

    /// Reads the form.
    pub fn read(&mut self) {
        self.read = Rc::new(read::read(&self.form));
    }

    /// Whether the fields hold the example as it came.
    #[must_use]
    pub fn is_example(&self) -> bool {
        self.form == example::marigold()
    }
}
