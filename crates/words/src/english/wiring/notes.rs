//! What is worth knowing of a plan as a whole.

use super::{MARKS, Wording};
use crate::english::{listed, rig as rig_words, sentence};
use coilwright_solver::rig::Fed;
use coilwright_solver::wiring::Size;

impl Wording<'_> {
    /// What is worth knowing of the plan as a whole, in sentences.
    #[must_use]
    pub fn notes(&self) -> Vec<String> {
        let mut notes = Vec::new();
        if self.plan.joined_at_amplifier {
            notes.push(
                "What is in parallel is joined at the tied terminal pairs of the amplifier rather than at the box, which is equal; the reading with the power off decides whether they are tied."
                    .to_owned(),
            );
        }
        if self.plan.star_refused {
            notes.push(
                "A star was asked for, but some terminal takes too few conductors for it: what hangs there is fed in another way."
                    .to_owned(),
            );
        }
        notes.extend(self.imbalance());
        let mut facing = Vec::new();
        for driver in &self.plan.mounted_reversed {
            facing.push(self.driver(*driver));
        }
        if let Some(who) = several(&facing) {
            notes.push(format!(
                "{who} mounted facing in on purpose: + and − are exchanged there, and the cone moves the other way."
            ));
        }
        let mut open = Vec::new();
        for coil in &self.plan.open {
            open.push(format!("coil {coil}"));
        }
        if let Some(who) = several(&open) {
            notes.push(format!(
                "{who} left out on purpose: every end is insulated by itself, never shorted."
            ));
        }
        notes
    }

    fn imbalance(&self) -> Option<String> {
        let imbalance = self.plan.imbalance?;
        let decibels = imbalance.decibels;
        if imbalance.size() == Size::None {
            return Some("The resistance of the wire feeds all drivers alike.".to_owned());
        }
        let least = rig_words::driver(imbalance.least);
        if imbalance.size() == Size::Small {
            return Some(format!(
                "The resistance of the wire feeds the drivers unequally, but by less than 0.1 dB, which is small: {least} gets least."
            ));
        }
        // To the nearest hundredth, as three digits would promise too much.
        let shown = MARKS.short((decibels * 100.0).round() / 100.0);
        let less = match self.build.fed {
            Fed::Chain => "A star or a larger conductor makes that less.",
            Fed::Star => "A larger conductor makes that less.",
        };
        Some(format!(
            "The resistance of the wire feeds the drivers unequally: {least} gets least, {shown} dB below the one that gets most. {less}"
        ))
    }
}

/// `Driver 2 is`, `Drivers 2 and 3 are`; nothing for nobody.
fn several(names: &[String]) -> Option<String> {
    let are = match names.len() {
        0 => return None,
        1 => "is",
        _ => "are",
    };
    Some(format!("{} {are}", sentence(&listed(names, "and"))))
}
