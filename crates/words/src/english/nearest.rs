//! Changes that would make something fit, in words.

use super::judged::{Whose, target, verdict};
use super::rig::load;
use super::{listed, rig as rig_words};
use coilwright_solver::nearest::{Change, Found};
use coilwright_solver::ohms::Ohms;
use coilwright_solver::rig::Rig;

/// Over the changes.
pub const WHAT_WOULD_FIT: &str = "What would fit";

/// Where none of the changes tried makes anything fit.
pub const NOTHING_NEAR: &str = "No single change to the coils, the number of drivers, the bridges \
    or the least load makes a configuration fit.";

/// While the changes are tried.
pub const TRYING: &str = "Looking for what would fit …";

/// A change to a rig as a short phrase, for a button: `dual 4 Ω instead of dual 2 Ω`,
/// `3 drivers instead of 2`, `channels 1 and 2 bridged, if its maker names that`,
/// `an amplifier safe down to 0.5 Ω`.
#[must_use]
pub fn change(rig: &Rig, change: &Change) -> String {
    match *change {
        Change::Coils { group, coils, ohms } => {
            let now = rig.groups().get(group).map(|now| version(now.coils, now.ohms));
            let text = format!("{} instead of {}", version(coils, ohms), now.unwrap_or_default());
            match members(rig, group) {
                Some(members) => format!("{text} for {members}"),
                None => text,
            }
        }
        Change::Count { group, count } => {
            let now = rig.groups().get(group).map_or(0, |now| now.count);
            let drivers = rig_words::drivers(count);
            match first(rig, group).filter(|_| rig.groups().len() > 1) {
                Some(first) => format!("{drivers} like driver {first} instead of {now}"),
                None => format!("{drivers} instead of {now}"),
            }
        }
        Change::Bridge { channels } => {
            let numbers = channels.map(|number| number.to_string());
            format!("channels {} bridged, if its maker names that", listed(&numbers, "and"))
        }
        Change::LeastLoad { ohms } => format!("an amplifier safe down to {}", load(ohms)),
    }
}

/// What a change gives, below the change itself: load, power, and how that stands with
/// the amplifier.
#[must_use]
pub fn found(found: &Found) -> String {
    let several =
        if found.configuration.outputs.len() > 1 { " or more on each output" } else { "" };
    let power = match found.configuration.target_watts() {
        Some(watts) => format!(", {}", target(watts, Whose::All)),
        None => String::new(),
    };
    format!("{}{several}: {}{power}.", load(found.load), verdict(found.configuration.verdict))
}

/// A coil version as the trade says it: `dual 4 Ω`.
fn version(coils: u32, ohms: Ohms) -> String {
    let kind = match coils {
        1 => "single",
        2 => "dual",
        _ => "quad",
    };
    format!("{kind} {}", load(ohms))
}

/// The number of the first driver of a group, counted from 1.
fn first(rig: &Rig, group: usize) -> Option<u32> {
    let before: u32 = rig.groups().get(..group)?.iter().map(|group| group.count).sum();
    before.checked_add(1)
}

/// The drivers of a group, where there are several groups.
fn members(rig: &Rig, group: usize) -> Option<String> {
    let count = rig.groups().get(group).filter(|_| rig.groups().len() > 1)?.count;
    let first = first(rig, group)?;
    let last = first.checked_add(count)?.checked_sub(1)?;
    Some(match count {
        1 => format!("driver {first}"),
        2 => format!("drivers {first} and {last}"),
        _ => format!("drivers {first} to {last}"),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use coilwright_solver::answer::Request;
    use coilwright_solver::bounds::Field;
    use coilwright_solver::nearest::Nearest;
    use coilwright_solver::rig::{AmplifierDraft, ChannelDraft, Draft, GroupDraft};

    fn ohms(text: &str) -> Option<Ohms> {
        Field::CoilOhms.ohms_text(text).ok()
    }

    fn rig(groups: &[(u32, u32, &str)], least: &str) -> Rig {
        let group = |(count, coils, of): &(u32, u32, &str)| GroupDraft {
            count: Some(*count),
            coils: Some(*coils),
            ohms: ohms(of),
            ..GroupDraft::default()
        };
        let channel = ChannelDraft { least: ohms(least), ..ChannelDraft::default() };
        let amplifier = AmplifierDraft { channels: vec![channel; 2], ..AmplifierDraft::default() };
        let groups = groups.iter().map(group).collect();
        Draft { groups, amplifier: Some(amplifier) }.check(Vec::new()).unwrap()
    }

    #[test]
    fn every_change_is_a_short_phrase() {
        let one = rig(&[(2, 2, "2")], "2");
        let several = rig(&[(2, 2, "2"), (1, 1, "8"), (4, 4, "1")], "2");
        let four = ohms("4").unwrap();
        let coils = |group, coils| Change::Coils { group, coils, ohms: four };
        let cases = [
            (&one, coils(0, 2), "dual 4 Ω instead of dual 2 Ω"),
            (&one, coils(0, 1), "single 4 Ω instead of dual 2 Ω"),
            (&several, coils(0, 2), "dual 4 Ω instead of dual 2 Ω for drivers 1 and 2"),
            (&several, coils(1, 1), "single 4 Ω instead of single 8 Ω for driver 3"),
            (&several, coils(2, 4), "quad 4 Ω instead of quad 1 Ω for drivers 4 to 7"),
            (&one, Change::Count { group: 0, count: 3 }, "3 drivers instead of 2"),
            (&one, Change::Count { group: 0, count: 1 }, "1 driver instead of 2"),
            (
                &several,
                Change::Count { group: 2, count: 5 },
                "5 drivers like driver 4 instead of 4",
            ),
            (
                &one,
                Change::Bridge { channels: [1, 2] },
                "channels 1 and 2 bridged, if its maker names that",
            ),
            (
                &one,
                Change::LeastLoad { ohms: ohms("0.5").unwrap() },
                "an amplifier safe down to 0.5 Ω",
            ),
        ];
        for (rig, this, want) in cases {
            assert_eq!(change(rig, &this), want);
        }
    }

    #[test]
    fn a_find_tells_its_load_and_verdict() {
        let rig = rig(&[(1, 1, "2")], "4");
        let request = Request { rig, joined_only: true, even_only: true, limit: 1 };
        let finds = Nearest::new(&request).step(u64::MAX).unwrap();
        let told: Vec<String> = finds.iter().map(found).collect();
        assert_eq!(told, ["2 Ω: fits.", "4 Ω: fits.", "4 Ω: fits.", "8 Ω: fits.",]);
    }
}
