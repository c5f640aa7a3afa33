//! What stands in the way, and what was removed.

use super::Sheet;
use super::blank::{id_of, message};
use super::tag::{Tag, What, button, el, fixed, line, made, nothing, press, row, said};
use super::words::page as say;
use crate::state::read::Trouble;
use crate::state::{Action, Removed, State};
use yew::prelude::*;

/// What is wrong with a list as a whole, beside it.
pub fn at_path(state: &State, path: &str) -> Html {
    let mut kids = Vec::new();
    for trouble in &state.read.troubles {
        if trouble.path == path && !trouble.is_missing() {
            kids.push(
                Tag::new("p")
                    .with(
                        &["class", "id", "tabindex"],
                        vec![fixed("trouble"), made(id_of(path)), fixed("-1")],
                    )
                    .kids(vec![said(message(trouble))]),
            );
        }
    }
    row(kids)
}

/// Everything in the way of an answer, each a tap from its field.
pub fn list(sheet: Sheet) -> Html {
    row(vec![
        part(sheet, say::PUT_RIGHT, "troubles troubles-wrong", false),
        part(sheet, say::STILL_NEEDED, "troubles troubles-missing", true),
    ])
}

fn part(sheet: Sheet, title: &'static str, class: &'static str, missing: bool) -> Html {
    let mut kids = Vec::new();
    for trouble in &sheet.state.read.troubles {
        if Trouble::is_missing(trouble) == missing {
            let what = What::GoTo(id_of(&trouble.path));
            let to_field = press(sheet.act, "to-field", None, what, vec![said(message(trouble))]);
            kids.push(el("li", "", vec![to_field]));
        }
    }
    if kids.is_empty() {
        return nothing();
    }
    el("div", class, vec![line("h3", "", title), el("ul", "", kids)])
}

/// What was removed last, with the way to put it back.
pub fn removed(sheet: Sheet) -> Html {
    let Some(removed) = &sheet.state.removed else {
        return nothing();
    };
    let what = match removed {
        Removed::Group(..) => say::Removed::Drivers,
        Removed::Amplifier(_) => say::Removed::Amplifier,
        Removed::Bridge(..) => say::Removed::Bridge,
        Removed::Point(..) => say::Removed::Point,
    };
    Tag::new("div").with(&["class", "role"], vec![fixed("removed"), fixed("status")]).kids(vec![
        line("p", "", say::removed(what)),
        button(sheet.act, "quiet", say::PUT_BACK, Action::PutBack),
    ])
}
