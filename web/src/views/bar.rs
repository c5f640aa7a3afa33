//! The bar on top, and notices under it.

use crate::app::use_do;
use crate::browser::go_to;
use crate::state::form::Form;
use crate::state::link::LeftOut;
use crate::state::{Action, Notice, State};
use crate::views::words::page as say;
use yew::prelude::*;

/// The bar and the notices.
pub fn bar(state: &State) -> Html {
    html! {
        <>
            <header class="bar">
                <button type="button" class="skip" onclick={|_: MouseEvent| go_to("answer")}>
                    { say::SKIP }
                </button>
                <h1 class="mark" translate="no">
                    { coil() }<span>{ "coil" }<b>{ "wright" }</b></span>
                </h1>
                <Starts
                    example={!state.is_example()}
                    empty={state.form != Form::default()}
                    previous={state.previous.is_some()}
                />
            </header>
            { for state.notices.iter().enumerate().map(|(at, notice)| html! {
                <Told {at} text={text(notice)} />
            }) }
        </>
    }
}

/// A coil of four turns: the page's mark.
fn coil() -> Html {
    html! {
        <svg class="mark-coil" viewBox="0 0 44 24" width="44" height="24" aria-hidden="true">
            <path fill="none" stroke="currentColor" stroke-width="2.5" stroke-linecap="round"
                d="M2 12h5c0-13 9-13 9 0 0 10-5 10-5 0 0-13 10-13 10 0 0 10-5 10-5 0 0-13 10-13 10 0 0 10-5 10-5 0 0-13 10-13 10 0h7" />
        </svg>
    }
}

#[derive(Debug, PartialEq, Properties)]
struct StartsProps {
    example: bool,
    empty: bool,
    previous: bool,
}

/// Where to begin.
#[component]
fn Starts(props: &StartsProps) -> Html {
    let Some(act) = use_do() else {
        return Html::default();
    };
    let button = |shown: bool, text: &'static str, action: Action| {
        let onclick = act.on(move || action.clone());
        html! {
            if shown {
                <button type="button" class="quiet" {onclick}>{ text }</button>
            }
        }
    };
    html! {
        <div class="bar-starts">
            { button(props.previous, say::PREVIOUS, Action::Previous) }
            { button(props.example, say::SHOW_EXAMPLE, Action::ShowExample) }
            { button(props.empty, say::START_EMPTY, Action::StartEmpty) }
        </div>
    }
}

fn text(notice: &Notice) -> AttrValue {
    match notice {
        Notice::NotKept => say::NOT_KEPT.into(),
        Notice::KeyUnknown => say::KEY_UNKNOWN.into(),
        Notice::LeftOut(parts) => {
            let parts: Vec<String> = parts
                .iter()
                .map(|part| match part {
                    LeftOut::Version(version) => say::link_version(version),
                    LeftOut::Unknown(name) => say::link_unknown(name),
                    LeftOut::Impossible(name) => say::link_impossible(name),
                    LeftOut::TooMany(name) => say::link_too_many(name),
                })
                .collect();
            say::link_left_out(&parts).into()
        }
    }
}

#[derive(Debug, PartialEq, Properties)]
struct ToldProps {
    at: usize,
    text: AttrValue,
}

/// A notice with its way out.
#[component]
fn Told(props: &ToldProps) -> Html {
    let Some(act) = use_do() else {
        return Html::default();
    };
    let at = props.at;
    html! {
        <div class="notice" role="status">
            <p>{ &props.text }</p>
            <button type="button" class="quiet" onclick={act.on(move || Action::Dismiss(at))}>
                { say::DISMISS }
            </button>
        </div>
    }
}
