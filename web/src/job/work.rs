//! How far the work on a plan is: acts done, readings taken, answers given.

use super::against::Against;
use coilwright_solver::meter::{Place, Point, Question};
use coilwright_solver::wiring::Act;

/// How far the work is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Work {
    /// The act at hand, counted from 0.
    pub at: u16,
    /// The acts that are done, rising.
    pub done: Vec<u16>,
    /// What the meter showed, as typed, by the point, in the order taken.
    pub read: Vec<(Point, String)>,
    /// What was answered to the questions about easy causes.
    pub asked: Vec<(Question, bool)>,
    /// What somebody says who goes on against the meter.
    pub against: Against,
    /// Whether acts have the numbers that they had before leads were read first.
    pub old: bool,
}

impl Work {
    /// Whether an act is done.
    #[must_use]
    pub fn is_done(&self, act: u16) -> bool {
        self.done.binary_search(&act).is_ok()
    }

    pub(super) fn tick(&mut self, act: u16, done: bool) {
        match (self.done.binary_search(&act), done) {
            (Err(at), true) => self.done.insert(at, act),
            (Ok(at), false) => {
                self.done.remove(at);
            }
            _ => {}
        }
    }

    /// What was typed as the reading of a point.
    #[must_use]
    pub fn reading(&self, point: Point) -> &str {
        self.read.iter().find(|(of, _)| *of == point).map_or("", |(_, text)| text)
    }

    /// Writes down what was typed: what is read again is read last.
    pub fn note(&mut self, point: Point, text: &str) {
        self.read.retain(|(of, _)| *of != point);
        if !text.is_empty() {
            self.read.push((point, text.to_owned()));
        }
    }

    /// The answer to a question, where it was given.
    #[must_use]
    pub fn said(&self, question: Question) -> Option<bool> {
        self.asked.iter().find(|(of, _)| *of == question).map(|(_, answer)| *answer)
    }

    /// Writes down an answer: each question has one.
    pub fn say(&mut self, question: Question, answer: bool) {
        self.asked.retain(|(of, _)| *of != question);
        let at = self.asked.partition_point(|(of, _)| *of < question);
        self.asked.insert(at, (question, answer));
    }

    /// Whether something was read more closely than the steps ask.
    #[must_use]
    pub fn is_searched(&self) -> bool {
        !self.asked.is_empty() || self.read.iter().any(|(point, _)| is_closer(*point))
    }

    /// Takes back what was read and said in search of a fault.
    pub(super) fn forget(&mut self) {
        self.read.retain(|(point, _)| !is_closer(*point));
        self.asked.clear();
    }

    /// Gives numbers of acts that were written before leads were read first and every coil
    /// by itself the numbers that the acts have now.
    pub(super) fn renumber(&mut self, acts: &[Act]) {
        if !core::mem::take(&mut self.old) {
            return;
        }
        // As they were: no coils, and the leads before the first check.
        let mut before: Vec<u16> = Vec::new();
        let mut leads = None;
        for (number, act) in (0_u16..).zip(acts) {
            match act {
                Act::Coils { .. } => {}
                Act::Leads => leads = Some(number),
                act => {
                    if matches!(act, Act::Check(_)) {
                        before.extend(leads.take());
                    }
                    before.push(number);
                }
            }
        }
        let now = |act: u16| before.get(usize::from(act)).copied();
        self.at = now(self.at).unwrap_or(0);
        self.done = self.done.iter().filter_map(|act| now(*act)).collect();
        self.done.sort_unstable();
        let read = core::mem::take(&mut self.read);
        for (point, text) in read {
            if let Some(act) = now(point.act) {
                self.note(Point { act, ..point }, &text);
            }
        }
    }
}

/// Whether a point is looked at only in search of a fault.
#[must_use]
pub fn is_closer(point: Point) -> bool {
    !matches!(point.place, Place::Step | Place::Coil(_) | Place::Basket(_) | Place::Tied(..))
}
