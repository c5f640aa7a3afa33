//! The ohm ladder: every reachable load on one logarithmic axis, a row for each.
//!
//! The drawing holds axis and rungs; beside it stands a row for each rung, which is the
//! control: a radio button, so that tap, arrow keys and screen readers all work.

use crate::pen::{Pen, What, When};
use crate::words::{judged, page::ladder as say, rig, watts};
use super::state::Action;
use crate::answer::asking::Answered;
use coilwright_drawing::ladder::{self, Ladder, Rung, Stated};
use coilwright_solver::answer::LoadTally;
use coilwright_solver::judge::Verdict;
use coilwright_solver::ohms::Ohms;
use coilwright_solver::outputs;
use core::ops::Range;

/// The most rungs in view before neighbours gather into bands.
const MOST: usize = 60;
/// The most bands.
const BANDS: usize = 24;

/// The ladder, the highest load on top.
pub(super) fn ladder(pen: &mut Pen, answered: &Answered) {
    let state = pen.state;
    let loads = &answered.shown().loads;
    if loads.is_empty() {
        return pen.nothing();
    }
    let inside = state.rooms.list.bands.last().cloned().unwrap_or(0..loads.len());
    let bands = bands(loads.get(inside.clone()).unwrap_or_default());
    let pitch = match bands.len() {
        0..=10 => 48,
        11..=24 => 36,
        _ => 28,
    };
    let spec = match pitch {
        48 => "fieldset.ladder|id=ladder",
        36 => "fieldset.ladder ladder-close|id=ladder",
        _ => "fieldset.ladder ladder-dense|id=ladder",
    };
    let mut rungs = Vec::new();
    let mut rows: Vec<Range<usize>> = Vec::new();
    let mut chosen = None;
    let shown = state.shown();
    for band in &bands {
        let range = inside.start + band.start..inside.start + band.end;
        let Some(tallies) = loads.get(range.clone()) else { continue };
        let (Some(low), Some(high)) = (tallies.first(), tallies.last()) else { continue };
        let has = |load: Ohms| low.load <= load && load <= high.load;
        if shown.is_some_and(|one| one.outputs.iter().any(|output| has(output.load))) {
            chosen = Some(rungs.len());
        }
        rungs.push(Rung {
            ohms: high.load.to_f64(),
            to: low.load.to_f64(),
            even: tallies.iter().any(|tally| tally.even),
            low: tallies.iter().all(|tally| tally.verdict.is_low()),
        });
        rows.push(range);
    }
    let marks = marks(answered);
    let mut rated = Vec::new();
    for (ohms, label) in &marks.rated {
        rated.push(Stated { ohms: *ohms, label });
    }
    // What rounds to the least load is not below it, so it is not shaded.
    let met = |least: Ohms| {
        let met = loads.iter().map(|tally| tally.load).filter(|load| least.is_met_by(*load));
        met.min().map_or(least, |lowest| lowest.min(least))
    };
    let least = marks.least.map(|ohms| Stated { ohms: met(ohms).to_f64(), label: "" });
    let tick = &rig::tick;
    let drawing = Ladder { rungs: &rungs, pitch, least, rated: &rated, chosen, unit: "Ω", tick };
    let scale = ladder::ladder(&drawing).svg("axis", None);
    pen.open(spec);
    let by_number = What::Rung(loads.iter().map(|tally| tally.load).collect());
    pen.on(When::Chosen, by_number);
    pen.line("legend.unseen", say::LADDER);
    pen.open("div.ladder-top");
    pen.open("label.rung-all");
    radio(pen, String::new(), state.rooms.list.load.is_none());
    pen.line("span", say::ALL);
    pen.close();
    if !state.rooms.list.bands.is_empty() {
        pen.button("quiet", say::WIDER, Action::Band(None));
    }
    pen.close();
    pen.open("div.ladder-body");
    pen.drawn(scale);
    pen.open("ol.rungs");
    for range in rows {
        match loads.get(range.clone()) {
            Some([tally]) => one(pen, range.start, tally),
            Some(tallies) => gathered(pen, range, tallies),
            None => {}
        }
    }
    pen.close();
    pen.close();
    pen.line_of("p.hints ladder-foot", foot(&marks));
    pen.close();
}

fn radio(pen: &mut Pen, value: String, ticked: bool) {
    pen.open("input|type=radio|name=load");
    pen.made("value", value);
    pen.ticked(ticked);
    pen.close();
}

/// What stands in rows, the highest first: each load, or neighbours gathered into bands,
/// none of which reaches over the least load.
fn bands(loads: &[LoadTally]) -> Vec<Range<usize>> {
    let count = loads.len();
    let mut bands = if count > MOST {
        let low = loads.partition_point(|tally| tally.verdict.is_low());
        let below = (BANDS * low / count).clamp(usize::from(low > 0), BANDS - 1);
        let mut bands = ladder::gather(low, below);
        for band in ladder::gather(count - low, BANDS - below) {
            bands.push(low + band.start..low + band.end);
        }
        bands
    } else {
        ladder::gather(count, MOST)
    };
    bands.reverse();
    bands
}

