//! Readings that would be right, though what was built is probably not sound.

use super::Agreement;
use super::belief::Belief;
use super::built::{Between, Posts};
use super::diagnosis::Read;
use super::explain::Case;
use super::faults::{Fault, Kind};
use super::settings::Settings;

/// Less likely sound than this, and what was built is in doubt.
const EVEN: f64 = 0.5;
/// A reading speaks against what is sound where it is so many times as likely under the
/// likeliest fault. Twice as likely moves even odds to two in three: less than that moves
/// nobody (common practice, no source).
const AGAINST: f64 = 2.0;

impl Fault {
    /// Whether nothing is wrong that ohms can tell.
    pub(super) fn is_sound(&self) -> bool {
        matches!(self.kind(), Kind::Nothing | Kind::Reversed)
    }
}

/// How likely what was built is sound, or merely reversed.
pub(super) fn sound(cases: &[Case], faults: &[(Fault, f64)]) -> f64 {
    let of = |case: &&Case| is_sound(case, faults);
    cases.iter().filter(of).map(|case| case.weight).sum()
}

fn is_sound(case: &Case, faults: &[(Fault, f64)]) -> bool {
    faults.get(case.fault).is_some_and(|(fault, _)| fault.is_sound())
}

/// What is in doubt, of readings that were taken: those that are clearly less expected of a
/// sound rig than under the likeliest fault, each after those before it.
#[derive(Debug)]
pub(super) struct Doubt<'a> {
    pub(super) posts: &'a Posts<'a>,
    pub(super) taken: &'a [Read],
    pub(super) warm: bool,
}

impl Doubt<'_> {
    /// Whether each of what was taken speaks against what is sound.
    pub(super) fn against(
        &self,
        settings: &mut Settings,
        cases: &[Case],
        faults: &[(Fault, f64)],
    ) -> Vec<bool> {
        let likeliest = |wanted: bool| {
            let of = cases.iter().filter(|case| is_sound(case, faults) == wanted);
            of.max_by(|a, b| a.weight.total_cmp(&b.weight))
        };
        let Some(fault) = likeliest(false) else { return Vec::new() };
        let Some(sound) = likeliest(true) else { return vec![true; self.taken.len()] };
        let [sound, fault] = [sound, fault].map(|case| {
            let seen = settings.between(self.posts, &case.variant.built, 0..self.taken.len());
            self.each(case, &seen)
        });
        let least = libm::log(AGAINST);
        sound.iter().zip(&fault).map(|(sound, fault)| fault - sound > least).collect()
    }

    /// How likely each reading is after those before it, as logarithms.
    fn each(&self, case: &Case, seen: &[Between]) -> Vec<f64> {
        let mut belief = Belief::of(&case.variant, self.posts.rig.groups().len());
        if self.warm {
            belief.warm();
        }
        let mut each = Vec::with_capacity(seen.len());
        for (read, between) in self.taken.iter().zip(seen) {
            let before = belief.log;
            belief.read(between, read.reading);
            each.push(belief.log - before);
        }
        each
    }
}

/// The same agreements, with those doubtful that would be right.
pub(super) fn doubted(
    agreements: &mut [Agreement],
    reads: &[Read],
    taken: &[Read],
    against: &[bool],
) {
    for (agreement, read) in agreements.iter_mut().zip(reads) {
        let against = taken.iter().zip(against).find(|(one, _)| *one == read);
        if *agreement == Agreement::Right && against.is_some_and(|(_, against)| *against) {
            *agreement = Agreement::Doubtful;
        }
    }
}

/// Whether what is so likely sound is in doubt.
pub(super) fn is_doubtful(sound: f64) -> bool {
    sound < EVEN
}
