//! A coil that was measured by itself.

use super::model::OF_MEASURED;
use crate::network::Coil;

/// A coil that was measured by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// The coil.
    pub coil: Coil,
    /// What it has, without the leads, in ohms.
    pub ohms: f64,
    /// By which part of it the meter may be off.
    pub off: f64,
}

impl Measured {
    /// The least and the most that the coil has, where it has been within bounds so far:
    /// what was read narrows them, and never widens them. What lies outside is taken for
    /// the nearer bound, since the meter called it right.
    pub(super) fn within(&self, [least, most]: [f64; 2]) -> [f64; 2] {
        let [low, high] = OF_MEASURED;
        // The counts of the reading and of the leads taken off it are in `off`, once.
        let bounds = [self.ohms * (low - self.off), self.ohms * (high + self.off)];
        bounds.map(|bound| bound.max(least).min(most))
    }
}
