//! How many of the faults that read right any detector could doubt that lets at most one sound
//! rig in a hundred be doubted.
//!
//! By the lemma of Neyman and Pearson ("On the problem of the most efficient tests of
//! statistical hypotheses", 1933) no test of such a level finds a fault more often than that of
//! the ratio of likelihoods. Two alternatives are held to what is sound: the very fault, its
//! kind, place and severity known ([`Verdict::known`]), and any of the eleven kinds that ohms
//! can tell, as `draw::fault` draws them and where they read right ([`Verdict::unknown`]).
//!
//! Likelihoods are of rigs drawn alike but for what is known (`draws`): as normal
//! distributions, or as the mean chance over the rigs drawn. Neither is exact, so that what
//! either finds is *less* than the bound; of the two the better is told as well, better being
//! what finds more of the fault drawn afresh, not of the case. What the probes showed when they
//! were touched is the same with and without a fault, and is held as it is in every draw.
//!
//! A threshold is of one request and its plan. A detector that may doubt one in a hundred of all
//! sound rigs, more of some requests and fewer of others, can find more in all than this says.
//!
//! What reads right is asked of the module for every point alone, after the touched probes: where
//! coils are read it judges more closely, by their readings, than is held to here.
//!
//! A point is open in every sound rig or in none. A fault that is open elsewhere is doubted by
//! anybody; draws of a fault that are open elsewhere than the case are left out, which changes
//! the ratio for all readings alike.

use super::dice::Dice;
use super::draw::{self, PRINCIPAL};
use super::draws::Draws;
use super::fault::Fault;
use super::likely::{Cloud, Normal, Vector};
use super::meter::{Shown, show};
use super::plan::Point;
use super::quick::Quick;
use super::rigs::Rig;
use super::session::{Held, right};
use serde_json::Value;

/// Of sound rigs that are drawn for a threshold, and of these above it.
const JUDGED: usize = 1000;
const LEVEL: f64 = 0.01;
/// Rigs that a normal distribution is made of, and those of which the chances are averaged.
const FITTED: usize = 400;
const CLOUD: usize = 1000;
/// Draws of a fault that tell which score is the better.
const TRIED: usize = 150;
/// Of each kind, for the fault that is not known; rigs for each that reads right.
const EACH: usize = 55;
const RIGS: usize = 3;

/// What a score says of the case.
#[derive(Clone, Copy, Debug, Default)]
pub struct Doubt {
    /// Above its threshold over all sound rigs.
    pub all: bool,
    /// Above that over those that read right everywhere.
    pub right: bool,
    /// Share of draws of the alternative that read right and are above the latter.
    pub power: f64,
}

/// By normal distributions, and by the better of the two.
#[derive(Clone, Copy, Debug, Default)]
pub struct Doubts {
    /// By normal distributions.
    pub normal: Doubt,
    /// By the better.
    pub better: Doubt,
}

/// What could be said of a case.
#[derive(Clone, Debug, Default)]
pub struct Verdict {
    /// With the fault known.
    pub known: Doubts,
    /// With it not known, where that was asked for.
    pub unknown: Option<Doubts>,
    /// Share of sound rigs that read right everywhere.
    pub sound_right: f64,
    /// Whether the case itself does, each point judged alone.
    pub right: bool,
}

/// What was drawn of rigs with one thing wrong.
#[derive(Debug, Default)]
pub(super) struct Sample {
    pub(super) felt: Vec<Vector>,
    pub(super) read: Vec<Vector>,
    pub(super) right: Vec<bool>,
}

impl Sample {
    fn right(&self) -> Vec<&Vector> {
        self.read.iter().zip(&self.right).filter(|(_, right)| **right).map(|(r, _)| r).collect()
    }

    /// The normal distribution of those that read right, where that are enough, or of all.
    fn normal(&self, only_right: bool) -> Option<Normal> {
        let right = self.right();
        let enough = only_right && right.len() >= FITTED / 2;
        let some: Vec<&Vector> = if enough { right } else { self.read.iter().collect() };
        Normal::of(&some[..some.len().min(FITTED)])
    }
}

/// Points of a rig that are not open when it is sound, and their bands.
struct Bench<'a> {
    rig: &'a Rig,
    points: Vec<Point>,
    /// What reads right at each, as the module says after the probes were touched. The bands
    /// that points foretell are narrower: they are of the rig, without the meter's error.
    bands: Vec<[f64; 2]>,
    draws: Draws<'a>,
}

