//! The chosen configuration: its circuit, why its verdict, what each driver gets, what
//! happens if a coil fails, what to mind.

use crate::later::{self, Later, comes_later};
use crate::link::Saved;
use crate::parts::circuit::{ROOM, joined, picture};
use crate::parts::coming::coming;
use crate::parts::load::big;
use crate::parts::tied::tied;
use crate::parts::top::top;
use crate::parts::verdict::{to_compare, verdict};
use crate::pen::{Pen, What};
use crate::rooms::Room;
use crate::state::State;
use crate::state::page::Action;
use crate::words::cautions::{self, Caution};
use crate::words::judged::{self, Limit};
use crate::words::page::room;
use crate::words::page::{self as say, chosen as rows};
use crate::words::{counts, failure as fail, names, percent, watts, ways};
use coilwright_drawing::shares;
use coilwright_solver::answer::{Configuration, Output, Way};
use coilwright_solver::failure;
use coilwright_solver::given::{coil_loading, driver_watts};
use coilwright_solver::judge::Overheats;
use coilwright_solver::outputs;
use coilwright_solver::rig::Rig;

/// What leads past the fields, and where.
pub const SKIP: (&str, &str) = (room::TO_CHOSEN, "chosen");
/// The class of the page.
pub const PAGE: &str = "page page-chosen";

/// The panel, where there is something to show.
pub fn show(pen: &mut Pen) {
    let state = pen.state;
    let shown = state.shown().filter(|_| later::there().is_some() || is_missed(state));
    pen.open(match (shown, state.is_stale()) {
        (None, _) => "section.chosen",
        (Some(_), true) => "section.sheet chosen answer-stale",
        (Some(_), false) => "section.sheet chosen",
    });
    let given = [
        state.answer.version(),
        state.asked.version(),
        state.aside.version(),
        state.job.version(),
        state.rooms.list.version(),
        state.page.version(),
        0,
    ];
    pen.renewed("div.chosen-in", "chosen", given, panel_later);
    pen.close();
}

/// Whether it is missed while it is not there: where nobody chose yet it may be on its way.
fn is_missed(state: &State) -> bool {
    state.answer.chosen.is_some() || state.page.later == Later::Missing
}

fn panel_later(pen: &mut Pen) {
    let missed = is_missed(pen.state);
    match later::there() {
        Some(there) => panel(there, pen),
        None if missed => coming(pen, "h2.tab|id=chosen|tabindex=-1"),
        None => pen.nothing(),
    }
}

comes_later! {
    "00000000000000000000000000000002"
    /// The panel: the chosen configuration, or the one ranked first.
    fn panel(pen: &mut Pen<'_>) {
        written(pen);
    }
}

fn written(pen: &mut Pen) {
    let state = pen.state;
    let (Some(rig), Some(one)) = (state.rig(), state.shown()) else {
        return pen.nothing();
    };
    let title = if state.answer.chosen.is_some() { rows::CHOSEN } else { rows::first(one.verdict) };
    pen.open("");
    top(pen, "h2.tab|id=chosen|tabindex=-1", title, "quiet chosen-back");
    pen.line_of("p.described", say::alone(&say::heading(&ways::describe(rig, &one.outputs))));
    crate::parts::named::listed(pen, rig, &state.names());
    picture(pen, one, ROOM);
    same_signal(pen, one);
    for alike in ways::gathered(rig, &one.outputs) {
        let of: Vec<&Output> = alike.outputs.iter().filter_map(|at| one.outputs.get(*at)).collect();
        if one.outputs.len() > 1 {
            pen.line_of("h3", rows::on_each(&alike.names, of.len()));
        }
        on_outputs(pen, rig, &of);
    }
    each_driver(pen, rig, one);
    if_a_coil_fails(pen, rig, one);
    facts(pen, one);
    caution(pen, one);
    pen.open("p.chosen-acts");
    let to = Saved { key: Some(one.key()), room: Room::Wire, ..state.saved() };
    pen.lead("act", &to, What::act(Action::Wire(one.key())));
    pen.text(say::wire::WIRE_IT);
    pen.close();
    to_compare(pen, "quiet", one);
    if state.answer.chosen.is_none() {
        pen.button("quiet", rows::TAKE, Action::Choose(Some(one.key())));
    }
    pen.close();
    pen.close();
}

/// A figure with its name, and what more there is to it.
fn pair(pen: &mut Pen, spec: &'static str, name: &'static str, value: String, more: &'static str) {
    pen.open(spec);
    pen.line("dt", name);
    pen.line_of("dd", value);
    if !more.is_empty() {
        pen.line("dd.hints", more);
    }
    pen.close();
}

