//! Help in plain words.

/// Over the cautions.
pub const CAUTIONS: &str = "Cautions";

/// Everything, as headings with their paragraphs.
pub const ALL: &[(&str, &[&str])] = &[
    (
        "What this page does",
        &[
            "It finds every distinct way to join the voice coils of your drivers, tells the load of each, whether your amplifier may drive it, and the watts each driver gets. Nothing you type leaves this device.",
        ],
    ),
    (
        "Series and parallel",
        &[
            "In series (+) the current goes through one coil after the other: ohms add. Two coils of 4 Ω in series are 8 Ω.",
            "In parallel (∥) the coils lie side by side on the same two wires: the load falls. Two coils of 4 Ω in parallel are 2 Ω.",
            "Dual 4 on a label means two coils of 4 Ω each: one such driver is 8 Ω in series or 2 Ω in parallel, never 4.",
        ],
    ),
    (
        "The least load",
        &[
            "An amplifier is only safe above some load, its minimum stable load. Below it, it overheats, shuts down or fails. Exactly at it is allowed.",
            "A lower load usually draws more power out of an amplifier, and more current and heat with it. A higher load is easier on it.",
            "Look for the least load on the plate beside the terminals or in the manual: “2 Ω stable”, “min. 1 Ω”, or the lowest load that has a rated power. A bridged pair needs a higher one. When the plate is missing, leave the field empty and type the rated powers you know; without either, ask the maker before you wire it.",
        ],
    ),
    (
        "Why even matters",
        &[
            "In an even configuration every coil gets the same fraction of its rating. In an uneven one some coil reaches its limit while others idle, so the whole takes less power than the sum of its ratings, and the hard-worked coil fails first. A good number on the meter does not show it.",
        ],
    ),
    (
        "Reading a label",
        &[
            "Ohms are of one coil. Watts are continuous, also called RMS; peak, max and “up to” figures do not count. Where a label rates each coil, choose “per coil”.",
            "Rated powers of an amplifier belong to a load: “500 W × 1 at 2 Ω” is 500 W into 2 Ω.",
        ],
    ),
    (
        "The ohm ladder",
        &[
            "Each rung is a load your coils can make, drawn at its place on a logarithmic axis, high loads on top. The shaded part is below the least load. Short dashed rungs are uneven. Marks on the axis are the amplifier's rated powers.",
        ],
    ),
    (
        "If a coil opens",
        &[
            "Coils fail. What happens to the others depends on how they are joined: some stay as they were, some get more than they can take. The list says the worst for each configuration.",
        ],
    ),
    (
        "Wiring it",
        &[
            "A run is one piece of wire between two terminals; a cable is the pair of them. In a chain one driver is fed from the next, so no terminal holds more than two conductors; in a star each is fed from the same point, which takes more of them there. The resistance of a chain feeds the last driver a little less.",
            "Two terminal pairs on one channel that are tied inside are one output: what hangs on them is in parallel. Some are switched or apart, so + to + and − to − are read before anything is landed. A box with a cup for each driver needs no joining wire then.",
            "A cable is laid first, with its end at the amplifier open, and landed last, with the power off, once its reading agrees.",
        ],
    ),
    (
        "Reading the meter",
        &[
            "A sound coil reads 0.7 to 1.05 of the ohms on its label, most often less (common practice, no source). Probes and leads add up to half an ohm: touch them together first and take note. Read ohms only with the cables off the amplifier; a coil that was just played reads high, and a reading that drifts is a moving cone or a poor contact.",
            "Ohms never show a reversed coil: that is what the test of polarity is for.",
            "A box that cannot be opened has one reading, at its cup. “What is in my box?” tells from it what the load may be; choose the amplifier by the lowest.",
        ],
    ),
    (
        "What is kept, and where",
        &[
            "Everything you type stands in the address: the link rebuilds it anywhere, and “Copy link” under “Rigs” and in the plan gives it to you where no address is seen. This tab keeps it too, so a refresh loses nothing, and “Back to your last rig” brings back what a link, the example or another rig replaced.",
            "“Rigs” keeps what you plan by name in this browser. A file of them is for other devices, and the copy to have should the browser lose its own.",
            "After the first visit the page opens without a network. A newer version is fetched beside the one you use and waits until you take it. Should a version ever misbehave, add “?off” to the address: that fetches the page anew.",
        ],
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    /// What sound coils read: more than the label is right too.
    #[test]
    fn a_coil_is_not_said_to_read_less_than_its_label() {
        let all: Vec<&str> = ALL.iter().flat_map(|(_, paragraphs)| *paragraphs).copied().collect();
        let of_coils = all.iter().find(|text| text.contains("0.7 to 1.05")).unwrap();
        assert!(of_coils.starts_with("A sound coil reads 0.7 to 1.05 of the ohms on its label"));
        assert!(of_coils.contains("(common practice, no source)"));
    }

    /// Pairs of terminals may be switched or apart, and some bridges take one input only.
    #[test]
    fn what_differs_between_amplifiers_is_left_to_manuals_and_readings() {
        use crate::english::{fields, ways};
        use coilwright_solver::bounds::Field;
        let help = ALL.iter().flat_map(|(_, paragraphs)| *paragraphs);
        let help = help.copied().find(|text| text.contains("terminal pairs")).unwrap();
        for text in [ways::TIED, fields::hint(Field::TerminalPairs).unwrap(), help] {
            assert!(text.contains("tied inside") && !text.contains("are tied inside:"), "{text}");
            assert!(text.contains("read"), "{text}");
        }
        assert!(ways::SAME_SIGNAL.contains("as its manual says"));
        assert!(ways::SAME_SIGNAL.contains("on one only"));
    }

    #[test]
    fn every_paragraph_stands_alone() {
        for (title, paragraphs) in ALL {
            assert!(!title.ends_with('.') && !paragraphs.is_empty(), "{title}");
            for paragraph in *paragraphs {
                assert!(paragraph.ends_with('.'), "{paragraph}");
            }
        }
    }
}
