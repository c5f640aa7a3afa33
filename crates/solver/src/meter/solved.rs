//! The circuit of what was built, at what is placed, held and lifted.
//!
//! Terminals that wire makes one are one node; coils, loose joints and the amplifier are
//! resistors between nodes. One inverse of the conductances tells the resistance between
//! any two of them, and the share of every resistor in it. What one wire or one coil
//! changes is worked out from the inverse of what it changes (`changed`).
//!
//! The method is nodal analysis by Kirchhoff's laws (any textbook of circuits; from memory): the
//! conductance matrix with one node of each island held, inverted once by Gauss and Jordan's
//! elimination. Without negative conductances no pivot needs to be looked for.

mod merged;
mod resistor;

use super::built::{Between, Built, Posts, Wire};
use super::points::{Place, Point};
use super::setting::{Setting, held};
use crate::count::wide;
use crate::defect::Defect;
use crate::wiring::{Post, Terminal};
use merged::{across_amplifier, hold, join, top, touch};
pub(super) use resistor::{LEAST, Resistor};

/// Everything between nodes at one setting, for any two terminals.
#[derive(Debug)]
pub(super) struct Solved {
    /// The node of each numbered terminal.
    nodes: Vec<usize>,
    /// What hangs together.
    islands: Vec<usize>,
    count: usize,
    inverse: Vec<f64>,
    pub(super) resistors: Vec<Resistor>,
    runs: usize,
    at_amplifier: Vec<(Terminal, usize)>,
}

impl Solved {
    /// Solves what was built, at a setting.
    pub(super) fn of(posts: &Posts<'_>, built: &Built, setting: &Setting) -> Result<Self, Defect> {
        let runs = posts.plan.runs.len().max(built.wires.len());
        let mut above: Vec<usize> = (0..posts.count(runs)).collect();
        let mut resistors: Vec<Resistor> = Vec::new();
        let mut ends_at_amplifier: Vec<(Terminal, usize)> = Vec::new();
        for wire in built.wires.iter().filter(|wire| setting.has(built, wire)) {
            let from = posts.number(wire.from, wire.run, runs)?;
            let to = posts.number(wire.to, wire.run, runs)?;
            for (terminal, number) in [(wire.from, from), (wire.to, to)] {
                if let Post::Amplifier { .. } = terminal.post {
                    ends_at_amplifier.push((terminal, number));
                }
            }
            if setting.is_off(wire, wire.from) || setting.is_off(wire, wire.to) {
                continue;
            }
            match built.loose {
                Some((run, ohms)) if run == wire.run => {
                    resistors.push(Resistor::unsure([from, to], ohms));
                }
                _ => join(&mut above, from, to),
            }
        }
        hold(&mut above, &ends_at_amplifier, setting);
        if let Some(Place::CableJoined(run)) = setting.lifted {
            let mut plus = None;
            for (terminal, number) in &ends_at_amplifier {
                let same = posts.plan.runs.get(usize::from(run)).map(|run| run.from.post);
                if same == Some(terminal.post) {
                    match plus {
                        None => plus = Some(*number),
                        Some(plus) => join(&mut above, plus, *number),
                    }
                }
            }
        }
        if let Some(touching) = built.touching
            && let Some([a, b]) = touch(posts, touching.pair, &ends_at_amplifier, runs)?
        {
            join(&mut above, a, b);
        }
        if let Some(ohms) = built.amplifier {
            across_amplifier(&mut above, &ends_at_amplifier, ohms, &mut resistors);
        }
        for (place, winding) in posts.coils.iter().enumerate() {
            if built.open == Some(winding.coil) || !setting.takes(winding.coil) {
                continue;
            }
            let at = place.saturating_mul(2);
            resistors.push(Resistor {
                ends: [at, at.saturating_add(1)],
                ohms: winding.ohms * built.factor(winding.coil),
                group: (!winding.measured).then_some(winding.group),
                coil: Some(winding.coil),
                scatter: winding.scatter(),
                unsure: built.unsure.holds(winding.coil, winding.group),
            });
        }
        let mut solved = Self::solve(above, resistors, runs)?;
        solved.at_amplifier = ends_at_amplifier;
        Ok(solved)
    }

