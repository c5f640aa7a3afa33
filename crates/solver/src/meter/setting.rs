//! What is placed, held and lifted while a reading is taken.

use super::built::{Built, Wire};
use super::points::{self, Place, Point};
use crate::network::Coil;
use crate::wiring::{Act, Check, Plan, Post, Sign, Stage, Terminal};

/// What is placed, held and lifted while a reading is taken.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Setting {
    placed: Vec<bool>,
    stage: Stage,
    pub(super) held: Option<Check>,
    pub(super) lifted: Option<Place>,
}

fn check_at(plan: &Plan, act: u16) -> Option<Check> {
    match plan.acts.get(usize::from(act)) {
        Some(Act::Check(check)) => Some(*check),
        _ => None,
    }
}

/// The check at whose own reading ends are held together by hand.
pub(super) fn held(plan: &Plan, point: &Point) -> Option<Check> {
    let check = check_at(plan, point.act)?;
    (point.place == Place::Step && check.ends > 1).then_some(check)
}

impl Setting {
    /// What stands when a point is read.
    pub(super) fn of(plan: &Plan, point: &Point) -> Self {
        Self {
            placed: points::placed(plan, point.act),
            stage: check_at(plan, point.act).map_or(Stage::Coils, |check| check.stage),
            held: held(plan, point),
            lifted: match point.place {
                Place::Apart(_)
                | Place::CableOpen(_)
                | Place::CableJoined(_)
                | Place::Lifted(_) => Some(point.place),
                _ => None,
            },
        }
    }

    /// Whether a wire is there.
    pub(super) fn has(&self, built: &Built, wire: &Wire) -> bool {
        if built.other { self.joins(wire) && wire.stage <= self.stage } else { self.places(wire) }
    }

    /// The same of a plan as it is.
    pub(super) fn places(&self, wire: &Wire) -> bool {
        self.joins(wire) && self.placed.get(wire.run) == Some(&true)
    }

    /// Whether what is lifted leaves a wire where it is read.
    fn joins(&self, wire: &Wire) -> bool {
        let of_driver = |terminal: Terminal, driver: u8| matches!(terminal.post, Post::Coil(coil) if coil.driver == driver);
        match self.lifted {
            Some(Place::Apart(driver)) => {
                of_driver(wire.from, driver) || of_driver(wire.to, driver)
            }
            Some(Place::CableOpen(_) | Place::CableJoined(_)) => wire.stage == Stage::Cable,
            _ => true,
        }
    }

    /// Whether a coil can be in what is read.
    pub(super) fn takes(&self, coil: Coil) -> bool {
        match self.lifted {
            Some(Place::Apart(driver)) => coil.driver == driver,
            Some(Place::CableOpen(_) | Place::CableJoined(_)) => false,
            _ => true,
        }
    }

    /// Whether an end of a wire is lifted from its terminal.
    pub(super) fn is_off(&self, wire: &Wire, terminal: Terminal) -> bool {
        match (self.lifted, terminal.post) {
            (Some(Place::Apart(driver)), Post::Coil(on)) => {
                on.driver == driver && wire.stage != Stage::Coils
            }
            (Some(Place::Lifted(coil)), Post::Coil(on)) => {
                on == coil && terminal.sign == Sign::Plus
            }
            (
                Some(Place::CableOpen(_) | Place::CableJoined(_)),
                Post::CupOutside(_) | Post::Coil(_) | Post::CupInside(_) | Post::Splice(_),
            ) => wire.stage == Stage::Cable,
            _ => false,
        }
    }
}
