//! The order of the work: what is placed and what is proved, one act after the other.
//!
//! Coils of a driver before drivers, drivers before cups, and the amplifier's end of every
//! cable last, with the power off; the power comes on last of all.

use super::sets::Set;
use super::{Post, Role, Run, Sign, Stage, Terminal};
use crate::network::Coil;
use crate::rig::Rig;
use crate::short;

/// One act: the smallest part of the work that can be done or read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Act {
    /// Every coil of a driver, counted from 0, is read alone.
    Coils {
        /// The driver.
        driver: u8,
    },
    /// The polarity of every coil of a driver, counted from 0, is checked.
    Polarity {
        /// The driver.
        driver: u8,
    },
    /// The ends of a coil left out on purpose are insulated.
    Insulate {
        /// The coil.
        coil: Coil,
    },
    /// A run is joined at both ends.
    Join {
        /// The number of the run, counted from 0.
        run: u16,
    },
    /// A run to the amplifier is joined at its far end only; the amplifier's end stays
    /// insulated.
    Lay {
        /// The number of the run, counted from 0.
        run: u16,
    },
    /// The probes are touched together: what they read is in every reading after it.
    Leads,
    /// A reading is taken.
    Check(Check),
    /// The amplifier's power is taken off: fuse or battery in a vehicle, else the mains.
    PowerOff,
    /// The amplifier's end of a run is joined.
    Land {
        /// The number of the run, counted from 0.
        run: u16,
    },
    /// The power comes on, once every reading agrees.
    PowerOn,
}

impl Act {
    /// The run that it places.
    #[must_use]
    pub const fn run(self) -> Option<usize> {
        match self {
            Self::Join { run } | Self::Lay { run } | Self::Land { run } => Some(run as usize),
            _ => None,
        }
    }

    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Coils { .. } => "coils",
            Self::Polarity { .. } => "polarity",
            Self::Insulate { .. } => "insulate",
            Self::Join { .. } => "join",
            Self::Lay { .. } => "lay",
            Self::Leads => "leads",
            Self::Check(_) => "check",
            Self::PowerOff => "power_off",
            Self::Land { .. } => "land",
            Self::PowerOn => "power_on",
        }
    }
}

/// Where a reading is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Check {
    /// The stage that it closes. Of a cable it is taken at the amplifier's end, not landed.
    pub stage: Stage,
    /// Where the probes go: of a cable, the terminals that its ends are meant for.
    pub plus: Terminal,
    /// The other one.
    pub minus: Terminal,
    /// How many loose ends are held together on each side.
    pub ends: u8,
    /// Whether these are the ends of the cables of all tied pairs of an output, which are
    /// held together by hand: once landed, each would be read through the amplifier.
    pub tied: bool,
}

impl Check {
    /// A reading between two terminals, one end on each side.
    const fn at(stage: Stage, plus: Terminal, minus: Terminal) -> Self {
        Self { stage, plus, minus, ends: 1, tied: false }
    }
}

/// Runs in their order, and the acts.
pub(super) struct Placed {
    pub(super) runs: Vec<Run>,
    pub(super) acts: Vec<Act>,
}

/// Puts runs in order and says what is done.
pub(super) fn order(rig: &Rig, sets: &[Set], mut runs: Vec<Run>, open: &[Coil]) -> Placed {
    short::insertion_sort(&mut runs, |a, b| key(a).cmp(&key(b)));
    // Leads are read before anything is.
    let mut writer = Writer { sets, runs: &runs, acts: vec![Act::Leads] };
    for driver in rig.driver_numbers() {
        writer.acts.push(Act::Coils { driver });
        writer.acts.push(Act::Polarity { driver });
        for coil in open.iter().filter(|coil| coil.driver == driver) {
            writer.acts.push(Act::Insulate { coil: *coil });
        }
        let of_driver = |run: &Run| {
            let at = |terminal: Terminal| matches!(terminal.post, Post::Coil(coil) if coil.driver == driver);
            run.stage == Stage::Coils && (at(run.from) || at(run.to))
        };
        if writer.join(of_driver) {
            writer.check_driver(driver);
        }
    }
    let sources = writer.sources();
    if writer.join(|run| run.stage == Stage::Drivers) {
        for (plus, minus) in &sources {
            if writer.joins_drivers(*plus, *minus) {
                writer.check_ends(Stage::Drivers, *plus, *minus);
            }
        }
    }
    if writer.join(|run| run.stage == Stage::Cups) {
        for (plus, minus) in &sources {
            if let (Post::CupInside(cup), Post::CupInside(_)) = (plus.post, minus.post) {
                let outside = |sign| Terminal { post: Post::CupOutside(cup), sign };
                let (plus, minus) = (outside(plus.sign), outside(minus.sign));
                writer.acts.push(Act::Check(Check::at(Stage::Cups, plus, minus)));
            }
        }
    }
    let of_amplifier =
        |source: &&(Terminal, Terminal)| matches!(source.0.post, Post::Amplifier { .. });
    if writer.join(|run| run.stage == Stage::Outside) {
        for (plus, minus) in sources.iter().filter(of_amplifier) {
            writer.check_ends(Stage::Outside, *plus, *minus);
        }
    }
    let cables: Vec<u16> = numbers(&runs, |run| run.stage == Stage::Cable);
    writer.acts.extend(cables.iter().map(|run| Act::Lay { run: *run }));
    let ends = |terminal: Terminal| {
        let ends = runs.iter().filter(|run| run.from == terminal);
        ends.fold(0_u8, |sum, _| sum.saturating_add(1))
    };
    // Each cable alone; those of tied pairs are read together after the last of an output.
    let mut of_output: Option<Check> = None;
    let mut pairs = sources.iter().filter(of_amplifier).peekable();
    while let Some((plus, minus)) = pairs.next() {
        let check =
            Check { ends: ends(*plus).max(ends(*minus)), ..Check::at(Stage::Cable, *plus, *minus) };
        writer.acts.push(Act::Check(check));
        let all = match of_output {
            None => check,
            Some(first) => {
                Check { ends: first.ends.saturating_add(check.ends), tied: true, ..first }
            }
        };
        let goes_on = pairs.peek().is_some_and(|(next, _)| output(*next) == output(*plus));
        of_output = Some(all).filter(|_| goes_on);
        if all.tied && !goes_on {
            writer.acts.push(Act::Check(all));
        }
    }
    writer.acts.push(Act::PowerOff);
    writer.acts.extend(cables.iter().map(|run| Act::Land { run: *run }));
    writer.acts.push(Act::PowerOn);
    let acts = writer.acts;
    Placed { runs, acts }
}

