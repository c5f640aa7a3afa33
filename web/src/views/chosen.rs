//! The chosen configuration: its circuit, why its verdict, what each driver gets, what
//! happens if a coil fails, what to mind.

use super::entry::{to_compare, verdict};
use super::list::big;
use super::tag::{What, button, el, line, nothing, press, row, said, text, told};
use super::words::cautions::{self, Caution};
use super::words::judged::{self, Limit};
use super::words::page::{self as say, chosen as rows};
use super::words::{counts, failure as fail, percent, watts, ways};
use super::{Sheet, figure, tied};
use crate::state::Action;
use coilwright_drawing::circuit::{Hung, circuit};
use coilwright_drawing::shares;
use coilwright_solver::answer::{Configuration, Output, Way};
use coilwright_solver::failure;
use coilwright_solver::given::{coil_loading, driver_watts};
use coilwright_solver::judge::{Overheats, Verdict};
use coilwright_solver::outputs;
use coilwright_solver::rig::Rig;
use yew::prelude::*;

/// The width a drawing has beside the list and on phones.
const ROOM: i32 = 300;
/// The width it has among others.
pub const SMALL_ROOM: i32 = 190;

/// The panel: the chosen configuration, or the one ranked first.
pub fn panel(sheet: Sheet) -> Html {
    let Sheet { state, act } = sheet;
    let (Some(answered), Some(one)) = (state.answered.as_deref(), state.shown()) else {
        return nothing();
    };
    let rig = &answered.request.rig;
    let title = if state.chosen.is_some() { rows::CHOSEN } else { rows::FIRST };
    let heading = super::tag::Tag::new("h2")
        .with(
            &["id", "class", "tabindex"],
            vec![super::tag::fixed("chosen"), super::tag::fixed("tab"), super::tag::fixed("-1")],
        )
        .kids(vec![text(title)]);
    let described = say::alone(&say::heading(&ways::describe(rig, &one.outputs)));
    let mut kids = vec![
        el(
            "div",
            "chosen-top",
            vec![
                heading,
                press(act, "quiet chosen-back", None, What::Back, vec![text(rows::BACK)]),
            ],
        ),
        told("p", "described", described),
        picture(one, ROOM),
        same_signal(one),
    ];
    for alike in ways::gathered(rig, &one.outputs) {
        let of: Vec<&Output> = alike.outputs.iter().filter_map(|at| one.outputs.get(*at)).collect();
        if one.outputs.len() > 1 {
            kids.push(told("h3", "", rows::on_each(&alike.names, of.len())));
        }
        kids.push(on_outputs(rig, &of));
    }
    kids.push(each_driver(rig, one));
    kids.push(if_a_coil_fails(rig, one));
    kids.push(facts(one));
    kids.push(caution(one));
    let mut acts = vec![to_compare(sheet, "quiet", one)];
    if state.chosen.is_none() {
        acts.push(button(act, "quiet", rows::TAKE, Action::Choose(Some(one.key()))));
    }
    kids.push(el("p", "chosen-acts", acts));
    row(kids)
}

/// The circuit, all outputs below each other.
pub fn picture(one: &Configuration, room: i32) -> Html {
    let mut ends = Vec::new();
    for output in &one.outputs {
        let channels: Vec<String> = output.channels.iter().map(u32::to_string).collect();
        let channels = if one.outputs.len() > 1 { channels.join("+") } else { String::new() };
        ends.push((format!("{channels} +"), format!("{channels} −")));
    }
    let mut hung = Vec::new();
    for (output, (plus, minus)) in one.outputs.iter().zip(&ends) {
        hung.push(Hung { network: &output.network, plus: plus.trim(), minus: minus.trim() });
    }
    let svg = circuit(&hung, room).svg("circuit", Some(&rows::drawing(one)));
    figure("figure", rows::CIRCUIT.to_owned(), svg)
}

/// Outputs that stand alike: what is said of the first holds for each.
fn on_outputs(rig: &Rig, outputs: &[&Output]) -> Html {
    let Some(output) = outputs.first() else {
        return nothing();
    };
    let mut networks = Vec::new();
    for output in outputs {
        networks.push(told("span", "", output.network.to_string()));
    }
    let mut figures = Vec::new();
    let mut pair = |class: &'static str, name: &'static str, value: String, more: &'static str| {
        let mut kids = vec![line("dt", "", name), told("dd", "", value)];
        if !more.is_empty() {
            kids.push(line("dd", "hints", more));
        }
        figures.push(el("div", class, kids));
    };
    if let Some(given) = &output.available {
        pair("", rows::AVAILABLE, judged::available(given), judged::basis(given.basis));
    }
    if let Some(usable) = output.usable_watts {
        pair("", rows::USABLE, watts(usable), "");
    }
    if let Some(target) = output.target_watts {
        pair("figure-main", rows::TARGET, watts(target), "");
    }
    pair("", rows::RUNS, output.network.runs().to_string(), "");
    let because = tied(&say::alone(&judged::reason(output.load, limit(rig, output))));
    let no_target = if output.target_watts.is_none() && output.verdict < Verdict::BelowStated {
        let why = judged::no_target(output.usable_watts.is_some(), output.available.is_some());
        told("p", "hints", say::alone(why))
    } else {
        nothing()
    };
    el(
        "div",
        "on-output",
        vec![
            el("p", "chosen-load", vec![big(output.load), verdict(output.verdict)]),
            told("p", "because", because),
            el("p", "network network-large", networks),
            line("p", "hints", rows::READ),
            el("dl", "figures", figures),
            no_target,
            heat(output),
        ],
    )
}

