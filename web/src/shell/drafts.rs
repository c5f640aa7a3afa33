//! Drafts: what is typed is kept in the tab's own storage, so that two tabs never
//! write over each other's form, and a copy in the storage that tabs share, for the
//! next tab to go on from.
//!
//! A draft is the text of a link, which begins with its version, and of what rig it
//! belongs to. It is written to the
//! slot not in use, then the switch is turned: whatever stops the page in between, or
//! a storage that is full, leaves the draft before.

use crate::host::Host;
use crate::host::shelf::{NotKept, Shelf};
use crate::state::opening::Found;
use std::cell::Cell;
use std::rc::Rc;

const DRAFT: &str = "coilwright.draft";
/// What can be undone; once the one rig that was there before.
const UNDO: &str = "coilwright.previous";
const WORKING: &str = "coilwright.working";
const VISIT: &str = "coilwright.visit";
/// The address before the last that was written.
const BEFORE: &str = "coilwright.before";
/// Also read by the boot script, so that the page is drawn right from the start.
const SUN: &str = "coilwright.sun";

/// A name as this page has it: of several in a document each has its own.
fn own(host: &dyn Host, name: &str) -> String {
    [host.prefix(), name].concat()
}

fn slot(name: &str, switch: &str) -> String {
    format!("{name}.{switch}")
}

/// The text that was kept last under a name.
#[must_use]
pub fn load(shelf: &dyn Shelf, name: &str) -> Option<String> {
    shelf.read(&slot(name, &shelf.read(name)?))
}

/// Keeps a text under a name.
///
/// # Errors
/// [`NotKept`]; then [`load`] gives what was kept before.
pub fn save(shelf: &dyn Shelf, name: &str, text: &str) -> Result<(), NotKept> {
    let in_use = shelf.read(name);
    let next = if in_use.as_deref() == Some("a") { "b" } else { "a" };
    shelf.write(&slot(name, next), text)?;
    shelf.write(name, next)?;
    if let Some(old) = in_use {
        shelf.erase(&slot(name, &old));
    }
    Ok(())
}

/// What lies ready when the page opens. To be asked once.
#[must_use]
pub fn found(host: &dyn Host) -> Found {
    let tab = host.tab().ok();
    let noted = tab.as_ref().and_then(|tab| tab.read(&own(host, VISIT))?.parse().ok());
    let before = tab.as_ref().and_then(|tab| tab.read(&own(host, BEFORE)));
    let (visit, refreshed) = host.begin_visit(noted, before.as_deref());
    if let Some(tab) = tab.as_ref().filter(|_| !refreshed) {
        // Not noted: then a refresh opens the link, as of a moment ago.
        let _ = tab.write(&own(host, VISIT), &visit.to_string());
    }
    let from_tab = |name| tab.as_ref().and_then(|tab| load(&**tab, &own(host, name)));
    Found {
        fragment: host.fragment(),
        own: from_tab(DRAFT),
        undo: from_tab(UNDO),
        latest: host.shared().ok().and_then(|shared| load(&*shared, &own(host, DRAFT))),
        refreshed,
        sun: host.shared().is_ok_and(|shared| shared.read(&own(host, SUN)).is_some()),
        was_working: tab.as_ref().and_then(|tab| tab.read(&own(host, WORKING))).is_some(),
    }
}

/// Keeps the draft of this tab, and what can be undone where that is another.
///
/// # Errors
/// [`NotKept`].
pub fn keep(host: &dyn Host, draft: &str, undo: Option<&str>) -> Result<(), NotKept> {
    let tab = host.tab()?;
    save(&*tab, &own(host, DRAFT), draft)?;
    match undo {
        Some(undo) => save(&*tab, &own(host, UNDO), undo),
        None => Ok(()),
    }
}

/// Writes a link over the address, which is noted: whoever loads the page anew at this moment
/// may be given it once more.
pub fn write_address(host: &dyn Host, link: &str) {
    if let Ok(tab) = host.tab() {
        // Not noted: then such a reload opens the link, as of a moment ago.
        let _ = tab.write(&own(host, BEFORE), &host.fragment());
    }
    host.replace(link);
}

/// Keeps a copy of the draft for tabs to come.
///
/// # Errors
/// [`NotKept`].
pub fn share(host: &dyn Host, draft: &str) -> Result<(), NotKept> {
    save(&*host.shared()?, &own(host, DRAFT), draft)
}

/// Draws the page for the sun, or no longer, and notes which.
pub fn draw_for_sun(host: &dyn Host, sun: bool) {
    host.draw_for_sun(sun);
    if let Ok(shared) = host.shared() {
        if sun {
            // Not noted: then it holds for this visit.
            let _ = shared.write(&own(host, SUN), "1");
        } else {
            shared.erase(&own(host, SUN));
        }
    }
}

/// Notes that the page is at work on its question, or no longer: found again only where the
/// work stopped the page. What it found is not its own to erase: a question that waits for a
/// tap still waits after another reload.
#[derive(Clone, Debug, Default)]
pub struct AtWork(Rc<Cell<bool>>);

impl AtWork {
    /// Notes it.
    pub fn note(&self, host: &dyn Host, working: bool) {
        let noted = self.0.replace(working);
        if let Ok(tab) = host.tab() {
            if working {
                // Not noted: then the question is simply asked again.
                let _ = tab.write(&own(host, WORKING), "1");
            } else if noted {
                tab.erase(&own(host, WORKING));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::host::shelf::board::Board;

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
            assert_eq!(save(&board, "d", "v=1&two"), Err(NotKept::Full));
            assert_eq!(load(&board, "d").as_deref(), Some("v=1&one"));
        }
    }
}
