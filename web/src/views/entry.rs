//! One configuration in the list.

use super::pen::{Pen, What};
use super::words::{counts, failure as fail, judged, page as say, ways};
use crate::state::Action;
use crate::state::asking::Answered;
use coilwright_drawing::circuit::thumbnail;
use coilwright_solver::answer::{Configuration, Output, Row};
use coilwright_solver::failure;
use coilwright_solver::given::driver_watts;
use coilwright_solver::judge::{Overheats, Verdict};
use coilwright_solver::rig::Rig;

/// The element of the entry of a configuration.
pub fn id_of(key: &str) -> String {
    let mut id = String::from("entry-");
    id.push_str(key);
    id
}

/// A sign for a verdict and the class that goes with it.
pub fn verdict_sign(of: Verdict) -> (&'static str, &'static str) {
    match of {
        Verdict::Fits => ("verdict verdict-fits", "✓"),
        Verdict::FitsByDerivation => ("verdict verdict-fits verdict-derived", "✓"),
        Verdict::NotStated => ("verdict verdict-unstated", "?"),
        Verdict::BelowStated | Verdict::TooLow => ("verdict verdict-low", "✕"),
    }
}

/// A verdict in words, with a sign that says the same.
pub fn verdict(pen: &mut Pen, of: Verdict) {
    let (class, sign) = verdict_sign(of);
    pen.open("span");
    pen.fixed("class", class);
    pen.line("span.sign|aria-hidden=true", sign);
    pen.line("span", judged::verdict(of));
    pen.close();
}

/// The watts of each driver once the level is set, in short.
pub fn watts(rig: &Rig, one: &Configuration) -> Option<String> {
    let each = driver_watts(rig, one, |output| output.target_watts)?;
    Some(say::watts_each(&each))
}

/// One configuration in the list.
pub fn entry(pen: &mut Pen, answered: &Answered, of: &Row) {
    let state = pen.state;
    let one = &of.configuration;
    let rig = &answered.request.rig;
    let key = one.key();
    let chosen = state.key.as_ref() == Some(&key);
    pen.open(match (chosen, one.even) {
        (true, true) => "li.entry entry-chosen",
        (true, false) => "li.entry entry-uneven entry-chosen",
        (false, true) => "li.entry",
        (false, false) => "li.entry entry-uneven",
    });
    pen.press("entry-main", What::Do(Action::Choose(Some(key.clone()))));
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
        pen.told("b.entry-watts", watts);
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
        pen.press("quiet entry-alike", What::Do(Action::Group(Some(of.group))));
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
        pen.told("span", place);
    }
    pen.told("span", counts::runs(one.runs));
    if let Some(heat) = one.overheats() {
        let hot = heat == Overheats::AnyTime;
        let words = judged::heat_beside(one.verdict, heat);
        pen.told(if hot { "span.hot" } else { "span" }, words);
    }
    if let Some(worst) = failure::worst(rig, one) {
        pen.open(if worst.overloads == Some(true) { "span.hot" } else { "span" });
        pen.text(fail::IF_A_COIL_OPENS);
        pen.text(": ");
        pen.said(fail::opens(rig, one, &worst));
        pen.close();
    }
}

/// Puts a configuration aside to compare, or takes it back.
pub fn to_compare(pen: &mut Pen, class: &'static str, one: &Configuration) {
    let state = pen.state;
    let key = one.key();
    let compared = state.is_compared(&key);
    let full = state.compared.len() >= crate::state::compared::MOST;
    let mut name = String::from(say::compare::ADD);
    for output in &one.outputs {
        name.push(' ');
        name.push_str(&output.network.to_string());
    }
    pen.press(class, What::Do(Action::Compare(key)));
    pen.fixed("aria-pressed", if compared { "true" } else { "false" });
    pen.made("aria-label", name);
    if full && !compared {
        pen.fixed("disabled", "");
    }
    pen.text(if compared { say::compare::ADDED } else { say::compare::ADD });
    pen.close();
}

/// The network; of several outputs those that stand alike together, with their channels,
/// their load and their watts.
fn networks(pen: &mut Pen, rig: &Rig, one: &Configuration) {
    if let [output] = one.outputs.as_slice() {
        return pen.told("span.network", output.network.to_string());
    }
    pen.open("");
    for alike in ways::gathered(rig, &one.outputs) {
        let of: Vec<&Output> = alike.outputs.iter().filter_map(|at| one.outputs.get(*at)).collect();
        let gets = of.first().map(|output| say::output_gets(output, of.len()));
        pen.open("span.placed");
        pen.told("span.placed-on", alike.names);
        pen.told("span.placed-gets", gets.unwrap_or_default());
        pen.open("span.placed-networks");
        for output in &of {
            pen.told("span.network", output.network.to_string());
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
