//! The strip at the bottom edge of small screens: what is chosen, its load, whether it fits.

use crate::parts::verdict::{verdict, watts};
use crate::pen::{Pen, What};
use crate::rooms::Room;
use crate::state::page::Action;
use crate::words::page::{self as say, wire};
use crate::words::rig as rig_words;
use coilwright_drawing::circuit::thumbnail;

/// The strip.
pub(super) fn strip(pen: &mut Pen) {
    let state = pen.state;
    let (Some(rig), Some(one)) = (state.rig(), state.shown()) else {
        return pen.nothing();
    };
    let mut loads: Vec<String> = Vec::new();
    for output in &one.outputs {
        let load = rig_words::short_load(output.load);
        if !loads.contains(&load) {
            loads.push(load);
        }
    }
    let first = state.answer.chosen.is_none() && state.page.room == Room::List;
    pen.open("aside.strip");
    pen.fixed("aria-label", say::STRIP);
    if first {
        pen.press("strip-look", What::act(Action::Choose(Some(one.key()))));
    } else {
        pen.open("div.strip-look");
    }
    pen.open("span.strip-thumb");
    if let Some(output) = one.outputs.first() {
        pen.drawn(thumbnail(&output.network).svg("thumb", None));
    }
    pen.close();
    pen.open(if loads.len() > 1 { "b.strip-load strip-loads" } else { "b.strip-load" });
    for load in loads {
        pen.line_of("span", load);
    }
    pen.close();
    pen.open("span.strip-text");
    if !state.is_stale() {
        verdict(pen, one.verdict);
        if let Some(watts) = watts(rig, one) {
            pen.line_of("span", watts);
        }
    } else {
        // Of another kind than what it stands for, so that neither moves to the other's place.
        pen.line("small", say::EARLIER_SHORT);
    }
    pen.close();
    pen.close();
    if !first {
        pen.nothing();
    } else if one.verdict.is_low() {
        // What must not be connected is looked at before it is wired.
        pen.button("strip-act", say::LOOK, Action::Choose(Some(one.key())));
    } else {
        pen.button("strip-act", wire::WIRE_IT, Action::Wire(one.key()));
    }
    pen.close();
}
