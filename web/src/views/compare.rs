//! Configurations side by side, also of different rigs: one table, rows that differ marked.

use super::chosen::{SMALL_ROOM, picture};
use super::entry::{overheats, verdict};
use super::tag::{
    Tag, What, button, el, fixed, line, named, nothing, press, row, said, text, told,
};
use super::words::page::{self as say, compare as words};
use super::words::{
    counts, failure as fail, judged, level, percent, rig as rig_words, watts, ways,
};
use super::{Sheet, tied};
use crate::state::Action;
use coilwright_solver::answer::Configuration;
use coilwright_solver::given::driver_watts;
use coilwright_solver::rig::Rig;
use coilwright_solver::{failure, level as levels};
use yew::prelude::*;

type Column = (Rig, Configuration);

/// The room.
pub fn room(Sheet { state, act }: Sheet) -> Html {
    let heading = Tag::new("h2")
        .with(&["id", "class", "tabindex"], vec![fixed("room"), fixed("tab"), fixed("-1")])
        .kids(vec![text(words::HEADING)]);
    let back = press(act, "quiet", None, What::Back, vec![text(say::chosen::BACK)]);
    let top = el("div", "chosen-top", vec![heading, back]);
    if state.compared.is_empty() {
        return row(vec![top, line("p", "", words::EMPTY)]);
    }
    let mut columns: Vec<Option<Column>> = Vec::new();
    for one in &state.compared {
        columns.push(one.read());
    }
    let mut heads = vec![el("td", "", Vec::new())];
    for (i, (one, read)) in state.compared.iter().zip(&columns).enumerate() {
        let name = read.as_ref().map_or_else(|| one.key.clone(), |(_, one)| network(one));
        let remove = format!("{} {name}", words::REMOVE);
        heads.push(Tag::new("th").with(&["scope"], vec![fixed("col")]).kids(vec![
            told("b", "", words::number(i + 1)),
            named(act, "quiet", words::REMOVE, remove, Action::LeaveOut(i)),
        ]));
    }
    let mut body = vec![pictures(&columns)];
    for (name, tell) in ROWS {
        body.push(told_row(name, &columns, tell));
    }
    body.push(louder(&columns));
    let table = el(
        "table",
        "compare",
        vec![el("thead", "", vec![el("tr", "", heads)]), el("tbody", "", body)],
    );
    let scroll = Tag::new("div")
        .with(
            &["class", "tabindex", "role", "aria-label"],
            vec![fixed("compare-scroll"), fixed("0"), fixed("region"), fixed(words::HEADING)],
        )
        .kids(vec![table]);
    let full = state.compared.len() >= crate::state::compared::MOST;
    row(vec![
        top,
        line("p", "hints", words::READ),
        scroll,
        line("p", "hints", level::CLOSE_TOGETHER),
        line("p", "hints", if full { words::FULL } else { words::MORE }),
        el(
            "p",
            "chosen-acts",
            vec![button(
                act,
                "quiet",
                words::BACK_FOR_MORE,
                Action::Room(crate::state::Room::List),
            )],
        ),
    ])
}

/// A row of the table: its name and what it says of each.
type Tell = fn(&Rig, &Configuration) -> String;

const ROWS: [(&str, Tell); 12] = [
    (words::RIG, |rig, _| rig_words::summary(rig)),
    (words::LOAD, |_, one| {
        let mut text = String::new();
        for output in &one.outputs {
            add(&mut text, &rig_words::load(output.load));
        }
        text
    }),
    (words::VERDICT, |_, one| judged::verdict(one.verdict).to_owned()),
    (words::NETWORK, |_, one| network(one)),
    (words::USE, |rig, one| ways::describe(rig, &one.outputs)),
    (words::TARGET, |_, one| {
        let target: Option<f64> = one.outputs.iter().map(|output| output.target_watts).sum();
        target.map_or_else(|| words::UNKNOWN.to_owned(), watts)
    }),
    (words::EACH, |rig, one| {
        let each = driver_watts(rig, one, |output| output.target_watts);
        each.map_or_else(|| shares(one), |each| say::watts_each(&each))
    }),
    (words::GIVES, |_, one| {
        let mut text = String::new();
        for output in &one.outputs {
            match &output.available {
                Some(given) => add(&mut text, &judged::available(given)),
                None => add(&mut text, words::UNKNOWN),
            }
        }
        text
    }),
    (words::HEAT, |_, one| overheats(one).map_or(words::UNKNOWN, judged::overheats).to_owned()),
    (words::EVEN, |_, one| words::even(one.even).to_owned()),
    (words::RUNS, |_, one| {
        let joined = words::joined(one.joined_at_driver);
        format!("{}, {joined}", counts::runs(one.runs))
    }),
    (words::FAILS, |rig, one| {
        failure::worst(rig, one).map_or_else(String::new, |worst| fail::opens(rig, one, &worst))
    }),
];

/// Adds one of several, unless it says the same.
fn add(text: &mut String, more: &str) {
    if text.is_empty() {
        text.push_str(more);
    } else if !text.split("; ").any(|part| part == more) {
        text.push_str("; ");
        text.push_str(more);
    }
}

fn network(one: &Configuration) -> String {
    let mut text = String::new();
    for output in &one.outputs {
        add(&mut text, &output.network.to_string());
    }
    text
}

/// What each driver gets of the whole, where watts are not known.
fn shares(one: &Configuration) -> String {
    let mut text = String::new();
    for share in &one.driver_shares {
        add(&mut text, &percent(*share));
    }
    text
}

fn told_row(name: &'static str, columns: &[Option<Column>], tell: Tell) -> Html {
    let mut cells = Vec::new();
    for column in columns {
        cells.push(match column {
            Some((rig, one)) => tied(&tell(rig, one)),
            None => words::UNREADABLE.to_owned(),
        });
    }
    let differs = cells.iter().any(|cell| Some(cell) != cells.first());
    let mut kids = vec![head(name, differs)];
    for (cell, column) in cells.into_iter().zip(columns) {
        kids.push(match column {
            Some((_, one)) if name == words::VERDICT => el("td", "", vec![verdict(one.verdict)]),
            _ => told("td", "", cell),
        });
    }
    el("tr", if differs { "differs" } else { "" }, kids)
}

fn head(name: &'static str, differs: bool) -> Html {
    let mut kids = vec![text(name)];
    if differs {
        kids.push(line("span", "differs-mark", words::DIFFERS));
    }
    Tag::new("th").with(&["scope"], vec![fixed("row")]).kids(kids)
}

fn pictures(columns: &[Option<Column>]) -> Html {
    let mut kids = vec![head(words::CIRCUIT, false)];
    for column in columns {
        let drawn = column.as_ref().map_or_else(nothing, |(_, one)| picture(one, SMALL_ROOM));
        kids.push(el("td", "", vec![drawn]));
    }
    el("tr", "", kids)
}

/// How much louder each is than the first, or why that cannot be told.
fn louder(columns: &[Option<Column>]) -> Html {
    let mut kids = vec![head(words::LEVEL, false)];
    for (i, column) in columns.iter().enumerate() {
        let words = match (columns.first(), column) {
            (Some(Some((rig, first))), Some((other, one))) if i > 0 => {
                match levels::difference((rig, first), (other, one)) {
                    Ok(decibels) => level::difference(decibels),
                    Err(why) => level::why_not(why).to_owned(),
                }
            }
            (_, Some(_)) if i == 0 => words::FIRST.to_owned(),
            _ => String::new(),
        };
        kids.push(el("td", "", vec![said(words)]));
    }
    el("tr", "", kids)
}
