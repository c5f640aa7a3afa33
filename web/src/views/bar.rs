//! The bar on top, and notices under it.

use crate::state::form::Form;
use crate::state::link::{LeftOut, Saved};
use crate::state::{Action, Notice, Room, State};
use crate::views::pen::{Pen, What};
use crate::views::words::page::{self as say, room};

/// A coil of four turns: the page's mark.
const COIL: &str = "<svg class=\"mark-coil\" viewBox=\"0 0 44 24\" width=\"44\" height=\"24\" aria-hidden=\"true\"><path fill=\"none\" stroke=\"currentColor\" stroke-width=\"2.5\" stroke-linecap=\"round\" d=\"M2 12h5c0-13 9-13 9 0 0 10-5 10-5 0 0-13 10-13 10 0 0 10-5 10-5 0 0-13 10-13 10 0 0 10-5 10-5 0 0-13 10-13 10 0h7\"/></svg>";

/// The bar and the notices.
pub fn bar(pen: &mut Pen) {
    pen.open("");
    pen.open("header.bar");
    let (words, to) = past(pen.state);
    pen.press("skip", What::GoTo(to.to_owned()));
    pen.text(words);
    pen.close();
    pen.open("h1.mark|translate=no");
    pen.drawn(COIL.to_owned());
    pen.open("span");
    pen.text("coil");
    pen.line("b", "wright");
    pen.close();
    pen.close();
    starts(pen);
    pen.close();
    if pen.state.newer {
        pen.open("div.notice|role=status");
        pen.line("p", say::NEWER);
        pen.press("quiet", What::Renew);
        pen.text(say::USE_NEWER);
        pen.close();
        pen.button("quiet", say::DISMISS, Action::Later);
        pen.close();
    } else {
        pen.nothing();
    }
    for (at, notice) in pen.state.notices.iter().enumerate() {
        pen.open("div.notice|role=status");
        pen.told("p", message(notice));
        pen.button("quiet", say::DISMISS, Action::Dismiss(at));
        pen.close();
    }
    pen.close();
}

/// The way past the bar and the fields: to what the room is there for, by its heading.
fn past(state: &State) -> (&'static str, &'static str) {
    match state.room {
        Room::List if state.chosen.is_some() => (room::TO_CHOSEN, "chosen"),
        Room::List => (room::TO_LIST, "answer"),
        Room::Compare => (room::TO_COMPARE, "room"),
        Room::Help => (room::TO_HELP, "room"),
        Room::Closed => (room::TO_CLOSED, "room"),
        Room::Rigs => (room::TO_RIGS, "room"),
        Room::Wire => (room::TO_PLAN, "room"),
        Room::Work => (room::TO_STEP, "room"),
        Room::Sheet => (room::TO_SHEET, "room"),
    }
}

/// Where to begin and where to go.
fn starts(pen: &mut Pen) {
    let state = pen.state;
    pen.open("div.bar-starts");
    if state.previous.is_some() {
        pen.button("quiet", say::PREVIOUS, Action::Previous);
    }
    if !state.is_example() {
        pen.button("quiet", say::SHOW_EXAMPLE, Action::ShowExample);
    }
    if state.form != Form::default() {
        pen.button("quiet", say::START_EMPTY, Action::StartEmpty);
    }
    turn(pen, Room::Rigs, say::rigs::TURN.to_owned());
    if !state.compared.is_empty() {
        turn(pen, Room::Compare, say::compare::button(state.compared.len()));
    }
    pen.press("quiet", What::Do(Action::Sun));
    pen.fixed("aria-pressed", if state.sun { "true" } else { "false" });
    pen.text(say::SUN);
    pen.close();
    turn(pen, Room::Help, say::HELP.to_owned());
    pen.close();
}

/// The way to a room, or back from it to the list.
pub fn turn(pen: &mut Pen, to: Room, words: String) {
    if pen.state.room == to {
        pen.press("quiet", What::Back);
        pen.fixed("aria-current", "page");
    } else {
        let saved = Saved { room: to, ..pen.state.saved() };
        pen.lead("quiet", &saved, What::Do(Action::Room(to)));
    }
    pen.said(words);
    pen.close();
}

fn message(notice: &Notice) -> String {
    match notice {
        Notice::NotKept => say::NOT_KEPT.into(),
        Notice::Full => say::FULL.into(),
        Notice::KeyUnknown => say::KEY_UNKNOWN.into(),
        Notice::LeftOut(parts) => {
            let mut said = Vec::new();
            for part in parts {
                said.push(match part {
                    LeftOut::Version(version) => say::link_version(version),
                    LeftOut::Unknown(name) => say::link_unknown(name),
                    LeftOut::Impossible(name) => say::link_impossible(name),
                    LeftOut::TooMany(name) => say::link_too_many(name),
                });
            }
            say::link_left_out(&said)
        }
    }
}
