//! How an amplifier's channels are used, in words that a customer understands.

use super::{add, listed, rig as rig_words};
use coilwright_solver::answer::outline::{Outline, alike_outputs};
use coilwright_solver::answer::{Output, Way};
use coilwright_solver::network::{Joint, Network};
use coilwright_solver::rig::{Amplifier, Rig};

/// Beside the entry of terminal pairs.
pub const TIED: &str = "Two terminal pairs of one channel may be tied inside: then they are one output. \
    Two drivers, one on each pair, are in parallel at the amplifier, and a box with a cup \
    for each needs no joining wire. Some are switched or apart: the plan has a reading that \
    decides.";

/// Where somebody might look for what is never offered.
pub const NEVER: &str = "Never offered: two outputs in parallel, a bridge that the maker does not \
    name, a negative shared by two channels.";

/// Beside a configuration that uses a bridge.
pub const SAME_SIGNAL: &str =
    "A bridged pair takes its signal as its manual says: the same on both inputs, or on one only.";

/// Beside a configuration with the coils of one driver on two outputs.
///
/// # Example
/// ```
/// use coilwright_words::english::ways::split;
/// assert!(split(0).starts_with("The coils of driver 1 hang on two outputs."));
/// ```
#[must_use]
pub fn split(driver: u32) -> String {
    format!(
        "The coils of driver {} hang on two outputs. Give both the same signal, match their \
         gains by meter, and never play one with the other off.",
        driver.saturating_add(1)
    )
}

/// Numbers that follow each other as a range: `1 and 2`, `1 to 4`, `1, 3 and 4`.
fn numbers(list: &[u32]) -> String {
    let next = |(a, b): (&u32, &u32)| a.checked_add(1) == Some(*b);
    match (list.first(), list.last()) {
        (Some(first), Some(last))
            if list.len() > 2 && list.iter().zip(list.iter().skip(1)).all(next) =>
        {
            format!("{first} to {last}")
        }
        _ => listed(&rig_words::numbers(list), "and"),
    }
}

fn named(what: &str, list: &[u32]) -> String {
    let s = if list.len() > 1 { "s" } else { "" };
    format!("{what}{s} {}", numbers(list))
}

/// Outputs that stand alike: the same way, load and kind of network on each.
#[derive(Clone, Debug, PartialEq)]
pub struct Alike {
    /// The outputs, as places in the list.
    pub outputs: Vec<usize>,
    /// Their channels: `channels 1 to 4`.
    pub names: String,
    /// What hangs on each: `two drivers in series`.
    pub hung: String,
}

/// Gathers the outputs of a configuration that stand alike.
#[must_use]
pub fn gathered(rig: &Rig, outputs: &[Output]) -> Vec<Alike> {
    let mut all = Vec::new();
    for found in alike_outputs(rig, outputs) {
        let mut of = Vec::new();
        for at in &found.outputs {
            of.extend(outputs.get(*at));
        }
        let names = rig.amplifier().map_or_else(String::new, |amplifier| names(amplifier, &of));
        all.push(Alike { outputs: found.outputs, names, hung: outlined(found.outline) });
    }
    all
}

fn names(amplifier: &Amplifier, outputs: &[&Output]) -> String {
    let mut channels: Vec<u32> = Vec::new();
    let mut apart = true;
    for output in outputs {
        channels.extend_from_slice(&output.channels);
        apart &= output.way == Some(Way::Apart);
    }
    let mut each = Vec::new();
    match (amplifier.count > 1, amplifier.channels.len() > 1) {
        (false, true) if apart => named("channel", &channels),
        (true, false) => named("amplifier", &channels),
        (false, true) if outputs.len() > 1 => {
            for output in outputs {
                let mut pair = String::new();
                for channel in &output.channels {
                    add(&mut pair, "+", &channel.to_string());
                }
                each.push(pair);
            }
            format!("bridges {}", listed(&each, "and"))
        }
        _ => {
            for one in outputs {
                each.push(output(amplifier, one.way, &one.channels));
            }
            listed(&each, "and")
        }
    }
}

/// An output by its channels, and by its amplifier where there are several.
#[must_use]
pub fn output(amplifier: &Amplifier, way: Option<Way>, channels: &[u32]) -> String {
    let each = u32::try_from(amplifier.channels.len()).unwrap_or(1).max(1);
    let first = channels.first().copied().unwrap_or(1).max(1) - 1;
    let mut own = Vec::new();
    for number in channels {
        own.push((number.max(&1) - 1) % each + 1);
    }
    match (amplifier.count > 1, each > 1) {
        (false, false) => "the amplifier".to_owned(),
        (false, true) => rig_words::channels(way, channels),
        (true, false) => format!("amplifier {}", first / each + 1),
        (true, true) => {
            format!("amplifier {}, {}", first / each + 1, rig_words::channels(way, &own))
        }
    }
}

