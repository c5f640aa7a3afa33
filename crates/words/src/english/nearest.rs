//! Changes that would make something fit, in words.

use super::judged::{Whose, target, verdict};
use super::rig::load;
use super::{listed, rig as rig_words, sentence};
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

/// A change with the load and the power it gives and how that stands with the amplifier.
#[must_use]
pub fn found(rig: &Rig, found: &Found) -> String {
    let several =
        if found.configuration.outputs.len() > 1 { " or more on each output" } else { "" };
    let power = match found.target_watts {
        Some(watts) => format!(", {}", target(watts, Whose::All)),
        None => String::new(),
    };
    format!(
        "{}: {}{several}{power}. It {}.",
        sentence(&change(rig, &found.change)),
        load(found.load),
        verdict(found.configuration.verdict)
    )
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
