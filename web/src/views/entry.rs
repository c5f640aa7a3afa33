//! One configuration in the list.

use super::Shown;
use super::words::{counts, judged, page as say, ways};
use crate::app::Do;
use crate::state::Action;
use crate::state::asking::Answered;
use coilwright_solver::answer::{Configuration, Output};
use coilwright_solver::given::driver_watts;
use coilwright_solver::judge::{Overheats, Verdict};
use yew::prelude::*;

/// Which entry.
#[derive(Debug, PartialEq, Properties)]
pub struct EntryProps {
    /// The way to act.
    pub act: Do,
    /// The answer it is in.
    pub shown: Shown,
    /// Its place in the answer.
    pub at: usize,
    /// Whether it is the chosen one.
    pub chosen: bool,
}

/// The element of the entry with a rank.
pub fn id_of(rank: u32) -> String {
    format!("entry-{rank}")
}

/// A verdict in words, with a sign that says the same.
pub fn verdict(of: Verdict) -> Html {
    let (class, sign) = match of {
        Verdict::Fits => ("verdict verdict-fits", "✓"),
        Verdict::FitsByDerivation => ("verdict verdict-fits verdict-derived", "✓"),
        Verdict::NotStated => ("verdict verdict-unstated", "?"),
        Verdict::BelowStated | Verdict::TooLow => ("verdict verdict-low", "✕"),
    };
    html! {
        <span {class}>
            <span class="sign" aria-hidden="true">{ sign }</span>{ judged::verdict(of) }
        </span>
    }
}

/// The watts of each driver once the level is set, in short.
pub fn watts(answered: &Answered, one: &Configuration) -> Option<String> {
    let each = driver_watts(&answered.request.rig, one, |output| output.target_watts)?;
    Some(say::watts_each(&each))
}

/// The worst that can happen to a coil on any output.
pub fn overheats(one: &Configuration) -> Option<Overheats> {
    let each: Option<Vec<Overheats>> = one.outputs.iter().map(|output| output.overheats).collect();
    each?.into_iter().max()
}

/// One configuration in the list.
#[component]
pub fn Entry(props: &EntryProps) -> Html {
    let answered = &props.shown.0;
    let Some(one) = answered.shown().configurations.get(props.at) else {
        return Html::default();
    };
    let class = match (props.chosen, one.even) {
        (true, true) => "entry entry-chosen",
        (true, false) => "entry entry-uneven entry-chosen",
        (false, true) => "entry",
        (false, false) => "entry entry-uneven",
    };
    let heat = overheats(one);
    html! {
        <button type="button" {class} id={id_of(one.rank)} aria-pressed={props.chosen.to_string()}
            onclick={props.act.on(Action::Choose(Some(one.key())))}>
            if one.rank == 1 {
                <span class="first">{ say::RANKED_FIRST }</span>
            }
            <span class="entry-top">
                if let Some(watts) = watts(answered, one) {
                    <b class="entry-watts">{ watts }</b>
                } else if one.verdict < Verdict::BelowStated {
                    <span class="entry-unknown">{ say::POWER_UNKNOWN }</span>
                }
                { verdict(one.verdict) }
            </span>
            { networks(answered, one) }
            <span class="entry-more">
                if !one.even {
                    <b>{ say::UNEVEN }</b>
                }
                if let Some(place) = only_place(answered, one) {
                    <span>{ place }</span>
                }
                <span>{ counts::runs(one.runs) }</span>
                if let Some(heat) = heat {
                    <span class={if heat == Overheats::AnyTime { "hot" } else { "" }}>
                        { judged::overheats(heat) }
                    </span>
                }
            </span>
        </button>
    }
}

/// The network; of several outputs those that stand alike together, with their channels,
/// their load and their watts.
fn networks(answered: &Answered, one: &Configuration) -> Html {
    if let [output] = one.outputs.as_slice() {
        return html! { <span class="network">{ output.network.to_string() }</span> };
    }
    let alike = |alike: ways::Alike| {
        let of: Vec<&Output> = alike.outputs.iter().filter_map(|at| one.outputs.get(*at)).collect();
        let gets = of.first().map(|output| say::output_gets(output, of.len()));
        html! {
            <span class="placed">
                <span class="placed-on">{ alike.names }</span>
                <span class="placed-gets">{ gets.unwrap_or_default() }</span>
                <span class="placed-networks">
                    { for of.iter().map(|output| html! {
                        <span class="network">{ output.network.to_string() }</span>
                    }) }
                </span>
            </span>
        }
    };
    ways::gathered(&answered.request.rig, &one.outputs).into_iter().map(alike).collect()
}

/// The channels of the one output in use, where there are others.
fn only_place(answered: &Answered, one: &Configuration) -> Option<String> {
    let amplifier = answered.request.rig.amplifier()?;
    let several = amplifier.channels.len() > 1 || amplifier.count > 1;
    let [output] = one.outputs.as_slice() else { return None };
    several.then(|| ways::output(amplifier, output.way, &output.channels))
}
