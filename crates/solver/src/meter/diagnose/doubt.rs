//! What is told in the end; of readings that would be right, those that are in doubt since
//! what was built is probably not sound.

use super::candidates::is_sound;
use super::{Diagnosing, MOST};
use crate::defect::Defect;
use crate::meter::built::Posts;
use crate::meter::diagnosis::{Diagnosis, Explanation, Question};
use crate::meter::explain::Case;
use crate::meter::points;
use crate::meter::{Agreement, Fault, Point};

/// Less likely sound than this, and what was built is in doubt.
const EVEN: f64 = 0.5;
/// A reading speaks against what is sound where it is so many times as likely under the
/// likeliest fault. Half as likely again moves even odds to three in five: less than that
/// moves nobody (common practice, no source).
const AGAINST: f64 = 1.5;

impl Diagnosing {
    /// What came of it.
    pub(super) fn told(
        &mut self,
        mut explanations: Vec<Explanation>,
        next: Option<Point>,
    ) -> Result<Diagnosis, Defect> {
        let nothing = self.says_nothing();
        let polarity = explanations.first().is_some_and(is_sound) && next.is_none() && !nothing;
        if nothing {
            explanations.clear();
        }
        // What is not there yet, and what no reading tells from sound, is not wrong either.
        let sound = explanations.iter().find(|one| is_sound(one)).map_or(0.0, |one| one.share);
        explanations.truncate(MOST);
        if !nothing {
            self.doubt(sound)?;
        }
        let mut questions: Vec<Question> = Vec::new();
        if self.agreements.iter().any(|one| one.is_suspect()) {
            let unsaid = |question: &Question| self.said(*question).is_none();
            questions.extend(Question::ALL.into_iter().filter(unsaid));
        }
        let agreements = core::mem::take(&mut self.agreements);
        let others = core::mem::take(&mut self.others);
        let defect = None;
        Ok(Diagnosis { agreements, questions, explanations, next, polarity, sound, others, defect })
    }

    fn holds_sound(&self, case: &Case) -> bool {
        self.faults.get(case.fault).is_some_and(|(fault, _)| fault.is_sound())
    }

    /// Where what was built is in doubt: readings that would be right are doubtful that are
    /// clearly less expected of a sound rig than under the likeliest fault.
    fn doubt(&mut self, sound: f64) -> Result<(), Defect> {
        if sound >= EVEN {
            return Ok(());
        }
        let against = self.against()?;
        // Leads say nothing of what was built.
        let touching = points::touching(&self.plan);
        for (agreement, read) in self.agreements.iter_mut().zip(&self.reads) {
            let of = self.taken.iter().zip(&against).find(|(taken, _)| taken.read == *read);
            let against = of.is_some_and(|(_, against)| *against);
            if *agreement == Agreement::Right && against && Some(read.point) != touching {
                *agreement = Agreement::Doubtful;
            }
        }
        Ok(())
    }

    /// Whether each of what was taken speaks against what is sound, after those before it in
    /// the order of the work.
    fn against(&mut self) -> Result<Vec<bool>, Defect> {
        let faults = self.cases.iter().filter(|case| !self.holds_sound(case));
        let likeliest = faults.max_by(|a, b| a.weight.total_cmp(&b.weight));
        let Some(fault) = likeliest.map(|case| case.variant.clone()) else { return Ok(Vec::new()) };
        let posts = Posts::of(&self.rig, &self.plan, &self.coils);
        let sound = Fault::Nothing.variants(&posts, &self.others).pop();
        let Some(sound) = sound else { return Ok(Vec::new()) };
        let unread = [sound, fault].map(|variant| (self.unread(&variant), variant));
        let [sound, fault] = unread.map(|(mut belief, variant)| {
            let seen = self.settings.between(&posts, &variant.built, 0..self.taken.len())?;
            let mut each = Vec::with_capacity(seen.len());
            for (taken, between) in self.taken.iter().zip(&seen) {
                let before = belief.log;
                belief.read(between, &taken.weighed);
                each.push(belief.log - before);
            }
            Ok(each)
        });
        let (sound, fault) = (sound?, fault?);
        let least = libm::log(AGAINST);
        Ok(sound.iter().zip(&fault).map(|(sound, fault)| fault - sound > least).collect())
    }
}

#[cfg(test)]
mod tests;
