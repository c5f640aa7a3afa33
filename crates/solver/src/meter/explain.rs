//! Faults that nothing tells apart, and how likely they are together.

use super::belief::Belief;
use super::built::Between;
use super::diagnosis::{Explanation, Fit};
use super::faults::Fault;
use super::variants::Variant;
use crate::short;

/// One way of one fault, under what was read.
pub(super) struct Case {
    pub(super) fault: usize,
    pub(super) variant: Variant,
    pub(super) belief: Belief,
    pub(super) weight: f64,
    /// Between the probes of every candidate point.
    pub(super) seen: Vec<Between>,
}

/// Readings are alike that differ by less than this in ohms, or by this part.
const ALIKE: (f64, f64) = (0.15, 0.08);
/// The cases of a fault, which stand together, and a number that it shares with what it
/// is alike to.
type Kin<'a> = (&'a [Case], usize);

/// Which faults no point tells apart: a number for each case that its alike ones share.
/// What is alike to two faults makes them one group.
pub(super) fn alike(cases: &[Case]) -> Vec<usize> {
    let mut known: Vec<Kin<'_>> = Vec::new();
    for own in cases.chunk_by(|a, b| a.fault == b.fault) {
        let group = known.len();
        let mut joined: Vec<usize> = Vec::new();
        for (other, of) in &known {
            if !joined.contains(of)
                && other.len() == own.len()
                && other.iter().zip(own).all(|(a, b)| looks_alike(a, b))
            {
                joined.push(*of);
            }
        }
        for (_, of) in &mut known {
            if joined.contains(of) {
                *of = group;
            }
        }
        known.push((own, group));
    }
    known.iter().flat_map(|(own, group)| own.iter().map(|_| *group)).collect()
}

fn looks_alike(a: &Case, b: &Case) -> bool {
    let meter = |case: &Case| (case.variant.shows, case.variant.leads);
    let (ohms, part) = ALIKE;
    meter(a) == meter(b)
        && a.seen.iter().zip(&b.seen).all(|(a, b)| match (a.ohms.is_finite(), b.ohms.is_finite()) {
            (true, true) => (a.ohms - b.ohms).abs() < ohms.max(part * a.ohms.max(b.ohms)),
            (a, b) => a == b,
        })
}

/// An explanation as it grows: the number of its group, and its faults with their weights.
struct Growing {
    group: usize,
    share: f64,
    fit: Fit,
    members: Vec<(usize, f64)>,
}

pub(super) fn explain(
    cases: &[Case],
    groups: &[usize],
    faults: &[(Fault, f64)],
) -> Vec<Explanation> {
    let mut found: Vec<Growing> = Vec::new();
    for (case, group) in cases.iter().zip(groups) {
        let fit = match case.belief.farthest {
            far if far <= 2.2 => Fit::Well,
            far if far <= 3.5 => Fit::Roughly,
            _ => Fit::Not,
        };
        let at = found.iter().position(|one| one.group == *group).unwrap_or_else(|| {
            found.push(Growing { group: *group, share: 0.0, fit: Fit::Not, members: Vec::new() });
            found.len().saturating_sub(1)
        });
        let Some(one) = found.get_mut(at) else { continue };
        one.share += case.weight;
        one.fit = one.fit.min(fit);
        match one.members.iter_mut().find(|(fault, _)| *fault == case.fault) {
            Some((_, weight)) => *weight += case.weight,
            None => one.members.push((case.fault, case.weight)),
        }
    }
    short::sort(&mut found, |a, b| b.share.total_cmp(&a.share));
    let mut all = Vec::new();
    for mut one in found {
        short::sort(&mut one.members, |a, b| b.1.total_cmp(&a.1));
        let of = one.members.iter().filter_map(|(fault, _)| faults.get(*fault));
        let faults = of.map(|(fault, _)| *fault).collect();
        all.push(Explanation { faults, share: one.share, fit: one.fit });
    }
    all
}
