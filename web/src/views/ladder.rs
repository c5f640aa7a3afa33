//! The ohm ladder: every reachable load on one logarithmic axis, a row for each.
//!
//! The drawing holds axis and rungs; beside it stands a row for each rung, which is the
//! control: a radio button, so that tap, arrow keys and screen readers all work.

use super::Sheet;
use super::tag::{self, Tag, What, drawn, el, fixed, line, made, nothing, press, said, text, told};
use super::words::{judged, page::ladder as say, rig, watts};
use crate::state::Action;
use crate::state::asking::Answered;
use coilwright_drawing::ladder::{self, Ladder, Rung, Stated};
use coilwright_solver::answer::LoadTally;
use coilwright_solver::judge::Verdict;
use coilwright_solver::ohms::Ohms;
use coilwright_solver::outputs;
use core::ops::Range;
use yew::prelude::*;
use yew::virtual_dom::ListenerKind;

/// The most rungs in view before neighbours gather into bands.
const MOST: usize = 60;
/// The most bands.
const BANDS: usize = 24;

/// The ladder, the highest load on top.
pub fn ladder(sheet: Sheet, answered: &Answered) -> Html {
    let Sheet { state, act } = sheet;
    let loads = &answered.shown().loads;
    if loads.is_empty() {
        return nothing();
    }
    let inside = state.look.bands.last().cloned().unwrap_or(0..loads.len());
    let bands = bands(loads.get(inside.clone()).unwrap_or_default());
    let pitch = match bands.len() {
        0..=10 => 48,
        11..=24 => 36,
        _ => 28,
    };
    let class = match pitch {
        48 => "ladder",
        36 => "ladder ladder-close",
        _ => "ladder ladder-dense",
    };
    let mut rungs = Vec::new();
    let mut rows = Vec::new();
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
            low: tallies.iter().all(|tally| tally.verdict >= Verdict::BelowStated),
        });
        rows.push(if range.len() == 1 {
            one(sheet, range.start, high)
        } else {
            gathered(sheet, range, tallies)
        });
    }
    let marks = marks(answered);
    let mut rated = Vec::new();
    for (ohms, label) in &marks.rated {
        rated.push(Stated { ohms: *ohms, label });
    }
    let least = marks.least.map(|ohms| Stated { ohms, label: "" });
    let tick = &rig::tick;
    let drawing = Ladder { rungs: &rungs, pitch, least, rated: &rated, chosen, unit: "Ω", tick };
    let scale = ladder::ladder(&drawing).svg("axis", None);
    let all = Tag::new("input")
        .with(&["type", "name", "value"], vec![fixed("radio"), fixed("load"), fixed("")])
        .ticked(state.look.load.is_none())
        .bare();
    let mut top = vec![el("label", "rung-all", vec![all, line("span", "", say::ALL)])];
    if !state.look.bands.is_empty() {
        top.push(press(
            act,
            "quiet",
            None,
            tag::act(Action::Band(None)),
            vec![said(say::WIDER.to_owned())],
        ));
    }
    let by_number = What::Rung(loads.iter().map(|tally| tally.load).collect());
    Tag::new("fieldset")
        .with(&["class", "id"], vec![fixed(class), fixed("ladder")])
        .on(ListenerKind::onchange, act, by_number)
        .kids(vec![
            line("legend", "unseen", say::LADDER),
            el("div", "ladder-top", top),
            el("div", "ladder-body", vec![drawn(scale), el("ol", "rungs", rows)]),
            told("p", "hints ladder-foot", foot(&marks)),
        ])
}