/// What two channels must have alike before they may work on one driver or one bridge.
fn same_signal(one: &Configuration) -> Html {
    let mut kids = Vec::new();
    if let Some(driver) = one.split_driver {
        kids.push(told("p", "note note-wrong", ways::split(driver)));
    }
    if one.outputs.iter().any(|output| output.way == Some(Way::Bridged)) {
        kids.push(line("p", "hints", ways::SAME_SIGNAL));
    }
    if one.unlike_in_series {
        kids.push(line("p", "note", counts::UNLIKE_IN_SERIES));
    }
    row(kids)
}

/// What the load is compared with.
fn limit(rig: &Rig, output: &Output) -> Limit {
    let figures = rig.amplifier().and_then(|one| outputs::figures(one, &output.channels));
    Limit::of(figures.as_ref())
}

fn heat(output: &Output) -> Html {
    let (Some(heat), Some(given), Some(usable)) =
        (output.overheats, &output.available, output.usable_watts)
    else {
        return nothing();
    };
    let class = match heat {
        Overheats::Cannot => "heat",
        Overheats::IfClipped => "heat heat-clipped",
        Overheats::AnyTime => "heat heat-any",
    };
    let because = tied(&say::alone(&judged::overheats_because(heat, given.high, usable)));
    el(
        "p",
        class,
        vec![
            told("b", "", say::alone(&say::amplifier_that(judged::overheats(heat)))),
            text(" "),
            said(because),
        ],
    )
}

/// What each driver gets, and what to do about it.
fn each_driver(rig: &Rig, one: &Configuration) -> Html {
    let target = driver_watts(rig, one, |output| output.target_watts);
    let given = driver_watts(rig, one, |output| output.available.as_ref().map(|given| given.high));
    let over = one.outputs.iter().any(|output| {
        let given = output.available.as_ref().map(|given| given.high);
        given.zip(output.usable_watts).is_some_and(|(given, usable)| given > usable)
    });
    let mut kids = Vec::new();
    if let Some(target) = &target {
        kids.push(told("p", "target", tied(&say::target(target))));
    }
    if let Some(given) = given.filter(|_| over) {
        kids.push(told("p", "beyond", tied(&say::more_than_taken(&given))));
    }
    if !one.even || rig.groups().len() > 1 {
        kids.push(shared(rig, one, target.as_deref()));
    }
    row(kids)
}

/// What each driver and each coil gets, as a small drawing.
fn shared(rig: &Rig, one: &Configuration, target: Option<&[f64]>) -> Html {
    let loading = coil_loading(rig, one);
    let mut drivers = Vec::new();
    for (number, share) in one.driver_shares.iter().enumerate() {
        let gets = target.and_then(|target| target.get(number)).map(|power| watts(*power));
        let mut coils = Vec::new();
        for (coil, fraction) in &loading.coils {
            if usize::from(coil.driver) == number {
                let (label, figure) = (coil.to_string(), percent(*fraction));
                coils.push(shares::Share { label, fraction: *fraction, figure });
            }
        }
        let label = rows::driver_gets(number + 1, &gets.unwrap_or_else(|| percent(*share)));
        drivers.push(shares::Row { label, coils });
    }
    let full = if loading.of_rating { rows::RATING } else { rows::HOTTEST };
    let svg = shares::shares(&drivers, full, ROOM).svg("shares", Some(rows::DRIVERS));
    el(
        "div",
        "shared",
        vec![line("h3", "", rows::DRIVERS), figure("figure", rows::DRIVERS.to_owned(), svg)],
    )
}

/// What a coil that opens or shorts does to the others and to the amplifier.
fn if_a_coil_fails(rig: &Rig, one: &Configuration) -> Html {
    let Some(worst) = failure::worst(rig, one) else {
        return nothing();
    };
    el(
        "div",
        "fails",
        vec![
            line("h3", "", rows::IF_A_COIL_FAILS),
            told("p", "", tied(&fail::detail(rig, one, &worst))),
        ],
    )
}

fn facts(one: &Configuration) -> Html {
    let even = match (one.even, one.outputs.len()) {
        (false, _) => rows::UNEVEN,
        (true, 1) => rows::EVEN,
        (true, _) => rows::EVEN_ON_EACH,
    };
    let joined = if one.joined_at_driver { rows::JOINED } else { rows::NOT_JOINED };
    el("ul", "facts", vec![line("li", "", even), line("li", "", joined)])
}

fn caution(one: &Configuration) -> Html {
    let mut kids = Vec::new();
    if one.verdict >= Verdict::BelowStated {
        kids.push(line("li", "", cautions::text(Caution::LeastLoad)));
    }
    for caution in [Caution::PowerOff, Caution::LiveOutputs] {
        kids.push(line("li", "", cautions::text(caution)));
    }
    let list = el("ul", "", kids);
    el("aside", "cautions", vec![line("h3", "", rows::BEFORE), list])
}
