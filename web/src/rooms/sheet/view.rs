//! The job sheet: everything about the plan on paper, for whoever opens the box next.

use crate::parts::title::of_shown;
use crate::state::State;
use crate::words::page::room as page_words;
use crate::parts::gate;
use crate::pen::{Pen, What};
use crate::parts::tied::tied;
use crate::parts::plan::{self, labels, wording};
use crate::words::cautions::{self, Caution};
use crate::words::page::wire as words;
use crate::words::wiring::Wording;
use crate::words::{doubt, finding, meter};
use crate::host;
use crate::rooms::Room;
use crate::question::form::Form;
use crate::link::{self, Saved};
use coilwright_drawing::wired::{parts, wired};
use coilwright_solver::meter::{Agreement, Place, Point};

/// More steps than two columns of one page hold beside the rest.
const LONG: usize = 26;
/// How much of a drawing goes on one page.
const ONE_PAGE: i32 = 900;

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
    pen.room("section.wide-room job", "sheet", 0, room);
}

fn room(pen: &mut Pen) {
    pen.open("");
    pen.open("div.chosen-top no-print");
    pen.line("h2.tab|id=room|tabindex=-1", words::JOB_SHEET);
    pen.to_room("quiet", words::LEAVE_WORKING, Room::Wire);
    pen.close();
    let Some(wording) = wording(pen) else {
        pen.line("p.note", words::NO_PLAN);
        return pen.close();
    };
    pen.open("p.no-print");
    pen.press("act", What::Print);
    pen.text(words::PRINT);
    pen.close();
    pen.close();
    // Few drivers fit on one page; more take pages with numbers.
    let few = wording.rig.drivers() <= 4;
    let long = wording.plan.acts.len() > LONG;
    // Many steps say the numbers of drivers alone: what they are called stands above.
    let steps = Wording { names: if long { &[] } else { wording.names }, ..wording };
    pen.open(match (few, long) {
        (true, false) => "article.paper paper-few",
        (true, true) => "article.paper paper-few paper-long",
        (false, _) => "article.paper paper-many",
    });
    pen.open("header.paper-head");
    pen.line("h3.paper-title", words::JOB_SHEET);
    plan::configuration(pen);
    gate::on_paper(pen, &wording);
    pen.close();
    pen.open("div.paper-drawing|tabindex=0|role=group");
    pen.fixed("aria-label", words::AS_WIRED);
    match wired(wording.plan, &labels(&wording), &[]) {
        Ok(whole) => {
            let tall = if few { whole.height } else { ONE_PAGE };
            for part in parts(&whole, tall) {
                pen.drawn(part.svg("wired", Some(words::AS_WIRED)));
            }
        }
        Err(_) => pen.line("p.note note-wrong", words::NOT_DRAWN),
    }
    pen.close();
    pen.open("section.paper-steps");
    pen.line("h4", words::STEPS);
    pen.open("ol");
    for number in 0..wording.plan.steps.len() {
        let step = steps.step(number);
        pen.open("li");
        pen.line("i.paper-box", "");
        pen.open("span");
        pen.said(tied(&step.title));
        for run in &step.runs {
            pen.line_of("small.paper-run", tied(run));
        }
        pen.close();
        let points = pen.state.job.points(number);
        let many = points.len() > 1;
        pen.open(if many { "span.paper-coils" } else { "" });
        let first = wording.plan.steps.get(number).map(|step| usize::from(step.first));
        let foretold = first.and_then(|first| wording.foretold_at(first));
        if many && let Some(foretold) = &foretold {
            // What is right is said once for all coils of a driver.
            let mut each = meter::range(foretold);
            each.push_str(" Ω");
            pen.line_of("small", each);
        }
        for point in &points {
            blank(pen, *point, !many);
        }
        pen.close();
        pen.close();
    }
    pen.close();
    pen.close();
    pen.open("section.paper-parts");
    pen.line("h4", words::PARTS);
    pen.open("ul");
    for part in wording.parts() {
        pen.line_of("li", tied(&part));
    }
    for note in wording.notes() {
        pen.line_of("li", tied(&note));
    }
    pen.close();
    pen.close();
    pen.open("dl.paper-blanks");
    for name in words::sheet::BLANKS {
        pen.open("div");
        pen.line("dt", name);
        pen.line("dd", "");
        pen.close();
    }
    pen.close();
    pen.open("section.paper-cautions");
    pen.line("h4", words::sheet::CAUTIONS);
    pen.open("ul");
    for caution in
        [Caution::PowerOff, Caution::LiveOutputs, Caution::LeastLoad, Caution::ManualsFirst]
    {
        pen.line("li", cautions::text(caution));
    }
    pen.close();
    pen.close();
    code(pen);
    pen.close();
    pen.close();
}

/// A blank for a reading, with what is right and what was read.
fn blank(pen: &mut Pen, point: Point, alone: bool) {
    pen.open("u.paper-blank");
    let mut before = String::new();
    match point.place {
        Place::Coil(coil) => {
            before = coil.to_string();
        }
        Place::Basket(_) => {
            before.push_str(finding::BASKET);
            before.push_str(" OL");
        }
        Place::Tied(_, sign) => before.push_str(finding::tied(sign)),
        _ => {}
    }
    if let Some(foretold) = pen.state.job.foretold(point).filter(|_| alone) {
        before.push_str(&meter::range(&foretold));
    }
    if let Some(finer) = pen.state.job.left_open(point).and_then(|open| open.finer) {
        before.push_str("; ");
        before.push_str(doubt::FINER_SHORT);
        before.push_str(&doubt::range(&finer));
    }
    pen.line_of("small", before);
    let mut read = pen.state.job.work.reading(point).to_owned();
    read.insert(0, ' ');
    read.push_str(" Ω");
    if pen.state.job.agreement(point) == Some(Ok(Agreement::Doubtful)) {
        read.push_str(doubt::MARK);
    }
    pen.said(read);
    pen.close();
}

/// The link as text and as a code; one too long for a code gives way to one without what the
/// drivers are called, and then to the rig and the configuration alone.
fn code(pen: &mut Pen) {
    let state = pen.state;
    let link = |form: &Form| {
        let key = state.shown().map(|one| one.key());
        let saved = Saved { key, room: Room::Wire, ..Saved::of(form.clone()) };
        host::whole(pen.host(), &link::write(&saved))
    };
    let mut form = state.question.form.clone();
    let whole = link(&form);
    // A code of half an address leads nowhere.
    let coded = |link: &str| pen.host().page().and_then(|_| coilwright_drawing::code::code(link));
    let mut scene = coded(&whole);
    if scene.is_none() {
        for group in &mut form.groups {
            group.name.clear();
        }
        scene = coded(&link(&form));
    }
    if scene.is_none() {
        form.build = Default::default();
        scene = coded(&link(&form));
    }
    pen.open("section.paper-link");
    match scene {
        Some(scene) => pen.drawn(scene.svg("code", Some(words::sheet::LINK))),
        None => pen.nothing(),
    }
    pen.line_of("p.paper-address", whole);
    pen.close();
}
