//! A plan as it was built, with something wrong in it.

use super::measured::Measured;
use super::model::{LIKELY_OF_NOMINAL, METER, OF_COIL, OF_MEASURED, OF_NOMINAL};
use super::points::{self, Place, Point};
use crate::defect::Defect;
use crate::given;
use crate::network::Coil;
use crate::rig::Rig;
use crate::wiring::{Plan, Post, Run, Sign, Stage, Terminal};

/// At most so many driver groups (bounds of the request).
pub(super) const GROUPS: usize = 8;

/// A coil in use.
#[derive(Clone, Copy, Debug)]
pub(super) struct Winding {
    pub(super) coil: Coil,
    pub(super) group: usize,
    /// Its likely direct-current resistance in ohms.
    pub(super) ohms: f64,
    /// Whether it was measured; else its group has a factor of its own.
    pub(super) measured: bool,
    /// By which part what was stated may be off beside what coils change by.
    pub(super) off: f64,
    /// The least and the most that it has, by what the rig states, in ohms.
    pub(super) stated: [f64; 2],
    /// The same by what was read of it too: never wider.
    pub(super) range: [f64; 2],
}

impl Winding {
    /// The coils of a plan, with what was measured of them.
    pub(super) fn all(rig: &Rig, plan: &Plan, measured: &[Measured]) -> Result<Vec<Self>, Defect> {
        let coils = points::coils(plan);
        let mut all = Vec::with_capacity(coils.len());
        for coil in coils {
            let group = rig.group_number_of(coil.driver).filter(|group| *group < GROUPS);
            let typed = measured.iter().find(|one| one.coil == coil);
            let dc = super::stated(rig, coil);
            let known = typed.map(|one| one.ohms).or(dc);
            let nominal = given::ohms(rig, coil);
            let off = dc.map_or(0.0, off_stated);
            let stated = match dc {
                Some(ohms) => {
                    let [least, most] = OF_MEASURED;
                    [ohms * (least - off), ohms * (most + off)]
                }
                None => OF_NOMINAL.map(|part| nominal * part),
            };
            all.push(Self {
                coil,
                group: group.ok_or(Defect::Coil)?,
                ohms: known.unwrap_or(nominal * LIKELY_OF_NOMINAL),
                measured: known.is_some(),
                off,
                stated,
                range: typed.map_or(stated, |one| one.within(stated)),
            });
        }
        Ok(all)
    }

    /// How much more its ohms vary by themselves than those of a coil in its group, squared.
    pub(super) fn scatter(&self) -> f64 {
        1.0 + self.off * self.off / (OF_COIL * OF_COIL)
    }
}

/// The terminals of a plan by numbers: coils, cups (inside and outside are one), splices,
/// and the free end of every cable run at the amplifier.
#[derive(Clone, Copy, Debug)]
pub(super) struct Posts<'a> {
    pub(super) rig: &'a Rig,
    pub(super) plan: &'a Plan,
    pub(super) coils: &'a [Winding],
}

/// By which part a coil may be off whose measured ohms were stated: by the counts of a meter
/// that shows so many places.
fn off_stated(ohms: f64) -> f64 {
    let (_, counts) = METER;
    let tenths = ohms * 10.0;
    let count = if (tenths - libm::round(tenths)).abs() < 1e-6 { 0.1 } else { 0.01 };
    counts * count / ohms.max(count)
}

impl<'a> Posts<'a> {
    pub(super) const fn of(rig: &'a Rig, plan: &'a Plan, coils: &'a [Winding]) -> Self {
        Self { rig, plan, coils }
    }

    /// Whether the plan has the coils that a point is at.
    pub(super) fn has(&self, point: &Point) -> bool {
        let is_there = |coil: Coil| self.coils.iter().any(|winding| winding.coil == coil);
        match point.place {
            Place::Coil(coil) | Place::Lifted(coil) => is_there(coil),
            Place::Across(into, out) => is_there(into) && is_there(out),
            _ => true,
        }
    }

    fn place_of(&self, coil: Coil) -> Result<usize, Defect> {
        self.coils.iter().position(|winding| winding.coil == coil).ok_or(Defect::Coil)
    }

    pub(super) fn count(&self, runs: usize) -> usize {
        // Splices are at most as many as runs.
        let fixed = self.coils.len().saturating_add(self.plan.cups.len()).saturating_mul(2);
        fixed.saturating_add(runs.saturating_mul(2))
    }

    /// The number of a terminal; of the amplifier's, the end of a run there.
    pub(super) fn number(
        &self,
        terminal: Terminal,
        run: usize,
        runs: usize,
    ) -> Result<usize, Defect> {
        let cups = self.coils.len();
        let splices = cups.saturating_add(self.plan.cups.len()).saturating_mul(2);
        let pair = |place: usize| {
            place.saturating_mul(2).saturating_add(usize::from(terminal.sign == Sign::Minus))
        };
        Ok(match terminal.post {
            Post::Coil(coil) => pair(self.place_of(coil)?),
            Post::CupInside(cup) | Post::CupOutside(cup) => {
                pair(cups.saturating_add(usize::from(cup)))
            }
            Post::Splice(splice) => splices.saturating_add(usize::from(splice).min(runs)),
            Post::Amplifier { .. } => splices.saturating_add(runs).saturating_add(run),
        })
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

/// Two terminals that touch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Touching {
    pub(super) pair: [Terminal; 2],
    /// The terminal whose wire it is, whose strands reach the other; `None` of a wire that
    /// ends on both.
    pub(super) of: Option<Terminal>,
    /// From this act on: it came with a wire that was placed before it.
    pub(super) since: u16,
}

impl Touching {
    /// Whether it stays where everything is lifted from a terminal.
    pub(super) fn stays(&self, lifted: Terminal) -> bool {
        self.pair.contains(&lifted) && self.of.is_some_and(|of| of != lifted)
    }
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
    /// Terminals that touch each other though nothing is planned between them.
    pub(super) touching: Option<Touching>,
    /// A run that has a resistance in ohms.
    pub(super) loose: Option<(usize, f64)>,
    /// The amplifier is still connected and lies across its terminals, in ohms.
    pub(super) amplifier: Option<f64>,
    /// Coils whose factor is not known well.
    pub(super) unsure: Unsure,
}

/// Coils whose factor is not known well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Unsure {
    No,
    Coil(Coil),
    Driver(u8),
    Group(usize),
}

impl Unsure {
    pub(super) fn holds(self, coil: Coil, group: usize) -> bool {
        match self {
            Self::No => false,
            Self::Coil(one) => one == coil,
            Self::Driver(driver) => driver == coil.driver,
            Self::Group(of) => of == group,
        }
    }
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
            unsure: Unsure::No,
        }
    }

    /// The same before anything touched.
    pub(super) fn untouched(&self) -> Self {
        Self { touching: None, ..self.clone() }
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
    /// The sum of the squares of the shares of coils, each by its [`Winding::scatter`].
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
