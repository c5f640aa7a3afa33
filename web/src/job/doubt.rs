//! What is in doubt though it reads right, and what a right reading leaves open.

use super::{Job, Sought};
use coilwright_solver::meter::{self, Agreement, Fault, Foretold, Open, Other, Point};
use coilwright_solver::wiring::{Act, Plan};
use coilwright_words::english::wiring::Wording;

impl Job {
    /// What a right reading leaves open at a point, where that was worked out: at the step at
    /// hand where it reads right, and on the sheet wherever it is little.
    #[must_use]
    pub fn left_open(&self, point: Point) -> Option<&Open> {
        self.metered.open.known.iter().find(|(of, _)| *of == point).map(|(_, open)| open)
    }

    /// The same in words: faults that right does not exclude, the likeliest first. What is the
    /// wrong way round is left to the steps that check polarity.
    #[must_use]
    pub fn not_excluded(&self, wording: &Wording<'_>, open: &Open) -> Vec<String> {
        let by_ohms = open.faults.iter().filter(|fault| **fault != Fault::Reversed);
        by_ohms.map(|fault| wording.fault(fault, self.others())).collect()
    }

    /// Where it is shown what right readings leave open, and not known yet: at the step at
    /// hand, or on paper wherever little is read.
    #[must_use]
    pub fn missing_open(&self, on_paper: bool) -> Vec<Point> {
        // What is wrong comes first, since the page is drawn before that.
        let wired = self.wired.as_deref().filter(|_| self.metered.due.is_none());
        let (Some(wired), Some(plan)) = (wired, self.plan()) else {
            return Vec::new();
        };
        let mut points = if on_paper {
            few_ohms(plan, &wired.foretold)
        } else {
            let mut points = self.points(self.at());
            points.retain(|point| {
                let wording = self.agreement(*point);
                matches!(wording, Some(Ok(Agreement::Right | Agreement::Doubtful)))
            });
            points
        };
        points.retain(|point| self.left_open(*point).is_none());
        points
    }

    /// Works that out for some points.
    pub fn leave_open(&mut self, missing: Vec<Point>) {
        let Some(job) = self.on_bench() else { return };
        // Whoever looked for what is wrong has planned what may be joined otherwise.
        let planned = self.metered.found.is_some() || !self.metered.open.others.is_empty();
        let others = if planned { Vec::new() } else { meter::others(&job) };
        let known = if planned { self.others() } else { &others };
        let open = meter::left_open(&job, &self.metered.known, &missing, known);
        let Ok(open) = open else { return };
        self.metered.open.known.extend(missing.into_iter().zip(open));
        if !planned {
            self.metered.open.others = others;
        }
    }

    /// What may be joined otherwise, as faults number it, as far as that was planned.
    fn others(&self) -> &[Other] {
        match &self.metered.found {
            Some(found) => &found.others,
            None => &self.metered.open.others,
        }
    }

    /// Takes what was found of readings that would be right.
    pub(super) fn take_doubts(&mut self, agreements: &[Agreement], sought: &Sought) {
        for (read, agreement) in sought.reads.iter().zip(agreements) {
            let judged = self.metered.judged.iter_mut().find(|(of, _)| *of == read.point);
            if let Some(judged) = judged {
                judged.1 = *agreement;
            }
        }
    }
}

/// The checks at which so little is read that tenths may not tell.
fn few_ohms(plan: &Plan, foretold: &[Option<Foretold>]) -> Vec<Point> {
    let mut points = Vec::new();
    for (at, foretold) in (0_u16..).zip(foretold) {
        let is_check = matches!(plan.acts.get(usize::from(at)), Some(Act::Check(_)));
        if is_check && foretold.is_some_and(|one| one.is_little()) {
            points.append(&mut meter::at_act(plan, at));
        }
    }
    points
}
