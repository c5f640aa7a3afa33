//! The gate before power: what stands there, each one tap away, and the way on against it.

use crate::job::Action;
use crate::job::against::{Against, MOST};
use crate::job::{Stop, Why};
use crate::parts::blank::words;
use crate::parts::tied::tied;
use crate::pen::{Pen, What, When};
use crate::question::text::Misread;
use crate::state::State;
use crate::words::gate as say;
use crate::words::wiring::Wording;
use coilwright_solver::meter::Place;
use coilwright_solver::wiring::Act;

/// The field for why somebody goes on.
const FIELD: &str = "against";

/// What is said in place of a step that the gate is shut before: a line below its heading.
pub fn line(wording: &Wording<'_>, step: usize) -> &'static str {
    let first = wording.plan.steps.get(step).map(|step| usize::from(step.first));
    match first.and_then(|first| wording.plan.acts.get(first)) {
        Some(Act::PowerOn) => say::UNTIL,
        _ => say::LAND_NOTHING,
    }
}

/// At a step that the gate is shut before: what keeps it shut, and the way on against that;
/// at one that somebody goes on to, what was said.
pub fn panel(pen: &mut Pen, wording: &Wording<'_>, step: usize) {
    let state = pen.state;
    if !state.job.is_shut(step) {
        return if state.job.is_behind(step) { went(pen, true) } else { pen.nothing() };
    }
    pen.open("section.gate");
    pen.fixed("aria-label", say::DO_NOT);
    pen.open("ul.gate-stops");
    for stop in state.job.stops() {
        pen.open("li");
        pen.key(stop.point.name());
        pen.press("gate-stop", What::act(Action::GoTo(stop.point)));
        pen.said(tied(&named(pen, wording, stop)));
        pen.close();
        pen.close();
    }
    pen.close();
    against(pen);
    pen.close();
}

/// What keeps the gate shut, in a line.
fn named(pen: &Pen, wording: &Wording<'_>, stop: &Stop) -> String {
    let point = stop.point;
    let title = match point.place {
        Place::Step => wording.act(usize::from(point.act)).title,
        _ => wording.point(&point).0,
    };
    let why = match stop.why {
        Why::NotTaken => say::NOT_TAKEN,
        Why::Misread(Misread::LoneOne) => say::LONE_ONE,
        Why::Misread(_) => say::MISREAD,
        Why::Reads(agreement) => say::reads(agreement, pen.state.job.foretold(point).is_none()),
    };
    // What was typed may be anything; more than a line of it helps nobody.
    let typed: String = match stop.why {
        Why::Misread(Misread::LoneOne) => String::new(),
        _ => stop.text.chars().take(12).collect(),
    };
    let step = wording.plan.step_of(point.act).and_then(|step| u32::try_from(step).ok());
    say::stop(step.unwrap_or(0) + 1, &title, &typed, why)
}

/// The way on: in words.
fn against(pen: &mut Pen) {
    let saying = pen.state.job.saying();
    pen.open("form.gate-against|autocomplete=off|novalidate");
    pen.on(When::Sent, What::GoAgainst);
    pen.line("h3", say::ALL_THE_SAME);
    words(pen, (FIELD, say::WHY), MOST, saying, Some("against-help"), What::Against);
    pen.line("p.hints|id=against-help", say::WHY_HELP);
    pen.open("button.quiet|type=submit");
    if !Against::typed(saying).is_enough() {
        pen.fixed("disabled", "");
    }
    pen.text(say::GO_ON);
    pen.close();
    pen.close();
}

/// What was said by somebody who goes on against the meter, where it holds.
pub fn went(pen: &mut Pen, here: bool) {
    let Some(words) = pen.state.job.against() else { return pen.nothing() };
    pen.open("p.note note-wrong gate-went");
    pen.open("bdi");
    pen.said(say::went(words));
    pen.close();
    if here {
        pen.text(" ");
        pen.button("quiet", say::TAKE_BACK, Action::Against(words.to_owned()));
    }
    pen.close();
}

/// About how many lines that takes on the job sheet.
pub fn lines_on_paper(state: &State) -> usize {
    let taken = |stop: &&Stop| stop.why != Why::NotTaken;
    let wrong = state.job.stops().iter().filter(taken).count();
    let said = state.job.against().map_or(0, |words| 2 + words.len() / 60);
    wrong + said + usize::from(wrong > 0)
}

/// On the job sheet: what was said, else what is wrong or in doubt; what was not taken is
/// blank there anyway.
pub fn on_paper(pen: &mut Pen, wording: &Wording<'_>) {
    let state = pen.state;
    let taken = |stop: &&Stop| stop.why != Why::NotTaken;
    let wrong: Vec<&Stop> = state.job.stops().iter().filter(taken).collect();
    if wrong.is_empty() && state.job.against().is_none() {
        return pen.nothing();
    }
    pen.open("section.paper-gate");
    if state.job.against().is_some() {
        went(pen, false);
    } else {
        pen.line("h4", say::DO_NOT);
    }
    pen.open("ul");
    for stop in wrong {
        pen.line_of("li", tied(&named(pen, wording, stop)));
    }
    pen.close();
    pen.close();
}