/// A way to use the amplifier, as a heading: `channels 1 and 2 bridged, channels 3 and 4
/// apart`. Nothing without an amplifier or where it has but one output.
#[must_use]
pub fn way(amplifier: &Amplifier, outputs: &[Output]) -> String {
    let mut apart: Vec<u32> = Vec::new();
    let mut bridged: Vec<&Output> = Vec::new();
    for output in outputs {
        match output.way {
            Some(Way::Apart) => apart.extend_from_slice(&output.channels),
            Some(Way::Bridged) => bridged.push(output),
            None => {}
        }
    }
    let mut said: Vec<String> = Vec::new();
    if !bridged.is_empty() {
        said.push(names(amplifier, &bridged));
    }
    let several = amplifier.channels.len() > 1;
    if !apart.is_empty() {
        let names = match (several, amplifier.count > 1, outputs.len()) {
            (false, true, 1) => "one amplifier".to_owned(),
            (false, true, _) => "every amplifier".to_owned(),
            (_, true, n) if n > 1 => "every other channel apart".to_owned(),
            (_, _, 1) => output(amplifier, Some(Way::Apart), &apart),
            _ if apart.len() == 1 => named("channel", &apart),
            _ => format!("{} apart", named("channel", &apart)),
        };
        said.push(names);
    }
    let all_apart =
        said.len() == 1 && said.first().is_some_and(|s| s == "every other channel apart");
    let text = if all_apart { "every channel apart".to_owned() } else { said.join(", ") };
    match idle(amplifier, outputs) {
        Some(idle) => format!("{text}; {idle}"),
        None => text,
    }
}

/// The channels that nothing hangs on: `channels 3 and 4 idle`.
#[must_use]
pub fn idle(amplifier: &Amplifier, outputs: &[Output]) -> Option<String> {
    let each = u32::try_from(amplifier.channels.len()).unwrap_or(0);
    let mut idle = Vec::new();
    for number in 1..=each * amplifier.count {
        if !outputs.iter().any(|output| output.channels.contains(&number)) {
            idle.push(number);
        }
    }
    if idle.is_empty() {
        return None;
    }
    Some(match amplifier.count {
        1 => format!("{} idle", named("channel", &idle)),
        _ => "the others idle".to_owned(),
    })
}

/// A whole configuration: `channels 1 and 2 bridged, two drivers in series on it; channels
/// 3 and 4 idle`.
#[must_use]
pub fn describe(rig: &Rig, outputs: &[Output]) -> String {
    let gathered = gathered(rig, outputs);
    let Some(amplifier) = rig.amplifier() else {
        let mut hung = Vec::new();
        for alike in gathered {
            hung.push(alike.hung);
        }
        return listed(&hung, "and");
    };
    let alone = amplifier.count == 1 && amplifier.channels.len() == 1;
    let mut text = String::new();
    for alike in &gathered {
        if alone {
            add(&mut text, "; ", &alike.hung);
            continue;
        }
        add(&mut text, "; ", &alike.names);
        let end = if alike.outputs.len() == 1 { " on it" } else { " on each" };
        for part in [", ", &alike.hung, end] {
            text.push_str(part);
        }
    }
    if let Some(idle) = idle(amplifier, outputs) {
        add(&mut text, "; ", &idle);
    }
    text
}

/// What hangs on an output: `two drivers in series`, `one driver (its coils in parallel)`.
///
/// # Example
/// ```
/// # use coilwright_solver::{bounds::Field, rig::{Draft, GroupDraft}};
/// # let two = GroupDraft { count: Some(2), coils: Some(2), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
/// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
/// use coilwright_words::english::ways::hangs;
/// let network = "(1a + 1b) ∥ (2a + 2b)".parse().unwrap();
/// assert_eq!(hangs(&rig, &network), "two drivers in parallel (coils of each in series)");
/// ```
#[must_use]
pub fn hangs(rig: &Rig, network: &Network) -> String {
    outlined(Outline::of(rig, network))
}

fn outlined(outline: Outline) -> String {
    match outline {
        Outline::Half { driver, others } => {
            let half = format!("one coil of driver {}", u16::from(driver) + 1);
            match others {
                0 => half,
                1 => format!("{half} with one driver"),
                more => format!("{half} with {}", counted(more)),
            }
        }
        Outline::Woven { drivers } => format!("{}, coil by coil", counted(drivers)),
        Outline::Joined { drivers, between, coils } => {
            let count = counted(drivers);
            let coils = coils.map_or(String::new(), |joint| {
                let whose = if drivers == 1 { "its coils" } else { "coils of each" };
                format!(" ({whose} {})", joined(joint))
            });
            match between {
                _ if drivers == 1 => format!("{count}{coils}"),
                Some(joint) => format!("{count} {}{coils}", joined(joint)),
                None => format!("{count} in series-parallel{coils}"),
            }
        }
    }
}

const fn joined(joint: Joint) -> &'static str {
    match joint {
        Joint::Series => "in series",
        Joint::Parallel => "in parallel",
    }
}

fn counted(drivers: usize) -> String {
    const WORDS: [&str; 9] = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight"];
    let s = if drivers == 1 { "" } else { "s" };
    match WORDS.get(drivers) {
        Some(word) => format!("{word} driver{s}"),
        None => format!("{drivers} drivers"),
    }
}

#[cfg(test)]
mod tests;
