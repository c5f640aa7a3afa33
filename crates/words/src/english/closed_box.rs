//! What may be in a closed box.

use super::page::drivers as of_drivers;
use super::rig::{channels as channels_of, load, short_load};
use super::{MARKS, add, listed, ways};
pub use coilwright_solver::closed_box::HARDLY;
use coilwright_solver::closed_box::{ClosedBox, Filling, Hangs, Hint, Likely, Possible};
use coilwright_solver::ohms::Ohms;
use coilwright_solver::rig::Amplifier;

/// The room, and the way to it.
pub const TITLE: &str = "What is in my box?";
/// What the room is for.
pub const ABOUT: &str =
    "One reading at the cup of a closed box hints at its load and at what may be in it.";
/// How the box is read.
pub const HOW: [&str; 3] = [
    "Set the meter to ohms and touch its probes together: that is what the leads read.",
    "Then + probe to cup +, − probe to cup −, the cone at rest and the coils cool.",
    "Read each cup by itself.",
];
/// The field of the reading.
pub const AT_THE_CUP: &str = "the meter reads at the cup";
/// The field of the leads.
pub const LEADS: &str = "leads touching, if read";
/// While nothing is entered.
pub const EMPTY: &str = "Enter what the meter shows, or OL where it shows no end.";
/// What the leads cannot read.
pub const LEADS_NOT_OPEN: &str =
    "Leads that touch read a few tenths of an ohm: OL means a broken lead or a wrong socket.";
/// Beside the lowest load.
pub const LOWEST: &str = "the lowest load it may be";
/// Over the amplifier that was entered.
pub const YOUR_AMPLIFIER: &str = "Your amplifier";
/// Where no amplifier was entered.
pub const NO_AMPLIFIER: &str = "Enter your amplifier's least load in the rig, and it is told here whether the box may hang on it.";
/// Where an amplifier was entered that cannot be read.
pub const AMPLIFIER_UNREAD: &str = "Put the amplifier in the rig right first: then it is told here whether the box may hang on it.";
/// Over the loads.
pub const LOADS: &str = "What it may be";
/// Takes what may be in the box into the rig.
pub const PLAN: &str = "Plan with these drivers";
/// What a reading never tells.
pub const NEVER_TOLD: &str = "Ohms never tell what a passive crossover hides, a reversed coil, or what power the drivers take. In doubt treat the box as the lowest, or open it.";

/// What a reading amounts to, and what to do.
#[must_use]
pub const fn hint(hint: Hint) -> &'static str {
    match hint {
        Hint::Loads => "This is a hint from one reading, not a proof.",
        Hint::LeadsFirst => {
            "At so few ohms the leads decide: touch the probes together and enter what they read."
        }
        Hint::Open => {
            "Nothing is joined, a joint or a coil is broken, or a capacitor is in the way: a crossover hides what is behind it."
        }
        Hint::Short => {
            "This is no more than the leads alone: it may be a short. Hang the box on no amplifier before you have found out."
        }
        Hint::Coarse => {
            "Whole ohms are too coarse here: enter the tenths that the meter shows, such as 2.0."
        }
        Hint::BelowLeads => "This is less than the leads alone read: read both again.",
        Hint::Unusual => {
            "No usual drivers read so much: look for a poor joint, or for something in the way, such as a crossover or a line transformer."
        }
    }
}

/// What amplifier the box may hang on.
///
/// # Example
/// ```
/// use coilwright_solver::ohms::{Ohms, Ratio};
/// use coilwright_words::english::closed_box::amplifier;
/// let ohms = |over, under| Ohms::new(Ratio::new(over, under).unwrap());
/// assert_eq!(
///     amplifier(ohms(8, 3), Some(ohms(2, 1))),
///     "Hang it on an amplifier with a least load of 2 Ω or lower."
/// );
/// ```
#[must_use]
pub fn amplifier(lowest: Ohms, usual: Option<Ohms>) -> String {
    let mut text = String::from("Hang it on an amplifier with a least load of ");
    text.push_str(&load(usual.unwrap_or(lowest)));
    text.push_str(if usual.is_some() {
        " or lower."
    } else {
        " or lower. Hardly any has one: open the box before you wire it."
    });
    text
}

/// What a reading amounts to; where loads are told, the likeliest before it.
#[must_use]
pub fn amounts_to(found: &ClosedBox) -> String {
    let mut text = String::new();
    if let (Some(first), Hint::Loads) = (found.loads.first(), found.hint) {
        text.push_str("The likeliest load is ");
        text.push_str(&load(first.load));
        text.push_str(" (");
        text.push_str(likely(first.likely));
        text.push_str(").");
    }
    add(&mut text, " ", hint(found.hint));
    text
}

