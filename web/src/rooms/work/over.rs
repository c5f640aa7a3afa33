//! The end of the work: what was read, what was skipped, and the ways to keep and print it.

use crate::job::Action;
use crate::parts::reading::verdict;
use crate::parts::tied::tied;
use crate::pen::{Pen, What};
use crate::rooms::Room;
use crate::words::page::wire as words;
use crate::words::wiring::Wording;

/// The id of the heading of what is at hand.
pub(super) const TITLE: &str = "step-at-hand";

/// What stands where a step would.
pub(super) fn over(pen: &mut Pen, wording: &Wording<'_>) {
    let job = &pen.state.job;
    let count = wording.plan.steps.len();
    let skipped: Vec<usize> = (0..count).filter(|step| !job.is_done(*step)).collect();
    pen.open("div.work-over");
    pen.open("h3.work-title|tabindex=-1");
    pen.fixed("id", TITLE);
    pen.text(if skipped.is_empty() { words::ALL_DONE } else { words::AT_THE_END });
    pen.close();
    if skipped.is_empty() {
        pen.nothing();
    } else {
        pen.open("");
        pen.line_of("p", words::skipped(skipped.len()));
        pen.open("ul.work-list");
        for step in skipped {
            pen.open("li");
            pen.key(step.to_string());
            pen.press("gate-stop", What::act(Action::Step(step)));
            pen.said(tied(&wording.step(step).title));
            pen.close();
            pen.close();
        }
        pen.close();
        pen.close();
    }
    pen.line("h4", words::READ_THERE);
    readings(pen, wording);
    pen.open("div.wire-acts");
    pen.to_room("act", words::KEEP_IT, Room::Rigs);
    pen.to_room("act", words::SHEET_AND_PRINT, Room::Sheet);
    pen.button("quiet", words::BACK, Action::Step(count.saturating_sub(1)));
    pen.close();
    pen.close();
}

/// What was read, step by step.
fn readings(pen: &mut Pen, wording: &Wording<'_>) {
    let job = &pen.state.job;
    let mut none = true;
    pen.open("dl.work-read");
    for step in 0..wording.plan.steps.len() {
        for point in job.points(step) {
            let read = job.work.reading(point);
            if read.is_empty() {
                continue;
            }
            none = false;
            pen.open("div");
            pen.key(point.name());
            pen.line_of("dt", tied(&wording.point(&point).0));
            pen.open("dd");
            pen.line_of("b", words::with_ohms(read));
            if let Some(Ok(agreement)) = job.agreement(point) {
                verdict(pen, agreement);
            }
            pen.close();
            pen.close();
        }
    }
    pen.close();
    pen.line_if(none, "p.hints", words::NOTHING_READ);
}