impl Bench<'_> {
    fn quick(&self, fault: &Fault) -> Quick {
        Quick::of(&self.rig.plan, fault, &self.rig.coils, &self.points)
    }

    fn right(&self, read: &[f64]) -> bool {
        self.bands
            .iter()
            .zip(read)
            .all(|([low, high], read)| (low - 1e-9..=high + 1e-9).contains(read))
    }

    /// One rig: what is felt and what is read; nothing where that is open.
    fn one(&self, quick: &Quick, dice: &mut Dice) -> Option<(Vector, Vector)> {
        let (coils, leads) = self.draws.draw(dice);
        let felt: Vector = quick.felt(&coils, leads).into_iter().collect::<Option<_>>()?;
        let read = felt.iter().map(|felt| match show(Some(*felt), dice) {
            Shown::Ohms(ohms) => Some(ohms),
            Shown::Open => None,
        });
        let read: Vector = read.collect::<Option<_>>()?;
        Some((felt, read))
    }

    /// Rigs until so many were drawn and so many of them read right, or four times as many
    /// were drawn.
    fn sample(&self, quick: &Quick, many: usize, right: usize, dice: &mut Dice) -> Sample {
        let mut sample = Sample::default();
        let mut found = 0;
        for drawn in 0..4 * many {
            if drawn >= many && found >= right {
                break;
            }
            let Some((felt, read)) = self.one(quick, dice) else { continue };
            let is = self.right(&read);
            found += usize::from(is);
            sample.felt.push(felt);
            sample.read.push(read);
            sample.right.push(is);
        }
        sample
    }
}

/// Scores of the sound rigs drawn for thresholds and of those of the alternative.
pub(super) fn doubt(
    score: &dyn Fn(&[f64]) -> f64,
    sound: &Sample,
    other: &[Vector],
    case: &[f64],
) -> Doubt {
    let all: Vec<f64> = sound.read.iter().map(|read| score(read)).collect();
    let right: Vec<f64> =
        all.iter().zip(&sound.right).filter(|(_, right)| **right).map(|(s, _)| *s).collect();
    let (all, right) = (threshold(all), threshold(right));
    let own = score(case);
    let above = other.iter().filter(|read| score(read) > right).count();
    #[allow(clippy::cast_precision_loss, reason = "counts are small")]
    let power = above as f64 / other.len().max(1) as f64;
    Doubt { all: own > all, right: own > right, power }
}

/// What one in a hundred is above.
#[allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a share of a count"
)]
fn threshold(mut scores: Vec<f64>) -> f64 {
    scores.sort_by(f64::total_cmp);
    let above = (scores.len() as f64 * LEVEL) as usize;
    scores.len().checked_sub(above + 1).and_then(|at| scores.get(at)).copied().unwrap_or(f64::MAX)
}

fn doubts(all: Doubt, right: Doubt, cloud: Doubt) -> Doubts {
    // Each threshold with the distributions that are made for it.
    let normal = Doubt { all: all.all, ..right };
    Doubts { normal, better: if cloud.power > normal.power { cloud } else { normal } }
}

