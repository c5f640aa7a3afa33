//! How a load stands with an output: verdict, power, heat.

use super::{MARKS, rig::load, watts};
pub use coilwright_solver::judge::Limit;
use coilwright_solver::judge::{Available, Basis, Overheats, Verdict};
use coilwright_solver::ohms::Ohms;

/// The verdict in words.
///
/// # Example
/// ```
/// use coilwright_solver::judge::Verdict;
/// use coilwright_words::english::judged::verdict;
/// assert_eq!(verdict(Verdict::Fits), "fits");
/// ```
#[must_use]
pub const fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Fits => "fits",
        Verdict::FitsByDerivation => "fits by derivation: confirm in the manual",
        Verdict::TooLow => "too low",
        Verdict::BelowStated => "below any stated load",
        Verdict::NotStated => "not stated",
    }
}

/// Why the verdict is what it is, with its numbers.
///
/// # Example
/// ```
/// use coilwright_solver::ohms::{Ohms, Ratio};
/// use coilwright_words::english::judged::{Limit, reason};
/// let ohms = |n| Ohms::new(Ratio::whole(n).unwrap());
/// assert_eq!(
///     reason(ohms(1), Limit::Least(ohms(2))),
///     "1 Ω is below the least load of 2 Ω"
/// );
/// ```
#[must_use]
pub fn reason(of: Ohms, limit: Limit) -> String {
    let (least, what, stands) = match limit {
        Limit::NoAmplifier => return "there is no amplifier to compare with".to_owned(),
        Limit::NotStated => {
            return "the amplifier states neither a least load nor rated power".to_owned();
        }
        Limit::Least(least) => (least, "the least load", ""),
        Limit::Derived(least) => (
            least,
            "the derived least load",
            ": twice the channel's, as each channel sees half of it",
        ),
        Limit::LowestRated(least) => {
            (least, "the lowest rated load", ", which stands in for a least load")
        }
    };
    let (of, text) = (compared(of, least), load(least));
    format!("{of} {what} of {text}{stands}")
}

fn compared(of: Ohms, least: Ohms) -> String {
    let how = match of.cmp(&least) {
        core::cmp::Ordering::Less if least.is_met_by(of) => "is within the rounding of",
        core::cmp::Ordering::Less => "is below",
        core::cmp::Ordering::Equal => "is exactly",
        core::cmp::Ordering::Greater => "is above",
    };
    format!("{} {how}", load(of))
}

/// Where a figure of available power comes from.
#[must_use]
pub const fn basis(basis: Basis) -> &'static str {
    match basis {
        Basis::Stated => "stated at this load",
        Basis::Interpolated => "between two rated points",
        Basis::Extrapolated => "above the highest rated load, at the same voltage",
        Basis::Range => "below the lowest rated load: only the lower figure can be counted on",
        Basis::Derived => "derived from the channels: confirm in the manual",
    }
}

/// What the amplifier can give: `500 W`, or `75 to 1200 W`.
///
/// # Example
/// ```
/// use coilwright_solver::judge::{Available, Basis};
/// use coilwright_words::english::judged::available;
/// let given = Available { low: 75.0, high: 1200.0, basis: Basis::Range };
/// assert_eq!(available(&given), "75 to 1200 W");
/// ```
#[must_use]
pub fn available(given: &Available) -> String {
    let (low, high) = (MARKS.short(given.low), MARKS.short(given.high));
    if low == high { format!("{high} W") } else { format!("{low} to {high} W") }
}

/// Whose power a figure is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// Of each driver, all getting the same.
    Each,
    /// Of one driver, counted from 1.
    Driver(u32),
    /// Of all drivers together.
    All,
}

impl Whose {
    fn after(self, watts: &str) -> String {
        match self {
            Self::Each => format!("{watts} each"),
            Self::Driver(driver) => format!("{watts} for driver {driver}"),
            Self::All => format!("{watts} in all"),
        }
    }
}

/// What the drivers get once the level is set.
///
/// # Example
/// ```
/// use coilwright_words::english::judged::{Whose, target};
/// assert_eq!(target(500.0, Whose::Each), "up to 500 W each once the level is set");
/// ```
#[must_use]
pub fn target(power: f64, whose: Whose) -> String {
    format!("up to {} once the level is set", whose.after(&watts(power)))
}

