//! Finding what is wrong, in words.

use super::MARKS;
use coilwright_solver::meter::{Fit, Odds, Question};
use coilwright_solver::wiring::Sign;

/// Over what readings say.
pub const TITLE: &str = "What is wrong";
/// Over the easy causes.
pub const FIRST: &str = "First, the easy causes";
/// Over the first explanation.
pub const LIKELIEST: &str = "What explains it best";
/// Over the next reading.
pub const NEXT: &str = "Read next";
/// Draws what was probably built.
pub const DRAW: &str = "Show it as built";
/// Takes that drawing away: the plan stands in its place as ever.
pub const DRAW_PLAN: &str = "Hide it";
/// Over the drawing of what was probably built.
pub const AS_BUILT: &str = "As it was probably built";
/// Below the plan with what may be wrong.
pub const LEGEND: &str = "A ring with ? stands at what is most likely wrong.";
/// Below what was probably built.
pub const LEGEND_BUILT: &str =
    "A ring with ? stands at what is other than planned; a dashed run is missing.";
/// One of several that nothing tells apart.
pub const ALIKE: &str = "No reading tells these apart:";
/// Where one explanation is left.
pub const FOUND: &str =
    "The readings leave one explanation. Look there, put it right, and read again.";
/// Where nothing tells the rest apart.
pub const NO_MORE: &str = "No further reading tells the rest apart: look at each of these.";
/// Where ohms cannot decide.
pub const POLARITY: &str = "Ohms cannot decide between a sound rig and one with a coil the wrong way round. Check polarity coil by coil: amplifier cables off, a 1.5 V cell touched + to + for under a second; every cone must move the same way, and a driver whose own coils are joined must jump at least as clearly. No movement may be a flat cell or a bad contact, else it is a reversed coil: do not power it before that is known. Never on a tweeter or through a capacitor.";
/// Beside every finding.
pub const A_HINT: &str = "A finding is a hint where to look, no verdict on a product.";
/// Where a reading does not stand still.
pub const DRIFTS: &str = "A reading that drifts means a moving cone or a poor contact: wait, or press harder. A coil just played reads high.";
/// Over the panel while the last of the readings is typed that leave nothing wrong.
pub const OVER: &str = "Nothing reads wrong now";
/// Over what was asked for and is being answered.
pub const JUST_READ: &str = "Just read";
/// Over what was read for it.
pub const READ_SO_FAR: &str = "Read so far";
/// Takes those back.
pub const FORGET: &str = "Forget these readings";
/// Over the coils.
pub const COILS: &str = "Leads and coils";
/// What the form is for.
pub const COILS_HELP: &str =
    "Read these before anything is joined: every later reading is then foretold more closely.";
/// The field of the leads.
pub const LEADS: &str = "probes touching";
/// The field of a point that is read in search of a fault.
pub const THERE: &str = "the meter reads there";
/// Every terminal of a driver against its basket.
pub const BASKET: &str = "to the basket";
/// From one of two tied pairs of the amplifier to the other.
#[must_use]
pub const fn tied(sign: Sign) -> &'static str {
    match sign {
        Sign::Plus => "from + to +",
        Sign::Minus => "from − to −",
    }
}

/// Where pairs that should be tied are not.
pub const NOT_TIED: &str = "These pairs are not one output as they stand: is a switch between them set to both? Else this plan is not for them.";
/// Where nothing joins the probes.
pub const MUST_BE_OPEN: &str = "It must be open: OL.";
/// Where a reading should be open and is not.
pub const NOT_OPEN: &str = "something touches";
/// Yes.
pub const YES: &str = "Yes";
/// No.
pub const NO: &str = "No";

/// An easy cause, as a question that is well answered by yes.
#[must_use]
pub const fn question(question: Question) -> &'static str {
    match question {
        Question::AmplifierOff => "Is every cable off the amplifier?",
        Question::MeterRight => {
            "Are the leads in the right sockets and the tips on bare metal, and does a coil or resistor that you know read right?"
        }
        Question::Cool => "Have the coils cooled since they were played?",
    }
}

/// What is done where a question is answered by no.
#[must_use]
pub const fn put_right(question: Question) -> &'static str {
    match question {
        Question::AmplifierOff => "Power off, lift the cables, and read again.",
        Question::MeterRight => "Put that right, touch the probes together, and read again.",
        Question::Cool => "Let them cool, and read again.",
    }
}

/// How well an explanation fits.
#[must_use]
pub const fn fit(fit: Fit) -> &'static str {
    match fit {
        Fit::Well => "fits every reading",
        Fit::Roughly => "fits roughly",
        Fit::Not => "contradicts a reading",
    }
}

/// How likely an explanation is: `about 7 in 10`.
///
/// # Example
/// ```
/// use coilwright_words::english::finding::likely;
/// assert_eq!(likely(0.68), "about 7 in 10");
/// assert_eq!(likely(0.99), "almost certain");
/// assert_eq!(likely(0.02), "less than 1 in 20");
/// ```
#[must_use]
pub fn likely(share: f64) -> String {
    let tenths = match Odds::of(share) {
        Odds::Certain => return "almost certain".to_owned(),
        Odds::Rare => return "less than 1 in 20".to_owned(),
        Odds::Tenths(tenths) => tenths,
    };
    let mut text = String::from("about ");
    text.push_str(&MARKS.whole(u128::from(tenths)));
    text.push_str(" in 10");
    text
}

/// Explanations beside the first.
///
/// # Example
/// ```
/// assert_eq!(coilwright_words::english::finding::others(3), "Other explanations: 3");
/// ```
#[must_use]
pub fn others(count: usize) -> String {
    let mut text = String::from("Other explanations: ");
    text.push_str(&MARKS.whole(u128::try_from(count).unwrap_or(u128::MAX)));
    text
}

/// What a reading costs.
#[must_use]
pub const fn effort(effort: u8) -> &'static str {
    match effort {
        0..=1 => "outside the box",
        2..=10 => "inside the box",
        _ => "a joint is lifted",
    }
}
