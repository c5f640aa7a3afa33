//! What should not happen, told instead of a wrong number.

/// A place in the solver that found what it counts on not to be so. Whatever was being worked
/// out ends there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Defect {
    /// A load by a number that none has.
    Loads,
    /// More things than their numbers go.
    Numbers,
    /// A tier by a number that none has, or a choice that is none.
    Tiers,
    /// What a deal says of its outputs.
    Deals,
    /// The channel of an output that the amplifier does not have.
    Channels,
    /// A row or a column that a table of numbers does not have.
    Table,
    /// A node that a circuit does not have.
    Node,
    /// A coil that the rig or the plan does not have.
    Coil,
}

impl Defect {
    /// Every one, for whoever wants to see that each has its words.
    pub const ALL: [Self; 8] = [
        Self::Loads,
        Self::Numbers,
        Self::Tiers,
        Self::Deals,
        Self::Channels,
        Self::Table,
        Self::Node,
        Self::Coil,
    ];

    /// Where it was found, as the source calls it: no sentence for a person.
    #[must_use]
    pub const fn place(self) -> &'static str {
        match self {
            Self::Loads => "loads",
            Self::Numbers => "numbers",
            Self::Tiers => "tiers",
            Self::Deals => "deals",
            Self::Channels => "channels",
            Self::Table => "table",
            Self::Node => "node",
            Self::Coil => "coil",
        }
    }
}

/// A number of 32 bits of what is counted.
pub(crate) fn number(count: usize) -> Result<u32, Defect> {
    u32::try_from(count).map_err(|_| Defect::Numbers)
}
