//! The strip at the bottom edge of small screens: what is chosen, its load, whether it fits.

use super::Sheet;
use super::entry::{verdict, watts};
use super::tag::{Tag, button, el, fixed, line, nothing, told};
use super::words::page as say;
use super::words::rig;
use crate::state::{Action, Room};
use yew::prelude::*;

/// The strip.
pub fn strip(Sheet { state, act }: Sheet) -> Html {
    let (Some(answered), Some(one)) = (state.answered.as_deref(), state.shown()) else {
        return nothing();
    };
    let mut loads = Vec::new();
    let mut told_loads: Vec<String> = Vec::new();
    for output in &one.outputs {
        let load = rig::short_load(output.load);
        if !told_loads.contains(&load) {
            loads.push(told("span", "", load.clone()));
            told_loads.push(load);
        }
    }
    let mut kids = Vec::new();
    if !state.is_stale() {
        kids.push(verdict(one.verdict));
        if let Some(watts) = watts(&answered.request.rig, one) {
            kids.push(told("span", "", watts));
        }
    } else {
        kids.push(line("span", "", say::EARLIER_SHORT));
    }
    let look = if state.chosen.is_none() && state.room == Room::List {
        button(act, "strip-act", say::LOOK, Action::Choose(Some(one.key())))
    } else {
        nothing()
    };
    let class = if loads.len() > 1 { "strip-load strip-loads" } else { "strip-load" };
    Tag::new("aside")
        .with(&["class", "aria-label"], vec![fixed("strip"), fixed(say::STRIP)])
        .kids(vec![el("b", class, loads), el("span", "strip-text", kids), look])
}
