//! What changes the form in part, and what was removed coming back.

use super::Question;
use super::fields::{AmplifierForm, BridgeForm, GroupForm, PointForm};
use super::form::most;
use super::place::{At, Place};
use crate::question::fields::Group;
use coilwright_solver::bounds::Field;
use coilwright_solver::nearest::Change;

/// What can be done to the form.
#[derive(Clone, Debug)]
pub enum Edit {
    /// A field was typed into.
    Set(Place, String),
    /// A driver group is wanted.
    AddGroup,
    /// A driver group goes.
    RemoveGroup(usize),
    /// An amplifier is wanted.
    AddAmplifier,
    /// The amplifier goes.
    RemoveAmplifier,
    /// All channels are alike, or not.
    Alike(bool),
    /// A bridge is wanted.
    AddBridge,
    /// A channel has two pairs of terminals, or one.
    Tied(usize, bool),
    /// A bridge goes.
    RemoveBridge(usize),
    /// A rated point goes.
    RemovePoint(At, usize),
    /// What was removed last comes back.
    PutBack,
    /// The filter on joining is on, or off.
    JoinedOnly(bool),
    /// The filter on evenness is on, or off.
    EvenOnly(bool),
    /// A driver, counted from 1, is mounted facing in, or not.
    Reversed(u32, bool),
    /// The amplifier is in a vehicle, or not.
    Vehicle(bool),
    /// Terminals of a sort are push-on tabs, or not.
    PushOn(usize, bool),
    /// A change to the rig that would make something fit is made.
    Change(Change),
}

/// What was removed, to be put back with one tap.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Removed {
    /// A driver group, from this place.
    Group(usize, GroupForm),
    /// The amplifier.
    Amplifier(AmplifierForm),
    /// A bridge, from this place.
    Bridge(usize, BridgeForm),
    /// A rated point, from this place.
    Point(At, usize, PointForm),
}

impl Edit {
    /// Whether it changes what drivers are called, and nothing that is asked.
    #[must_use]
    pub const fn is_name(&self) -> bool {
        matches!(self, Self::Set(Place::Group(_, Group::Name), _))
    }
}

impl Question {
    /// Changes the form in part.
    pub fn edit(&mut self, edit: Edit) {
        match edit {
            Edit::Set(place, text) => self.form.set(place, text),
            Edit::AddGroup => {
                if self.form.groups.len() < most(Field::Drivers) {
                    self.form.groups.push(GroupForm::default());
                }
            }
            Edit::RemoveGroup(i) => {
                if self.form.groups.len() > 1 && i < self.form.groups.len() {
                    let group = self.form.groups.remove(i);
                    self.removed = Some(Removed::Group(i, group));
                }
            }
            Edit::AddAmplifier => {
                self.form.amplifier.get_or_insert_default();
            }
            Edit::RemoveAmplifier => {
                self.removed = self.form.amplifier.take().map(Removed::Amplifier);
            }
            Edit::JoinedOnly(on) => self.form.joined_only = on,
            Edit::EvenOnly(on) => self.form.even_only = on,
            Edit::RemovePoint(at, i) => {
                if let Some(output) = self.form.output_mut(at)
                    && i < output.rated.len()
                {
                    let point = output.rated.remove(i);
                    self.removed = Some(Removed::Point(at, i, point));
                }
            }
            Edit::Reversed(driver, reversed) => self.form.build.mount(driver, reversed),
            Edit::Vehicle(vehicle) => self.form.build.not_in_vehicle = !vehicle,
            Edit::PushOn(i, push_on) => {
                if let Some(takes) = self.form.build.takes.get_mut(i) {
                    takes.push_on = push_on;
                }
            }
            Edit::PutBack => self.put_back(),
            Edit::Change(change) => self.form.change(&change),
            Edit::Alike(alike) => {
                if let Some(amplifier) = &mut self.form.amplifier {
                    amplifier.alike = alike;
                    self.form.fill_channels();
                }
            }
            Edit::Tied(i, tied) => {
                let amplifier = self.form.amplifier.as_mut();
                if let Some(channel) = amplifier.and_then(|of| of.channels.get_mut(i)) {
                    channel.tied = tied;
                }
            }
            Edit::AddBridge => {
                if let Some(amplifier) = &mut self.form.amplifier {
                    add_bridge(amplifier);
                }
            }
            Edit::RemoveBridge(i) => {
                if let Some(amplifier) = &mut self.form.amplifier
                    && i < amplifier.bridges.len()
                {
                    let bridge = amplifier.bridges.remove(i);
                    self.removed = Some(Removed::Bridge(i, bridge));
                }
            }
        }
    }

    fn put_back(&mut self) {
        match self.removed.take() {
            Some(Removed::Group(i, group)) => {
                let groups = &mut self.form.groups;
                groups.insert(i.min(groups.len()), group);
            }
            Some(Removed::Amplifier(amplifier)) => self.form.amplifier = Some(amplifier),
            Some(Removed::Bridge(i, bridge)) => {
                if let Some(amplifier) = &mut self.form.amplifier {
                    let bridges = &mut amplifier.bridges;
                    bridges.insert(i.min(bridges.len()), bridge);
                }
            }
            Some(Removed::Point(at, i, point)) => {
                if let Some(output) = self.form.output_mut(at) {
                    output.rated.insert(i.min(output.rated.len()), point);
                }
            }
            None => {}
        }
    }
}

/// Adds a bridge of the first pair of neighbours that no bridge has yet.
fn add_bridge(amplifier: &mut AmplifierForm) {
    let bridges = amplifier.bridges.len();
    if bridges >= most(Field::Bridges) {
        return;
    }
    let taken = |n: usize| {
        let n = n.to_string();
        amplifier.bridges.iter().any(|b| b.first == n || b.second == n)
    };
    let pairs = (0..).map(|pair| 2 * pair + 1);
    let free = pairs.take(bridges + 1).find(|n| !taken(*n) && !taken(n + 1));
    let first = free.unwrap_or(2 * bridges + 1);
    amplifier.bridges.push(BridgeForm {
        first: first.to_string(),
        second: (first + 1).to_string(),
        ..BridgeForm::default()
    });
}
