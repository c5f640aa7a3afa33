//! What the page says by itself: headings, buttons, notices, and the lines of an entry.

pub mod already;
pub mod amplifier;
pub mod chosen;
pub mod compare;
pub mod drivers;
pub mod ladder;
pub mod list;
pub mod rigs;
pub mod room;
pub mod sheet;
pub mod undo;
pub mod wire;

use super::counts::counted;
use super::{MARKS, listed, rig, sentence, watts};
use coilwright_solver::answer::Output;
use coilwright_solver::judge::Verdict;
use coilwright_solver::ohms::Ohms;
pub use rig::numbered;

/// The heading over the fields.
pub const RIG: &str = "The rig";
/// The heading over the list.
pub const LIST: &str = "Ways to wire it";
/// The heading over the amplifier's fields.
pub const AMPLIFIER: &str = "Amplifier";

/// Shows the example.
pub const SHOW_EXAMPLE: &str = "Example";
/// Empties the fields.
pub const START_EMPTY: &str = "Start empty";
/// The help.
pub const HELP: &str = "Help";
/// Draws the page for bright sun.
pub const SUN: &str = "Sun";
/// The usual values of a field, to choose from.
pub const USUAL: &str = "usual";
/// That nothing fits.
pub const NONE_FITS: &str = "No configuration fits this amplifier";
/// What one leaves with.
pub const LEAD: &str = "What to join to what, what the meter must read, how far to turn it up.";
/// Says that the page shows an example.
pub const EXAMPLE_TAG: &str = "Example";
/// What the example is.
pub const EXAMPLE: &str = "Marigold, a carnival float. Type a value and the rig is yours.";

/// A comma that could be a decimal comma or mark thousands.
pub const COMMA: &str =
    "The comma can be read in two ways. Leave it out for thousands, or write a decimal point.";

/// Before the list of what is missing.
pub const STILL_NEEDED: &str = "Still needed";
/// Before the list of what is wrong.
pub const PUT_RIGHT: &str = "To put right first";
/// While nothing has been answered yet and nothing is wrong but missing.
pub const EMPTY: &str = "Fill in the drivers, and every way to join their coils is listed here.";
/// Beside an answer whose question has changed.
pub const EARLIER: &str = "This answer belongs to the values before your last change.";
/// Stops the listing.
pub const STOP: &str = "Stop";
/// While the listing is stopped.
pub const STOPPED: &str = "Stopped before the list was complete.";
/// Takes the listing up again.
pub const GO_ON: &str = "List it after all";
/// After the page stopped on this very question.
pub const WAITING: &str =
    "The page stopped while it worked on these values. They are kept; change them, or try again.";
/// Tries again.
pub const TRY_AGAIN: &str = "Try again";
/// Reads and hides a notice.
pub const DISMISS: &str = "Hide";
/// A newer version of the page is ready.
pub const NEWER: &str = "A new version of the page is ready. What you entered stays.";
/// Opens it.
pub const USE_NEWER: &str = "Use it now";
/// The page is kept on the device.
pub const KEPT: &str = "Kept on this device: it opens with no network.";

/// Nothing typed can be kept on this device.
pub const NOT_KEPT: &str = "This browser does not let the page keep what you type. Its link holds all of it: copy the link under “Rigs” or in the plan to keep the rig.";
/// There is no space left for what is typed.
pub const FULL: &str = "This browser's storage for the page is full, so what you type is not kept. Its link holds all of it: copy the link under “Rigs” or in the plan to keep the rig.";
/// The chosen configuration is gone.
pub const KEY_UNKNOWN: &str =
    "The configuration chosen before is not in this list, so none is chosen now.";
/// Where nothing is even.
pub const UNEVEN_SHOWN: &str = "No configuration gives every coil the same fraction of its rating. These are the uneven ones, with what each driver gets.";

/// Before the parts of a link that were left out.
pub const LINK_OPENED_IN_PART: &str = "The link was opened, except for";
/// A link of a version that this page does not know.
#[must_use]
pub fn link_version(version: &str) -> String {
    format!("what version {} may have added", cut(version))
}
/// A part of a link that nobody knows.
#[must_use]
pub fn link_unknown(name: &str) -> String {
    format!("an unknown part “{}”", cut(name))
}
/// A part of a link whose value cannot be.
#[must_use]
pub fn link_impossible(name: &str) -> String {
    format!("a part “{}” whose value cannot be", cut(name))
}
/// Too many parts of a kind in a link.
#[must_use]
pub fn link_too_many(name: &str) -> String {
    format!("those parts “{name}” that are too many")
}
/// A notice from parts.
#[must_use]
pub fn link_left_out(parts: &[String]) -> String {
    format!("{LINK_OPENED_IN_PART} {}.", listed(parts, "and"))
}

/// The group of filters.
pub const FILTERS: &str = "Show";
/// The filter on joining.
pub const JOINED_ONLY: &str = "joined only";
/// What it does.
pub const JOINED_ONLY_MEANS: &str = "each driver's own coils joined first";
/// The filter on evenness.
pub const EVEN_ONLY: &str = "even only";
/// What it does.
pub const EVEN_ONLY_MEANS: &str = "no coil works harder than another";
/// The count over the list: `4 of 16`.
///
/// # Example
/// ```
/// use coilwright_words::english::page::count;
/// assert_eq!(count(4, Some(16)), "4 of 16");
/// assert_eq!(count(4, None), "4 of more than 300,000");
/// ```
#[must_use]
pub fn count(total: u64, before_filters: Option<u64>) -> String {
    let most = coilwright_solver::bounds::MOST_CONFIGURATIONS;
    let total = MARKS.whole(u128::from(total));
    match before_filters {
        Some(before) => format!("{total} of {}", MARKS.whole(u128::from(before))),
        None => format!("{total} of more than {}", MARKS.whole(u128::from(most))),
    }
}