/// Outputs that stand alike: what is said of the first holds for each.
fn on_outputs(pen: &mut Pen, rig: &Rig, outputs: &[&Output]) {
    let Some(output) = outputs.first() else {
        return pen.nothing();
    };
    pen.open("div.on-output");
    pen.open("p.chosen-load");
    big(pen, output.load);
    verdict(pen, output.verdict);
    pen.close();
    let because = judged::reason(output.load, limit(rig, output));
    pen.line_of("p.because", tied(&say::alone(&because)));
    joined(pen, output.verdict, output.overheats);
    pen.open("p.network network-large");
    for output in outputs {
        pen.line_of("span", output.network.to_string());
    }
    pen.close();
    pen.line("p.hints", rows::READ);
    pen.open("dl.figures");
    if let Some(given) = &output.available {
        pair(pen, "div", rows::AVAILABLE, judged::available(given), judged::basis(given.basis));
    }
    if let Some(usable) = output.usable_watts {
        pair(pen, "div", rows::USABLE, watts(usable), "");
    }
    if let Some(target) = output.target_watts {
        pair(pen, "div.figure-main", rows::TARGET, watts(target), "");
    }
    pair(pen, "div", rows::RUNS, output.network.runs().to_string(), "");
    pen.close();
    if output.target_watts.is_none() && !output.verdict.is_low() {
        let why = judged::no_target(output.usable_watts.is_some(), output.available.is_some());
        pen.line_of("p.hints", say::alone(why));
    } else {
        pen.nothing();
    }
    heat(pen, output);
    pen.close();
}

/// What two channels must have alike before they may work on one driver or one bridge.
fn same_signal(pen: &mut Pen, one: &Configuration) {
    pen.open("");
    if let Some(driver) = one.split_driver {
        pen.line_of("p.note note-wrong", ways::split(driver));
    }
    if one.outputs.iter().any(|output| output.way == Some(Way::Bridged)) {
        pen.line("p.hints", ways::SAME_SIGNAL);
    }
    if one.unlike_in_series {
        pen.line("p.note", counts::UNLIKE_IN_SERIES);
    }
    pen.close();
}

/// What the load is compared with.
fn limit(rig: &Rig, output: &Output) -> Limit {
    let figures = rig.amplifier().and_then(|one| outputs::figures(one, &output.channels));
    Limit::of(figures.as_ref())
}

fn heat(pen: &mut Pen, output: &Output) {
    let (Some(heat), Some(given), Some(usable)) =
        (output.overheats, &output.available, output.usable_watts)
    else {
        return pen.nothing();
    };
    pen.open(match heat {
        Overheats::Cannot => "p.heat",
        Overheats::IfClipped => "p.heat heat-clipped",
        Overheats::AnyTime => "p.heat heat-any",
    });
    pen.line_of("b", say::alone(&say::amplifier_that(judged::overheats(heat))));
    pen.text(" ");
    pen.said(tied(&say::alone(&judged::overheats_because(heat, given.high, usable))));
    pen.close();
}

/// What each driver gets, and what to do about it.
fn each_driver(pen: &mut Pen, rig: &Rig, one: &Configuration) {
    let target = driver_watts(rig, one, |output| output.target_watts);
    let given = driver_watts(rig, one, |output| output.available.as_ref().map(|given| given.high));
    let over = one.outputs.iter().any(|output| {
        let given = output.available.as_ref().map(|given| given.high);
        given.zip(output.usable_watts).is_some_and(|(given, usable)| given > usable)
    });
    pen.open("");
    if let Some(target) = &target {
        pen.line_of("p.target", tied(&say::target(target)));
    }
    if let Some(given) = given.filter(|_| over) {
        pen.line_of("p.beyond", tied(&say::more_than_taken(&given)));
    }
    if !one.even || rig.groups().len() > 1 {
        shared(pen, rig, one, target.as_deref());
    }
    pen.close();
}

/// What each driver and each coil gets, as a small drawing.
fn shared(pen: &mut Pen, rig: &Rig, one: &Configuration, target: Option<&[f64]>) {
    let loading = coil_loading(rig, one);
    let called = pen.state.names();
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
        let driver = u8::try_from(number).unwrap_or(u8::MAX);
        let name = names::plain(names::of_driver(rig, &called, driver));
        drivers.push(shares::Row { label, name, coils });
    }
    let full = if loading.of_rating { rows::RATING } else { rows::HOTTEST };
    let svg = shares::shares(&drivers, full, ROOM).svg("shares", Some(rows::DRIVERS));
    pen.open("div.shared");
    pen.line("h3", rows::DRIVERS);
    pen.figure(rows::DRIVERS, svg);
    pen.close();
}

/// What a coil that opens or shorts does to the others and to the amplifier.
fn if_a_coil_fails(pen: &mut Pen, rig: &Rig, one: &Configuration) {
    let Some(worst) = failure::worst(rig, one) else {
        return pen.nothing();
    };
    pen.open("div.fails");
    pen.line("h3", rows::IF_A_COIL_FAILS);
    pen.line_of("p", tied(&fail::detail(rig, one, &worst)));
    pen.close();
}

fn facts(pen: &mut Pen, one: &Configuration) {
    let even = match (one.even, one.outputs.len()) {
        (false, _) => rows::UNEVEN,
        (true, 1) => rows::EVEN,
        (true, _) => rows::EVEN_ON_EACH,
    };
    pen.open("ul.facts");
    pen.line("li", even);
    pen.line("li", if one.joined_at_driver { rows::JOINED } else { rows::NOT_JOINED });
    pen.close();
}

fn caution(pen: &mut Pen, one: &Configuration) {
    pen.open("aside.cautions");
    pen.line("h3", rows::BEFORE);
    pen.open("ul");
    if one.verdict.is_low() {
        pen.line("li", cautions::text(Caution::LeastLoad));
    }
    for caution in [Caution::PowerOff, Caution::LiveOutputs] {
        pen.line("li", cautions::text(caution));
    }
    pen.close();
    pen.close();
}
