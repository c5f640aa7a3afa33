//! The gate before power: no cable is landed on the amplifier and no power comes on while a
//! reading is wrong, in doubt or missing.
//!
//! Somebody may go on against that by saying why, in words. What is said covers what stood
//! there when it was said: anything else that stands shuts the gate again.

use super::Job;
use super::against::Against;
use super::work::{Work, is_closer};
use crate::question::text::Misread;
use coilwright_solver::meter::{Agreement, Point, at_act};
use coilwright_solver::wiring::Act;

/// Why a point keeps the gate shut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// What was read does not agree, or may not.
    Reads(Agreement),
    /// What was typed cannot be read.
    Misread(Misread),
    /// A step prescribes a reading that was not taken.
    NotTaken,
}

/// What keeps the gate shut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stop {
    /// Where.
    pub point: Point,
    /// Why.
    pub why: Why,
    /// What was typed there.
    pub text: String,
}

/// Whether a reading lets the gate open: whatever is not right is wrong or in doubt.
const fn agrees(agreement: Agreement) -> bool {
    matches!(agreement, Agreement::Right)
}

impl Job {
    /// Whether the gate is shut before a step, counted from 0.
    #[must_use]
    pub fn is_shut(&self, step: usize) -> bool {
        self.is_behind(step) && !self.stops().is_empty() && self.against().is_none()
    }

    /// What keeps the gate shut, unless somebody goes on against it: what is wrong or in
    /// doubt before what was not taken, each in the order of the work.
    #[must_use]
    pub fn stops(&self) -> &[Stop] {
        &self.metered.stops
    }

    /// What was said by somebody who goes on against the meter, where that covers all that
    /// now stands there.
    #[must_use]
    pub fn against(&self) -> Option<&str> {
        let Against { words, went: true } = &self.work.against else { return None };
        let stops = self.stops();
        match &self.metered.covered {
            Some(covered) => !stops.is_empty() && stops.iter().all(|stop| covered.contains(stop)),
            // No plan was looked at yet.
            None => true,
        }
        .then_some(words.as_str())
    }

    /// What stands in the field of what is said: words that no longer hold are not shown
    /// again.
    #[must_use]
    pub fn saying(&self) -> &str {
        if self.work.against.went { "" } else { &self.work.against.words }
    }

    /// The work as it is kept: without words that no longer hold.
    #[must_use]
    pub fn work_to_keep(&self) -> Work {
        let mut work = self.work.clone();
        if work.against.went && self.against().is_none() {
            work.against = Against::default();
        }
        work
    }

    /// Works out anew what stands before the gate. What was said before the page was opened
    /// covers what it opened with.
    pub(super) fn gate(&mut self) {
        self.metered.stops = self.all_stops();
        if !self.work.against.went {
            self.metered.covered = None;
        } else if self.metered.covered.is_none() && self.plan().is_some() {
            self.metered.covered = Some(self.metered.stops.clone());
        }
    }

    fn all_stops(&self) -> Vec<Stop> {
        let Some(plan) = self.plan() else { return Vec::new() };
        // As far as the step before which the first cable is landed.
        let mut points = Vec::new();
        for (at, act) in (0_u16..).zip(&plan.acts) {
            if matches!(act, Act::Land { .. } | Act::PowerOn) {
                break;
            }
            points.append(&mut at_act(plan, at));
        }
        let closer = self.work.read.iter().map(|(point, _)| *point);
        let closer = closer.filter(|point| is_closer(*point) && point.is_of(plan));
        points.extend(closer);
        points.sort_unstable();
        let (mut stops, mut missing) = (Vec::new(), Vec::new());
        for point in points {
            let text = self.work.reading(point).to_owned();
            match self.agreement(point) {
                Some(Ok(agreement)) if agrees(agreement) => {}
                Some(Ok(agreement)) => stops.push(Stop { point, why: Why::Reads(agreement), text }),
                Some(Err(misread)) => stops.push(Stop { point, why: Why::Misread(misread), text }),
                None => missing.push(Stop { point, why: Why::NotTaken, text: String::new() }),
            }
        }
        stops.append(&mut missing);
        stops
    }

    /// Takes down what is typed, or takes back that it was said.
    pub(super) fn say_against(&mut self, words: &str) {
        self.work.against = Against::typed(words);
        self.gate();
    }

    /// Goes on against the meter, where something was said.
    pub(super) fn go_against(&mut self) {
        self.work.against = Against::said(&self.work.against.words);
        self.metered.covered = None;
        self.gate();
    }
}
