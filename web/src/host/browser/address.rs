//! The address: the fragment is read at the start and when the visitor goes back or
//! forth, and written as the state changes.
//!
//! `replaceState` is called at most every 400 ms, since some browsers stop a page that
//! calls it a hundred times in half a minute. Only choosing a configuration and
//! going to another room make entries of their own in the history, so that the browser's
//! back button returns to the list, or to the room before. Such entries carry a mark: going
//! back to one changes the choice and leaves alone what was typed since.

use std::cell::Cell;
use wasm_bindgen::JsCast;
use web_sys::{History, NavigationType, PerformanceNavigationTiming, Window};

/// Marks entries of the history that this page wrote.
const OURS: &str = "coilwright";
/// Marks those that it made for a choice: one step back lies the list.
const CHOICE: &str = "coilwright choice";

/// The address of a page, where it has one.
#[derive(Debug)]
pub(super) struct Address {
    window: Option<Window>,
    /// What a page without one begins with.
    link: String,
    /// The visit that the marks carry: a link from elsewhere begins a new one. An entry
    /// of this visit is about the draft that the tab keeps, whatever its address says.
    visit: Cell<u32>,
}

impl Address {
    pub(super) const fn of(window: Option<Window>, link: String) -> Self {
        Self { window, link, visit: Cell::new(0) }
    }

    fn history(&self) -> Option<History> {
        self.window.as_ref()?.history().ok()
    }

    fn marked(&self, mark: &str) -> String {
        [mark, " ", &self.visit.get().to_string()].concat()
    }

    fn is_marked(&self, mark: &str) -> bool {
        let state = self.history().and_then(|history| history.state().ok()?.as_string());
        state.is_some_and(|state| state == self.marked(mark))
    }

    pub(super) fn begin(&self, noted: Option<u32>, before: Option<&str>) -> (u32, bool) {
        let noted = noted.unwrap_or(0);
        self.visit.set(noted);
        if self.is_ours() {
            return (noted, true);
        }
        // Where it was loaded anew while its address was written, the browser went by the
        // address before and forgot the mark.
        let again = self.is_reloaded() && before == Some(&*self.fragment());
        let visit = if again { noted } else { noted.wrapping_add(1) };
        self.visit.set(visit);
        if let Some(history) = self.history() {
            let _ = history.replace_state(&self.marked(OURS).into(), "");
        }
        (visit, again)
    }

    /// Whether the page was loaded anew where it stood.
    fn is_reloaded(&self) -> bool {
        let performance = self.window.as_ref().and_then(Window::performance);
        let entries = performance.map(|performance| performance.get_entries_by_type("navigation"));
        let entry =
            entries.map(|entries| entries.get(0).unchecked_into::<PerformanceNavigationTiming>());
        entry.is_some_and(|entry| entry.is_truthy() && entry.type_() == NavigationType::Reload)
    }

    pub(super) fn fragment(&self) -> String {
        match &self.window {
            Some(window) => window.location().hash().unwrap_or_default(),
            None => self.link.clone(),
        }
    }

    /// A page that was written into a frame, or is passed on as data, has no address that
    /// opens it again.
    pub(super) fn page(&self) -> Option<String> {
        let location = self.window.as_ref()?.location().href().ok()?;
        let page = location.split(['?', '#']).next().unwrap_or_default();
        let opens = ["http:", "https:", "file:"].iter().any(|start| page.starts_with(start));
        opens.then(|| page.to_owned())
    }

    pub(super) fn is_ours(&self) -> bool {
        self.is_marked(OURS) || self.is_marked(CHOICE)
    }

    pub(super) fn is_choice(&self) -> bool {
        self.is_marked(CHOICE)
    }

    pub(super) fn replace(&self, link: &str) {
        let mark = self.marked(if self.is_choice() { CHOICE } else { OURS });
        if let Some(history) = self.history() {
            let address = ["#", link].concat();
            // Refused or rationed: the next change tries again, and the draft is kept anyway.
            let _ = history.replace_state_with_url(&mark.into(), "", Some(&address));
        }
    }

    pub(super) fn push(&self, link: &str, from_list: bool) {
        let mark = self.marked(if from_list { CHOICE } else { OURS });
        if let Some(history) = self.history() {
            let address = ["#", link].concat();
            let _ = history.push_state_with_url(&mark.into(), "", Some(&address));
        }
    }

    pub(super) fn back(&self) {
        if let Some(history) = self.history() {
            let _ = history.back();
        }
    }
}
