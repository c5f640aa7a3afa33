//! The strip at the bottom edge of small screens: what is chosen, its load, whether it fits.

use crate::parts::verdict::{verdict, watts};
use crate::pen::Pen;
use crate::rooms::Room;
use crate::state::page::Action;
use crate::words::page as say;
use crate::words::rig as rig_words;

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
    pen.open("aside.strip");
    pen.fixed("aria-label", say::STRIP);
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
    if state.answer.chosen.is_none() && state.page.room == Room::List {
        pen.button("strip-act", say::LOOK, Action::Choose(Some(one.key())));
    } else {
        pen.nothing();
    }
    pen.close();
}
