//! How a load stands with an output: verdict, power, heat.

use crate::ohms::Ohms;
use crate::rig::RatedPoint;

/// Whether an output may drive a load. In order from best to worst.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// At or above the least load.
    Fits,
    /// At or above a least load that was derived, not stated.
    FitsByDerivation,
    /// There is no amplifier, or one with neither least load nor rated points.
    NotStated,
    /// No least load is stated, and the load is below every rated point.
    BelowStated,
    /// Below the least load.
    TooLow,
}

impl Verdict {
    /// Whether the output may drive the load, be it by derivation.
    #[must_use]
    pub const fn fits(self) -> bool {
        matches!(self, Self::Fits | Self::FitsByDerivation)
    }

    /// Whether the load is below what the output may drive.
    #[must_use]
    pub const fn is_low(self) -> bool {
        matches!(self, Self::BelowStated | Self::TooLow)
    }

    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Fits => "fits",
            Self::FitsByDerivation => "fits_by_derivation",
            Self::NotStated => "not_stated",
            Self::BelowStated => "below_stated",
            Self::TooLow => "too_low",
        }
    }
}

/// What a load was compared with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// There is no amplifier.
    NoAmplifier,
    /// The amplifier states neither least load nor rated points.
    NotStated,
    /// The least load, as stated.
    Least(Ohms),
    /// A least load worked out from the channels of a bridge.
    Derived(Ohms),
    /// The lowest rated load, where no least load is stated.
    LowestRated(Ohms),
}

impl Limit {
    /// What an output's figures hold a load to; `None` without an amplifier.
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::judge::{Figures, Limit};
    /// assert_eq!(Limit::of(None), Limit::NoAmplifier);
    /// assert_eq!(Limit::of(Some(&Figures::default())), Limit::NotStated);
    /// ```
    #[must_use]
    pub fn of(figures: Option<&Figures>) -> Self {
        let Some(figures) = figures else {
            return Self::NoAmplifier;
        };
        match (figures.least, figures.points.first()) {
            (Some(least), _) if figures.least_derived => Self::Derived(least),
            (Some(least), _) => Self::Least(least),
            (None, Some(lowest)) => Self::LowestRated(lowest.ohms),
            (None, None) => Self::NotStated,
        }
    }
}

/// Where a figure of available power comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Basis {
    /// A rated point at exactly this load.
    Stated,
    /// Between two rated points.
    Interpolated,
    /// Above the highest rated load: a voltage source.
    Extrapolated,
    /// Below the lowest rated load: a range from held current to held voltage.
    Range,
    /// From the channels of a bridge whose own figures are not stated.
    Derived,
}

impl Basis {
    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stated => "stated",
            Self::Interpolated => "interpolated",
            Self::Extrapolated => "extrapolated",
            Self::Range => "range",
            Self::Derived => "derived",
        }
    }
}

/// What an amplifier can give into a load, in watts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Available {
    /// What may be counted on.
    pub low: f64,
    /// What it might give: sizes conductors and tells what can overheat.
    pub high: f64,
    /// Where the figures come from.
    pub basis: Basis,
}

/// Whether the amplifier can overheat a coil.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Overheats {
    /// Not even when it clips hard.
    Cannot,
    /// Only when it clips.
    IfClipped,
    /// At any time.
    AnyTime,
}

impl Overheats {
    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cannot => "cannot",
            Self::IfClipped => "if_clipped",
            Self::AnyTime => "any_time",
        }
    }
}

/// What an output may drive and what it gives.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Figures {
    /// The least load, stated or derived.
    pub least: Option<Ohms>,
    /// Whether the least load was derived.
    pub least_derived: bool,
    /// Its own rated points, in rising order of load.
    pub points: Vec<RatedPoint>,
    /// The two channels of a bridge whose own points are not stated: each sees half the
    /// load, and the bridge gives twice what the weaker one gives into that.
    pub halves: Vec<Figures>,
}

