//! What one wire or one coil changes in a circuit that is solved already: every change is
//! of a low rank, so that the inverse need not be worked out anew (Sherman and Morrison,
//! Ann. Math. Statist. 21, 1950).

use super::built::{Between, Built, GROUPS, Posts};
use super::setting::Setting;
use super::solved::{LEAST, Solved, at};
use crate::defect::Defect;

/// A change that leaves less than this of a part's own conductance takes apart what hung
/// together: no inverse tells that.
const APART: f64 = 1e-9;

/// A solved circuit with little changed in it.
#[derive(Debug)]
pub(super) struct Changed<'a> {
    solved: &'a Solved,
    /// Each takes `factor · along · alongᵀ` from the inverse.
    terms: Vec<(Vec<f64>, f64)>,
    /// The ohms of resistors that are others than in the circuit; without end where open.
    others: Vec<(usize, f64)>,
    /// What joins two nodes, in ohms.
    link: Option<Link>,
}

#[derive(Clone, Copy, Debug)]
struct Link {
    ends: [usize; 2],
    ohms: f64,
    /// Whether both ends hung together before.
    within: bool,
}

/// Pieces of a way between two nodes, and whether the link lies between them.
type Way = ([[usize; 2]; 2], bool);

impl<'a> Changed<'a> {
    /// What was built, from the sound circuit of the same wires but the changed one;
    /// `None` where a coil that opens takes the circuit apart.
    pub(super) fn of(
        solved: &'a Solved,
        posts: &Posts<'_>,
        built: &Built,
        setting: &Setting,
        changed: Option<usize>,
    ) -> Result<Option<Self>, Defect> {
        let mut this = Self { solved, terms: Vec::new(), others: Vec::new(), link: None };
        let coils = built.open.is_some() || !built.factors.is_empty();
        for (number, resistor) in solved.resistors.iter().enumerate().take_while(|_| coils) {
            let Some(coil) = resistor.coil else { continue };
            let factor = if built.open == Some(coil) { f64::INFINITY } else { built.factor(coil) };
            if (factor - 1.0).abs() < f64::EPSILON {
                continue;
            }
            let ohms = resistor.ohms * factor;
            let more = 1.0 / ohms.max(LEAST) - 1.0 / resistor.ohms.max(LEAST);
            this.others.push((number, ohms));
            let [a, b] = resistor.ends;
            if a != b {
                let along = this.along(a, b);
                let left = 1.0 + more * (at(&along, a) - at(&along, b));
                if left < APART {
                    return Ok(None);
                }
                this.terms.push((along, more / left));
            }
        }
        let wire = changed.and_then(|run| built.wires.iter().find(|wire| wire.run == run));
        let ends = match (wire, built.touching) {
            (Some(wire), _) if setting.has(built, wire) => solved.ends(posts, setting, wire)?,
            (_, Some(touching)) => solved.touching(posts, touching.pair)?,
            _ => None,
        };
        if let Some(ends) = ends {
            let [a, b] = ends;
            let (a, b) = (solved.node(a)?, solved.node(b)?);
            let ohms = built.loose.map_or(0.0, |(_, ohms)| ohms);
            let within = solved.island(a) == solved.island(b);
            if within && a != b {
                let along = this.along(a, b);
                let through = at(&along, a) - at(&along, b) + ohms;
                this.terms.push((along, 1.0 / through.max(LEAST * LEAST)));
            }
            if a != b {
                this.link = Some(Link { ends: [a, b], ohms, within });
            }
        }
        Ok(Some(this))
    }

    /// The potentials of all nodes at one ampere from one to another that it hangs with.
    fn along(&self, from: usize, to: usize) -> Vec<f64> {
        let mut along: Vec<f64> = self.solved.volts(from, to).collect();
        for (term, factor) in &self.terms {
            let part = factor * (at(term, from) - at(term, to));
            for (slot, value) in along.iter_mut().zip(term) {
                *slot -= part * value;
            }
        }
        along
    }

