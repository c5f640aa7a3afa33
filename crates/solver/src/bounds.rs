//! The one table of fields: name, kind, least, most, unit and default.
//!
//! It drives the reader of the JSON contract, the page's fields, the messages, the
//! schema, the type declarations and the generators of the tests, so that a bound
//! is written once.

/// The most coils a rig may have in all.
pub const MOST_COILS: u32 = 32;
/// The most configurations that are listed.
pub const MOST_CONFIGURATIONS: u64 = 300_000;
/// The most configurations that an answer writes out; a list is walked in such pages.
pub const MOST_WRITTEN: u32 = 10_000;
/// The most that the limit of a saved rig may be, where it changes nothing.
pub const MOST_SAVED_LIMIT: u32 = 300_000;
/// The most counted steps that are spent on one request.
pub const MOST_WORK: u64 = 40_000_000;

/// What stands for a reading that has no end.
pub const OPEN: &str = "open";

/// The objects of the contract.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Object {
    /// The request itself.
    Request,
    /// A driver group.
    Group,
    /// An amplifier.
    Amplifier,
    /// A channel of an amplifier.
    Channel,
    /// Two channels bridged.
    Bridge,
    /// A rated point: so many watts into so many ohms.
    Point,
    /// How the box is built and wired.
    Build,
    /// What the terminals of one sort take.
    Terminal,
    /// What a meter showed at a closed box.
    ClosedBox,
    /// What is told beside a request and a key to find what is wrong.
    Diagnose,
    /// A reading at a check point, or an answer to a question.
    Reading,
    /// A file of saved rigs.
    File,
    /// A saved rig: what is asked of it, and how far the work is.
    Saved,
    /// What stands in a field and is no value yet.
    Typed,
    /// A configuration that was put aside to compare.
    Compared,
}

impl Object {
    /// Every object, the request first.
    pub const ALL: [Self; 15] = [
        Self::Request,
        Self::Group,
        Self::Amplifier,
        Self::Channel,
        Self::Bridge,
        Self::Point,
        Self::Build,
        Self::Terminal,
        Self::ClosedBox,
        Self::Diagnose,
        Self::Reading,
        Self::File,
        Self::Saved,
        Self::Typed,
        Self::Compared,
    ];

    /// Its fields in the order of the contract.
    pub fn fields(self) -> impl Iterator<Item = Field> {
        Field::ALL.into_iter().filter(move |field| field.spec().object == self)
    }
}

/// What a field takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// Text of at most so many characters, no control characters.
    Text {
        /// The most characters.
        most: u32,
    },
    /// Text of at most so many characters, whatever they are: as somebody typed it.
    AnyText {
        /// The most characters.
        most: u32,
    },
    /// A whole number from least to most.
    Whole {
        /// The least.
        least: u32,
        /// The most.
        most: u32,
    },
    /// One of a few whole numbers.
    OneOfNumbers(&'static [u32]),
    /// One of a few words.
    OneOfWords(&'static [&'static str]),
    /// An exact number of ohms, as a number or as text, from least to most.
    Ohms {
        /// The least, in ten-thousandths of an ohm.
        least: u32,
        /// The most, in ten-thousandths of an ohm.
        most: u32,
    },
    /// Any number from least to most.
    Number {
        /// The least.
        least: f64,
        /// The most.
        most: f64,
    },
    /// What a meter showed: ohms from nothing to the most, or the text [`OPEN`].
    Reading {
        /// The most.
        most: f64,
    },
    /// True or false.
    Boolean,
    /// An object.
    Object(Object),
    /// A list of objects.
    Objects {
        /// What each entry is.
        of: Object,
        /// The fewest entries.
        least: u32,
        /// The most entries.
        most: u32,
    },
    /// A list of numbers, each from least to most; its length comes from the rig.
    Numbers {
        /// The least of each entry.
        least: f64,
        /// The most of each entry.
        most: f64,
    },
    /// Two different channel numbers.
    TwoChannels,
    /// A list of whole numbers, each from least to most and none twice.
    Different {
        /// The least of each entry.
        least: u32,
        /// The most of each entry.
        most: u32,
    },
}

