//! How well what was read fits what may be wrong, and what would be read next.
//!
//! A reading is `leads + R + error`. What is unknown for the whole job (the leads, the
//! factor of each driver group, what a fault leaves unsure) is held as a normal
//! distribution that every reading narrows; the rest is error of its own. So readings
//! may come in any order, and the narrowing of one helps to judge the next.
//!
//! The method is Bayesian updating: the posterior weight of a fault is its weight before times
//! the likelihood of every reading under it. The normal distribution is held by its mean and
//! its covariance and updated reading by reading as a Kalman filter without motion does
//! (R. E. Kalman, J. Basic Eng. 82, 1960; from memory). What no distribution foresees, an
//! outlier, counts no less than [`SLIP`].

use super::Reading;
use super::built::{Between, GROUPS};
use super::model::{LEADS, METER, OF_COIL, OF_NOMINAL};
use super::variants::Variant;

/// Unknowns: the leads, what the fault leaves unsure, a factor for each group.
const UNKNOWNS: usize = GROUPS.saturating_add(FIXED);
const UNSURE: usize = 1;
const FIXED: usize = 2;

/// How well contact repeats, in ohms either way.
const CONTACT: f64 = 0.05;
/// The least a reading weighs against an explanation that it contradicts: nothing is
/// ruled out by one slip.
const SLIP: f64 = 1e-4;

/// What is known under one explanation.
#[derive(Clone, Copy, Debug)]
pub(super) struct Belief {
    /// The likely values: of the leads in ohms, of the others as parts of themselves.
    mean: [f64; UNKNOWNS],
    /// How they vary together.
    covariance: [[f64; UNKNOWNS]; UNKNOWNS],
    /// How many of them there are.
    used: usize,
    shows: f64,
    /// The logarithm of how likely all readings so far are.
    pub(super) log: f64,
    /// The farthest that a reading was from what it should be, in standard deviations.
    pub(super) farthest: f64,
}

/// A reading, with the least that it weighs against what it contradicts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Weighed {
    reading: Reading,
    least: f64,
}

impl Weighed {
    pub(super) fn of(reading: Reading) -> Self {
        let least = match reading {
            Reading::Open => libm::log(SLIP),
            Reading::Ohms { ohms, .. } => libm::log(SLIP / (ohms + 0.3)),
        };
        Self { reading, least }
    }
}

/// What would be read, its variance, and how the unknowns vary with it.
struct Expected {
    ohms: f64,
    variance: f64,
    along: [f64; UNKNOWNS],
}

/// The variance of something that is equally likely anywhere so far either way.
const fn even(either_way: f64) -> f64 {
    either_way * either_way / 3.0
}

impl Belief {
    /// What is known before anything is read, with so many driver groups.
    pub(super) fn of(variant: &Variant, groups: usize) -> Self {
        let [least, most] = variant.leads.unwrap_or(LEADS);
        let [low, high] = OF_NOMINAL;
        let mut belief = Self {
            mean: [0.0; UNKNOWNS],
            covariance: [[0.0; UNKNOWNS]; UNKNOWNS],
            used: groups.saturating_add(FIXED).min(UNKNOWNS),
            shows: variant.shows,
            log: libm::log(variant.weight.max(1e-12)),
            farthest: 0.0,
        };
        let of_group = even((high - low) / (high + low));
        let of_fault = variant.spread * variant.spread;
        for (at, (row, mean)) in belief.covariance.iter_mut().zip(&mut belief.mean).enumerate() {
            let variance = match at {
                0 => even((most - least) / 2.0),
                UNSURE => of_fault,
                _ => of_group,
            };
            if at == 0 {
                *mean = (least + most) / 2.0;
            }
            if let Some(slot) = row.get_mut(at) {
                *slot = variance;
            }
        }
        belief
    }

    /// Coils that were just played: copper reads up to two fifths more (0.39 % for each
    /// kelvin, a hundred kelvin).
    pub(super) fn warm(&mut self) {
        for (at, (row, mean)) in self.covariance.iter_mut().zip(&mut self.mean).enumerate() {
            if at >= FIXED {
                *mean = 0.2;
                if let Some(slot) = row.get_mut(at) {
                    *slot += even(0.2);
                }
            }
        }
    }

