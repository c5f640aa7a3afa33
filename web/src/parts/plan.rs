//! The plan as several rooms show it: what it is of, its drawing, its words.

use super::circuit::joined;
use super::load::big;
use super::named;
use super::tied::tied;
use super::verdict::verdict;
use crate::job::plan::{Wired, Zoom};
use crate::pen::{Pen, What, When};
use crate::state::State;
use crate::words::finding as finding_words;
use crate::words::page::wire as words;
use crate::words::rig as rig_words;
use crate::words::wiring::Wording;
use coilwright_drawing::scene::Scene;
use coilwright_drawing::wired::{Labels, Suspects, built, suspected, wired};
use coilwright_solver::meter::Job;

/// The plan at hand with what its words need.
pub fn wording<'a>(pen: &Pen<'a>) -> Option<Wording<'a>> {
    let state = pen.state;
    // A box that cannot be read has no plan, whatever the one before it was.
    state.question.read.build.as_ref()?;
    wording_of(state.job.wired.as_deref()?)
}

/// A plan with what its words need.
pub fn wording_of(wired: &Wired) -> Option<Wording<'_>> {
    let Job { rig, build, configuration, plan } = wired.job()?;
    let (foretold, names) = (&wired.foretold, &wired.names);
    Some(Wording { rig, build, configuration, plan, foretold, names })
}

/// What is wired: its networks, their loads and whether they fit.
pub fn configuration(pen: &mut Pen) {
    let Some(one) = pen.state.shown() else { return pen.nothing() };
    pen.open("div.wire-what");
    if let Some(rig) = pen.state.rig() {
        pen.line_of("p.described", tied(&rig_words::summary(rig)));
        named::listed(pen, rig, &pen.state.names());
    }
    for output in &one.outputs {
        pen.open("p.chosen-load");
        big(pen, output.load);
        verdict(pen, output.verdict);
        pen.line_of("span.network", output.network.to_string());
        pen.close();
    }
    joined(pen, one.verdict, one.overheats());
    pen.close();
}

/// The drawing with the runs of the step at hand lit, as planned, with what may be wrong at its
/// place.
pub fn scene(wording: &Wording<'_>, state: &State) -> Option<Scene> {
    let suspects = Suspects { rig: wording.rig, faults: state.job.suspects() };
    suspected(wording.plan, &labels(wording), &state.job.lit(), suspects).ok()
}

/// As it was probably built, where that is wanted: it stands with what explains it.
pub fn as_built(pen: &mut Pen, wording: &Wording<'_>) {
    let job = &pen.state.job;
    let (Some(found), Some(fault)) = (job.found(), job.drawn()) else { return pen.nothing() };
    let labels = labels(wording);
    let drawn = built(wording.plan, &labels, &job.lit(), wording.rig, fault, &found.others);
    pen.open("div.finding-built");
    pen.line("h5", finding_words::AS_BUILT);
    match drawn {
        Ok(scene) => {
            pen.open("div.figure wired-figure|tabindex=0|role=group");
            pen.fixed("aria-label", finding_words::AS_BUILT);
            pen.on(When::Pressed, What::Run);
            pen.drawn(scene.svg("wired", Some(finding_words::AS_BUILT)));
            pen.close();
            pen.line("p.hints", finding_words::LEGEND_BUILT);
        }
        Err(_) => pen.line("p.note note-wrong", words::NOT_DRAWN),
    }
    pen.close();
}

/// What stands on the bodies.
pub fn labels(wording: &Wording<'_>) -> Labels {
    Labels {
        drivers: wording.driver_labels(),
        names: wording.driver_names(),
        cups: wording.cup_labels(),
        outputs: wording.output_labels(),
        bridged: wording.bridged_labels(),
        marked: words::MARKED.map(str::to_owned).into(),
        legend: words::LOOKS.map(str::to_owned),
    }
}

/// The drawing, as large as it is wanted; a run that is touched shows its step.
pub fn picture(pen: &mut Pen, wording: &Wording<'_>, zoom: Zoom) {
    let Some(scene) = scene(wording, pen.state) else {
        return pen.line("p.note note-wrong", words::NOT_DRAWN);
    };
    let svg = scene.svg("wired", Some(words::AS_WIRED));
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
    let marked = svg.contains("d-suspect");
    pen.fixed("aria-label", words::AS_WIRED);
    pen.on(When::Pressed, What::Run);
    pen.drawn(svg);
    pen.close();
    pen.line_if(marked, "p.hints", finding_words::LEGEND);
}

/// The drawing as a file, for a plan.
#[must_use]
pub fn file(of: &Wired) -> Option<(String, (i32, i32))> {
    let wording = wording_of(of)?;
    let scene = wired(wording.plan, &labels(&wording), &[]).ok()?;
    let size = (scene.width, scene.height);
    let look = coilwright_drawing::wired::look;
    Some((scene.file(look, &wording.drawing_title(), &wording.drawing_description()), size))
}
