//! Where the work can hurt, and what is out of scope. Few, short, each meant to stand
//! beside the step it is about.

/// A caution and where it belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// Before touching the amplifier.
    PowerOff,
    /// A capacitor in the supply.
    Capacitor,
    /// The amplifier's output terminals.
    LiveOutputs,
    /// Ends of wire.
    LooseStrands,
    /// Readings of ohms and polarity.
    CablesOff,
    /// The least load.
    LeastLoad,
    /// The order of landing and lifting.
    LandedLast,
    /// A driver that is silent and warm.
    SilentAndWarm,
    /// Heat after playing.
    LetItCool,
    /// A level set with a tone.
    LevelHolds,
    /// Hearing.
    Hearing,
    /// Whose word comes first.
    ManualsFirst,
}

impl Caution {
    /// Every caution, in the order of the work.
    pub const ALL: [Self; 12] = [
        Self::PowerOff,
        Self::Capacitor,
        Self::LiveOutputs,
        Self::LooseStrands,
        Self::CablesOff,
        Self::LeastLoad,
        Self::LandedLast,
        Self::SilentAndWarm,
        Self::LetItCool,
        Self::LevelHolds,
        Self::Hearing,
        Self::ManualsFirst,
    ];
}

/// The text of a caution.
///
/// # Example
/// ```
/// use coilwright_words::english::cautions::{Caution, text};
/// assert_eq!(text(Caution::LooseStrands), "No loose strands: one can short an output.");
/// ```
#[must_use]
pub const fn text(caution: Caution) -> &'static str {
    match caution {
        Caution::PowerOff => {
            "Before touching the amplifier: fuse out or battery negative off, as the vehicle's manual says. Two batteries: both negatives. Hybrid or electric vehicle: 12 V side only, never orange cables."
        }
        Caution::Capacitor => {
            "A stiffening capacitor stays charged after the supply is off: discharge it as its manual says."
        }
        Caution::LiveOutputs => {
            "Both terminals of every output are live, bridged or not: neither goes to chassis, nor to another channel's negative. Measure + to −. Above 25 V RMS (common practice, no source) hands off while it plays."
        }
        Caution::LooseStrands => "No loose strands: one can short an output.",
        Caution::CablesOff => "Read ohms and polarity only with the cables off the amplifier.",
        Caution::LeastLoad => "Never below the amplifier's least load.",
        Caution::LandedLast => {
            "The amplifier end of a cable is landed last and lifted first. The fuse goes in last, after the meter agrees."
        }
        Caution::SilentAndWarm => {
            "No sound and a warm or smelling driver: off at once. Two coils of a driver against each other cancel its motion, and with that its cooling; nearly all power is heat anyway."
        }
        Caution::LetItCool => "Let amplifier and coils cool before touching or measuring them.",
        Caution::LevelHolds => {
            "A level set with a tone holds for that source, volume and filter only."
        }
        // 98-126: 85 dBA for 8 h, half the time for each 3 dB more. A-weighting at 50 Hz: −30.2 dB.
        Caution::Hearing => {
            "Hearing loss is permanent: 85 dBA is enough for 8 hours, every 3 dB more halves the time (NIOSH 98-126). Of bass at 50 Hz that is some 115 dB, as dBA takes 30 dB off there (IEC 61672-1)."
        }
        Caution::ManualsFirst => {
            "The makers' manuals and local codes come first. If in doubt, ask a qualified installer."
        }
    }
}

/// What is out of scope, to be said once.
pub const SCOPE: &str = "For solid-state amplifiers with a stated least load. Not for valve amplifiers, 70/100 V lines, or passive crossovers as part of the load.";

#[cfg(test)]
mod tests {
    use super::*;

    /// A-weighting by the formula of IEC 61672-1, in decibels.
    #[expect(clippy::disallowed_methods, reason = "a check to a twentieth of a decibel")]
    fn a_weighting(hertz: f64) -> f64 {
        let f = hertz * hertz;
        let [a, b, c, d] = [20.6_f64, 107.7, 737.9, 12_194.0].map(|corner| corner * corner);
        let gain = d * f * f / ((f + a) * ((f + b) * (f + c)).sqrt() * (f + d));
        20.0 * gain.log10() + 2.0
    }

    /// 85 dBA of bass are far more decibels than 85, and the caution says how many and by what.
    #[test]
    fn the_caution_on_hearing_says_what_dba_means_for_bass() {
        // What the standard's table calls 50 Hz is 10 to the power of 1.7.
        let off = a_weighting(50.118_72);
        assert!((off + 30.2).abs() < 0.05 && a_weighting(1000.0).abs() < 0.05, "{off}");
        let said = text(Caution::Hearing);
        assert!(said.contains(&format!("some {:.0} dB", 85.0 - off)), "{said}");
        assert!(said.contains("NIOSH 98-126") && said.contains("IEC 61672-1"), "{said}");
    }

    /// Nearly all power is heat, whichever way a coil is joined: what is lost is motion.
    #[test]
    fn what_has_no_source_says_so_and_a_reversed_coil_loses_motion() {
        assert!(text(Caution::LiveOutputs).contains("25 V RMS (common practice, no source)"));
        let warm = text(Caution::SilentAndWarm);
        assert!(warm.contains("cancel its motion, and with that its cooling"), "{warm}");
        assert!(!warm.contains("all power to heat"), "{warm}");
    }

    #[test]
    fn every_caution_is_short_and_said_once() {
        let texts = Caution::ALL.map(text);
        for (i, text) in texts.iter().enumerate() {
            assert!(text.ends_with('.') && text.len() <= 220, "{text}");
            assert!(!texts[..i].contains(text), "{text}");
        }
    }
}
