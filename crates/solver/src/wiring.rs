//! From a configuration and how the box is built to terminals, joined sets of terminals,
//! and the runs of wire that join them, in the order in which they are placed.
//!
//! A *run* is one piece of wire between two terminals. Everything stands in one column of
//! drivers, counted down, with the cup or the amplifier that feeds a set no lower than
//! the first of what it feeds; so a chain in the order of the column is the shortest.
//! Currents are those at target power and those at the upper end of what the amplifier
//! might give, which size the conductor; the wire is taken to have no resistance, but for
//! the imbalance.

mod acts;
mod amps;
mod balance;
pub(crate) mod circuit;
mod currents;
mod laid;
mod parts;
mod sets;
mod steps;
mod trees;

use crate::answer::{Configuration, Output};
use crate::bounds::Field;
use crate::count::{index, tally};
use crate::defect::Defect;
use crate::network::{Coil, spans};
use crate::problem::{Code, Detail, Problem, Why};
use crate::rig::{Build, JoinedAt, Rig, path};
use crate::short;
pub use acts::{Act, Check};
pub use balance::{Imbalance, Size};
pub use parts::{Lot, Parts};
pub use steps::{Site, Step};

/// The mark of a terminal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sign {
    /// +
    Plus,
    /// −
    Minus,
}

impl Sign {
    /// The other one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Plus => Self::Minus,
            Self::Minus => Self::Plus,
        }
    }

    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Plus => "+",
            Self::Minus => "-",
        }
    }
}

/// What a terminal is one of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Post {
    /// A pair of terminals of the amplifier. The pairs of an output are tied inside.
    Amplifier {
        /// The output, counted from 0 in the order of the configuration.
        output: u8,
        /// The pair on it, counted from 0.
        pair: u8,
    },
    /// A cup, on the outside of the box; one with its inside.
    CupOutside(u8),
    /// A cup, on the inside of the box.
    CupInside(u8),
    /// A splice of its own, where terminals take too few conductors. It has no sign; its
    /// terminal is called plus.
    Splice(u8),
    /// A coil of a driver.
    Coil(Coil),
}

impl Post {
    /// The driver, counted from 0, that it is of.
    #[must_use]
    pub const fn driver(self) -> Option<u8> {
        match self {
            Self::Coil(coil) => Some(coil.driver),
            _ => None,
        }
    }

    /// Its + and its −.
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::wiring::{Post, Sign};
    /// let [plus, minus] = Post::CupInside(0).ends();
    /// assert_eq!((plus.sign, minus.sign), (Sign::Plus, Sign::Minus));
    /// ```
    #[must_use]
    pub fn ends(self) -> [Terminal; 2] {
        [Sign::Plus, Sign::Minus].map(|sign| Terminal { post: self, sign })
    }
}

/// A terminal: what it is one of, and its mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Terminal {
    /// What it is one of.
    pub post: Post,
    /// Its mark.
    pub sign: Sign,
}

/// What a conductor is one with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// The amplifier's positive terminal.
    Positive,
    /// The amplifier's negative terminal.
    Negative,
    /// Neither: between parts in series.
    Between,
}

impl Role {
    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Positive => "positive",
            Self::Negative => "negative",
            Self::Between => "between",
        }
    }
}

/// When a run is placed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    /// The coils of a driver are joined.
    Coils,
    /// Drivers are joined.
    Drivers,
    /// Drivers are led to their cup.
    Cups,
    /// Cups are joined outside the box.
    Outside,
    /// The amplifier is reached.
    Cable,
}

impl Stage {
    /// Every stage in the order of the work.
    pub const ALL: [Self; 5] = [Self::Coils, Self::Drivers, Self::Cups, Self::Outside, Self::Cable];

    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Coils => "coils",
            Self::Drivers => "drivers",
            Self::Cups => "cups",
            Self::Outside => "outside",
            Self::Cable => "cable",
        }
    }
}

/// One piece of wire.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// The end nearer to what feeds it: a cable's is the amplifier.
    pub from: Terminal,
    /// The other end.
    pub to: Terminal,
    /// What it is one with.
    pub role: Role,
    /// When it is placed.
    pub stage: Stage,
    /// The output it belongs to, counted from 0.
    pub output: u8,
    /// Its length.
    pub metres: f64,
    /// Its current at target power, where that is known.
    pub amps: Option<f64>,
    /// Its current where the amplifier gives the most that it might, known or not what the
    /// coils take: what the conductor must carry before the level is set.
    pub most_amps: Option<f64>,
}

/// Terminals that are joined by runs to be one.
#[derive(Clone, Debug, PartialEq)]
pub struct Joined {
    /// What they are one with.
    pub role: Role,
    /// The output they belong to, counted from 0.
    pub output: u8,
    /// The terminals; what feeds the others stands first.
    pub terminals: Vec<Terminal>,
}

