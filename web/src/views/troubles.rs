//! What stands in the way, and what was removed.

use super::Sheet;
use super::act::button;
use super::blank::{id_of, message};
use super::words::page as say;
use crate::browser::go_to;
use crate::state::read::Trouble;
use crate::state::{Action, Removed, State};
use yew::prelude::*;

/// What is wrong with a list as a whole, beside it.
pub fn at_path(state: &State, path: &str) -> Html {
    let wrong =
        state.read.troubles.iter().filter(|trouble| trouble.path == path && !trouble.is_missing());
    wrong
        .map(|trouble| {
            html! { <p class="trouble" id={id_of(path)} tabindex="-1">{ message(trouble) }</p> }
        })
        .collect()
}

/// Everything in the way of an answer, each a tap from its field.
pub fn list(state: &State) -> Html {
    let (missing, wrong): (Vec<&Trouble>, Vec<&Trouble>) =
        state.read.troubles.iter().partition(|trouble| trouble.is_missing());
    let part = |title: &'static str, class: &'static str, troubles: Vec<&Trouble>| {
        html! {
            if !troubles.is_empty() {
                <div {class}>
                    <h3>{ title }</h3>
                    <ul>
                        { for troubles.into_iter().map(|trouble| {
                            let id = id_of(&trouble.path);
                            html! {
                                <li>
                                    <button type="button" class="to-field"
                                        onclick={move |_: MouseEvent| go_to(&id)}>
                                        { message(trouble) }
                                    </button>
                                </li>
                            }
                        }) }
                    </ul>
                </div>
            }
        }
    };
    html! {
        <>
            { part(say::PUT_RIGHT, "troubles troubles-wrong", wrong) }
            { part(say::STILL_NEEDED, "troubles troubles-missing", missing) }
        </>
    }
}

/// What was removed last, with the way to put it back.
pub fn removed(sheet: Sheet) -> Html {
    let Some(removed) = &sheet.state.removed else {
        return Html::default();
    };
    let what = match removed {
        Removed::Group(..) => say::Removed::Drivers,
        Removed::Amplifier(_) => say::Removed::Amplifier,
        Removed::Bridge(..) => say::Removed::Bridge,
        Removed::Point(..) => say::Removed::Point,
    };
    html! {
        <div class="removed" role="status">
            <p>{ say::removed(what) }</p>
            { button(sheet.act, "quiet", say::PUT_BACK, Action::PutBack) }
        </div>
    }
}
