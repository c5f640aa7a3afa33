//! The bar on top, and notices under it.

use crate::state::form::Form;
use crate::state::link::LeftOut;
use crate::state::{Action, Notice, Room};
use crate::views::Sheet;
use crate::views::tag::{
    self, Tag, What, button, drawn, el, fixed, line, made, on, press, row, said, text,
};
use crate::views::words::page as say;
use yew::prelude::*;
use yew::virtual_dom::ListenerKind;

/// A coil of four turns: the page's mark.
const COIL: &str = "<svg class=\"mark-coil\" viewBox=\"0 0 44 24\" width=\"44\" height=\"24\" aria-hidden=\"true\"><path fill=\"none\" stroke=\"currentColor\" stroke-width=\"2.5\" stroke-linecap=\"round\" d=\"M2 12h5c0-13 9-13 9 0 0 10-5 10-5 0 0-13 10-13 10 0 0 10-5 10-5 0 0-13 10-13 10 0 0 10-5 10-5 0 0-13 10-13 10 0h7\"/></svg>";

/// The bar and the notices.
pub fn bar(sheet: Sheet) -> Html {
    let mark =
        Tag::new("h1").with(&["class", "translate"], vec![fixed("mark"), fixed("no")]).kids(vec![
            drawn(COIL.to_owned()),
            el("span", "", vec![text("coil"), line("b", "", "wright")]),
        ]);
    let skip = What::GoTo("answer".to_owned());
    let mut kids = vec![el(
        "header",
        "bar",
        vec![press(sheet.act, "skip", None, skip, vec![text(say::SKIP)]), mark, starts(sheet)],
    )];
    for (at, notice) in sheet.state.notices.iter().enumerate() {
        let notice = Tag::new("div")
            .with(&["class", "role"], vec![fixed("notice"), fixed("status")])
            .kids(vec![
                el("p", "", vec![said(message(notice))]),
                button(sheet.act, "quiet", say::DISMISS, Action::Dismiss(at)),
            ]);
        kids.push(notice);
    }
    row(kids)
}

/// Where to begin and where to go.
fn starts(Sheet { state, act }: Sheet) -> Html {
    let mut kids = Vec::new();
    if state.previous.is_some() {
        kids.push(button(act, "quiet", say::PREVIOUS, Action::Previous));
    }
    if !state.is_example() {
        kids.push(button(act, "quiet", say::SHOW_EXAMPLE, Action::ShowExample));
    }
    if state.form != Form::default() {
        kids.push(button(act, "quiet", say::START_EMPTY, Action::StartEmpty));
    }
    if !state.compared.is_empty() {
        let count = say::compare::button(state.compared.len());
        kids.push(turn(Sheet { state, act }, Room::Compare, said(count)));
    }
    kids.push(
        Tag::new("button")
            .with(
                &["type", "class", "aria-pressed"],
                vec![fixed("button"), fixed("quiet"), made(state.sun.to_string())],
            )
            .on(ListenerKind::onclick, act, tag::act(Action::Sun))
            .kids(vec![text(say::SUN)]),
    );
    kids.push(turn(Sheet { state, act }, Room::Help, text(say::HELP)));
    el("div", "bar-starts", kids)
}

/// The way to a room, or back from it to the list.
fn turn(Sheet { state, act }: Sheet, room: Room, words: Html) -> Html {
    let here = state.room == room;
    let what = if here { What::Back } else { tag::act(Action::Room(room)) };
    Tag::new("button")
        .with(
            &["type", "class", "aria-current"],
            vec![fixed("button"), fixed("quiet"), on(here, "page")],
        )
        .on(ListenerKind::onclick, act, what)
        .kids(vec![words])
}

fn message(notice: &Notice) -> String {
    match notice {
        Notice::NotKept => say::NOT_KEPT.into(),
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
