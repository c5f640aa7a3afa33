//! The rooms of the page. None writes a sentence of its own.
//!
//! All are plain functions of the state. What is long (ladder, list, the chosen
//! configuration) is drawn inside [`Kept`], which draws again only when what it shows
//! has changed, and not while somebody types.

pub mod amplifier;
pub mod answer;
pub mod bar;
pub mod blank;
pub mod chosen;
pub mod compare;
pub mod drivers;
pub mod entry;
pub mod help;
pub mod ladder;
pub mod list;
pub mod strip;
pub mod tag;
pub mod troubles;

use crate::app::Do;
use crate::state::{Room, State};
use tag::{Tag, What, drawn, el, fixed, line, nothing, row, text};
use words::cautions;
use words::page as say;
use yew::prelude::*;
use yew::virtual_dom::ListenerKind;

pub(crate) use coilwright_words::english as words;

/// What every room is given: the state and the way to act on it.
#[derive(Clone, Copy, Debug)]
pub struct Sheet<'a> {
    /// The state.
    pub state: &'a State,
    /// The way to act on it.
    pub act: &'a Do,
}

/// A part of the page that is kept until the stamp of the state changes.
#[derive(Clone, Properties)]
pub struct KeptProps {
    /// Draws it.
    pub draw: fn(Sheet) -> Html,
    /// The state; the handle always leads to the present one.
    pub state: UseReducerHandle<State>,
    /// Its stamp when this was asked for.
    pub stamp: u32,
}

impl std::fmt::Debug for KeptProps {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("KeptProps").field("stamp", &self.stamp).finish_non_exhaustive()
    }
}

impl PartialEq for KeptProps {
    fn eq(&self, other: &Self) -> bool {
        self.stamp == other.stamp
    }
}

/// Draws a part of the page.
#[component]
pub fn Kept(props: &KeptProps) -> Html {
    let act = Do::of(&props.state);
    (props.draw)(Sheet { state: &props.state, act: &act })
}

/// A part of the page, kept.
fn kept(state: &UseReducerHandle<State>, draw: fn(Sheet) -> Html) -> Html {
    let props = KeptProps { draw, state: state.clone(), stamp: state.stamp };
    yew::virtual_dom::VComp::new::<Kept>(std::rc::Rc::new(props), None).into()
}

/// The same, drawn from nothing after an answer that came late.
fn renewed(state: &UseReducerHandle<State>, class: &'static str, draw: fn(Sheet) -> Html) -> Html {
    Tag::new("div")
        .with(&["class"], vec![fixed(class)])
        .key(state.renewed.to_string())
        .kids(vec![kept(state, draw)])
}

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
pub fn page(state: &UseReducerHandle<State>) -> Html {
    let act = Do::of(state);
    let sheet = Sheet { state, act: &act };
    let class = match (state.room, &state.chosen) {
        (Room::Compare, _) => "page page-compare",
        (Room::Help, _) => "page page-help",
        (Room::List, Some(_)) => "page page-chosen",
        (Room::List, None) => "page",
    };
    let example = if state.is_example() {
        el("p", "example", vec![line("b", "", say::EXAMPLE_TAG), text(" "), text(say::EXAMPLE)])
    } else {
        nothing()
    };
    let rig = Tag::new("form")
        .with(
            &["class", "aria-labelledby", "autocomplete", "novalidate"],
            vec![fixed("sheet ask"), fixed("ask"), fixed("off"), fixed("")],
        )
        .on(ListenerKind::onsubmit, &act, What::Stay)
        .kids(vec![
            Tag::new("h2")
                .with(&["id", "class"], vec![fixed("ask"), fixed("tab")])
                .kids(vec![text(say::RIG)]),
            example,
            drivers::groups(sheet),
            amplifier::amplifier(sheet),
            troubles::removed(sheet),
        ]);
    let rooms = match state.room {
        Room::List => {
            let stale = state.is_stale();
            let chosen = match (state.shown(), stale) {
                (None, _) => "chosen",
                (Some(_), true) => "sheet chosen answer-stale",
                (Some(_), false) => "sheet chosen",
            };
            row(vec![
                el(
                    "section",
                    "list",
                    vec![
                        answer::head(sheet),
                        el(
                            "div",
                            if stale { "answer-stale" } else { "" },
                            vec![renewed(state, "answer", answer::answer)],
                        ),
                    ],
                ),
                el("section", chosen, vec![renewed(state, "chosen-in", chosen::panel)]),
            ])
        }
        Room::Compare => el("section", "sheet wide-room", vec![kept(state, compare::room)]),
        Room::Help => el("section", "sheet wide-room help", vec![kept(state, help::room)]),
    };
    el(
        "div",
        class,
        vec![
            bar::bar(sheet),
            el("main", "rooms", vec![rig, rooms]),
            el(
                "footer",
                "foot",
                vec![
                    line("p", "", cautions::SCOPE),
                    line("p", "", cautions::text(cautions::Caution::ManualsFirst)),
                ],
            ),
            strip::strip(sheet),
        ],
    )
}

/// A drawing that may be wider than its room: it is moved aside within it.
fn figure(class: &'static str, name: String, svg: String) -> Html {
    Tag::new("div")
        .with(
            &["class", "tabindex", "role", "aria-label"],
            vec![fixed(class), fixed("0"), fixed("group"), tag::made(name)],
        )
        .kids(vec![drawn(svg)])
}
