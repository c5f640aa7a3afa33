//! One configuration in the list.

use crate::pen::{Pen, What};
use crate::words::{counts, failure as fail, judged, page as say, ways};
use super::state::Action;
use crate::parts::verdict::{id_of, to_compare, verdict, watts};
use crate::state::page;
use crate::answer::asking::Answered;
use coilwright_drawing::circuit::thumbnail;
use coilwright_solver::answer::{Configuration, Output, Row};
use coilwright_solver::failure;
use coilwright_solver::judge::Overheats;
use coilwright_solver::rig::Rig;

/// One configuration in the list.
pub(super) fn entry(pen: &mut Pen, answered: &Answered, of: &Row) {
    let state = pen.state;
    let one = &of.configuration;
    let rig = &answered.request.rig;
    let key = one.key();
    let chosen = state.answer.key.as_ref() == Some(&key);
    pen.open(match (chosen, one.even) {
        (true, true) => "li.entry entry-chosen",
        (true, false) => "li.entry entry-uneven entry-chosen",
        (false, true) => "li.entry",
        (false, false) => "li.entry entry-uneven",
    });
    pen.press("entry-main", What::act(page::Action::Choose(Some(key.clone()))));
    pen.made("id", id_of(&key));
    pen.fixed("aria-pressed", if chosen { "true" } else { "false" });
    pen.open("span.thumbs");
    for output in one.outputs.iter().take(4) {
        pen.drawn(thumbnail(&output.network).svg("thumb", None));
    }
    pen.close();
    pen.open("span.entry-text");
    pen.open("span.entry-top");
    if let Some(watts) = watts(rig, one) {
        pen.line_of("b.entry-watts", watts);
    } else if !one.verdict.is_low() {
        pen.line("span.entry-unknown", say::POWER_UNKNOWN);
    }
    verdict(pen, one.verdict);
    if let Some(ranked) = say::ranked(one.rank, one.verdict) {
        pen.line("span.first", ranked);
    }
    pen.close();
    networks(pen, rig, one);
    pen.open("span.entry-more");
    more(pen, rig, one);
    pen.close();
    pen.close();
    pen.close();
    pen.open("div.entry-below");
    if of.alike > 1 {
        pen.press("quiet entry-alike", What::act(Action::Group(Some(of.group))));
        pen.said(say::list::alike(of.alike));
        pen.close();
    }
    to_compare(pen, "quiet entry-compare", one);
    pen.close();
    pen.key(key);
    pen.close();
}

/// What else there is to say of a configuration, in short.
fn more(pen: &mut Pen, rig: &Rig, one: &Configuration) {
    if !one.even {
        pen.line("b", say::UNEVEN);
    }
    if let Some(place) = only_place(rig, one) {
        pen.line_of("span", place);
    }
    pen.line_of("span", counts::runs(one.runs));
    if let Some(heat) = one.overheats() {
        let hot = heat == Overheats::AnyTime;
        let words = judged::heat_beside(one.verdict, heat);
        pen.line_of(if hot { "span.hot" } else { "span" }, words);
    }
    if let Some(worst) = failure::worst(rig, one) {
        pen.open(if worst.overloads == Some(true) { "span.hot" } else { "span" });
        pen.text(fail::IF_A_COIL_OPENS);
        pen.text(": ");
        pen.said(fail::opens(rig, one, &worst));
        pen.close();
    }
}

/// The network; of several outputs those that stand alike together, with their channels,
/// their load and their watts.
fn networks(pen: &mut Pen, rig: &Rig, one: &Configuration) {
    if let [output] = one.outputs.as_slice() {
        return pen.line_of("span.network", output.network.to_string());
    }
    pen.open("");
    for alike in ways::gathered(rig, &one.outputs) {
        let of: Vec<&Output> = alike.outputs.iter().filter_map(|at| one.outputs.get(*at)).collect();
        let gets = of.first().map(|output| say::output_gets(output, of.len()));
        pen.open("span.placed");
        pen.line_of("span.placed-on", alike.names);
        pen.line_of("span.placed-gets", gets.unwrap_or_default());
        pen.open("span.placed-networks");
        for output in &of {
            pen.line_of("span.network", output.network.to_string());
        }
        pen.close();
        pen.close();
    }
    pen.close();
}

/// The channels of the one output in use, where there are others.
fn only_place(rig: &Rig, one: &Configuration) -> Option<String> {
    let amplifier = rig.amplifier()?;
    let several = amplifier.channels.len() > 1 || amplifier.count > 1;
    let [output] = one.outputs.as_slice() else { return None };
    several.then(|| ways::output(amplifier, output.way, &output.channels))
}
