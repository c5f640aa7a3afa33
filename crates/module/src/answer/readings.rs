//! Every place of a plan where a meter should read something foretold, as the contract
//! shows it.

use super::fault::{FoundFault, of_fault};
use super::shape::{self, Described, Named, Shape, Shaped, Word, objects, spelled};
use super::wiring::{Foretold, Terminal};
use super::{CONTRACT_VERSION, Problem};
use crate::planned::Planned;
use coilwright_solver::defect::Defect;
use coilwright_solver::meter::{self, Agreement, EFFORTS, Known, Open, Other, Place, Point};
use coilwright_solver::problem::Problem as FoundProblem;
use coilwright_words::english::doubt as words;
use coilwright_words::english::wiring::Wording;
use serde::Serialize;

spelled! {
    /// What is read at a check point.
    Place as "ReadingPlace":
        Self::Step => "step",
        Self::Coil(_) => "coil",
        Self::Basket(_) => "basket",
        Self::Across(..) => "across",
        Self::Along(_) => "along",
        Self::CableOpen(_) => "open",
        Self::CableJoined(_) => "joined",
        Self::Lifted(_) => "lifted",
        Self::Apart(_) => "apart",
        Self::Tied(..) => "tied";
    /// Whether a reading is what a sound rig reads.
    Agreement as "Agreement":
        Self::Right => "right",
        Self::TooLow => "too_low",
        Self::TooHigh => "too_high",
        Self::Open => "open",
        Self::Unlike => "unlike",
        Self::LeadsFirst => "leads_first",
        Self::Coarse => "coarse",
        Self::Doubtful => "doubtful";
}

objects! {
    /// Where a meter can be held to a plan and what it should show, or what stood in the way.
    Readings {
        /// The version of this contract.
        contract_version: u32,
        /// The key of the configuration in its canonical writing; null with any problem.
        key: Option<String>,
        /// The check points in the order of the work; what can be looked at more closely stands behind the last check.
        points: Vec<ReadingPoint>,
        /// The coils whose resistance the request states.
        coils: Vec<CoilStanding>,
        /// Everything wrong with the request and the key; empty when it was answered.
        problems: Vec<Problem>,
    }
    /// A check point.
    ReadingPoint {
        /// Its name: the act counted from 1, and what is looked at more closely.
        point: String,
        /// The step that it belongs to, counted from 1.
        step: u32,
        /// The act that it belongs to, counted from 1.
        act: u32,
        /// What is read.
        place: Word<Place>,
        /// Where the + probe and the − probe go; null where they touch each other, or go from terminal to terminal.
        probes: Option<Vec<Terminal>>,
        /// What it costs beside a reading at hand: 1 outside the box, 10 inside it, 30 with a joint lifted.
        effort: u32,
        /// Whether a joint is lifted for it.
        lifted: bool,
        /// What the meter should show; null where it must be open.
        foretold: Option<Foretold>,
        /// Of every kind of fault that would be read as right here with a meter that shows tenths, the one hardest to tell from what is planned, the likeliest kind first: a right reading cannot exclude these. Empty where there is none, and where only leads or a basket are read.
        cannot_exclude: Vec<FoundFault>,
        /// A finer way to read that excludes some of them: four wires, volts across the own terminals of what is read over amperes through it. Null where that is not needed or would not help.
        finer: Option<Finer>,
        /// A short heading in English.
        title: String,
        /// How it is read, in English.
        text: String,
    }
    /// What a finer reading should show of a sound rig: ohms without leads; at 1 A the same in volts.
    Finer {
        /// The least.
        low: f64,
        /// What is likely.
        expected: f64,
        /// The most.
        high: f64,
        /// How it is read, in English.
        text: String,
    }
    /// Whether a coil that was measured is right.
    CoilStanding {
        /// Its name.
        coil: String,
        /// By its label, and beside the others of its group.
        agreement: Word<Agreement>,
    }
}

impl Readings {
    /// An answer that is nothing but problems.
    ///
    /// # Example
    /// ```
    /// use coilwright_module::answer::Readings;
    /// use coilwright_solver::problem::{Code, Detail, Path, Problem};
    /// let problem = Problem::new(Path::root(), Code::NotAnObject, Detail::None);
    /// let readings = Readings::of_problems(&[problem]);
    /// assert_eq!((readings.key, readings.problems.len()), (None, 1));
    /// ```
    #[must_use]
    pub fn of_problems(problems: &[FoundProblem]) -> Self {
        Self {
            contract_version: CONTRACT_VERSION,
            key: None,
            points: Vec::new(),
            coils: Vec::new(),
            problems: problems.iter().map(Problem::from).collect(),
        }
    }

    /// The check points of a plan.
    pub(crate) fn of(planned: &Planned) -> Self {
        Self::found(planned).unwrap_or_else(|defect| Self::of_problems(&[defect.into()]))
    }

    fn found(planned: &Planned) -> Result<Self, Defect> {
        let wording = planned.wording();
        let points = meter::points(wording.plan);
        let foretold = meter::foretold(wording.rig, wording.plan, &Known::default(), &points)?;
        let others = meter::others(&wording.job());
        let open = meter::left_open(&wording.job(), &Known::default(), &points, &others)?;
        let points = points.iter().zip(foretold).zip(&open);
        let coils = meter::coils(&wording.job(), &[])?.into_iter();
        Ok(Self {
            key: Some(wording.configuration.key()),
            points: points
                .map(|((point, read), open)| ReadingPoint::of(&wording, point, read, open, &others))
                .collect(),
            coils: coils
                .map(|(coil, agreement)| CoilStanding {
                    coil: coil.to_string(),
                    agreement: Word(agreement),
                })
                .collect(),
            ..Self::of_problems(&[])
        })
    }
}

impl ReadingPoint {
    pub(super) fn of(
        wording: &Wording<'_>,
        point: &Point,
        foretold: Option<meter::Foretold>,
        open: &Open,
        others: &[Other],
    ) -> Self {
        let [.., lifted] = EFFORTS;
        let effort = point.effort(wording.plan);
        let (title, text) = wording.point(point);
        Self {
            point: point.name(),
            step: wording
                .plan
                .step_of(point.act)
                .and_then(|step| u32::try_from(step).ok())
                .unwrap_or(0)
                + 1,
            act: u32::from(point.act) + 1,
            place: Word(point.place),
            probes: point.probes(wording.plan).map(|ends| ends.map(Into::into).into()),
            effort: effort.into(),
            lifted: effort == lifted,
            foretold: foretold.map(Into::into),
            cannot_exclude: open.faults.iter().map(|one| of_fault(wording, one, others)).collect(),
            finer: open.finer.map(|finer| {
                let meter::Finer { low, expected, high } = finer;
                Finer { low, expected, high, text: words::finer(&finer) }
            }),
            title,
            text,
        }
    }
}
