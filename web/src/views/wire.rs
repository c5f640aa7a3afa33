//! The plan: the box, the drawing as wired, the steps, the parts.

use super::pen::{Pen, What, When};
use super::words::finding as finding_words;
use super::words::gate as gate_words;
use super::words::page::wire as words;
use super::words::rig as rig_words;
use super::words::wiring::Told;
use super::{build, finding, gate, handing, reading, tied, top};
use crate::state::wired::{Wired, Zoom};
use crate::state::{Action, Room, State};
use coilwright_drawing::wired::{Labels, Suspects, built, suspected, wired};
use coilwright_solver::meter::Job;

/// The room.
pub fn room(pen: &mut Pen) {
    pen.open("");
    top(pen, "h2.tab|id=room|tabindex=-1", words::WIRE_IT, "quiet");
    configuration(pen);
    pen.open("div.wire-cols");
    pen.open("div.wire-ask");
    build::form(pen);
    match told(pen) {
        Some(told) => {
            notes(pen, &told);
            reading::coils(pen, &told);
        }
        None => pen.nothing(),
    }
    pen.close();
    match told(pen) {
        Some(told) => {
            drawing(pen, &told);
            steps(pen, &told);
        }
        None => {
            pen.open("");
            pen.line("p.note", words::NO_PLAN);
            super::troubles::of_box(pen);
            pen.close();
        }
    }
    pen.close();
    pen.close();
}

/// The plan at hand with what its words need.
pub fn told<'a>(pen: &Pen<'a>) -> Option<Told<'a>> {
    let state = pen.state;
    // A box that cannot be read has no plan, whatever the one before it was.
    state.read.build.as_ref()?;
    told_of(state.wired.as_deref()?)
}

/// A plan with what its words need.
pub fn told_of(wired: &Wired) -> Option<Told<'_>> {
    let Job { rig, build, configuration, plan } = wired.job()?;
    let (foretold, names) = (&wired.foretold, &wired.names);
    Some(Told { rig, build, configuration, plan, foretold, names })
}

/// What is wired: its networks, their loads and whether they fit.
pub fn configuration(pen: &mut Pen) {
    let Some(one) = pen.state.shown() else { return pen.nothing() };
    pen.open("div.wire-what");
    if let Some(rig) = pen.state.rig() {
        pen.told("p.described", tied(&rig_words::summary(rig)));
        super::names::listed(pen, rig, &pen.state.names());
    }
    for output in &one.outputs {
        pen.open("p.chosen-load");
        super::list::big(pen, output.load);
        super::entry::verdict(pen, output.verdict);
        pen.told("span.network", output.network.to_string());
        pen.close();
    }
    super::chosen::joined(pen, one.verdict, one.overheats());
    pen.close();
}

fn notes(pen: &mut Pen, told: &Told<'_>) {
    pen.open("ul.facts");
    for note in told.notes() {
        pen.told("li", tied(&note));
    }
    pen.close();
}

/// The drawing as text, with a run lit: as planned with what may be wrong at its place, or
/// as it was probably built.
fn svg(told: &Told<'_>, state: &State) -> Option<String> {
    let (plan, labels, lit) = (told.plan, labels(told), state.lit());
    let (scene, name) = match (state.found(), state.drawn()) {
        (Some(found), Some(fault)) => {
            let scene = built(plan, &labels, lit, told.rig, fault, &found.others);
            (scene, finding_words::AS_BUILT)
        }
        _ => {
            let suspects = Suspects { rig: told.rig, faults: state.suspects() };
            (suspected(plan, &labels, lit, suspects), words::AS_WIRED)
        }
    };
    Some(scene.ok()?.svg("wired", Some(name)))
}

/// What stands on the bodies.
pub fn labels(told: &Told<'_>) -> Labels {
    Labels {
        drivers: told.driver_labels(),
        names: told.driver_names(),
        cups: told.cup_labels(),
        outputs: told.output_labels(),
    }
}

fn drawing(pen: &mut Pen, told: &Told<'_>) {
    let state = pen.state;
    pen.open("div.wire-drawing");
    let as_built = state.drawn().is_some();
    pen.line("h3", if as_built { finding_words::AS_BUILT } else { words::AS_WIRED });
    picture(pen, told, state.zoom);
    pen.open("p.wire-tools");
    let turn = |pen: &mut Pen, words, name: &'static str, action| {
        pen.named("quiet tool", words, name.to_owned(), action);
    };
    turn(pen, "‹", words::RUN_BEFORE, Action::NextRun(false));
    turn(pen, "›", words::RUN_AFTER, Action::NextRun(true));
    turn(pen, "−", words::SMALLER, Action::Zoom(state.zoom.turned(false)));
    turn(pen, "+", words::LARGER, Action::Zoom(state.zoom.turned(true)));
    pen.button("quiet tool", words::WHOLE, Action::Zoom(Zoom::Whole));
    pen.close();
    at_hand(pen, told);
    reading::fields(pen, told);
    finding::panel(pen, told);
    pen.line("p.hints", words::DRAWING_HELP);
    pen.close();
}

