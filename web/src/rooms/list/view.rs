//! The ladder and the list, with what stands over them.

use super::answer;
use crate::parts::about::about;
use crate::later::Later;
use crate::pen::Pen;
use crate::state::State;
use crate::words::names;
use crate::words::page::{self as page, chosen, room};

/// The class of the page.
pub const PAGE: &str = "page";
/// What leads past the fields, and where.
pub const SKIP: (&str, &str) = (room::TO_LIST, "answer");

/// The title of the window.
#[must_use]
pub fn title(state: &State) -> String {
    if state.is_example() && !state.page.touched {
        return room::TITLE.to_owned();
    }
    if state.answer.chosen.is_some() {
        return crate::parts::title::of_shown(state, chosen::CHOSEN);
    }
    let name = names::plain(&state.rooms.rigs.mine.name);
    match about(&state.question.form) {
        _ if !name.is_empty() => room::title(page::LIST, &[&name]),
        about => room::title(page::LIST, &[&about.unwrap_or_default()]),
    }
}

/// The room.
pub fn show(pen: &mut Pen) {
    let state = pen.state;
    pen.open("section.list");
    answer::head(pen);
    pen.open(if state.is_stale() { "div.answer-stale" } else { "div" });
    pen.fixed("aria-busy", if state.is_busy() { "true" } else { "false" });
    let missed = u32::from(state.page.later == Later::Missing);
    let given =
        [state.answer.version(), state.rooms.list.version(), state.aside.version(), missed, 0, 0, 0];
    pen.renewed("div.answer", "list", given, answer::answer);
    pen.close();
    pen.close();
}
