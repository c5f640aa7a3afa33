//! The answer as the contract shows it: every field always there, `null` where
//! nothing is known.
//!
//! One table makes the structures, their JSON, the type declarations and the schema.

mod closed_box;
mod diagnosis;
mod fault;
mod readings;
mod shape;
mod wiring;

pub use closed_box::{ClosedBox, Filling, PossibleLoad};
pub use diagnosis::{Diagnosis, Explanation, QuestionAsked};
pub use fault::FoundFault;
pub use readings::{CoilStanding, Finer, ReadingPoint, Readings};
pub use shape::{Described, Named, Shape, Shaped, Word, Words};
pub use wiring::{
    Act, Cup, Ends, Foretold, Imbalance, Joined, Parts, Run, Terminal, WireOfStage, Wiring,
};

use coilwright_solver::answer::{
    Answer as Found, Configuration as FoundConfiguration, LoadTally, Output as FoundOutput, Way,
};
use coilwright_solver::judge::{Basis, Overheats, Verdict};
use coilwright_solver::problem::{Code, Problem as FoundProblem};
use coilwright_words::english::problems::message;
use serde::Serialize;
use shape::{named, objects};

/// The version of the contract.
pub const CONTRACT_VERSION: u32 = 1;

named! {
    /// Whether an output may drive a load, from best to worst.
    Verdict: Fits, FitsByDerivation, NotStated, BelowStated, TooLow;
    /// Where a figure of available power comes from.
    Basis: Stated, Interpolated, Extrapolated, Range, Derived;
    /// Whether the amplifier can overheat a coil.
    Overheats: Cannot, IfClipped, AnyTime;
    /// How an output uses the amplifier's channels.
    Way: Apart, Bridged;
    /// The kinds of problem.
    Code as "ProblemCode": NotAnObject, Missing, UnknownField, WrongType, OutOfRange,
        NotANumberText, TooManyPlaces, NotOneOf, WrongLength, Repeated, NotPossibleHere,
        TooManyCoils, TooMany, TooMuchWork, TooExact, UnknownConfiguration,
        NotStarted, Closed, Defect;
}

objects! {
    /// Everything that was asked, or what stood in the way.
    Answer {
        /// The version of this contract.
        contract_version: u32,
        /// How many configurations pass the filters; null with any problem.
        total: Option<u64>,
        /// The count in decimal digits where there are too many to list and it is known.
        total_exact: Option<String>,
        /// How many there are with both filters off; null when more than 300000, or when the request could not be read.
        before_filters: Option<u64>,
        /// Every distinct load of an output, rising; never cut by the limit.
        loads: Vec<Load>,
        /// In rank order, cut by the limit.
        configurations: Vec<Configuration>,
        /// Everything wrong with the request; empty when it was answered.
        problems: Vec<Problem>,
    }
    /// A load that an output of some configuration has.
    Load {
        /// The load in ohms.
        ohms: f64,
        /// The load exactly, in lowest terms: p/q or p.
        exact: String,
        /// How many configurations have an output with it.
        configurations: u64,
        /// The best verdict it gets on any output.
        verdict: Word<Verdict>,
        /// Whether any of them is even.
        even: bool,
    }
    /// One distinct way to join all the coils to the amplifier's outputs.
    Configuration {
        /// 1, 2, 3 and so on, without gaps or ties.
        rank: u32,
        /// The networks in ASCII, outputs joined by a semicolon, each with its channels.
        key: String,
        /// The worst verdict of its outputs.
        verdict: Word<Verdict>,
        /// Whether every coil gets the same fraction of its rating.
        even: bool,
        /// Whether each driver's own coils are joined to each other first.
        joined_at_driver: bool,
        /// Its outputs. A driver that stands in two of them has its coils on two outputs: same signal, gains matched by meter, never one without the other.
        outputs: Vec<Output>,
        /// Each driver's fraction of the whole power, with the same voltage on every output.
        driver_shares: Vec<f64>,
        /// Each coil's fraction, driver by driver.
        coil_shares: Vec<f64>,
        /// Runs of wire without a box.
        runs: u32,
    }
    /// One output: a network on a channel, or on two channels bridged.
    Output {
        /// How it uses the channels; null without an amplifier.
        way: Option<Word<Way>>,
        /// The channels, counted from 1, those of several amplifiers numbered through; empty without an amplifier.
        channels: Vec<u32>,
        /// The network in its canonical writing.
        network: String,
        /// Its load in ohms.
        ohms: f64,
        /// The load exactly, in lowest terms: p/q or p.
        exact: String,
        /// Whether the output may drive it.
        verdict: Word<Verdict>,
        /// What the output can give into it; null without rated points or when too low.
        available_watts: Option<AvailablePower>,
        /// The most power before the first coil passes its rating; null where a rating is missing.
        usable_watts: Option<f64>,
        /// What it gives once the level is set; null unless available and usable are known.
        target_watts: Option<f64>,
        /// Whether the amplifier can overheat a coil; null when a figure is missing.
        overheats: Option<Word<Overheats>>,
    }
    /// What an output can give into a load, in watts.
    AvailablePower {
        /// What may be counted on.
        low: f64,
        /// What it might give.
        high: f64,
        /// Where the figures come from.
        basis: Word<Basis>,
    }
    /// One thing wrong with a request.
    Problem {
        /// Where it stands, as `drivers[0].ohms`; empty for the request itself.
        path: String,
        /// What kind it is.
        code: Word<Code>,
        /// One sentence or two in English: what is wrong and what to do.
        message: String,
    }
}

