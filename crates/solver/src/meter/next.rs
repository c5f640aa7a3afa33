//! The reading that is expected to tell most for its effort.

use super::explain::Case;
use super::points::Point;
use crate::short;
use crate::wiring::Plan;

/// The smallest step of a meter that is expected, in ohms.
const COUNT: f64 = 0.1;
/// A reading must tell so much, in bits, to be worth its while.
const LEAST_BITS: f64 = 0.03;
/// At most so many cases are weighed.
const WEIGHED: usize = 24;

/// What a case lets expect at a point: nothing where it is open, else mean, variance, and
/// the height of its density times its weight.
type Expected = Option<(f64, f64, f64)>;

/// The point whose reading is expected to lower the doubt most for its effort: the doubt
/// over `groups`, a number for each case that those share that nothing tells apart. What
/// cases see at `read` points that were read stands before what they see at candidates.
pub(super) fn next(
    plan: &Plan,
    cases: &[Case],
    groups: &[usize],
    candidates: &[Point],
    read: usize,
) -> Option<Point> {
    let mut order: Vec<usize> = (0..cases.len()).collect();
    let weight = |at: &usize| cases.get(*at).map_or(0.0, |case| case.weight);
    short::sort(&mut order, |a, b| weight(b).total_cmp(&weight(a)));
    order.truncate(WEIGHED);
    let mut weighed: Vec<&Case> = Vec::with_capacity(WEIGHED);
    // Groups by small numbers, in the order in which they are met.
    let mut met: Vec<usize> = Vec::with_capacity(WEIGHED);
    let mut of: Vec<usize> = Vec::with_capacity(WEIGHED);
    for at in order {
        if let (Some(case), Some(group)) = (cases.get(at), groups.get(at)) {
            let number = met.iter().position(|known| known == group).unwrap_or_else(|| {
                met.push(*group);
                met.len().saturating_sub(1)
            });
            weighed.push(case);
            of.push(number);
        }
    }
    let weights: Vec<f64> = weighed.iter().map(|case| case.weight).collect();
    let mut sums = vec![0.0; met.len()];
    let before = doubt(&of, &weights, &mut sums);
    let mut best: Option<(f64, Point)> = None;
    for (number, point) in candidates.iter().enumerate() {
        let expects = |case: &&Case| {
            let seen = case.seen.get(number.saturating_add(read))?;
            let (mean, variance) = case.belief.expects(seen, COUNT)?;
            Some((mean, variance, case.weight / libm::sqrt(variance)))
        };
        let expected: Vec<Expected> = weighed.iter().map(expects).collect();
        let told = before - doubt_after(&weights, &of, &expected, &mut sums);
        let worth = told / f64::from(point.effort(plan));
        if told > LEAST_BITS && best.is_none_or(|(most, _)| worth > most + 1e-12) {
            best = Some((worth, *point));
        }
    }
    best.map(|(_, point)| point)
}

/// The doubt that is left on average, in bits, when something is read: for each case as
/// if it were so, at its likely reading.
fn doubt_after(weights: &[f64], of: &[usize], expected: &[Expected], sums: &mut [f64]) -> f64 {
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
        sum += weight * doubt(of, &after, sums);
        whole += weight;
    }
    sum / whole.max(1e-12)
}

/// The entropy in bits over what can be told apart.
fn doubt(of: &[usize], weights: &[f64], sums: &mut [f64]) -> f64 {
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