    /// How a reading follows the unknowns.
    fn slopes(&self, between: &Between) -> [f64; UNKNOWNS] {
        let mut slopes = [0.0; UNKNOWNS];
        let ohms = self.shows * between.ohms;
        for (slope, share) in slopes.iter_mut().skip(FIXED).zip(&between.groups) {
            *slope = ohms * share;
        }
        if let Some(slope) = slopes.first_mut() {
            *slope = self.shows;
        }
        if let Some(slope) = slopes.get_mut(UNSURE) {
            // A meter that shows too much or too little does so with all of it.
            let [leads, ..] = self.mean;
            *slope = if (self.shows - 1.0).abs() > 1e-9 {
                self.shows * (between.ohms + leads)
            } else {
                ohms * between.unsure
            };
        }
        slopes
    }

    /// What a reading varies by itself, apart from the unknowns.
    fn own(between: &Between, count: f64) -> f64 {
        let (part, counts) = METER;
        // Probes that touch show what the leads have; what the meter adds at nothing is
        // part of that.
        if between.leads {
            return even(CONTACT) + even(count / 2.0);
        }
        even(between.ohms * part + count * counts)
            + even(CONTACT)
            + even(OF_COIL) * between.squares * between.ohms * between.ohms
    }

    /// Those that there are, of all unknowns.
    fn used<'a, T>(&self, all: &'a [T; UNKNOWNS]) -> &'a [T] {
        all.get(..self.used).unwrap_or(all)
    }

    /// What would be read; `None` where it is open.
    fn foresees(&self, between: &Between, count: f64) -> Option<Expected> {
        if !between.ohms.is_finite() {
            return None;
        }
        let slopes = self.slopes(between);
        let slopes = self.used(&slopes);
        let moved: f64 = slopes.iter().zip(&self.mean).map(|(slope, mean)| slope * mean).sum();
        // Spread times slopes, and the variance that follows.
        let mut along = [0.0; UNKNOWNS];
        let mut variance = 0.0;
        for ((slot, row), slope) in along.iter_mut().zip(&self.covariance).zip(slopes) {
            *slot = slopes.iter().zip(row).map(|(slope, value)| value * slope).sum();
            variance += *slot * slope;
        }
        let ohms = self.shows * between.ohms + moved;
        Some(Expected { ohms, variance: variance + Self::own(between, count), along })
    }

    /// What would be read, and its variance.
    pub(super) fn expects(&self, between: &Between, count: f64) -> Option<(f64, f64)> {
        self.foresees(between, count).map(|Expected { ohms, variance, .. }| (ohms, variance))
    }

    /// Takes a reading into account.
    pub(super) fn read(&mut self, between: &Between, of: &Weighed) {
        let (ohms, count) = match of.reading {
            Reading::Open => {
                if between.ohms.is_finite() {
                    self.log += of.least;
                    self.farthest = f64::INFINITY;
                }
                return;
            }
            Reading::Ohms { ohms, count } => (ohms, count),
        };
        let Some(Expected { ohms: expected, variance, along }) = self.foresees(between, count)
        else {
            self.log += of.least;
            self.farthest = f64::INFINITY;
            return;
        };
        let off = ohms - expected;
        let far = off * off / variance;
        self.farthest = self.farthest.max(libm::sqrt(far));
        // The logarithm of a normal density.
        let likely = -0.5 * (far + libm::log(core::f64::consts::TAU * variance));
        self.log += likely.max(of.least);
        if likely < of.least {
            return;
        }
        let along = along.get(..self.used).unwrap_or(&along);
        for ((mean, row), a) in self.mean.iter_mut().zip(&mut self.covariance).zip(along) {
            *mean += a * off / variance;
            for (value, b) in row.iter_mut().zip(along) {
                *value -= a * b / variance;
            }
        }
    }
}
