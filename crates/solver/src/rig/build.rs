//! How the box is built and how it is to be wired: what a plan needs beside the rig.

use super::{Amplifier, Rig};
use crate::bounds::{Default as Standard, Field};
use crate::problem::{Code, Detail, Path, Problem, Why};
use crate::short;

/// What has a terminal cup of its own. A cup is one pair of terminals: one that would
/// serve two outputs is refused, whatever it is for. Cups are numbered by the first driver
/// that they serve.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Cups {
    /// There is no cup: wires go to the drivers.
    #[default]
    None,
    /// One cup for all drivers.
    One,
    /// A cup for each group of drivers: so many cups, to which the drivers go in their
    /// order, the first cups taking one more; without a count, the groups of the rig.
    Group(Option<u32>),
    /// A cup for each driver.
    Driver,
    /// A cup for each coil.
    Coil,
}

impl Cups {
    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::One => "one",
            Self::Group(_) => "group",
            Self::Driver => "driver",
            Self::Coil => "coil",
        }
    }

    /// The one of a name in the contract; a count comes beside it.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        let all = [Self::None, Self::One, Self::Group(None), Self::Driver, Self::Coil];
        all.into_iter().find(|cups| cups.name() == name)
    }
}

/// Where what comes from separate cups is joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JoinedAt {
    /// At tied terminal pairs of the amplifier.
    Amplifier,
    /// At the box.
    Box,
}

impl JoinedAt {
    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Amplifier => "amplifier",
            Self::Box => "box",
        }
    }

    /// The one of a name in the contract.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        [Self::Amplifier, Self::Box].into_iter().find(|at| at.name() == name)
    }
}

/// How the drivers of a joined set are fed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Fed {
    /// One from the next.
    #[default]
    Chain,
    /// Each from the same point, where its terminal takes the conductors.
    Star,
}

impl Fed {
    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Chain => "chain",
            Self::Star => "star",
        }
    }

    /// The one of a name in the contract.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        [Self::Chain, Self::Star].into_iter().find(|fed| fed.name() == name)
    }
}

/// What a terminal takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Takes {
    /// Conductors, at most.
    pub conductors: u32,
    /// The largest conductor in mm², where stated.
    pub largest_mm2: Option<f64>,
}

impl Takes {
    /// A terminal of which nothing is stated.
    pub const USUAL: Self = Self { conductors: 2, largest_mm2: None };
}

/// What a terminal takes, as read so far.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct TakesDraft {
    /// Conductors; two if left out, one on a push-on tab.
    pub conductors: Option<u32>,
    /// Whether it is a push-on tab.
    pub push_on: bool,
    /// The largest conductor in mm².
    pub largest_mm2: Option<f64>,
}

/// How the box is built, as read so far; what is left out is as usual.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BuildDraft {
    /// What has a cup of its own.
    pub cups: Cups,
    /// How many, where drivers go to them in groups.
    pub cup_count: Option<u32>,
    /// Where separate cups are joined.
    pub joined_at: Option<JoinedAt>,
    /// How drivers are fed.
    pub fed: Fed,
    /// The drivers mounted facing in, counted from 1.
    pub mounted_reversed: Vec<u32>,
    /// Whether no vehicle's battery feeds the amplifier.
    pub not_in_vehicle: bool,
    /// Area of a conductor in mm².
    pub conductor_mm2: Option<f64>,
    /// Distances in metres, as in [`Build`].
    pub metres: [Option<f64>; 5],
    /// What terminals take: of a driver, of a cup, of the amplifier.
    pub takes: [TakesDraft; 3],
}

/// The fields of the distances, in their order.
pub const DISTANCES: [Field; 5] = [
    Field::BetweenCoils,
    Field::BetweenDrivers,
    Field::ToCup,
    Field::BetweenCups,
    Field::ToAmplifier,
];

/// The fields of what terminals take, in their order.
pub const TERMINALS: [Field; 3] =
    [Field::DriverTerminals, Field::CupTerminals, Field::AmplifierTerminals];

/// How the box is built, checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Build {
    /// What has a cup of its own.
    pub cups: Cups,
    /// Where separate cups are joined; `None`: at the amplifier where it can be.
    pub joined_at: Option<JoinedAt>,
    /// How drivers are fed.
    pub fed: Fed,
    /// The drivers mounted facing in, counted from 0, rising.
    pub mounted_reversed: Vec<u8>,
    /// Whether a vehicle's battery feeds the amplifier.
    pub vehicle: bool,
    /// Area of a conductor in mm².
    pub conductor_mm2: f64,
    /// Distances in metres: between the coils of a driver, between neighbouring drivers,
    /// to the cup, between neighbouring cups, to the amplifier.
    pub metres: [f64; 5],
    /// What terminals take: of a driver, of a cup on each side, of the amplifier.
    pub takes: [Takes; 3],
}