    /// The resistance between two nodes that hang together.
    fn ohms_within(&self, from: usize, to: usize) -> f64 {
        if from == to {
            return 0.0;
        }
        let at = |a, b| self.solved.inverse(a, b);
        let mut ohms = at(from, from) + at(to, to) - 2.0 * at(from, to);
        for (term, factor) in &self.terms {
            let volts = self::at(term, from) - self::at(term, to);
            ohms -= factor * volts * volts;
        }
        ohms.max(0.0)
    }

    /// The pieces of a way from one node to another that each hang together, in order, and
    /// whether the link lies between them; `None` where nothing joins them.
    fn way(&self, from: usize, to: usize) -> Option<Way> {
        let island = |node| self.solved.island(node);
        if island(from) == island(to) {
            return Some(([[from, to], [to, to]], false));
        }
        let Link { ends: [a, b], within, .. } = self.link?;
        match (island(from), island(to)) {
            _ if within => None,
            ends if ends == (island(a), island(b)) => Some(([[from, a], [b, to]], true)),
            ends if ends == (island(b), island(a)) => Some(([[from, b], [a, to]], true)),
            _ => None,
        }
    }

    /// The nodes of two numbered terminals.
    fn nodes(&self, probes: [usize; 2]) -> Result<[usize; 2], Defect> {
        let [plus, minus] = probes.map(|number| {
            let node = self.solved.node(number)?;
            // What a wire joins is one node.
            Ok(match self.link {
                Some(Link { ends: [a, b], ohms: 0.0, .. }) if node == b => a,
                _ => node,
            })
        });
        Ok([plus?, minus?])
    }

    /// The resistance between two numbered terminals, in ohms; without end where it is open.
    pub(super) fn ohms(&self, probes: [usize; 2]) -> Result<f64, Defect> {
        let [plus, minus] = self.nodes(probes)?;
        Ok(self.way(plus, minus).map_or(f64::INFINITY, |way| self.ohms_on(way)))
    }

    /// The resistance on a way.
    fn ohms_on(&self, (pieces, linked): Way) -> f64 {
        let link = self.link.filter(|_| linked).map_or(0.0, |link| link.ohms);
        pieces.into_iter().fold(link, |sum, [from, to]| sum + self.ohms_within(from, to))
    }

    /// What lies between two numbered terminals of what was built.
    pub(super) fn between(&self, built: &Built, probes: [usize; 2]) -> Result<Between, Defect> {
        let [plus, minus] = self.nodes(probes)?;
        if plus == minus {
            return Ok(Between::NOTHING);
        }
        let Some(way) = self.way(plus, minus) else { return Ok(Between::OPEN) };
        let mut between = Between { ohms: self.ohms_on(way), ..Between::NOTHING };
        let (pieces, linked) = way;
        let mut volts = Vec::new();
        for [from, to] in pieces.into_iter().filter(|[from, to]| from != to) {
            let along = self.along(from, to);
            if volts.is_empty() {
                volts = along;
            } else {
                for (slot, value) in volts.iter_mut().zip(along) {
                    *slot += value;
                }
            }
        }
        for (number, resistor) in self.solved.resistors.iter().enumerate() {
            let other = self.others.iter().find(|(of, _)| *of == number).map(|(_, ohms)| *ohms);
            let ohms = other.unwrap_or(resistor.ohms);
            // A whole group is worked out anew.
            let holds = |coil| built.unsure.holds(coil, GROUPS);
            let unsure = resistor.unsure || resistor.coil.is_some_and(holds);
            if ohms.is_finite() {
                let [a, b] = resistor.ends;
                resistor.share_of(ohms, unsure, at(&volts, a) - at(&volts, b), &mut between);
            }
        }
        // Of what joins two nodes only a loose joint has ohms, which nobody knows.
        if let Some(Link { ends: [a, b], ohms, within }) = self.link
            && ohms > 0.0
        {
            let amps = match (linked, within) {
                (true, _) => 1.0,
                (false, true) => (at(&volts, a) - at(&volts, b)) / ohms,
                (false, false) => 0.0,
            };
            between.unsure += amps * amps * ohms / between.ohms.max(1e-9);
        }
        Ok(between)
    }
}

#[cfg(test)]
mod tests;
