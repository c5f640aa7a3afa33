//! The whole state as text: the link's fragment and the stored draft.
//!
//! ```text
//! link    = "v=1" *( "&" part )              fixed order when written, any when read
//! part    = "key=" key                       the chosen configuration
//!         | "view=" ( "compare" | "help" )   what fills the page, but the list
//!         | "order=" order                   best, load, power, runs; where chosen
//!         | "load=" ohms                     the rung that was tapped: `4` or `8/3`
//!         | "compare=" ( key | link )        once for each put aside; of another rig its link
//!         | "joined_only=0" | "even_only=0"  filters that are off
//!         | "drivers=" group                 once for each group
//!         | "amplifier=" amp                 where there is one; then its outputs:
//!         | "channel=" output                once for each channel with fields of its own
//!         | "bridge=" channel "~" channel "~" output
//! group   = count "~" coils "~" ohms "~" watts [ "~coil" ]
//! amp     = count "~" channels [ "~unlike" ]
//! output  = least *( "~" ohms ":" watts ) [ "~tied" ]       two pairs of terminals, tied
//! ```
//! Values are the raw texts of the fields. In them everything but ASCII letters,
//! digits and `.` `-` `_` `/` is percent-encoded; keys keep `:` `+` `(` `)` too.
//! The form comes last, so that a link ends in a letter or digit nearly always and
//! survives programs that cut punctuation off the end of an address.

use super::Room;
use super::compared::{self, Compared};
use super::form::{
    AmplifierForm, BridgeForm, Form, GroupForm, OutputForm, PointForm, most, watts_per_name,
};
use super::list::{order_name, order_named};
use coilwright_solver::answer::Order;
use coilwright_solver::bounds::{Field, Kind};
use coilwright_solver::ohms::{Ohms, Ratio};
use coilwright_solver::rig::WattsPer;

/// The end of an output with two pairs of terminals.
const TIED: &str = "~tied";

/// The version that is written.
const VERSION: &str = "1";

/// Everything that a link holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Saved {
    /// What stands in the fields.
    pub form: Form,
    /// The order of the list, where the visitor chose one.
    pub order: Option<Order>,
    /// The rung that was tapped.
    pub load: Option<Ohms>,
    /// The chosen configuration.
    pub key: Option<String>,
    /// What was put aside to compare.
    pub compared: Vec<Compared>,
    /// What fills the page.
    pub room: Room,
}

impl Saved {
    /// A form alone.
    #[must_use]
    pub fn of(form: Form) -> Self {
        let room = Room::List;
        Self { form, order: None, load: None, key: None, compared: Vec::new(), room }
    }
}

fn room_name(room: Room) -> &'static str {
    match room {
        Room::List => "list",
        Room::Compare => "compare",
        Room::Help => "help",
    }
}

/// What a link was opened as.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Opened {
    /// What could be opened.
    pub saved: Saved,
    /// What was left out, part by part.
    pub left_out: Vec<LeftOut>,
}

/// A part of a link that was left out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// The link is of a version this page does not know; it was read as far as possible.
    Version(String),
    /// A part that nobody knows, by its name.
    Unknown(String),
    /// A part whose value cannot be, by its name.
    Impossible(String),
    /// One part too many of a kind, by its name.
    TooMany(&'static str),
}

/// Writes the state.
#[must_use]
pub fn write(saved: &Saved) -> String {
    let mut link = format!("v={VERSION}");
    let mut part = |name: &str, value: &str| {
        link.push('&');
        link.push_str(name);
        link.push('=');
        link.push_str(value);
    };
    if let Some(key) = &saved.key {
        part("key", &escaped(key, b":+()"));
    }
    if saved.room != Room::List {
        part("view", room_name(saved.room));
    }
    if let Some(order) = saved.order {
        part("order", order_name(order));
    }
    if let Some(load) = saved.load {
        part("load", &load.to_string());
    }
    for one in &saved.compared {
        let value = if one.same_rig(&saved.form) {
            escaped(&one.key, b":+()")
        } else {
            let key = Some(one.key.clone());
            escaped(&write(&Saved { key, ..Saved::of(one.form.clone()) }), b":+()")
        };
        part("compare", &value);
    }
    if !saved.form.joined_only {
        part(Field::JoinedOnly.spec().name, "0");
    }
    if !saved.form.even_only {
        part(Field::EvenOnly.spec().name, "0");
    }
    for group in &saved.form.groups {
        let mut value = joined(&[&group.count, &group.coils, &group.ohms, &group.watts]);
        if group.watts_per == WattsPer::Coil {
            value.push('~');
            value.push_str(watts_per_name(WattsPer::Coil));
        }
        part("drivers", &value);
    }
    if let Some(amplifier) = &saved.form.amplifier {
        let mut value = joined(&[&amplifier.count, &amplifier.channel_count]);
        if !amplifier.alike {
            value.push_str("~unlike");
        }
        part("amplifier", &value);
        for channel in &amplifier.channels {
            part("channel", &output(channel));
        }
        for bridge in &amplifier.bridges {
            let pair = joined(&[&bridge.first, &bridge.second]);
            part("bridge", &format!("{pair}~{}", output(&bridge.output)));
        }
    }
    link
}

