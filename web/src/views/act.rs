//! Buttons and boxes that do one thing each.

use crate::app::Do;
use crate::state::Action;
use yew::prelude::*;

/// A button.
pub fn button(act: &Do, class: &'static str, text: &'static str, action: Action) -> Html {
    html! {
        <button type="button" {class} onclick={act.on(action)}>{ text }</button>
    }
}

/// A button whose text says too little to who cannot see what is around it.
pub fn named(
    act: &Do,
    class: &'static str,
    text: &'static str,
    name: String,
    action: Action,
) -> Html {
    html! {
        <button type="button" {class} aria-label={name} onclick={act.on(action)}>{ text }</button>
    }
}

/// A box to tick, with what that means.
pub fn tick(act: &Do, text: &'static str, means: &'static str, on: bool, action: Action) -> Html {
    html! {
        <label class="tick">
            <input type="checkbox" checked={on} onchange={act.on(action)} />
            <span>
                <b>{ text }</b>
                if !means.is_empty() {
                    <small>{ means }</small>
                }
            </span>
        </label>
    }
}