/// Where the amplifier can give more than the coils take.
///
/// # Example
/// ```
/// use coilwright_words::english::judged::{Whose, beyond};
/// assert_eq!(
///     beyond(1000.0, Whose::Each),
///     "the amplifier can give 1000 W each: set the level, or the coils overheat"
/// );
/// ```
#[must_use]
pub fn beyond(power: f64, whose: Whose) -> String {
    format!(
        "the amplifier can give {}: set the level, or the coils overheat",
        whose.after(&watts(power))
    )
}

/// Why there is no target power.
#[must_use]
pub const fn no_target(rating_known: bool, available_known: bool) -> &'static str {
    match (rating_known, available_known) {
        (false, false) => "not known without rated power of drivers and amplifier",
        (false, true) => "not known without the rated power of every driver",
        (true, _) => "not known without rated power of the amplifier at this load",
    }
}

/// Whether the amplifier can overheat a coil.
#[must_use]
pub const fn overheats(overheats: Overheats) -> &'static str {
    match overheats {
        Overheats::Cannot => "cannot overheat a coil by its rated figures",
        Overheats::IfClipped => "can overheat a coil if it clips",
        Overheats::AnyTime => "can overheat a coil at any time",
    }
}

/// Why it can or cannot, with its numbers: what the amplifier may give at most and
/// what the coils take.
///
/// # Example
/// ```
/// use coilwright_solver::judge::Overheats;
/// use coilwright_words::english::judged::overheats_because;
/// assert_eq!(
///     overheats_because(Overheats::AnyTime, 1200.0, 1000.0),
///     "it can give 1200 W and the coils take 1000 W"
/// );
/// ```
#[must_use]
pub fn overheats_because(overheats: Overheats, given: f64, usable: f64) -> String {
    let (given, usable) = (watts(given), watts(usable));
    match overheats {
        Overheats::Cannot => format!(
            "by its rated figures it can give {given}, about twice that when it clips hard, and the coils take {usable}; headroom and supply may give more, and no power figure bounds how far a cone moves"
        ),
        Overheats::IfClipped => format!(
            "by its rated figures it can give {given}, about twice that when it clips hard, and the coils take {usable}"
        ),
        Overheats::AnyTime => format!("it can give {given} and the coils take {usable}"),
    }
}

/// Joins a load that fits with heat that can come at any time, wherever both stand: neither
/// takes the other back.
pub const AMPLIFIER_NOT_COILS: &str =
    "safe for the amplifier, not for the coils unless the level is set";

/// [`AMPLIFIER_NOT_COILS`] where both are so.
///
/// # Example
/// ```
/// use coilwright_solver::judge::{Overheats, Verdict};
/// use coilwright_words::english::judged::{AMPLIFIER_NOT_COILS, joined};
/// assert_eq!(joined(Verdict::Fits, Some(Overheats::AnyTime)), Some(AMPLIFIER_NOT_COILS));
/// assert_eq!(joined(Verdict::Fits, Some(Overheats::IfClipped)), None);
/// assert_eq!(joined(Verdict::TooLow, Some(Overheats::AnyTime)), None);
/// ```
#[must_use]
pub const fn joined(verdict: Verdict, heat: Option<Overheats>) -> Option<&'static str> {
    match (verdict, heat) {
        (Verdict::Fits | Verdict::FitsByDerivation, Some(Overheats::AnyTime)) => {
            Some(AMPLIFIER_NOT_COILS)
        }
        _ => None,
    }
}

/// Heat in short, beside a verdict: joined with it where that is needed.
///
/// # Example
/// ```
/// use coilwright_solver::judge::{Overheats, Verdict};
/// use coilwright_words::english::judged::heat_beside;
/// assert_eq!(heat_beside(Verdict::Fits, Overheats::Cannot), "cannot overheat a coil by its rated figures");
/// assert_eq!(
///     heat_beside(Verdict::Fits, Overheats::AnyTime),
///     "safe for the amplifier, not for the coils unless the level is set: \
///      can overheat a coil at any time"
/// );
/// ```
#[must_use]
pub fn heat_beside(verdict: Verdict, heat: Overheats) -> String {
    match joined(verdict, Some(heat)) {
        Some(joined) => format!("{joined}: {}", overheats(heat)),
        None => overheats(heat).to_owned(),
    }
}

#[cfg(test)]
mod tests;
