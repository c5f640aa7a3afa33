//! The strip at the bottom edge of small screens: what is chosen, its load, whether it fits.

use super::Sheet;
use super::act::button;
use super::entry::{verdict, watts};
use super::words::page as say;
use super::words::rig;
use crate::state::Action;
use yew::prelude::*;

/// The strip.
pub fn strip(Sheet { state, act }: Sheet) -> Html {
    let Some(answered) = state.answered.as_deref() else {
        return Html::default();
    };
    let chosen = state.chosen();
    let Some(one) = chosen.or_else(|| answered.shown().configurations.first()) else {
        return Html::default();
    };
    let mut loads: Vec<String> = Vec::new();
    for output in &one.outputs {
        let load = rig::short_load(output.load);
        if !loads.contains(&load) {
            loads.push(load);
        }
    }
    html! {
        <aside class="strip" aria-label={say::STRIP}>
            <b class={if loads.len() > 1 { "strip-load strip-loads" } else { "strip-load" }}>
                { for loads.iter().map(|load| html! { <span>{ load }</span> }) }
            </b>
            <span class="strip-text">
                if state.is_current() {
                    { verdict(one.verdict) }
                    if let Some(watts) = watts(answered, one) {
                        <span>{ watts }</span>
                    }
                } else {
                    <span>{ say::EARLIER_SHORT }</span>
                }
            </span>
            if chosen.is_none() {
                { button(act, "strip-act", say::LOOK, Action::Choose(Some(one.key()))) }
            }
        </aside>
    }
}
