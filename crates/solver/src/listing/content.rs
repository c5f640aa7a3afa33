//! How many leaves of each group a part holds, packed one byte a group, so that one
//! subtraction compares them all.
#![expect(
    clippy::arithmetic_side_effects,
    clippy::indexing_slicing,
    reason = "contents hold at most 32 leaves a byte, and groups are at most 8"
)]

/// How many leaves of each group, a byte a group.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Content(pub(crate) u64);

const HIGH: u64 = 0x8080_8080_8080_8080;

impl Content {
    pub(crate) fn one(group: usize) -> Self {
        Self(1 << (8 * group))
    }

    /// With so many more leaves of a group.
    pub(crate) fn with_leaves(self, group: usize, leaves: u32) -> Self {
        Self(self.0 + (u64::from(leaves) << (8 * group)))
    }

    pub(crate) fn leaves(self) -> u32 {
        // Pairs of bytes first, then all four pairs at once into the highest.
        const PAIRS: u64 = 0x00FF_00FF_00FF_00FF;
        let pairs = (self.0 & PAIRS) + ((self.0 >> 8) & PAIRS);
        (pairs.wrapping_mul(0x0001_0001_0001_0001) >> 48) as u32
    }

    /// What is left when `part` is taken out, if it is in here.
    pub(crate) fn without(self, part: Self) -> Option<Self> {
        let rest = (self.0 | HIGH).wrapping_sub(part.0);
        (rest & HIGH == HIGH).then_some(Self(rest & !HIGH))
    }

    pub(super) fn with(self, part: Self) -> Self {
        Self(self.0 + part.0)
    }

    /// Fewer leaves stand before more.
    pub(super) fn place(self) -> (u32, u64) {
        (self.leaves(), self.0)
    }

    pub(super) fn of(self, group: usize) -> u32 {
        u32::from(self.0.to_le_bytes()[group])
    }
}
