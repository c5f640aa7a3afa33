//! Whether a load fits, in a word with a sign that says the same; watts in short; putting a
//! configuration aside.

use crate::aside;
use crate::pen::{Pen, What};
use crate::words::{judged, page as say};
use coilwright_solver::answer::Configuration;
use coilwright_solver::given::driver_watts;
use coilwright_solver::judge::Verdict;
use coilwright_solver::rig::Rig;

/// The element of the entry of a configuration.
pub fn id_of(key: &str) -> String {
    let mut id = String::from("entry-");
    id.push_str(key);
    id
}

/// A sign for a verdict and the class that goes with it.
pub fn verdict_sign(of: Verdict) -> (&'static str, &'static str) {
    match of {
        Verdict::Fits => ("verdict verdict-fits", "✓"),
        Verdict::FitsByDerivation => ("verdict verdict-fits verdict-derived", "✓"),
        Verdict::NotStated => ("verdict verdict-unstated", "?"),
        Verdict::BelowStated | Verdict::TooLow => ("verdict verdict-low", "✕"),
    }
}

/// A verdict in words, with a sign that says the same.
pub fn verdict(pen: &mut Pen, of: Verdict) {
    let (class, sign) = verdict_sign(of);
    pen.open("span");
    pen.fixed("class", class);
    pen.line("span.sign|aria-hidden=true", sign);
    pen.line("span", judged::verdict(of));
    pen.close();
}

/// The watts of each driver once the level is set, in short.
pub fn watts(rig: &Rig, one: &Configuration) -> Option<String> {
    let each = driver_watts(rig, one, |output| output.target_watts)?;
    Some(say::watts_each(&each))
}

/// Puts a configuration aside to compare, or takes it back.
pub fn to_compare(pen: &mut Pen, class: &'static str, one: &Configuration) {
    let state = pen.state;
    let key = one.key();
    let compared = state.is_compared(&key);
    let full = state.aside.compared.len() >= aside::MOST;
    let mut name = String::from(say::compare::ADD);
    for output in &one.outputs {
        name.push(' ');
        name.push_str(&output.network.to_string());
    }
    pen.press(class, What::act(aside::Action::Compare(key)));
    pen.fixed("aria-pressed", if compared { "true" } else { "false" });
    pen.made("aria-label", name);
    if full && !compared {
        pen.fixed("disabled", "");
    }
    pen.text(if compared { say::compare::ADDED } else { say::compare::ADD });
    pen.close();
}
