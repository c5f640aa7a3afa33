//! Plans that tests hold a meter to.

use super::{Job, Place, Point, Read, Reading, last_check};
use crate::answer::{Configuration, one};
use crate::bounds::Field;
use crate::rig::{Build, BuildDraft, Cups, Draft, GroupDraft, Rig};
use crate::wiring::Plan;

/// A plan, with what it is of.
pub(super) struct Tried {
    pub(super) rig: Rig,
    build: Build,
    configuration: Configuration,
    pub(super) plan: Plan,
}

impl Tried {
    /// So many drivers of so many coils of so many ohms.
    pub(super) fn of(count: u32, coils: u32, ohms: &str, key: &str, cups: Cups) -> Self {
        let group = GroupDraft {
            count: Some(count),
            coils: Some(coils),
            ohms: Field::CoilOhms.ohms_text(ohms).ok(),
            ..GroupDraft::default()
        };
        Self::of_group(group, key, cups)
    }

    pub(super) fn of_group(group: GroupDraft, key: &str, cups: Cups) -> Self {
        let rig = Draft { groups: vec![group], amplifier: None }.check(Vec::new()).unwrap();
        let build = BuildDraft { cups, ..BuildDraft::default() }.check(&rig).unwrap();
        let configuration = one(&rig, key).unwrap();
        let plan = Plan::of(&rig, &build, &configuration).unwrap();
        Self { rig, build, configuration, plan }
    }

    pub(super) fn job(&self) -> Job<'_> {
        let Self { rig, build, configuration, plan } = self;
        Job { rig, build, configuration, plan }
    }

    /// The last reading of the plan.
    pub(super) fn last(&self) -> Point {
        Point { act: last_check(&self.plan).unwrap(), place: Place::Step }
    }

    /// What the probes read touching.
    pub(super) fn leads(&self) -> Point {
        super::points::touching(&self.plan).unwrap()
    }
}

/// A reading in tenths.
pub(super) fn read(point: Point, ohms: f64) -> Read {
    Read { point, reading: Reading::Ohms { ohms, count: 0.1 } }
}
