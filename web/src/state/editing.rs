//! What changes the form in part, and what was removed coming back.

use super::form::{BridgeForm, GroupForm, most};
use super::{Action, Removed, State};
use coilwright_solver::bounds::Field;

impl State {
    /// What changes the form in part.
    pub(super) fn edit(&mut self, action: Action) {
        match action {
            Action::Set(place, text) => self.form.set(place, text),
            Action::AddGroup => {
                if self.form.groups.len() < most(Field::Drivers) {
                    self.form.groups.push(GroupForm::default());
                }
            }
            Action::RemoveGroup(i) => {
                if self.form.groups.len() > 1 && i < self.form.groups.len() {
                    let group = self.form.groups.remove(i);
                    self.removed = Some(Removed::Group(i, group));
                }
            }
            Action::AddAmplifier => {
                self.form.amplifier.get_or_insert_default();
            }
            Action::RemoveAmplifier => {
                self.removed = self.form.amplifier.take().map(Removed::Amplifier);
            }
            Action::JoinedOnly(on) => self.form.joined_only = on,
            Action::EvenOnly(on) => self.form.even_only = on,
            Action::RemovePoint(at, i) => {
                if let Some(output) = self.form.output_mut(at)
                    && i < output.rated.len()
                {
                    let point = output.rated.remove(i);
                    self.removed = Some(Removed::Point(at, i, point));
                }
            }
            Action::Reversed(driver, reversed) => self.form.build.mount(driver, reversed),
            Action::Vehicle(vehicle) => self.form.build.not_in_vehicle = !vehicle,
            Action::PushOn(i, push_on) => {
                if let Some(takes) = self.form.build.takes.get_mut(i) {
                    takes.push_on = push_on;
                }
            }
            Action::PutBack => self.put_back(),
            action => self.edit_amplifier(action),
        }
    }

    fn edit_amplifier(&mut self, action: Action) {
        let Some(amplifier) = &mut self.form.amplifier else {
            return;
        };
        match action {
            Action::Alike(alike) => {
                amplifier.alike = alike;
                self.form.fill_channels();
            }
            Action::Tied(i, tied) => {
                if let Some(channel) = amplifier.channels.get_mut(i) {
                    channel.tied = tied;
                }
            }
            Action::AddBridge => {
                let bridges = amplifier.bridges.len();
                if bridges < most(Field::Bridges) {
                    // The first pair of neighbours that no bridge has yet.
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
            }
            Action::RemoveBridge(i) if i < amplifier.bridges.len() => {
                let bridge = amplifier.bridges.remove(i);
                self.removed = Some(Removed::Bridge(i, bridge));
            }
            _ => {}
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