/// What stands in rows, the highest first: each load, or neighbours gathered into bands,
/// none of which reaches over the least load.
fn bands(loads: &[LoadTally]) -> Vec<Range<usize>> {
    let count = loads.len();
    let mut bands = if count > MOST {
        let low = loads.partition_point(|tally| tally.verdict >= Verdict::BelowStated);
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
fn one(Sheet { state, .. }: Sheet, number: usize, tally: &LoadTally) -> Html {
    let ticked = state.look.load == Some(tally.load);
    let low = tally.verdict >= Verdict::BelowStated;
    let class = match (low, tally.even, ticked) {
        (true, _, false) => "rung rung-low",
        (true, _, true) => "rung rung-low rung-on",
        (false, true, false) => "rung",
        (false, true, true) => "rung rung-on",
        (false, false, false) => "rung rung-uneven",
        (false, false, true) => "rung rung-uneven rung-on",
    };
    let input = Tag::new("input")
        .with(
            &["type", "name", "value"],
            vec![fixed("radio"), fixed("load"), made(number.to_string())],
        )
        .ticked(ticked)
        .bare();
    let (exact, near) = super::words::page::load_lines(tally.load);
    let mut name = vec![told("b", "", exact)];
    if let Some(near) = near {
        // The unit stands with the fraction; a space keeps them apart when read out.
        name.push(text(" "));
        name.push(told("small", "", near.trim_end_matches(" Ω").to_owned()));
    }
    let label = el(
        "label",
        class,
        vec![
            input,
            el("span", "rung-load", name),
            told("span", "rung-note", note(tally)),
            sign(tally.verdict),
        ],
    );
    Tag::new("li").key(number.to_string()).kids(vec![label])
}

/// How many ways there are at a load, and the most power of any.
fn note(tally: &LoadTally) -> String {
    let mut text = say::ways(tally.configurations);
    if !tally.even {
        text.push_str(say::UNEVEN);
    }
    if let Some(target) = tally.target {
        text.push_str(", ");
        text.push_str(&watts(target));
    }
    text
}

/// Neighbouring loads gathered into one row that opens on a tap.
fn gathered(Sheet { act, .. }: Sheet, range: Range<usize>, tallies: &[LoadTally]) -> Html {
    let (Some(low), Some(high)) = (tallies.first(), tallies.last()) else { return nothing() };
    let best = tallies.iter().map(|tally| tally.verdict).min().unwrap_or(Verdict::NotStated);
    let class =
        if best >= Verdict::BelowStated { "rung rung-band rung-low" } else { "rung rung-band" };
    let kids = vec![
        told(
            "b",
            "rung-load",
            say::from_to(&rig::short_load(low.load), &rig::short_load(high.load)),
        ),
        told("span", "rung-note", say::loads(tallies.len())),
        sign(best),
    ];
    let key = range.start.to_string();
    let open = press(act, class, None, tag::act(Action::Band(Some(range))), kids);
    Tag::new("li").key(key).kids(vec![open])
}

/// A verdict as a sign, with its words for who cannot see it.
fn sign(verdict: Verdict) -> Html {
    let (class, mark) = super::entry::verdict_sign(verdict);
    let hidden = Tag::new("span")
        .with(&["aria-hidden"], vec![fixed("true")])
        .kids(vec![said(mark.to_owned())]);
    el("span", class, vec![hidden, line("span", "unseen", judged::verdict(verdict))])
}

/// What stands on the axis beside the rungs.
struct Marks {
    least: Option<f64>,
    least_ohms: Option<Ohms>,
    rated: Vec<(f64, String)>,
    /// Whether that is a stated least load, not the lowest rated one.
    stated: bool,
    /// Whether outputs differ, so that rated points would need more than a number.
    several: bool,
}

/// The least load of any output, and the rated points where all outputs share them.
fn marks(answered: &Answered) -> Marks {
    let mut marks =
        Marks { least: None, least_ohms: None, rated: Vec::new(), stated: false, several: false };
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
        let lower = least.filter(|least| marks.least_ohms.is_none_or(|lowest| *least < lowest));
        marks.least_ohms = lower.or(marks.least_ohms);
        let figures = (least, figures.points);
        marks.several |= first.as_ref().is_some_and(|first| *first != figures);
        first.get_or_insert(figures);
    }
    // Where one states nothing, no load is below what any may drive.
    marks.least_ohms = marks.least_ohms.filter(|_| known);
    marks.least = marks.least_ohms.map(Ohms::to_f64);
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
    let shaded = match marks.least_ohms {
        _ if marks.several => say::SEVERAL.to_owned(),
        None => return text,
        Some(least) if marks.stated => say::least(&rig::load(least)),
        Some(_) => say::BELOW_STATED.to_owned(),
    };
    text.push(' ');
    text.push_str(&shaded);
    text
}
