//! The bar on top, and notices under it.

use crate::browser::go_to;
use crate::state::form::Form;
use crate::state::link::LeftOut;
use crate::state::{Action, Notice};
use crate::views::Sheet;
use crate::views::act::button;
use crate::views::words::page as say;
use yew::prelude::*;

/// The bar and the notices.
pub fn bar(sheet: Sheet) -> Html {
    html! {
        <>
            <header class="bar">
                <button type="button" class="skip" onclick={|_: MouseEvent| go_to("answer")}>
                    { say::SKIP }
                </button>
                <h1 class="mark" translate="no">
                    { coil() }<span>{ "coil" }<b>{ "wright" }</b></span>
                </h1>
                { starts(sheet) }
            </header>
            { for sheet.state.notices.iter().enumerate().map(|(at, notice)| html! {
                <div class="notice" role="status">
                    <p>{ text(notice) }</p>
                    { button(sheet.act, "quiet", say::DISMISS, Action::Dismiss(at)) }
                </div>
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

/// Where to begin.
fn starts(Sheet { state, act }: Sheet) -> Html {
    html! {
        <div class="bar-starts">
            if state.previous.is_some() {
                { button(act, "quiet", say::PREVIOUS, Action::Previous) }
            }
            if !state.is_example() {
                { button(act, "quiet", say::SHOW_EXAMPLE, Action::ShowExample) }
            }
            if state.form != Form::default() {
                { button(act, "quiet", say::START_EMPTY, Action::StartEmpty) }
            }
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
