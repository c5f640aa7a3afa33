//! The address: the fragment is read at the start and when the visitor goes back or
//! forth, and written as the state changes.
//!
//! `replaceState` is called at most every 400 ms, since some browsers stop a page that
//! calls it a hundred times in half a minute. Only choosing a configuration makes an
//! entry of its own in the history, so that the browser's back button returns to the
//! list. Such entries carry a mark: going back to one changes the choice and leaves
//! alone what was typed since.

/// Marks entries of the history that this page wrote.
const OURS: &str = "coilwright";
/// Marks those that it made for a choice: one step back lies the list.
const CHOICE: &str = "coilwright choice";

/// The fragment with its `#`, or nothing.
#[must_use]
pub fn fragment() -> String {
    web_sys::window().and_then(|window| window.location().hash().ok()).unwrap_or_default()
}

fn mark() -> Option<String> {
    web_sys::window()?.history().ok()?.state().ok()?.as_string()
}

/// Whether the present entry of the history was written by this page.
#[must_use]
pub fn is_ours() -> bool {
    mark().is_some_and(|mark| mark == OURS || mark == CHOICE)
}

/// Whether the present entry was made for a choice.
#[must_use]
pub fn is_choice() -> bool {
    mark().is_some_and(|mark| mark == CHOICE)
}

/// Writes the link over the present entry of the history.
pub fn replace(link: &str) {
    let mark = if is_choice() { CHOICE } else { OURS };
    if let Some(history) = web_sys::window().and_then(|window| window.history().ok()) {
        // Refused or rationed: the next change tries again, and the draft is kept anyway.
        let _ = history.replace_state_with_url(&mark.into(), "", Some(&format!("#{link}")));
    }
}

/// Makes an entry of the history for a choice.
pub fn push(link: &str) {
    if let Some(history) = web_sys::window().and_then(|window| window.history().ok()) {
        let _ = history.push_state_with_url(&CHOICE.into(), "", Some(&format!("#{link}")));
    }
}

/// Goes back one entry.
pub fn back() {
    if let Some(history) = web_sys::window().and_then(|window| window.history().ok()) {
        let _ = history.back();
    }
}