    fn solve(
        mut above: Vec<usize>,
        mut resistors: Vec<Resistor>,
        runs: usize,
    ) -> Result<Self, Defect> {
        // Only terminals that something is on become nodes; what nothing hangs on is told
        // apart by its root alone.
        let mut count = 0_usize;
        let mut of_root = vec![usize::MAX; above.len()];
        for resistor in &mut resistors {
            for end in &mut resistor.ends {
                let root = top(&mut above, *end);
                let node = of_root.get_mut(root).ok_or(Defect::Node)?;
                if *node == usize::MAX {
                    *node = count;
                    count = count.saturating_add(1);
                }
                *end = *node;
            }
        }
        let mut nodes = vec![usize::MAX; above.len()];
        for (number, node) in nodes.iter_mut().enumerate() {
            let root = top(&mut above, number);
            let known = of_root.get(root).copied().filter(|node| *node != usize::MAX);
            *node = known.unwrap_or_else(|| count.saturating_add(root));
        }
        let mut islands: Vec<usize> = (0..count).collect();
        for resistor in &resistors {
            let [a, b] = resistor.ends;
            join(&mut islands, a, b);
        }
        for at in 0..count {
            let root = top(&mut islands, at);
            if let Some(island) = islands.get_mut(at) {
                *island = root;
            }
        }
        let mut rows = vec![0.0; count.saturating_mul(count)];
        let mut add = |a: usize, b: usize, value: f64| {
            // Wrapping: both are less than the count, whose square there is.
            let slot = rows.get_mut(a.wrapping_mul(count).wrapping_add(b));
            *slot.ok_or(Defect::Table)? += value;
            Ok(())
        };
        for resistor in &resistors {
            let [a, b] = resistor.ends;
            if a == b {
                continue;
            }
            let siemens = 1.0 / resistor.ohms.max(LEAST);
            add(a, a, siemens)?;
            add(b, b, siemens)?;
            add(a, b, -siemens)?;
            add(b, a, -siemens)?;
        }
        // One node of each island lies at nothing.
        for (at, root) in islands.iter().enumerate() {
            if at == *root {
                add(at, at, 1.0)?;
            }
        }
        invert(&mut rows, count)?;
        let at_amplifier = Vec::new();
        Ok(Self { nodes, islands, count, inverse: rows, resistors, runs, at_amplifier })
    }

    /// About how long it took, in counted steps.
    pub(super) fn cost(&self) -> u64 {
        cost(self.nodes.len(), self.count)
    }

    /// The node of a numbered terminal; those beyond the count have nothing on them.
    pub(super) fn node(&self, number: usize) -> Result<usize, Defect> {
        self.nodes.get(number).copied().ok_or(Defect::Node)
    }

    /// What hangs together with a node, by a number; a node with nothing on it is alone.
    pub(super) fn island(&self, node: usize) -> usize {
        self.islands.get(node).map_or(node, |island| *island)
    }

    /// The potential of a node at one ampere into another, its island held at one place; none
    /// where one of them has nothing on it.
    pub(super) fn inverse(&self, a: usize, b: usize) -> f64 {
        if a >= self.count || b >= self.count {
            return 0.0;
        }
        // Wrapping: both are less than the count, whose square there is.
        let place = a.wrapping_mul(self.count).wrapping_add(b);
        at(&self.inverse, place)
    }

    /// The potentials of all nodes at one ampere from one of them to another.
    pub(super) fn volts(&self, from: usize, to: usize) -> impl Iterator<Item = f64> {
        let rows = self.inverse.chunks_exact(self.count.max(1));
        rows.map(move |row| at(row, from) - at(row, to))
    }

    /// The numbers of a run's ends, where both are on their terminals; as wired.
    pub(super) fn ends(
        &self,
        posts: &Posts<'_>,
        setting: &Setting,
        wire: &Wire,
    ) -> Result<Option<[usize; 2]>, Defect> {
        let on = [wire.from, wire.to].iter().all(|terminal| !setting.is_off(wire, *terminal));
        let [from, to] =
            [wire.from, wire.to].map(|terminal| posts.number(terminal, wire.run, self.runs));
        Ok(Some([from?, to?]).filter(|_| on))
    }

    /// The numbers of two terminals that touch, where both are there.
    pub(super) fn touching(
        &self,
        posts: &Posts<'_>,
        pair: [Terminal; 2],
    ) -> Result<Option<[usize; 2]>, Defect> {
        touch(posts, pair, &self.at_amplifier, self.runs)
    }

    /// The nodes that the probes of a point are on, and the ohms between them; `None` where
    /// nothing joins them.
    fn joined(
        &self,
        posts: &Posts<'_>,
        built: &Built,
        point: &Point,
    ) -> Result<Option<([usize; 2], f64)>, Defect> {
        let Some([plus, minus]) = probes(posts, built, point)? else { return Ok(None) };
        let (plus, minus) = (self.node(plus)?, self.node(minus)?);
        if plus == minus {
            return Ok(Some(([plus, minus], 0.0)));
        }
        if plus >= self.count || self.island(plus) != self.island(minus) {
            return Ok(None);
        }
        let at = |a: usize, b: usize| self.inverse(a, b);
        Ok(Some(([plus, minus], at(plus, plus) + at(minus, minus) - 2.0 * at(plus, minus))))
    }

