//! The job sheet: for whoever opens the box next.

/// The name of the rig.
pub const RIG: &str = "Rig";
/// Whose it is.
pub const CUSTOMER: &str = "Customer";
/// What it is in.
pub const VEHICLE: &str = "Vehicle";
/// Who did it.
pub const DONE_BY: &str = "Done by";
/// When.
pub const DATE: &str = "Date";
/// Over the fields of the head.
pub const HEAD: &str = "At the head of the sheet";
/// What becomes of what is typed there.
pub const HEAD_HELP: &str = "Kept with this rig and in its link. The printed code carries none of it. What is left empty is a line to write on.";

/// The outputs.
pub const OUTPUTS: &str = "Outputs";
/// What an output is loaded with.
pub const LOAD: &str = "Load";
/// What it gives at most once the level is set.
pub const POWER: &str = "Power";
/// What the meter shows at its terminals then.
pub const VOLTS: &str = "+ to −";
/// What it showed.
pub const AS_SET: &str = "As set";
/// How the volts are meant.
pub const VOLTS_ARE: &str = "With the level set, no more than these; RMS, with a tone.";

/// Wire of a size.
///
/// # Example
/// ```
/// assert_eq!(coilwright_words::english::page::sheet::wire("2.5 mm²"), "Wire, 2.5 mm²");
/// ```
#[must_use]
pub fn wire(size: &str) -> String {
    format!("Wire, {size}")
}

/// What the meter showed.
pub const READINGS: &str = "Readings";
/// Over where it was read.
pub const POINT: &str = "At";
/// Over what it should have shown, in ohms.
pub const SHOULD: &str = "Should read";
/// Over what it showed.
pub const DID: &str = "Did read";
/// Over whether that is right.
pub const VERDICT: &str = "Verdict";
/// How the readings are to be taken.
pub const IN_OHMS: &str = "Ohms, the leads in them, cables off the amplifier.";

/// The steps.
pub const STEPS: &str = "Steps";
/// Of a step that was ticked off, to who cannot see the tick.
pub const DONE: &str = "done";

/// Where the work can hurt.
pub const CAUTIONS: &str = "Cautions";
/// The cautions, short.
#[must_use]
pub const fn cautions(vehicle: bool) -> [&'static str; 5] {
    [
        if vehicle {
            "Power off first: fuse out or battery negative off, at two batteries both. Hybrid or electric: 12 V side only, never orange cables."
        } else {
            "Power off first: amplifier off, mains plug out."
        },
        "Ohms only with the cables off the amplifier. That end of a cable is landed last and lifted first.",
        "Both terminals of an output are live: none goes to chassis or another output. Above 25 V (common practice, no source) hands off while it plays.",
        "Never below the amplifier's least load. No sound and a warm or smelling driver: off at once.",
        "The makers' manuals and local codes come first; in doubt, a qualified installer.",
    ]
}

/// What is filled in by hand.
pub const BLANKS: [&str; 4] = ["Gain", "Filter", "Fuse fitted", "Wire fitted"];

/// Where the plan is found again.
pub const LINK: &str = "This rig as a link";
/// A code where nothing was read.
pub const WITH_PLAN: &str = "Opens this rig and its plan.";
/// A code with all that was read.
pub const WITH_READINGS: &str = "Opens this rig, its work and its readings.";
/// A code that had no room for them.
pub const WITHOUT_READINGS: &str = "Opens this rig without its readings.";
/// A code that had no room for the box either.
pub const WITHOUT_BOX: &str = "Opens drivers, amplifier and configuration; enter the box again.";

#[cfg(test)]
mod tests {
    use super::*;

    /// They stand before everything else on paper, so that they have to be read at a glance.
    #[test]
    fn cautions_on_paper_are_a_few_short_sentences() {
        for vehicle in [true, false] {
            let all = cautions(vehicle);
            assert!(all.iter().all(|text| text.ends_with('.') && text.len() <= 150), "{all:?}");
            assert!(all.concat().len() < 550, "{}", all.concat().len());
        }
        assert!(cautions(true)[0].contains("never orange cables"));
        assert!(cautions(false)[0].contains("mains plug out"));
    }

    #[test]
    fn what_has_no_source_says_so_on_paper_too() {
        assert!(cautions(true).concat().contains("25 V (common practice, no source)"));
    }
}
