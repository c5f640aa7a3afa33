//! The list as a ladder: a rung for each load, the entries of that load on it.

use super::Shown;
use super::act::button;
use super::entry::Entry;
use super::words::{page as say, rig};
use crate::app::Do;
use crate::state::Action;
use crate::state::list::{self, Order, PAGE, Rung};
use coilwright_solver::judge::Verdict;
use coilwright_solver::ohms::Ohms;
use coilwright_solver::rig::Rig;
use yew::prelude::*;

/// What the ladder shows.
#[derive(Debug, PartialEq, Properties)]
pub struct LadderProps {
    /// The way to act.
    pub act: Do,
    /// The answer.
    pub shown: Shown,
    /// Its order.
    pub order: Order,
    /// The page of it.
    pub page: usize,
    /// The rank of the chosen entry.
    pub chosen: Option<u32>,
}

/// One page of the list.
#[component]
pub fn Ladder(props: &LadderProps) -> Html {
    let all = use_memo((props.shown.clone(), props.order), |(shown, order)| {
        list::rungs(shown.0.shown(), *order)
    });
    let entries = props.shown.0.shown().configurations.len();
    let page = props.page.min(list::pages(entries) - 1);
    let rungs = list::page(&all, page);
    let line = match props.order {
        Order::Load => list::least_line(&rungs),
        Order::Best => None,
    };
    html! {
        <>
            <ol class="ladder">
                { for rungs.iter().enumerate().map(|(i, rung)| html! {
                    <>
                        if line == Some(i) {
                            <li class="least"><span>{ least(&props.shown.0.request.rig) }</span></li>
                        }
                        { one(props, rung) }
                    </>
                }) }
            </ol>
            { pager(&props.act, page, entries) }
        </>
    }
}

fn one(props: &LadderProps, rung: &Rung) -> Html {
    let class = match (rung.verdict, rung.even) {
        (Verdict::TooLow | Verdict::BelowStated, true) => "rung rung-low",
        (Verdict::TooLow | Verdict::BelowStated, false) => "rung rung-low rung-uneven",
        (_, true) => "rung",
        (_, false) => "rung rung-uneven",
    };
    let text: Vec<String> = rung.loads.iter().map(|load| rig::load(*load)).collect();
    let name = say::rung(&text.join(&format!(" {} ", say::AND)), rung.entries.len());
    html! {
        <li key={text.join(";")} {class}>
            <h3 class="rung-load" aria-label={name}>
                { for rung.loads.iter().map(|load| big(*load)) }
            </h3>
            <ol class="entries">
                { for rung.entries.iter().map(|at| html! {
                    <li key={*at}>
                        <Entry act={props.act.clone()} shown={props.shown.clone()} at={*at}
                            chosen={is_chosen(props, *at)} />
                    </li>
                }) }
            </ol>
        </li>
    }
}

fn is_chosen(props: &LadderProps, at: usize) -> bool {
    let entry = props.shown.0.shown().configurations.get(at);
    entry.is_some_and(|entry| Some(entry.rank) == props.chosen)
}

/// A load in large type.
pub fn big(load: Ohms) -> Html {
    let (exact, near) = say::load_lines(load);
    let class = match exact.chars().count() {
        0..=5 => "ohms",
        6..=8 => "ohms ohms-long",
        _ => "ohms ohms-longest",
    };
    html! {
        <span {class}>
            <b>{ exact }</b>
            if let Some(near) = near {
                <small>{ near }</small>
            }
        </span>
    }
}

/// What the line between rungs stands for: one least load where all channels share it.
fn least(of: &Rig) -> String {
    let Some(amplifier) = of.amplifier().filter(|amplifier| amplifier.bridges.is_empty()) else {
        return say::TOO_LOW_LINE.into();
    };
    let mut channels = amplifier.channels.iter();
    let Some(first) = channels.next() else {
        return say::TOO_LOW_LINE.into();
    };
    match first.least {
        Some(least) if channels.all(|channel| channel.least == Some(least)) => {
            say::least_line(&rig::load(least))
        }
        None if channels.all(|channel| channel.least.is_none()) => say::BELOW_STATED_LINE.into(),
        _ => say::TOO_LOW_LINE.into(),
    }
}

fn pager(act: &Do, page: usize, entries: usize) -> Html {
    let pages = list::pages(entries);
    if pages < 2 {
        return Html::default();
    }
    let last = ((page + 1) * PAGE).min(entries);
    html! {
        <nav class="pager" aria-label={say::PAGES}>
            if page > 0 {
                { button(act, "quiet", say::EARLIER_PAGE, Action::Page(page - 1)) }
            }
            <span>{ say::range(page * PAGE + 1, last, entries) }</span>
            if page + 1 < pages {
                { button(act, "quiet", say::LATER_PAGE, Action::Page(page + 1)) }
            }
        </nav>
    }
}
