//! The power of a stretch of the list.

/// Watts that may not be known, in eight bytes: what is not known is less than any.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub(super) struct Power(f64);

impl From<Option<f64>> for Power {
    fn from(watts: Option<f64>) -> Self {
        watts.map_or(Self::UNKNOWN, Self)
    }
}

impl Power {
    const UNKNOWN: Self = Self(-1.0);

    /// The watts, where they are known.
    pub(super) fn watts(self) -> Option<f64> {
        (self.0 >= 0.0).then_some(self.0)
    }

    /// Both together; not known where one is not.
    pub(super) fn plus(self, other: Self) -> Self {
        self.watts().zip(other.watts()).map(|(a, b)| a + b).into()
    }
}
