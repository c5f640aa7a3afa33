//! How a load stands with an output: verdict, power, heat.

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
