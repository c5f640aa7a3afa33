//! How a configuration is wired, as the contract shows it.

mod wording;

pub(super) use wording::from_one;

use super::shape::{self, Described, Named, Shape, Shaped, Word, named, objects};
use super::{CONTRACT_VERSION, Problem};
use coilwright_solver::network::Coil;
use coilwright_solver::problem::Problem as FoundProblem;
use coilwright_solver::wiring::{Act as FoundAct, Post, Role, Sign, Site, Stage};
use serde::Serialize;

named! {
    /// What a conductor is one with: the amplifier's positive terminal, its negative one, or neither.
    Role: Positive, Negative, Between;
    /// When a run is placed.
    Stage: Coils, Drivers, Cups, Outside, Cable;
    /// The mark of a terminal.
    Sign: Plus, Minus;
}

impl Named for Post {
    const WORDS: shape::Words = shape::Words {
        name: "TerminalPlace",
        doc: "What a terminal is one of: a pair of the amplifier, a cup outside or inside the box, a splice, a coil.",
        words: &["amplifier", "cup", "cup_inside", "splice", "coil"],
    };
    fn name(self) -> &'static str {
        match self {
            Self::Amplifier { .. } => "amplifier",
            Self::CupOutside(_) => "cup",
            Self::CupInside(_) => "cup_inside",
            Self::Splice(_) => "splice",
            Self::Coil(_) => "coil",
        }
    }
}

impl Named for FoundAct {
    const WORDS: shape::Words = shape::Words {
        name: "ActKind",
        doc: "What is done in an act.",
        words: &[
            FoundAct::Coils { driver: 0 }.name(),
            FoundAct::Polarity { driver: 0 }.name(),
            FoundAct::Insulate { coil: Coil { driver: 0, coil: 0 } }.name(),
            FoundAct::Join { run: 0 }.name(),
            FoundAct::Lay { run: 0 }.name(),
            FoundAct::Leads.name(),
            "check",
            FoundAct::PowerOff.name(),
            FoundAct::Land { run: 0 }.name(),
            FoundAct::PowerOn.name(),
        ],
    };
    fn name(self) -> &'static str {
        FoundAct::name(self)
    }
}

impl Named for Site {
    const WORDS: shape::Words = shape::Words {
        name: "StepStage",
        doc: "The stage of the work that a step belongs to: at a driver by itself, where drivers are joined, at the cups, along the cable, at the amplifier.",
        words: &[
            Self::Driver(0).name(),
            Self::Together.name(),
            Self::Box.name(),
            Self::Cable.name(),
            Self::Amplifier.name(),
        ],
    };
    fn name(self) -> &'static str {
        Self::name(self)
    }
}