/// What the count is of: `configurations, 3 loads`.
#[must_use]
pub fn count_of(loads: usize) -> String {
    if loads == 0 {
        return "configurations".to_owned();
    }
    let loads = u128::try_from(loads).unwrap_or(u128::MAX);
    format!("configurations, {}", counted(loads, "load", "loads"))
}

/// The first entry by rank.
pub const RANKED_FIRST: &str = "ranked first";
/// What the first entry by rank is called; nothing where it does not fit, for a rank is no
/// advice to use it.
#[must_use]
pub const fn ranked(rank: u32, verdict: Verdict) -> Option<&'static str> {
    if rank == 1 && !verdict.is_low() { Some(RANKED_FIRST) } else { None }
}
/// Before the power on an entry, where drivers get unlike amounts.
pub const UNEVEN: &str = "uneven";
/// Where the power is not known.
pub const POWER_UNKNOWN: &str = "power not known";
/// Over the list: what the power on an entry is.
pub const LEVEL_SET: &str = "Watts are what each driver gets once the level is set.";

/// The watts of each driver in short: `500 W each`, `75 to 300 W each`.
///
/// # Example
/// ```
/// use coilwright_words::english::page::watts_each;
/// assert_eq!(watts_each(&[500.0, 500.0]), "500 W each");
/// assert_eq!(watts_each(&[300.0]), "300 W");
/// assert_eq!(watts_each(&[300.0, 75.0]), "75 to 300 W each");
/// ```
#[must_use]
pub fn watts_each(each: &[f64]) -> String {
    let least = each.iter().copied().min_by(f64::total_cmp).unwrap_or(0.0);
    let most = each.iter().copied().max_by(f64::total_cmp).unwrap_or(0.0);
    match each {
        [only] => watts(*only),
        _ => {
            let (low, high) = (MARKS.short(least), MARKS.short(most));
            if low == high { format!("{high} W each") } else { format!("{low} to {high} W each") }
        }
    }
}

/// The amount that can be given to each driver where the level is not set.
#[must_use]
pub fn more_than_taken(each: &[f64]) -> String {
    format!("The amplifier can give {}: set the level, or the coils overheat.", watts_each(each))
}

/// The sentence of the target: what each driver gets.
#[must_use]
pub fn target(each: &[f64]) -> String {
    format!("Up to {} once the level is set.", watts_each(each))
}

/// A load as it is shown large: the load itself and, for a fraction, its decimal.
///
/// # Example
/// ```
/// use coilwright_solver::ohms::{Ohms, Ratio};
/// use coilwright_words::english::page::load_lines;
/// let load = Ohms::new(Ratio::new(4, 3).unwrap());
/// assert_eq!(load_lines(load), ("4/3 Ω".to_owned(), Some("≈ 1.33 Ω".to_owned())));
/// ```
#[must_use]
pub fn load_lines(load: Ohms) -> (String, Option<String>) {
    let text = super::rig::load(load);
    match text.split_once('≈') {
        Some(("", _)) | None => (text, None),
        Some((exact, near)) => {
            (exact.strip_suffix(' ').unwrap_or(exact).to_owned(), Some(format!("≈{near}")))
        }
    }
}

/// What can happen to a coil, said of the amplifier.
#[must_use]
pub fn amplifier_that(can: &str) -> String {
    format!("the amplifier {can}")
}

/// The strip at the bottom edge.
pub const STRIP: &str = "In short";
/// Shows the entry that the strip speaks of.
pub const LOOK: &str = "Look closer";
/// Beside a figure whose question has changed.
pub const EARLIER_SHORT: &str = "before your change";

/// What an output gets, short: `4 Ω, 150 W`, for several alike `4 Ω, 150 W each`.
#[must_use]
pub fn output_gets(output: &Output, alike: usize) -> String {
    let mut text = rig::short_load(output.load);
    if let Some(target) = output.target_watts {
        text.push_str(", ");
        text.push_str(&watts(target));
    }
    if alike > 1 {
        text.push_str(" each");
    }
    text
}

/// A heading from a phrase.
#[must_use]
pub fn heading(phrase: &str) -> String {
    sentence(phrase)
}

/// Text that stands alone, from a phrase that does not.
#[must_use]
pub fn alone(phrase: &str) -> String {
    format!("{}.", sentence(phrase))
}

/// At most 24 characters of something that someone else chose.
fn cut(name: &str) -> String {
    const MOST: usize = 24;
    if name.chars().count() <= MOST {
        return name.to_owned();
    }
    name.chars().take(MOST).chain(['…']).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_link_left_out_is_one_sentence() {
        let parts = [link_unknown("colour"), link_too_many("drivers")];
        assert_eq!(
            link_left_out(&parts),
            "The link was opened, except for an unknown part “colour” and those parts “drivers” that are too many."
        );
        let long = link_impossible(&"x".repeat(200));
        assert!(long.chars().count() < 80, "{long}");
    }

    #[test]
    fn drivers_are_numbered_as_people_say_it() {
        assert_eq!(numbered(Some((1, 1)), 1), "Driver 1");
        assert_eq!(numbered(Some((1, 2)), 1), "Drivers 1 and 2");
    }

    #[test]
    fn watts_that_look_alike_are_told_once() {
        assert_eq!(watts_each(&[379.6, 380.4]), "380 W each");
        assert_eq!(target(&[380.0, 380.0]), "Up to 380 W each once the level is set.");
        assert_eq!(alone("fits"), "Fits.");
    }
}
