//! Headings and lines of the chosen configuration.

use coilwright_solver::answer::Configuration;
use coilwright_solver::judge::Verdict;

/// Over the panel while nothing was chosen: what it shows then.
pub const FIRST: &str = "Ranked first";
/// The same where it does not fit: the first of a list is no advice then.
pub const FIRST_OF_NONE: &str = "First in the list: does not fit";
/// Over the panel.
pub const CHOSEN: &str = "Chosen";
/// Back to the list.
pub const BACK: &str = "All configurations";
/// Row: what the amplifier can give.
pub const AVAILABLE: &str = "Amplifier gives";
/// Row: what the coils take.
pub const USABLE: &str = "Coils take";
/// Row: what the rig gives.
pub const TARGET: &str = "Drivers get";
/// Row: the runs.
pub const RUNS: &str = "Runs of wire";
/// How a network is read.
pub const READ: &str = "1a is coil a of driver 1; + joins in series, ∥ in parallel.";
/// Over the table of drivers.
pub const DRIVERS: &str = "What each driver gets";
/// Over what happens when a coil fails.
pub const IF_A_COIL_FAILS: &str = "If a coil fails";
/// Chooses the configuration that is shown.
pub const TAKE: &str = "Choose this one";
/// Names the drawing.
pub const CIRCUIT: &str = "Circuit";
/// At the end of the bars: all of a coil's rating.
pub const RATING: &str = "rating";
/// The same where ratings or power are not known: what the hottest coil gets.
pub const HOTTEST: &str = "hottest";

/// Over the panel while nothing was chosen.
#[must_use]
pub const fn first(verdict: Verdict) -> &'static str {
    if verdict.is_low() { FIRST_OF_NONE } else { FIRST }
}

/// What a driver gets: `driver 1: 300 W`.
#[must_use]
pub fn driver_gets(number: usize, gets: &str) -> String {
    format!("driver {number}: {gets}")
}

/// The drawing in words.
#[must_use]
pub fn drawing(one: &Configuration) -> String {
    let mut text = String::from("Circuit: ");
    for (i, output) in one.outputs.iter().enumerate() {
        if i > 0 {
            text.push_str("; ");
        }
        text.push_str(&output.network.to_string());
    }
    text
}

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
