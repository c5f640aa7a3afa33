//! What lies between the probes of several points, with as few circuits as they take.

use super::built::{Between, Built, Differs, Posts, Wire};
use super::changed::Changed;
use super::points::Point;
use super::reading;
use super::setting::Setting;
use super::solved::{self, Solved};
use crate::count::wide;
use crate::defect::Defect;
use core::ops::Range;

/// The settings in which points are read; points that are alike share one.
#[derive(Debug, Default)]
pub(super) struct Settings {
    all: Vec<Shared>,
    count: usize,
    spent: u64,
}

/// A setting with the points that are read in it, by their rising numbers.
#[derive(Debug)]
struct Shared {
    setting: Setting,
    points: Vec<Numbered>,
    circuits: Circuits,
}

/// The circuits of a setting that were asked for.
#[derive(Debug, Default)]
struct Circuits {
    /// As planned.
    sound: Option<Solved>,
    /// The same without the run that was asked for last.
    without: Option<Solved>,
    run: Option<usize>,
}

/// About how many counted steps it takes to change a circuit, to tell the ohms of a point,
/// and to tell all that lies in it for each resistor.
const CHANGING: u64 = 24;
const OHMS: u64 = 2;
const SHARE: u64 = 1;

/// A point, its number, and the numbered terminals of its probes as planned.
#[derive(Clone, Copy, Debug)]
struct Numbered {
    number: usize,
    point: Point,
    /// The act that the work had come to.
    now: u16,
    probes: Option<[usize; 2]>,
}

/// A circuit at a setting.
enum Circuit<'a> {
    Whole(Solved),
    Changed(Changed<'a>),
}

impl Settings {
    /// Of points, each with the act that the work has come to when it is read.
    pub(super) fn of(
        posts: &Posts<'_>,
        points: impl Iterator<Item = (Point, u16)>,
    ) -> Result<Self, Defect> {
        let planned = Built::sound(posts.plan);
        let mut all: Vec<Shared> = Vec::new();
        let mut count = 0_usize;
        for (point, now) in points {
            let setting = Setting::of(posts.plan, &point);
            let probes = solved::probes(posts, &planned, &point)?;
            let numbered = Numbered { number: count, point, now, probes };
            count = count.saturating_add(1);
            match all.iter_mut().find(|one| one.setting == setting) {
                Some(shared) => shared.points.push(numbered),
                None => {
                    let (points, circuits) = (vec![numbered], Circuits::default());
                    all.push(Shared { setting, points, circuits });
                }
            }
        }
        Ok(Self { all, count, spent: 0 })
    }

    /// How many points there are.
    pub(super) const fn count(&self) -> usize {
        self.count
    }

    /// The counted steps since this was last asked.
    pub(super) const fn take_spent(&mut self) -> u64 {
        core::mem::replace(&mut self.spent, 0)
    }

    /// What lies between the probes of some points, by their numbers.
    pub(super) fn between(
        &mut self,
        posts: &Posts<'_>,
        built: &Built,
        numbers: Range<usize>,
    ) -> Result<Vec<Between>, Defect> {
        let each = SHARE.saturating_mul(wide(posts.coils.len())).saturating_add(OHMS);
        self.each(
            posts,
            built,
            numbers,
            each,
            |between| between,
            |circuit, built, of| match circuit {
                Circuit::Whole(solved) => solved.at(posts, built, &of.point),
                Circuit::Changed(changed) => {
                    of.probes.map_or(Ok(Between::OPEN), |probes| changed.between(built, probes))
                }
            },
        )
    }

    /// The resistance there alone, in ohms; without end where it is open.
    pub(super) fn ohms(
        &mut self,
        posts: &Posts<'_>,
        built: &Built,
        numbers: Range<usize>,
    ) -> Result<Vec<f64>, Defect> {
        self.each(
            posts,
            built,
            numbers,
            OHMS,
            |between| between.ohms,
            |circuit, built, of| match circuit {
                Circuit::Whole(solved) => solved.ohms(posts, built, &of.point),
                Circuit::Changed(changed) => {
                    of.probes.map_or(Ok(f64::INFINITY), |probes| changed.ohms(probes))
                }
            },
        )
    }

