//! Exact quantities: fractions, ohms and watts.
//!
//! A nominal load is a fraction from the label to the answer: 4/3 Ω is 4/3 Ω and
//! equals a least load of 4/3 Ω. Every operation is checked, since a fraction can
//! outgrow its 128 bits; what does not fit is `None` here and the problem
//! [`Code::TooExact`](crate::problem::Code::TooExact) above.

mod ratio;

use core::cmp::Ordering;
use core::fmt;
use core::num::NonZeroU64;
pub(crate) use ratio::gcd64;
pub use ratio::{Ratio, gcd};

/// Nominal impedance of a coil, or the load of a network: an exact number of ohms.
///
/// Where it was given in decimals it also knows how many. As a least load it then stands
/// for whatever rounds to it ([`Ohms::is_met_by`]); for everything else it is exactly what
/// it says, and equal to the same number told otherwise.
#[derive(Clone, Copy, Debug)]
pub struct Ohms {
    exact: Ratio,
    /// How far below it rounds up to it, in hundred-thousandths of an ohm: half a unit of
    /// its last decimal, 0 where it has none.
    slack: u32,
}

impl PartialEq for Ohms {
    fn eq(&self, other: &Self) -> bool {
        self.exact == other.exact
    }
}

impl Eq for Ohms {}

impl PartialOrd for Ohms {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Ohms {
    fn cmp(&self, other: &Self) -> Ordering {
        self.exact.cmp(&other.exact)
    }
}

impl core::hash::Hash for Ohms {
    fn hash<H: core::hash::Hasher>(&self, state: &mut H) {
        self.exact.hash(state);
    }
}

impl Ohms {
    /// What half a unit of the first decimal comes to, in parts of [`Self::PARTS`].
    const HALF_A_TENTH: u32 = 5_000;
    const PARTS: u128 = 100_000;

    /// From an exact number of ohms.
    #[must_use]
    pub const fn new(ohms: Ratio) -> Self {
        Self { exact: ohms, slack: 0 }
    }

    /// From a number of ohms that was given with so many decimals; with none, or with more
    /// than the four that are read, it is taken as exact.
    #[must_use]
    pub fn with_decimals(ohms: Ratio, decimals: u32) -> Self {
        let slack = match decimals {
            1 => Self::HALF_A_TENTH,
            2 => 500,
            3 => 50,
            4 => 5,
            _ => 0,
        };
        Self { exact: ohms, slack }
    }

    /// The exact number of ohms.
    #[must_use]
    pub const fn ratio(self) -> Ratio {
        self.exact
    }

    /// Whether a load is no lower than this as a least load. Given in decimals it stands
    /// for what rounds to it at its own number of decimals, halves up; a whole number and a
    /// fraction have none and are exact.
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::bounds::Field;
    /// let ohms = |text| Field::ChannelLeast.ohms_text(text).unwrap();
    /// let three_eights = ohms("8/3");
    /// assert!(ohms("2.7").is_met_by(three_eights) && ohms("2.67").is_met_by(three_eights));
    /// assert!(!ohms("2.667").is_met_by(ohms("2.666")) && !ohms("3").is_met_by(three_eights));
    /// ```
    #[must_use]
    pub fn is_met_by(self, load: Self) -> bool {
        self <= load || self.lowest_met().is_some_and(|lowest| lowest <= load.exact)
    }

    /// With how many decimals it was given; 0 where it is exact.
    #[must_use]
    pub const fn decimals(self) -> u32 {
        match self.slack {
            Self::HALF_A_TENTH => 1,
            500 => 2,
            50 => 3,
            5 => 4,
            _ => 0,
        }
    }

    /// How far below it rounds to it, in hundred-thousandths of an ohm.
    pub(crate) const fn slack(self) -> u32 {
        self.slack
    }

    /// The one that asks for more as a least load.
    pub(crate) fn stricter(self, other: Self) -> Self {
        // What nothing rounds to but itself is met by itself.
        let lowest = |of: Self| of.lowest_met().unwrap_or(of.exact);
        if lowest(self) < lowest(other) { other } else { self }
    }

    /// The lowest number that rounds to it; `None` where nothing does but itself.
    fn lowest_met(self) -> Option<Ratio> {
        let each = Self::PARTS.checked_div(self.exact.denominator()).filter(|_| self.slack > 0)?;
        let parts = self.exact.numerator().checked_mul(each)?.checked_sub(self.slack.into())?;
        Ratio::new(parts, Self::PARTS)
    }

    /// The nearest float.
    #[must_use]
    pub fn to_f64(self) -> f64 {
        self.exact.to_f64()
    }

    /// Joined in series with another; `None` if the sum does not fit.
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::ohms::{Ohms, Ratio};
    /// let four = Ohms::new(Ratio::whole(4).unwrap());
    /// assert_eq!(four.series(four).unwrap().to_string(), "8");
    /// assert_eq!(four.parallel(four).unwrap().to_string(), "2");
    /// ```
    #[must_use]
    pub fn series(self, other: Self) -> Option<Self> {
        let exact = self.exact.plus(other.exact)?;
        // What each stands for adds up: twice 2.7 Ω is met by twice 8/3 Ω.
        Some(Self { exact, slack: self.slack.saturating_add(other.slack) })
    }

    /// Joined in parallel with another; `None` if the result does not fit.
    #[must_use]
    pub fn parallel(self, other: Self) -> Option<Self> {
        let siemens = self.exact.recip().plus(other.exact.recip())?;
        Some(Self::new(siemens.recip()))
    }
}

impl fmt::Display for Ohms {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.exact.fmt(f)
    }
}

/// Continuous power, exact to a ten-thousandth of a watt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Watts(NonZeroU64);

impl Watts {
    /// How many parts a watt is counted in.
    pub const PARTS: u64 = Self::WHOLE.get();
    const WHOLE: NonZeroU64 = NonZeroU64::MIN.saturating_add(9_999);

    /// From ten-thousandths of a watt; `None` for zero.
    #[must_use]
    pub fn from_parts(parts: u64) -> Option<Self> {
        NonZeroU64::new(parts).map(Self)
    }

    /// The count of ten-thousandths.
    #[must_use]
    pub const fn parts(self) -> u64 {
        self.0.get()
    }

    /// The nearest float, in watts.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "at most 4·10^10 parts: exact in a float")]
    pub fn to_f64(self) -> f64 {
        self.parts() as f64 / Self::PARTS as f64
    }

    /// The exact number of watts.
    #[must_use]
    pub fn ratio(self) -> Ratio {
        Ratio::of_parts(self.0, Self::WHOLE)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// OpenStax, University Physics vol. 2, 10.2 (seen): 1 Ω + (6 Ω ∥ 13 Ω) is 5.10 Ω, 97/19 exactly.
    #[test]
    fn the_textbook_series_parallel_circuit_is_97_over_19() {
        let ohm = |n| Ohms::new(Ratio::whole(n).unwrap());
        let load = ohm(1).series(ohm(6).parallel(ohm(13)).unwrap()).unwrap();
        assert_eq!(load.to_string(), "97/19");
    }
}
