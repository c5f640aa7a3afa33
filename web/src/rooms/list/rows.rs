//! The list: one page of the configurations as they are looked at.

use super::entry::entry;
use crate::pen::{Pen, What, When};
use crate::words::{page::list as say, rig, ways};
use super::state::Action;
use crate::parts::load::big;
use crate::answer::asking::Answered;
use crate::rooms::list::state::{ORDERS, PAGE, order_name, pages};
use coilwright_solver::answer::{Configuration, Order};
use coilwright_solver::ohms::Ohms;

/// The list with what stands over it.
pub(super) fn list(pen: &mut Pen, answered: &Answered) {
    let state = pen.state;
    let Some(view) = state.rooms.list.view.as_deref() else {
        return pen.nothing();
    };
    let page = state.rooms.list.page.min(pages(view.rows) - 1);
    let from = u64::from(page) * u64::from(PAGE);
    let rows = answered.rows(view, from, PAGE);
    if rows.is_empty() {
        return pen.nothing();
    }
    pen.open("");
    pen.open("div.list-head");
    said_what(pen, view.rows);
    order(pen);
    pen.close();
    if state.rooms.list.group.is_some() {
        pen.open("p.note");
        pen.said(say::group(view.rows));
        pen.button("quiet", say::ALL_GROUPS, Action::Group(None));
        pen.close();
    } else {
        pen.nothing();
    }
    let power = answered
        .first()
        .is_some_and(|one| one.outputs.iter().any(|output| output.target_watts.is_some()));
    pen.line_if(power, "p.hints", crate::words::page::LEVEL_SET);
    pen.open("ol.entries");
    let mut before: Option<(Vec<Ohms>, String)> = None;
    for row in &rows {
        let loads = loads(&row.configuration);
        let over = (loads, way(answered, &row.configuration));
        if before.as_ref() != Some(&over) {
            heading(pen, &row.configuration, &over.0, &over.1);
            before = Some(over);
        }
        entry(pen, answered, row);
    }
    pen.close();
    pager(pen, page, view.rows);
    pen.close();
}

/// What is listed: all, or those of one load.
fn said_what(pen: &mut Pen, rows: u64) {
    let look = &pen.state.rooms.list;
    match look.load {
        Some(load) => {
            pen.open("p.listed");
            pen.line_of("b", say::at_load(&rig::load(load)));
            pen.button("quiet", say::EVERY_LOAD, Action::Load(None));
            pen.close();
        }
        None if look.group.is_none() => {
            let gathered = pen.state.wanted().gathered;
            pen.line_of("p.listed", say::rows(rows, gathered));
        }
        None => pen.nothing(),
    }
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
fn heading(pen: &mut Pen, one: &Configuration, loads: &[Ohms], way: &str) {
    let mut key = String::from("at");
    for load in loads {
        key.push_str(&load.to_string());
        key.push(';');
    }
    key.push_str(&one.key());
    pen.open("li.at-load");
    pen.key(key);
    pen.open("h3");
    for (i, load) in loads.iter().enumerate() {
        if i > 0 {
            pen.text(say::AND);
        }
        big(pen, *load);
    }
    if !way.is_empty() {
        pen.line_of("span.way", crate::words::page::heading(way));
    }
    pen.close();
    pen.close();
}

/// The order of the list, to choose from.
fn order(pen: &mut Pen) {
    let wanted = pen.state.wanted();
    pen.open("label.order");
    pen.line("span", say::ORDER);
    pen.open("select|id=order");
    pen.on(When::Chosen, What::Order);
    for order in ORDERS {
        let words = match order {
            Order::Rank => say::BEST_FIRST,
            Order::Load => say::BY_LOAD,
            Order::Power => say::BY_POWER,
            Order::Runs => say::BY_RUNS,
        };
        pen.option(order_name(order), order == wanted.order, words);
    }
    pen.close();
    pen.close();
}

fn pager(pen: &mut Pen, page: u32, rows: u64) {
    let pages = pages(rows);
    if pages < 2 {
        return pen.nothing();
    }
    let first = u64::from(page) * u64::from(PAGE);
    let last = (first + u64::from(PAGE)).min(rows);
    pen.open("nav.pager");
    pen.fixed("aria-label", say::PAGES);
    if page > 0 {
        pen.button("quiet", say::EARLIER_PAGE, Action::Page(page - 1));
    }
    pen.line_of("span", say::range(first + 1, last, rows));
    if page + 1 < pages {
        pen.button("quiet", say::LATER_PAGE, Action::Page(page + 1));
    }
    pen.close();
}
