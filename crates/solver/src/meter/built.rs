//! A plan as it was built, with something wrong in it: what lies between two terminals.
//!
//! Terminals that wire makes one are one node; coils, loose joints and the amplifier are
//! resistors between nodes. One inverse of the conductances tells the resistance between
//! any two of them, and the share of every resistor in it.

use super::coils::Measured;
use super::points::{self, Place, Point};
use crate::given;
use crate::network::Coil;
use crate::rig::Rig;
use crate::wiring::{Check, Plan, Post, Sign, Stage, Step, Terminal};

/// At most so many driver groups (bounds of the request).
pub(super) const GROUPS: usize = 8;

/// The likely direct-current resistance of a coil over its nominal impedance: the middle
/// of what it may be.
pub(super) const LIKELY_OF_NOMINAL: f64 = 0.875;

/// A coil in use.
#[derive(Clone, Copy, Debug)]
pub(super) struct Winding {
    pub(super) coil: Coil,
    pub(super) group: usize,
    /// Its likely direct-current resistance in ohms.
    pub(super) ohms: f64,
    /// Whether it was measured; else its group has a factor of its own.
    pub(super) measured: bool,
    /// By which part the measurement may be off beside what coils change by.
    pub(super) off: f64,
}

/// The terminals of a plan by numbers: coils, cups (inside and outside are one), splices,
/// and the free end of every cable run at the amplifier.
#[derive(Debug)]
pub(super) struct Posts<'a> {
    pub(super) rig: &'a Rig,
    pub(super) plan: &'a Plan,
    pub(super) coils: Vec<Winding>,
}

impl<'a> Posts<'a> {
    pub(super) fn of(rig: &'a Rig, plan: &'a Plan, measured: &[Measured]) -> Self {
        let winding = |coil: Coil| {
            let typed = measured.iter().find(|one| one.coil == coil);
            let known = typed.map(|one| one.ohms).or_else(|| super::stated(rig, coil));
            Winding {
                coil,
                group: rig.group_number_of(coil.driver).unwrap_or(0).min(GROUPS.saturating_sub(1)),
                ohms: known.unwrap_or_else(|| given::ohms(rig, coil) * LIKELY_OF_NOMINAL),
                measured: known.is_some(),
                off: typed.map_or(0.0, |one| one.off),
            }
        };
        Self { rig, plan, coils: points::coils(plan).into_iter().map(winding).collect() }
    }

    fn place_of(&self, coil: Coil) -> usize {
        self.coils.iter().position(|winding| winding.coil == coil).unwrap_or(0)
    }

    fn count(&self, runs: usize) -> usize {
        // Splices are at most as many as runs.
        let fixed = self.coils.len().saturating_add(self.plan.cups.len()).saturating_mul(2);
        fixed.saturating_add(runs.saturating_mul(2))
    }

    /// The number of a terminal; of the amplifier's, the end of a run there.
    fn number(&self, terminal: Terminal, run: usize, runs: usize) -> usize {
        let cups = self.coils.len();
        let splices = cups.saturating_add(self.plan.cups.len()).saturating_mul(2);
        let pair = |place: usize| {
            place.saturating_mul(2).saturating_add(usize::from(terminal.sign == Sign::Minus))
        };
        match terminal.post {
            Post::Coil(coil) => pair(self.place_of(coil)),
            Post::CupInside(cup) | Post::CupOutside(cup) => {
                pair(cups.saturating_add(usize::from(cup)))
            }
            Post::Splice(splice) => splices.saturating_add(usize::from(splice).min(runs)),
            Post::Amplifier { .. } => splices.saturating_add(runs).saturating_add(run),
        }
    }
}

/// A piece of wire as it was built.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wire {
    pub(super) from: Terminal,
    pub(super) to: Terminal,
    /// The run of the plan that it is, or is in place of.
    pub(super) run: usize,
    pub(super) stage: Stage,
}

/// A plan as it was built.
#[derive(Clone, Debug)]
pub(super) struct Built {
    pub(super) wires: Vec<Wire>,
    /// Whether wires are those of another plan, for which the stage tells what is placed.
    pub(super) other: bool,
    /// A factor on coils.
    pub(super) factors: Vec<(Coil, f64)>,
    /// Coils that carry nothing.
    pub(super) open: Option<Coil>,
    /// Terminals that touch each other: they do so once both are reached by wire.
    pub(super) touching: Option<(Terminal, Terminal)>,
    /// A run that has a resistance in ohms.
    pub(super) loose: Option<(usize, f64)>,
    /// The amplifier is still connected and lies across its terminals, in ohms.
    pub(super) amplifier: Option<f64>,
    /// A coil whose factor is not known well.
    pub(super) unsure: Option<Coil>,
}

impl Built {
    pub(super) fn sound(plan: &Plan) -> Self {
        let wires = plan.runs.iter().enumerate();
        Self {
            wires: wires
                .map(|(run, of)| Wire { from: of.from, to: of.to, run, stage: of.stage })
                .collect(),
            other: false,
            factors: Vec::new(),
            open: None,
            touching: None,
            loose: None,
            amplifier: None,
            unsure: None,
        }
    }

