//! The address: the fragment is read at the start and when the visitor goes back or
//! forth, and written as the state changes.
//!
//! `replaceState` is called at most every 400 ms, since some browsers stop a page that
//! calls it a hundred times in half a minute. Only choosing a configuration and
//! going to another room make entries of their own in the history, so that the browser's
//! back button returns to the list, or to the room before. Such entries carry a mark: going back to one changes the choice and leaves
//! alone what was typed since.

use std::cell::Cell;

/// Marks entries of the history that this page wrote.
const OURS: &str = "coilwright";
/// Marks those that it made for a choice: one step back lies the list.
const CHOICE: &str = "coilwright choice";

thread_local! {
    /// The visit that the marks carry: a link from elsewhere begins a new one. An entry
    /// of this visit is about the draft that the tab keeps, whatever its address says.
    static VISIT: Cell<u32> = const { Cell::new(0) };
}

fn marked(mark: &str) -> String {
    VISIT.with(|visit| format!("{mark} {}", visit.get()))
}

/// Begins with the visit that the tab noted last, or with the one after it where the
/// present entry is from elsewhere; gives the visit and whether it is the same.
pub fn begin(noted: Option<u32>) -> (u32, bool) {
    let noted = noted.unwrap_or(0);
    VISIT.with(|visit| visit.set(noted));
    if is_ours() {
        return (noted, true);
    }
    let next = noted.wrapping_add(1);
    VISIT.with(|visit| visit.set(next));
    if let Some(history) = web_sys::window().and_then(|window| window.history().ok()) {
        let _ = history.replace_state(&marked(OURS).into(), "");
    }
    (next, false)
}

/// The fragment with its `#`, or nothing.
#[must_use]
pub fn fragment() -> String {
    web_sys::window().and_then(|window| window.location().hash().ok()).unwrap_or_default()
}

/// The page's own address, without what this visit asked of the page. A page that was
/// written into a frame, or is passed on as data, has none that opens it again.
#[must_use]
pub fn page() -> Option<String> {
    let location = web_sys::window().and_then(|window| window.location().href().ok())?;
    let page = location.split(['?', '#']).next().unwrap_or_default();
    let opens = ["http:", "https:", "file:"].iter().any(|start| page.starts_with(start));
    opens.then(|| page.to_owned())
}

/// Whether the page is a file on a disk.
#[must_use]
pub fn is_file() -> bool {
    page().is_some_and(|page| page.starts_with("file:"))
}

/// A link as it is given away: the page's own address with this fragment; the end of an
/// address alone where the page has none.
#[must_use]
pub fn whole(link: &str) -> String {
    let mut text = page().unwrap_or_default();
    text.push('#');
    text.push_str(link);
    text
}

fn mark() -> Option<String> {
    web_sys::window()?.history().ok()?.state().ok()?.as_string()
}

/// Whether the present entry of the history was written by this page.
#[must_use]
pub fn is_ours() -> bool {
    mark().is_some_and(|mark| mark == marked(OURS) || mark == marked(CHOICE))
}

/// Whether the present entry was made for a choice.
#[must_use]
pub fn is_choice() -> bool {
    mark().is_some_and(|mark| mark == marked(CHOICE))
}

/// Writes the link over the present entry of the history.
pub fn replace(link: &str) {
    let mark = marked(if is_choice() { CHOICE } else { OURS });
    if let Some(history) = web_sys::window().and_then(|window| window.history().ok()) {
        // Refused or rationed: the next change tries again, and the draft is kept anyway.
        let _ = history.replace_state_with_url(&mark.into(), "", Some(&format!("#{link}")));
    }
}

/// Makes an entry of the history: for a choice or a room that was gone to from the list,
/// or from room to room.
pub fn push(link: &str, from_list: bool) {
    let mark = marked(if from_list { CHOICE } else { OURS });
    if let Some(history) = web_sys::window().and_then(|window| window.history().ok()) {
        let _ = history.push_state_with_url(&mark.into(), "", Some(&format!("#{link}")));
    }
}

/// Goes back one entry.
pub fn back() {
    if let Some(history) = web_sys::window().and_then(|window| window.history().ok()) {
        let _ = history.back();
    }
}
