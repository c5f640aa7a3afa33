//! The drawing as far as the step at hand is about it.

use super::state::Action;
use crate::parts::plan::{labels, scene};
use crate::pen::{Pen, What, When};
use crate::state::State;
use crate::words::page::wire as words;
use crate::words::wiring::Wording;
use coilwright_drawing::scene::Scene;
use coilwright_drawing::wired::near;
use coilwright_solver::meter::{Place, Point};
use coilwright_solver::network::Coil;
use coilwright_solver::wiring::{Plan, Post, Site, Terminal};

/// The drawing of what the step at hand is about, or the whole one: as large as its room.
pub(super) fn drawing(pen: &mut Pen, wording: &Wording<'_>) {
    let whole = pen.state.rooms.work.is_whole();
    let Some(part) = part(wording, pen.state, whole) else {
        return pen.line("p.note note-wrong", words::NOT_DRAWN);
    };
    let turn = || What::act(Action::Whole(!whole));
    pen.open(if whole { "div.work-figure work-figure-whole" } else { "div.work-figure" });
    pen.open("div|tabindex=0|role=group");
    pen.fixed("class", if whole { "work-part" } else { class(&part) });
    pen.fixed("aria-label", words::AS_WIRED);
    pen.on(When::Twice, turn());
    pen.drawn(part.svg("wired", Some(words::AS_WIRED)));
    pen.close();
    pen.press("quiet work-whole", turn());
    pen.text(if whole { words::THIS_STEP } else { words::WHOLE });
    pen.close();
    pen.close();
}

/// How it is fitted to its room: never so small that it cannot be read, so where the room is
/// lower than this, as it is, to be moved about in.
fn class(part: &Scene) -> &'static str {
    match (part.width, part.height) {
        (..=330, ..=150) => "work-part work-near work-150",
        (..=330, ..=200) => "work-part work-near work-200",
        (..=330, ..=250) => "work-part work-near work-250",
        (..=330, ..=300) => "work-part work-near work-300",
        _ => "work-part work-near work-natural",
    }
}

fn part(wording: &Wording<'_>, state: &State, whole: bool) -> Option<Scene> {
    let all = scene(wording, state)?;
    if whole {
        return Some(all);
    }
    let (job, plan) = (&state.job, wording.plan);
    let mut about: Vec<Terminal> =
        job.points(job.at()).iter().flat_map(|point| read_at(plan, *point)).collect();
    // With the power off or on the hands are at the amplifier.
    if job.steps().get(job.at()).is_some_and(|step| step.site == Site::Amplifier) {
        let ends = plan.runs.iter().map(|run| run.from);
        about.extend(ends.filter(|end| matches!(end.post, Post::Amplifier { .. })));
    }
    near(&all, plan, &labels(wording), &job.lit(), &about).ok()
}

/// The terminals that are read at a point, or are about its driver.
fn read_at(plan: &Plan, point: Point) -> Vec<Terminal> {
    match point.place {
        Place::Basket(driver) => Post::Coil(Coil { driver, coil: 0 }).ends().into(),
        _ => point.probes(plan).map_or_else(Vec::new, Vec::from),
    }
}