impl Answer {
    /// An answer that is nothing but problems.
    ///
    /// # Example
    /// ```
    /// use coilwright_module::answer::Answer;
    /// use coilwright_solver::problem::{Code, Detail, Path, Problem};
    /// let problem = Problem::new(Path::root(), Code::NotAnObject, Detail::None);
    /// let answer = Answer::of_problems(&[problem]);
    /// assert_eq!((answer.total, answer.problems.len()), (None, 1));
    /// ```
    #[must_use]
    pub fn of_problems(problems: &[FoundProblem]) -> Self {
        Self {
            contract_version: CONTRACT_VERSION,
            total: None,
            total_exact: None,
            before_filters: None,
            loads: Vec::new(),
            configurations: Vec::new(),
            problems: problems.iter().map(Problem::from).collect(),
        }
    }
}

impl Answer {
    /// An answer without its two lists, which can be long.
    pub(crate) fn head(found: &Found) -> Self {
        Self {
            contract_version: CONTRACT_VERSION,
            total: found.total,
            total_exact: found.total_exact.map(|count| count.to_string()),
            before_filters: found.before_filters,
            loads: Vec::new(),
            configurations: Vec::new(),
            problems: found.problems.iter().map(Into::into).collect(),
        }
    }
}

impl From<LoadTally> for Load {
    fn from(tally: LoadTally) -> Self {
        Self {
            ohms: tally.load.to_f64(),
            exact: tally.load.to_string(),
            configurations: tally.configurations,
            verdict: Word(tally.verdict),
            even: tally.even,
        }
    }
}

impl From<FoundConfiguration> for Configuration {
    fn from(found: FoundConfiguration) -> Self {
        Self {
            rank: found.rank,
            key: found.key(),
            verdict: Word(found.verdict),
            even: found.even,
            joined_at_driver: found.joined_at_driver,
            outputs: found.outputs.into_iter().map(Into::into).collect(),
            driver_shares: found.driver_shares,
            coil_shares: found.coil_shares,
            runs: found.runs,
        }
    }
}

impl From<FoundOutput> for Output {
    fn from(found: FoundOutput) -> Self {
        Self {
            way: found.way.map(Word),
            channels: found.channels,
            network: found.network.to_string(),
            ohms: found.load.to_f64(),
            exact: found.load.to_string(),
            verdict: Word(found.verdict),
            available_watts: found.available.map(|given| AvailablePower {
                low: given.low,
                high: given.high,
                basis: Word(given.basis),
            }),
            usable_watts: found.usable_watts,
            target_watts: found.target_watts,
            overheats: found.overheats.map(Word),
        }
    }
}

impl From<&FoundProblem> for Problem {
    fn from(found: &FoundProblem) -> Self {
        Self { path: found.path.to_string(), code: Word(found.code), message: message(found) }
    }
}
