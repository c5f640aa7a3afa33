//! The plan: the box, the drawing as wired, the steps, the parts.

use crate::parts::title::of_shown;
use crate::state::State;
use crate::words::page::room as page_words;
use crate::pen::{Pen, What, When};
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
use coilwright_solver::wiring::Site;

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
    let wording = wording(pen);
    match &wording {
        Some(wording) => drawing(pen, wording),
        None => {
            pen.open("div.wire-drawing");
            pen.line("p.note", words::NO_PLAN);
            crate::parts::troubles::of_box(pen);
            pen.close();
        }
    }
    pen.open("div.wire-ask");
    the_box(pen, wording.is_none());
    match &wording {
        Some(wording) => {
            notes(pen, wording);
            reading::coils(pen, wording);
        }
        // As many as there are else: what is being typed beside them stays what it is.
        None => {
            pen.nothing();
            pen.nothing();
        }
    }
    pen.close();
    match &wording {
        Some(wording) => steps(pen, wording),
        None => pen.nothing(),
    }
    pen.close();
    pen.close();
}

/// The box in a line, which unfolds; unfolded where it stands in the way of a plan.
fn the_box(pen: &mut Pen, in_the_way: bool) {
    pen.open("details.more box-line");
    // Never folded under the hand that mends it.
    if in_the_way || pen.state.rooms.wire.is_unfolded() {
        pen.fixed("open", "");
    }
    let told = pen.state.question.read.build.as_ref().map_or_else(
        || words::BOX.to_owned(),
        |build| words::box_line(build.cups, build.fed, build.conductor_mm2),
    );
    pen.line_of("summary", told);
    build::form(pen);
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
    pen.line("h3", words::AS_WIRED);
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
    pen.open("p.wire-acts wire-start");
    pen.to_room("act", if state.job.is_begun() { words::GO_ON_WORKING } else { words::START_WORKING }, Room::Work);
    pen.close();
    at_hand(pen, wording);
    reading::fields(pen, wording);
    finding::panel(pen, wording);
    pen.line("p.hints", words::DRAWING_HELP);
    pen.close();
}

/// The step at hand, said when it changes.
fn at_hand(pen: &mut Pen, wording: &Wording<'_>) {
    let at = pen.state.job.at();
    pen.open("div.at-hand|role=status|aria-live=polite");
    if at < wording.plan.steps.len() {
        let step = wording.step(at);
        if pen.state.job.is_shut(at) {
            pen.line("b", gate_words::DO_NOT);
            pen.line("span", gate::line(wording, at));
        } else {
            pen.line_of("b", tied(&step.title));
            pen.line_of("span", tied(&step.text()));
            if let Some(caution) = step.caution {
                pen.line_of("span.step-caution", caution);
            }
        }
    }
    pen.close();
    gate::panel(pen, wording, at);
}

fn steps(pen: &mut Pen, wording: &Wording<'_>) {
    pen.open("div.wire-steps");
    pen.open("div.wire-acts");
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
    pen.line_of("p.hints", words::done_of(pen.state.job.done(), wording.plan.steps.len()));
    pen.open("div.stages");
    let mut last = None;
    for step in &wording.plan.steps {
        if last.replace(step.site) != Some(step.site) {
            stage(pen, wording, step.site);
        }
    }
    pen.close();
    pen.open("p.wire-acts");
    if pen.state.job.is_begun() {
        pen.button("quiet", words::START_OVER, Action::StartOver);
    }
    pen.close();
    aside(pen);
    parts(pen, wording);
    pen.close();
}

/// A stage of the work with its steps: whoever knows how folds it, and ticks it as one.
fn stage(pen: &mut Pen, wording: &Wording<'_>, site: Site) {
    let job = &pen.state.job;
    let steps: Vec<usize> = job.steps_at(site).collect();
    let done = steps.iter().filter(|step| job.is_done(**step)).count();
    let all = done == steps.len();
    let name = wording.site(site);
    pen.open("section.stage");
    pen.key(name.clone());
    pen.open("label.step-tick");
    pen.open("input|type=checkbox");
    pen.made("aria-label", words::done_with(&name));
    pen.ticked(all);
    if steps.iter().all(|step| job.is_shut(*step)) {
        pen.fixed("disabled", "");
    }
    pen.on(When::Chosen, What::act(Action::Stage(site, !all)));
    pen.close();
    pen.close();
    pen.open("details.stage-steps");
    pen.fixed("open", "");
    pen.open("summary");
    pen.line_of("b", tied(&name));
    pen.text(" ");
    pen.said(words::done_of(done, steps.len()));
    pen.close();
    pen.open("ol.steps");
    pen.made("start", (steps.first().copied().unwrap_or(0) + 1).to_string());
    for number in steps {
        entry(pen, wording, number);
    }
    pen.close();
    pen.close();
    pen.close();
}

/// What was read of what is in no plan for now: it comes back with that.
fn aside(pen: &mut Pen) {
    let job = &pen.state.job;
    if job.aside.readings().next().is_none() {
        return pen.nothing();
    }
    pen.open("details.more");
    pen.line("summary", words::ASIDE);
    pen.line("p.hints", words::ASIDE_HELP);
    pen.open("ul.facts");
    for (at, read) in job.aside.readings() {
        let mut text = at.to_owned();
        text.push_str(": ");
        text.push_str(&words::with_ohms(read));
        pen.line_of("li", tied(&text));
    }
    pen.close();
    pen.close();
}

fn entry(pen: &mut Pen, wording: &Wording<'_>, number: usize) {
    let work = &pen.state.job.work;
    let step = wording.step(number);
    let here = pen.state.job.at() == number;
    let done = pen.state.job.is_done(number);
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
        pen.line_of("span.step-text", tied(&step.text()));
        if let Some(caution) = step.caution {
            pen.line_of("span.step-text step-caution", caution);
        }
    }
    pen.close();
    pen.close();
}

fn step_id(number: usize) -> String {
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
