//! What the paper says below its head: cautions, drawing, outputs, wire, readings, steps.

use super::code;
use super::lies::{FEW, How, Lies, OUTPUTS, Set, step};
use super::readings;
use crate::parts::gate;
use crate::parts::plan::{labels, wording};
use crate::parts::tied::tied;
use crate::parts::verdict::verdict;
use crate::pen::{Pen, Versions};
use crate::state::State;
use crate::words::page::sheet as say;
use crate::words::page::{alone, heading, wire as words};
use crate::words::wiring::Wording;
use crate::words::{judged, level, rig as rig_words, watts};
use coilwright_drawing::scene::Scene;
use coilwright_drawing::wired::{parts, wired};
use coilwright_solver::answer::Output;
use coilwright_solver::level::volts;

/// Between columns of a drawing.
const APART: i32 = 12;

/// By what the paper is written anew.
pub fn given(state: &State) -> Versions {
    [
        state.question.version(),
        state.answer.version(),
        state.asked.version(),
        state.job.version(),
        state.page.version(),
        0,
        0,
    ]
}

fn drawn(state: &State, wording: &Wording<'_>) -> Option<(Scene, Lies)> {
    let whole = wired(wording.plan, &labels(wording), &[]).ok()?;
    let lies = Lies::of((whole.width, whole.height), wording, APART, gate::lines_on_paper(state));
    Some((whole, lies))
}

/// All of it.
pub fn show(pen: &mut Pen) {
    let Some(wording) = wording(pen) else { return };
    // What drivers are called stands at the head and in the drawing.
    let short = Wording { names: &[], ..wording };
    pen.open("div.paper-body");
    cautions(pen, &short);
    code::show(pen, wording.rig.drivers() <= FEW);
    let drawn = drawn(pen.state, &wording);
    let lies = drawn.as_ref().map(|(_, lies)| *lies);
    let set = lies.map_or(Set::Close, |lies| lies.set);
    pen.open(match lies.map(|lies| lies.how) {
        Some(How::Slim) => "div.paper-main paper-slim",
        Some(How::Beside) => "div.paper-main paper-beside",
        _ if wording.configuration.outputs.len() > OUTPUTS => "div.paper-main paper-outputs-many",
        _ => "div.paper-main",
    });
    match drawn {
        Some((whole, lies)) => drawing(pen, whole, lies.columns),
        None => pen.line("p.note note-wrong", words::NOT_DRAWN),
    }
    pen.open("div.paper-side");
    outputs(pen, &short);
    wire(pen, &short);
    pen.close();
    readings::show(pen, &short, set);
    steps(pen, &short, set == Set::Brief);
    pen.close();
    pen.close();
}

fn cautions(pen: &mut Pen, wording: &Wording<'_>) {
    pen.open("section.paper-cautions");
    pen.line("h4", say::CAUTIONS);
    gate::on_paper(pen, wording);
    pen.open("ul.paper-cautions-list");
    for caution in say::cautions(wording.build.vehicle) {
        pen.line("li", caution);
    }
    pen.close();
    pen.close();
}

fn drawing(pen: &mut Pen, whole: Scene, columns: i32) {
    pen.open("div.paper-drawing|tabindex=0|role=group");
    pen.fixed("aria-label", words::AS_WIRED);
    // Drivers are not cut, so that the first columns may need more room than their part.
    let tall = whole.height / columns + whole.height / columns / 8;
    let cut = if columns > 1 { parts(&whole, tall) } else { vec![whole] };
    pen.drawn(Scene::beside(&cut, APART, "wired", words::AS_WIRED));
    pen.close();
}

/// A name and what is said of it.
fn row(pen: &mut Pen, name: &'static str, says: String) {
    pen.open("div");
    pen.line("dt", name);
    pen.line_of("dd", tied(&says));
    pen.close();
}

fn outputs(pen: &mut Pen, wording: &Wording<'_>) {
    let one = wording.configuration;
    pen.open("section.paper-outputs wire-what");
    pen.line("h4", say::OUTPUTS);
    pen.open("div.paper-each");
    for (output, label) in one.outputs.iter().zip(wording.output_labels()) {
        output_of(pen, output, &label);
    }
    pen.close();
    pen.line("p.paper-small", say::VOLTS_ARE);
    match judged::joined(one.verdict, one.overheats()) {
        Some(joined) => pen.line_of("p.paper-small joined", alone(joined)),
        None => pen.nothing(),
    }
    pen.close();
}

fn output_of(pen: &mut Pen, output: &Output, label: &str) {
    pen.open("div.paper-output");
    pen.line_of("h5", heading(label));
    pen.line_of("p.network", output.network.to_string());
    pen.open("dl.paper-rows");
    pen.open("div");
    pen.line("dt", say::LOAD);
    pen.open("dd");
    pen.line_of("b", tied(&rig_words::load(output.load)));
    pen.text(" ");
    verdict(pen, output.verdict);
    pen.close();
    pen.close();
    // What is not known is a line to write on.
    row(pen, say::POWER, output.target_watts.map(watts).unwrap_or_default());
    row(pen, say::VOLTS, volts(output).map(level::volts).unwrap_or_default());
    row(pen, say::AS_SET, String::new());
    pen.close();
    pen.close();
}

fn wire(pen: &mut Pen, wording: &Wording<'_>) {
    pen.open("section.paper-parts");
    pen.line_of("h4", say::wire(&wording.conductor()));
    pen.open("dl.paper-lots");
    for (stage, lot) in wording.wire() {
        row(pen, stage, lot);
    }
    pen.close();
    pen.open("ul");
    let fittings = wording.fittings();
    if !fittings.is_empty() {
        pen.line_of("li", tied(&fittings.join(". ")));
    }
    for note in wording.notes() {
        pen.line_of("li", tied(&note));
    }
    pen.close();
    pen.close();
}

/// The steps by where the hands are, each with a box that is ticked where it is done.
fn steps(pen: &mut Pen, wording: &Wording<'_>, brief: bool) {
    let job = &pen.state.job;
    pen.open(if brief { "section.paper-steps paper-brief" } else { "section.paper-steps" });
    pen.line("h4", say::STEPS);
    pen.open("ol");
    for number in 0..wording.plan.steps.len() {
        let (title, on, lines) = step(wording, number, brief);
        pen.open("li");
        if job.is_done(number) {
            pen.open("b.paper-box");
            pen.text("✓");
            pen.line("span.unseen", say::DONE);
            pen.close();
        } else {
            pen.line("b.paper-box", "");
        }
        pen.open("span");
        pen.line_of("b", tied(&title));
        for line in lines {
            let spec = if on { "span" } else { "span.paper-run" };
            pen.line_of(spec, tied(&line));
        }
        pen.close();
        pen.close();
    }
    pen.close();
    pen.close();
}
