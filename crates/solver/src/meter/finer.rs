//! Reading finer than tenths of an ohm: amperes through the load and volts across its own
//! terminals, four wires, so that leads and contacts are in neither.

use super::built::Posts;
use super::points::Point;
use super::right;
use crate::defect::Defect;

/// By which part a finer reading may be off: a meter's volts and another's amperes by one
/// hundredth each (common practice, no source).
const OFF: f64 = 0.02;

/// What a sound rig has between the probes, without leads, in ohms; at one ampere the same
/// in volts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finer {
    /// The least.
    pub low: f64,
    /// The likely.
    pub expected: f64,
    /// The most.
    pub high: f64,
}

impl Finer {
    /// Whether a finer reading tells so many ohms from what is sound.
    pub(super) fn excludes(&self, ohms: f64) -> bool {
        ohms * (1.0 + OFF) < self.low || ohms * (1.0 - OFF) > self.high
    }
}

/// What a sound rig has at a point, where a coil is in it.
pub(super) fn bare(posts: &Posts<'_>, point: &Point) -> Result<Option<Finer>, Defect> {
    let bare = right::bare(posts, point)?.filter(|(nominal, _)| *nominal > 0.0);
    Ok(bare.map(|(_, [low, high])| Finer { low, expected: (low + high) / 2.0, high }))
}
