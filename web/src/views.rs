//! The rooms of the page. None writes a sentence of its own.
//!
//! All are plain functions that write with a [`Pen`], which knows the state. What is long
//! (ladder, list, the chosen configuration) is kept, and written again only when what it
//! shows has changed, not while somebody types.

pub mod amplifier;
pub mod answer;
pub mod bar;
pub mod blank;
pub mod build;
pub mod chosen;
pub mod closed;
pub mod compare;
pub mod drivers;
pub mod entry;
pub mod finding;
pub mod gate;
pub mod handing;
pub mod help;
pub mod ladder;
pub mod list;
pub mod names;
pub mod pen;
pub mod reading;
pub mod rigs;
pub mod sheet;
pub mod strip;
pub mod title;
pub mod troubles;
pub mod what;
pub mod wire;
pub mod work;

use crate::app::Do;
use crate::state::link::Saved;
use crate::state::{Room, State};
use pen::{Memory, Pen, What, When};
use std::cell::RefCell;
use words::cautions;
use words::page as say;
use yew::prelude::Html;

pub(crate) use coilwright_words::english as words;

/// A sentence whose units stay on the line of their number.
pub fn tied(sentence: &str) -> String {
    let mut text = String::with_capacity(sentence.len());
    let mut rest = sentence.chars().peekable();
    while let Some(c) = rest.next() {
        let before_unit = c == ' ' && matches!(rest.peek(), Some('Ω' | 'W' | '%'));
        text.push(if before_unit { '\u{a0}' } else { c });
    }
    text
}

/// The page.
pub fn page(state: &State, act: &Do, memory: &RefCell<Memory>) -> Html {
    let mut sheet = Pen::new(state, act, memory);
    let pen = &mut sheet;
    pen.open("div");
    pen.fixed(
        "class",
        match (state.room, &state.chosen) {
            (Room::Compare, _) => "page page-compare",
            (Room::Help, _) => "page page-help",
            (Room::Closed, _) => "page page-closed",
            (Room::Rigs, _) => "page page-rigs",
            (Room::Wire, _) => "page page-wire",
            (Room::Work, _) => "page page-wire page-work",
            (Room::Sheet, _) => "page page-wire page-sheet",
            (Room::List, Some(_)) => "page page-chosen",
            (Room::List, None) => "page",
        },
    );
    bar::bar(pen);
    pen.open("main.rooms");
    rig(pen);
    room(pen);
    pen.close();
    pen.open(if pen.state.is_coming() { "footer.foot foot-later" } else { "footer.foot" });
    pen.line("p", cautions::SCOPE);
    pen.line("p", cautions::text(cautions::Caution::ManualsFirst));
    pen.line_if(pen.state.kept, "p", say::KEPT);
    pen.close();
    strip::strip(pen);
    pen.close();
    sheet.written()
}

fn rig(pen: &mut Pen) {
    pen.open("form.sheet ask|aria-labelledby=ask|autocomplete=off|novalidate");
    pen.on(When::Sent, What::Stay);
    pen.open("div.chosen-top ask-top");
    pen.line("h2.tab|id=ask", say::RIG);
    bar::turn(pen, Room::Closed, words::closed_box::TITLE.to_owned());
    pen.close();
    if pen.state.is_example() {
        pen.open("p.example");
        pen.line("b", say::EXAMPLE_TAG);
        pen.text(" ");
        pen.text(say::EXAMPLE);
        pen.close();
    } else {
        pen.nothing();
    }
    drivers::groups(pen);
    amplifier::amplifier(pen);
    troubles::removed(pen);
    pen.close();
}

/// What is kept, drawn from nothing after an answer that came late.
fn renewed(pen: &mut Pen, spec: &'static str, place: usize, write: fn(&mut Pen)) {
    pen.open(spec);
    pen.key(pen.state.renewed.to_string());
    pen.kept(place, write);
    pen.close();
}

/// A heading, and beside it the way back to the list.
fn top(pen: &mut Pen, spec: &'static str, title: &'static str, back: &'static str) {
    pen.open("div.chosen-top");
    pen.line(spec, title);
    let to = Saved { key: None, room: Room::List, ..pen.state.saved() };
    pen.lead(back, &to, What::Back);
    pen.text(say::chosen::BACK);
    pen.close();
    pen.close();
}

fn room(pen: &mut Pen) {
    let state = pen.state;
    match state.room {
        Room::List => {
            pen.open("");
            pen.open("section.list");
            answer::head(pen);
            let stale = state.is_stale();
            pen.open(if stale { "div.answer-stale" } else { "div" });
            pen.fixed("aria-busy", if state.is_busy() { "true" } else { "false" });
            renewed(pen, "div.answer", 0, answer::answer);
            pen.close();
            pen.close();
            pen.open(match (state.shown(), stale) {
                (None, _) => "section.chosen",
                (Some(_), true) => "section.sheet chosen answer-stale",
                (Some(_), false) => "section.sheet chosen",
            });
            renewed(pen, "div.chosen-in", 1, chosen::panel);
            pen.close();
            pen.close();
        }
        Room::Compare => {
            pen.open("section.sheet wide-room");
            pen.kept(2, compare::room);
            pen.close();
        }
        Room::Wire => {
            pen.open("section.sheet wide-room wire");
            pen.kept(4, wire::room);
            pen.close();
        }
        Room::Work => {
            pen.open("section.sheet wide-room working");
            pen.kept(4, work::room);
            pen.close();
        }
        Room::Sheet => {
            pen.open("section.wide-room job");
            pen.kept(4, sheet::room);
            pen.close();
        }
        // Short, and written anew with every letter.
        Room::Closed => {
            pen.open("section.sheet wide-room closed");
            closed::room(pen);
            pen.close();
        }
        Room::Rigs => {
            pen.open(if state.rigs.listed {
                "section.sheet wide-room rigs"
            } else {
                "section.sheet wide-room rigs rigs-later"
            });
            rigs::room(pen);
            pen.close();
        }
        Room::Help => {
            pen.open("section.sheet wide-room help");
            pen.kept(3, help::room);
            pen.close();
        }
    }
}
