//! What lies between two nodes of a circuit.

use super::super::built::Between;
use crate::network::Coil;

#[derive(Clone, Copy, Debug)]
pub(in crate::meter) struct Resistor {
    pub(in crate::meter) ends: [usize; 2],
    pub(in crate::meter) ohms: f64,
    /// Of a coil that was not measured: its group.
    pub(in crate::meter) group: Option<usize>,
    /// The coil that it is.
    pub(in crate::meter) coil: Option<Coil>,
    /// Of a coil: `Winding::scatter`.
    pub(in crate::meter) scatter: f64,
    pub(in crate::meter) unsure: bool,
}

/// Nothing has less than so many ohms.
pub(in crate::meter) const LEAST: f64 = 1e-6;

impl Resistor {
    /// Neither a coil nor known well.
    pub(super) const fn unsure(ends: [usize; 2], ohms: f64) -> Self {
        Self { ends, ohms, group: None, coil: None, scatter: 1.0, unsure: true }
    }

    /// Adds its part to what lies between two terminals, by the volts over it at one ampere.
    pub(super) fn share(&self, volts: f64, between: &mut Between) {
        self.share_of(self.ohms, self.unsure, volts, between);
    }

    /// The same at other ohms.
    pub(in crate::meter) fn share_of(
        &self,
        ohms: f64,
        unsure: bool,
        volts: f64,
        between: &mut Between,
    ) {
        // Most of what is in a box lies beside what is read.
        if volts == 0.0 {
            return;
        }
        let share = volts * volts / ohms.max(LEAST) / between.ohms.max(1e-9);
        if self.coil.is_some() {
            between.squares += share * share * self.scatter;
        }
        if unsure {
            between.unsure += share;
        }
        if let Some(slot) = self.group.and_then(|group| between.groups.get_mut(group)) {
            *slot += share;
        }
    }
}
