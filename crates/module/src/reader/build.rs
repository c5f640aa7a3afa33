//! How the box is built.

use super::{Here, Reader};
use coilwright_solver::bounds::Field;
use coilwright_solver::rig::{BuildDraft, Cups, Fed, JoinedAt, TakesDraft};

impl Reader {
    /// The box; what is left out is as usual.
    pub(super) fn build(&mut self, here: &Here<'_>) -> BuildDraft {
        let Some(here) = &self.inner(here, Field::Build) else {
            return BuildDraft::default();
        };
        let draft = BuildDraft {
            cups: self.word(here, Field::Cups).and_then(Cups::named).unwrap_or_default(),
            cup_count: self.whole(here, Field::CupCount),
            joined_at: self.word(here, Field::JoinedAt).and_then(JoinedAt::named),
            fed: self.word(here, Field::Fed).and_then(Fed::named).unwrap_or_default(),
            mounted_reversed: self.different(here, Field::MountedReversed),
            not_in_vehicle: self.boolean(here, Field::Vehicle) == Some(false),
            conductor_mm2: self.number(here, Field::ConductorArea),
            metres: [
                Field::BetweenCoils,
                Field::BetweenDrivers,
                Field::ToCup,
                Field::BetweenCups,
                Field::ToAmplifier,
            ]
            .map(|field| self.number(here, field)),
            takes: [Field::DriverTerminals, Field::CupTerminals, Field::AmplifierTerminals]
                .map(|field| self.takes(here, field)),
        };
        self.unknown(here);
        draft
    }

    fn takes(&mut self, here: &Here<'_>, field: Field) -> TakesDraft {
        let Some(here) = self.inner(here, field) else { return TakesDraft::default() };
        let draft = TakesDraft {
            conductors: self.whole(&here, Field::Conductors),
            push_on: self.boolean(&here, Field::PushOn) == Some(true),
            largest_mm2: self.number(&here, Field::LargestArea),
        };
        self.unknown(&here);
        draft
    }
}

#[cfg(test)]
#[path = "build_tests.rs"]
mod tests;