/// The same with the lowest load and the amplifier, where they are known.
///
/// # Example
/// ```
/// use coilwright_solver::closed_box::closed_box;
/// use coilwright_solver::meter::Reading;
/// use coilwright_words::english::closed_box::told;
/// let text = told(&closed_box(Reading::Ohms { ohms: 3.2, count: 0.1 }, None));
/// assert!(text.starts_with("The likeliest load is 4 Ω (likely). This is a hint"), "{text}");
/// ```
#[must_use]
pub fn told(found: &ClosedBox) -> String {
    let mut text = amounts_to(found);
    if let Some(lowest) = found.lowest {
        add(&mut text, " ", "The lowest load it may be is ");
        text.push_str(&load(lowest));
        text.push('.');
        add(&mut text, " ", &amplifier(lowest, found.least));
    }
    text
}

/// How likely something is, in words.
///
/// # Example
/// ```
/// use coilwright_words::english::closed_box::likely;
/// assert_eq!([0.95, 0.6, 0.2, 0.05, 0.001].map(likely), [
///     "very likely", "likely", "possible", "less likely", "hardly likely",
/// ]);
/// ```
#[must_use]
pub fn likely(share: f64) -> &'static str {
    match Likely::of(share) {
        Likely::Very => "very likely",
        Likely::Likely => "likely",
        Likely::Possible => "possible",
        Likely::Less => "less likely",
        Likely::Hardly => "hardly likely",
    }
}

/// The loads that are hardly likely.
///
/// # Example
/// ```
/// use coilwright_solver::closed_box::Possible;
/// use coilwright_solver::ohms::{Ohms, Ratio};
/// use coilwright_words::english::closed_box::not_ruled_out;
/// let load = |over, under| {
///     let load = Ohms::new(Ratio::new(over, under).unwrap());
///     Possible { load, likely: 0.001, fillings: Vec::new() }
/// };
/// let loads = [load(9, 2), load(8, 3)];
/// assert_eq!(
///     not_ruled_out(&loads.iter().collect::<Vec<_>>()),
///     "Hardly likely, yet not ruled out: 2.67 Ω and 4.5 Ω."
/// );
/// ```
#[must_use]
pub fn not_ruled_out(loads: &[&Possible]) -> String {
    let mut rising: Vec<&Possible> = Vec::new();
    for one in loads {
        let at = rising.partition_point(|before| before.load < one.load);
        rising.insert(at, one);
    }
    let mut names = Vec::new();
    for one in rising {
        names.push(short_load(one.load));
    }
    let mut text = String::from("Hardly likely, yet not ruled out: ");
    text.push_str(&listed(&names, "and"));
    text.push('.');
    text
}

/// What may be in the box: drivers, coils and how they are joined.
///
/// # Example
/// ```
/// use coilwright_solver::closed_box::Filling;
/// use coilwright_solver::ohms::{Ohms, Ratio};
/// use coilwright_words::english::closed_box::filling;
/// let ohms = Ohms::new(Ratio::whole(4).unwrap());
/// let one = Filling { drivers: 2, coils: 2, ohms, in_path: 2, paths: 2, likely: 0.5 };
/// assert_eq!(filling(&one), "2 dual 4 Ω drivers: 2 paths of 2 coils");
/// ```
#[must_use]
pub fn filling(one: &Filling) -> String {
    let count = |n: u32| MARKS.whole(u128::from(n));
    let mut text = count(one.drivers);
    for part in [of_drivers::coils(one.coils), &short_load(one.ohms)] {
        add(&mut text, " ", part);
    }
    text.push_str(if one.drivers == 1 { " driver" } else { " drivers" });
    let coils = one.drivers.saturating_mul(one.coils);
    let series = one.in_path == coils;
    match (coils, one.coils, series || one.paths == coils) {
        (1, ..) => {}
        (_, 1, true) => text.push_str(if series { " in series" } else { " in parallel" }),
        (_, _, true) => {
            text.push_str(if series { ", all coils in series" } else { ", all coils in parallel" });
        }
        _ => {
            text.push_str(": ");
            text.push_str(&count(one.paths));
            text.push_str(" paths of ");
            text.push_str(&count(one.in_path));
            text.push_str(if one.coils == 1 { " drivers" } else { " coils" });
        }
    }
    text
}

/// The button that takes it into the rig, to who cannot see what it stands beside.
#[must_use]
pub fn plan_with(one: &Filling) -> String {
    let mut text = String::from(PLAN);
    text.push_str(": ");
    text.push_str(&filling(one));
    text
}

