//! How the box is built, read from the form.

use super::Reader;
use crate::question::form::{BuildForm, Place};
use crate::question::trouble::{Trouble, What};
use coilwright_solver::problem::Problem;
use coilwright_solver::rig::{Build, BuildDraft, Cups, Fed, JoinedAt, Rig, TakesDraft};

/// Reads the box; what goes with the rig is only known beside it.
pub(super) fn read(form: &BuildForm, rig: Option<&Rig>) -> (Option<Build>, Vec<Trouble>) {
    let mut reader = Reader::default();
    let cups = Cups::named(&form.cups).unwrap_or_default();
    let mut draft = BuildDraft {
        cups,
        joined_at: JoinedAt::named(&form.joined_at),
        fed: Fed::named(&form.fed).unwrap_or_default(),
        mounted_reversed: form.reversed.clone(),
        not_in_vehicle: form.not_in_vehicle,
        conductor_mm2: reader.number(Place::Area, &form.area),
        ..BuildDraft::default()
    };
    // The field is only there for groups; what was typed before is kept, not read.
    if matches!(cups, Cups::Group(_)) {
        draft.cup_count = reader.whole(Place::CupCount, &form.cup_count);
    }
    if let Some(rig) = rig {
        draft.mounted_reversed.retain(|driver| *driver <= rig.drivers());
    }
    for (i, raw) in form.metres.iter().enumerate() {
        if let Some(metres) = draft.metres.get_mut(i) {
            *metres = reader.number(Place::Metres(i), raw);
        }
    }
    for (i, takes) in form.takes.iter().enumerate() {
        if let Some(slot) = draft.takes.get_mut(i) {
            *slot = TakesDraft {
                // A tab takes one; what was typed before it was one is kept, not read.
                conductors: if takes.push_on {
                    None
                } else {
                    reader.whole(Place::Conductors(i), &takes.conductors)
                },
                push_on: takes.push_on,
                largest_mm2: reader.number(Place::Largest(i), &takes.largest),
            };
        }
    }
    let Reader { mut problems, commas } = reader;
    let build = rig.and_then(|rig| match draft.check(rig) {
        Ok(build) => Some(build),
        Err(found) => {
            problems.extend(found);
            None
        }
    });
    let build = build.filter(|_| problems.is_empty());
    let trouble = |problem: Problem| {
        let path = problem.path.to_string();
        let what =
            if commas.contains(&path) { What::CommaOrThousands } else { What::Problem(problem) };
        Trouble { path, what }
    };
    (build, problems.into_iter().map(trouble).collect())
}
