//! How likely something is, in five steps.

/// Below this a load is told in a line with the others like it.
pub const HARDLY: f64 = 0.03;

/// How likely something is, of all that may be: where the steps lie is common practice, no
/// source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Likely {
    /// Nine in ten, or more.
    Very,
    /// As likely as not, or more.
    Likely,
    /// Three in twenty, or more.
    Possible,
    /// [`HARDLY`], or more.
    Less,
    /// Less than that.
    Hardly,
}

impl Likely {
    /// Of a share of all that may be.
    #[must_use]
    pub fn of(share: f64) -> Self {
        match share {
            _ if share >= 0.9 => Self::Very,
            _ if share >= 0.5 => Self::Likely,
            _ if share >= 0.15 => Self::Possible,
            _ if share >= HARDLY => Self::Less,
            _ => Self::Hardly,
        }
    }
}
