//! The bar on top, and notices under it.

use crate::link::{LeftOut, Saved};
use crate::pen::{Pen, What};
use crate::question::form::Form;
use crate::rooms::Room;
use crate::state::Notice;
use crate::state::page::Action;
use crate::state::undo::Last;
use crate::words::page as say;

/// A coil of four turns: the page's mark.
const COIL: &str = "<svg class=\"mark-coil\" viewBox=\"0 0 44 24\" width=\"44\" height=\"24\" aria-hidden=\"true\"><path fill=\"none\" stroke=\"currentColor\" stroke-width=\"2.5\" stroke-linecap=\"round\" d=\"M2 12h5c0-13 9-13 9 0 0 10-5 10-5 0 0-13 10-13 10 0 0 10-5 10-5 0 0-13 10-13 10 0 0 10-5 10-5 0 0-13 10-13 10 0h7\"/></svg>";

/// The id of the way back.
pub(super) const UNDO: &str = "undo";

/// The bar, with the way past it and the fields to what the room is there for, and the
/// notices.
pub(super) fn bar(pen: &mut Pen, (words, to): (&'static str, &'static str)) {
    pen.open("");
    pen.open("header.bar");
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
    undo(pen);
    starts(pen);
    pen.close();
    if pen.state.page.newer {
        pen.open("div.notice|role=status");
        pen.line("p", say::NEWER);
        pen.press("quiet", What::Renew);
        pen.text(say::USE_NEWER);
        pen.close();
        pen.button("quiet", say::DISMISS, Action::NotNow);
        pen.close();
    } else {
        pen.nothing();
    }
    for (at, notice) in pen.state.page.notices.iter().enumerate() {
        pen.open("div.notice|role=status");
        pen.line_of("p", message(notice));
        pen.button("quiet", say::DISMISS, Action::Dismiss(at));
        pen.close();
    }
    pen.close();
}

/// The way back from what was erased or replaced last, and from that: at hand while it is the
/// last thing that was done, else in the bar.
fn undo(pen: &mut Pen) {
    let undo = &pen.state.undo;
    let behind = undo.next(false);
    let ahead = undo.next(true).filter(|_| undo.last == Last::Undone);
    let said = match undo.last {
        Last::Undone => say::undo::UNDONE,
        Last::Erased => behind.map_or("", |left| left.erased().said()),
        Last::Other => "",
    };
    pen.open(if said.is_empty() { "div.undo" } else { "div.undo undo-fresh" });
    pen.open("span|role=status");
    pen.text(said);
    pen.close();
    pen.open("");
    // Where nothing more is to be undone, what undoes that has its place, and its keyboard.
    let ways = behind.map(|left| (false, left)).into_iter().chain(ahead.map(|left| (true, left)));
    for (at, (on, left)) in ways.enumerate() {
        pen.press("quiet", What::Undo(on));
        pen.key(at.to_string());
        if at == 0 {
            pen.fixed("id", UNDO);
        }
        pen.made("aria-label", say::undo::name(on, left.erased()));
        pen.text(if on { say::undo::REDO } else { say::undo::UNDO });
        pen.close();
    }
    pen.close();
    pen.close();
}

/// Where to begin and where to go.
fn starts(pen: &mut Pen) {
    let state = pen.state;
    pen.open("div.bar-starts");
    // One of them at a time: there is little room, and an undo for either.
    if state.question.form == Form::default() {
        pen.button("quiet", say::SHOW_EXAMPLE, Action::ShowExample);
    } else {
        pen.button("quiet", say::START_EMPTY, Action::StartEmpty);
    }
    turn(pen, Room::Rigs, say::rigs::TURN.to_owned());
    if !state.aside.compared.is_empty() {
        turn(pen, Room::Compare, say::compare::button(state.aside.compared.len()));
    }
    pen.toggle(say::SUN, state.page.sun, What::act(Action::Sun));
    turn(pen, Room::Help, say::HELP.to_owned());
    pen.close();
}

/// The way to a room, or back from it to the list.
pub(super) fn turn(pen: &mut Pen, to: Room, words: String) {
    if pen.state.page.room == to {
        pen.press("quiet", What::Back);
        pen.fixed("aria-current", "page");
    } else {
        let saved = Saved { room: to, ..pen.state.saved() };
        pen.lead("quiet", &saved, What::act(Action::Room(to)));
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
