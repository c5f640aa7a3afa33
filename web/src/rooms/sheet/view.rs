//! The job sheet: everything about the plan on paper, for whoever opens the box next. What is
//! typed for its head stands above it, on the screen alone.

use super::lies::FEW;
use super::paper;
use super::state::Line;
use crate::parts::{blank, named};
use crate::parts::plan::wording;
use crate::parts::tied::tied;
use crate::parts::title::of_shown;
use crate::pen::{Pen, What, When};
use crate::question::form::longest;
use crate::rooms::Room;
use crate::state::State;
use crate::words::names;
use crate::words::page::room as page_words;
use crate::words::page::sheet as say;
use crate::words::page::wire as words;
use crate::words::rig as rig_words;
use crate::words::wiring::Wording;
use coilwright_solver::bounds::Field;

/// The longest name, in characters: that of a rig.
const LONGEST: usize = longest(Field::RigName);

/// The class of the page.
pub const PAGE: &str = "page page-wire page-sheet";
/// What leads past the fields, and where.
pub const SKIP: (&str, &str) = (page_words::TO_SHEET, "room");

/// The title of the window.
#[must_use]
pub fn title(state: &State) -> String {
    of_shown(state, words::JOB_SHEET)
}

/// The room.
pub fn show(pen: &mut Pen) {
    pen.open("section.wide-room job");
    pen.open("div.chosen-top no-print");
    pen.line("h2.tab|id=room|tabindex=-1", words::JOB_SHEET);
    pen.to_room("quiet", words::LEAVE_WORKING, Room::Wire);
    pen.close();
    match wording(pen) {
        Some(wording) => sheet(pen, &wording),
        None => pen.line("p.note", words::NO_PLAN),
    }
    pen.close();
}

fn sheet(pen: &mut Pen, wording: &Wording<'_>) {
    fields(pen);
    pen.open(match wording.rig.drivers() {
        0..=FEW => "article.paper paper-few",
        _ => "article.paper paper-many",
    });
    // Short, and written anew with every letter; the rest is not.
    head(pen, wording);
    pen.kept("sheet", paper::given(pen.state), paper::show);
    pen.close();
}

const fn called(line: Line) -> &'static str {
    match line {
        Line::Customer => say::CUSTOMER,
        Line::Vehicle => say::VEHICLE,
        Line::DoneBy => say::DONE_BY,
    }
}

/// What is typed for the head.
fn fields(pen: &mut Pen) {
    let state = pen.state;
    pen.open("form.job-head no-print|autocomplete=off|novalidate|aria-describedby=head-help");
    pen.fixed("aria-label", say::HEAD);
    pen.on(When::Sent, What::Stay);
    let name = &state.rooms.rigs.mine.name;
    blank::words(pen, ("head-rig", say::RIG), LONGEST, name, None, What::Name);
    for line in Line::ALL {
        let text = state.rooms.sheet.line(line);
        blank::words(pen, (line.name(), called(line)), LONGEST, text, None, What::Head(line));
    }
    pen.line("p.hints|id=head-help", say::HEAD_HELP);
    pen.open("p.job-print");
    pen.press("act", What::Print);
    pen.text(words::PRINT);
    pen.close();
    pen.close();
    pen.close();
}

/// The head on paper: what is not known is a line to write on.
fn head(pen: &mut Pen, wording: &Wording<'_>) {
    let state = pen.state;
    pen.open("header.paper-head");
    pen.open("div");
    let name = &state.rooms.rigs.mine.name;
    // A heading that says nothing is none: then the kind of paper is.
    let named = !name.trim().is_empty();
    pen.line(if named { "p.paper-kind" } else { "h3.paper-kind" }, words::JOB_SHEET);
    pen.open(if named { "h3.paper-title" } else { "p.paper-title" });
    text(pen, name);
    pen.close();
    pen.line_of("p.described", tied(&rig_words::summary(wording.rig)));
    named::listed(pen, wording.rig, wording.names);
    pen.open("dl.paper-blanks");
    for name in say::BLANKS {
        pen.open("div");
        pen.line("dt", name);
        pen.line("dd", "");
        pen.close();
    }
    pen.close();
    pen.close();
    pen.open("dl.paper-who");
    for line in Line::ALL {
        pen.open("div");
        pen.line("dt", called(line));
        pen.open("dd");
        text(pen, state.rooms.sheet.line(line));
        pen.close();
        pen.close();
    }
    pen.open("div");
    pen.line("dt", say::DATE);
    pen.line("dd", "");
    pen.close();
    pen.close();
    pen.close();
}

/// Text of whoever wrote it, isolated from what is around it.
fn text(pen: &mut Pen, raw: &str) {
    let plain = names::plain(raw);
    if plain.is_empty() {
        pen.nothing();
    } else {
        pen.line_of("bdi", plain);
    }
}