fn joined(texts: &[&String]) -> String {
    let texts: Vec<String> = texts.iter().map(|text| escaped(text, b"")).collect();
    texts.join("~")
}

fn output(output: &OutputForm) -> String {
    let mut value = escaped(&output.least, b"");
    for point in &output.rated {
        value.push('~');
        value.push_str(&escaped(&point.ohms, b""));
        value.push(':');
        value.push_str(&escaped(&point.watts, b""));
    }
    if output.tied {
        value.push_str(TIED);
    }
    value
}

fn escaped(text: &str, kept: &[u8]) -> String {
    const HEX: &[u8; 16] = b"0123456789ABCDEF";
    let mut link = String::with_capacity(text.len());
    for byte in text.bytes() {
        if byte.is_ascii_alphanumeric() || b".-_/".contains(&byte) || kept.contains(&byte) {
            link.push(char::from(byte));
        } else {
            link.push('%');
            for digit in [byte >> 4, byte & 15] {
                let digit = HEX.get(usize::from(digit)).copied().unwrap_or(b'0');
                link.push(char::from(digit));
            }
        }
    }
    link
}

/// The text behind percent signs; `None` where they stand for nothing.
fn unescaped(link: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(link.len());
    let mut rest = link.bytes();
    while let Some(byte) = rest.next() {
        if byte != b'%' {
            bytes.push(byte);
            continue;
        }
        let high = char::from(rest.next()?).to_digit(16)?;
        let low = char::from(rest.next()?).to_digit(16)?;
        bytes.push(u8::try_from(high * 16 + low).ok()?);
    }
    String::from_utf8(bytes).ok()
}

/// Opens a fragment, with or without its `#`. `None` if it is no link of ours.
#[must_use]
pub fn open(fragment: &str) -> Option<Opened> {
    let text = fragment.strip_prefix('#').unwrap_or(fragment);
    let mut parts = text.split('&');
    let version = parts.next()?.strip_prefix("v=")?;
    let mut reader = Reader::default();
    if version != VERSION {
        let version = unescaped(version).unwrap_or_default();
        reader.left_out.push(LeftOut::Version(version));
    }
    for part in parts {
        let (name, value) = part.split_once('=').unwrap_or((part, ""));
        let name_text = unescaped(name).unwrap_or_else(|| name.to_string());
        if reader.part(name, value).is_none() {
            reader.left_out.push(LeftOut::Impossible(name_text));
        }
    }
    Some(reader.finish())
}

#[derive(Default)]
struct Reader {
    groups: Vec<GroupForm>,
    amplifier: Option<AmplifierForm>,
    channels: Vec<OutputForm>,
    bridges: Vec<BridgeForm>,
    filters_off: [bool; 2],
    order: Option<Order>,
    load: Option<Ohms>,
    key: Option<String>,
    /// Those of another rig with it.
    compared: Vec<(Option<Form>, String)>,
    room: Room,
    left_out: Vec<LeftOut>,
}

impl Reader {
    /// Reads a part; `None` where its value cannot be.
    fn part(&mut self, name: &str, value: &str) -> Option<()> {
        match name {
            "key" => self.key = Some(unescaped(value).filter(|key| !key.is_empty())?),
            "view" => {
                let rooms = [Room::List, Room::Compare, Room::Help];
                self.room = rooms.into_iter().find(|room| room_name(*room) == value)?;
            }
            "order" => self.order = Some(order_named(value)?),
            "load" => self.load = Some(load(value)?),
            "compare" if self.compared.len() >= compared::MOST => {
                let left_out = LeftOut::TooMany("compare");
                if !self.left_out.contains(&left_out) {
                    self.left_out.push(left_out);
                }
            }
            "compare" => {
                let text = unescaped(value).filter(|text| !text.is_empty())?;
                // A link within a link holds a rig and a key, and no further links.
                let one = if text.starts_with("v=") && !text.contains("&compare=") {
                    let saved = open(&text)?.saved;
                    (Some(saved.form), saved.key?)
                } else {
                    (None, text)
                };
                self.compared.push(one);
            }
            "joined_only" => self.filters_off[0] = switched_off(value)?,
            "even_only" => self.filters_off[1] = switched_off(value)?,
            "drivers" => {
                let group = group(value)?;
                self.add("drivers", Field::Drivers, |r| &mut r.groups, group);
            }
            "amplifier" if self.amplifier.is_some() => {
                self.left_out.push(LeftOut::TooMany("amplifier"));
            }
            "amplifier" => self.amplifier = Some(amplifier(value)?),
            "channel" => {
                let channel = read_output(value.split('~'))?;
                self.add("channel", Field::Channels, |r| &mut r.channels, channel);
            }
            "bridge" => {
                let mut texts = value.split('~');
                let bridge = BridgeForm {
                    first: unescaped(texts.next()?)?,
                    second: unescaped(texts.next()?)?,
                    output: read_output(texts)?,
                };
                self.add("bridge", Field::Bridges, |r| &mut r.bridges, bridge);
            }
            _ => {
                let name = unescaped(name).unwrap_or_else(|| name.to_string());
                self.left_out.push(LeftOut::Unknown(name));
            }
        }
        Some(())
    }

