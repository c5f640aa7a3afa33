//! How unequally the resistance of the wire feeds the drivers: nodal analysis of the runs.

use super::{Post, Run, Sign, Terminal};
use crate::answer::{Configuration, Output};
use crate::network::Coil;
use crate::rig::{Build, Rig};

/// The drivers that get most and least of what they would without resistance in the wire.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Imbalance {
    /// The power of the least over that of the most, as shares of what is theirs.
    pub ratio: f64,
    /// The same in decibels, not negative.
    pub decibels: f64,
    /// The driver that gets least, counted from 0.
    pub least: u8,
}

/// Copper at 20 °C in Ω·mm²/m (IEC 60028).
const RESISTIVITY: f64 = 1.0 / 58.0;

/// The greatest imbalance on any output; `None` where no output has several drivers.
pub(super) fn imbalance(
    rig: &Rig,
    build: &Build,
    configuration: &Configuration,
    runs: &[Run],
) -> Option<Imbalance> {
    let mut worst: Option<Imbalance> = None;
    for (number, output) in (0_u8..).zip(&configuration.outputs) {
        let own: Vec<&Run> = runs.iter().filter(|run| run.output == number).collect();
        let Some(found) = of_output(rig, build, output, &own) else { continue };
        if worst.is_none_or(|worst| found.decibels > worst.decibels) {
            worst = Some(found);
        }
    }
    worst
}

fn of_output(rig: &Rig, build: &Build, output: &Output, runs: &[&Run]) -> Option<Imbalance> {
    let ohms = |coil: Coil| rig.group_of(coil.driver).map_or(1.0, |group| group.ohms.to_f64());
    let mut circuit = Circuit::default();
    for run in runs {
        let (from, to) = (circuit.node(run.from), circuit.node(run.to));
        circuit.branches.push((from, to, build.conductor_mm2 / (RESISTIVITY * run.metres)));
    }
    let shares = output.network.shares_near(&ohms);
    let mut coils = Vec::new();
    for (coil, share) in shares {
        let ends = [Sign::Plus, Sign::Minus]
            .map(|sign| circuit.node(Terminal { post: Post::Coil(coil), sign }));
        circuit.branches.push((ends[0], ends[1], 1.0 / ohms(coil)));
        coils.push((coil, ends, share));
    }
    let volts = circuit.volts();
    let at = |node: usize| volts.get(node).copied().unwrap_or(0.0);
    // Driver by driver: what it gets, and what it would.
    let mut drivers: Vec<(u8, f64, f64)> = Vec::new();
    for (coil, [plus, minus], share) in coils {
        let across = at(plus) - at(minus);
        let gets = across * across / ohms(coil);
        match drivers.iter_mut().find(|(driver, ..)| *driver == coil.driver) {
            Some((_, sum, own)) => (*sum, *own) = (*sum + gets, *own + share),
            None => drivers.push((coil.driver, gets, share)),
        }
    }
    let of_own = |(driver, gets, own): &(u8, f64, f64)| (*driver, gets / own);
    let least = drivers.iter().map(of_own).min_by(|a, b| a.1.total_cmp(&b.1))?;
    let most = drivers.iter().map(of_own).max_by(|a, b| a.1.total_cmp(&b.1))?;
    if drivers.len() < 2 || most.1 <= 0.0 {
        return None;
    }
    let ratio = least.1 / most.1;
    // Plus nothing, since no imbalance is 0 and not −0 on every machine.
    let decibels = (-10.0 * libm::log10(ratio)).max(0.0) + 0.0;
    Some(Imbalance { ratio, decibels, least: least.0 })
}

/// Conductances between nodes. The amplifier's + is at one volt, its − at none.
#[derive(Default)]
struct Circuit {
    nodes: Vec<Terminal>,
    branches: Vec<(usize, usize, f64)>,
}

impl Circuit {
    /// The node of a terminal: both sides of a cup are one, as are tied pairs.
    fn node(&mut self, terminal: Terminal) -> usize {
        let post = match terminal.post {
            Post::CupOutside(cup) => Post::CupInside(cup),
            Post::Amplifier { output, .. } => Post::Amplifier { output, pair: 0 },
            post => post,
        };
        let terminal = Terminal { post, ..terminal };
        self.nodes.iter().position(|node| *node == terminal).unwrap_or_else(|| {
            self.nodes.push(terminal);
            self.nodes.len().saturating_sub(1)
        })
    }

    /// The voltage of each node: elimination without pivots, since no conductance is
    /// negative.
    fn volts(&self) -> Vec<f64> {
        let count = self.nodes.len();
        let mut rows = vec![vec![0.0; count.saturating_add(1)]; count];
        for (from, to, siemens) in &self.branches {
            for (a, b) in [(*from, *to), (*to, *from)] {
                if let Some(row) = rows.get_mut(a) {
                    add(row, a, *siemens);
                    add(row, b, -siemens);
                }
            }
        }
        // A terminal of the amplifier is where it is, whatever flows.
        for (at, (node, row)) in self.nodes.iter().zip(&mut rows).enumerate() {
            if matches!(node.post, Post::Amplifier { .. }) {
                row.fill(0.0);
                add(row, at, 1.0);
                add(row, count, if node.sign == Sign::Plus { 1.0 } else { 0.0 });
            }
        }
        for at in 0..count {
            let (done, rest) = rows.split_at_mut(at.saturating_add(1));
            let Some(pivot) = done.last() else { continue };
            let scale = pivot.get(at).copied().unwrap_or(1.0);
            for row in rest {
                let factor = row.get(at).copied().unwrap_or(0.0) / scale;
                if factor != 0.0 {
                    for (value, above) in row.iter_mut().zip(pivot).skip(at) {
                        *value -= factor * above;
                    }
                }
            }
        }
        let mut volts = vec![0.0; count];
        for at in (0..count).rev() {
            let Some(row) = rows.get(at) else { continue };
            let known: f64 = row
                .iter()
                .zip(&volts)
                .skip(at.saturating_add(1))
                .map(|(value, volts)| value * volts)
                .sum();
            let (scale, right) = (row.get(at).copied(), row.last().copied());
            if let (Some(slot), Some(scale), Some(right)) = (volts.get_mut(at), scale, right) {
                *slot = (right - known) / scale;
            }
        }
        volts
    }
}

fn add(row: &mut [f64], at: usize, value: f64) {
    if let Some(slot) = row.get_mut(at) {
        *slot += value;
    }
}
