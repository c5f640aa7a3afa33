//! Working mode: one step at a time, large, with the ways on under the thumb.

use crate::parts::title::of_shown;
use crate::words::page::room as page_words;
use crate::pen::{Pen, What, When};
use crate::parts::tied::tied;
use crate::parts::plan::{picture, wording, wording_of};
use crate::words::gate as gate_words;
use crate::words::page::wire as words;
use crate::parts::{finding, gate, reading};
use crate::job::plan::Wired;
use super::state::Action as Own;
use crate::job::Action;
use crate::rooms::Room;
use crate::state::State;

/// The class of the page.
pub const PAGE: &str = "page page-wire page-work";
/// What leads past the fields, and where.
pub const SKIP: (&str, &str) = (page_words::TO_STEP, "room");

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
    let state = pen.state;
    pen.open("");
    pen.open("div.chosen-top");
    pen.line("h2.tab|id=room|tabindex=-1", words::WORKING);
    pen.to_room("quiet", words::LEAVE_WORKING, Room::Wire);
    pen.close();
    let Some(wording) = wording(pen) else {
        pen.line("p.note", words::NO_PLAN);
        return pen.close();
    };
    let (at, count) = (state.job.work.at, wording.plan.steps.len());
    let done = state.job.work.done.len();
    pen.open("p.work-far");
    pen.line_of("b", words::step_of(usize::from(at) + 1, count));
    pen.text(" ");
    pen.said(words::done_of(done, count));
    pen.close();
    pen.open("progress");
    pen.made("max", count.to_string());
    pen.made("value", done.to_string());
    pen.made("aria-label", words::done_of(done, count));
    pen.close();
    let step = wording.step(usize::from(at));
    pen.open("div.work-step|role=status|aria-live=polite");
    // Where the gate is shut nothing is said that leads on.
    let shut = state.job.is_shut(at);
    if shut {
        pen.line("p.work-title", gate_words::DO_NOT);
        pen.line("p.work-text", gate::line(&wording, at));
        pen.nothing();
    } else {
        pen.line_of("p.work-title", tied(&step.title));
        pen.line_of("p.work-text", tied(&step.text));
        match step.caution {
            Some(caution) => pen.line_of("p.note note-wrong", caution),
            None => pen.nothing(),
        }
    }
    pen.close();
    gate::panel(pen, &wording, at);
    reading::fields(pen, &wording);
    finding::panel(pen, &wording);
    if shut {
        pen.nothing();
    } else {
        let ticked = state.job.work.is_done(at);
        pen.open("label.tick work-tick");
        pen.open("input|type=checkbox");
        pen.ticked(ticked);
        pen.on(When::Chosen, What::act(Action::Done(at, !ticked)));
        pen.close();
        pen.line("b", words::DONE);
        pen.close();
    }
    picture(pen, &wording, state.job.zoom);
    pen.open("p.work-more");
    if pen.host().speaks() {
        pen.press("quiet", What::act(Own::Aloud(!state.rooms.work.is_aloud())));
        pen.text(if state.rooms.work.is_aloud() { words::STOP_READING } else { words::READ_ALOUD });
        pen.close();
    }
    if done > 0 {
        pen.button("quiet", words::START_OVER, Action::StartOver);
    }
    pen.close();
    if done == count && !shut {
        pen.line("p.note", words::ALL_DONE);
    } else {
        pen.nothing();
    }
    pen.open("div.work-acts");
    pen.press("quiet", What::act(Action::Step(at.saturating_sub(1))));
    if at == 0 {
        pen.fixed("disabled", "");
    }
    pen.text(words::BACK);
    pen.close();
    let last = usize::from(at) + 1 >= count;
    if shut {
        pen.nothing();
    } else {
        pen.button("act", if last { words::DONE } else { words::DONE_NEXT }, Action::DoneNext);
    }
    pen.press("quiet", What::act(Action::Step(at + 1)));
    if last {
        pen.fixed("disabled", "");
    }
    pen.text(words::NEXT);
    pen.close();
    pen.close();
    pen.close();
}

/// A step as it is read aloud.
#[must_use]
pub fn spoken(state: &State, wired: &Wired, step: u16) -> String {
    let Some(wording) = wording_of(wired) else { return String::new() };
    if state.job.is_shut(step) {
        return [gate_words::DO_NOT, ". ", &gate_words::count(state.job.stops().len())].concat();
    }
    let step = wording.step(usize::from(step));
    let mut text = step.title;
    text.push_str(". ");
    text.push_str(&step.text);
    if let Some(caution) = step.caution {
        text.push(' ');
        text.push_str(&caution);
    }
    text
}
