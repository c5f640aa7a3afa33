//! What can be wrong with a request: typed, with its path and its numbers.
//!
//! The text a person reads is made elsewhere; codes and paths are the contract.

use crate::bounds::Field;
use crate::defect::Defect;
use core::fmt;

/// The kinds of problem. The names are part of the JSON contract.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Code {
    /// The request is not an object.
    NotAnObject,
    /// A required field is absent.
    Missing,
    /// A field nobody knows.
    UnknownField,
    /// A value of another type than the field takes.
    WrongType,
    /// A number below the least or above the most, or too many or too few entries.
    OutOfRange,
    /// Text that is not a number the field can read.
    NotANumberText,
    /// A number with more than four decimals.
    TooManyPlaces,
    /// A value that is none of the few allowed.
    NotOneOf,
    /// A list of another length than the rig calls for.
    WrongLength,
    /// A value given twice where each may stand once.
    Repeated,
    /// A value that is fine alone but not with the rest of the request.
    NotPossibleHere,
    /// More coils in all than are dealt with.
    TooManyCoils,
    /// More configurations than are listed.
    TooMany,
    /// More work than is done for one request.
    TooMuchWork,
    /// Fractions that outgrow exact arithmetic.
    TooExact,
    /// A key that is no configuration of the rig.
    UnknownConfiguration,
    /// Asked before what answers was loaded.
    NotStarted,
    /// A list that was opened and is closed by now.
    Closed,
    /// What should not happen: the solver found what it counts on not to be so.
    Defect,
}

impl Code {
    /// Every code, in the order of the contract.
    pub const ALL: [Self; 19] = [
        Self::NotAnObject,
        Self::Missing,
        Self::UnknownField,
        Self::WrongType,
        Self::OutOfRange,
        Self::NotANumberText,
        Self::TooManyPlaces,
        Self::NotOneOf,
        Self::WrongLength,
        Self::Repeated,
        Self::NotPossibleHere,
        Self::TooManyCoils,
        Self::TooMany,
        Self::TooMuchWork,
        Self::TooExact,
        Self::UnknownConfiguration,
        Self::NotStarted,
        Self::Closed,
        Self::Defect,
    ];

    /// The name in the contract.
    ///
    /// # Example
    /// ```
    /// assert_eq!(coilwright_solver::problem::Code::TooMany.name(), "too_many");
    /// ```
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::NotAnObject => "not_an_object",
            Self::Missing => "missing",
            Self::UnknownField => "unknown_field",
            Self::WrongType => "wrong_type",
            Self::OutOfRange => "out_of_range",
            Self::NotANumberText => "not_a_number_text",
            Self::TooManyPlaces => "too_many_places",
            Self::NotOneOf => "not_one_of",
            Self::WrongLength => "wrong_length",
            Self::Repeated => "repeated",
            Self::NotPossibleHere => "not_possible_here",
            Self::TooManyCoils => "too_many_coils",
            Self::TooMany => "too_many",
            Self::TooMuchWork => "too_much_work",
            Self::TooExact => "too_exact",
            Self::UnknownConfiguration => "unknown_configuration",
            Self::NotStarted => "not_started",
            Self::Closed => "closed",
            Self::Defect => "defect",
        }
    }
}

/// Where in a request a value stands: `drivers[0].ohms`, `amplifier.channels[1].rated`.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Path(String);

impl Path {
    /// The request itself.
    #[must_use]
    pub fn root() -> Self {
        Self::default()
    }

    /// A field of the value here. A name that is not made of letters, digits and `_`
    /// stands in brackets and quotation marks.
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::problem::Path;
    /// let path = Path::root().field("drivers").entry(0).field("ohms");
    /// assert_eq!(path.to_string(), "drivers[0].ohms");
    /// assert_eq!(Path::root().field("a.b").to_string(), "[\"a.b\"]");
    /// ```
    #[must_use]
    pub fn field(&self, name: &str) -> Self {
        let plain = |byte: u8| byte.is_ascii_alphanumeric() || byte == b'_';
        if name.is_empty() || !name.bytes().all(plain) {
            let name = name.replace('\\', "\\\\").replace('"', "\\\"");
            return Self(format!("{}[\"{name}\"]", self.0));
        }
        let dot = if self.0.is_empty() { "" } else { "." };
        Self(format!("{}{dot}{name}", self.0))
    }