    fn each<T>(
        &mut self,
        posts: &Posts<'_>,
        built: &Built,
        numbers: Range<usize>,
        steps: u64,
        alone: impl Fn(Between) -> T,
        tell: impl Fn(&Circuit<'_>, &Built, &Numbered) -> Result<T, Defect>,
    ) -> Result<Vec<T>, Defect> {
        let Self { all, spent, .. } = self;
        *spent = spent.saturating_add(steps.saturating_mul(wide(numbers.len())));
        let mut told: Vec<Option<T>> = numbers.clone().map(|_| None).collect();
        // What touches from a later act on does not touch yet.
        let since = built.touching.map_or(0, |touching| touching.since);
        let mut untouched = None;
        // Setting by setting, so that each circuit is changed once.
        for Shared { setting, points, circuits } in all {
            let within = points.iter().filter(|of| numbers.contains(&of.number));
            for touches in [false, true] {
                let mut circuits = Some(&mut *circuits);
                let mut circuit: Option<Circuit<'_>> = None;
                for of in within.clone().filter(|of| (of.now >= since) == touches) {
                    let built = match touches {
                        true => built,
                        false => untouched.get_or_insert_with(|| built.untouched()),
                    };
                    let one = match reading::alone(posts, built, &of.point)? {
                        Some(between) => alone(between),
                        None => {
                            let circuit = match &mut circuit {
                                Some(circuit) => circuit,
                                none => {
                                    let circuits = circuits.take().ok_or(Defect::Table)?;
                                    none.insert(circuits.of(posts, built, setting, spent)?)
                                }
                            };
                            tell(circuit, built, of)?
                        }
                    };
                    let slot = of.number.checked_sub(numbers.start);
                    let slot = slot.and_then(|at| told.get_mut(at));
                    *slot.ok_or(Defect::Table)? = Some(one);
                }
            }
        }
        told.into_iter().collect::<Option<_>>().ok_or(Defect::Table)
    }
}

impl Circuits {
    /// The circuit of what was built.
    fn of(
        &mut self,
        posts: &Posts<'_>,
        built: &Built,
        setting: &Setting,
        spent: &mut u64,
    ) -> Result<Circuit<'_>, Defect> {
        let run = match built.differs {
            Differs::Nothing => None,
            Differs::Run(run) => Some(run),
            Differs::Much => return whole(posts, built, setting, spent),
        };
        let planned = run.and_then(|run| Some(Wire::of(run, posts.plan.runs.get(run)?)));
        let lacks = planned.filter(|wire| setting.places(wire)).map(|wire| wire.run);
        let slot = match lacks {
            None => &mut self.sound,
            Some(run) => {
                if self.run.replace(run) != Some(run) {
                    self.without = None;
                }
                &mut self.without
            }
        };
        let solved = match slot {
            Some(solved) => solved,
            none => {
                let mut planned = Built::sound(posts.plan);
                planned.wires.retain(|wire| Some(wire.run) != lacks);
                let solved = none.insert(Solved::of(posts, &planned, setting)?);
                *spent = spent.saturating_add(solved.cost());
                solved
            }
        };
        *spent = spent.saturating_add(CHANGING);
        match Changed::of(solved, posts, built, setting, run)? {
            Some(changed) => Ok(Circuit::Changed(changed)),
            None => whole(posts, built, setting, spent),
        }
    }
}

fn whole<'a>(
    posts: &Posts<'_>,
    built: &Built,
    setting: &Setting,
    spent: &mut u64,
) -> Result<Circuit<'a>, Defect> {
    let solved = Solved::of(posts, built, setting)?;
    *spent = spent.saturating_add(solved.cost());
    Ok(Circuit::Whole(solved))
}
