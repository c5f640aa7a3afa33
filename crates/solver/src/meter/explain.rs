//! Ambiguity groups: faults that nothing tells apart, and how likely they are together.

use super::belief::Belief;
use super::diagnosis::{Explanation, Fit};
use super::faults::Fault;
use super::variants::Variant;
use crate::count::wide;
use crate::short;
use core::ops::Range;

/// One way of one fault, under what was read.
#[derive(Debug)]
pub(super) struct Case {
    pub(super) fault: usize,
    pub(super) variant: Variant,
    pub(super) belief: Belief,
    pub(super) weight: f64,
    /// Ohms between the probes of every point that was read, and of every candidate.
    pub(super) seen: Vec<f64>,
}

impl Case {
    /// Takes in another way of the same fault that shows the same from here on: the likelier
    /// of both tells what is known.
    pub(super) fn together(&mut self, other: Belief, variant: Variant) {
        let (more, less) = (self.belief.log.max(other.log), self.belief.log.min(other.log));
        if other.log > self.belief.log {
            (self.belief, self.variant) = (other, variant);
        }
        self.belief.log = more + libm::log1p(libm::exp(less - more));
    }
}

/// Readings are alike that differ by less than this in ohms, or by this part.
const ALIKE: (f64, f64) = (0.15, 0.08);
/// So many figures are compared in a counted step.
pub(super) const COMPARED: u64 = 8;

/// The ambiguity groups of a fault dictionary: faults that no point tells apart, found fault by
/// fault.
#[derive(Debug, Default)]
pub(super) struct Ambiguity {
    /// The cases of each fault, which stand together, and a number that it shares with what
    /// it is alike to.
    known: Vec<(Range<usize>, usize)>,
}

impl Ambiguity {
    /// Takes the next fault, and tells about how many counted steps that took; `None` once
    /// there is none. What is alike to two faults makes them one group.
    pub(super) fn step(&mut self, cases: &[Case]) -> Option<u64> {
        let start = self.known.last().map_or(0, |(of, _)| of.end);
        let rest = cases.get(start..)?;
        let own = rest.chunk_by(|a, b| a.fault == b.fault).next()?;
        let group = self.known.len();
        let mut joined: Vec<usize> = Vec::new();
        let mut compared: usize = own.len();
        for (other, of) in &self.known {
            let Some(other) = cases.get(other.clone()) else { continue };
            if !joined.contains(of)
                && within(other, own, &mut compared)
                && within(own, other, &mut compared)
            {
                joined.push(*of);
            }
        }
        for (_, of) in &mut self.known {
            if joined.contains(of) {
                *of = group;
            }
        }
        let end = start.saturating_add(own.len());
        compared = compared.saturating_add(self.known.len());
        self.known.push((start..end, group));
        Some(wide(compared) / COMPARED)
    }

    /// A number for each case that its alike ones share.
    pub(super) fn groups(&self) -> Vec<usize> {
        self.known.iter().flat_map(|(own, group)| own.clone().map(|_| *group)).collect()
    }
}

/// Whether each of some cases looks like one of others.
fn within(some: &[Case], others: &[Case], compared: &mut usize) -> bool {
    some.iter().all(|one| others.iter().any(|other| looks_alike(one, other, compared)))
}

pub(super) fn looks_alike(a: &Case, b: &Case, compared: &mut usize) -> bool {
    let meter = |case: &Case| (case.variant.shows, case.variant.leads);
    if meter(a) != meter(b) {
        return false;
    }
    let (ohms, part) = ALIKE;
    let apart = a.seen.iter().zip(&b.seen).position(|(a, b)| {
        // Without end where one of them is open, and no number where both are.
        let off = (a - b).abs();
        let near = off < ohms || (off.is_finite() && (off < part * a || off < part * b));
        !near && (a.is_finite() || b.is_finite())
    });
    let seen = apart.map_or(a.seen.len(), |apart| apart.saturating_add(1));
    *compared = compared.saturating_add(seen);
    apart.is_none()
}

/// An explanation as it grows: its faults with their weights.
struct Growing {
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
    // Where each group stands among those, by its number.
    let mut places: Vec<Option<usize>> = Vec::new();
    places.resize_with(cases.len(), || None);
    for (case, group) in cases.iter().zip(groups) {
        let fit = match case.belief.farthest {
            far if far <= 2.2 => Fit::Well,
            far if far <= 3.5 => Fit::Roughly,
            _ => Fit::Not,
        };
        let Some(place) = places.get_mut(*group) else { continue };
        let at = *place.get_or_insert_with(|| {
            found.push(Growing { share: 0.0, fit: Fit::Not, members: Vec::new() });
            found.len().saturating_sub(1)
        });
        let Some(one) = found.get_mut(at) else { continue };
        one.share += case.weight;
        one.fit = one.fit.min(fit);
        // The cases of a fault stand together.
        match one.members.last_mut().filter(|(fault, _)| *fault == case.fault) {
            Some((_, weight)) => *weight += case.weight,
            None => one.members.push((case.fault, case.weight)),
        }
    }
    short::insertion_sort(&mut found, |a, b| b.share.total_cmp(&a.share));
    let mut all = Vec::new();
    for mut one in found {
        short::insertion_sort(&mut one.members, |a, b| b.1.total_cmp(&a.1));
        let of = one.members.iter().filter_map(|(fault, _)| faults.get(*fault));
        let faults = of.map(|(fault, _)| *fault).collect();
        all.push(Explanation { faults, share: one.share, fit: one.fit });
    }
    all
}
