//! A link read part by part, as far as that can be.

use super::escape::unescaped;
use super::{LeftOut, Opened, Saved, TIED, UNUSED, build, open};
use crate::aside::{self, Compared};
use crate::job::work::Work;
use crate::question::form::{
    AmplifierForm, BridgeForm, BuildForm, Form, GroupForm, OutputForm, PointForm, most, watts_per,
};
use crate::rooms::{Kept, Room, RoomsKept};
use coilwright_solver::bounds::{Field, Kind};
use coilwright_solver::rig::WattsPer;

#[derive(Default)]
pub(super) struct Reader {
    groups: Vec<GroupForm>,
    names: Vec<String>,
    measured: Vec<String>,
    amplifier: Option<AmplifierForm>,
    channels: Vec<OutputForm>,
    bridges: Vec<BridgeForm>,
    filters_off: [bool; 2],
    key: Option<String>,
    /// Those of another rig with it.
    compared: Vec<(Option<Form>, String)>,
    room: Room,
    build: BuildForm,
    work: Work,
    rooms: RoomsKept,
    pub(super) left_out: Vec<LeftOut>,
}

impl Reader {
    /// Reads a part; `None` where its value cannot be.
    pub(super) fn part(&mut self, name: &str, value: &str) -> Option<()> {
        match name {
            "key" => self.key = Some(unescaped(value).filter(|key| !key.is_empty())?),
            "view" => {
                let mut rooms = Room::ALL.iter();
                self.room = *rooms.find(|room| room.name() == value)?;
            }
            "work" | "job" => {
                let Work { at, done, .. } = build::read_work(value)?;
                (self.work.at, self.work.done) = (at, done);
                self.work.old = name == "work";
            }
            "read" | "meter" => {
                self.work.read = build::read_readings(value, name == "read")?;
                self.work.old = name == "read";
            }
            "asked" => self.work.asked = build::read_asked(value)?,
            "against" => self.work.against = build::read_against(value)?,
            "box" => build::read_box(value, &mut self.build)?,
            "reversed" => build::read_reversed(value, &mut self.build)?,
            "wire" => build::read_wire(value, &mut self.build)?,
            "terminals" => build::read_terminals(value, &mut self.build)?,
            "compare" if self.compared.len() >= aside::MOST => {
                let left_out = LeftOut::TooMany("compare");
                if !self.left_out.contains(&left_out) {
                    self.left_out.push(left_out);
                }
            }
            "compare" => {
                let text = unescaped(value).filter(|text| !text.is_empty())?;
                // A link within a link holds a rig and a key, and no further links.
                let one = if text.starts_with("v=")
                    && !text.split('&').any(|part| part.starts_with("compare="))
                {
                    let saved = open(&text)?.saved;
                    (Some(saved.form), saved.key?)
                } else {
                    (None, text)
                };
                self.compared.push(one);
            }
            "joined_only" => self.filters_off[0] = switched_off(value)?,
            "even_only" => self.filters_off[1] = switched_off(value)?,
            "names" => self.names = texts(value)?,
            "measured" => self.measured = texts(value)?,
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
                if let Some(read) = self.rooms.read(name, value) {
                    return read;
                }
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

    pub(super) fn finish(mut self) -> Opened {
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
        // Where a group is missing nobody knows whose a name is.
        let missing = self.left_out.contains(&LeftOut::Impossible("drivers".into()));
        for (part, texts) in [("names", &mut self.names), ("measured", &mut self.measured)] {
            if texts.len() > self.groups.len().max(1) {
                self.left_out.push(LeftOut::TooMany(part));
            }
            if missing && !texts.is_empty() {
                self.left_out.push(LeftOut::Impossible(part.into()));
                texts.clear();
            }
        }
        let [joined_off, even_off] = self.filters_off;
        let mut form = Form {
            groups: if self.groups.is_empty() { empty.groups } else { self.groups },
            amplifier: self.amplifier,
            build: self.build,
            joined_only: !joined_off,
            even_only: !even_off,
        };
        for (group, name) in form.groups.iter_mut().zip(self.names) {
            group.name = name;
        }
        for (group, measured) in form.groups.iter_mut().zip(self.measured) {
            group.measured = measured;
        }
        form.fill_channels();
        let of_rig = |(other, key): (Option<Form>, String)| Compared {
            form: other.unwrap_or_else(|| form.clone()),
            key,
        };
        let compared = self.compared.into_iter().map(of_rig).collect();
        let (key, room, work, rooms) = (self.key, self.room, self.work, self.rooms);
        let saved = Saved { form, key, compared, room, work, rooms };
        Opened { saved, left_out: self.left_out }
    }
}

fn switched_off(value: &str) -> Option<bool> {
    match value {
        "0" => Some(true),
        "1" => Some(false),
        _ => None,
    }
}

/// A text for each group.
fn texts(value: &str) -> Option<Vec<String>> {
    let mut texts = Vec::new();
    for text in value.split('~') {
        texts.push(unescaped(text)?);
    }
    Some(texts)
}

fn group(value: &str) -> Option<GroupForm> {
    let mut texts = value.split('~');
    let mut next = || unescaped(texts.next()?);
    let group = GroupForm {
        count: next()?,
        coils: next()?,
        ohms: next()?,
        watts: next()?,
        ..GroupForm::default()
    };
    let Kind::OneOfNumbers(numbers) = Field::Coils.spec().kind else {
        return None;
    };
    // The page offers these to choose from and has no field for any other.
    if !numbers.iter().any(|n| n.to_string() == group.coils) {
        return None;
    }
    let mut next = texts.next();
    let mut per = WattsPer::Driver;
    if let Some(found) = next.and_then(watts_per) {
        (per, next) = (found, texts.next());
    }
    let unused = match next {
        None => group.unused.clone(),
        // The page offers these to choose from.
        Some(text) => {
            let unused = text.strip_prefix(UNUSED)?;
            ["1", "2", "3"].into_iter().find(|n| *n == unused)?.to_owned()
        }
    };
    texts.next().is_none().then_some(GroupForm { watts_per: per, unused, ..group })
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