/// What could be said of a case whose prescribed readings are these; nothing where a fault
/// cannot be drawn again.
pub fn verdict(rig: &Rig, fault: &Fault, held: &Held, unknown: bool) -> Option<Verdict> {
    let mut dice = Dice::of(rig.seed, &format!("bound {fault:?}"));
    let mut touched = None;
    let mut points = Vec::new();
    let mut case = Vec::new();
    let plan = &rig.plan;
    for entry in &held.entries {
        let point = plan.points.iter().find(|point| entry["point"] == point.name.as_str())?;
        if point.probes.is_none() && point.place == "step" {
            touched = entry["reads"].as_f64();
            continue;
        }
        points.push(point.clone());
        case.push(entry["reads"].as_f64());
    }
    let draws = Draws::of(rig, touched);
    let sound = Quick::of(plan, &Fault::Nothing, &rig.coils, &points);
    let (coils, leads) = draws.draw(&mut dice);
    let open: Vec<bool> = sound.felt(&coils, leads).iter().map(Option::is_none).collect();
    if case.iter().zip(&open).any(|(read, open)| read.is_none() != *open) {
        let sure = Doubt { all: true, right: true, power: 1.0 };
        let sure = Doubts { normal: sure, better: sure };
        let unknown = unknown.then_some(sure);
        return Some(Verdict { known: sure, unknown, sound_right: 1.0, right: false });
    }
    let mut closed = open.iter();
    points.retain(|_| closed.next() == Some(&false));
    let case: Vector = case.into_iter().flatten().collect();
    let before: Vec<Value> = held
        .entries
        .iter()
        .filter(|entry| plan.points[0].name == entry["point"] && touched.is_some())
        .cloned()
        .collect();
    let felt = sound.felt(&coils, leads);
    let bands = points.iter().zip(felt.into_iter().flatten());
    let bands = bands.map(|(point, felt)| {
        // What is not right where it is sound is right nowhere: such a rig is not judged.
        right(rig, &before, point, felt).unwrap_or([f64::INFINITY, f64::NEG_INFINITY])
    });
    let bands = bands.collect();
    let bench = Bench { rig, points, bands, draws };

    let quick = bench.quick(&Fault::Nothing);
    let fitted = bench.sample(&quick, CLOUD, FITTED, &mut dice);
    let judged = bench.sample(&quick, JUDGED, JUDGED, &mut dice);
    let base = [fitted.normal(false)?, fitted.normal(true)?];
    let cloud = Cloud(fitted.felt);

    let quick = bench.quick(fault);
    let of = bench.sample(&quick, CLOUD, FITTED, &mut dice);
    let other = [of.normal(false)?, of.normal(true)?];
    let fresh = bench.sample(&quick, TRIED, TRIED, &mut dice);
    let tried: Vec<Vector> = match fresh.right() {
        few if few.len() < TRIED / 5 => fresh.read.clone(),
        right => right.into_iter().cloned().collect(),
    };
    let of = Cloud(of.felt);
    let [all, right] = [0, 1].map(|which| {
        let score = |read: &[f64]| other[which].log(read) - base[which].log(read);
        doubt(&score, &judged, &tried, &case)
    });
    let by_cloud = doubt(&|read| of.log(read) - cloud.log(read), &judged, &tried, &case);
    let unknown = unknown.then(|| any(&bench, &base, &cloud, &judged, &case, &mut dice));
    #[allow(clippy::cast_precision_loss, reason = "counts are small")]
    let sound_right = judged.right().len() as f64 / judged.read.len().max(1) as f64;
    Some(Verdict {
        known: doubts(all, right, by_cloud),
        unknown,
        sound_right,
        right: bench.right(&case),
    })
}

/// With any of the kinds as the alternative.
fn any(
    bench: &Bench<'_>,
    base: &[Normal; 2],
    cloud: &Cloud,
    judged: &Sample,
    case: &[f64],
    dice: &mut Dice,
) -> Doubts {
    let sound = bench.quick(&Fault::Nothing);
    let mut rig = bench.rig.clone();
    let (mut moves, mut of, mut tried) = (Vec::new(), Cloud::default(), Vec::new());
    for kind in PRINCIPAL.into_iter().filter(|kind| *kind != "reversed") {
        for number in 0..EACH {
            let (coils, leads) = bench.draws.draw(dice);
            for (coil, ohms) in rig.coils.values_mut().zip(&coils) {
                *coil = *ohms;
            }
            rig.leads = leads;
            let Some(fault) = draw::fault(kind, &rig, dice) else { continue };
            let quick = bench.quick(&fault);
            let felt = quick.felt(&coils, leads).into_iter().collect::<Option<Vector>>();
            let right = sound.felt(&coils, leads).into_iter().collect::<Option<Vector>>();
            let (Some(felt), Some(right)) = (felt, right) else { continue };
            let read = felt.iter().map(|felt| match show(Some(*felt), dice) {
                Shown::Ohms(ohms) => ohms,
                Shown::Open => f64::INFINITY,
            });
            let read: Vector = read.collect();
            if !bench.right(&read) {
                continue;
            }
            // One in five is kept to tell the better score.
            if number % 5 == 0 {
                tried.push(read);
                continue;
            }
            moves.push(felt.iter().zip(&right).map(|(felt, right)| felt - right).collect());
            of.0.push(felt);
            of.0.extend((1..RIGS).filter_map(|_| Some(bench.one(&quick, dice)?.0)));
        }
    }
    let [all, right] = [0, 1].map(|which| {
        let base = &base[which];
        let score = |read: &[f64]| base.log_mean(read, &moves) - base.log(read);
        doubt(&score, judged, &tried, case)
    });
    let by_cloud = doubt(&|read| of.log(read) - cloud.log(read), judged, &tried, case);
    doubts(all, right, by_cloud)
}
