//! The ohm ladder.

use crate::english::counts::counted;

/// Names the ladder to who cannot see it.
pub const LADDER: &str = "Loads, the highest first";
/// Every load.
pub const ALL: &str = "All loads";
/// Out of a band, to the one around it.
pub const WIDER: &str = "Show more loads";
/// How the ladder is read.
pub const READ: &str = "Each rung is a load that the coils can make. Tap one to list what makes it. \
    Short dashed rungs are uneven.";
/// Where outputs differ, so that no one least load stands on the axis.
pub const SEVERAL: &str = "Outputs differ here: the verdict beside a rung is the best of any, and the shaded part is below the least load of each.";

/// What the shaded part is.
#[must_use]
pub fn least(load: &str) -> String {
    format!("Shaded: below the least load of {load}.")
}

/// What the shaded part is where no least load is stated.
pub const BELOW_STATED: &str = "Shaded: below any stated load.";

/// How many configurations a rung has: `1 way`, `2 ways`.
#[must_use]
pub fn ways(count: u64) -> String {
    counted(u128::from(count), "way", "ways")
}

/// After the count where none of them is even.
pub const UNEVEN: &str = ", uneven";

/// The loads of a band.
#[must_use]
pub fn from_to(low: &str, high: &str) -> String {
    let low = low.strip_suffix(" Ω").unwrap_or(low);
    format!("{low} to {high}")
}

/// How many loads a band gathers.
#[must_use]
pub fn loads(loads: usize) -> String {
    counted(u128::try_from(loads).unwrap_or(u128::MAX), "load", "loads")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bands_tell_what_they_hold() {
        assert_eq!(from_to("1.33 Ω", "2 Ω"), "1.33 to 2 Ω");
        assert_eq!(loads(14), "14 loads");
        assert_eq!(ways(1), "1 way");
    }
}
