//! The chosen configuration: why its verdict, what each driver gets, what to mind.

use super::entry::verdict;
use super::ladder::big;
use super::words::cautions::{self, Caution};
use super::words::judged::{self, Limit};
use super::words::page::{self as say, chosen as rows};
use super::words::{watts, ways};
use super::{Sheet, tied};
use crate::app::Do;
use crate::browser::address;
use crate::state::Action;
use crate::state::asking::Answered;
use coilwright_solver::answer::{Configuration, Output, Way};
use coilwright_solver::given::driver_watts;
use coilwright_solver::judge::{Overheats, Verdict};
use coilwright_solver::outputs;
use coilwright_solver::rig::Rig;
use yew::prelude::*;

/// The panel: the chosen configuration, or the one ranked first.
pub fn panel(Sheet { state, act }: Sheet) -> Html {
    let chosen = state.chosen();
    let one = chosen.or_else(|| state.answer()?.configurations.first());
    let (Some(answered), Some(one)) = (state.answered.as_deref(), one) else {
        return Html::default();
    };
    let title = if chosen.is_some() { rows::CHOSEN } else { rows::FIRST };
    let class = if state.is_current() { "sheet chosen" } else { "sheet chosen answer-stale" };
    html! {
        <section {class} aria-labelledby="chosen">
            <div class="chosen-top">
                <h2 id="chosen" class="tab" tabindex="-1">{ title }</h2>
                <button type="button" class="quiet chosen-back" onclick={back(act.clone())}>
                    { rows::BACK }
                </button>
            </div>
            <p class="described">{ say::alone(&say::heading(&ways::describe(&answered.request.rig, &one.outputs))) }</p>
            { same_signal(one) }
            { for ways::gathered(&answered.request.rig, &one.outputs).into_iter().map(|alike| {
                let of: Vec<&Output> =
                    alike.outputs.iter().filter_map(|at| one.outputs.get(*at)).collect();
                html! {
                    <>
                        if one.outputs.len() > 1 {
                            <h3>{ rows::on_each(&alike.names, of.len()) }</h3>
                        }
                        { on_outputs(answered, &of) }
                    </>
                }
            }) }
            { each_driver(answered, one) }
            <ul class="facts">
                <li>{ match (one.even, one.outputs.len()) {
                    (false, _) => rows::UNEVEN,
                    (true, 1) => rows::EVEN,
                    (true, _) => rows::EVEN_ON_EACH,
                } }</li>
                <li>{ if one.joined_at_driver { rows::JOINED } else { rows::NOT_JOINED } }</li>
            </ul>
            { caution(one) }
        </section>
    }
}

/// Back to the list: by the browser's own way back where choosing made an entry for it.
fn back(act: Do) -> Callback<MouseEvent> {
    Callback::from(move |_| {
        if address::is_choice() {
            address::back();
        } else {
            act.now(Action::Choose(None));
        }
    })
}

/// Outputs that stand alike: what is said of the first holds for each.
fn on_outputs(answered: &Answered, outputs: &[&Output]) -> Html {
    let of = &answered.request.rig;
    let Some(output) = outputs.first() else {
        return Html::default();
    };
    html! {
        <div class="on-output">
            <p class="chosen-load">
                { big(output.load) }
                { verdict(output.verdict) }
            </p>
            <p class="because">
                { tied(&say::alone(&judged::reason(output.load, limit(of, output)))) }

            </p>
            <p class="network network-large">
                { for outputs.iter().map(|output| html! {
                    <span>{ output.network.to_string() }</span>
                }) }
            </p>
            <p class="hints">{ rows::READ }</p>
            <dl class="figures">
                if let Some(given) = &output.available {
                    <div>
                        <dt>{ rows::AVAILABLE }</dt>
                        <dd>{ judged::available(given) }</dd>
                        <dd class="hints">{ judged::basis(given.basis) }</dd>
                    </div>
                }
                if let Some(usable) = output.usable_watts {
                    <div><dt>{ rows::USABLE }</dt><dd>{ watts(usable) }</dd></div>
                }
                if let Some(target) = output.target_watts {
                    <div class="figure-main"><dt>{ rows::TARGET }</dt><dd>{ watts(target) }</dd></div>
                }
                <div><dt>{ rows::RUNS }</dt><dd>{ output.network.runs().to_string() }</dd></div>
            </dl>
            if output.target_watts.is_none() && output.verdict < Verdict::BelowStated {
                <p class="hints">
                    { say::alone(judged::no_target(output.usable_watts.is_some(), output.available.is_some())) }
                </p>
            }
            { heat(output) }
        </div>
    }
}