/// The outputs that are judged together.
#[must_use]
pub fn outputs(amplifier: &Amplifier, hangs: &Hangs) -> String {
    let mut channels = Vec::new();
    let mut names = Vec::new();
    for place in &hangs.places {
        channels.extend_from_slice(&place.channels);
        names.push(ways::output(amplifier, place.way, &place.channels));
    }
    // Channels of one amplifier are told by their numbers alone.
    if amplifier.count == 1 && names.len() > 1 && channels.len() == names.len() {
        return channels_of(hangs.places.first().and_then(|place| place.way), &channels);
    }
    listed(&names, "and")
}

#[cfg(test)]
mod tests {
    use super::*;
    use coilwright_solver::answer::Way;
    use coilwright_solver::closed_box::closed_box;
    use coilwright_solver::judge::{Figures, Verdict};
    use coilwright_solver::meter::Reading;
    use coilwright_solver::ohms::Ratio;
    use coilwright_solver::outputs::Outlet;
    use coilwright_solver::rig::Channel;

    fn ohms(ohms: u128) -> Ohms {
        Ohms::new(Ratio::whole(ohms).unwrap())
    }

    #[test]
    fn what_may_be_in_a_box_is_told_as_people_say_it() {
        let one = |drivers, coils, of, in_path, paths| {
            filling(&Filling { drivers, coils, ohms: ohms(of), in_path, paths, likely: 1.0 })
        };
        for (found, want) in [
            (one(1, 1, 4, 1, 1), "1 single 4 Ω driver"),
            (one(1, 2, 2, 2, 1), "1 dual 2 Ω driver, all coils in series"),
            (one(1, 2, 8, 1, 2), "1 dual 8 Ω driver, all coils in parallel"),
            (one(2, 1, 8, 1, 2), "2 single 8 Ω drivers in parallel"),
            (one(3, 1, 2, 3, 1), "3 single 2 Ω drivers in series"),
            (one(4, 1, 8, 2, 2), "4 single 8 Ω drivers: 2 paths of 2 drivers"),
            (one(4, 2, 4, 1, 8), "4 dual 4 Ω drivers, all coils in parallel"),
            (one(2, 2, 4, 2, 2), "2 dual 4 Ω drivers: 2 paths of 2 coils"),
        ] {
            assert_eq!(found, want);
        }
    }

    #[test]
    fn outputs_that_are_judged_together_are_named_together() {
        let named = |count: u32, each: usize, way: Way, outputs: &[&[u32]]| {
            let channel = Channel { least: None, rated: Vec::new(), terminal_pairs: 1 };
            let channels = vec![channel; each];
            let amplifier = Amplifier { count, channels, bridges: Vec::new() };
            let place =
                |channels: &&[u32]| Outlet { way: Some(way), channels: channels.to_vec(), kind: 0 };
            let places = outputs.iter().map(place).collect();
            let (figures, verdict) = (Figures::default(), Verdict::NotStated);
            super::outputs(&amplifier, &Hangs { places, figures, verdict })
        };
        assert_eq!(named(1, 1, Way::Apart, &[&[1]]), "the amplifier");
        assert_eq!(named(1, 4, Way::Apart, &[&[1], &[2], &[4]]), "channels 1, 2 and 4");
        assert_eq!(
            named(1, 4, Way::Bridged, &[&[1, 2], &[3, 4]]),
            "channels 1 and 2 bridged and channels 3 and 4 bridged"
        );
        assert_eq!(named(2, 1, Way::Apart, &[&[1], &[2]]), "amplifier 1 and amplifier 2");
    }

    #[test]
    fn every_hint_is_a_sentence_of_its_own() {
        let all = [
            Hint::Loads,
            Hint::LeadsFirst,
            Hint::Open,
            Hint::Short,
            Hint::Coarse,
            Hint::BelowLeads,
            Hint::Unusual,
        ];
        for (i, one) in all.iter().enumerate() {
            assert!(hint(*one).ends_with('.') && hint(*one).len() < 160, "{one:?}");
            assert!(all[..i].iter().all(|other| hint(*other) != hint(*one)));
        }
        assert_eq!(
            told(&closed_box(Reading::Ohms { ohms: 3.6, count: 0.1 }, Some(0.2))),
            "The likeliest load is 4 Ω (very likely). This is a hint from one reading, not a proof. The lowest load it may be is 3 Ω. Hang it on an amplifier with a least load of 2 Ω or lower."
        );
        assert_eq!(told(&closed_box(Reading::Open, None)), hint(Hint::Open));
        assert!(amplifier(ohms(1), None).contains("open the box"));
    }
}
