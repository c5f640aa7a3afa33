//! What the one undo says.

/// What was erased or replaced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Erased {
    /// A value, by another.
    Value,
    /// A reading, by another.
    Reading,
    /// How the box is built.
    Box,
    /// Drivers.
    Drivers,
    /// The amplifier.
    Amplifier,
    /// A bridge.
    Bridge,
    /// A rated point.
    Point,
    /// All that was done and read.
    Work,
    /// What was read and said in search of a fault.
    Search,
    /// The ticks of a stage.
    Ticks,
    /// One put aside to compare.
    Compared,
    /// The drivers or the amplifier, by what would fit.
    Change,
    /// The rig as a whole, by another.
    Rig,
    /// A rig that was kept.
    Deleted,
    /// A rig that was kept, by a later one.
    Kept,
}

impl Erased {
    /// What happened.
    #[must_use]
    pub const fn said(self) -> &'static str {
        match self {
            Self::Value => "Value typed over.",
            Self::Reading => "Reading typed over.",
            Self::Box => "Box changed.",
            Self::Drivers => "Drivers removed.",
            Self::Amplifier => "Amplifier removed.",
            Self::Bridge => "Bridge removed.",
            Self::Point => "Rated point removed.",
            Self::Work => "Started over.",
            Self::Search => "Search forgotten.",
            Self::Ticks => "Ticks taken back.",
            Self::Compared => "Left out of compare.",
            Self::Change => "Rig changed.",
            Self::Rig => "Another rig is open.",
            Self::Deleted => "Rig deleted.",
            Self::Kept => "Kept in place of what was kept before.",
        }
    }
}

/// Takes back what was done last.
pub const UNDO: &str = "Undo";

/// Takes that back.
pub const REDO: &str = "Redo";
/// That something was taken back.
pub const UNDONE: &str = "Taken back.";

/// What is taken back, for whoever does not see it.
#[must_use]
pub fn name(on: bool, what: Erased) -> String {
    let mut name = String::from(if on { REDO } else { UNDO });
    name.push_str(": ");
    name.push_str(what.said());
    name
}
