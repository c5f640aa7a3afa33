//! Drafts: what is typed is kept in the tab's own storage, so that two tabs never
//! write over each other's form, and a copy in the storage that tabs share, for the
//! next tab to go on from.
//!
//! A draft is the text of a link, which begins with its version. It is written to the
//! slot not in use, then the switch is turned: whatever stops the page in between, or
//! a storage that is full, leaves the draft before.

use crate::state::opening::Found;
use web_sys::Storage;

const DRAFT: &str = "coilwright.draft";
const PREVIOUS: &str = "coilwright.previous";
const WORKING: &str = "coilwright.working";
const VISIT: &str = "coilwright.visit";
/// Also read by the boot script, so that the page is drawn right from the start.
const SUN: &str = "coilwright.sun";

/// Storage refused to keep something.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotKept;

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
}

impl Shelf for Storage {
    fn read(&self, name: &str) -> Option<String> {
        self.get_item(name).ok().flatten()
    }

    fn write(&self, name: &str, text: &str) -> Result<(), NotKept> {
        self.set_item(name, text).map_err(|_| NotKept)
    }

    fn erase(&self, name: &str) {
        // A name that cannot be cleared is written over later.
        let _ = self.remove_item(name);
    }
}

fn slot(name: &str, switch: &str) -> String {
    format!("{name}.{switch}")
}

/// The text that was kept last under a name.
#[must_use]
pub fn load(shelf: &impl Shelf, name: &str) -> Option<String> {
    shelf.read(&slot(name, &shelf.read(name)?))
}

/// Keeps a text under a name.
///
/// # Errors
/// [`NotKept`]; then [`load`] gives what was kept before.
pub fn save(shelf: &impl Shelf, name: &str, text: &str) -> Result<(), NotKept> {
    let in_use = shelf.read(name);
    let next = if in_use.as_deref() == Some("a") { "b" } else { "a" };
    shelf.write(&slot(name, next), text)?;
    shelf.write(name, next)?;
    if let Some(old) = in_use {
        shelf.erase(&slot(name, &old));
    }
    Ok(())
}

fn tab() -> Option<Storage> {
    web_sys::window()?.session_storage().ok().flatten()
}

fn shared() -> Option<Storage> {
    web_sys::window()?.local_storage().ok().flatten()
}

/// What lies ready when the page opens. To be asked once.
#[must_use]
pub fn found() -> Found {
    let tab = tab();
    let noted = tab.as_ref().and_then(|tab| tab.read(VISIT)?.parse().ok());
    let (visit, refreshed) = super::address::begin(noted);
    if let Some(tab) = tab.as_ref().filter(|_| !refreshed) {
        // Not noted: then a refresh opens the link, as of a moment ago.
        let _ = tab.write(VISIT, &visit.to_string());
    }
    let from_tab = |name| tab.as_ref().and_then(|tab| load(tab, name));
    Found {
        fragment: super::address::fragment(),
        own: from_tab(DRAFT),
        previous: from_tab(PREVIOUS),
        latest: shared().and_then(|shared| load(&shared, DRAFT)),
        refreshed,
        sun: shared().is_some_and(|shared| shared.read(SUN).is_some()),
        was_working: tab.as_ref().and_then(|tab| tab.read(WORKING)).is_some(),
    }
}

/// Keeps the draft of this tab, and what stood there before it.
///
/// # Errors
/// [`NotKept`].
pub fn keep(draft: &str, previous: Option<&str>) -> Result<(), NotKept> {
    let tab = tab().ok_or(NotKept)?;
    save(&tab, DRAFT, draft)?;
    match previous {
        Some(previous) => save(&tab, PREVIOUS, previous),
        None => {
            tab.erase(PREVIOUS);
            Ok(())
        }
    }
}

/// Keeps a copy of the draft for tabs to come.
///
/// # Errors
/// [`NotKept`].
pub fn share(draft: &str) -> Result<(), NotKept> {
    save(&shared().ok_or(NotKept)?, DRAFT, draft)
}

/// Draws the page for the sun, or no longer, and notes which.
pub fn draw_for_sun(sun: bool) {
    let root = web_sys::window().and_then(|window| window.document()?.document_element());
    if let Some(root) = root {
        root.set_class_name(if sun { "sun" } else { "" });
    }
    if let Some(shared) = shared() {
        if sun {
            // Not noted: then it holds for this visit.
            let _ = shared.write(SUN, "1");
        } else {
            shared.erase(SUN);
        }
    }
}

/// Notes that the page is at work on its question, or no longer: found again only
/// where the work stopped the page.
pub fn note_working(working: bool) {
    if let Some(tab) = tab() {
        if working {
            // Not noted: then the question is simply asked again.
            let _ = tab.write(WORKING, "1");
        } else {
            tab.erase(WORKING);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::{Cell, RefCell};
    use std::collections::BTreeMap;

    /// A shelf that refuses after so many writes.
    #[derive(Default)]
    struct Board {
        texts: RefCell<BTreeMap<String, String>>,
        refuse_from: Cell<u32>,
        writes: Cell<u32>,
    }

    impl Shelf for Board {
        fn read(&self, name: &str) -> Option<String> {
            self.texts.borrow().get(name).cloned()
        }
        fn write(&self, name: &str, text: &str) -> Result<(), NotKept> {
            self.writes.set(self.writes.get() + 1);
            if self.refuse_from.get() > 0 && self.writes.get() >= self.refuse_from.get() {
                return Err(NotKept);
            }
            let mut texts = self.texts.borrow_mut();
            texts.insert(name.into(), text.into());
            Ok(())
        }
        fn erase(&self, name: &str) {
            self.texts.borrow_mut().remove(name);
        }
    }

    #[test]
    fn the_last_text_is_found_and_nothing_piles_up() {
        let board = Board::default();
        assert_eq!(load(&board, "d"), None);
        for text in ["v=1&one", "v=1&two", "v=1&three"] {
            save(&board, "d", text).unwrap();
            assert_eq!(load(&board, "d").as_deref(), Some(text));
            assert_eq!(board.texts.borrow().len(), 2);
        }
    }

    #[test]
    fn a_write_that_is_refused_half_way_leaves_the_text_before() {
        for refused in [3, 4] {
            let board = Board::default();
            save(&board, "d", "v=1&one").unwrap();
            board.refuse_from.set(refused);
            assert_eq!(save(&board, "d", "v=1&two"), Err(NotKept));
            assert_eq!(load(&board, "d").as_deref(), Some("v=1&one"));
        }
    }
}
