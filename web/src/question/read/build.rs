//! How the box is built, read from the form.

use super::Reader;
use crate::question::fields::{BuildForm, Built, Takes};
use crate::question::place::Place;
use crate::question::trouble::{Trouble, What};
use coilwright_solver::bounds::Field;
use coilwright_solver::problem::Problem;
use coilwright_solver::rig::{Build, BuildDraft, Cups, Rig};

/// Reads the box; what goes with the rig is only known beside it.
pub(super) fn read(form: &BuildForm, rig: Option<&Rig>) -> (Option<Build>, Vec<Trouble>) {
    let mut reader = Reader::default();
    let mut draft = BuildDraft {
        mounted_reversed: form.reversed.clone(),
        not_in_vehicle: form.not_in_vehicle,
        ..BuildDraft::default()
    };
    // The field is only there for groups; what was typed before is kept, not read.
    let groups = matches!(Cups::named(&form.cups), Some(Cups::Group(_)));
    let is_asked = |field| field != Field::CupCount || groups;
    reader.part(form, Built::ALL, Place::Box, is_asked, &mut draft);
    if let Some(rig) = rig {
        draft.mounted_reversed.retain(|driver| *driver <= rig.drivers());
    }
    for (i, (takes, into)) in form.takes.iter().zip(&mut draft.takes).enumerate() {
        // A tab takes one; what was typed before it was one is kept, not read.
        let is_asked = |field| field != Field::Conductors || !takes.push_on;
        reader.part(takes, Takes::ALL, |row| Place::Takes(i, row), is_asked, into);
        into.push_on = takes.push_on;
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
