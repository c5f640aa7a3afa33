//! Configurations side by side.

/// Over the table.
pub const HEADING: &str = "Side by side";
/// Puts a configuration aside.
pub const ADD: &str = "Compare";
/// Once it is put aside.
pub const ADDED: &str = "Compared ✓";
/// Takes a column away.
pub const REMOVE: &str = "Remove";
/// While there is nothing.
pub const EMPTY: &str = "Nothing to compare yet: press “Compare” on up to four configurations. \
    They may belong to different rigs.";
/// How the table is read.
pub const READ: &str = "Rows in which they differ are marked ≠. The link holds this comparison.";
/// After the table, while there is room.
pub const MORE: &str = "Up to four stand side by side. Change the rig and add from there: \
    each keeps the rig that it belongs to.";
/// After the table, where it is full.
pub const FULL: &str = "Four stand side by side: remove one to add another.";
/// To the list.
pub const BACK_FOR_MORE: &str = "Add from the list";
/// Beside the name of a row that differs.
pub const DIFFERS: &str = " ≠";
/// A figure that is not known.
pub const UNKNOWN: &str = "not known";
/// The first column, which the others are measured against.
pub const FIRST: &str = "measured against this";

/// Rows.
pub const CIRCUIT: &str = "Circuit";
/// Row: the drivers and the amplifier.
pub const RIG: &str = "Rig";
/// Row: what the drivers are called.
pub const NAMES: &str = "Names";
/// Row: the load.
pub const LOAD: &str = "Load";
/// Row: the verdict.
pub const VERDICT: &str = "Amplifier";
/// Row: the network as written.
pub const NETWORK: &str = "Network";
/// Row: what hangs where.
pub const USE: &str = "In words";
/// Row: target power.
pub const TARGET: &str = "Drivers get in all";
/// Row: what each driver gets.
pub const EACH: &str = "Each driver gets";
/// Row: available power.
pub const GIVES: &str = "Amplifier gives";
/// Row: heat.
pub const HEAT: &str = "Heat";
/// Row: evenness.
pub const EVEN: &str = "Sharing";
/// Row: runs.
pub const RUNS: &str = "Wiring";
/// Row: what an open coil does.
pub const FAILS: &str = "If a coil opens";
/// Row: level.
pub const LEVEL: &str = "Level";

/// The button to the comparison: `Compare (2)`.
#[must_use]
pub fn button(count: usize) -> String {
    format!("Compare ({count})")
}

/// The heading of a column.
#[must_use]
pub fn number(number: usize) -> String {
    format!("No. {number}")
}

/// Evenness in a word.
#[must_use]
pub const fn even(even: bool) -> &'static str {
    if even { "even" } else { "uneven" }
}

/// Whether each driver's own coils are joined first.
#[must_use]
pub const fn joined(joined: bool) -> &'static str {
    if joined { "coils joined at the driver" } else { "cables between coils of different drivers" }
}
