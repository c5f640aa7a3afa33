//! A plan as it was built, with something wrong in it, and what lies between two terminals.

use super::OF_NOMINAL;
use super::coils::Measured;
use super::points::{self, Place, Point};
use super::setting::Setting;
use super::solved::Solved;
use crate::given;
use crate::network::Coil;
use crate::rig::Rig;
use crate::wiring::{Plan, Post, Run, Sign, Stage, Step, Terminal};

/// At most so many driver groups (bounds of the request).
pub(super) const GROUPS: usize = 8;

/// The likely direct-current resistance of a coil over its nominal impedance: the middle
/// of what it may be.
pub(super) const LIKELY_OF_NOMINAL: f64 = (OF_NOMINAL[0] + OF_NOMINAL[1]) / 2.0;

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

    pub(super) fn count(&self, runs: usize) -> usize {
        // Splices are at most as many as runs.
        let fixed = self.coils.len().saturating_add(self.plan.cups.len()).saturating_mul(2);
        fixed.saturating_add(runs.saturating_mul(2))
    }

    /// The number of a terminal; of the amplifier's, the end of a run there.
    pub(super) fn number(&self, terminal: Terminal, run: usize, runs: usize) -> usize {
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

impl Wire {
    /// As a run is planned.
    pub(super) const fn of(run: usize, of: &Run) -> Self {
        Self { from: of.from, to: of.to, run, stage: of.stage }
    }
}

/// What of its wires is not as planned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Differs {
    /// None: what differs touches, or is a coil.
    Nothing,
    /// One run, none of whose ends is on the amplifier.
    Run(usize),
    /// So many, or such, that the circuit is worked out anew.
    Much,
}

/// A plan as it was built.
#[derive(Clone, Debug)]
pub(super) struct Built {
    pub(super) wires: Vec<Wire>,
    pub(super) differs: Differs,
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
            wires: wires.map(|(run, of)| Wire::of(run, of)).collect(),
            differs: Differs::Nothing,
            other: false,
            factors: Vec::new(),
            open: None,
            touching: None,
            loose: None,
            amplifier: None,
            unsure: None,
        }
    }

    pub(super) fn factor(&self, coil: Coil) -> f64 {
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

/// What is read where no circuit is needed: the leads, a coil by itself, a basket.
pub(super) fn alone(posts: &Posts<'_>, built: &Built, point: &Point) -> Option<Between> {
    match point.place {
        Place::Basket(_) => Some(Between::OPEN),
        // What ties the pairs is in the amplifier, whatever was built outside.
        Place::Tied(..) => Some(Between::LEADS),
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
