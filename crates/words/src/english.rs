//! English.
//!
//! - [`fields`]: what each field is called and what it takes
//! - [`problems`]: what is wrong with a request and what to do about it
//! - [`rig`]: drivers, loads, channels
//! - [`ways`]: how the channels are used and what hangs on them
//! - [`judged`]: verdicts, power, heat
//! - [`counts`]: how many there are
//! - [`failure`]: what one failed coil does to the others
//! - [`level`]: how much louder
//! - [`nearest`]: changes that would make something fit
//! - [`closed_box`]: what one reading at a cup hints at
//! - [`doubt`]: what a right reading leaves open
//! - [`gate`]: what stands before power, and the way on against it
//! - [`wiring`]: terminals, runs, steps, notes and parts of a plan
//! - [`names`]: what people call their drivers
//! - [`page`]: headings, buttons and notices of the page
//! - [`help`]: what everything means
//! - [`cautions`]: where the work can hurt, and what is out of scope
//!
//! Text that may stand alone starts with a capital letter and ends with a full stop;
//! words and phrases that stand beside a figure or within a line do neither.

pub mod cautions;
pub mod closed_box;
pub mod counts;
pub mod defects;
pub mod doubt;
pub mod failure;
pub mod fields;
pub mod finding;
pub mod gate;
pub mod help;
pub mod judged;
pub mod level;
pub mod meter;
pub mod names;
pub mod nearest;
pub mod page;
pub mod problems;
pub mod rig;
pub mod ways;
pub mod wiring;

use crate::figures::Marks;

/// How English marks numbers.
pub const MARKS: Marks = Marks { decimal: '.', group: ',' };

/// A power: `62.5 W`.
///
/// # Example
/// ```
/// assert_eq!(coilwright_words::english::watts(370.79), "371 W");
/// ```
#[must_use]
pub fn watts(watts: f64) -> String {
    format!("{} W", MARKS.short(watts))
}

/// A share of the whole: `25 %`, or `less than 0.1 %`.
///
/// # Example
/// ```
/// assert_eq!(coilwright_words::english::percent(0.25), "25 %");
/// assert_eq!(coilwright_words::english::percent(2.0 / 3.0), "66.7 %");
/// ```
#[must_use]
pub fn percent(share: f64) -> String {
    let hundredths = share * 100.0;
    if hundredths > 0.0 && hundredths < 0.1 {
        return "less than 0.1 %".to_owned();
    }
    format!("{} %", MARKS.short(hundredths))
}

/// `a`, `a or b`, `a, b or c`.
fn listed<T: AsRef<str>>(items: &[T], last: &str) -> String {
    match items {
        [] => String::new(),
        [only] => only.as_ref().to_owned(),
        [first @ .., end] => {
            let mut text = String::new();
            for item in first {
                add(&mut text, ", ", item.as_ref());
            }
            for part in [" ", last, " ", end.as_ref()] {
                text.push_str(part);
            }
            text
        }
    }
}

/// Adds one more to a line, with something between.
fn add(text: &mut String, between: &str, more: &str) {
    if !text.is_empty() {
        text.push_str(between);
    }
    text.push_str(more);
}

/// With a capital letter in front.
fn sentence(text: &str) -> String {
    // Phrases begin in plain letters; the tables of all alphabets would cost every visitor.
    let mut text = text.to_owned();
    if let Some(first) = text.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    text
}
