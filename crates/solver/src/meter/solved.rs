//! The circuit of what was built, at what is placed, held and lifted.
//!
//! Terminals that wire makes one are one node; coils, loose joints and the amplifier are
//! resistors between nodes. One inverse of the conductances tells the resistance between
//! any two of them, and the share of every resistor in it.

use super::built::{Between, Built, Posts};
use super::points::{Place, Point};
use super::setting::Setting;
use crate::wiring::{Post, Sign, Stage, Terminal};

/// Everything between nodes at one setting, for any two terminals.
#[derive(Debug)]
pub(super) struct Solved {
    /// The node of each numbered terminal.
    nodes: Vec<usize>,
    /// What hangs together.
    islands: Vec<usize>,
    count: usize,
    inverse: Vec<f64>,
    resistors: Vec<Resistor>,
    runs: usize,
}

#[derive(Clone, Copy, Debug)]
struct Resistor {
    ends: [usize; 2],
    ohms: f64,
    /// Of a coil that was not measured: its group.
    group: Option<usize>,
    is_coil: bool,
    unsure: bool,
}

impl Solved {
    /// Solves what was built, at a setting; `scale` is a factor on every coil.
    pub(super) fn of(posts: &Posts<'_>, built: &Built, setting: &Setting) -> Self {
        let runs = posts.plan.runs.len().max(built.wires.len());
        let mut above: Vec<usize> = (0..posts.count(runs)).collect();
        let mut resistors: Vec<Resistor> = Vec::new();
        let mut reached = vec![false; above.len()];
        let mut ends_at_amplifier: Vec<(Terminal, usize)> = Vec::new();
        for wire in built.wires.iter().filter(|wire| setting.has(built, wire)) {
            let ends = [wire.from, wire.to].map(|terminal| {
                let number = posts.number(terminal, wire.run, runs);
                if let Post::Amplifier { .. } = terminal.post {
                    ends_at_amplifier.push((terminal, number));
                }
                (!setting.is_off(wire, terminal)).then_some(number)
            });
            for end in ends.into_iter().flatten() {
                if let Some(reached) = reached.get_mut(end) {
                    *reached = true;
                }
            }
            let [Some(from), Some(to)] = ends else { continue };
            match built.loose {
                Some((run, ohms)) if run == wire.run => {
                    let resistor = Resistor {
                        ends: [from, to],
                        ohms,
                        group: None,
                        is_coil: false,
                        unsure: true,
                    };
                    resistors.push(resistor);
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
        if let Some((a, b)) = built.touching {
            let numbers = [a, b].map(|terminal| match terminal.post {
                Post::Amplifier { .. } => {
                    let found = ends_at_amplifier.iter().find(|(at, _)| *at == terminal);
                    found.map(|(_, number)| *number)
                }
                _ => Some(posts.number(terminal, 0, runs)),
            });
            if let [Some(a), Some(b)] = numbers {
                let is = |at: usize| reached.get(at).copied().unwrap_or(false);
                if is(a) && is(b) {
                    join(&mut above, a, b);
                }
            }
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
                is_coil: true,
                unsure: built.unsure == Some(winding.coil),
            });
        }
        Self::solve(above, resistors, runs)
    }

    fn solve(mut above: Vec<usize>, mut resistors: Vec<Resistor>, runs: usize) -> Self {
        // Only terminals that something is on become nodes; what nothing hangs on is told
        // apart by its root alone.
        let mut count = 0_usize;
        let mut of_root = vec![usize::MAX; above.len()];
        for resistor in &mut resistors {
            for end in &mut resistor.ends {
                let root = top(&mut above, *end);
                if let Some(node) = of_root.get_mut(root) {
                    if *node == usize::MAX {
                        *node = count;
                        count = count.saturating_add(1);
                    }
                    *end = *node;
                }
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
            if let Some(slot) = rows.get_mut(a.saturating_mul(count).saturating_add(b)) {
                *slot += value;
            }
        };
        for resistor in &resistors {
            let [a, b] = resistor.ends;
            if a == b {
                continue;
            }
            let siemens = 1.0 / resistor.ohms.max(1e-6);
            add(a, a, siemens);
            add(b, b, siemens);
            add(a, b, -siemens);
            add(b, a, -siemens);
        }
        // One node of each island lies at nothing.
        for (at, root) in islands.iter().enumerate() {
            if at == *root {
                add(at, at, 1.0);
            }
        }
        invert(&mut rows, count);
        Self { nodes, islands, count, inverse: rows, resistors, runs }
    }

    /// What lies between two numbered terminals.
    fn between(&self, plus: usize, minus: usize) -> Between {
        let node = |number: usize| self.nodes.get(number).copied().unwrap_or(usize::MAX);
        let (plus, minus) = (node(plus), node(minus));
        if plus == minus {
            return Between::NOTHING;
        }
        let island = |node: usize| self.islands.get(node);
        if island(plus).is_none() || island(plus) != island(minus) {
            return Between::OPEN;
        }
        let at = |a: usize, b: usize| {
            let place = a.saturating_mul(self.count).saturating_add(b);
            self.inverse.get(place).copied().unwrap_or(0.0)
        };
        let ohms = at(plus, plus) + at(minus, minus) - 2.0 * at(plus, minus);
        let mut between = Between { ohms, ..Between::NOTHING };
        for resistor in &self.resistors {
            let [a, b] = resistor.ends;
            let volts = at(a, plus) - at(a, minus) - at(b, plus) + at(b, minus);
            let share = volts * volts / resistor.ohms.max(1e-6) / ohms.max(1e-9);
            if resistor.is_coil {
                between.squares += share * share;
            }
            if resistor.unsure {
                between.unsure += share;
            }
            if let Some(slot) = resistor.group.and_then(|group| between.groups.get_mut(group)) {
                *slot += share;
            }
        }
        between
    }

    /// What is read at a point that is not [`super::built::alone`].
    pub(super) fn at(&self, posts: &Posts<'_>, built: &Built, point: &Point) -> Between {
        let plan = posts.plan;
        let number = |terminal: Terminal, run: usize| posts.number(terminal, run, self.runs);
        // The end of a run at the amplifier that is read: the first that is meant for it.
        let free = |terminal: Terminal| {
            let wire = built.wires.iter().find(|wire| wire.from == terminal);
            wire.map(|wire| number(terminal, wire.run))
        };
        let ends = match point.place {
            Place::Along(run) => {
                let at = usize::from(run);
                let end = |terminal: Terminal| match terminal.post {
                    Post::Amplifier { .. } if built.other => free(terminal),
                    _ => Some(number(terminal, at)),
                };
                plan.runs.get(at).map(|run| [end(run.from), end(run.to)])
            }
            _ => point.probes(plan).map(|probes| {
                probes.map(|terminal| match terminal.post {
                    Post::Amplifier { .. } => free(terminal),
                    _ => Some(number(terminal, 0)),
                })
            }),
        };
        match ends {
            Some([Some(plus), Some(minus)]) => self.between(plus, minus),
            _ => Between::OPEN,
        }
    }
}

/// Ends of runs that are held together while they are read.
fn hold(above: &mut [usize], ends: &[(Terminal, usize)], setting: &Setting) {
    let Some(check) = setting.held.filter(|check| check.stage == Stage::Cable) else { return };
    for probe in [check.plus, check.minus] {
        let mut first = None;
        for (terminal, number) in ends {
            let meant = match (terminal.post, probe.post) {
                (
                    Post::Amplifier { output, pair },
                    Post::Amplifier { output: read, pair: first },
                ) => output == read && (pair == first || check.tied),
                _ => false,
            };
            if meant && terminal.sign == probe.sign {
                match first {
                    None => first = Some(*number),
                    Some(first) => join(above, first, *number),
                }
            }
        }
    }
}

/// The amplifier over the ends of its cables, which it ties by their marks.
fn across_amplifier(
    above: &mut [usize],
    ends: &[(Terminal, usize)],
    ohms: f64,
    resistors: &mut Vec<Resistor>,
) {
    let mut outputs: Vec<(u8, [Option<usize>; 2])> = Vec::new();
    for (terminal, number) in ends {
        let Post::Amplifier { output, .. } = terminal.post else { continue };
        if !outputs.iter().any(|(known, _)| *known == output) {
            outputs.push((output, [None; 2]));
        }
        let side = usize::from(terminal.sign == Sign::Minus);
        let of = outputs.iter_mut().find(|(known, _)| *known == output);
        if let Some(slot) = of.and_then(|(_, sides)| sides.get_mut(side)) {
            match *slot {
                None => *slot = Some(*number),
                Some(first) => join(above, first, *number),
            }
        }
    }
    for (_, sides) in outputs {
        if let [Some(plus), Some(minus)] = sides {
            resistors.push(Resistor {
                ends: [plus, minus],
                ohms,
                group: None,
                is_coil: false,
                unsure: true,
            });
        }
    }
}

/// The root of what a place is joined to.
fn top(above: &mut [usize], mut at: usize) -> usize {
    while let Some(next) = above.get(at).copied()
        && next != at
    {
        let far = above.get(next).copied().unwrap_or(next);
        if let Some(slot) = above.get_mut(at) {
            *slot = far;
        }
        at = next;
    }
    at
}

fn join(above: &mut [usize], a: usize, b: usize) {
    let (a, b) = (top(above, a), top(above, b));
    if let Some(slot) = above.get_mut(a) {
        *slot = b;
    }
}

/// Inverts a symmetric matrix without negative eigenvalues in place, without pivots:
/// conductances with one node of each island held.
fn invert(rows: &mut [f64], count: usize) {
    if count == 0 {
        return;
    }
    let mut pivots = vec![0.0; count];
    for at in 0..count {
        let Some(row) = rows.chunks_exact_mut(count).nth(at) else { return };
        let pivot = row.get(at).copied().unwrap_or(1.0);
        if pivot.abs() < 1e-12 {
            continue;
        }
        let scale = 1.0 / pivot;
        for value in row.iter_mut() {
            *value *= scale;
        }
        if let Some(slot) = row.get_mut(at) {
            *slot = scale;
        }
        pivots.copy_from_slice(row);
        for (a, row) in rows.chunks_exact_mut(count).enumerate() {
            let factor = row.get(at).copied().unwrap_or(0.0);
            if a == at || factor == 0.0 {
                continue;
            }
            if let Some(slot) = row.get_mut(at) {
                *slot = 0.0;
            }
            for (slot, value) in row.iter_mut().zip(&pivots) {
                *slot -= factor * value;
            }
        }
    }
}
