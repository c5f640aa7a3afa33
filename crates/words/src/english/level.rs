//! The volts that a level is set by, and how much louder, in words.

use super::MARKS;
use coilwright_solver::level::WhyNot;

/// Volts that a meter is to show and no more: to the tenth below.
///
/// # Example
/// ```
/// use coilwright_words::english::level::volts;
/// assert_eq!(volts(31.62), "31.6 V");
/// assert_eq!(volts(24.49), "24.4 V");
/// ```
#[must_use]
pub fn volts(volts: f64) -> String {
    format!("{} V", MARKS.short((volts * 10.0).floor() / 10.0))
}

/// The second of two configurations against the first, in decibels to the nearest tenth.
///
/// # Example
/// ```
/// use coilwright_words::english::level::difference;
/// assert_eq!(difference(3.0103), "3 dB louder than the first");
/// assert_eq!(difference(-0.51), "0.5 dB quieter than the first");
/// assert_eq!(difference(0.04), "as loud as the first");
/// ```
#[must_use]
pub fn difference(decibels: f64) -> String {
    let tenths = (decibels * 10.0).round();
    let text = MARKS.short(tenths.abs() / 10.0);
    if tenths == 0.0 {
        return "as loud as the first".to_owned();
    }
    let how = if tenths > 0.0 { "louder" } else { "quieter" };
    format!("{text} dB {how} than the first")
}

/// Why there is no difference of level.
#[must_use]
pub const fn why_not(why: WhyNot) -> &'static str {
    match why {
        WhyNot::UnlikeDrivers => {
            "no difference of level: the drivers are not all alike, and how loud each kind is for its power is not known"
        }
        WhyNot::FirstUnknown => "no difference of level: the power of the first is not known",
        WhyNot::SecondUnknown => "no difference of level: the power of this one is not known",
    }
}

/// What a difference of level rests on.
pub const CLOSE_TOGETHER: &str =
    "For equal drivers close together, each configuration at its target power.";
