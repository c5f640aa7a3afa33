//! The reading that is expected to tell most for its effort.
//!
//! The method is information gain: the entropy (C. E. Shannon, Bell Syst. Tech. J. 27, 1948;
//! from memory) over the ambiguity groups now, less that which is left on average after the
//! reading, divided by what the reading costs: a greedy choice, one reading at a time.

use super::built::Between;
use super::explain::{COMPARED, Case, looks_alike};
use super::points::Point;
use crate::count::wide;
use crate::short;
use crate::wiring::Plan;

/// The smallest step of a meter that is expected, in ohms.
const COUNT: f64 = 0.1;
/// A reading must tell so much, in bits, to be worth its while.
const LEAST_BITS: f64 = 0.01;
/// At most so many cases are weighed.
const WEIGHED: usize = 24;

/// What a case lets expect at a point: nothing where it is open, else mean, variance, and
/// the height of its density times its weight.
type Expected = Option<(f64, f64, f64)>;

/// The likeliest cases, and what they are told apart by.
#[derive(Debug)]
pub(super) struct Choice {
    /// Cases by their numbers, the likeliest first.
    order: Vec<usize>,
    /// What each of these sees at the candidates, once that was worked out.
    seen: Vec<Vec<Between>>,
    /// Groups by small numbers, in the order in which they are met.
    of: Vec<usize>,
    weights: Vec<f64>,
    sums: Vec<f64>,
    before: f64,
    best: Option<(f64, Point)>,
    /// How many candidates were weighed.
    weighed: usize,
}

/// Weighing a pair of cases takes about so many counted steps.
const PAIR: u64 = 1;

impl Choice {
    /// The entropy is that over `groups`, a number for each case that those share that nothing
    /// tells apart. Beside it about how many counted steps that took.
    pub(super) fn of(cases: &[Case], groups: &[usize]) -> (Self, u64) {
        let mut all: Vec<usize> = (0..cases.len()).collect();
        let weight = |at: usize| cases.get(at).map_or(0.0, |case| case.weight);
        short::insertion_sort(&mut all, |a, b| weight(*b).total_cmp(&weight(*a)));
        // What nothing tells apart and looks alike is weighed as one.
        let mut order: Vec<usize> = Vec::with_capacity(WEIGHED);
        let mut weights: Vec<f64> = Vec::with_capacity(WEIGHED);
        let mut compared = 0_usize;
        for at in all {
            let alike = |known: &usize| {
                let pair = cases.get(*known).zip(cases.get(at));
                groups.get(*known) == groups.get(at)
                    && pair.is_some_and(|(a, b)| looks_alike(a, b, &mut compared))
            };
            match order.iter().position(alike) {
                Some(place) => {
                    if let Some(sum) = weights.get_mut(place) {
                        *sum += weight(at);
                    }
                }
                None if order.len() < WEIGHED => {
                    order.push(at);
                    weights.push(weight(at));
                }
                None => {}
            }
        }
        let mut met: Vec<usize> = Vec::with_capacity(WEIGHED);
        let mut of: Vec<usize> = Vec::with_capacity(WEIGHED);
        for group in order.iter().filter_map(|at| groups.get(*at)) {
            of.push(met.iter().position(|known| known == group).unwrap_or_else(|| {
                met.push(*group);
                met.len().saturating_sub(1)
            }));
        }
        let mut sums = vec![0.0; met.len()];
        let before = entropy(&of, &weights, &mut sums);
        let steps = wide(compared) / COMPARED;
        let seen = Vec::new();
        (Self { order, seen, of, weights, sums, before, best: None, weighed: 0 }, steps)
    }

    /// The case that is to be looked at next, by its number.
    pub(super) fn lacks(&self) -> Option<usize> {
        self.order.get(self.seen.len()).copied()
    }

    /// Takes what that case sees at the candidates.
    pub(super) fn see(&mut self, seen: Vec<Between>) {
        self.seen.push(seen);
    }

    /// Weighs the next candidate, and tells about how many counted steps that took; `None`
    /// once all are weighed.
    pub(super) fn step(
        &mut self,
        plan: &Plan,
        cases: &[Case],
        candidates: &[Point],
    ) -> Option<u64> {
        let point = candidates.get(self.weighed)?;
        let expects = |((at, seen), weight): ((&usize, &Vec<Between>), &f64)| {
            let case = cases.get(*at)?;
            let (mean, variance) = case.belief.expects(seen.get(self.weighed)?, COUNT)?;
            Some((mean, variance, weight / libm::sqrt(variance)))
        };
        let expected: Vec<Expected> =
            self.order.iter().zip(&self.seen).zip(&self.weights).map(expects).collect();
        let after = entropy_after(&self.weights, &self.of, &expected, &mut self.sums);
        let told = self.before - after;
        let worth = told / f64::from(point.effort(plan));
        if told > LEAST_BITS && self.best.is_none_or(|(most, _)| worth > most + 1e-12) {
            self.best = Some((worth, *point));
        }
        self.weighed = self.weighed.saturating_add(1);
        let count = wide(self.order.len());
        Some(count.saturating_mul(count).saturating_mul(PAIR))
    }

    /// The point whose reading is expected to lower the doubt most for its effort.
    pub(super) fn best(&self) -> Option<Point> {
        self.best.map(|(_, point)| point)
    }
}

/// The entropy that is left on average, in bits, when something is read: for each case as
/// if it were so, at its likely reading.
fn entropy_after(weights: &[f64], of: &[usize], expected: &[Expected], sums: &mut [f64]) -> f64 {
    let mut sum = 0.0;
    let mut whole = 0.0;
    let mut after = vec![0.0; weights.len()];
    for (weight, outcome) in weights.iter().zip(expected) {
        for ((slot, other), would) in after.iter_mut().zip(weights).zip(expected) {
            *slot = match (outcome, would) {
                (None, None) => *other,
                (Some((ohms, ..)), Some((mean, variance, height))) => {
                    let off = ohms - mean;
                    let far = off * off / variance;
                    // Farther off than this it is all but excluded.
                    if far > 40.0 { 0.0 } else { height * libm::exp(-0.5 * far) }
                }
                _ => 0.0,
            };
        }
        sum += weight * entropy(of, &after, sums);
        whole += weight;
    }
    sum / whole.max(1e-12)
}

/// The entropy in bits over what can be told apart.
fn entropy(of: &[usize], weights: &[f64], sums: &mut [f64]) -> f64 {
    sums.fill(0.0);
    let mut whole = 0.0;
    for (group, weight) in of.iter().zip(weights) {
        whole += weight;
        if let Some(sum) = sums.get_mut(*group) {
            *sum += weight;
        }
    }
    let mut bits = 0.0;
    for sum in sums {
        let part = *sum / whole.max(1e-300);
        if part > 1e-9 {
            bits -= part * libm::log2(part);
        }
    }
    bits
}
