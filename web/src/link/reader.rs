//! A link read part by part, as far as that can be.

use super::escape::unescaped;
use super::texts::{self, Values};
use super::{LeftOut, Opened, Saved, TIED, build, open};
use crate::aside::{self, Compared};
use crate::job::begun::{Begun, Origin};
use crate::job::work::Work;
use crate::question::fields::{
    AmplifierForm, BridgeForm, BuildForm, GroupForm, Linked, OutputForm, Part, PointForm,
};
use crate::question::form::{Form, most};
use crate::rooms::{Kept, Room, RoomsKept};
use coilwright_solver::bounds::Field;
use std::rc::Rc;

/// More plans than anybody has work waiting of: each is a link within the link.
const MOST_WAITING: usize = 64;

#[derive(Default)]
pub(super) struct Reader {
    groups: Vec<GroupForm>,
    /// Texts of groups in parts of their own.
    apart: Vec<(usize, Vec<String>)>,
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
    waits: Vec<Begun>,
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
            "waits" if self.waits.len() >= MOST_WAITING => return None,
            "waits" => {
                let Saved { form, key, work, .. } = within(&unescaped(value)?)?;
                if work == Work::default() {
                    return None;
                }
                self.waits.push(Begun { origin: Rc::new(Origin { form, key }), work });
            }
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
                let one = if text.starts_with("v=") {
                    let saved = within(&text)?;
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
                let channel = output(&mut value.split('~').peekable())?;
                self.add("channel", Field::Channels, |r| &mut r.channels, channel);
            }
            "bridge" => {
                let bridge = bridge(value)?;
                self.add("bridge", Field::Bridges, |r| &mut r.bridges, bridge);
            }
            _ => {
                if let Some(read) = self.rooms.read(name, value) {
                    return read;
                }
                if let Some(row) = texts::row_apart::<GroupForm>(name) {
                    let texts: Option<Vec<String>> = value.split('~').map(unescaped).collect();
                    let texts = texts?;
                    self.apart.retain(|(of, _)| *of != row);
                    self.apart.push((row, texts));
                    return Some(());
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
        for (at, row) in GroupForm::ROWS.iter().enumerate() {
            let Linked::Apart(name) = row.linked else { continue };
            let Some((_, texts)) = self.apart.iter_mut().find(|(of, _)| *of == at) else {
                continue;
            };
            if texts.len() > self.groups.len().max(1) {
                self.left_out.push(LeftOut::TooMany(name));
            }
            if missing && !texts.is_empty() {
                self.left_out.push(LeftOut::Impossible(name.into()));
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
        for (row, texts) in self.apart {
            for (group, text) in form.groups.iter_mut().zip(texts) {
                if let Some(into) = group.texts_mut().into_iter().nth(row) {
                    *into = text;
                }
            }
        }
        form.fill_channels();
        let of_rig = |(other, key): (Option<Form>, String)| Compared {
            form: other.unwrap_or_else(|| form.clone()),
            key,
        };
        let compared = self.compared.into_iter().map(of_rig).collect();
        let (key, room, work, rooms) = (self.key, self.room, self.work, self.rooms);
        let saved = Saved { form, key, compared, room, work, waits: self.waits, rooms };
        Opened { saved, left_out: self.left_out }
    }
}

/// A link within a link, which holds no further links.
fn within(text: &str) -> Option<Saved> {
    let holds = |name: &str| text.split('&').any(|part| part.starts_with(name));
    if holds("compare=") || holds("waits=") {
        return None;
    }
    Some(open(text)?.saved)
}

fn switched_off(value: &str) -> Option<bool> {
    match value {
        "0" => Some(true),
        "1" => Some(false),
        _ => None,
    }
}

fn group(value: &str) -> Option<GroupForm> {
    let mut values = value.split('~').peekable();
    let mut group = GroupForm::default();
    texts::read(&mut group, "drivers", &mut values)?;
    texts::read_behind(&mut group, &mut values)?;
    values.next().is_none().then_some(group)
}

fn amplifier(value: &str) -> Option<AmplifierForm> {
    let mut values = value.split('~').peekable();
    let mut amplifier = AmplifierForm::default();
    texts::read(&mut amplifier, "amplifier", &mut values)?;
    amplifier.alike = match values.next() {
        None => true,
        Some("unlike") => false,
        Some(_) => return None,
    };
    values.next().is_none().then_some(amplifier)
}

fn bridge(value: &str) -> Option<BridgeForm> {
    let mut values = value.split('~').peekable();
    let mut bridge = BridgeForm::default();
    texts::read(&mut bridge, "bridge", &mut values)?;
    bridge.output = output(&mut values)?;
    Some(bridge)
}

fn output(values: &mut Values<'_>) -> Option<OutputForm> {
    let mut output = OutputForm::default();
    texts::read(&mut output, "channel", values)?;
    for value in values {
        if output.tied {
            return None;
        }
        if TIED.strip_prefix('~') == Some(value) {
            output.tied = true;
            continue;
        }
        let mut point = PointForm::default();
        let mut values = value.split(':').peekable();
        texts::read_entry(&mut point, "channel", &mut values)?;
        output.rated.push(point);
    }
    (output.rated.len() <= most(Field::ChannelRated)).then_some(output)
}
