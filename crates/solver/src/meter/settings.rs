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
    all: Vec<Setting>,
    pub(super) points: Vec<Numbered>,
    /// The circuit of each setting as planned, once it was asked for.
    sound: Vec<Option<Solved>>,
    /// The same without the run that was asked for last.
    without: Vec<Option<Solved>>,
    run: usize,
    spent: u64,
}

/// About how many counted steps it takes to change a circuit, to tell the ohms of a point,
/// and to tell all that lies in it for each resistor.
const CHANGING: u64 = 24;
const OHMS: u64 = 2;
const SHARE: u64 = 1;

/// A point, its setting, and the numbered terminals of its probes as planned.
#[derive(Clone, Copy, Debug)]
pub(super) struct Numbered {
    point: Point,
    /// The step that the work had come to.
    now: u16,
    setting: usize,
    probes: Option<[usize; 2]>,
}

/// A circuit at a setting.
enum Circuit<'a> {
    Whole(Solved),
    Changed(Changed<'a>),
}

impl Settings {
    /// Of points, each with the step that the work has come to when it is read.
    pub(super) fn of(
        posts: &Posts<'_>,
        points: impl Iterator<Item = (Point, u16)>,
    ) -> Result<Self, Defect> {
        let planned = Built::sound(posts.plan);
        let mut all = Vec::new();
        let mut numbered = Vec::new();
        for (point, now) in points {
            let setting = Setting::of(posts.plan, &point);
            let at = all.iter().position(|one| *one == setting).unwrap_or_else(|| {
                all.push(setting);
                all.len().saturating_sub(1)
            });
            let probes = solved::probes(posts, &planned, &point)?;
            numbered.push(Numbered { point, now, setting: at, probes });
        }
        let none = || all.iter().map(|_| None).collect();
        let (sound, without) = (none(), none());
        Ok(Self { all, points: numbered, sound, without, run: usize::MAX, spent: 0 })
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
        let points = self.points.get(numbers).ok_or(Defect::Table)?.to_vec();
        let steps = steps.saturating_mul(wide(points.len()));
        self.spent = self.spent.saturating_add(steps);
        let mut told: Vec<Option<T>> = points.iter().map(|_| None).collect();
        // What touches from a later step on does not touch yet.
        let since = built.touching.map(|touching| touching.since);
        let since = since.filter(|since| points.iter().any(|of| of.now < *since));
        let yet = since.map(|since| (since, built.untouched()));
        // Setting by setting, so that each circuit is changed once.
        for at in 0..self.all.len() {
            for touches in [false, true] {
                let (since, built) = match (&yet, touches) {
                    (Some((since, yet)), false) => (*since, yet),
                    (Some((since, _)), true) => (*since, built),
                    (None, false) => continue,
                    (None, true) => (0, built),
                };
                let mut circuit: Option<Circuit<'_>> = None;
                for (of, slot) in points.iter().zip(&mut told) {
                    if of.setting != at || (of.now >= since) != touches {
                        continue;
                    }
                    if let Some(between) = reading::alone(posts, built, &of.point)? {
                        *slot = Some(alone(between));
                        continue;
                    }
                    if circuit.is_none() {
                        circuit = Some(self.circuit(posts, built, at)?);
                    }
                    let circuit = circuit.as_ref().ok_or(Defect::Table)?;
                    *slot = Some(tell(circuit, built, of)?);
                }
            }
        }
        told.into_iter().collect::<Option<_>>().ok_or(Defect::Table)
    }

    /// The circuit of what was built at a setting, by its number.
    fn circuit(
        &mut self,
        posts: &Posts<'_>,
        built: &Built,
        at: usize,
    ) -> Result<Circuit<'_>, Defect> {
        let Self { all, sound, without, run: last, spent, .. } = self;
        let setting = all.get(at).ok_or(Defect::Table)?;
        let run = match built.differs {
            Differs::Nothing => None,
            Differs::Run(run) => Some(run),
            Differs::Much => return whole(posts, built, setting, spent),
        };
        let planned = run.and_then(|run| Some(Wire::of(run, posts.plan.runs.get(run)?)));
        let lacks = planned.filter(|wire| setting.places(wire)).map(|wire| wire.run);
        let slot = match lacks {
            None => sound.get_mut(at),
            Some(run) => {
                if *last != run {
                    *last = run;
                    without.fill_with(|| None);
                }
                without.get_mut(at)
            }
        };
        let solved = match slot.ok_or(Defect::Table)? {
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
