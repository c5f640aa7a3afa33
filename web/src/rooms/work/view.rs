//! Working mode: one step on one screen, the ways on under the thumb.

use super::drawing::drawing;
use super::over;
use super::state::Action as Own;
use crate::job::Action;
use crate::job::plan::Wired;
use crate::parts::plan::{wording, wording_of};
use crate::parts::tied::tied;
use crate::parts::title::of_shown;
use crate::parts::{finding, gate, reading};
use crate::pen::{Pen, What};
use crate::rooms::Room;
use crate::state::State;
use crate::state::page::Action as OnPage;
use crate::words::gate as gate_words;
use crate::words::page as say;
use crate::words::page::room as page_words;
use crate::words::page::wire as words;
use crate::words::wiring::{Step, Wording};

/// The class of the page.
pub const PAGE: &str = "page page-wire page-work";
/// What leads past the fields, and where.
pub const SKIP: (&str, &str) = (page_words::TO_STEP, TITLE);
/// The id of the heading of the step at hand.
pub const TITLE: &str = over::TITLE;

/// The title of the window.
#[must_use]
pub fn title(state: &State) -> String {
    of_shown(state, words::WORKING)
}

/// The room.
pub fn show(pen: &mut Pen) {
    let own = pen.state.rooms.work.version();
    pen.room("section.sheet wide-room working", "work", own, room);
}

fn room(pen: &mut Pen) {
    pen.open("");
    let Some(wording) = wording(pen) else {
        top(pen, None);
        pen.line("p.note", words::NO_PLAN);
        return pen.close();
    };
    let job = &pen.state.job;
    let (at, count) = (job.at(), wording.plan.steps.len());
    top(pen, Some((at, count)));
    if job.over {
        over::over(pen, &wording);
        return pen.close();
    }
    let step = wording.step(at);
    // Where the gate is shut nothing is said that leads on.
    let shut = job.is_shut(at);
    pen.open("div.work-said");
    said(pen, &wording, &step, at);
    if shut {
        pen.nothing();
    } else {
        how(pen, &step);
    }
    gate::panel(pen, &wording, at);
    reading::fields(pen, &wording);
    finding::panel(pen, &wording);
    pen.close();
    // Where nothing is to be done there is nothing to show.
    if shut {
        pen.nothing();
    } else {
        drawing(pen, &wording);
    }
    acts(pen, at, shut);
    pen.close();
}

/// Where one is, and the ways out.
fn top(pen: &mut Pen, far: Option<(usize, usize)>) {
    let state = pen.state;
    pen.open("div.work-top");
    pen.line("h2.unseen|id=room", words::WORKING);
    pen.to_room("quiet", words::LEAVE_WORKING, Room::Wire);
    match far {
        Some((at, count)) => {
            let over = state.job.over;
            pen.line_of("b.work-far", words::step_of(if over { count } else { at + 1 }, count));
        }
        None => pen.nothing(),
    }
    let how = state.rooms.work.tells_how();
    pen.press("quiet", What::act(Own::How(!how)));
    pen.fixed("aria-expanded", if how { "true" } else { "false" });
    pen.text(words::HOW);
    pen.close();
    pen.close();
    let (done, count) = (state.job.done(), state.job.steps().len());
    pen.open("progress");
    pen.made("max", count.max(1).to_string());
    pen.made("value", done.to_string());
    pen.made("aria-label", words::done_of(done, count));
    pen.close();
}

/// What is done at a step.
fn said(pen: &mut Pen, wording: &Wording<'_>, step: &Step, at: usize) {
    let state = pen.state;
    pen.open("div.work-step");
    pen.open("h3.work-title|tabindex=-1|aria-describedby=work-lines");
    pen.fixed("id", TITLE);
    if state.job.is_shut(at) {
        pen.text(gate_words::DO_NOT);
        pen.close();
        pen.line("p.work-text|id=work-lines", gate::line(wording, at));
        return pen.close();
    }
    pen.said(tied(&step.title));
    pen.close();
    pen.open("div.work-lines|id=work-lines");
    if state.job.is_done(at) {
        pen.open("p.work-done");
        pen.text(words::IS_DONE);
        pen.text(" ");
        pen.button("quiet", words::NOT_DONE, Action::Done(at, false));
        pen.close();
    }
    for line in step.runs.iter().chain(&step.lines) {
        pen.line_of("p.work-text", tied(line));
    }
    match &step.caution {
        Some(caution) => pen.line_of("p.work-caution", caution.clone()),
        None => pen.nothing(),
    }
    pen.close();
    pen.close();
}

/// What its acts say at length, and what else is at hand.
fn how(pen: &mut Pen, step: &Step) {
    let state = pen.state;
    if !state.rooms.work.tells_how() {
        return pen.nothing();
    }
    pen.open("div.work-how");
    pen.open("p.work-tools");
    if state.undo.next(false).is_some() {
        pen.press("quiet", What::Undo(false));
        pen.text(say::undo::UNDO);
        pen.close();
    } else {
        pen.nothing();
    }
    pen.toggle(say::SUN, state.page.sun, What::act(OnPage::Sun));
    if pen.host().speaks() {
        let aloud = state.rooms.work.is_aloud();
        pen.toggle(words::READ_ALOUD, aloud, What::act(Own::Aloud(!aloud)));
    }
    pen.close();
    for text in &step.how {
        pen.line_of("p", tied(text));
    }
    pen.close();
}

/// The ways on.
fn acts(pen: &mut Pen, at: usize, shut: bool) {
    let done = pen.state.job.is_done(at);
    pen.open("div.work-acts");
    pen.press("quiet", What::act(Action::Step(at.saturating_sub(1))));
    if at == 0 {
        pen.fixed("disabled", "");
    }
    pen.text(words::BACK);
    pen.close();
    if shut {
        pen.nothing();
    } else {
        pen.button("act", words::DONE, Action::DoneNext);
    }
    let on = if done { words::NEXT } else { words::SKIP };
    pen.button("quiet", on, Action::Step(at + 1));
    pen.close();
}

/// A step as it is read aloud.
#[must_use]
pub fn spoken(state: &State, wired: &Wired, step: usize) -> String {
    let Some(wording) = wording_of(wired) else { return String::new() };
    if state.job.is_shut(step) {
        return [gate_words::DO_NOT, ". ", &gate_words::count(state.job.stops().len())].concat();
    }
    let step = wording.step(step);
    let mut text = step.title.clone();
    text.push_str(". ");
    text.push_str(&step.text());
    if let Some(caution) = step.caution {
        text.push(' ');
        text.push_str(&caution);
    }
    text
}
