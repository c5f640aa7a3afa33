//! The rig: driver groups and amplifier, checked.
//!
//! Whoever reads a request (the JSON reader, the page's fields) fills a [`Draft`]
//! with what could be read and notes a problem for what could not; [`Draft::check`]
//! adds what is wrong between fields, so that every problem is told at once.

mod build;
mod draft;

use crate::ohms::{Ohms, Ratio, Watts};
pub(crate) use build::path;
pub use build::{Build, BuildDraft, Cups, DISTANCES, Fed, JoinedAt, TERMINALS, Takes, TakesDraft};
pub use draft::{
    AmplifierDraft, BridgeDraft, ChannelDraft, Draft, GroupDraft, PointDraft, WattsPer,
};

/// Drivers of one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// How many drivers.
    pub count: u32,
    /// Voice coils in use on each.
    pub coils: u32,
    /// Voice coils on each that are left out on purpose: the last ones.
    pub unused: u32,
    /// Nominal impedance of one coil.
    pub ohms: Ohms,
    /// Continuous rating of a whole driver.
    pub watts: Option<Watts>,
    /// Measured resistance of each coil in ohms, driver by driver.
    pub dc_ohms: Option<Vec<f64>>,
}

impl Group {
    /// Continuous rating of one coil in watts: an equal part of the driver's.
    #[must_use]
    pub fn coil_watts(&self) -> Option<f64> {
        self.watts.map(|watts| watts.to_f64() / f64::from(self.coils_on_each()))
    }

    /// The same exactly.
    #[must_use]
    pub fn coil_rating(&self) -> Option<Ratio> {
        self.watts?.ratio().over(Ratio::whole(u128::from(self.coils_on_each()))?)
    }

    /// Voice coils on each driver, in use or not: 1, 2 or 4.
    #[must_use]
    pub const fn coils_on_each(&self) -> u32 {
        self.coils.saturating_add(self.unused)
    }

    /// Coils in use of all drivers in the group.
    #[must_use]
    pub fn coils_in_all(&self) -> u32 {
        self.count.saturating_mul(self.coils)
    }
}

/// So many watts into so many ohms, as the maker states it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RatedPoint {
    /// The load.
    pub ohms: Ohms,
    /// The continuous power into it.
    pub watts: Watts,
}

/// One channel of an amplifier.
#[derive(Clone, Debug, PartialEq)]
pub struct Channel {
    /// The least load it is safe with.
    pub least: Option<Ohms>,
    /// Its rated points, in rising order of load.
    pub rated: Vec<RatedPoint>,
    /// Terminal pairs, tied inside: one output however many.
    pub terminal_pairs: u32,
}

/// Two channels that the maker allows to be bridged.
#[derive(Clone, Debug, PartialEq)]
pub struct Bridge {
    /// The two channels, counted from 1, the lower first.
    pub channels: [u32; 2],
    /// The least load of the bridge, where stated.
    pub least: Option<Ohms>,
    /// Its rated points, where stated, in rising order of load.
    pub rated: Vec<RatedPoint>,
}

/// An amplifier, or several of one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Amplifier {
    /// How many of this kind.
    pub count: u32,
    /// Its channels in its own order.
    pub channels: Vec<Channel>,
    /// The bridges its maker names.
    pub bridges: Vec<Bridge>,
}

/// Drivers and amplifier together, within every bound.
#[derive(Clone, Debug, PartialEq)]
pub struct Rig {
    pub(crate) groups: Vec<Group>,
    pub(crate) amplifier: Option<Amplifier>,
}

impl Rig {
    /// The driver groups.
    #[must_use]
    pub fn groups(&self) -> &[Group] {
        &self.groups
    }

    /// The amplifier, where there is one.
    #[must_use]
    pub fn amplifier(&self) -> Option<&Amplifier> {
        self.amplifier.as_ref()
    }

    /// The group of a driver, counted from 0 across groups.
    #[must_use]
    pub fn group_of(&self, driver: u8) -> Option<&Group> {
        self.groups.get(self.group_number_of(driver)?)
    }

    /// The number of the group of a driver, both counted from 0.
    #[must_use]
    pub fn group_number_of(&self, driver: u8) -> Option<usize> {
        let mut left = u32::from(driver);
        for (number, group) in self.groups.iter().enumerate() {
            match left.checked_sub(group.count) {
                None => return Some(number),
                Some(rest) => left = rest,
            }
        }
        None
    }

    /// The drivers of each group, counted from 0 across groups.
    pub fn drivers_of_groups(&self) -> impl Iterator<Item = core::ops::Range<u8>> + '_ {
        let mut next = 0_u8;
        self.groups.iter().map(move |group| {
            let first = next;
            for _ in 0..group.count {
                next = next.saturating_add(1);
            }
            first..next
        })
    }

    /// Every driver, counted from 0.
    pub fn driver_numbers(&self) -> impl Iterator<Item = u8> + '_ {
        self.drivers_of_groups().flatten()
    }

    /// Drivers in all.
    #[must_use]
    pub fn drivers(&self) -> u32 {
        self.groups.iter().map(|group| group.count).sum()
    }

    /// Coils in all.
    #[must_use]
    pub fn coils(&self) -> u32 {
        self.groups.iter().map(Group::coils_in_all).sum()
    }

    /// Whether every group states its watts.
    #[must_use]
    pub fn every_rating_known(&self) -> bool {
        self.groups.iter().all(|group| group.watts.is_some())
    }

    /// The rating that evenness is judged by: watts of one coil of a group, or where
    /// any group lacks its watts an equal part of a driver, all drivers alike.
    #[must_use]
    pub fn coil_rating(&self, group: &Group) -> Ratio {
        let driver = match group.watts {
            Some(watts) if self.every_rating_known() => watts.ratio(),
            _ => Ratio::ONE,
        };
        let coils = Ratio::whole(u128::from(group.coils_on_each()));
        // A rig has no driver without coils.
        coils.and_then(|coils| driver.over(coils)).unwrap_or(driver)
    }
}