/// A single load: a radio button and what there is at it.
fn one(pen: &mut Pen, number: usize, tally: &LoadTally) {
    let ticked = pen.state.rooms.list.load == Some(tally.load);
    let low = tally.verdict.is_low();
    pen.open("li");
    pen.key(number.to_string());
    pen.open(match (low, tally.even, ticked) {
        (true, _, false) => "label.rung rung-low",
        (true, _, true) => "label.rung rung-low rung-on",
        (false, true, false) => "label.rung",
        (false, true, true) => "label.rung rung-on",
        (false, false, false) => "label.rung rung-uneven",
        (false, false, true) => "label.rung rung-uneven rung-on",
    });
    radio(pen, number.to_string(), ticked);
    let (exact, near) = crate::words::page::load_lines(tally.load);
    pen.open("span.rung-load");
    pen.line_of("b", exact);
    if let Some(near) = near {
        // The unit stands with the fraction; a space keeps them apart when read out.
        pen.text(" ");
        let bare = near.strip_suffix(" Ω").unwrap_or(&near);
        pen.line_of("small", bare.to_owned());
    }
    pen.close();
    pen.open("span.rung-note");
    pen.said(say::ways(tally.configurations));
    // The dashes of its rung say so too.
    pen.line_if(!tally.even, "span.unseen", say::UNEVEN);
    if let Some(target) = tally.target {
        pen.open("span.rung-watts");
        pen.text(", ");
        pen.said(watts(target));
        pen.close();
    }
    pen.close();
    sign(pen, tally.verdict);
    pen.close();
    pen.close();
}

/// Neighbouring loads gathered into one row that opens on a tap.
fn gathered(pen: &mut Pen, range: Range<usize>, tallies: &[LoadTally]) {
    let (Some(low), Some(high)) = (tallies.first(), tallies.last()) else { return };
    let best = tallies.iter().map(|tally| tally.verdict).min().unwrap_or(Verdict::NotStated);
    let class = if best.is_low() { "rung rung-band rung-low" } else { "rung rung-band" };
    pen.open("li");
    pen.key(range.start.to_string());
    pen.press(class, What::act(Action::Band(Some(range))));
    let loads = say::from_to(&rig::short_load(low.load), &rig::short_load(high.load));
    pen.line_of("b.rung-load", loads);
    pen.line_of("span.rung-note", say::loads(tallies.len()));
    sign(pen, best);
    pen.close();
    pen.close();
}

/// A verdict as a sign, with its words for who cannot see it.
fn sign(pen: &mut Pen, verdict: Verdict) {
    let (class, mark) = crate::parts::verdict::verdict_sign(verdict);
    pen.open("span");
    pen.fixed("class", class);
    pen.line("span|aria-hidden=true", mark);
    pen.line("span.unseen", judged::verdict(verdict));
    pen.close();
}

/// What stands on the axis beside the rungs.
struct Marks {
    least: Option<Ohms>,
    rated: Vec<(f64, String)>,
    /// Whether that is a stated least load, not the lowest rated one.
    stated: bool,
    /// Whether outputs differ, so that rated points would need more than a number.
    several: bool,
}

/// The least load of any output, and the rated points where all outputs share them.
fn marks(answered: &Answered) -> Marks {
    let mut marks = Marks { least: None, rated: Vec::new(), stated: false, several: false };
    let Some(amplifier) = answered.request.rig.amplifier() else { return marks };
    let mut all: Vec<&[u32]> = Vec::new();
    let numbers: Vec<u32> = (1..).take(amplifier.channels.len()).collect();
    all.extend(numbers.chunks(1));
    all.extend(amplifier.bridges.iter().map(|bridge| bridge.channels.as_slice()));
    let mut known = true;
    let mut first = None;
    for channels in all {
        let Some(figures) = outputs::figures(amplifier, channels) else { continue };
        let least = figures.least.or(figures.points.first().map(|point| point.ohms));
        known &= least.is_some();
        marks.stated |= figures.least.is_some();
        let lower = least.filter(|least| marks.least.is_none_or(|lowest| *least < lowest));
        marks.least = lower.or(marks.least);
        let figures = (least, figures.points);
        marks.several |= first.as_ref().is_some_and(|first| *first != figures);
        first.get_or_insert(figures);
    }
    // Where one states nothing, no load is below what any may drive.
    marks.least = marks.least.filter(|_| known);
    if let (false, Some((_, points))) = (marks.several, first) {
        for point in points {
            marks.rated.push((point.ohms.to_f64(), watts(point.watts.to_f64())));
        }
    }
    marks
}

/// How the ladder is read.
fn foot(marks: &Marks) -> String {
    let mut text = say::READ.to_owned();
    let shaded = match marks.least {
        _ if marks.several => say::SEVERAL.to_owned(),
        None => return text,
        Some(least) if marks.stated => say::least(&rig::load(least)),
        Some(_) => say::BELOW_STATED.to_owned(),
    };
    text.push(' ');
    text.push_str(&shaded);
    text
}
