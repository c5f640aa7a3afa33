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

pub use edit::Edit;
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
    /// Whether something was wrong in a field that may be folded away.
    pub unfolded: bool,
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
        // What is wrong is never folded away, nor folded under the hand that puts it right.
        self.unfolded = self.unfolded || self.is_wrong_in_a_fold();
    }

    /// Whether something is wrong in a field that does not decide.
    fn is_wrong_in_a_fold(&self) -> bool {
        if self.read.troubles.is_empty() && self.read.name_troubles.is_empty() {
            return false;
        }
        let wrong = |place| self.read.at(place).is_some_and(|trouble| !trouble.is_missing());
        self.form.places().into_iter().any(|(place, _)| place.is_folded() && wrong(place))
    }

    /// Whether the fields hold the example as it came.
    #[must_use]
    pub fn is_example(&self) -> bool {
        self.form == example::marigold()
    }
}
