//! A rig that is wired already: what it is believed to be, its one reading, and the finding.

use super::Action as Own;
use crate::parts::plan::wording;
use crate::parts::tied::tied;
use crate::parts::title::of_shown;
use crate::parts::top::top;
use crate::parts::reading::{Alone, misread};
use crate::parts::{finding, reading, troubles};
use crate::pen::{Pen, What, When};
use crate::question::text;
use crate::rooms::Room;
use crate::state::State;
use crate::state::page::Action;
use crate::words::cautions::{self, Caution};
use crate::words::gate::OL;
use crate::words::page::already as say;
use crate::words::page::room::configuration;
use crate::words::page::{self, wire};
use coilwright_solver::answer::Configuration;
use coilwright_solver::meter::{self, Agreement, Job, Read, Reading};
use coilwright_solver::rig::{Build, Rig};
use coilwright_solver::wiring::Plan;

/// The class of the page.
pub const PAGE: &str = "page page-already";
/// What leads past the fields, and where.
pub const SKIP: (&str, &str) = (say::TO_ALREADY, "room");
/// The id of the choice of what it is believed to be.
pub const BELIEVED: &str = "believed";

/// So many are offered: the first page of the list.
const OFFERED: u32 = 25;

/// The title of the window.
#[must_use]
pub fn title(state: &State) -> String {
    of_shown(state, say::TITLE)
}

/// The room.
pub fn show(pen: &mut Pen) {
    // Short, and written anew with every letter.
    pen.open("section.sheet wide-room already");
    room(pen);
    pen.close();
}

fn room(pen: &mut Pen) {
    let state = pen.state;
    pen.open("");
    top(pen, "h2.tab|id=room|tabindex=-1", say::TITLE, "quiet");
    pen.line("p.closed-about", say::ABOUT);
    pen.line("p.closed-caution", cautions::text(Caution::CablesOff));
    if state.is_example() {
        pen.line("p.note", say::EXAMPLE);
        pen.button("act", page::START_EMPTY, Action::StartEmpty);
    } else if state.question.read.request.is_none() {
        pen.line("p.note", say::FIRST);
        troubles::list(pen);
    } else {
        let rows = offered(state);
        believed(pen, &rows);
        if state.answer.chosen.is_some() {
            read(pen);
        } else {
            read_unknown(pen, &rows);
        }
    }
    pen.close();
}

/// The ways to wire it that are offered, once they are known.
fn offered(state: &State) -> Vec<Configuration> {
    let Some(answered) = state.answer.answered.as_deref() else { return Vec::new() };
    let view = answered.view(&state.wanted());
    let rows = answered.rows(&view, 0, OFFERED);
    rows.into_iter().map(|row| row.configuration).collect()
}

/// What it is believed to be.
fn believed(pen: &mut Pen, rows: &[Configuration]) {
    let chosen = pen.state.answer.chosen.as_deref();
    pen.open("p.already-choice");
    pen.open("label");
    pen.fixed("for", BELIEVED);
    pen.text(say::BELIEVED);
    pen.close();
    pen.open("span.blank blank-choice");
    pen.open("span.blank-line");
    pen.open("select");
    pen.fixed("id", BELIEVED);
    pen.on(When::Chosen, What::Believe);
    let known = |key: &str| rows.iter().any(|row| row.key() == key);
    if let Some(one) = chosen.filter(|one| !known(&one.key())) {
        way(pen, one, true);
    }
    for row in rows.iter().rev() {
        way(pen, row, chosen.is_some_and(|one| one.key() == row.key()));
    }
    pen.option("", chosen.is_none(), say::UNKNOWN);
    pen.close();
    pen.close();
    pen.close();
    pen.close();
}

/// One of the ways to wire it, to be chosen.
fn way(pen: &mut Pen, one: &Configuration, selected: bool) {
    pen.open("option");
    pen.made("value", one.key());
    if selected {
        pen.fixed("selected", "");
    }
    pen.said(configuration(one));
    pen.close();
}

/// What its cup reads, by what it is believed to be, and what is wrong where it does not.
fn read(pen: &mut Pen) {
    let Some(wording) = wording(pen) else {
        pen.line("p.note", wire::NO_PLAN);
        return troubles::of_box(pen);
    };
    let Some(point) = meter::closing(wording.plan) else { return pen.nothing() };
    pen.open("div.readings");
    pen.line_of("p.finding-point", tied(&wording.point(&point).0));
    reading::field(pen, &wording, point);
    if let Some(leads) = meter::touching(wording.plan) {
        // Few ohms are told apart only by who knows what the leads read.
        reading::field(pen, &wording, leads);
    }
    pen.close();
    let right = pen.state.job.agreement(point) == Some(Ok(Agreement::Right));
    pen.line_if(right && pen.state.job.found().is_none(), "p.hints", say::READS_RIGHT);
    pen.open("p.wire-acts");
    pen.to_room("quiet", say::SEE, Room::Wire);
    pen.close();
    // Last: it comes when it is worked out, and moves nothing.
    finding::panel(pen, &wording);
}

/// What its cup reads, and which of the ways to wire it read like that.
fn read_unknown(pen: &mut Pen, rows: &[Configuration]) {
    let shown = &pen.state.rooms.already.reads;
    let parsed = text::reading(shown);
    pen.open("div.closed-ask");
    let (trouble, ol) = (parsed.err().map(misread), Some(Own::Reads(OL.to_owned()).into()));
    let (id, label, how, what) = ("cup-reads", say::CUP, "", What::Cup);
    reading::alone(pen, Alone { id, label, raw: shown, trouble, how, what, ol });
    pen.close();
    let build = pen.state.question.read.build.as_ref();
    let (Ok(Some(reading)), Some(build), Some(rig)) = (parsed, build, pen.state.rig()) else {
        return pen.nothing();
    };
    if pen.state.answer.answered.is_none() {
        return pen.nothing();
    }
    let like: Vec<&Configuration> =
        rows.iter().filter(|one| reads_like(rig, build, one, reading)).collect();
    pen.open("div.already-like");
    if like.is_empty() {
        pen.line("p.note", say::NONE_READS);
    } else {
        pen.line("h3", say::READS_LIKE);
        pen.open("ul.already-list");
        for one in like {
            pen.open("li");
            pen.key(one.key());
            pen.press("gate-stop", What::act(Action::Believe(Some(one.key()))));
            pen.said(tied(&configuration(one)));
            pen.close();
            pen.close();
        }
        pen.close();
    }
    pen.close();
}

/// Whether one of the ways to wire it may read like that where its cable begins.
fn reads_like(rig: &Rig, build: &Build, one: &Configuration, reading: Reading) -> bool {
    let Ok(plan) = Plan::of(rig, build, one) else { return false };
    let Some(point) = meter::closing(&plan) else { return false };
    let read = Read { point, reading };
    let job = Job { rig, build, configuration: one, plan: &plan };
    let judged = meter::judge(&job, &[read]).unwrap_or_default();
    matches!(judged.first(), Some(Agreement::Right | Agreement::Doubtful | Agreement::LeadsFirst))
}
