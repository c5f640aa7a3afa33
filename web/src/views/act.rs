//! Buttons and boxes that do one thing each.

use crate::app::use_do;
use crate::state::Action;
use yew::prelude::*;

/// What a button shows and does.
#[derive(Debug, PartialEq, Properties)]
pub struct ActProps {
    /// How it looks.
    pub class: &'static str,
    /// What it says.
    pub text: &'static str,
    /// What it is called, where its text says too little.
    #[prop_or_default]
    pub name: Option<AttrValue>,
    /// What it does.
    pub action: Action,
}

/// A button that does one thing.
#[component]
pub fn Act(props: &ActProps) -> Html {
    let Some(act) = use_do() else {
        return Html::default();
    };
    let action = props.action.clone();
    html! {
        <button type="button" class={props.class} aria-label={props.name.clone()}
            onclick={act.on(move || action.clone())}>
            { props.text }
        </button>
    }
}

/// What a box to tick shows and does.
#[derive(Debug, PartialEq, Properties)]
pub struct TickProps {
    /// What it says.
    pub text: &'static str,
    /// What that means.
    #[prop_or_default]
    pub means: &'static str,
    /// Whether it is ticked.
    pub on: bool,
    /// What ticking or clearing it does.
    pub action: Action,
}

/// A box to tick.
#[component]
pub fn Tick(props: &TickProps) -> Html {
    let Some(act) = use_do() else {
        return Html::default();
    };
    let action = props.action.clone();
    let onchange = act.on(move || action.clone());
    html! {
        <label class="tick">
            <input type="checkbox" checked={props.on} {onchange} />
            <span>
                <b>{ props.text }</b>
                if !props.means.is_empty() {
                    <small>{ props.means }</small>
                }
            </span>
        </label>
    }
}
