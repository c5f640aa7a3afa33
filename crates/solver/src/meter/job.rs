//! What is asked about: a plan with what it is of, and what a meter showed at its points.

use super::Reading;
use super::points::{self, Point};
use crate::answer::Configuration;
use crate::rig::{Build, Rig};
use crate::wiring::Plan;

/// A plan, with what it is of.
#[derive(Clone, Copy, Debug)]
pub struct Job<'a> {
    /// The rig.
    pub rig: &'a Rig,
    /// The box.
    pub build: &'a Build,
    /// The configuration.
    pub configuration: &'a Configuration,
    /// Its plan.
    pub plan: &'a Plan,
}

/// A reading at a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Read {
    /// Where.
    pub point: Point,
    /// What the meter showed.
    pub reading: Reading,
}

/// What the leads read by themselves, where that was entered.
#[must_use]
pub fn leads(plan: &Plan, reads: &[Read]) -> Option<f64> {
    let touching = points::touching(plan)?;
    match reads.iter().rev().find(|read| read.point == touching)?.reading {
        Reading::Ohms { ohms, .. } => Some(ohms),
        Reading::Open => None,
    }
}
