//! How near the order of readings that the solver chooses is to the best there is: for small
//! rigs, with the problem made discrete, by trying every order.
//!
//! After the first reading, faults are left with their weights. A reading falls into
//! classes: what faults show is told apart where it differs by more than the larger of
//! 0.15 Ω and 8 %. The best policy has the least effort on average until one group of alike
//! faults is as likely as the solver wants it. The solver itself is not told the classes: it
//! looks for every fault there is, with a meter that is off, and may name a wrong one.

use crate::draw::Draw;
use crate::finding::{Bench, Policy, Score, Truth, benches, find};
use coilwright_solver::meter::{self, Fault, Kind, Place, Point};
use coilwright_solver::wiring::Act;
use proof::faulted::deck;
use proof::told::Told;
use proof::tree::Leaf;
use std::collections::BTreeMap;

/// At most so many faults after the first reading: they are sets in one word.
const MOST: usize = 16;
/// So many sets are looked at for one case at most.
const SETS: usize = 60_000;
/// One problem in so many is taken, so that the whole stays within two minutes.
const STRIDE: usize = 4;

/// A discrete problem.
struct Problem {
    /// Weights of the faults that the first reading leaves, alike ones as one.
    weights: Vec<f64>,
    /// Each point's effort and the class of what it shows of every fault.
    points: Vec<(f64, Vec<u8>)>,
    known: BTreeMap<u32, f64>,
}

impl Problem {
    fn weight(&self, set: u32) -> f64 {
        let of = self.weights.iter().enumerate().filter(|(at, _)| set >> at & 1 == 1);
        of.map(|(_, weight)| weight).sum()
    }

    /// The parts into which a point divides a set.
    fn parts(&self, set: u32, point: usize) -> Vec<u32> {
        let mut parts: Vec<(u8, u32)> = Vec::new();
        for (at, class) in self.points[point].1.iter().enumerate() {
            if set >> at & 1 == 0 {
                continue;
            }
            match parts.iter_mut().find(|(known, _)| known == class) {
                Some((_, part)) => *part |= 1 << at,
                None => parts.push((*class, 1 << at)),
            }
        }
        parts.into_iter().map(|(_, part)| part).collect()
    }

    /// The least effort, times weight, until one is left of a set; `None` where too many
    /// sets had to be looked at.
    fn least(&mut self, set: u32) -> Option<f64> {
        let whole = self.weight(set);
        // As sure as the solver is when it stops.
        let sure = |at: usize| set >> at & 1 == 1 && self.weights[at] >= meter::SURE * whole;
        if (0..self.weights.len()).any(sure) {
            return Some(0.0);
        }
        if let Some(known) = self.known.get(&set) {
            return Some(*known);
        }
        if self.known.len() > SETS {
            return None;
        }
        let mut best = f64::INFINITY;
        let mut tried: Vec<Vec<u32>> = Vec::new();
        // Points of little effort first, so that others are soon bounded.
        for point in 0..self.points.len() {
            let effort = self.points[point].0 * whole;
            if effort >= best {
                break;
            }
            let mut parts = self.parts(set, point);
            parts.sort_unstable();
            if parts.len() < 2 || tried.contains(&parts) {
                continue;
            }
            tried.push(parts.clone());
            let mut sum = effort;
            for part in parts {
                sum += self.least(part)?;
                if sum >= best {
                    break;
                }
            }
            best = best.min(sum);
        }
        // What no point divides stays together.
        let best = if best.is_finite() { best } else { 0.0 };
        self.known.insert(set, best);
        Some(best)
    }
}

/// Whether a meter tells two readings apart.
fn apart(a: f64, b: f64) -> bool {
    match (a > 1e6, b > 1e6) {
        (false, false) => (a - b).abs() > f64::max(0.15, 0.08 * a.max(b)),
        (a, b) => a != b,
    }
}

/// The faults that are in the comparison: what a circuit alone shows, with one value each.
fn is_compared(fault: &Fault) -> bool {
    !matches!(
        fault.kind(),
        Kind::Leads
            | Kind::Meter
            | Kind::OtherGroup
            | Kind::Loose
            | Kind::Turns
            | Kind::Amplifier
            | Kind::Reversed
    )
}

/// What every fault shows at every point at the last step.
fn shown(bench: &Bench, points: &[Point]) -> Vec<(Fault, f64, Vec<f64>)> {
    let group = &bench.rig.groups()[0];
    let ohms = group.ohms.to_f64() * 0.875;
    let leaf = |driver, coil| (Leaf { driver, coil }, ohms);
    let coils: Vec<(Leaf, f64)> = (0..group.count as u8)
        .flat_map(|driver| (0..group.coils as u8).map(move |coil| leaf(driver, coil)))
        .collect();
    let of = |(fault, weight): &(Fault, f64)| {
        let at = |point: &Point| {
            deck(&bench.plan, &coils, fault, 1.0, &bench.others, point)
                .map_or(0.0, |deck| deck.ohms())
        };
        (*fault, *weight, points.iter().map(at).collect())
    };
    bench.faults.iter().filter(|(fault, _)| is_compared(fault)).map(of).collect()
}

