//! What is to be bought, line by line.

use super::{MARKS, Wording, amps, stage};
use crate::english::counts::{counted, runs};
use crate::english::{add, listed};

/// What is said of, in the order of what terminals take and of ends.
const PLACES: [(&str, &str); 3] = [
    ("at drivers", "A terminal of a driver"),
    ("at cups", "A terminal of a cup"),
    ("at the amplifier", "A terminal of the amplifier"),
];

impl Wording<'_> {
    /// The list of parts: wire stage by stage, cups, splices, ends, caps, and the largest
    /// conductors that terminals take, where stated.
    #[must_use]
    pub fn parts(&self) -> Vec<String> {
        let mut lines = Vec::new();
        for (stage, mut line) in self.wire() {
            line.insert_str(0, &format!("Wire {stage}: "));
            add(&mut line, ", ", &self.conductor());
            lines.push(line);
        }
        lines.append(&mut self.fittings());
        lines
    }

    /// The wire stage by stage: `between drivers`, and `2 runs, 1 m in all, up to 15.8 A`.
    #[must_use]
    pub fn wire(&self) -> Vec<(&'static str, String)> {
        let mut lots = Vec::new();
        for lot in &self.plan.parts.lots {
            let mut line = format!("{}, {} m", runs(lot.runs), MARKS.short(lot.metres));
            if lot.runs > 1 {
                line.push_str(" in all");
            }
            if let Some(most) = lot.amps {
                add(&mut line, ", up to ", &amps(most));
            }
            lots.push((stage(lot.stage), line));
        }
        lots
    }

    /// What is to be bought beside wire.
    #[must_use]
    pub fn fittings(&self) -> Vec<String> {
        let parts = &self.plan.parts;
        let mut lines = Vec::new();
        if parts.cups > 0 {
            lines.push(counted(u128::from(parts.cups), "terminal cup", "terminal cups"));
        }
        // Splices for equally many conductors stand in one line.
        let mut sizes = parts.splices.clone();
        sizes.sort_unstable();
        while let Some(size) = sizes.first().copied() {
            let alike = sizes.iter().filter(|other| **other == size).count();
            sizes.drain(..alike);
            let count = u128::try_from(alike).unwrap_or(u128::MAX);
            let each = if alike > 1 { " each" } else { "" };
            lines.push(format!(
                "{} for {size} conductors{each}",
                counted(count, "splice", "splices")
            ));
        }
        let mut ends = Vec::new();
        for (count, (place, _)) in parts.ends.iter().zip(PLACES) {
            if *count > 0 {
                ends.push(format!("{count} {place}"));
            }
        }
        if !ends.is_empty() {
            lines.push(format!("Conductor ends: {}", listed(&ends, "and")));
        }
        if parts.caps > 0 {
            let caps = counted(u128::from(parts.caps), "insulating cap", "insulating caps");
            lines.push(format!("{caps} for coils left out"));
        }
        for ((takes, count), (_, terminal)) in self.build.takes.iter().zip(parts.ends).zip(PLACES) {
            if let Some(largest) = takes.largest_mm2.filter(|_| count > 0) {
                lines.push(format!("{terminal} takes up to {} mm²", MARKS.short(largest)));
            }
        }
        lines
    }

    /// The conductor that everything is reckoned with: `2.5 mm²`.
    #[must_use]
    pub fn conductor(&self) -> String {
        format!("{} mm²", MARKS.short(self.build.conductor_mm2))
    }
}