impl Default for Build {
    /// No box, everything as usual.
    fn default() -> Self {
        Self {
            cups: Cups::None,
            joined_at: None,
            fed: Fed::Chain,
            mounted_reversed: Vec::new(),
            vehicle: true,
            conductor_mm2: usual(Field::ConductorArea),
            metres: DISTANCES.map(usual),
            takes: [Takes::USUAL; 3],
        }
    }
}

/// What a field of numbers has where nothing is stated.
fn usual(field: Field) -> f64 {
    match field.spec().default {
        Standard::Hundredths(hundredths) => f64::from(hundredths) / 100.0,
        _ => 0.0,
    }
}

impl BuildDraft {
    /// Checks what only shows beside the rig and makes the build.
    ///
    /// # Errors
    /// Every problem found here.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{bounds::Field, rig::*};
    /// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// let three = BuildDraft { cups: Cups::Group(None), cup_count: Some(3), ..Default::default() };
    /// assert_eq!(three.check(&rig).unwrap_err()[0].path.as_str(), "box.cup_count");
    /// let one = BuildDraft { cups: Cups::One, ..Default::default() };
    /// assert_eq!(one.check(&rig).unwrap().conductor_mm2, 2.5);
    /// ```
    pub fn check(&self, rig: &Rig) -> Result<Build, Vec<Problem>> {
        let mut problems = Vec::new();
        let mut tell = |path: Path, why| {
            problems.push(Problem::new(path, Code::NotPossibleHere, Detail::Why(why)));
        };
        let drivers = rig.drivers();
        let cups = match (self.cups, self.cup_count) {
            (Cups::Group(_), count) => {
                if let Some(cups) = count.filter(|count| *count > drivers) {
                    tell(path(Field::CupCount), Why::MoreCups { cups, drivers });
                }
                Cups::Group(count)
            }
            (cups, None) => cups,
            (cups, Some(_)) => {
                tell(path(Field::CupCount), Why::CupsNotCounted);
                cups
            }
        };
        if self.joined_at == Some(JoinedAt::Amplifier) && !has_tied_pairs(rig) {
            tell(path(Field::JoinedAt), Why::NoTiedPairs);
        }
        let mut reversed = Vec::new();
        for (i, driver) in self.mounted_reversed.iter().enumerate() {
            match driver.checked_sub(1).and_then(|driver| u8::try_from(driver).ok()) {
                Some(number) if *driver <= drivers => reversed.push(number),
                _ => {
                    let why = Why::NoSuchDriver { driver: *driver, drivers };
                    tell(path(Field::MountedReversed).entry(i), why);
                }
            }
        }
        short::insertion_sort(&mut reversed, u8::cmp);
        reversed.dedup();
        let area = self.conductor_mm2.unwrap_or_else(|| usual(Field::ConductorArea));
        let mut takes = [Takes::USUAL; 3];
        for ((takes, draft), field) in takes.iter_mut().zip(&self.takes).zip(TERMINALS) {
            let conductors = draft.conductors;
            if draft.push_on && conductors.is_some_and(|conductors| conductors > 1) {
                let path = path(field).field(Field::Conductors.spec().name);
                tell(path, Why::TabTakesOne);
            }
            if draft.largest_mm2.is_some_and(|largest| largest < area) {
                let path = path(field).field(Field::LargestArea.spec().name);
                tell(path, Why::ConductorTooLarge);
            }
            let most = if draft.push_on { 1 } else { conductors.unwrap_or(takes.conductors) };
            *takes = Takes { conductors: most, largest_mm2: draft.largest_mm2 };
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        let mut metres = DISTANCES.map(usual);
        for (metres, stated) in metres.iter_mut().zip(self.metres) {
            *metres = stated.unwrap_or(*metres);
        }
        Ok(Build {
            cups,
            joined_at: self.joined_at,
            fed: self.fed,
            mounted_reversed: reversed,
            vehicle: !self.not_in_vehicle,
            conductor_mm2: area,
            metres,
            takes,
        })
    }
}

/// Where a field of the box stands in a request.
pub(crate) fn path(field: Field) -> Path {
    Path::root().field(Field::Build.spec().name).field(field.spec().name)
}

fn has_tied_pairs(rig: &Rig) -> bool {
    let tied = |amplifier: &Amplifier| amplifier.channels.iter().any(|one| one.terminal_pairs > 1);
    rig.amplifier().is_some_and(tied)
}