    fn factor(&self, coil: Coil) -> f64 {
        let of = self.factors.iter().filter(|(one, _)| *one == coil);
        of.map(|(_, factor)| factor).product()
    }
}

/// What lies between two terminals.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Between {
    /// In ohms at the likely values; without end where nothing joins them.
    pub(super) ohms: f64,
    /// The share of the coils of each group that were not measured.
    pub(super) groups: [f64; GROUPS],
    /// The sum of the squares of the shares of coils.
    pub(super) squares: f64,
    /// The share of what the fault leaves unsure.
    pub(super) unsure: f64,
    /// Whether the probes touch each other.
    pub(super) leads: bool,
}

impl Between {
    pub(super) const OPEN: Self = Self {
        ohms: f64::INFINITY,
        groups: [0.0; GROUPS],
        squares: 0.0,
        unsure: 0.0,
        leads: false,
    };
    pub(super) const NOTHING: Self = Self { ohms: 0.0, ..Self::OPEN };
    pub(super) const LEADS: Self = Self { leads: true, ..Self::NOTHING };
}

/// What is placed, held and lifted while a reading is taken.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Setting {
    placed: Vec<bool>,
    stage: Stage,
    held: Option<Check>,
    lifted: Option<Place>,
}

impl Setting {
    /// What stands when a point is read.
    pub(super) fn of(plan: &Plan, point: &Point) -> Self {
        let check = match plan.steps.get(usize::from(point.step)) {
            Some(Step::Check(check)) => Some(*check),
            _ => None,
        };
        Self {
            placed: points::placed(plan, point.step),
            stage: check.map_or(Stage::Coils, |check| check.stage),
            held: check.filter(|check| point.place == Place::Step && check.ends > 1),
            lifted: match point.place {
                Place::Apart(_) | Place::CableOpen(_) | Place::CableJoined(_) => Some(point.place),
                _ => None,
            },
        }
    }

    /// Whether a wire is there.
    fn has(&self, built: &Built, wire: &Wire) -> bool {
        let of_driver = |terminal: Terminal, driver: u8| matches!(terminal.post, Post::Coil(coil) if coil.driver == driver);
        match self.lifted {
            Some(Place::Apart(driver))
                if !of_driver(wire.from, driver) && !of_driver(wire.to, driver) =>
            {
                return false;
            }
            Some(Place::CableOpen(_) | Place::CableJoined(_)) if wire.stage != Stage::Cable => {
                return false;
            }
            _ => {}
        }
        if built.other {
            return wire.stage <= self.stage;
        }
        self.placed.get(wire.run).copied().unwrap_or(false)
    }

    /// Whether a coil can be in what is read.
    fn takes(&self, coil: Coil) -> bool {
        match self.lifted {
            Some(Place::Apart(driver)) => coil.driver == driver,
            Some(Place::CableOpen(_) | Place::CableJoined(_)) => false,
            _ => true,
        }
    }

    /// Whether an end of a wire is lifted from its terminal.
    fn is_off(&self, wire: &Wire, terminal: Terminal) -> bool {
        match (self.lifted, terminal.post) {
            (Some(Place::Apart(driver)), Post::Coil(on)) => {
                on.driver == driver && wire.stage != Stage::Coils
            }
            (
                Some(Place::CableOpen(_) | Place::CableJoined(_)),
                Post::CupOutside(_) | Post::Coil(_) | Post::CupInside(_) | Post::Splice(_),
            ) => wire.stage == Stage::Cable,
            _ => false,
        }
    }
}

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

    /// What is read at a point that is not [`alone`].
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

/// What is read where no circuit is needed: the leads, a coil by itself, a basket.
pub(super) fn alone(posts: &Posts<'_>, built: &Built, point: &Point) -> Option<Between> {
    match point.place {
        Place::Basket(_) => Some(Between::OPEN),
        Place::Coil(coil) | Place::Lifted(coil) => {
            let of = posts.coils.iter().find(|winding| winding.coil == coil)?;
            if built.open == Some(coil) {
                return Some(Between::OPEN);
            }
            let ohms = of.ohms * built.factor(coil);
            let mut between = Between { ohms, squares: 1.0, ..Between::NOTHING };
            if built.unsure == Some(coil) {
                between.unsure = 1.0;
            }
            if let Some(slot) = between.groups.get_mut(of.group)
                && !of.measured
            {
                *slot = 1.0;
            }
            Some(between)
        }
        Place::Step => match posts.plan.steps.get(usize::from(point.step)) {
            Some(Step::Check(_)) => None,
            _ => Some(Between::LEADS),
        },
        _ => None,
    }
}

/// What is read at a point of what was built.
pub(super) fn read(posts: &Posts<'_>, built: &Built, point: &Point) -> Between {
    alone(posts, built, point).unwrap_or_else(|| {
        Solved::of(posts, built, &Setting::of(posts.plan, point)).at(posts, built, point)
    })
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
