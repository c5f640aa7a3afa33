//! The parts of the sentence about a driver group; fields stand between them.

pub use super::super::rig::version as coils;

/// Before the count, in the first group.
pub const I_HAVE: &str = "I have";
/// Before the count, in the groups after it.
pub const AND: &str = "and";
/// Before the coils.
pub const WITH: &str = "with";
/// Before the ohms.
pub const OF: &str = "of";
/// Before the watts.
pub const RATED: &str = "rated";
/// Under the field for the count.
pub const COUNT: &str = "drivers";
/// Under the field for the coils.
pub const COILS: &str = "voice coils";
/// Under the field for the ohms.
pub const OHMS: &str = "ohms of one coil";
/// Under the field for the watts.
pub const WATTS: &str = "continuous watts";
/// Under the field for whose watts these are.
pub const PER: &str = "rated per";
/// The choices of [`PER`].
#[must_use]
pub const fn per(coil: bool) -> &'static str {
    if coil { "coil" } else { "driver" }
}
/// Adds a group.
pub const ADD: &str = "Add drivers of another kind";
/// Removes a group.
pub const REMOVE: &str = "Remove";

/// What is folded away of a group, after its watts as typed where there are any.
#[must_use]
pub fn more(watts: &str, coil: bool) -> String {
    if watts.is_empty() {
        return "Rated watts, name, measured coils".to_owned();
    }
    [watts, " W per ", per(coil), ", name, measured coils"].concat()
}

/// Over the choice of coils that are left out.
pub const LEAVE_OUT: &str = "Leave a coil out";

/// Over the field for measured ohms.
pub const MEASURED: &str = "Measured coils";
/// Under that field.
pub const EACH: &str = "ohms, coil by coil";
/// About that field.
pub const MEASURED_HELP: &str = "What the meter read at each coil by itself, driver by driver, with a blank between: 3.6 3.7. Loads stay nominal; what the meter should read later is told by these.";

/// How many coils of each driver are left out, as a choice.
#[must_use]
pub const fn unused(count: usize) -> &'static str {
    match count {
        0 => "all coils used",
        1 => "one coil left out",
        2 => "two coils left out",
        _ => "three coils left out",
    }
}
