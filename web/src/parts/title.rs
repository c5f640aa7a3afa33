//! Titles of the window that name what is shown at large.

use crate::state::State;
use crate::words::names;
use crate::words::page::room;

/// A title with the rig's name and the configuration that is shown.
#[must_use]
pub fn of_shown(state: &State, room: &str) -> String {
    let name = names::plain(&state.rooms.rigs.mine.name);
    match state.shown() {
        Some(shown) => room::title(room, &[&name, &room::configuration(shown)]),
        None => room::title(room, &[&name]),
    }
}
