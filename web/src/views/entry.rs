//! One configuration in the list.

use super::Sheet;
use super::tag::{self, Tag, drawn, el, fixed, line, made, nothing, press, row, said, text, told};
use super::words::{counts, failure as fail, judged, page as say, ways};
use crate::state::Action;
use crate::state::asking::Answered;
use coilwright_drawing::circuit::thumbnail;
use coilwright_solver::answer::{Configuration, Output, Row};
use coilwright_solver::failure;
use coilwright_solver::given::driver_watts;
use coilwright_solver::judge::{Overheats, Verdict};
use coilwright_solver::rig::Rig;
use yew::prelude::*;
use yew::virtual_dom::ListenerKind;

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
pub fn verdict(of: Verdict) -> Html {
    let (class, sign) = verdict_sign(of);
    let sign = Tag::new("span")
        .with(&["class", "aria-hidden"], vec![fixed("sign"), fixed("true")])
        .kids(vec![said(sign.to_owned())]);
    el("span", class, vec![sign, line("span", "", judged::verdict(of))])
}

/// The watts of each driver once the level is set, in short.
pub fn watts(rig: &Rig, one: &Configuration) -> Option<String> {
    let each = driver_watts(rig, one, |output| output.target_watts)?;
    Some(say::watts_each(&each))
}

/// The worst that can happen to a coil on any output.
pub fn overheats(one: &Configuration) -> Option<Overheats> {
    let mut worst = None;
    for output in &one.outputs {
        worst = worst.max(Some(output.overheats?));
    }
    worst
}

/// One configuration in the list.
pub fn entry(Sheet { state, act }: Sheet, answered: &Answered, of: &Row) -> Html {
    let one = &of.configuration;
    let rig = &answered.request.rig;
    let key = one.key();
    let chosen = state.key.as_ref() == Some(&key);
    let class = match (chosen, one.even) {
        (true, true) => "entry entry-chosen",
        (true, false) => "entry entry-uneven entry-chosen",
        (false, true) => "entry",
        (false, false) => "entry entry-uneven",
    };
    let mut top = Vec::new();
    if let Some(watts) = watts(rig, one) {
        top.push(told("b", "entry-watts", watts));
    } else if one.verdict < Verdict::BelowStated {
        top.push(line("span", "entry-unknown", say::POWER_UNKNOWN));
    }
    top.push(verdict(one.verdict));
    if one.rank == 1 {
        top.push(line("span", "first", say::RANKED_FIRST));
    }
    let mut more = Vec::new();
    if !one.even {
        more.push(line("b", "", say::UNEVEN));
    }
    if let Some(place) = only_place(rig, one) {
        more.push(told("span", "", place));
    }
    more.push(told("span", "", counts::runs(one.runs)));
    if let Some(heat) = overheats(one) {
        let class = if heat == Overheats::AnyTime { "hot" } else { "" };
        more.push(line("span", class, judged::overheats(heat)));
    }
    if let Some(worst) = failure::worst(rig, one) {
        let class = if worst.overloads == Some(true) { "hot" } else { "" };
        let words =
            vec![text(fail::IF_A_COIL_OPENS), text(": "), said(fail::opens(rig, one, &worst))];
        more.push(el("span", class, words));
    }
    let mut pictures = Vec::new();
    for output in one.outputs.iter().take(4) {
        pictures.push(drawn(thumbnail(&output.network).svg("thumb", None)));
    }
    let main = Tag::new("button")
        .with(
            &["type", "class", "id", "aria-pressed"],
            vec![fixed("button"), fixed("entry-main"), made(id_of(&key)), made(chosen.to_string())],
        )
        .on(ListenerKind::onclick, act, tag::act(Action::Choose(Some(key.clone()))))
        .kids(vec![
            el("span", "thumbs", pictures),
            el(
                "span",
                "entry-text",
                vec![
                    el("span", "entry-top", top),
                    networks(rig, one),
                    el("span", "entry-more", more),
                ],
            ),
        ]);
    let mut below = Vec::new();
    if of.alike > 1 {
        let what = tag::act(Action::Group(Some(of.group)));
        below.push(press(
            act,
            "quiet entry-alike",
            None,
            what,
            vec![said(say::list::alike(of.alike))],
        ));
    }
    below.push(to_compare(Sheet { state, act }, "quiet entry-compare", one));
    Tag::new("li")
        .with(&["class"], vec![fixed(class)])
        .key(key)
        .kids(vec![main, el("div", "entry-below", below)])
}

/// Puts a configuration aside to compare, or takes it back.
pub fn to_compare(Sheet { state, act }: Sheet, class: &'static str, one: &Configuration) -> Html {
    let key = one.key();
    let compared = state.is_compared(&key);
    let full = state.compared.len() >= crate::state::compared::MOST;
    let mut name = String::from(say::compare::ADD);
    for output in &one.outputs {
        name.push(' ');
        name.push_str(&output.network.to_string());
    }
    let disabled = super::tag::on(full && !compared, "");
    Tag::new("button")
        .with(
            &["type", "class", "aria-pressed", "aria-label", "disabled"],
            vec![fixed("button"), fixed(class), made(compared.to_string()), made(name), disabled],
        )
        .on(ListenerKind::onclick, act, tag::act(Action::Compare(key)))
        .kids(vec![said(if compared { say::compare::ADDED } else { say::compare::ADD }.to_owned())])
}

/// The network; of several outputs those that stand alike together, with their channels,
/// their load and their watts.
fn networks(rig: &Rig, one: &Configuration) -> Html {
    if let [output] = one.outputs.as_slice() {
        return told("span", "network", output.network.to_string());
    }
    let mut kids = Vec::new();
    for alike in ways::gathered(rig, &one.outputs) {
        let of: Vec<&Output> = alike.outputs.iter().filter_map(|at| one.outputs.get(*at)).collect();
        let gets = of.first().map(|output| say::output_gets(output, of.len()));
        let mut networks = Vec::new();
        for output in &of {
            networks.push(told("span", "network", output.network.to_string()));
        }
        kids.push(el(
            "span",
            "placed",
            vec![
                told("span", "placed-on", alike.names),
                told("span", "placed-gets", gets.unwrap_or_default()),
                el("span", "placed-networks", networks),
            ],
        ));
    }
    if kids.is_empty() { nothing() } else { row(kids) }
}

/// The channels of the one output in use, where there are others.
fn only_place(rig: &Rig, one: &Configuration) -> Option<String> {
    let amplifier = rig.amplifier()?;
    let several = amplifier.channels.len() > 1 || amplifier.count > 1;
    let [output] = one.outputs.as_slice() else { return None };
    several.then(|| ways::output(amplifier, output.way, &output.channels))
}