impl Figures {
    /// Whether the output may drive a load. Nominal is compared with nominal, exactly;
    /// a load equal to the least load fits, and one that rounds to a least load given in
    /// decimals is equal to it ([`Ohms::is_met_by`]). So it is with the lowest rated load
    /// where that stands in.
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::judge::{Figures, Verdict};
    /// use coilwright_solver::ohms::{Ohms, Ratio};
    /// let ohms = |n| Ohms::new(Ratio::whole(n).unwrap());
    /// let figures = Figures { least: Some(ohms(2)), ..Figures::default() };
    /// assert_eq!(figures.verdict(ohms(2)), Verdict::Fits);
    /// assert_eq!(figures.verdict(ohms(1)), Verdict::TooLow);
    /// ```
    #[must_use]
    pub fn verdict(&self, load: Ohms) -> Verdict {
        match (self.least, self.points.first()) {
            (Some(least), _) if !least.is_met_by(load) => Verdict::TooLow,
            (Some(_), _) if self.least_derived => Verdict::FitsByDerivation,
            (Some(_), _) => Verdict::Fits,
            (None, Some(lowest)) if !lowest.ohms.is_met_by(load) => Verdict::BelowStated,
            (None, Some(_)) => Verdict::Fits,
            (None, None) => Verdict::NotStated,
        }
    }

    /// What the output can give into a load that it may drive; `None` where no rated
    /// point says, or the load is too low.
    ///
    /// Between rated points log P runs straight over log R; above the highest the output
    /// is a voltage source; below the lowest nothing is stated, so the low end holds the
    /// current and the high end the voltage.
    #[must_use]
    pub fn available(&self, load: Ohms) -> Option<Available> {
        if self.verdict(load).is_low() {
            return None;
        }
        self.given(load)
    }

    /// What the output gives into a load, whether or not it may drive it.
    fn given(&self, load: Ohms) -> Option<Available> {
        if self.points.is_empty() {
            return self.twice_the_halves(load);
        }
        let ohms = load.to_f64();
        let exactly = |watts: f64, basis| Some(Available { low: watts, high: watts, basis });
        let above = self.points.iter().position(|point| point.ohms >= load);
        let Some(above) = above else {
            let highest = self.points.last()?;
            let watts = highest.watts.to_f64() * highest.ohms.to_f64() / ohms;
            return exactly(watts, Basis::Extrapolated);
        };
        let upper = self.points.get(above)?;
        if upper.ohms == load {
            return exactly(upper.watts.to_f64(), Basis::Stated);
        }
        let Some(lower) = above.checked_sub(1).and_then(|below| self.points.get(below)) else {
            let (watts, ratio) = (upper.watts.to_f64(), ohms / upper.ohms.to_f64());
            return Some(Available {
                low: watts * ratio,
                high: watts / ratio,
                basis: Basis::Range,
            });
        };
        let place = libm::log(ohms / lower.ohms.to_f64())
            / libm::log(upper.ohms.to_f64() / lower.ohms.to_f64());
        let (from, to) = (lower.watts.to_f64(), upper.watts.to_f64());
        exactly(from * libm::exp(libm::log(to / from) * place), Basis::Interpolated)
    }

    fn twice_the_halves(&self, load: Ohms) -> Option<Available> {
        let each = load.parallel(load)?;
        let mut weaker: Option<Available> = None;
        for half in &self.halves {
            let found = half.given(each)?;
            let (low, high) = weaker.map_or((found.low, found.high), |w| {
                (w.low.min(found.low), w.high.min(found.high))
            });
            weaker = Some(Available { low, high, basis: Basis::Derived });
        }
        weaker.map(|w| Available { low: 2.0 * w.low, high: 2.0 * w.high, ..w })
    }
}

/// Whether an amplifier can overheat a coil, from the most it might give and the most
/// the coils take: by rated figures, beside which stand headroom, the supply's volts, and how
/// far a cone moves, which no power bounds. A hard-clipped wave carries at most twice the sine
/// power of the same peak.
///
/// # Example
/// ```
/// use coilwright_solver::judge::{Overheats, overheats};
/// assert_eq!(overheats(500.0, 1000.0), Overheats::Cannot);
/// assert_eq!(overheats(600.0, 1000.0), Overheats::IfClipped);
/// assert_eq!(overheats(1001.0, 1000.0), Overheats::AnyTime);
/// ```
#[must_use]
pub fn overheats(most_given: f64, usable: f64) -> Overheats {
    if 2.0 * most_given <= usable {
        Overheats::Cannot
    } else if most_given <= usable {
        Overheats::IfClipped
    } else {
        Overheats::AnyTime
    }
}
