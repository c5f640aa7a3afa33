//! What stands in the fields, as it was typed.
//!
//! Number fields keep their raw text: a browser's own number field drops what it
//! cannot read, and a person who types `1.` on the way to `1.5` should not see it go.

use super::fields::{
    Amplifier, AmplifierForm, Bridge, BridgeForm, BuildForm, Built, Group, GroupForm, Output,
    OutputForm, Part, PointForm, Rated, Takes,
};
use super::place::{At, Place};
use coilwright_solver::bounds::{Field, Kind};
use coilwright_solver::nearest::Change;

/// Everything that was asked, as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Form {
    /// Driver groups, at least one.
    pub groups: Vec<GroupForm>,
    /// The amplifier, where one is named.
    pub amplifier: Option<AmplifierForm>,
    /// How the box is built.
    pub build: BuildForm,
    /// Only configurations joined at the driver.
    pub joined_only: bool,
    /// Only even configurations.
    pub even_only: bool,
}

impl PointForm {
    /// Whether nothing is written in it.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.ohms.trim().is_empty() && self.watts.trim().is_empty()
    }
}

impl Default for Form {
    fn default() -> Self {
        Self {
            groups: vec![GroupForm { count: String::new(), ..GroupForm::default() }],
            amplifier: Some(AmplifierForm::default()),
            build: BuildForm::default(),
            joined_only: true,
            even_only: true,
        }
    }
}

/// The most entries a list of the contract may have.
#[must_use]
pub const fn most(list: Field) -> usize {
    match list.spec().kind {
        Kind::Objects { most, .. } => most as usize,
        _ => 0,
    }
}

/// The most characters a text of the contract may have.
#[must_use]
pub const fn longest(text: Field) -> usize {
    match text.spec().kind {
        Kind::Text { most } | Kind::AnyText { most } => most as usize,
        _ => 0,
    }
}

impl Form {
    /// The figures of a channel or bridge.
    #[must_use]
    pub fn output(&self, at: At) -> Option<&OutputForm> {
        let amplifier = self.amplifier.as_ref()?;
        match at {
            At::Channel(i) => amplifier.channels.get(i),
            At::Bridge(i) => amplifier.bridges.get(i).map(|bridge| &bridge.output),
        }
    }

    /// The same, to be written to.
    pub fn output_mut(&mut self, at: At) -> Option<&mut OutputForm> {
        let amplifier = self.amplifier.as_mut()?;
        match at {
            At::Channel(i) => amplifier.channels.get_mut(i),
            At::Bridge(i) => amplifier.bridges.get_mut(i).map(|bridge| &mut bridge.output),
        }
    }

    /// The text at a place. Writing to the rated point after the last makes it.
    fn text_mut(&mut self, place: Place) -> Option<&mut String> {
        let (mut texts, row) = match place {
            Place::Group(i, row) => (self.groups.get_mut(i)?.texts_mut(), row as usize),
            Place::Amplifier(row) => (self.amplifier.as_mut()?.texts_mut(), row as usize),
            Place::Output(at, row) => (self.output_mut(at)?.texts_mut(), row as usize),
            Place::Rated(at, i, row) => (self.point_mut(at, i)?.texts_mut(), row as usize),
            Place::Bridge(i, row) => {
                let bridge = self.amplifier.as_mut()?.bridges.get_mut(i)?;
                (bridge.texts_mut(), row as usize)
            }
            Place::Box(row) => (self.build.texts_mut(), row as usize),
            Place::Takes(i, row) => (self.build.takes.get_mut(i)?.texts_mut(), row as usize),
        };
        (row < texts.len()).then(|| texts.swap_remove(row))
    }

    /// The text at a place, where there is one.
    #[must_use]
    pub fn text(&self, place: Place) -> Option<&str> {
        self.places().into_iter().find(|(at, _)| *at == place).map(|(_, text)| text)
    }

    fn point_mut(&mut self, at: At, i: usize) -> Option<&mut PointForm> {
        let most = most(at.rated());
        let rated = &mut self.output_mut(at)?.rated;
        if i == rated.len() && i < most {
            rated.push(PointForm::default());
        }
        rated.get_mut(i)
    }

    /// Writes a value as typed; a place that is not there is left alone.
    pub fn set(&mut self, place: Place, text: String) {
        if let Some(value) = self.text_mut(place) {
            *value = text;
        }
        if place == Place::Amplifier(Amplifier::Channels) {
            self.fill_channels();
        }
    }

