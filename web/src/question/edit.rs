//! What changes the form in part.

use super::Question;
use super::fields::{AmplifierForm, BridgeForm, GroupForm};
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
            Edit::Set(place, text) => {
                // The first value that is typed makes the example one's own rig, of which
                // nobody has said what it bears.
                let rig = !matches!(
                    place,
                    Place::Group(_, Group::Name) | Place::Box(_) | Place::Takes(..)
                );
                if rig && self.is_example() && self.form.text(place) != Some(&text) {
                    self.form.clear_watts(matches!(place, Place::Rated(..)));
                }
                self.form.set(place, text);
            }
            Edit::AddGroup => {
                if self.form.groups.len() < most(Field::Drivers) {
                    self.form.groups.push(GroupForm::default());
                }
            }
            Edit::RemoveGroup(i) => {
                if self.form.groups.len() > 1 && i < self.form.groups.len() {
                    self.form.groups.remove(i);
                }
            }
            Edit::AddAmplifier => {
                self.form.amplifier.get_or_insert_default();
            }
            Edit::RemoveAmplifier => self.form.amplifier = None,
            Edit::JoinedOnly(on) => self.form.joined_only = on,
            Edit::EvenOnly(on) => self.form.even_only = on,
            Edit::RemovePoint(at, i) => {
                if let Some(output) = self.form.output_mut(at)
                    && i < output.rated.len()
                {
                    output.rated.remove(i);
                }
            }
            Edit::Reversed(driver, reversed) => self.form.build.mount(driver, reversed),
            Edit::Vehicle(vehicle) => self.form.build.not_in_vehicle = !vehicle,
            Edit::PushOn(i, push_on) => {
                if let Some(takes) = self.form.build.takes.get_mut(i) {
                    takes.push_on = push_on;
                }
            }
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
                    amplifier.bridges.remove(i);
                }
            }
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
