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

/// The drawing with the runs of the step at hand lit: as planned with what may be wrong at its
/// place, or as it was probably built.
pub fn scene(wording: &Wording<'_>, state: &State) -> Option<Scene> {
    let (plan, labels, lit) = (wording.plan, labels(wording), state.job.lit());
    let scene = match (state.job.found(), state.job.drawn()) {
        (Some(found), Some(fault)) => built(plan, &labels, &lit, wording.rig, fault, &found.others),
        _ => {
            let suspects = Suspects { rig: wording.rig, faults: state.job.suspects() };
            suspected(plan, &labels, &lit, suspects)
        }
    };
    scene.ok()
}

/// The same as text.
fn svg(wording: &Wording<'_>, state: &State) -> Option<String> {
    let name = if state.job.drawn().is_some() { finding_words::AS_BUILT } else { words::AS_WIRED };
    Some(scene(wording, state)?.svg("wired", Some(name)))
}

/// What stands on the bodies.
pub fn labels(wording: &Wording<'_>) -> Labels {
    Labels {
        drivers: wording.driver_labels(),
        names: wording.driver_names(),
        cups: wording.cup_labels(),
        outputs: wording.output_labels(),
    }
}

/// The drawing, as large as it is wanted; a run that is touched shows its step.
pub fn picture(pen: &mut Pen, wording: &Wording<'_>, zoom: Zoom) {
    let Some(svg) = svg(wording, pen.state) else {
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
    let as_built = pen.state.job.drawn().is_some();
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

/// The drawing as a file, for a plan.
#[must_use]
pub fn file(of: &Wired) -> Option<(String, (i32, i32))> {
    let wording = wording_of(of)?;
    let scene = wired(wording.plan, &labels(&wording), &[]).ok()?;
    let size = (scene.width, scene.height);
    let look = coilwright_drawing::wired::look;
    Some((scene.file(look, &wording.drawing_title(), &wording.drawing_description()), size))
}
