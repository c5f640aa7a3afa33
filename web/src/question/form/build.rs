//! How the box is built, as typed.

use super::Place;
use crate::question::text;
use coilwright_solver::bounds::{Default as Usual, Field};
use coilwright_solver::rig::{Cups, DISTANCES, Fed};

/// How the box is built, as typed. What is left empty is as usual.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BuildForm {
    /// What has a cup of its own, by its name in the contract.
    pub cups: String,
    /// How many cups there are, where drivers go to them in groups.
    pub cup_count: String,
    /// Where separate cups are joined; empty: where it can be.
    pub joined_at: String,
    /// How drivers are fed.
    pub fed: String,
    /// Drivers mounted facing in, counted from 1, rising.
    pub reversed: Vec<u32>,
    /// Whether no vehicle's battery feeds the amplifier.
    pub not_in_vehicle: bool,
    /// Area of a conductor.
    pub area: String,
    /// The distances.
    pub metres: [String; 5],
    /// What terminals take: of a driver, of a cup, of the amplifier.
    pub takes: [TakesForm; 3],
}

/// What a terminal takes, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TakesForm {
    /// Conductors.
    pub conductors: String,
    /// Whether it is a push-on tab.
    pub push_on: bool,
    /// The largest conductor.
    pub largest: String,
}

impl Default for BuildForm {
    fn default() -> Self {
        Self {
            cups: Cups::None.name().into(),
            cup_count: String::new(),
            joined_at: String::new(),
            fed: Fed::Chain.name().into(),
            reversed: Vec::new(),
            not_in_vehicle: false,
            area: usual(Field::ConductorArea),
            metres: DISTANCES.map(usual),
            takes: Default::default(),
        }
    }
}

/// What a field of numbers has where nothing is stated, as one would type it.
fn usual(field: Field) -> String {
    let Usual::Hundredths(n) = field.spec().default else { return String::new() };
    text::decimal(f64::from(n) / 100.0)
}

impl BuildForm {
    /// The text at a place of it.
    pub(super) fn text_mut(&mut self, place: Place) -> Option<&mut String> {
        Some(match place {
            Place::Cups => &mut self.cups,
            Place::CupCount => &mut self.cup_count,
            Place::JoinedAt => &mut self.joined_at,
            Place::Fed => &mut self.fed,
            Place::Area => &mut self.area,
            Place::Metres(i) => return self.metres.get_mut(i),
            Place::Conductors(i) => &mut self.takes.get_mut(i)?.conductors,
            Place::Largest(i) => &mut self.takes.get_mut(i)?.largest,
            _ => return None,
        })
    }

    /// Mounts a driver, counted from 1, facing in, or turns it back.
    pub fn mount(&mut self, driver: u32, reversed: bool) {
        self.reversed.retain(|one| *one != driver);
        if reversed {
            let at = self.reversed.partition_point(|one| *one < driver);
            self.reversed.insert(at, driver);
        }
    }
}
