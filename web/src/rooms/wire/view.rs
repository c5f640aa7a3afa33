//! The plan: the box, the drawing as wired, the steps, the parts.

use crate::parts::title::of_shown;
use crate::state::State;
use crate::words::page::room as page_words;
use crate::pen::{Pen, What, When};
use crate::words::finding as finding_words;
use crate::words::gate as gate_words;
use crate::words::page::wire as words;
use crate::words::wiring::Wording;
use super::build;
use crate::parts::plan::{configuration, picture, wording};
use crate::parts::tied::tied;
use crate::parts::top::top;
use crate::parts::{finding, gate, handing, reading};
use crate::job::plan::Zoom;
use crate::job::Action;
use crate::rooms::Room;

/// The class of the page.
pub const PAGE: &str = "page page-wire";
/// What leads past the fields, and where.
pub const SKIP: (&str, &str) = (page_words::TO_PLAN, "room");

/// The title of the window.
#[must_use]
pub fn title(state: &State) -> String {
    of_shown(state, words::WIRE_IT)
}

/// The room.
pub fn show(pen: &mut Pen) {
    let own = pen.state.rooms.wire.version();
    pen.room("section.sheet wide-room wire", "wire", own, room);
}

fn room(pen: &mut Pen) {
    pen.open("");
    top(pen, "h2.tab|id=room|tabindex=-1", words::WIRE_IT, "quiet");
    configuration(pen);
    pen.open("div.wire-cols");
    pen.open("div.wire-ask");
    build::form(pen);
    match wording(pen) {
        Some(wording) => {
            notes(pen, &wording);
            reading::coils(pen, &wording);
        }
        // As many as there are else: what is being typed beside them stays what it is.
        None => {
            pen.nothing();
            pen.nothing();
        }
    }
    pen.close();
    match wording(pen) {
        Some(wording) => {
            drawing(pen, &wording);
            steps(pen, &wording);
        }
        None => {
            pen.open("");
            pen.line("p.note", words::NO_PLAN);
            crate::parts::troubles::of_box(pen);
            pen.close();
            pen.nothing();
        }
    }
    pen.close();
    pen.close();
}

fn notes(pen: &mut Pen, wording: &Wording<'_>) {
    pen.open("ul.facts");
    for note in wording.notes() {
        pen.line_of("li", tied(&note));
    }
    pen.close();
}

fn drawing(pen: &mut Pen, wording: &Wording<'_>) {
    let state = pen.state;
    pen.open("div.wire-drawing");
    let as_built = state.job.drawn().is_some();
    pen.line("h3", if as_built { finding_words::AS_BUILT } else { words::AS_WIRED });
    picture(pen, wording, state.job.zoom);
    pen.open("p.wire-tools");
    let turn = |pen: &mut Pen, words, name: &'static str, action| {
        pen.named("quiet tool", words, name.to_owned(), action);
    };
    turn(pen, "‹", words::RUN_BEFORE, Action::NextRun(false));
    turn(pen, "›", words::RUN_AFTER, Action::NextRun(true));
    turn(pen, "−", words::SMALLER, Action::Zoom(state.job.zoom.turned(false)));
    turn(pen, "+", words::LARGER, Action::Zoom(state.job.zoom.turned(true)));
    pen.button("quiet tool", words::WHOLE, Action::Zoom(Zoom::Whole));
    pen.close();
    at_hand(pen, wording);
    reading::fields(pen, wording);
    finding::panel(pen, wording);
    pen.line("p.hints", words::DRAWING_HELP);
    pen.close();
}