/// How a configuration is wired.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Terminals to be joined: inside and outside of a cup stand in sets of their own.
    pub joined: Vec<Joined>,
    /// The runs, in the order in which they are placed.
    pub runs: Vec<Run>,
    /// What is done, one act after the other.
    pub acts: Vec<Act>,
    /// The same as hands do it: acts that follow each other, taken together.
    pub steps: Vec<Step>,
    /// Parts of the networks that no coil spans: the coils where current goes in and where
    /// it comes out.
    pub spans: Vec<(Coil, Coil)>,
    /// The coils at each cup.
    pub cups: Vec<Vec<Coil>>,
    /// Coils left out on purpose.
    pub open: Vec<Coil>,
    /// Drivers mounted facing in, counted from 0.
    pub mounted_reversed: Vec<u8>,
    /// The terminal pairs in use on each output.
    pub pairs: Vec<u8>,
    /// Whether something is joined at tied pairs of the amplifier rather than at the box,
    /// which is equal.
    pub joined_at_amplifier: bool,
    /// Whether a star was asked for and some terminal takes too few conductors for it.
    pub star_refused: bool,
    /// How unequally the resistance of the wire feeds the drivers; `None` for one driver.
    pub imbalance: Option<Imbalance>,
    /// What is to be bought.
    pub parts: Parts,
}

impl Plan {
    /// How a configuration of a rig is wired.
    ///
    /// # Errors
    /// [`Code::NotPossibleHere`] where the box does not allow this configuration.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::one, bounds::Field, rig::*};
    /// use coilwright_solver::wiring::Plan;
    /// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// let build = Build { cups: Cups::One, ..Build::default() };
    /// let parallel = one(&rig, "1a||2a").unwrap();
    /// let plan = Plan::of(&rig, &build, &parallel).unwrap();
    /// assert_eq!(plan.runs.len(), 6); // four inside the box, two to the amplifier
    /// ```
    pub fn of(rig: &Rig, build: &Build, configuration: &Configuration) -> Result<Self, Problem> {
        let refused =
            |(field, why)| Problem::new(path(field), Code::NotPossibleHere, Detail::Why(why));
        let coils = |output: &Output| output.network.coils();
        if configuration.outputs.iter().flat_map(coils).any(|of| rig.group_of(of.driver).is_none())
        {
            return Err(Defect::Coil.into());
        }
        let mut cups = Vec::new();
        for output in &configuration.outputs {
            cups.extend(laid::units(rig, build, output).map_err(refused)?);
        }
        // In the order of the column, whatever output they serve: the first is nearest to
        // driver 1.
        short::insertion_sort(&mut cups, |a, b| a.first().cmp(&b.first()));
        let mut sets = Vec::new();
        let mut pairs = Vec::new();
        for (number, output) in (0_u8..).zip(&configuration.outputs) {
            let laid = laid::laid(&output.network, &cups)
                .map_err(|driver| refused((Field::Cups, Why::CupNotWhole { driver })))?;
            let tied = tied_pairs(rig, output)?;
            let halves = if build.joined_at == Some(JoinedAt::Box) {
                1
            } else {
                // As many as there are branches to hang on them.
                (0..tied).take(laid.branches()).fold(0_u8, |sum, _| sum.saturating_add(1))
            };
            pairs.push(halves);
            sets::lay(build, number, &laid, halves, &mut sets);
        }
        let joined_at_amplifier = pairs.iter().any(|pairs| *pairs > 1);
        if build.joined_at == Some(JoinedAt::Amplifier) && !joined_at_amplifier {
            return Err(refused((Field::JoinedAt, Why::NotJoinedThere)));
        }
        currents::flow(rig, configuration, &mut sets);
        let grown = trees::grow(build, &sets);
        let open = open(rig);
        let placed = acts::order(rig, &sets, grown.runs, &open);
        let imbalance = balance::imbalance(rig, build, configuration, &placed.runs)?;
        let parts = parts::parts(&placed.runs, tally(cups.iter()), &open);
        let mut between = Vec::new();
        for output in &configuration.outputs {
            spans(&output.network, &mut between);
        }
        Ok(Self {
            spans: between,
            joined: sets.into_iter().map(sets::Set::told).collect(),
            steps: steps::steps(&placed.acts, &placed.runs),
            runs: placed.runs,
            acts: placed.acts,
            cups,
            open,
            mounted_reversed: build.mounted_reversed.clone(),
            pairs,
            joined_at_amplifier,
            star_refused: grown.star_refused,
            imbalance,
            parts,
        })
    }
}

/// Terminal pairs of an output, tied inside: of a bridge as many as both channels have.
fn tied_pairs(rig: &Rig, output: &Output) -> Result<u8, Defect> {
    let Some(amplifier) = rig.amplifier() else { return Ok(1) };
    let pairs = |channel: &u32| {
        let at = index(channel.checked_sub(1)?);
        let channel = amplifier.channels.get(at.checked_rem(amplifier.channels.len())?)?;
        u8::try_from(channel.terminal_pairs).ok()
    };
    let all: Option<Vec<u8>> = output.channels.iter().map(pairs).collect();
    all.and_then(|all| all.into_iter().min()).ok_or(Defect::Channels)
}

/// Every coil left out on purpose.
fn open(rig: &Rig) -> Vec<Coil> {
    let mut open = Vec::new();
    for (group, drivers) in rig.groups().iter().zip(rig.drivers_of_groups()) {
        for driver in drivers {
            // Those in use have the first letters.
            let all = (0_u8..).take(index(group.coils_on_each()));
            open.extend(all.skip(index(group.coils)).map(|coil| Coil { driver, coil }));
        }
    }
    open
}