/// What stands in for a field that is left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Default {
    /// Nothing: the field must be there.
    Required,
    /// The value counts as not stated.
    Absent,
    /// This whole number.
    Whole(u32),
    /// This word.
    Word(&'static str),
    /// True.
    True,
    /// False.
    False,
    /// So many hundredths.
    Hundredths(u32),
    /// An empty list.
    Empty,
}

/// A row of the table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spec {
    /// The object it belongs to.
    pub object: Object,
    /// Its name in the contract.
    pub name: &'static str,
    /// What it takes.
    pub kind: Kind,
    /// What stands in for it.
    pub default: Default,
    /// The unit of its value: `"Ω"`, `"W"` or nothing.
    pub unit: &'static str,
}

macro_rules! table {
    ($($(#[$doc:meta])* $field:ident: $object:ident $name:literal $kind:expr, $default:expr, $unit:literal;)*) => {
        /// Every field of the contract, in its order.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Field { $($(#[$doc])* $field,)* }

        impl Field {
            /// Every field, in the order of the contract.
            pub const ALL: [Self; [$(Self::$field),*].len()] = [$(Self::$field),*];

            /// The field's row of the table.
            ///
            /// # Example
            /// ```
            /// use coilwright_solver::bounds::{Field, Kind};
            /// assert_eq!(Field::Coils.spec().kind, Kind::OneOfNumbers(&[1, 2, 4]));
            /// ```
            #[must_use]
            #[expect(clippy::indexing_slicing, reason = "the table has a row for every field")]
            pub const fn spec(self) -> Spec {
                TABLE[self as usize]
            }
        }

        static TABLE: [Spec; Field::ALL.len()] = [$(Spec {
            object: Object::$object,
            name: $name,
            kind: $kind,
            default: $default,
            unit: $unit,
        },)*];
    };
}

const OHMS: Kind = Kind::Ohms { least: 1_000, most: 10_000_000 };
const WATTS: Kind = Kind::Number { least: 0.1, most: 100_000.0 };
const MM2: Kind = Kind::Number { least: 0.1, most: 120.0 };
const METRES: Kind = Kind::Number { least: 0.01, most: 100.0 };
const READING: Kind = Kind::Reading { most: 1_000_000.0 };
const COUNT: Kind = Kind::Number { least: 0.0001, most: 1_000.0 };
const TERMINALS: Kind = Kind::Object(Object::Terminal);
const POINTS: Kind = Kind::Objects { of: Object::Point, least: 0, most: 8 };
const READINGS: Kind = Kind::Objects { of: Object::Reading, least: 0, most: 200 };
/// More than any rig's configuration takes to write.
const KEY: Kind = Kind::Text { most: 1_000 };
/// More than any plan has.
const STEP: Kind = Kind::Whole { least: 1, most: 1_000 };

table! {
    /// The driver groups.
    Drivers: Request "drivers" Kind::Objects { of: Object::Group, least: 1, most: 8 }, Default::Required, "";
    /// The amplifier.
    Amplifier: Request "amplifier" Kind::Object(Object::Amplifier), Default::Absent, "";
    /// How the box is built and wired.
    Build: Request "box" Kind::Object(Object::Build), Default::Absent, "";
    /// Only configurations in which each driver's coils are joined at the driver first.
    JoinedOnly: Request "joined_only" Kind::Boolean, Default::True, "";
    /// Only configurations in which every coil gets the same fraction of its rating.
    EvenOnly: Request "even_only" Kind::Boolean, Default::True, "";
    /// The first row of the list to return, counted from 0.
    From: Request "from" Kind::Whole { least: 0, most: 300_000 }, Default::Whole(0), "";
    /// The most configurations to return.
    Limit: Request "limit" Kind::Whole { least: 0, most: MOST_WRITTEN }, Default::Whole(200), "";
    /// What the group is called.
    Name: Group "name" Kind::Text { most: 60 }, Default::Absent, "";
    /// Drivers in the group.
    Count: Group "count" Kind::Whole { least: 1, most: 16 }, Default::Required, "";
    /// Voice coils on each driver.
    Coils: Group "coils" Kind::OneOfNumbers(&[1, 2, 4]), Default::Required, "";
    /// Nominal impedance of one coil.
    CoilOhms: Group "ohms" OHMS, Default::Required, "Ω";
    /// Continuous power rating.
    Watts: Group "watts" WATTS, Default::Absent, "W";
    /// Whether the watts are of a driver or of a coil.
    WattsPer: Group "watts_per" Kind::OneOfWords(&["driver", "coil"]), Default::Word("driver"), "";
    /// Coils of each driver that are left out on purpose.
    UnusedCoils: Group "unused_coils" Kind::Whole { least: 0, most: 3 }, Default::Whole(0), "";
    /// Measured direct-current resistance of each coil.
    DcOhms: Group "dc_ohms" Kind::Numbers { least: 0.01, most: 2_000.0 }, Default::Absent, "Ω";
    /// How many amplifiers of this kind.
    AmplifierCount: Amplifier "count" Kind::Whole { least: 1, most: 4 }, Default::Whole(1), "";
    /// The channels in the amplifier's own order.
    Channels: Amplifier "channels" Kind::Objects { of: Object::Channel, least: 1, most: 8 }, Default::Required, "";
    /// The bridges its maker names.
    Bridges: Amplifier "bridges" Kind::Objects { of: Object::Bridge, least: 0, most: 4 }, Default::Empty, "";
    /// A channel's least load.
    ChannelLeast: Channel "least_ohms" OHMS, Default::Absent, "Ω";
    /// A channel's rated points.
    ChannelRated: Channel "rated" POINTS, Default::Empty, "";
    /// Terminal pairs of a channel, tied inside.
    TerminalPairs: Channel "terminal_pairs" Kind::Whole { least: 1, most: 2 }, Default::Whole(1), "";
    /// The two channels of a bridge.
    BridgeChannels: Bridge "channels" Kind::TwoChannels, Default::Required, "";
    /// A bridge's least load.
    BridgeLeast: Bridge "least_ohms" OHMS, Default::Absent, "Ω";
    /// A bridge's rated points.
    BridgeRated: Bridge "rated" POINTS, Default::Empty, "";
    /// The load of a rated point.
    PointOhms: Point "ohms" OHMS, Default::Required, "Ω";
    /// The power of a rated point.
    PointWatts: Point "watts" WATTS, Default::Required, "W";
    /// What has a terminal cup of its own.
    Cups: Build "cups" Kind::OneOfWords(&["none", "one", "group", "driver", "coil"]), Default::Word("none"), "";
    /// How many cups, where the drivers go to them in groups.
    CupCount: Build "cup_count" Kind::Whole { least: 1, most: 16 }, Default::Absent, "";
    /// Where cups are joined to each other; where it may be done, at the amplifier.
    JoinedAt: Build "joined_at" Kind::OneOfWords(&["amplifier", "box"]), Default::Absent, "";
    /// How the drivers of a joined set are fed.
    Fed: Build "fed" Kind::OneOfWords(&["chain", "star"]), Default::Word("chain"), "";
    /// The drivers that are mounted facing in on purpose.
    MountedReversed: Build "mounted_reversed" Kind::Different { least: 1, most: 16 }, Default::Empty, "";
    /// Whether the amplifier is fed by a vehicle's battery.
    Vehicle: Build "vehicle" Kind::Boolean, Default::True, "";
    /// Area of a conductor.
    ConductorArea: Build "conductor_mm2" MM2, Default::Hundredths(250), "mm²";
    /// Between the coils of one driver.
    BetweenCoils: Build "between_coils_m" METRES, Default::Hundredths(10), "m";
    /// Between neighbouring drivers.
    BetweenDrivers: Build "between_drivers_m" METRES, Default::Hundredths(50), "m";
    /// From a driver to its cup.
    ToCup: Build "to_cup_m" METRES, Default::Hundredths(50), "m";
    /// Between neighbouring cups.
    BetweenCups: Build "between_cups_m" METRES, Default::Hundredths(100), "m";
    /// From the box to the amplifier.
    ToAmplifier: Build "to_amplifier_m" METRES, Default::Hundredths(200), "m";
    /// What a terminal of a driver takes.
    DriverTerminals: Build "driver_terminals" TERMINALS, Default::Absent, "";
    /// What a terminal of a cup takes, on each side.
    CupTerminals: Build "cup_terminals" TERMINALS, Default::Absent, "";
    /// What a terminal of the amplifier takes.
    AmplifierTerminals: Build "amplifier_terminals" TERMINALS, Default::Absent, "";
    /// Conductors that a terminal takes.
    Conductors: Terminal "conductors" Kind::Whole { least: 1, most: 4 }, Default::Absent, "";
    /// Whether it is a push-on tab, which takes one.
    PushOn: Terminal "push_on" Kind::Boolean, Default::False, "";
    /// The largest conductor that it takes.
    LargestArea: Terminal "largest_mm2" MM2, Default::Absent, "mm²";
    /// What the meter showed at the cup.
    CupReading: ClosedBox "reading" READING, Default::Required, "Ω";
    /// What the leads read touching.
    LeadsReading: ClosedBox "leads" Kind::Number { least: 0.0, most: 10.0 }, Default::Absent, "Ω";
    /// The smallest step that the meter shows.
    ReadingStep: ClosedBox "step" COUNT, Default::Hundredths(10), "Ω";
    /// What was read and answered so far.
    Readings: Diagnose "readings" READINGS, Default::Required, "";
    /// The check point of a reading.
    CheckPoint: Reading "point" Kind::Text { most: 40 }, Default::Absent, "";
    /// What the meter showed there.
    Reads: Reading "reads" READING, Default::Absent, "Ω";
    /// The smallest step that the meter shows.
    ReadsStep: Reading "step" COUNT, Default::Hundredths(10), "Ω";
    /// An easy cause that was asked about.
    Question: Reading "question" Kind::OneOfWords(&["amplifier_off", "meter_right", "cool"]), Default::Absent, "";
    /// Whether it was answered by yes.
    Answered: Reading "answer" Kind::Boolean, Default::Absent, "";
    /// The version of the contract that a file is written in.
    FileVersion: File "contract_version" Kind::OneOfNumbers(&[1]), Default::Required, "";
    /// The rigs of a file.
    Rigs: File "rigs" Kind::Objects { of: Object::Saved, least: 1, most: 200 }, Default::Required, "";
    /// What a saved rig is called.
    RigName: Saved "name" Kind::Text { most: 60 }, Default::Absent, "";
    /// What is asked of it; in a file it may be unfinished.
    Asked: Saved "request" Kind::Object(Object::Request), Default::Required, "";
    /// What stands in its fields and is no value yet.
    TypedTexts: Saved "typed" Kind::Objects { of: Object::Typed, least: 0, most: 200 }, Default::Empty, "";
    /// The chosen configuration.
    ChosenKey: Saved "key" KEY, Default::Absent, "";
    /// The step at hand.
    StepAtHand: Saved "step" STEP, Default::Whole(1), "";
    /// The steps that are done.
    StepsDone: Saved "done" Kind::Different { least: 1, most: 1_000 }, Default::Empty, "";
    /// What was read and answered so far.
    SavedReadings: Saved "readings" READINGS, Default::Empty, "";
    /// Why power went on against the meter, where it did.
    Against: Saved "against" Kind::Text { most: 200 }, Default::Absent, "";
    /// What a meter showed at a closed box; it may be unfinished.
    SavedBox: Saved "closed_box" Kind::Object(Object::ClosedBox), Default::Absent, "";
    /// What was put aside to compare.
    PutAside: Saved "compared" Kind::Objects { of: Object::Compared, least: 0, most: 4 }, Default::Empty, "";
    /// The path of the field that a text stands in.
    TypedPath: Typed "path" Kind::Text { most: 100 }, Default::Required, "";
    /// The text.
    TypedText: Typed "text" Kind::AnyText { most: 1_000 }, Default::Required, "";
    /// The configuration that was put aside.
    ComparedKey: Compared "key" KEY, Default::Required, "";
    /// The rig that it is of, where that is another; it may be unfinished.
    ComparedRequest: Compared "request" Kind::Object(Object::Request), Default::Absent, "";
}

#[cfg(test)]
mod tests;