    fn add<T>(
        &mut self,
        name: &'static str,
        field: Field,
        list: impl Fn(&mut Self) -> &mut Vec<T>,
        entry: T,
    ) {
        let list = list(self);
        if list.len() < most(field) {
            list.push(entry);
        } else {
            let left_out = LeftOut::TooMany(name);
            if !self.left_out.contains(&left_out) {
                self.left_out.push(left_out);
            }
        }
    }

    fn finish(mut self) -> Opened {
        let empty = Form::default();
        match &mut self.amplifier {
            Some(amplifier) => {
                if !self.channels.is_empty() {
                    amplifier.channels = self.channels;
                }
                amplifier.bridges = self.bridges;
            }
            None => {
                for (name, without) in
                    [("channel", self.channels.is_empty()), ("bridge", self.bridges.is_empty())]
                {
                    if !without {
                        self.left_out.push(LeftOut::Impossible(name.into()));
                    }
                }
            }
        }
        let [joined_off, even_off] = self.filters_off;
        let mut form = Form {
            groups: if self.groups.is_empty() { empty.groups } else { self.groups },
            amplifier: self.amplifier,
            joined_only: !joined_off,
            even_only: !even_off,
        };
        form.fill_channels();
        let of_rig = |(other, key): (Option<Form>, String)| Compared {
            form: other.unwrap_or_else(|| form.clone()),
            key,
        };
        let compared = self.compared.into_iter().map(of_rig).collect();
        let (order, load, key, room) = (self.order, self.load, self.key, self.room);
        let saved = Saved { form, order, load, key, compared, room };
        Opened { saved, left_out: self.left_out }
    }
}

/// A load as it is written: `4`, or a fraction `8/3`.
fn load(value: &str) -> Option<Ohms> {
    let (over, under) = value.split_once('/').unwrap_or((value, "1"));
    Some(Ohms::new(Ratio::new(over.parse().ok()?, under.parse().ok()?)?))
}

fn switched_off(value: &str) -> Option<bool> {
    match value {
        "0" => Some(true),
        "1" => Some(false),
        _ => None,
    }
}

fn group(value: &str) -> Option<GroupForm> {
    let mut texts = value.split('~');
    let mut next = || unescaped(texts.next()?);
    let group = GroupForm {
        count: next()?,
        coils: next()?,
        ohms: next()?,
        watts: next()?,
        watts_per: WattsPer::Driver,
    };
    let Kind::OneOfNumbers(numbers) = Field::Coils.spec().kind else {
        return None;
    };
    // The page offers these to choose from and has no field for any other.
    if !numbers.iter().any(|n| n.to_string() == group.coils) {
        return None;
    }
    let watts_per = match texts.next() {
        None => WattsPer::Driver,
        Some(name) => super::form::watts_per(name)?,
    };
    texts.next().is_none().then_some(GroupForm { watts_per, ..group })
}

fn amplifier(value: &str) -> Option<AmplifierForm> {
    let mut texts = value.split('~');
    let count = unescaped(texts.next()?)?;
    let channel_count = unescaped(texts.next()?)?;
    let alike = match texts.next() {
        None => true,
        Some("unlike") => false,
        Some(_) => return None,
    };
    texts.next().is_none().then(|| AmplifierForm {
        count,
        channel_count,
        alike,
        ..AmplifierForm::default()
    })
}

fn read_output<'a>(mut texts: impl Iterator<Item = &'a str>) -> Option<OutputForm> {
    let least = unescaped(texts.next()?)?;
    let mut rated = Vec::new();
    let mut tied = false;
    for text in texts {
        if tied {
            return None;
        }
        if TIED.strip_prefix('~') == Some(text) {
            tied = true;
            continue;
        }
        let (ohms, watts) = text.split_once(':')?;
        rated.push(PointForm { ohms: unescaped(ohms)?, watts: unescaped(watts)? });
    }
    (rated.len() <= most(Field::ChannelRated)).then_some(OutputForm { least, rated, tied })
}

#[cfg(test)]
mod tests;
