//! The list: one page of the configurations as they are looked at.

use super::Sheet;
use super::entry::entry;
use super::tag::{
    self, Tag, What, button, el, fixed, line, nothing, on, press, row, said, text, told,
};
use super::words::{page::list as say, rig, ways};
use crate::state::Action;
use crate::state::asking::Answered;
use crate::state::list::{ORDERS, PAGE, order_name, pages};
use coilwright_solver::answer::{Configuration, Order};
use coilwright_solver::ohms::Ohms;
use yew::prelude::*;
use yew::virtual_dom::ListenerKind;

/// The list with what stands over it.
pub fn list(sheet: Sheet, answered: &Answered) -> Html {
    let Sheet { state, act } = sheet;
    let Some(view) = state.view.as_deref() else {
        return nothing();
    };
    let page = state.look.page.min(pages(view.rows) - 1);
    let from = u64::from(page) * u64::from(PAGE);
    let mut kids = Vec::new();
    let mut before: Option<(Vec<Ohms>, String)> = None;
    for entry_row in answered.rows(view, from, PAGE) {
        let over = (loads(&entry_row.configuration), way(answered, &entry_row.configuration));
        if before.as_ref() != Some(&over) {
            kids.push(heading(&entry_row.configuration, &over.0, &over.1));
            before = Some(over);
        }
        kids.push(entry(sheet, answered, &entry_row));
    }
    if kids.is_empty() {
        return nothing();
    }
    let power = answered
        .first()
        .is_some_and(|one| one.outputs.iter().any(|output| output.target_watts.is_some()));
    let group = if state.look.group.is_some() {
        el(
            "p",
            "note",
            vec![
                said(say::group(view.rows)),
                button(act, "quiet", say::ALL_GROUPS, Action::Group(None)),
            ],
        )
    } else {
        nothing()
    };
    row(vec![
        el("div", "list-head", vec![said_what(sheet, view.rows), order(sheet, answered)]),
        group,
        if power { line("p", "hints", super::words::page::LEVEL_SET) } else { nothing() },
        el("ol", "entries", kids),
        pager(sheet, page, view.rows),
    ])
}

/// What is listed: all, or those of one load.
fn said_what(Sheet { state, act }: Sheet, rows: u64) -> Html {
    match state.look.load {
        Some(load) => el(
            "p",
            "listed",
            vec![
                told("b", "", say::at_load(&rig::load(load))),
                button(act, "quiet", say::EVERY_LOAD, Action::Load(None)),
            ],
        ),
        None if state.look.group.is_none() => told("p", "listed", say::rows(rows, grouped(state))),
        None => nothing(),
    }
}

fn grouped(state: &crate::state::State) -> bool {
    !(state.form.joined_only && state.form.even_only)
}

/// The distinct loads of the outputs, the highest first.
fn loads(one: &Configuration) -> Vec<Ohms> {
    let mut loads: Vec<Ohms> = Vec::new();
    for output in &one.outputs {
        if let Err(at) = loads.binary_search_by(|load| output.load.cmp(load)) {
            loads.insert(at, output.load);
        }
    }
    loads
}

/// The way to use several outputs of the amplifier; nothing where one is in use.
fn way(answered: &Answered, one: &Configuration) -> String {
    let amplifier = answered.request.rig.amplifier().filter(|_| one.outputs.len() > 1);
    amplifier.map_or_else(String::new, |amplifier| ways::way(amplifier, &one.outputs))
}

/// Over entries of the same loads and the same way: the loads and the way.
fn heading(one: &Configuration, loads: &[Ohms], way: &str) -> Html {
    let mut kids = Vec::new();
    for load in loads {
        if !kids.is_empty() {
            kids.push(text(say::AND));
        }
        kids.push(big(*load));
    }
    if !way.is_empty() {
        kids.push(told("span", "way", super::words::page::heading(way)));
    }
    let mut key = String::from("at");
    for load in loads {
        key.push_str(&load.to_string());
        key.push(';');
    }
    key.push_str(&one.key());
    Tag::new("li").with(&["class"], vec![fixed("at-load")]).key(key).kids(vec![el("h3", "", kids)])
}

/// A load in large type.
pub fn big(load: Ohms) -> Html {
    let (exact, near) = super::words::page::load_lines(load);
    let mut kids = vec![told("b", "", exact)];
    if let Some(near) = near {
        kids.push(told("small", "", near));
    }
    el("span", "ohms", kids)
}

/// The order of the list, to choose from.
fn order(Sheet { state, act }: Sheet, answered: &Answered) -> Html {
    let wanted = state.look.wanted(answered.shown().total.unwrap_or(0), true);
    let mut kids = Vec::new();
    for order in ORDERS {
        let words = match order {
            Order::Rank => say::BEST_FIRST,
            Order::Load => say::BY_LOAD,
            Order::Power => say::BY_POWER,
            Order::Runs => say::BY_RUNS,
        };
        kids.push(
            Tag::new("option")
                .with(
                    &["value", "selected"],
                    vec![fixed(order_name(order)), on(order == wanted.order, "")],
                )
                .kids(vec![text(words)]),
        );
    }
    let select = Tag::new("select")
        .with(&["id"], vec![fixed("order")])
        .on(ListenerKind::onchange, act, What::Order)
        .kids(kids);
    el("label", "order", vec![line("span", "", say::ORDER), select])
}

fn pager(Sheet { act, .. }: Sheet, page: u32, rows: u64) -> Html {
    let pages = pages(rows);
    if pages < 2 {
        return nothing();
    }
    let first = u64::from(page) * u64::from(PAGE);
    let last = (first + u64::from(PAGE)).min(rows);
    let mut kids = Vec::new();
    if page > 0 {
        kids.push(press(
            act,
            "quiet",
            None,
            tag::act(Action::Page(page - 1)),
            vec![text(say::EARLIER_PAGE)],
        ));
    }
    kids.push(told("span", "", say::range(first + 1, last, rows)));
    if page + 1 < pages {
        kids.push(press(
            act,
            "quiet",
            None,
            tag::act(Action::Page(page + 1)),
            vec![text(say::LATER_PAGE)],
        ));
    }
    Tag::new("nav")
        .with(&["class", "aria-label"], vec![fixed("pager"), fixed(say::PAGES)])
        .kids(kids)
}
