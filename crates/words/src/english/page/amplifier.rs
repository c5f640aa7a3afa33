//! The parts of the sentence about the amplifier.

/// Before the count of channels.
pub const WITH: &str = "with";
/// Before the least load.
pub const SAFE: &str = "safe down to";
/// Before the count of amplifiers.
pub const I_HAVE: &str = "I have";
/// Under the field for the channels.
pub const CHANNELS: &str = "channels";
/// Under the field for the least load.
pub const LEAST: &str = "least load";
/// Under the field for the count of amplifiers.
pub const COUNT: &str = "of this kind";
/// All channels have the same figures.
pub const ALIKE: &str = "All channels alike";
/// A channel has two pairs of terminals.
pub const TIED: &str = "Two pairs of terminals";
/// The same, where the tick stands for every channel.
pub const ALL_TIED: &str = "Two pairs of terminals on each channel";
/// The list of rated points.
pub const RATED: &str = "Rated power";
/// Between watts and ohms of a rated point.
pub const INTO: &str = "into";
/// What is folded away of an amplifier, after its rated points: watts and ohms as typed.
#[must_use]
pub fn more<'a>(channels: &str, points: impl Iterator<Item = (&'a str, &'a str)>) -> String {
    let several = channels != "1" && !channels.is_empty();
    let mut text = String::from(if several { channels } else { "Channels" });
    if several {
        text.push_str(" channels");
    }
    let mut sign = ", ";
    for (watts, ohms) in points {
        for part in [core::mem::replace(&mut sign, " · "), watts, " W into ", ohms, " Ω"] {
            text.push_str(part);
        }
    }
    if sign == ", " {
        text.push_str(", rated power");
    }
    text
}

/// Takes the amplifier out of the question.
pub const WITHOUT: &str = "Remove";
/// Brings an amplifier into the question.
pub const ADD: &str = "Add an amplifier";
/// While there is none.
pub const NONE: &str = "Without an amplifier every load is listed, and none is judged.";
/// Adds a bridge.
pub const ADD_BRIDGE: &str = "Add a bridge its maker names";
/// Removes a bridge.
pub const REMOVE_BRIDGE: &str = "Remove";
/// Between the two channels of a bridge.
pub const AND: &str = "and";
/// Before the channels of a bridge.
pub const BRIDGED: &str = "Bridged";
/// Under the fields for the channels of a bridge.
pub const CHANNEL: &str = "channel";
/// The heading of a bridge.
#[must_use]
pub fn bridge(number: usize) -> String {
    format!("Bridge {number}")
}
/// The heading of a channel.
#[must_use]
pub fn channel(number: usize) -> String {
    format!("Channel {number}")
}
/// Before the least load of one of several channels.
#[must_use]
pub fn channel_safe(number: usize) -> String {
    let mut text = channel(number);
    text.push(' ');
    text.push_str(SAFE);
    text
}
/// Names the watts of a rated point to who cannot see the row.
#[must_use]
pub fn point_watts(row: usize) -> String {
    format!("watts, rated point {row}")
}
/// Names the ohms of a rated point to who cannot see the row.
#[must_use]
pub fn point_ohms(row: usize) -> String {
    format!("ohms, rated point {row}")
}
/// Removes a rated point.
#[must_use]
pub fn remove_point(row: usize) -> String {
    format!("Remove rated point {row}")
}
/// Channels beyond what the page can ask about.
pub const CHANNELS_BOUND: &str = "The number of channels must be a whole number from 1 to 8.";
/// The number of channels is missing.
pub const CHANNELS_MISSING: &str =
    "The number of channels is missing: give 1 for a mono amplifier.";
