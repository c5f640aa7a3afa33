//! What a meter should read.

use coilwright_solver::meter::Foretold;

/// Ohms as a meter shows them, in tenths.
///
/// # Example
/// ```
/// assert_eq!(coilwright_words::english::meter::ohms(2.04), "2.0");
/// ```
#[must_use]
pub fn ohms(ohms: f64) -> String {
    tenths((ohms * 10.0 + 0.5).floor())
}

fn tenths(tenths: f64) -> String {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "casts saturate")]
    let tenths = tenths.max(0.0) as u64;
    let mut text = (tenths / 10).to_string();
    text.push('.');
    text.push_str(&(tenths % 10).to_string());
    text
}

/// From the least to the most that is right: `1.4 to 2.6`.
///
/// # Example
/// ```
/// use coilwright_solver::meter::Foretold;
/// let two = Foretold { nominal: 2.0, expected: 2.0, low: 1.4, high: 2.6 };
/// assert_eq!(coilwright_words::english::meter::range(&two), "1.4 to 2.6");
/// ```
#[must_use]
pub fn range(foretold: &Foretold) -> String {
    let mut text = tenths((foretold.low * 10.0 + 1e-6).floor());
    text.push_str(" to ");
    text.push_str(&tenths((foretold.high * 10.0 - 1e-6).ceil()));
    text
}

/// What should be read, and what is done with it.
///
/// # Example
/// ```
/// use coilwright_solver::meter::Foretold;
/// use coilwright_words::english::meter::should_read;
/// let two = Foretold { nominal: 2.0, expected: 2.0, low: 1.4, high: 2.6 };
/// assert_eq!(
///     should_read(Some(two)),
///     "It should read about 2.0 Ω; 1.4 to 2.6 Ω is right, the leads in it. Write the reading down."
/// );
/// ```
#[must_use]
pub fn should_read(foretold: Option<Foretold>) -> String {
    let mut text = String::new();
    if let Some(foretold) = foretold {
        text.push_str("It should read about ");
        text.push_str(&ohms(foretold.expected));
        text.push_str(" Ω; ");
        text.push_str(&range(&foretold));
        text.push_str(" Ω is right, the leads in it. ");
    }
    text.push_str("Write the reading down.");
    text
}