objects! {
    /// How one configuration is wired, or what stood in the way.
    Wiring {
        /// The version of this contract.
        contract_version: u32,
        /// The key of the configuration in its canonical writing; null with any problem.
        key: Option<String>,
        /// Whether something is joined at tied terminal pairs of the amplifier rather than at the box, which is equal.
        joined_at_amplifier: bool,
        /// Whether a star was asked for and some terminal takes too few conductors for it.
        star_refused: bool,
        /// How unequally the resistance of the wire feeds the drivers; null for one driver on each output.
        imbalance: Option<Imbalance>,
        /// The terminal cups.
        cups: Vec<Cup>,
        /// Terminals that runs make one; inside and outside of a cup stand apart.
        joined: Vec<Joined>,
        /// The runs of wire, in the order in which they are placed.
        runs: Vec<Run>,
        /// What is done, one thing after the other.
        steps: Vec<Step>,
        /// What is to be bought; null with any problem.
        parts: Option<Parts>,
        /// The drawing as the text of an SVG file, which changes nothing of a page that it is set into; null where there is none.
        drawing: Option<String>,
        /// Everything wrong with the request and the key; empty when it was answered.
        problems: Vec<Problem>,
    }
    /// The drivers that get most and least of what they would without resistance in the wire.
    Imbalance {
        /// The power of the least over that of the most.
        ratio: f64,
        /// The same in decibels, not negative.
        decibels: f64,
        /// The driver that gets least, counted from 1.
        least_driver: u32,
    }
    /// A terminal cup.
    Cup {
        /// Its number, counted from 1.
        number: u32,
        /// The coils behind it.
        coils: Vec<String>,
    }
    /// Terminals that are joined to be one.
    Joined {
        /// What they are one with.
        role: Word<Role>,
        /// The output they belong to, counted from 1 in the order of the key.
        output: u32,
        /// The terminals; what feeds the others stands first.
        terminals: Vec<Terminal>,
    }
    /// A terminal.
    Terminal {
        /// What it is one of.
        at: Word<Post>,
        /// Its number, counted from 1: of the output, cup, splice, or driver.
        number: u32,
        /// Of the amplifier: which of the tied pairs of the output, counted from 1; else null.
        pair: Option<u32>,
        /// Of a coil: its name; else null.
        coil: Option<String>,
        /// Its mark; null for a splice.
        sign: Option<Word<Sign>>,
    }
    /// One piece of wire.
    Run {
        /// Its number, counted from 1.
        number: u32,
        /// The end nearer to what feeds it.
        from: Terminal,
        /// The other end.
        to: Terminal,
        /// What it is one with.
        role: Word<Role>,
        /// When it is placed.
        stage: Word<Stage>,
        /// The output it belongs to, counted from 1 in the order of the key.
        output: u32,
        /// Its length in metres.
        metres: f64,
        /// Its current at target power in amperes; null where that is not known.
        amps: Option<f64>,
        /// Its current in amperes at the most that the amplifier may give, which sizes it; null where that is not known.
        most_amps: Option<f64>,
    }
    /// One step of the work: what hands do in one go.
    Step {
        /// Its number, counted from 1.
        number: u32,
        /// The stage of the work that it belongs to.
        stage: Word<Site>,
        /// Of a driver by itself: the driver, counted from 1; else null.
        driver: Option<u32>,
        /// The runs that it places, counted from 1: two at most, between the same two places.
        runs: Vec<u32>,
        /// A short heading in English.
        title: String,
        /// What is done, in short, in English.
        text: String,
        /// What can hurt at it, in English; null where nothing is said.
        caution: Option<String>,
        /// Its acts, one after the other.
        acts: Vec<Act>,
    }
    /// One act: the smallest part of the work that can be done or read.
    Act {
        /// Its number among all acts, counted from 1. Check points are named by it.
        number: u32,
        /// What is done.
        kind: Word<FoundAct>,
        /// The run that it places, counted from 1; else null.
        run: Option<u32>,
        /// Of the coils and the polarity of a driver, and of a coil left out: the driver, counted from 1; else null.
        driver: Option<u32>,
        /// Of a coil left out: its name; else null.
        coil: Option<String>,
        /// Of a reading: the stage that it closes; of a run: its stage; else null.
        stage: Option<Word<Stage>>,
        /// Of a reading: where the + probe and the − probe go. Of a cable, whose ends are not landed yet: the terminals that they are meant for. Else null.
        probes: Option<Vec<Terminal>>,
        /// Of a reading: how many loose ends are held together at each probe; else null.
        ends: Option<u32>,
        /// Of a reading: what the meter should show; else null.
        foretold: Option<Foretold>,
        /// A short heading in English.
        title: String,
        /// What is done, in English.
        text: String,
        /// What can hurt at it, in English; null where nothing is said.
        caution: Option<String>,
    }
    /// What the meter should show, in ohms.
    Foretold {
        /// Between the probes by nominal impedances, without leads.
        nominal: f64,
        /// What is likely read, leads included.
        expected: f64,
        /// The least that a sound rig reads.
        low: f64,
        /// The most.
        high: f64,
    }
    /// What is to be bought.
    Parts {
        /// Wire, stage by stage.
        wire: Vec<WireOfStage>,
        /// Terminal cups.
        cups: u32,
        /// Splices: the conductors that each joins.
        splices: Vec<u32>,
        /// Conductor ends.
        ends: Ends,
        /// Caps for the ends of coils that are left out.
        caps: u32,
    }
    /// The runs of one stage.
    WireOfStage {
        /// The stage.
        stage: Word<Stage>,
        /// How many runs.
        runs: u32,
        /// The length of their conductor together, in metres.
        metres: f64,
        /// The largest current of any in amperes at the most that the amplifier may give; null where one is not known.
        amps: Option<f64>,
    }
    /// Conductor ends, by where they go.
    Ends {
        /// At drivers.
        driver: u32,
        /// At cups, on either side.
        cup: u32,
        /// At the amplifier.
        amplifier: u32,
    }
}

impl Wiring {
    /// An answer that is nothing but problems.
    ///
    /// # Example
    /// ```
    /// use coilwright_module::answer::Wiring;
    /// use coilwright_solver::problem::{Code, Detail, Path, Problem};
    /// let problem = Problem::new(Path::root(), Code::NotAnObject, Detail::None);
    /// let wiring = Wiring::of_problems(&[problem]);
    /// assert_eq!((wiring.key, wiring.problems.len()), (None, 1));
    /// ```
    #[must_use]
    pub fn of_problems(problems: &[FoundProblem]) -> Self {
        Self {
            contract_version: CONTRACT_VERSION,
            key: None,
            joined_at_amplifier: false,
            star_refused: false,
            imbalance: None,
            cups: Vec::new(),
            joined: Vec::new(),
            runs: Vec::new(),
            steps: Vec::new(),
            parts: None,
            drawing: None,
            problems: problems.iter().map(Problem::from).collect(),
        }
    }
}
