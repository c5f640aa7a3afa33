//! A current by the two powers that matter: what is set, and what may come.

/// A current at target power, and at the upper end of what the amplifier might give; each
/// where that is known.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Amps {
    pub(super) target: Option<f64>,
    pub(super) most: Option<f64>,
}

impl Amps {
    /// Nothing flows.
    pub(super) const NONE: Self = Self { target: Some(0.0), most: Some(0.0) };

    /// Both currents changed alike.
    pub(super) fn map(self, change: impl Fn(f64) -> f64) -> Self {
        Self { target: self.target.map(&change), most: self.most.map(&change) }
    }

    /// Both put together with another's.
    pub(super) fn with(self, other: Self, both: impl Fn(f64, f64) -> f64) -> Self {
        let put = |a: Option<f64>, b: Option<f64>| a.zip(b).map(|(a, b)| both(a, b));
        Self { target: put(self.target, other.target), most: put(self.most, other.most) }
    }
}
