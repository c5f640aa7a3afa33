//! How well one way of a fault fits what was read.

use super::super::belief::Belief;
use super::super::built::{Between, Built, Posts};
use super::super::diagnosis::Question;
use super::super::explain::Case;
use super::super::faults::Fault;
use super::super::points::Place;
use super::super::reading;
use super::super::variants::{Variant, felt};
use super::super::weights::{ADMITTED, DENIED, INSIDE, OUTSIDE, SINCE};
use super::{Diagnosing, Stage};
use crate::count::wide;
use crate::defect::Defect;

/// What is so much less likely than the likeliest is left out of account.
const FAINT: f64 = 1e-4;
/// What is nearer than by this part to what a sound rig reads is as usual.
const USUAL: f64 = 0.01;
/// What a fault costs to be set up, and to be held to a reading, in counted steps.
const SETTING_UP: u64 = 16;
const FITTING: u64 = 4;

impl Diagnosing {
    /// Holds one way of a fault to what was read.
    pub(super) fn fit(&mut self, next: usize, mut ways: Vec<Variant>) -> Result<(), Defect> {
        let posts = Posts::of(&self.rig, &self.plan, &self.coils);
        let Some(variant) = ways.pop() else {
            let Some((fault, _)) = self.faults.get(next) else {
                let least = self.best + libm::log(FAINT);
                self.cases.retain(|case| case.belief.log > least);
                self.stage = Stage::Looking(0);
                return Ok(());
            };
            let nows = self.taken.iter().map(|one| one.now).chain(self.work);
            let nows: Vec<u16> = nows.collect();
            ways = felt(fault.variants(&posts, &self.others), &nows);
            ways.reverse();
            self.spent = self.spent.saturating_add(SETTING_UP);
            self.stage = Stage::Fitting(next.saturating_add(1), ways);
            return Ok(());
        };
        let number = next.saturating_sub(1);
        self.stage = Stage::Fitting(next, ways);
        let (fault, weight) = self.faults.get(number).ok_or(Defect::Table)?;
        let off = (self.said(Question::AmplifierOff), self.said(Question::MeterRight));
        let weight = match (fault, off.0, off.1) {
            (Fault::Amplifier, Some(true), _) => return Ok(()),
            (Fault::Leads | Fault::Meter, _, Some(true)) => weight * DENIED,
            (Fault::Amplifier, Some(false), _) | (Fault::Leads | Fault::Meter, _, Some(false)) => {
                weight * ADMITTED
            }
            _ => *weight,
        };
        // A coil that was sound by itself may have failed since; that is less likely.
        let failed = match *fault {
            Fault::CoilOpen(coil) | Fault::CoilShort(coil) | Fault::Turns(coil) => {
                Some(coil).filter(|coil| self.sound.contains(coil))
            }
            _ => None,
        };
        let weight = if failed.is_some() { weight * SINCE } else { weight };
        let mut belief = self.unread(&variant);
        belief.log += libm::log(weight);
        let seen = self.settings.between(&posts, &variant.built, 0..self.taken.len())?;
        if *fault == Fault::Nothing {
            self.usual = seen.iter().map(|between| between.ohms).collect();
        }
        if self.explains_nothing(&variant, &seen) {
            belief.log += libm::log(OUTSIDE);
        } else if fault.is_sound() && !self.outside() {
            let [known, read] = INSIDE;
            let all = posts.coils.iter().all(|of| self.sound.contains(&of.coil));
            let inside = if all { read } else { known };
            belief.log += libm::log(inside);
        }
        for (one, between) in self.taken.iter().zip(&seen) {
            let point = &one.read.point;
            if failed.is_some_and(|coil| point.place == Place::Coil(coil)) {
                let sound = Built::sound(&self.plan);
                belief.read(&reading::read(&posts, &sound, point)?, &one.weighed);
            } else {
                belief.read(between, &one.weighed);
            }
        }
        let fitting = FITTING.saturating_mul(wide(self.taken.len()));
        self.spent = self.spent.saturating_add(fitting);
        self.best = self.best.max(belief.log);
        if belief.log > self.best + libm::log(FAINT) {
            // When what touches came makes no difference from here on.
            let came = variant.built.touching.map(|touching| touching.of);
            let last = self.cases.last_mut().filter(|case| {
                let of = case.variant.built.touching.map(|touching| touching.of);
                case.fault == number && came.is_some() && of == came
            });
            if let Some(case) = last {
                case.together(belief, variant);
                return Ok(());
            }
            let seen = seen.iter().map(|between| between.ohms).collect();
            self.cases.push(Case { fault: number, variant, belief, weight: 0.0, seen });
        }
        Ok(())
    }

    /// What is known under one way of a fault before anything is read.
    pub(super) fn unread(&self, variant: &Variant) -> Belief {
        let mut belief = Belief::of(variant, self.rig.groups().len());
        if self.said(Question::Cool) == Some(false) {
            belief.warm();
        }
        belief
    }

    /// Whether a reading is wrong that is as usual under one way of a fault.
    fn explains_nothing(&self, variant: &Variant, seen: &[Between]) -> bool {
        let usual = |(seen, usual): (&Between, &f64)| {
            seen.ohms.total_cmp(usual).is_eq() || (seen.ohms - usual).abs() < USUAL * usual
        };
        let mut wrong = seen.iter().zip(&self.usual).zip(&self.taken).filter(|(_, one)| one.off);
        let meter = variant.leads.is_some() || variant.shows.total_cmp(&1.0).is_ne();
        !meter && wrong.any(|(of, _)| usual(of))
    }
}
