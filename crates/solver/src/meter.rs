//! What a meter should read at the check points of a plan.
//!
//! A reading is what the leads read with their probes touching, and the direct-current
//! resistance between the probes. The resistance of a coil follows from its nominal
//! impedance: makers choose the one for the other. Coils that were measured tell it
//! themselves.

mod belief;
mod built;
mod catalogue;
mod changed;
mod coils;
mod diagnose;
mod diagnosis;
mod every;
mod excluded;
mod explain;
mod faults;
mod finer;
mod foretell;
mod job;
mod judged;
mod measured;
mod model;
mod next;
mod otherwise;
mod points;
mod reading;
mod right;
mod setting;
mod settings;
mod solved;
#[cfg(test)]
mod tried;
mod variants;
mod weights;

use crate::network::Coil;
use crate::rig::Rig;
pub use catalogue::{Dictionary, Shown, as_built, catalogue, shown};
pub use coils::{coils, measured};
pub use diagnose::{Diagnosing, MOST, SURE, diagnose};
pub use diagnosis::{Diagnosis, Explanation, Fit, Odds, Question};
pub use excluded::{Open, left_open};
pub use faults::{Fault, Kind};
pub use finer::Finer;
pub use foretell::{Known, foretell, foretold};
pub use job::{Job, Read, leads};
pub use judged::judge;
pub use measured::Measured;
pub use model::{LEADS, OF_MEASURED, OF_NOMINAL};
pub(crate) use model::{LEADS_DECIDE, LEADS_READ, METER};
pub use otherwise::{Other, others};
pub use points::{EFFORTS, Place, Point, at_act, closing, last_check, points, touching};
pub use weights::WEIGHTS;

/// What should be read at a check point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foretold {
    /// Between the probes by nominal impedances, without leads, in ohms.
    pub nominal: f64,
    /// What is likely read, leads included, in ohms.
    pub expected: f64,
    /// The least that a sound rig reads, in ohms.
    pub low: f64,
    /// The most, in ohms.
    pub high: f64,
}

/// What a coil was measured to have.
fn stated(rig: &Rig, coil: Coil) -> Option<f64> {
    let number = rig.group_number_of(coil.driver)?;
    let group = rig.groups().get(number)?;
    let before: u32 = rig.groups().iter().take(number).map(|group| group.count).sum();
    let driver = u32::from(coil.driver).checked_sub(before)?;
    let place = driver.checked_mul(group.coils_on_each())?.checked_add(coil.coil.into())?;
    group.dc_ohms.as_ref()?.get(usize::try_from(place).ok()?).copied()
}

/// What a meter showed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reading {
    /// So many ohms.
    Ohms {
        /// The figure.
        ohms: f64,
        /// One count of its last place.
        count: f64,
    },
    /// More than it can show: nothing is joined.
    Open,
}

/// Whether a reading is right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Agreement {
    /// It is what a sound rig reads.
    Right,
    /// It is lower than any sound rig reads.
    TooLow,
    /// It is higher than any sound rig reads.
    TooHigh,
    /// Nothing is joined where something should be.
    Open,
    /// A coil that its label allows, but not those of its group.
    Unlike,
    /// At so few ohms nothing can be said before the leads are read.
    LeadsFirst,
    /// It is in the range of a sound rig, and yet something is probably wrong, by this
    /// reading too.
    Doubtful,
    /// It would be right, but the steps of the meter are too coarse for so few ohms.
    Coarse,
}

impl Agreement {
    /// Whether something is wrong with what was built: a coil that is unlike its group is
    /// right by its label, and where the leads or the steps decide nothing is known yet.
    #[must_use]
    pub const fn is_wrong(self) -> bool {
        matches!(self, Self::TooLow | Self::TooHigh | Self::Open)
    }

    /// Whether it is a reason to look for what is wrong.
    #[must_use]
    pub const fn is_suspect(self) -> bool {
        self.is_wrong() || matches!(self, Self::Doubtful)
    }

    /// Whether it says something of what was built.
    #[must_use]
    pub(crate) const fn tells(self) -> bool {
        !matches!(self, Self::LeadsFirst | Self::Coarse)
    }
}

impl Foretold {
    /// Whether it is so little that the leads decide, and tenths may not tell.
    #[must_use]
    pub fn is_little(&self) -> bool {
        self.expected < LEADS_DECIDE
    }

    /// Whether a reading is right; `leads` says whether those were read. Whole ohms that may
    /// be off by half of what should be read, or more, are never right.
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::meter::{Agreement, Foretold, Reading};
    /// let pair = Foretold { nominal: 1.0, expected: 1.1, low: 0.9, high: 1.3 };
    /// let read = |ohms| Reading::Ohms { ohms, count: 0.1 };
    /// assert_eq!(pair.judge(read(1.1), true), Agreement::Right);
    /// assert_eq!(pair.judge(read(2.1), true), Agreement::TooHigh);
    /// assert_eq!(pair.judge(read(2.1), false), Agreement::LeadsFirst);
    /// let whole = Reading::Ohms { ohms: 2.0, count: 1.0 };
    /// assert_eq!(pair.judge(whole, true), Agreement::Coarse);
    /// ```
    #[must_use]
    pub fn judge(&self, reading: Reading, leads: bool) -> Agreement {
        let Reading::Ohms { ohms, count } = reading else { return Agreement::Open };
        if !leads && self.is_little() {
            return Agreement::LeadsFirst;
        }
        match Self::within((self.low, self.high), ohms, count) {
            Agreement::Right if count >= 1.0 && count * METER.1 > self.expected / 2.0 => {
                Agreement::Coarse
            }
            agreement => agreement,
        }
    }

    /// The same of the leads themselves, with nothing but each other between the probes.
    #[must_use]
    pub fn judge_alone(&self, reading: Reading) -> Agreement {
        let Reading::Ohms { ohms, count } = reading else { return Agreement::Open };
        Self::within((self.low, self.high), ohms, count)
    }

    fn within((low, high): (f64, f64), ohms: f64, count: f64) -> Agreement {
        let off = ohms * METER.0 + count * METER.1;
        if ohms + off < low {
            Agreement::TooLow
        } else if ohms - off > high {
            Agreement::TooHigh
        } else {
            Agreement::Right
        }
    }
}
