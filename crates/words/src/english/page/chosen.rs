//! Headings and lines of the chosen configuration.

/// Over the panel while nothing was chosen: what it shows then.
pub const FIRST: &str = "Ranked first";
/// Over the panel.
pub const CHOSEN: &str = "Chosen";
/// Back to the list.
pub const BACK: &str = "All configurations";
/// Row: the load.
pub const LOAD: &str = "Load";
/// Row: what the amplifier can give.
pub const AVAILABLE: &str = "Amplifier gives";
/// Row: what the coils take.
pub const USABLE: &str = "Coils take";
/// Row: what the rig gives.
pub const TARGET: &str = "Drivers get";
/// Row: the runs.
pub const RUNS: &str = "Runs of wire";
/// Row: the network.
pub const NETWORK: &str = "Network";
/// How a network is read.
pub const READ: &str = "1a is coil a of driver 1; + joins in series, ∥ in parallel.";
/// Over the table of drivers.
pub const DRIVERS: &str = "What each driver gets";
/// Its columns.
pub const DRIVER: &str = "Driver";
/// Its columns.
pub const SHARE: &str = "Share";
/// Its columns.
pub const POWER: &str = "Power";
/// Where coils are even.
pub const EVEN: &str = "Even: every coil gets the same fraction of its rating.";
/// Where they do on each of several outputs, whose levels are set apart.
pub const EVEN_ON_EACH: &str =
    "Even: on each output every coil gets the same fraction of its rating.";
/// Where they are not.
pub const UNEVEN: &str = "Uneven: some coils get more of their rating than others, so the rig reaches less than the sum of its ratings.";
/// Where a driver's coils are joined.
pub const JOINED: &str = "Each driver's own coils are joined at the driver first.";
/// Where they are not.
pub const NOT_JOINED: &str =
    "Coils of different drivers are joined to each other: more cables between the drivers.";
/// Over the cautions.
pub const BEFORE: &str = "Before you wire it";

/// The heading of outputs that stand alike: `Channels 1 to 4, each`.
#[must_use]
pub fn on_each(names: &str, outputs: usize) -> String {
    let names = super::heading(names);
    if outputs > 1 { format!("{names}, each") } else { names }
}
