//! A stretch of the list.

use super::power::Power;

/// Configurations that stand alike: a stretch of the list.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    pub(super) deal: u32,
    /// Where the numbers of its tiers, one an output, begin and end in the arena.
    pub(super) tiers: (u32, u32),
    /// Configurations in it.
    pub(super) count: u32,
    /// Configurations ranked before it, once they are ranked.
    pub(super) before: u32,
    pub(super) fit: u8,
    pub(super) even: bool,
    pub(super) unlike_in_series: bool,
    pub(super) joined: bool,
    /// Of all outputs together; unknown as soon as one is.
    pub(super) target: Power,
    /// By its number.
    pub(super) lowest_load: u32,
    pub(super) runs: u32,
}
