//! The plan of a configuration, with what it is of.

use super::begun::Origin;
use coilwright_solver::answer::Configuration;
use coilwright_solver::meter::{Foretold, Job, Known};
use coilwright_solver::problem::Problem;
use coilwright_solver::rig::{Build, Rig};
use coilwright_solver::wiring::Plan;
use std::rc::Rc;

/// A plan, with what it is of.
#[derive(Clone, Debug, PartialEq)]
pub struct Wired {
    /// The rig.
    pub rig: Rig,
    /// How the box is built.
    pub build: Build,
    /// The configuration.
    pub configuration: Configuration,
    /// The plan, or why the box does not allow it.
    pub plan: Result<Plan, Problem>,
    /// What the meter should read, step by step; empty without a plan.
    pub foretold: Vec<Option<Foretold>>,
    /// What the driver groups are called.
    pub names: Vec<String>,
    /// What stood in the fields.
    pub origin: Rc<Origin>,
    /// By what its ranges are told.
    pub known: Known,
}

impl Wired {
    /// A plan with what it is of, for the solver and for words; `None` where there is none.
    #[must_use]
    pub fn job(&self) -> Option<Job<'_>> {
        let Self { rig, build, configuration, plan, .. } = self;
        Some(Job { rig, build, configuration, plan: plan.as_ref().ok()? })
    }
}

/// How large the drawing is shown: the whole of it in its room, or so many quarters of
/// its natural size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Zoom {
    /// As wide as its room.
    Whole,
    /// Quarters of its natural size.
    Quarters(u8),
}

impl Default for Zoom {
    /// As it is meant to be read.
    fn default() -> Self {
        Self::Quarters(4)
    }
}

impl Zoom {
    const SIZES: [u8; 6] = [2, 3, 4, 6, 8, 12];

    /// The next size up, or down.
    #[must_use]
    pub fn turned(self, up: bool) -> Self {
        let now = match self {
            Self::Whole => 4,
            Self::Quarters(quarters) => quarters,
        };
        let next = if up {
            Self::SIZES.into_iter().find(|size| *size > now)
        } else {
            Self::SIZES.into_iter().rev().find(|size| *size < now)
        };
        match (next, self) {
            (Some(next), _) => Self::Quarters(next),
            (None, _) => self,
        }
    }
}
