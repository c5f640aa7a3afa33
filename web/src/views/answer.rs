//! The answer: how many there are, the filters, what stands in the way, the list.

use super::act::{button, tick};
use super::ladder::Ladder;
use super::words::{counts, page as say, problems};
use super::{Same, Sheet, troubles};
use crate::app::Do;
use crate::state::asking::Answered;
use crate::state::list::Order;
use crate::state::read::Trouble;
use crate::state::{Action, Asking, State};
use coilwright_solver::judge::Verdict;
use yew::prelude::*;

/// The answer.
pub fn answer(sheet: Sheet) -> Html {
    let Sheet { state, act } = sheet;
    let shown = state.answered.as_deref();
    let entries = shown.map_or(0, |answered| answered.shown().configurations.len());
    let order = Order::in_use(state.order, entries);
    let (joined_only, even_only) = (state.form.joined_only, state.form.even_only);
    let stale = shown.is_some() && !state.is_current();
    html! {
        <>
            <div class="head">
                <h2 id="answer" class="tab" tabindex="-1">{ say::LIST }</h2>
                if let Some(answered) = shown {
                    { count(answered) }
                }
                <fieldset class="filters">
                    <legend>{ say::FILTERS }</legend>
                    { tick(act, say::JOINED_ONLY, say::JOINED_ONLY_MEANS, joined_only,
                        Action::JoinedOnly(!joined_only)) }
                    { tick(act, say::EVEN_ONLY, say::EVEN_ONLY_MEANS, even_only,
                        Action::EvenOnly(!even_only)) }
                </fieldset>
            </div>
            <p class="unseen" role="status" aria-live="polite">{ spoken(state) }</p>
            { progress(sheet) }
            { troubles::list(state) }
            if stale && !matches!(state.asking, Asking::Working(_)) {
                <p class="note note-stale">{ say::EARLIER }</p>
            }
            if let Some(answered) = &state.answered {
                <div class={if stale { "answer answer-stale" } else { "answer" }}>
                    { notes(answered) }
                    if entries > 1 {
                        { orders(act, order) }
                    }
                    { listed(answered) }
                    <Ladder act={act.clone()} shown={Same(answered.clone())} {order} page={state.page}
                        chosen={state.chosen().map(|one| one.rank)} />
                </div>
            } else if state.read.troubles.iter().all(Trouble::is_missing) && state.read.request.is_none() {
                <p class="note">{ say::EMPTY }</p>
            }
        </>
    }
}

fn count(answered: &Answered) -> Html {
    let answer = &answered.answer;
    let Some(total) = answer.total else {
        return Html::default();
    };
    html! {
        <p class="count">
            <b>{ say::count(total, answer.before_filters) }</b>
            { " " }{ say::count_of(answer.loads.len()) }
        </p>
    }
}

/// What is read out when it changes: the count, or that it is being worked on.
fn spoken(state: &State) -> String {
    if matches!(state.asking, Asking::Working(_)) {
        return counts::listing(0, 0);
    }
    let Some(answered) = state.answered.as_deref().filter(|_| state.is_current()) else {
        return String::new();
    };
    match answered.answer.total {
        Some(total) => format!(
            "{} {}",
            say::count(total, answered.answer.before_filters),
            say::count_of(answered.answer.loads.len())
        ),
        None => String::new(),
    }
}

fn progress(Sheet { state, act }: Sheet) -> Html {
    match state.asking {
        Asking::Idle => Html::default(),
        Asking::Working(progress) => html! {
            <div class="work">
                <p>{ counts::listing(progress.done, progress.of) }</p>
                <progress max={progress.of.max(1).to_string()} value={progress.done.to_string()}
                    aria-label={counts::listing(0, 0)}></progress>
                { button(act, "quiet", say::STOP, Action::Stop) }
            </div>
        },
        Asking::Stopped => html! {
            <div class="note" role="status">
                <p>{ say::STOPPED }</p>
                { button(act, "quiet", say::GO_ON, Action::GoOn) }
            </div>
        },
        Asking::Waiting => html! {
            <div class="note" role="alert">
                <p>{ say::WAITING }</p>
                { button(act, "quiet", say::TRY_AGAIN, Action::GoOn) }
            </div>
        },
    }
}

/// What the figures on the entries are, and how many entries there are of how many.
fn listed(answered: &Answered) -> Html {
    let shown = answered.shown();
    let power = shown
        .configurations
        .iter()
        .any(|one| one.outputs.iter().any(|output| output.target_watts.is_some()));
    let entries = u64::try_from(shown.configurations.len()).unwrap_or(u64::MAX);
    let first = shown.total.and_then(|total| counts::shown(entries, total));
    html! {
        <p class="hints">
            if power {
                { say::LEVEL_SET }{ " " }
            }
            if let Some(first) = first {
                { say::alone(&first) }
            }
        </p>
    }
}

fn notes(answered: &Answered) -> Html {
    let rig = &answered.request.rig;
    let shown = answered.shown();
    let fits = |verdict| matches!(verdict, Verdict::Fits | Verdict::FitsByDerivation);
    let judged = shown.configurations.iter().any(|one| one.verdict != Verdict::NotStated);
    let none_fits = judged && !shown.configurations.iter().any(|one| fits(one.verdict));
    let in_the_way = answered
        .answer
        .problems
        .iter()
        .chain(answered.uneven.iter().flat_map(|uneven| uneven.problems.iter()));
    html! {
        <>
            { for in_the_way.map(|problem| html! {
                <p class="note note-wrong">{ problems::message(problem) }</p>
            }) }
            if answered.uneven.is_some() {
                <p class="note">{ say::UNEVEN_SHOWN }</p>
            }
            if none_fits {
                <p class="note note-wrong">{ counts::NONE_FITS }</p>
            }
            if !rig.every_rating_known() {
                <p class="note">{ counts::RATED_ALIKE }</p>
            }
        </>
    }
}

/// The order of the list.
fn orders(act: &Do, order: Order) -> Html {
    let choice = |this: Order, text: &'static str| {
        html! {
            <label class="seg">
                <input type="radio" name="order" checked={order == this}
                    onchange={act.on(Action::Order(this))} />
                <span>{ text }</span>
            </label>
        }
    };
    html! {
        <fieldset class="orders">
            <legend>{ say::ORDER }</legend>
            { choice(Order::Load, say::BY_LOAD) }
            { choice(Order::Best, say::BEST_FIRST) }
        </fieldset>
    }
}
