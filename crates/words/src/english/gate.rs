//! The gate before power, in words.

use super::meter;
use coilwright_solver::meter::Agreement;

/// In place of the step's own heading, until every reading agrees.
pub const DO_NOT: &str = "Do not power on";
/// Below it, before a cable is landed.
pub const LAND_NOTHING: &str = "Land no cable until these agree. Tap one to go there.";
/// Below it, before the power comes on.
pub const UNTIL: &str = "Not until these agree. Tap one to go there.";
/// What was not read; ticking a step off is no reading.
pub const NOT_TAKEN: &str = "not taken";
/// What was typed and is no reading.
pub const MISREAD: &str = "cannot be read";
/// A 1 that may mean over range.
pub const LONE_ONE: &str = "1 Ω, or over range?";
/// Over the way on.
pub const ALL_THE_SAME: &str = "Going on all the same";
/// The field for it.
pub const WHY: &str = "why you go on, and who answers for it";
/// What becomes of it.
pub const WHY_HELP: &str = "In words, at least four letters. They stand on the job sheet and beside the saved rig. The makers' manuals and a qualified installer come first.";
/// Goes on.
pub const GO_ON: &str = "Go on against the meter";
/// Takes that back.
pub const TAKE_BACK: &str = "Take that back";
/// Puts OL into the field of a reading.
pub const OL: &str = "OL";
/// Beside a 1 that may mean over range (common practice, no source).
pub const ASK_ONE: &str = "Many meters show a single 1 where they mean over range. Which is it?";
/// It is ohms.
pub const IS_ONE: &str = "1 ohm: type 1.0";
/// It is over range.
pub const IS_OPEN: &str = "over range: OL";

/// The key that puts OL into a field, for who cannot see what is around it.
///
/// # Example
/// ```
/// use coilwright_words::english::gate::ol_for;
/// assert_eq!(ol_for("probes touching"), "OL, over range or open: probes touching");
/// ```
#[must_use]
pub fn ol_for(field: &str) -> String {
    let mut text = String::from("OL, over range or open: ");
    text.push_str(field);
    text
}

/// Why a reading keeps the gate shut, in a phrase; where it must be open, something touches.
#[must_use]
pub const fn reads(agreement: Agreement, open: bool) -> &'static str {
    match agreement {
        Agreement::TooLow if open => super::finding::NOT_OPEN,
        agreement => meter::agreement(agreement),
    }
}

/// What keeps the gate shut: its step, what is read there, what was typed, and why.
///
/// # Example
/// ```
/// use coilwright_words::english::gate::{NOT_TAKEN, stop};
/// assert_eq!(stop(9, "Check the cup", "0.2", "too low"), "9. Check the cup: 0.2, too low");
/// assert_eq!(stop(9, "Check the cup", "", NOT_TAKEN), "9. Check the cup: not taken");
/// ```
#[must_use]
pub fn stop(step: u32, title: &str, typed: &str, why: &str) -> String {
    let mut text = step.to_string();
    text.push_str(". ");
    text.push_str(title);
    text.push_str(": ");
    if !typed.is_empty() {
        text.push_str(typed);
        text.push_str(", ");
    }
    text.push_str(why);
    text
}

/// That somebody goes on against the meter, with what was said.
///
/// # Example
/// ```
/// use coilwright_words::english::gate::went;
/// assert_eq!(went("Ann answers"), "Power on against the meter: “Ann answers”");
/// ```
#[must_use]
pub fn went(words: &str) -> String {
    let mut text = String::from("Power on against the meter: “");
    text.push_str(words);
    text.push('”');
    text
}

/// How many readings keep the gate shut, as it is read aloud.
///
/// # Example
/// ```
/// use coilwright_words::english::gate::count;
/// assert_eq!(count(1), "One reading is wrong, in doubt or not taken.");
/// assert_eq!(count(3), "3 readings are wrong, in doubt or not taken.");
/// ```
#[must_use]
pub fn count(stops: usize) -> String {
    if stops == 1 {
        return "One reading is wrong, in doubt or not taken.".to_owned();
    }
    let mut text = super::MARKS.whole(u128::try_from(stops).unwrap_or(u128::MAX));
    text.push_str(" readings are wrong, in doubt or not taken.");
    text
}