/// The drawing, as large as it is wanted; a run that is touched shows its step.
pub fn picture(pen: &mut Pen, told: &Told<'_>, zoom: Zoom) {
    let Some(svg) = svg(told, pen.state) else {
        return pen.line("p.note note-wrong", words::NOT_DRAWN);
    };
    pen.open("div.figure wired-figure|tabindex=0|role=group");
    pen.fixed(
        "class",
        match zoom {
            Zoom::Whole => "figure wired-figure zoom-whole",
            Zoom::Quarters(2) => "figure wired-figure zoom-2",
            Zoom::Quarters(3) => "figure wired-figure zoom-3",
            Zoom::Quarters(6) => "figure wired-figure zoom-6",
            Zoom::Quarters(8) => "figure wired-figure zoom-8",
            Zoom::Quarters(12) => "figure wired-figure zoom-12",
            Zoom::Quarters(_) => "figure wired-figure zoom-4",
        },
    );
    let as_built = pen.state.drawn().is_some();
    let marked = svg.contains("d-suspect");
    pen.fixed("aria-label", if as_built { finding_words::AS_BUILT } else { words::AS_WIRED });
    pen.on(When::Pressed, What::Run);
    pen.drawn(svg);
    pen.close();
    let legend = match (as_built, marked) {
        (true, _) => finding_words::LEGEND_BUILT,
        (false, true) => finding_words::LEGEND,
        (false, false) => "",
    };
    pen.line_if(!legend.is_empty(), "p.hints", legend);
}

/// The step at hand, said when it changes.
fn at_hand(pen: &mut Pen, told: &Told<'_>) {
    let at = usize::from(pen.state.work.at);
    pen.open("div.at-hand|role=status|aria-live=polite");
    if at < told.plan.steps.len() {
        let step = told.step(at);
        if pen.state.is_shut(pen.state.work.at) {
            pen.line("b", gate_words::DO_NOT);
            pen.line("span", gate::line(told, pen.state.work.at));
        } else {
            pen.told("b", tied(&step.title));
            pen.told("span", tied(&step.text));
            if let Some(caution) = step.caution {
                pen.told("span.step-caution", caution);
            }
        }
    }
    pen.close();
    gate::panel(pen, told, pen.state.work.at);
}

fn steps(pen: &mut Pen, told: &Told<'_>) {
    pen.open("div.wire-steps");
    pen.open("div.wire-acts");
    pen.to_room("act", words::WORKING, Room::Work);
    pen.to_room("quiet", words::JOB_SHEET, Room::Sheet);
    pen.press("quiet", What::Copy);
    pen.text(if pen.state.copied { words::COPIED } else { words::COPY_STEPS });
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
    pen.told("p.hints", words::done_of(pen.state.work.done.len(), told.plan.steps.len()));
    pen.open("ol.steps");
    for (number, _) in (0_u16..).zip(&told.plan.steps) {
        entry(pen, told, number);
    }
    pen.close();
    parts(pen, told);
    pen.close();
}

fn entry(pen: &mut Pen, told: &Told<'_>, number: u16) {
    let work = &pen.state.work;
    let step = told.step(usize::from(number));
    let here = work.at == number;
    let done = work.is_done(number);
    let shut = pen.state.is_shut(number);
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
    pen.on(When::Chosen, What::Do(Action::Done(number, !done)));
    pen.close();
    pen.close();
    pen.press("step-go", What::Do(Action::Step(number)));
    pen.made("id", step_id(number));
    if here {
        pen.fixed("aria-current", "step");
    }
    pen.told("b", tied(&step.title));
    pen.open("");
    for point in pen.state.points(number) {
        let read = work.reading(point);
        if read.is_empty() {
            continue;
        }
        pen.open("span.step-read");
        let mut text = read.to_owned();
        text.push_str(" Ω ");
        pen.said(text);
        if let Some(Ok(agreement)) = pen.state.agreement(point) {
            reading::verdict(pen, agreement);
        }
        pen.close();
    }
    pen.close();
    if shut {
        pen.line("span.step-text step-caution", gate_words::DO_NOT);
    } else if here {
        pen.told("span.step-text", tied(&step.text));
        if let Some(caution) = step.caution {
            pen.told("span.step-text step-caution", caution);
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
pub fn parts(pen: &mut Pen, told: &Told<'_>) {
    pen.open("div.wire-parts");
    pen.line("h3", words::PARTS);
    pen.open("ul.facts");
    for part in told.parts() {
        pen.told("li", tied(&part));
    }
    pen.close();
    pen.close();
}

/// The drawing as a file, for a plan.
#[must_use]
pub fn file(of: &Wired) -> Option<(String, (i32, i32))> {
    let told = told_of(of)?;
    let scene = wired(told.plan, &labels(&told), None).ok()?;
    let size = (scene.width, scene.height);
    let look = coilwright_drawing::wired::look;
    Some((scene.file(look, &told.drawing_title(), &told.drawing_description()), size))
}
