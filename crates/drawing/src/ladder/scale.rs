//! From ohms to heights.

use super::{LINE, Ladder};

/// Room above the axis for its unit, and below it.
const HEAD: i32 = 18;
const FOOT: i32 = 8;
/// What lies more octaves than this beyond the rungs is left out at the edge.
const FAR: f64 = 3.0;
/// The least that an axis shows, in octaves.
const NARROWEST: f64 = 1.0;

/// The axis: heights in units are linear in octaves.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    /// Octaves above 1 Ω at `first`, the uppermost height, and at `last`, the lowest.
    high: f64,
    low: f64,
    first: i32,
    last: i32,
    /// The height of all.
    pub(super) height: i32,
}

impl Scale {
    /// From the highest to the lowest of all that is shown; nothing where there are no rungs.
    pub(super) fn of(ladder: &Ladder<'_>, height: i32) -> Option<Self> {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for rung in ladder.rungs {
            low = low.min(octaves(rung.to));
            high = high.max(octaves(rung.ohms));
        }
        if !low.is_finite() || !high.is_finite() {
            return None;
        }
        let (from, to) = (low - FAR, high + FAR);
        for stated in ladder.rated.iter().chain(ladder.least.as_ref()) {
            let at = octaves(stated.ohms);
            if from <= at && at <= to {
                low = low.min(at);
                high = high.max(at);
            }
        }
        let more = (NARROWEST - (high - low)).max(0.0) / 2.0;
        // The outermost marks keep clear of the ends.
        let (first, last) = (HEAD + 12, height - FOOT - 8);
        Some(Self { high: high + more, low: low - more, first, last: last.max(first), height })
    }

    /// Where the axis begins.
    pub(super) const fn top(&self) -> i32 {
        HEAD
    }

    /// The height of a load, within the picture.
    pub(super) fn y(&self, ohms: f64) -> i32 {
        let at = (self.high - octaves(ohms)) / (self.high - self.low);
        let y = f64::from(self.first) + at * f64::from(self.last - self.first);
        // A float too large becomes the greatest number.
        #[expect(clippy::cast_possible_truncation, reason = "rounded and held in the picture")]
        let y = libm::round(y) as i32;
        y.min(self.height).max(0)
    }

    /// The height of a load that is shown on the axis.
    pub(super) fn inside(&self, ohms: f64) -> Option<i32> {
        (!self.is_above(ohms) && !self.is_below(ohms)).then(|| self.y(ohms))
    }

    /// Whether a load lies beyond the upper end.
    pub(super) fn is_above(&self, ohms: f64) -> bool {
        octaves(ohms) > self.high + 1e-9
    }

    /// Whether a load lies beyond the lower end.
    pub(super) fn is_below(&self, ohms: f64) -> bool {
        octaves(ohms) < self.low - 1e-9
    }

    /// The ticks and their numbers, none so near another that the numbers overlap.
    pub(super) fn ticks(&self, write: &dyn Fn(u32, u32) -> String) -> Vec<(i32, String)> {
        let mut ticks: Vec<(i32, String)> = Vec::new();
        // Doublings first, every one or every few; then what lies between, coarse before fine.
        let octave = f64::from(self.last - self.first) / (self.high - self.low);
        let mut stride = 1;
        while f64::from(stride) * octave < f64::from(LINE + 4) && stride < 16 {
            stride += 1;
        }
        for (quarters, stride) in [(4, stride), (6, 1), (5, 1), (7, 1)] {
            for power in -12..=12_i32 {
                if power % stride != 0 {
                    continue;
                }
                let (up, down) = (power.max(0).unsigned_abs(), power.min(0).unsigned_abs());
                let (mut upper, mut lower) = (quarters << up, 4_u32 << down);
                while upper % 2 == 0 && lower % 2 == 0 {
                    (upper, lower) = (upper / 2, lower / 2);
                }
                let Some(y) = self.inside(f64::from(upper) / f64::from(lower)) else { continue };
                // Finer ones want more air, or none of their kind are worth it.
                let air = if quarters == 4 { LINE } else { LINE + 8 };
                if y >= HEAD + 8 && ticks.iter().all(|(other, _)| (other - y).abs() >= air) {
                    ticks.push((y, write(upper, lower)));
                }
            }
        }
        ticks
    }
}

/// Octaves above 1 Ω.
fn octaves(ohms: f64) -> f64 {
    libm::log2(ohms.max(1e-9))
}