    /// An entry of the list here, counted from 0.
    #[must_use]
    pub fn entry(&self, index: usize) -> Self {
        Self(format!("{}[{index}]", self.0))
    }

    /// The path as text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Path {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// The numbers and names a message needs besides its code.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Detail {
    /// Nothing beyond the code.
    #[default]
    None,
    /// The field whose bounds or type were not met.
    Field(Field),
    /// An entry of this field's list is the one whose bounds or type were not met.
    Entry(Field),
    /// A list should have had this many entries, and had that many.
    Length {
        /// Entries called for.
        want: u64,
        /// Entries found.
        found: u64,
    },
    /// A count that went over a bound.
    Most {
        /// The most that is allowed.
        most: u64,
        /// What was found, where it is known exactly.
        found: Option<u128>,
    },
    /// The name of the field that nobody knows.
    Name(String),
    /// Why a value that is fine alone does not fit here.
    Why(Why),
    /// Where something was found that should not happen.
    Defect(Defect),
}

/// Why something is [`Code::NotPossibleHere`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// A bridge names a channel that the amplifier does not have.
    NoSuchChannel {
        /// The channel named.
        channel: u32,
        /// How many there are.
        channels: u32,
    },
    /// A bridge between a channel and itself.
    BridgedToItself,
    /// More coils of a driver are left out than leave one in use.
    NoCoilLeft,
    /// More cups than there are drivers to go to them.
    MoreCups {
        /// Cups asked for.
        cups: u32,
        /// Drivers there are.
        drivers: u32,
    },
    /// A number of cups where the drivers do not go to them in groups.
    CupsNotCounted,
    /// Joining at an amplifier without a channel of two tied terminal pairs.
    NoTiedPairs,
    /// A driver that the rig does not have.
    NoSuchDriver {
        /// The driver named, counted from 1.
        driver: u32,
        /// How many there are.
        drivers: u32,
    },
    /// Several conductors on a push-on tab.
    TabTakesOne,
    /// A cup whose coils are not joined to each other as one pair in this configuration.
    CupNotWhole {
        /// The first driver at the cup, counted from 1.
        driver: u32,
    },
    /// Joining at the amplifier where this configuration does not join in parallel last,
    /// or hangs on outputs with one terminal pair.
    NotJoinedThere,
    /// A conductor that a terminal is too small for.
    ConductorTooLarge,
}

/// One thing wrong with a request.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// Where it stands.
    pub path: Path,
    /// What kind it is.
    pub code: Code,
    /// What its message needs besides.
    pub detail: Detail,
}

impl Problem {
    /// A problem at a path.
    #[must_use]
    pub fn new(path: Path, code: Code, detail: Detail) -> Self {
        Self { path, code, detail }
    }
}

impl From<Defect> for Problem {
    fn from(defect: Defect) -> Self {
        Self::new(Path::root(), Code::Defect, Detail::Defect(defect))
    }
}

/// Why work ended early: by a bound of what is worked out, or by a defect.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Stop {
    Code(Code),
    Defect(Defect),
}

impl Stop {
    /// As the problem with what stands at a path; a defect is nobody's.
    pub(crate) fn problem(self, path: Path) -> Problem {
        match self {
            Self::Code(code) => Problem::new(path, code, Detail::None),
            Self::Defect(defect) => defect.into(),
        }
    }
}

impl From<Code> for Stop {
    fn from(code: Code) -> Self {
        Self::Code(code)
    }
}

impl From<Defect> for Stop {
    fn from(defect: Defect) -> Self {
        Self::Defect(defect)
    }
}
