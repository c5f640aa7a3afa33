//! An ohmmeter of 3½ digits in its range to 200 Ω: it shows tenths.

use super::dice::Dice;
use serde_json::{Value, json};

/// Above this it says that nothing joins the probes.
pub const RANGE: f64 = 199.9;

/// What a meter shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shown {
    /// Ohms in tenths, the leads in them.
    Ohms(f64),
    /// Nothing joins the probes.
    Open,
}

impl Shown {
    /// As `diagnose` takes it.
    pub fn json(self) -> Value {
        match self {
            Self::Ohms(ohms) => json!(ohms),
            Self::Open => json!("open"),
        }
    }
}

/// A reading within ±1 % ± 2 counts of what is there. The last half count is the rounding.
pub fn show(ohms: Option<f64>, dice: &mut Dice) -> Shown {
    let share = dice.between(-0.01, 0.01);
    let counts = dice.between(-1.5, 1.5);
    rounded(ohms.map(|ohms| ohms * (1.0 + share) + 0.1 * counts))
}

/// The probes touching: what the meter's own zero is off by is in the leads, so that only the
/// rounding is left.
pub fn touched(leads: f64) -> Shown {
    rounded(Some(leads))
}

fn rounded(ohms: Option<f64>) -> Shown {
    match ohms {
        Some(ohms) if ohms <= RANGE => Shown::Ohms((ohms.max(0.0) * 10.0).round() / 10.0),
        _ => Shown::Open,
    }
}
