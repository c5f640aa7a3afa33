//! What names a room: the title of the window, and the way past what stands before it.

use super::super::names::within;
use super::super::rig::short_load;
use coilwright_solver::answer::Configuration;

/// The title while nothing is entered: that of the shell.
pub const TITLE: &str = "Coilwright: wire voice coils to an amplifier";
/// The end of every other title.
const PAGE: &str = " · Coilwright";
/// More characters of networks make a title that nobody hears to its end.
const LONGEST: usize = 48;

/// Skips to the configurations.
pub const TO_LIST: &str = "Go to the configurations";
/// Skips to the one that is chosen.
pub const TO_CHOSEN: &str = "Go to the chosen configuration";
/// Skips to those side by side.
pub const TO_COMPARE: &str = "Go to the comparison";
/// Skips to the help.
pub const TO_HELP: &str = "Go to the help";
/// Skips to the closed box.
pub const TO_CLOSED: &str = "Go to the closed box";
/// Skips to the saved rigs.
pub const TO_RIGS: &str = "Go to the saved rigs";
/// Skips to the plan.
pub const TO_PLAN: &str = "Go to the plan";
/// Skips to the step at hand.
pub const TO_STEP: &str = "Go to the step at hand";
/// Skips to the job sheet.
pub const TO_SHEET: &str = "Go to the job sheet";

/// The heading of a room that is on its way.
pub const COMING: &str = "On its way";
/// What is on its way.
pub const WHY_COMING: &str = "This part of the page is being loaded.";
/// The heading of a room that did not come.
pub const MISSING: &str = "Not here yet";
/// Why not, and what to do.
pub const WHY_MISSING: &str = "This part of the page could not be loaded. What you entered is \
kept. Check the connection and try again; where that does not help, reload the page.";
/// Asks for it once more.
pub const AGAIN: &str = "Try again";

/// The title of a room: what it is, what it is about, and the page last, since a tab shows
/// the beginning alone.
///
/// # Example
/// ```
/// use coilwright_words::english::page::room::title;
/// assert_eq!(title("Wire it", &["Rear", "", "2 Ω"]), "Wire it: Rear, 2 Ω · Coilwright");
/// assert_eq!(title("Help", &[]), "Help · Coilwright");
/// ```
#[must_use]
pub fn title(room: &str, about: &[&str]) -> String {
    let mut text = room.to_owned();
    let mut sign = ": ";
    for part in about.iter().filter(|part| !part.is_empty()) {
        text.push_str(sign);
        text.push_str(&within(part));
        sign = ", ";
    }
    text.push_str(PAGE);
    text
}

/// A configuration within a title: its loads and its networks, cut where they are long.
#[must_use]
pub fn configuration(one: &Configuration) -> String {
    let (mut loads, mut networks): (Vec<String>, Vec<String>) = Default::default();
    for output in &one.outputs {
        let (load, network) = (short_load(output.load), output.network.to_string());
        if !loads.contains(&load) {
            loads.push(load);
        }
        if !networks.contains(&network) {
            networks.push(network);
        }
    }
    let networks = networks.join("; ");
    let mut text = loads.join(" and ");
    text.push_str(", ");
    if networks.chars().count() <= LONGEST {
        text.push_str(&networks);
    } else {
        text.extend(networks.chars().take(LONGEST));
        text.push('…');
    }
    text
}

/// How many stand side by side.
#[must_use]
pub fn compared(count: usize) -> String {
    let count = u128::try_from(count).unwrap_or(u128::MAX);
    super::super::counts::counted(count, "configuration", "configurations")
}

#[cfg(test)]
mod tests {
    use super::*;
    use coilwright_solver::answer;
    use coilwright_solver::bounds::Field;
    use coilwright_solver::rig::{AmplifierDraft, ChannelDraft, Draft, GroupDraft, Rig};

    fn rig(count: u32, channels: usize) -> Rig {
        let group = GroupDraft {
            count: Some(count),
            coils: Some(2),
            ohms: Field::CoilOhms.ohms_text("2").ok(),
            ..GroupDraft::default()
        };
        let channel = ChannelDraft {
            least: Field::ChannelLeast.ohms_text("1").ok(),
            ..ChannelDraft::default()
        };
        let amplifier = AmplifierDraft {
            count: Some(1),
            channels: vec![channel; channels],
            bridges: Vec::new(),
        };
        Draft { groups: vec![group], amplifier: Some(amplifier) }.check(Vec::new()).unwrap()
    }

    #[test]
    fn a_title_names_loads_and_networks_once_each_and_no_longer_than_can_be_heard() {
        let said = |rig: &Rig, key: &str| configuration(&answer::one(rig, key).unwrap());
        let two = rig(2, 1);
        assert_eq!(said(&two, "1:(1a+1b)||(2a+2b)"), "2 Ω, (1a + 1b) ∥ (2a + 2b)");
        let apart = rig(2, 2);
        assert_eq!(said(&apart, "1:1a+1b;2:2a||2b"), "4 Ω and 1 Ω, 1a + 1b; 2a ∥ 2b");
        assert_eq!(said(&apart, "1:1a+1b;2:2a+2b"), "4 Ω, 1a + 1b; 2a + 2b");
        let drivers: Vec<String> = (1..=16).map(|n| format!("({n}a+{n}b)")).collect();
        let many = said(&rig(16, 1), &format!("1:{}", drivers.join("||")));
        assert!(many.starts_with("0.25 Ω, (1a + 1b) ∥ ") && many.ends_with('…'), "{many}");
        assert!(many.chars().count() <= "0.25 Ω, ".chars().count() + LONGEST + 1, "{many}");
    }
}
