//! The list of configurations.

use crate::english::MARKS;
use crate::english::counts::counted;

/// Before the choice of the order.
pub const ORDER: &str = "Order";
/// The order by rank.
pub const BEST_FIRST: &str = "best first";
/// The order by load.
pub const BY_LOAD: &str = "highest load first";
/// The order by target power.
pub const BY_POWER: &str = "most power first";
/// The order by runs.
pub const BY_RUNS: &str = "fewest runs first";
/// The pages of the list.
pub const PAGES: &str = "Pages of the list";
/// Turns to the page before.
pub const EARLIER_PAGE: &str = "Back";
/// Turns to the next page.
pub const LATER_PAGE: &str = "Next";
/// Between the loads of several outputs.
pub const AND: &str = "and";
/// From one load to all of them.
pub const EVERY_LOAD: &str = "Show all loads";
/// From one group to all of them.
pub const ALL_GROUPS: &str = "Back to one of each";

/// Over the list of one load.
#[must_use]
pub fn at_load(load: &str) -> String {
    format!("Only {load}")
}

/// How many there are in the list: each, or one of each kind.
#[must_use]
pub fn rows(rows: u64, grouped: bool) -> String {
    let one = if grouped { "kind" } else { "configuration" };
    let many = if grouped { "kinds" } else { "configurations" };
    let count = counted(u128::from(rows), one, many);
    if grouped { format!("{count} of load and sharing, one of each first") } else { count }
}

/// Over the list of one group.
#[must_use]
pub fn group(rows: u64) -> String {
    let count = MARKS.whole(u128::from(rows));
    format!("These {count} have the same load and share the power in the same way.")
}

/// Opens the others of a group.
#[must_use]
pub fn alike(count: u64) -> String {
    format!("One of {} alike: show all", MARKS.whole(u128::from(count)))
}

/// Which entries are on this page of the list.
///
/// # Example
/// ```
/// assert_eq!(coilwright_words::english::page::list::range(26, 50, 130), "26 to 50 of 130");
/// ```
#[must_use]
pub fn range(first: u64, last: u64, of: u64) -> String {
    let whole = |n: u64| MARKS.whole(u128::from(n));
    format!("{} to {} of {}", whole(first), whole(last), whole(of))
}
