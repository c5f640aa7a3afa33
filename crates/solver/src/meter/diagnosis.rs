//! What is asked of a meter's readings, and what they say.

use super::Agreement;
use super::faults::Fault;
use super::otherwise::Other;
use super::points::Point;
use crate::defect::Defect;

/// An easy cause, asked in words before anything is measured again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// Is every cable off the amplifier?
    AmplifierOff,
    /// Are the leads in the right sockets, the battery good, the tips on bare metal, and does
    /// a known resistor or coil read what it should?
    MeterRight,
    /// Have the coils cooled since they were played?
    Cool,
}

impl Question {
    /// Every question, in the order in which they are asked.
    pub const ALL: [Self; 3] = [Self::AmplifierOff, Self::MeterRight, Self::Cool];

    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::AmplifierOff => "amplifier_off",
            Self::MeterRight => "meter_right",
            Self::Cool => "cool",
        }
    }

    /// The question of a name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|question| question.name() == name)
    }
}

/// How well an explanation fits what was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fit {
    /// Every reading is near what it should be then.
    Well,
    /// Some are far from it.
    Roughly,
    /// One contradicts it.
    Not,
}

impl Fit {
    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Well => "well",
            Self::Roughly => "roughly",
            Self::Not => "not",
        }
    }
}

/// How likely an explanation is, as it is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Odds {
    /// Nineteen in twenty, or more.
    Certain,
    /// About so many in ten.
    Tenths(u8),
    /// Less than one in twenty.
    Rare,
}

impl Odds {
    /// Of a share of all that may be.
    #[must_use]
    pub fn of(share: f64) -> Self {
        if share >= 0.95 {
            return Self::Certain;
        }
        if share < 0.05 {
            return Self::Rare;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "casts saturate"
        )]
        Self::Tenths(((share * 10.0 + 0.5) as u8).max(1))
    }
}

/// Faults that no reading tells apart, and how likely one of them is.
#[derive(Clone, Debug, PartialEq)]
pub struct Explanation {
    /// The faults, the likeliest first.
    pub faults: Vec<Fault>,
    /// How likely, all explanations together making one.
    pub share: f64,
    /// How well it fits.
    pub fit: Fit,
}

/// What the readings say.
#[derive(Clone, Debug, PartialEq)]
pub struct Diagnosis {
    /// Reading by reading, as given: whether it is what a sound rig reads.
    pub agreements: Vec<Agreement>,
    /// Easy causes that are still to be asked about.
    pub questions: Vec<Question>,
    /// What may be wrong, the likeliest first; none where nothing reads wrong before the
    /// first check; at most [`super::MOST`].
    pub explanations: Vec<Explanation>,
    /// The reading that tells most for its effort; `None` where one explanation is left or
    /// no reading tells those apart that are.
    pub next: Option<Point>,
    /// Whether what is left cannot be told by ohms: sound, or reversed. Polarity is next.
    pub polarity: bool,
    /// How likely what was built is sound, or sound but for what ohms cannot tell: a coil
    /// the wrong way round.
    pub sound: f64,
    /// Other joinings of the same coils, which [`Fault::Otherwise`] numbers.
    pub others: Vec<Other>,
    /// What should not have happened: then nothing else is told.
    pub defect: Option<Defect>,
}

impl Diagnosis {
    /// Nothing but a defect.
    pub(super) fn broken(defect: Defect) -> Self {
        Self {
            agreements: Vec::new(),
            questions: Vec::new(),
            explanations: Vec::new(),
            next: None,
            polarity: false,
            sound: 0.0,
            others: Vec::new(),
            defect: Some(defect),
        }
    }
}