    /// Leaves out what drivers and outputs are rated for; the rows stay where one is typed into.
    pub fn clear_watts(&mut self, rows_stay: bool) {
        for group in &mut self.groups {
            group.watts.clear();
        }
        if let Some(amplifier) = &mut self.amplifier {
            let bridges = amplifier.bridges.iter_mut().map(|bridge| &mut bridge.output);
            for output in amplifier.channels.iter_mut().chain(bridges) {
                output.rated.fill(PointForm::default());
                if !rows_stay {
                    output.rated.clear();
                }
            }
        }
    }

    /// Every place of it, with what stands there.
    #[must_use]
    pub fn places(&self) -> Vec<(Place, &str)> {
        let mut places: Vec<(Place, &str)> = Vec::new();
        for (i, group) in self.groups.iter().enumerate() {
            all(group, Group::ALL, |row| Place::Group(i, row), &mut places);
        }
        if let Some(amplifier) = &self.amplifier {
            all(amplifier, Amplifier::ALL, Place::Amplifier, &mut places);
            for (i, channel) in amplifier.channels.iter().enumerate() {
                of_output(channel, At::Channel(i), &mut places);
            }
            for (i, bridge) in amplifier.bridges.iter().enumerate() {
                all(bridge, Bridge::ALL, |row| Place::Bridge(i, row), &mut places);
                of_output(&bridge.output, At::Bridge(i), &mut places);
            }
        }
        all(&self.build, Built::ALL, Place::Box, &mut places);
        for (i, takes) in self.build.takes.iter().enumerate() {
            all(takes, Takes::ALL, |row| Place::Takes(i, row), &mut places);
        }
        places
    }

    /// Makes a change that would make something fit.
    pub fn change(&mut self, change: &Change) {
        match change {
            Change::Coils { group, coils, ohms } => {
                if let Some(group) = self.groups.get_mut(*group) {
                    group.coils = coils.to_string();
                    group.unused = "0".into();
                    // Of other coils.
                    group.measured.clear();
                    group.ohms = ohms.to_string();
                }
            }
            Change::Count { group, count } => {
                if let Some(group) = self.groups.get_mut(*group) {
                    group.count = count.to_string();
                    group.measured.clear();
                }
            }
            Change::Bridge { channels } => {
                if let Some(amplifier) = &mut self.amplifier {
                    let [first, second] = channels.map(|n| n.to_string());
                    let output = OutputForm::default();
                    amplifier.bridges.push(BridgeForm { first, second, output });
                }
            }
            Change::LeastLoad { ohms } => {
                if let Some(amplifier) = &mut self.amplifier {
                    for channel in &mut amplifier.channels {
                        channel.least = ohms.to_string();
                    }
                }
            }
        }
    }

    /// Where channels differ, makes an entry for each, copied from the first.
    pub fn fill_channels(&mut self) {
        let Some(amplifier) = &mut self.amplifier else {
            return;
        };
        let count = amplifier.channels_read();
        if amplifier.alike {
            return;
        }
        let first = amplifier.channels.first().cloned().unwrap_or_default();
        while amplifier.channels.len() < count {
            amplifier.channels.push(first.clone());
        }
    }
}

impl AmplifierForm {
    /// How many channels there are; one while the count cannot be read.
    #[must_use]
    pub fn channels_read(&self) -> usize {
        let text = self.channel_count.trim();
        let count = text.parse::<usize>().unwrap_or(1);
        if (1..=most(Field::Channels)).contains(&count) { count } else { 1 }
    }

    /// How many channels have fields of their own.
    #[must_use]
    pub fn channels_shown(&self) -> usize {
        if self.alike { 1 } else { self.channels_read().min(self.channels.len()) }
    }
}

fn all<'f, R: Copy>(
    part: &'f impl Part,
    rows: &[R],
    place: impl Fn(R) -> Place,
    into: &mut Vec<(Place, &'f str)>,
) {
    into.extend(
        rows.iter().map(|row| place(*row)).zip(part.texts().into_iter().map(String::as_str)),
    );
}

fn of_output<'f>(output: &'f OutputForm, at: At, into: &mut Vec<(Place, &'f str)>) {
    all(output, Output::ALL, |row| Place::Output(at, row), into);
    for (i, point) in output.rated.iter().enumerate() {
        all(point, Rated::ALL, |row| Place::Rated(at, i, row), into);
    }
}

impl BuildForm {
    /// Mounts a driver, counted from 1, facing in, or turns it back.
    pub fn mount(&mut self, driver: u32, reversed: bool) {
        self.reversed.retain(|one| *one != driver);
        if reversed {
            let at = self.reversed.partition_point(|one| *one < driver);
            self.reversed.insert(at, driver);
        }
    }
}

#[cfg(test)]
mod tests;
