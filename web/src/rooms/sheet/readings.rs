//! The readings on paper: beside each what was foretold, and whether it is right in words.

use super::lies::Set;
use crate::job::work::is_closer;
use crate::parts::tied::tied;
use crate::pen::Pen;
use crate::question::text::Misread;
use crate::words::page::sheet as say;
use crate::words::wiring::Wording;
use crate::words::{doubt, finding, gate, meter as words};
use coilwright_solver::meter::{Agreement, Point};

/// The table: what every step asks for, and what was read beside that.
pub fn show(pen: &mut Pen, wording: &Wording<'_>, set: Set) {
    let job = &pen.state.job;
    let mut points = Vec::new();
    for step in 0..wording.plan.steps.len() {
        points.append(&mut job.points(step));
    }
    for (point, _) in &job.work.read {
        if is_closer(*point) && point.is_of(wording.plan) {
            points.push(*point);
        }
    }
    pen.open(match set {
        Set::Roomy => "section.paper-readings paper-roomy",
        Set::Close => "section.paper-readings",
        Set::Brief => "section.paper-readings paper-brief",
    });
    pen.line("h4", say::READINGS);
    pen.line("p.paper-small", say::IN_OHMS);
    pen.open("div.paper-columns");
    pen.open("table");
    pen.open("thead");
    pen.open("tr");
    for name in [say::POINT, say::SHOULD, say::DID, say::VERDICT] {
        pen.line("th|scope=col", name);
    }
    pen.close();
    pen.close();
    pen.open("tbody");
    for point in points {
        row(pen, wording, point);
    }
    pen.close();
    pen.close();
    pen.close();
    pen.close();
}

fn row(pen: &mut Pen, wording: &Wording<'_>, point: Point) {
    let job = &pen.state.job;
    let foretold = job.foretold(point);
    let should = foretold.as_ref().map_or_else(|| gate::OL.to_owned(), words::range);
    let finer = job.left_open(point).and_then(|open| open.finer);
    let said = match job.agreement(point) {
        None => "",
        Some(Err(Misread::LoneOne)) => gate::LONE_ONE,
        Some(Err(_)) => gate::MISREAD,
        Some(Ok(agreement)) if foretold.is_none() && agreement != Agreement::Right => {
            finding::NOT_OPEN
        }
        Some(Ok(agreement)) => words::agreement(agreement),
    };
    let read = job.work.reading(point).to_owned();
    pen.open("tr");
    pen.line_of("th|scope=row", tied(&wording.point_short(&point)));
    pen.open("td");
    pen.said(should);
    if let Some(finer) = finer {
        let mut text = String::from(doubt::FINER_SHORT);
        text.push_str(&doubt::range(&finer));
        pen.line_of("small", text);
    }
    pen.close();
    pen.open("td.paper-read");
    if read.is_empty() {
        pen.nothing();
    } else {
        pen.line_of("bdi", read);
    }
    pen.close();
    pen.line(if said == words::agreement(Agreement::Right) { "td" } else { "td.paper-wrong" }, said);
    pen.close();
}
