//! What a meter should read.

use coilwright_solver::meter::{Agreement, Foretold};

/// Ohms as a meter shows them, in tenths.
///
/// # Example
/// ```
/// assert_eq!(coilwright_words::english::meter::ohms(2.04), "2.0");
/// ```
#[must_use]
pub fn ohms(ohms: f64) -> String {
    shown((ohms * 10.0 + 0.5).floor(), 1)
}

/// A figure as a meter shows it, with all its places: `parts` are counted in the last of them.
pub(super) fn shown(parts: f64, places: u32) -> String {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "casts saturate")]
    let parts = parts.max(0.0) as u64;
    let mut scale = 10_u64.pow(places);
    let mut text = (parts / scale).to_string();
    text.push('.');
    while scale > 1 {
        scale /= 10;
        text.push_str(&(parts / scale % 10).to_string());
    }
    text
}

/// From the least to the most, so that nothing between them is left out.
pub(super) fn from_to(low: f64, high: f64, places: u32) -> String {
    let scale = f64::from(10_u32.pow(places));
    let mut text = shown((low * scale + 1e-6).floor(), places);
    text.push_str(" to ");
    text.push_str(&shown((high * scale - 1e-6).ceil(), places));
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
    from_to(foretold.low, foretold.high, 1)
}

/// Whether a reading is right, in a word.
#[must_use]
pub const fn agreement(agreement: Agreement) -> &'static str {
    match agreement {
        Agreement::Right => "right",
        Agreement::TooLow => "too low",
        Agreement::TooHigh => "too high",
        Agreement::Open => "nothing joined",
        Agreement::Unlike => "unlike its group",
        Agreement::LeadsFirst => "leads first",
        Agreement::Coarse => "too coarse",
        Agreement::Doubtful => "doubtful",
    }
}

/// What a reading that is not right may mean: the easy causes first. A hint where to
/// look, no verdict on a product.
#[must_use]
pub const fn may_mean(agreement: Agreement) -> &'static str {
    match agreement {
        Agreement::Right => "",
        Agreement::TooLow => {
            "Is a cable still on the amplifier? Else look for a run on the wrong terminal, parts in parallel that should be in series, or strands that touch."
        }
        Agreement::TooHigh => {
            "Does the reading drift, or was a coil just played? Else look for a loose joint, a run that is missing, or parts in series that should be in parallel."
        }
        Agreement::Open => {
            "Are the probes in the right sockets and on bare metal? Else look for a run that is missing or a coil that is open."
        }
        Agreement::Unlike => {
            "Its label allows it, but the other coils of its group read otherwise: compare the labels, and let a coil that was just played cool."
        }
        Agreement::LeadsFirst => {
            "At so few ohms the leads decide: touch the probes together and enter what they read at that step."
        }
        Agreement::Coarse => {
            "Whole ohms may be off by two, which is too much for so few: enter tenths, such as 2.0."
        }
        Agreement::Doubtful => {
            "A sound rig may read this, but something wrong explains it better: what that may be, and what to read next to settle it, stands below."
        }
    }
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
