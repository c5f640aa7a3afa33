//! The code on paper: the rig with what was read, as far as a phone in the hand can read it.
//!
//! What people wrote at the head of the sheet is never in it. Where it would be too fine, it
//! does without what drivers are called and what was said against the meter, then without the
//! readings, and last without the box.

use crate::host;
use crate::job::work::Work;
use crate::link::{self, Saved};
use crate::pen::Pen;
use crate::rooms::Room;
use crate::state::State;
use crate::words::page::sheet as say;
use coilwright_drawing::code::code as drawn;
use coilwright_drawing::scene::Scene;

/// How wide it is printed, in millimetres, on one page and on the page of many drivers:
/// print.css has the same.
pub const PRINTED: [i32; 2] = [40, 50];
/// The least width of a module on paper, in tenths of a millimetre (common practice, no
/// source: a phone at reading distance).
pub const LEAST: i32 = 4;
/// Units of a module in the drawing of a code.
pub const UNITS: i32 = 2;

/// What is left in a code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// All of it.
    All,
    /// What was read, but no names.
    Readings,
    /// The rig and how it is wired.
    Plan,
    /// Drivers, amplifier and configuration.
    Rig,
}

impl Holds {
    /// From the most to the least.
    pub const ALL: [Self; 4] = [Self::All, Self::Readings, Self::Plan, Self::Rig];
}

/// What a code holds, as a link.
#[must_use]
pub fn link(state: &State, holds: Holds) -> String {
    let mut form = state.question.form.clone();
    let mut work = state.job.work_to_keep();
    if holds != Holds::All {
        for group in &mut form.groups {
            group.name.clear();
        }
        work.against = Default::default();
    }
    if matches!(holds, Holds::Plan | Holds::Rig) {
        work = Work::default();
    }
    if holds == Holds::Rig {
        form.build = Default::default();
    }
    let key = state.shown().map(|one| one.key());
    link::write(&Saved { key, work, room: Room::Wire, ..Saved::of(form) })
}

/// The first code whose modules are wide enough where it is printed so wide; `None` where
/// none is.
#[must_use]
pub fn of(
    state: &State,
    whole: impl Fn(&str) -> String,
    printed: i32,
) -> Option<(Holds, Scene)> {
    Holds::ALL.into_iter().find_map(|holds| {
        let scene = drawn(&whole(&link(state, holds)))?;
        (scene.width / UNITS * LEAST <= printed * 10).then_some((holds, scene))
    })
}

/// The code, and what it holds; without one the link to be typed.
pub fn show(pen: &mut Pen, few: bool) {
    let state = pen.state;
    let printed = if few { PRINTED[0] } else { PRINTED[1] };
    pen.open("section.paper-link");
    let whole = |link: &str| host::whole(pen.host(), link);
    // A code of half an address leads nowhere.
    let code = pen.host().page().and_then(|_| of(state, whole, printed));
    match code {
        Some((holds, scene)) => {
            pen.drawn(scene.svg("code", Some(say::LINK)));
            let read = !state.job.work.read.is_empty();
            pen.line(
                "p.paper-small",
                match holds {
                    Holds::All | Holds::Readings if read => say::WITH_READINGS,
                    Holds::Plan if read => say::WITHOUT_READINGS,
                    Holds::Rig => say::WITHOUT_BOX,
                    _ => say::WITH_PLAN,
                },
            );
        }
        None => {
            pen.nothing();
            pen.line_of("p.paper-address", host::whole(pen.host(), &link(state, Holds::All)));
        }
    }
    pen.close();
}
