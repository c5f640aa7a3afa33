//! What a right reading leaves open, in words.

use super::{MARKS, meter};
use coilwright_solver::meter::Finer;

/// Over what may be wrong, where nothing reads wrong and something is in doubt.
pub const TITLE: &str = "What is in doubt";
/// Before faults that a right reading does not exclude.
pub const NOT_EXCLUDED: &str = "Right does not exclude:";
/// Over a finer way to read.
pub const FINER: &str = "A reading that tells";
/// The same, where what right does not exclude stands behind it too.
pub const LEFT_OPEN: &str = "What right does not exclude";
/// Before what a finer reading should show, on paper.
pub const FINER_SHORT: &str = "finer ";
/// On paper, after a reading that is in doubt.
pub const MARK: &str = " ?";

/// How many faults are left out after those told: `And 3 more.`
///
/// # Example
/// ```
/// assert_eq!(coilwright_words::english::doubt::more(3), "And 3 more.");
/// ```
#[must_use]
pub fn more(count: usize) -> String {
    let mut text = String::from("And ");
    text.push_str(&MARKS.whole(u128::try_from(count).unwrap_or(u128::MAX)));
    text.push_str(" more.");
    text
}

/// What a finer reading should show: `0.24 to 0.37`.
///
/// # Example
/// ```
/// use coilwright_solver::meter::Finer;
/// let third = Finer { low: 0.2333, expected: 0.29, high: 0.35 };
/// assert_eq!(coilwright_words::english::doubt::range(&third), "0.23 to 0.35");
/// ```
#[must_use]
pub fn range(finer: &Finer) -> String {
    meter::from_to(finer.low, finer.high, 2)
}

/// How a finer reading is taken, and what it should show.
///
/// # Example
/// ```
/// use coilwright_solver::meter::Finer;
/// let third = Finer { low: 0.2333, expected: 0.29, high: 0.35 };
/// let text = coilwright_words::english::doubt::finer(&third);
/// assert!(text.contains("0.23 to 0.35 Ω is right, about 0.29 Ω is likely"));
/// assert!(text.contains("At 1 A that is as many volts."));
/// ```
#[must_use]
pub fn finer(finer: &Finer) -> String {
    let mut text = String::from(
        "Amplifier cables off. A 1.5 V cell through an ammeter (10 A socket) to where the probes go, no longer than it takes to read, never on a tweeter; a voltmeter by wires of its own on the same two terminals. Volts over amps: ",
    );
    text.push_str(&range(finer));
    text.push_str(" Ω is right, about ");
    text.push_str(&meter::shown((finer.expected * 100.0 + 0.5).floor(), 2));
    text.push_str(
        " Ω is likely, with no leads in it. At 1 A that is as many volts. Or a meter that shows hundredths, in series with a known 1 Ω resistor: read with the load and with the load bridged; the difference counts.",
    );
    text
}
