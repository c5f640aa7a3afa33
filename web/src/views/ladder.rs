//! The list as a ladder: a rung for each load, the entries of that load on it.

use super::Shown;
use super::act::button;
use super::entry::Entry;
use super::words::{page as say, rig, ways};
use crate::app::Do;
use crate::state::Action;
use crate::state::list::{self, Order, PAGE, Rung};
use coilwright_solver::answer::{Configuration, Output};
use coilwright_solver::judge::Verdict;
use coilwright_solver::ohms::Ohms;
use coilwright_solver::outputs;
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
    let by_load = props.order == Order::Load;
    let lines = if by_load { list::least_lines(&rungs) } else { Vec::new() };
    let several = by_load && list::ways(props.shown.0.shown()) > 1;
    let begins = |i: usize| {
        let before = i.checked_sub(1).and_then(|before| rungs.get(before));
        before.is_none_or(|before| rungs.get(i).is_some_and(|rung| rung.way != before.way))
    };
    html! {
        <>
            <ol class="ladder">
                { for rungs.iter().enumerate().map(|(i, rung)| html! {
                    <>
                        if several && begins(i) {
                            <li class="way"><h3>{ way(props, rung) }</h3></li>
                        }
                        if lines.contains(&i) {
                            <li class="least"><span>{ least(props, rung) }</span></li>
                        }
                        { one(props, rung, several) }
                    </>
                }) }
            </ol>
            { pager(&props.act, page, entries) }
        </>
    }
}

fn one(props: &LadderProps, rung: &Rung, under_way: bool) -> Html {
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
            <@{if under_way { "h4" } else { "h3" }} class="rung-load" aria-label={name}>
                { for rung.loads.iter().map(|load| big(*load)) }
            </@>
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

fn first<'a>(props: &'a LadderProps, rung: &Rung) -> Option<&'a Configuration> {
    let at = rung.entries.first()?;
    props.shown.0.shown().configurations.get(*at)
}

/// The way that a rung's entries use the amplifier.
fn way(props: &LadderProps, rung: &Rung) -> String {
    let amplifier = props.shown.0.request.rig.amplifier();
    let pair = amplifier.zip(first(props, rung));
    pair.map_or(String::new(), |(amplifier, one)| say::heading(&ways::way(amplifier, &one.outputs)))
}

/// What the line between rungs stands for: one least load where all outputs share it.
fn least(props: &LadderProps, rung: &Rung) -> String {
    let amplifier = props.shown.0.request.rig.amplifier();
    let of_outputs = amplifier.zip(first(props, rung)).map(|(amplifier, one)| {
        let least = |output: &Output| Some(outputs::figures(amplifier, &output.channels)?.least);
        one.outputs.iter().map(least).collect::<Vec<_>>()
    });
    let of_outputs = of_outputs.unwrap_or_default();
    match of_outputs.split_first() {
        Some((Some(Some(least)), rest))
            if rest.iter().all(|other| *other == Some(Some(*least))) =>
        {
            say::least_line(&rig::load(*least))
        }
        Some((Some(None), rest)) if rest.iter().all(|other| *other == Some(None)) => {
            say::BELOW_STATED_LINE.into()
        }
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