/// What two channels must have alike before they may work on one driver or one bridge.
fn same_signal(one: &Configuration) -> Html {
    let bridged = one.outputs.iter().any(|output| output.way == Some(Way::Bridged));
    html! {
        <>
            if let Some(driver) = one.split_driver {
                <p class="note note-wrong">{ ways::split(driver) }</p>
            }
            if bridged {
                <p class="hints">{ ways::SAME_SIGNAL }</p>
            }
        </>
    }
}

/// What the load is compared with.
fn limit(of: &Rig, output: &Output) -> Limit {
    let figures = of.amplifier().and_then(|one| outputs::figures(one, &output.channels));
    Limit::of(figures.as_ref())
}

fn heat(output: &Output) -> Html {
    let (Some(heat), Some(given), Some(usable)) =
        (output.overheats, &output.available, output.usable_watts)
    else {
        return Html::default();
    };
    let class = match heat {
        Overheats::Cannot => "heat",
        Overheats::IfClipped => "heat heat-clipped",
        Overheats::AnyTime => "heat heat-any",
    };
    html! {
        <p {class}>
            <b>{ say::alone(&say::amplifier_that(judged::overheats(heat))) }</b>{ " " }
            { tied(&say::alone(&judged::overheats_because(heat, given.high, usable))) }
        </p>
    }
}

/// What each driver gets; drivers that get the same stand in one row.
fn each_driver(answered: &Answered, one: &Configuration) -> Html {
    let of = &answered.request.rig;
    let target = driver_watts(of, one, |output| output.target_watts);
    let given = driver_watts(of, one, |output| output.available.as_ref().map(|given| given.high));
    let over = one.outputs.iter().any(|output| {
        let given = output.available.as_ref().map(|given| given.high);
        given.zip(output.usable_watts).is_some_and(|(given, usable)| given > usable)
    });
    html! {
        <>
            if let Some(target) = &target {
                <p class="target">{ tied(&say::target(target)) }</p>
            }
            if let Some(given) = given.filter(|_| over) {
                <p class="beyond">{ tied(&say::more_than_taken(&given)) }</p>
            }
            if !one.even || of.groups().len() > 1 {
                { shares(one, target.as_deref()) }
            }
        </>
    }
}

fn shares(one: &Configuration, target: Option<&[f64]>) -> Html {
    let mut alike: Vec<(usize, usize, f64)> = Vec::new();
    for (i, share) in one.driver_shares.iter().enumerate() {
        match alike.last_mut() {
            Some((_, last, same)) if say::share(*same) == say::share(*share) => *last = i,
            _ => alike.push((i, i, *share)),
        }
    }
    html! {
        <table class="shares">
            <caption>{ rows::DRIVERS }</caption>
            <thead><tr>
                <th scope="col">{ rows::DRIVER }</th>
                <th scope="col">{ rows::SHARE }</th>
                if target.is_some() {
                    <th scope="col">{ rows::POWER }</th>
                }
            </tr></thead>
            <tbody>
                { for alike.into_iter().map(|(first, last, share)| html! {
                    <tr>
                        <th scope="row">{ say::driver_numbers(first + 1, last + 1) }</th>
                        <td>{ say::share(share) }</td>
                        if let Some(power) = target.and_then(|target| target.get(first)) {
                            <td>{ watts(*power) }</td>
                        }
                    </tr>
                }) }
            </tbody>
        </table>
    }
}

fn caution(one: &Configuration) -> Html {
    let mut all = vec![Caution::PowerOff, Caution::LiveOutputs];
    if one.verdict >= Verdict::BelowStated {
        all.insert(0, Caution::LeastLoad);
    }
    html! {
        <aside class="cautions" aria-label={rows::BEFORE}>
            <h3>{ rows::BEFORE }</h3>
            <ul>
                { for all.into_iter().map(|caution| html! { <li>{ cautions::text(caution) }</li> }) }
            </ul>
        </aside>
    }
}