/// What can be read once everything but the amplifier's end is placed; the first reading is
/// the last one of the plan.
fn at_hand(bench: &Bench) -> Vec<Point> {
    let last = bench.last();
    let mut points = vec![last];
    let at_last = meter::points(&bench.plan).into_iter();
    points.extend(at_last.filter(|point| point.act == last.act && point.place != Place::Step));
    // An earlier reading since which only cables were laid can be taken again.
    let mut since = bench.plan.acts.iter().enumerate().take(usize::from(last.act)).rev();
    let is_still = |(_, step): &(usize, &Act)| !matches!(step, Act::Join { .. });
    while let Some((number, step)) = since.next().filter(is_still) {
        if matches!(step, Act::Check(check) if !check.tied) {
            points.push(Point { act: number as u16, place: Place::Step });
        }
    }
    points
}

/// The problem that is left once the first reading is one that a fault shows, and the
/// faults of each group of alike ones.
fn problem(
    bench: &Bench,
    all: &[(Fault, f64, Vec<f64>)],
    points: &[Point],
    first: usize,
) -> (Problem, Vec<Vec<Fault>>) {
    let mut left: Vec<(f64, &[f64], Vec<Fault>)> = Vec::new();
    for (fault, weight, seen) in all {
        if apart(seen[0], all[first].2[0]) {
            continue;
        }
        let alike = |(_, known, _): &&mut (f64, &[f64], Vec<Fault>)| {
            known.iter().zip(seen).all(|(a, b)| !apart(*a, *b))
        };
        match left.iter_mut().find(alike) {
            Some((sum, _, faults)) => {
                *sum += weight;
                faults.push(*fault);
            }
            None => left.push((*weight, seen, vec![*fault])),
        }
    }
    left.sort_by(|a, b| b.0.total_cmp(&a.0));
    left.truncate(MOST);
    let mut told = Vec::new();
    for (number, point) in points.iter().enumerate().skip(1) {
        // Classes: what is linked by readings that cannot be told apart.
        let mut order: Vec<usize> = (0..left.len()).collect();
        order.sort_by(|a, b| left[*a].1[number].total_cmp(&left[*b].1[number]));
        let mut classes = vec![0_u8; left.len()];
        let mut class = 0;
        for pair in order.windows(2) {
            class += u8::from(apart(left[pair[0]].1[number], left[pair[1]].1[number]));
            classes[pair[1]] = class;
        }
        told.push((f64::from(point.effort(&bench.plan)), classes));
    }
    told.sort_by(|a, b| a.0.total_cmp(&b.0));
    let weights = left.iter().map(|(weight, ..)| *weight).collect();
    let groups = left.into_iter().map(|(_, _, faults)| faults).collect();
    (Problem { weights, points: told, known: BTreeMap::new() }, groups)
}

/// A row of the table.
#[derive(Default)]
struct Row {
    problems: f64,
    left_out: usize,
    best: f64,
    weight: f64,
    chosen: f64,
    plain: f64,
    first: f64,
    plain_first: f64,
}

/// Prints the table: each problem is weighted by how likely its first reading is.
pub(crate) fn print(told: &mut Told) {
    let start = std::time::Instant::now();
    told.line(
        "| coils | drivers | problems | left out | best effort | chosen | plain | chosen first | plain first |"
    );
    told.line("|---|--:|--:|--:|--:|--:|--:|--:|--:|");
    for measured in [true, false] {
        for count in 1..=2 {
            let row = row(count, measured);
            told.line(format_args!(
                "| {} | {count} | {} | {} | {:.1} | {:.1} | {:.1} | {:.1} % | {:.1} % |",
                if measured { "measured" } else { "nominal" },
                row.problems,
                row.left_out,
                row.best / row.weight,
                row.chosen / row.weight,
                row.plain / row.weight,
                100.0 * row.first / row.weight,
                100.0 * row.plain_first / row.weight,
            ));
        }
    }
    eprintln!("{:.1} s", start.elapsed().as_secs_f64());
}

fn row(count: u32, measured: bool) -> Row {
    let mut row = Row::default();
    let mut seen = 0;
    for (number, bench) in benches(2).iter().enumerate() {
        if bench.rig.groups()[0].count != count {
            continue;
        }
        let last = bench.last();
        let points = at_hand(bench);
        let all = shown(bench, &points);
        // Every outcome of the first reading is a problem, once.
        let mut outcomes: Vec<f64> = Vec::new();
        for first in 0..all.len() {
            let ohms = all[first].2[0];
            if outcomes.iter().any(|known| !apart(*known, ohms)) {
                continue;
            }
            outcomes.push(ohms);
            seen += 1;
            if seen % STRIDE != 0 {
                continue;
            }
            let (mut problem, groups) = problem(bench, &all, &points, first);
            // As it should be: nothing is looked for.
            if groups.len() < 2 || groups.iter().flatten().any(|fault| *fault == Fault::Nothing) {
                continue;
            }
            let everything = (1_u32 << groups.len()) - 1;
            let Some(least) = problem.least(everything) else {
                row.left_out += 1;
                continue;
            };
            row.problems += 1.0;
            row.best += least;
            for (group, weight) in groups.iter().zip(&problem.weights) {
                row.weight += weight;
                for (policy, effort, firsts) in [
                    (Policy::Chosen, &mut row.chosen, &mut row.first),
                    (Policy::Plain, &mut row.plain, &mut row.plain_first),
                ] {
                    // The same truth for both.
                    let mut truth =
                        Truth::of(bench, group[0], Draw::of(number as u64 * 997 + first as u64));
                    let mut score = Score::default();
                    let named = find(&mut truth, measured, true, policy, &mut score);
                    *firsts += weight * f64::from(u8::from(named));
                    // Beside the first reading, which both take.
                    let of_first = f64::from(last.effort(&bench.plan));
                    *effort += weight * (score.effort() - of_first).max(0.0);
                }
            }
        }
    }
    row
}
