//! What the drawing shows, for whoever does not see it.

use super::{Wording, rig_words};
use crate::english::{counts, sentence};
use coilwright_solver::answer::Way;

impl Wording<'_> {
    /// Of every output, the channels that are bridged in it, each by its number on its
    /// amplifier: `channel 1`; none where it is one channel.
    #[must_use]
    pub fn bridged_labels(&self) -> Vec<Vec<String>> {
        let each = self.rig.amplifier().map_or(1, |one| one.channels.len().max(1));
        let each = u32::try_from(each).unwrap_or(1);
        let mut labels = Vec::new();
        for output in &self.configuration.outputs {
            let mut own = Vec::new();
            if output.way == Some(Way::Bridged) {
                for channel in &output.channels {
                    let number = (channel.max(&1) - 1) % each + 1;
                    own.push(rig_words::channels(Some(Way::Apart), &[number]));
                }
            }
            labels.push(own);
        }
        labels
    }

    /// What is drawn: `As wired: (1a + 1b) ∥ (2a + 2b)`.
    #[must_use]
    pub fn drawing_title(&self) -> String {
        let outputs = &self.configuration.outputs;
        let mut text = crate::english::page::wire::AS_WIRED.to_owned();
        text.push_str(": ");
        for (i, (output, label)) in outputs.iter().zip(self.output_labels()).enumerate() {
            text.push_str(if i > 0 { "; " } else { "" });
            if outputs.len() > 1 {
                text.push_str(&format!("{label}: "));
            }
            text.push_str(&output.network.to_string());
        }
        text
    }

    /// What the drawing holds, how it is read, and where all of it stands in words.
    #[must_use]
    pub fn drawing_description(&self) -> String {
        let mut text = sentence(&rig_words::drivers(self.rig.drivers()));
        let cups = u128::try_from(self.plan.cups.len()).unwrap_or(0);
        if cups > 0 {
            text.push_str(", ");
            text.push_str(&counts::counted(cups, "terminal cup", "terminal cups"));
        }
        for (output, label) in self.configuration.outputs.iter().zip(self.output_labels()) {
            text.push_str(&format!(", {label} at {}", rig_words::load(output.load)));
        }
        let runs = u32::try_from(self.plan.runs.len()).unwrap_or(u32::MAX);
        text.push_str(&format!(
            "; {} of wire, each with its number. A positive run has a stripe, a negative one is \
             plain, one between parts in series is thin, and every terminal has its sign. \
             Runs that hop over each other do not touch. The steps tell each run in words.",
            counts::runs(runs)
        ));
        text
    }
}
