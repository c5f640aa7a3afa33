//! Where texts are put under names: the browser's storage, or a board of the tests.

/// Why something is not kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotKept {
    /// The browser keeps the storage from the page.
    Refused,
    /// There is no space left.
    Full,
}

/// What a storage does, so that the order of writes can be tested without a browser.
pub trait Shelf {
    /// The text under a name.
    fn read(&self, name: &str) -> Option<String>;
    /// Puts a text under a name.
    ///
    /// # Errors
    /// [`NotKept`]; what was there before is there still.
    fn write(&self, name: &str, text: &str) -> Result<(), NotKept>;
    /// Clears a name.
    fn erase(&self, name: &str);
    /// Every name, in no order.
    fn names(&self) -> Vec<String>;
}

#[cfg(test)]
pub(crate) mod board {
    use super::{NotKept, Shelf};
    use std::cell::{Cell, RefCell};
    use std::collections::BTreeMap;

    /// A shelf that refuses after so many writes.
    #[derive(Default)]
    pub(crate) struct Board {
        pub(crate) texts: RefCell<BTreeMap<String, String>>,
        pub(crate) refuse_from: Cell<u32>,
        pub(crate) writes: Cell<u32>,
    }

    impl Board {
        /// One that holds these texts.
        pub(crate) fn of(texts: &[(&str, &str)]) -> Self {
            let board = Self::default();
            for (name, text) in texts {
                board.texts.borrow_mut().insert((*name).into(), (*text).into());
            }
            board
        }
    }

    impl Shelf for Board {
        fn read(&self, name: &str) -> Option<String> {
            self.texts.borrow().get(name).cloned()
        }
        fn write(&self, name: &str, text: &str) -> Result<(), NotKept> {
            self.writes.set(self.writes.get() + 1);
            if self.refuse_from.get() > 0 && self.writes.get() >= self.refuse_from.get() {
                return Err(NotKept::Full);
            }
            self.texts.borrow_mut().insert(name.into(), text.into());
            Ok(())
        }
        fn erase(&self, name: &str) {
            self.texts.borrow_mut().remove(name);
        }
        fn names(&self) -> Vec<String> {
            self.texts.borrow().keys().cloned().collect()
        }
    }
}
