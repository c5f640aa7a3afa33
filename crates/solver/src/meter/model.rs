//! The model of a reading, in figures: what a sound coil has, what leads and the meter add.

/// Direct-current resistance of a sound coil over its nominal impedance, from least to
/// most (common practice, no source).
pub const OF_NOMINAL: [f64; 2] = [0.7, 1.05];
/// Of a coil that was measured over what was read, from least to most: a meter is off by
/// a few counts, and copper by 0.39 % for each kelvin (common practice, no source).
pub const OF_MEASURED: [f64; 2] = [0.96, 1.04];
/// What leads and probes add in ohms, from least to most, before they are read touching
/// (common practice, no source).
pub const LEADS: [f64; 2] = [0.0, 0.5];
/// How far from its group's factor a coil may be, and a measured one from what was read
/// (common practice, no source).
pub(crate) const OF_COIL: f64 = 0.04;
/// The likely direct-current resistance of a coil over its nominal impedance: the middle
/// of what it may be.
pub(crate) const LIKELY_OF_NOMINAL: f64 = (OF_NOMINAL[0] + OF_NOMINAL[1]) / 2.0;

/// Below so many ohms leads may hide what is wrong.
pub(crate) const LEADS_DECIDE: f64 = 1.5;
/// How well leads that were read are known, in ohms.
pub(crate) const LEADS_READ: f64 = 0.05;
/// A meter is off by a part of what it shows and by so many counts (common practice, no
/// source).
pub(crate) const METER: (f64, f64) = (0.01, 2.0);
