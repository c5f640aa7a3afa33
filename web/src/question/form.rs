//! What stands in the fields, as it was typed.
//!
//! Number fields keep their raw text: a browser's own number field drops what it
//! cannot read, and a person who types `1.` on the way to `1.5` should not see it go.

mod build;
mod place;

pub use build::{BuildForm, TakesForm};
use coilwright_solver::bounds::{Field, Kind};
use coilwright_solver::nearest::Change;
use coilwright_solver::rig::WattsPer;
pub use place::{At, Place};

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

/// A driver group as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupForm {
    /// What they are called: no part of the question.
    pub name: String,
    /// How many drivers.
    pub count: String,
    /// Coils on each: `1`, `2` or `4`.
    pub coils: String,
    /// Ohms of one coil.
    pub ohms: String,
    /// Continuous watts.
    pub watts: String,
    /// Whose watts these are.
    pub watts_per: WattsPer,
    /// Coils of each driver left out on purpose.
    pub unused: String,
    /// Measured ohms, coil by coil, where they were.
    pub measured: String,
}

/// An amplifier as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AmplifierForm {
    /// How many of this kind.
    pub count: String,
    /// How many channels.
    pub channel_count: String,
    /// Whether the first channel's figures are every channel's.
    pub alike: bool,
    /// The channels, at least one; those beyond the count are kept but not read.
    pub channels: Vec<OutputForm>,
    /// The bridges its maker names.
    pub bridges: Vec<BridgeForm>,
}

/// The figures of a channel or a bridge as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OutputForm {
    /// The least load.
    pub least: String,
    /// Rated points.
    pub rated: Vec<PointForm>,
    /// Whether it has two pairs of terminals, tied inside.
    pub tied: bool,
}

/// A rated point as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PointForm {
    /// The load.
    pub ohms: String,
    /// The power.
    pub watts: String,
}

/// A bridge as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BridgeForm {
    /// The lower channel.
    pub first: String,
    /// The other channel.
    pub second: String,
    /// Its own figures, where stated.
    pub output: OutputForm,
}

impl PointForm {
    /// Whether nothing is written in it.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.ohms.trim().is_empty() && self.watts.trim().is_empty()
    }
}

impl Default for GroupForm {
    fn default() -> Self {
        Self {
            name: String::new(),
            count: "1".into(),
            coils: "1".into(),
            ohms: String::new(),
            watts: String::new(),
            watts_per: WattsPer::Driver,
            unused: "0".into(),
            measured: String::new(),
        }
    }
}

impl Default for AmplifierForm {
    fn default() -> Self {
        Self {
            count: "1".into(),
            channel_count: "1".into(),
            alike: true,
            channels: vec![OutputForm::default()],
            bridges: Vec::new(),
        }
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

    fn text_mut(&mut self, place: Place) -> Option<&mut String> {
        match place {
            Place::Name(i) => self.groups.get_mut(i).map(|group| &mut group.name),
            Place::Count(i) => self.groups.get_mut(i).map(|group| &mut group.count),
            Place::Coils(i) => self.groups.get_mut(i).map(|group| &mut group.coils),
            Place::Ohms(i) => self.groups.get_mut(i).map(|group| &mut group.ohms),
            Place::Watts(i) => self.groups.get_mut(i).map(|group| &mut group.watts),
            Place::WattsPer(_) => None,
            Place::AmplifierCount => self.amplifier.as_mut().map(|a| &mut a.count),
            Place::ChannelCount => self.amplifier.as_mut().map(|a| &mut a.channel_count),
            Place::Least(at) => self.output_mut(at).map(|output| &mut output.least),
            Place::PointOhms(at, i) => self.point_mut(at, i).map(|point| &mut point.ohms),
            Place::PointWatts(at, i) => self.point_mut(at, i).map(|point| &mut point.watts),
            Place::Measured(i) => self.groups.get_mut(i).map(|group| &mut group.measured),
            Place::Unused(i) => self.groups.get_mut(i).map(|group| &mut group.unused),
            Place::First(i) => self.bridge_mut(i).map(|bridge| &mut bridge.first),
            Place::Second(i) => self.bridge_mut(i).map(|bridge| &mut bridge.second),
            place => self.build.text_mut(place),
        }
    }

    fn bridge_mut(&mut self, i: usize) -> Option<&mut BridgeForm> {
        self.amplifier.as_mut()?.bridges.get_mut(i)
    }

    /// A rated point; writing to the one after the last makes it.
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
        if let Place::WattsPer(i) = place {
            if let (Some(group), Some(per)) = (self.groups.get_mut(i), watts_per(&text)) {
                group.watts_per = per;
            }
            return;
        }
        if let Some(value) = self.text_mut(place) {
            *value = text;
        }
        if place == Place::ChannelCount {
            self.fill_channels();
        }
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

/// The name of whose watts are meant, as the contract has it.
#[must_use]
pub fn watts_per_name(per: WattsPer) -> &'static str {
    match per {
        WattsPer::Driver => "driver",
        WattsPer::Coil => "coil",
    }
}

/// Reads that name.
#[must_use]
pub fn watts_per(name: &str) -> Option<WattsPer> {
    [WattsPer::Driver, WattsPer::Coil].into_iter().find(|per| watts_per_name(*per) == name)
}

#[cfg(test)]
mod tests;
