//! What may be in a closed box, as the contract shows it.

use super::shape::{self, Described, Named, Shape, Shaped, Word, named, objects};
use super::{CONTRACT_VERSION, Problem};
use coilwright_solver::closed_box::{ClosedBox as Found, Filling as FoundFilling, Hint, Possible};
use coilwright_solver::problem::Problem as FoundProblem;
use coilwright_words::english::closed_box::told;
use serde::Serialize;

named! {
    /// What a reading at the cup of a closed box amounts to.
    Hint as "ClosedBoxHint": Loads, LeadsFirst, Open, Short, Coarse, BelowLeads, Unusual;
}

objects! {
    /// What may be in a closed box, or what stood in the way.
    ClosedBox {
        /// The version of this contract.
        contract_version: u32,
        /// What the reading amounts to; null with any problem.
        hint: Option<Word<Hint>>,
        /// The lowest nominal load that the box may be, in ohms; null where none can be counted on.
        lowest_ohms: Option<f64>,
        /// The same exactly, in lowest terms: p/q or p.
        lowest_exact: Option<String>,
        /// The highest usual least load of an amplifier that is no higher, in ohms; null where none is.
        amplifier_least_ohms: Option<f64>,
        /// Every nominal load that the reading allows, the likeliest first.
        loads: Vec<PossibleLoad>,
        /// What that means and what to do, in English; null with any problem.
        text: Option<String>,
        /// Everything wrong with what was asked; empty when it was answered.
        problems: Vec<Problem>,
    }
    /// A nominal load that a reading allows.
    PossibleLoad {
        /// The load in ohms.
        ohms: f64,
        /// The load exactly, in lowest terms: p/q or p.
        exact: String,
        /// How likely, of all that are possible, by weights that are common practice: 0 to 1.
        likely: f64,
        /// What may make it, the likeliest first, at most four.
        fillings: Vec<Filling>,
    }
    /// What a closed box may hold: like drivers, joined evenly.
    Filling {
        /// How many drivers.
        drivers: u32,
        /// Voice coils on each.
        coils: u32,
        /// Nominal impedance of one coil in ohms.
        ohms: f64,
        /// The same exactly, in lowest terms: p/q or p.
        exact: String,
        /// Coils in each path, one after the other.
        coils_in_path: u32,
        /// Paths side by side.
        paths: u32,
        /// How likely, of everything that is possible: 0 to 1.
        likely: f64,
    }
}

impl ClosedBox {
    /// An answer that is nothing but problems.
    ///
    /// # Example
    /// ```
    /// use coilwright_module::answer::ClosedBox;
    /// use coilwright_solver::problem::{Code, Detail, Path, Problem};
    /// let problem = Problem::new(Path::root(), Code::NotAnObject, Detail::None);
    /// let found = ClosedBox::of_problems(&[problem]);
    /// assert_eq!((found.hint, found.problems.len()), (None, 1));
    /// ```
    #[must_use]
    pub fn of_problems(problems: &[FoundProblem]) -> Self {
        Self {
            contract_version: CONTRACT_VERSION,
            hint: None,
            lowest_ohms: None,
            lowest_exact: None,
            amplifier_least_ohms: None,
            loads: Vec::new(),
            text: None,
            problems: problems.iter().map(Problem::from).collect(),
        }
    }
}

impl From<Found> for ClosedBox {
    fn from(found: Found) -> Self {
        let text = Some(told(&found));
        Self {
            text,
            hint: Some(Word(found.hint)),
            lowest_ohms: found.lowest.map(|lowest| lowest.to_f64()),
            lowest_exact: found.lowest.map(|lowest| lowest.to_string()),
            amplifier_least_ohms: found.least.map(|least| least.to_f64()),
            loads: found.loads.iter().map(Into::into).collect(),
            ..Self::of_problems(&[])
        }
    }
}

impl From<&Possible> for PossibleLoad {
    fn from(found: &Possible) -> Self {
        Self {
            ohms: found.load.to_f64(),
            exact: found.load.to_string(),
            likely: found.likely,
            fillings: found.fillings.iter().map(Into::into).collect(),
        }
    }
}

impl From<&FoundFilling> for Filling {
    fn from(found: &FoundFilling) -> Self {
        Self {
            drivers: found.drivers,
            coils: found.coils,
            ohms: found.ohms.to_f64(),
            exact: found.ohms.to_string(),
            coils_in_path: found.in_path,
            paths: found.paths,
            likely: found.likely,
        }
    }
}