/// What the order of the runs follows: within a stage, the order of the column, and + and
/// − of one joint together.
fn key(run: &Run) -> (Stage, u8, Post, Role, Terminal, Terminal) {
    let first = match run.stage {
        Stage::Cups | Stage::Cable => run.from.post,
        _ => run.to.post,
    };
    (run.stage, run.output, first, run.role, run.from, run.to)
}

/// The output of a terminal of the amplifier.
fn output(terminal: Terminal) -> Option<u8> {
    match terminal.post {
        Post::Amplifier { output, .. } => Some(output),
        _ => None,
    }
}

fn numbers(runs: &[Run], wanted: impl Fn(&Run) -> bool) -> Vec<u16> {
    let wanted = |(number, run): (u16, &Run)| wanted(run).then_some(number);
    (0_u16..).zip(runs).filter_map(wanted).collect()
}

struct Writer<'a> {
    sets: &'a [Set],
    runs: &'a [Run],
    acts: Vec<Act>,
}

impl Writer<'_> {
    /// Joins the runs that are wanted; whether there are any.
    fn join(&mut self, wanted: impl Fn(&Run) -> bool) -> bool {
        let numbers = numbers(self.runs, wanted);
        self.acts.extend(numbers.iter().map(|run| Act::Join { run: *run }));
        !numbers.is_empty()
    }

    /// What feeds something, + and −: every cup from its inside, then every pair of the
    /// amplifier.
    fn sources(&self) -> Vec<(Terminal, Terminal)> {
        let mut sources = Vec::new();
        for set in self.sets {
            for source in set.sources.iter().filter(|source| source.sign == Sign::Plus) {
                sources.push((*source, Terminal { sign: Sign::Minus, ..*source }));
            }
        }
        let place = |(plus, _): &(Terminal, Terminal)| match plus.post {
            Post::CupInside(cup) => (0, cup, 0),
            Post::Amplifier { output, pair } => (1, output, pair),
            _ => (2, 0, 0),
        };
        short::insertion_sort(&mut sources, |a, b| place(a).cmp(&place(b)));
        sources
    }

    /// A reading at a driver whose coils are joined to each other as one pair.
    fn check_driver(&mut self, driver: u8) {
        let mut ends: Vec<(Sign, Terminal)> = Vec::new();
        for set in self.sets {
            let own = |terminal: Terminal| matches!(terminal.post, Post::Coil(coil) if coil.driver == driver);
            let mine: Vec<_> = set.members.iter().filter(|one| own(one.terminal)).collect();
            let Some(first) = mine.first() else { continue };
            if mine.len() == set.members.len() && set.sources.is_empty() {
                continue;
            }
            // Joined to each other already, and all at the same end of the driver.
            let joined = |run: &&Run| {
                run.stage == Stage::Coils
                    && mine.iter().any(|one| one.terminal == run.from)
                    && mine.iter().any(|one| one.terminal == run.to)
            };
            let together = self.runs.iter().filter(joined).count();
            if together.saturating_add(1) != mine.len()
                || mine.iter().any(|one| one.end != first.end)
            {
                return;
            }
            ends.push((first.end, first.terminal));
        }
        short::insertion_sort(&mut ends, |a, b| a.0.cmp(&b.0));
        if let [(Sign::Plus, plus), (Sign::Minus, minus)] = ends.as_slice() {
            let (plus, minus) = (*plus, *minus);
            self.acts.push(Act::Check(Check {
                stage: Stage::Coils,
                plus,
                minus,
                ends: 1,
                tied: false,
            }));
        }
    }

    /// The one terminal that a source feeds, where it is one.
    fn fed(&self, source: Terminal) -> Option<Terminal> {
        let mut fed = self.runs.iter().filter(|run| run.from == source);
        let only = fed.next()?;
        fed.next().is_none().then_some(only.to)
    }

    /// Whether runs join drivers of what a source feeds.
    fn joins_drivers(&self, plus: Terminal, minus: Terminal) -> bool {
        let end = |source| self.fed(source).map(|terminal| terminal.post);
        let (Some(a), Some(b)) = (end(plus), end(minus)) else { return false };
        let reached = |post: Post| {
            let joins = |run: &&Run| run.from.post == post || run.to.post == post;
            self.runs.iter().filter(joins).any(|run| run.stage == Stage::Drivers)
        };
        a.driver() != b.driver() || reached(a) || reached(b)
    }

    /// A reading at the ends that a source is to feed, where each is one.
    fn check_ends(&mut self, stage: Stage, plus: Terminal, minus: Terminal) {
        if let (Some(plus), Some(minus)) = (self.fed(plus), self.fed(minus)) {
            self.acts.push(Act::Check(Check::at(stage, plus, minus)));
        }
    }
}