    /// The resistance at a point, in ohms; without end where it is open.
    pub(super) fn ohms(
        &self,
        posts: &Posts<'_>,
        built: &Built,
        point: &Point,
    ) -> Result<f64, Defect> {
        Ok(self.joined(posts, built, point)?.map_or(f64::INFINITY, |(_, ohms)| ohms))
    }

    /// What is read at a point that is not [`super::reading::alone`].
    pub(super) fn at(
        &self,
        posts: &Posts<'_>,
        built: &Built,
        point: &Point,
    ) -> Result<Between, Defect> {
        let Some(([plus, minus], ohms)) = self.joined(posts, built, point)? else {
            return Ok(Between::OPEN);
        };
        let mut between = Between { ohms, ..Between::NOTHING };
        if plus == minus {
            return Ok(between);
        }
        let at = |a: usize, b: usize| self.inverse(a, b);
        for resistor in &self.resistors {
            let [a, b] = resistor.ends;
            let volts = at(a, plus) - at(a, minus) - at(b, plus) + at(b, minus);
            resistor.share(volts, &mut between);
        }
        Ok(between)
    }
}

/// The potential of a node; none of one with nothing on it.
pub(super) fn at(volts: &[f64], node: usize) -> f64 {
    volts.get(node).map_or(0.0, |volts| *volts)
}

fn same_output(a: Terminal, b: Terminal) -> bool {
    match (a.post, b.post) {
        (Post::Amplifier { output: a, .. }, Post::Amplifier { output: b, .. }) => a == b,
        _ => false,
    }
}

/// The numbered terminals that the probes are on; `None` where one is on nothing.
pub(super) fn probes(
    posts: &Posts<'_>,
    built: &Built,
    point: &Point,
) -> Result<Option<[usize; 2]>, Defect> {
    let plan = posts.plan;
    let runs = plan.runs.len().max(built.wires.len());
    let number = |terminal: Terminal, run: usize| posts.number(terminal, run, runs);
    // The end of a run at the amplifier that is read: the first that is meant for it; where
    // it is missing, one that is held together with it.
    let together = held(plan, point).is_some_and(|check| check.tied);
    let free = |terminal: Terminal| {
        let held = |wire: &&Wire| {
            together && same_output(wire.from, terminal) && wire.from.sign == terminal.sign
        };
        let mut wires = built.wires.iter();
        let wire = wires.clone().find(|wire| wire.from == terminal).or_else(|| wires.find(held));
        wire.map(|wire| number(wire.from, wire.run)).transpose()
    };
    let ends = match point.place {
        Place::Along(run) => {
            let at = usize::from(run);
            // Of exchanged cables another end is meant for the terminal.
            let moved =
                |terminal| built.wires.iter().any(|wire| wire.run == at && wire.from != terminal);
            let end = |terminal: Terminal| match terminal.post {
                Post::Amplifier { .. } if built.other || moved(terminal) => free(terminal),
                _ => number(terminal, at).map(Some),
            };
            plan.runs.get(at).map(|run| [end(run.from), end(run.to)])
        }
        _ => point.probes(plan).map(|probes| {
            probes.map(|terminal| match terminal.post {
                Post::Amplifier { .. } => free(terminal),
                _ => number(terminal, 0).map(Some),
            })
        }),
    };
    let Some([plus, minus]) = ends else { return Ok(None) };
    Ok(plus?.zip(minus?).map(|(plus, minus)| [plus, minus]))
}

/// About how long solving so many terminals and nodes takes, in counted steps.
pub(super) fn cost(terminals: usize, nodes: usize) -> u64 {
    let [terminals, nodes] = [terminals, nodes].map(wide);
    terminals.saturating_add(nodes.saturating_pow(3) / 32)
}

/// Inverts a symmetric matrix without negative eigenvalues in place, without pivots:
/// conductances with one node of each island held.
fn invert(rows: &mut [f64], count: usize) -> Result<(), Defect> {
    if count == 0 {
        return Ok(());
    }
    let mut pivots = vec![0.0; count];
    for at in 0..count {
        let row = rows.chunks_exact_mut(count).nth(at).ok_or(Defect::Table)?;
        let pivot = *row.get(at).ok_or(Defect::Table)?;
        if pivot.abs() < 1e-12 {
            continue;
        }
        let scale = 1.0 / pivot;
        for value in row.iter_mut() {
            *value *= scale;
        }
        *row.get_mut(at).ok_or(Defect::Table)? = scale;
        pivots.copy_from_slice(row);
        for (a, row) in rows.chunks_exact_mut(count).enumerate() {
            let slot = row.get_mut(at).ok_or(Defect::Table)?;
            let factor = *slot;
            if a == at || factor == 0.0 {
                continue;
            }
            *slot = 0.0;
            for (slot, value) in row.iter_mut().zip(&pivots) {
                *slot -= factor * value;
            }
        }
    }
    Ok(())
}