/// The step at hand, said when it changes.
fn at_hand(pen: &mut Pen, wording: &Wording<'_>) {
    let at = usize::from(pen.state.job.work.at);
    pen.open("div.at-hand|role=status|aria-live=polite");
    if at < wording.plan.steps.len() {
        let step = wording.step(at);
        if pen.state.job.is_shut(pen.state.job.work.at) {
            pen.line("b", gate_words::DO_NOT);
            pen.line("span", gate::line(wording, pen.state.job.work.at));
        } else {
            pen.line_of("b", tied(&step.title));
            pen.line_of("span", tied(&step.text));
            if let Some(caution) = step.caution {
                pen.line_of("span.step-caution", caution);
            }
        }
    }
    pen.close();
    gate::panel(pen, wording, pen.state.job.work.at);
}

fn steps(pen: &mut Pen, wording: &Wording<'_>) {
    pen.open("div.wire-steps");
    pen.open("div.wire-acts");
    pen.to_room("act", words::WORKING, Room::Work);
    pen.to_room("quiet", words::JOB_SHEET, Room::Sheet);
    pen.press("quiet", What::Copy);
    pen.text(if pen.state.rooms.wire.is_copied() { words::COPIED } else { words::COPY_STEPS });
    pen.close();
    pen.press("quiet", What::SaveDrawing(false));
    pen.text(words::SAVE_SVG);
    pen.close();
    pen.press("quiet", What::SaveDrawing(true));
    pen.text(words::SAVE_PNG);
    pen.close();
    handing::buttons(pen);
    pen.close();
    handing::outcome(pen);
    pen.line("h3", words::STEPS);
    pen.line_of("p.hints", words::done_of(pen.state.job.work.done.len(), wording.plan.steps.len()));
    pen.open("ol.steps");
    for (number, _) in (0_u16..).zip(&wording.plan.steps) {
        entry(pen, wording, number);
    }
    pen.close();
    parts(pen, wording);
    pen.close();
}

fn entry(pen: &mut Pen, wording: &Wording<'_>, number: u16) {
    let work = &pen.state.job.work;
    let step = wording.step(usize::from(number));
    let here = work.at == number;
    let done = work.is_done(number);
    let shut = pen.state.job.is_shut(number);
    pen.open(match (here, done) {
        (true, true) => "li.step step-here step-done",
        (true, false) => "li.step step-here",
        (false, true) => "li.step step-done",
        (false, false) => "li.step",
    });
    pen.open("label.step-tick");
    pen.open("input|type=checkbox");
    pen.made("aria-label", words::done_with(&step.title));
    pen.ticked(done);
    if shut {
        pen.fixed("disabled", "");
    }
    pen.on(When::Chosen, What::act(Action::Done(number, !done)));
    pen.close();
    pen.close();
    pen.press("step-go", What::act(Action::Step(number)));
    pen.made("id", step_id(number));
    if here {
        pen.fixed("aria-current", "step");
    }
    pen.line_of("b", tied(&step.title));
    pen.open("");
    for point in pen.state.job.points(number) {
        let read = work.reading(point);
        if read.is_empty() {
            continue;
        }
        pen.open("span.step-read");
        let mut text = read.to_owned();
        text.push_str(" Ω ");
        pen.said(text);
        if let Some(Ok(agreement)) = pen.state.job.agreement(point) {
            reading::verdict(pen, agreement);
        }
        pen.close();
    }
    pen.close();
    if shut {
        pen.line("span.step-text step-caution", gate_words::DO_NOT);
    } else if here {
        pen.line_of("span.step-text", tied(&step.text));
        if let Some(caution) = step.caution {
            pen.line_of("span.step-text step-caution", caution);
        }
    }
    pen.close();
    pen.close();
}

fn step_id(number: u16) -> String {
    let mut id = String::from("step-");
    id.push_str(&number.to_string());
    id
}

/// What is to be bought.
pub fn parts(pen: &mut Pen, wording: &Wording<'_>) {
    pen.open("div.wire-parts");
    pen.line("h3", words::PARTS);
    pen.open("ul.facts");
    for part in wording.parts() {
        pen.line_of("li", tied(&part));
    }
    pen.close();
    pen.close();
}
