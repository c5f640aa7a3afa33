//! Golden messages: one for every code and then some.

use super::*;
use coilwright_solver::problem::Path;

fn cases() -> Vec<(Code, Detail, &'static str)> {
    use Detail::{Entry, Field as Of};
    vec![
        (
            Code::NotAnObject,
            Detail::None,
            "The request must be an object with a list of driver groups in the field “drivers”.",
        ),
        (
            Code::NotAnObject,
            Of(Field::CupReading),
            "This must be an object with what the meter showed in the field “reading”.",
        ),
        (
            Code::NotOneOf,
            Of(Field::CupReading),
            "The reading at the cup must be a number from 0 to 1,000,000 Ω, or the text “open”.",
        ),
        (
            Code::NotOneOf,
            Of(Field::CheckPoint),
            "There is no such check point in this plan: take one of those that “readings” names, such as 2 or 14.across.1a.",
        ),
        (
            Code::NotOneOf,
            Of(Field::Question),
            "The question must be “amplifier_off”, “meter_right” or “cool”.",
        ),
        (
            Code::NotPossibleHere,
            Of(Field::Question),
            "An entry is either a reading at a check point or the answer to a question: make two entries of it.",
        ),
        (
            Code::Missing,
            Of(Field::CheckPoint),
            "The check point is missing: give its name, such as 2 or 14.across.1a.",
        ),
        (
            Code::Missing,
            Of(Field::Readings),
            "The list of readings is missing: give a list of at most 200 readings.",
        ),
        (
            Code::Missing,
            Of(Field::CoilOhms),
            "The impedance of one coil is missing: give a number from 0.1 to 1000 Ω, or text such as 1.4 or 4/3.",
        ),
        (
            Code::Missing,
            Of(Field::Drivers),
            "The list of driver groups is missing: give a list of 1 to 8 driver groups.",
        ),
        (
            Code::UnknownField,
            Detail::Name("ohm".to_owned()),
            "There is no field “ohm” here: leave it out, or check its spelling.",
        ),
        (
            Code::UnknownField,
            Detail::Name("an unreasonably long name, too long to repeat".to_owned()),
            "There is no field “an unreasonably long name, too long to r…” here: leave it out, or check its spelling.",
        ),
        (
            Code::WrongType,
            Of(Field::Count),
            "The number of drivers in the group must be a whole number from 1 to 16.",
        ),
        (
            Code::WrongType,
            Of(Field::CoilOhms),
            "The impedance of one coil must be a number from 0.1 to 1000 Ω, or text such as 1.4 or 4/3.",
        ),
        (Code::WrongType, Of(Field::JoinedOnly), "The filter “joined only” must be true or false."),
        (
            Code::WrongType,
            Of(Field::BridgeChannels),
            "The pair of bridged channels must be a list of two different channel numbers, such as 1 and 2.",
        ),
        (
            Code::OutOfRange,
            Of(Field::Count),
            "The number of drivers in the group must be from 1 to 16.",
        ),
        (
            Code::OutOfRange,
            Of(Field::PointWatts),
            "The power of the rated point must be from 0.1 to 100,000 W.",
        ),
        (
            Code::OutOfRange,
            Entry(Field::DcOhms),
            "Each measured resistance must be from 0.01 to 2000 Ω.",
        ),
        (
            Code::WrongType,
            Entry(Field::DcOhms),
            "Each measured resistance must be a number from 0.01 to 2000 Ω.",
        ),
        (
            Code::WrongType,
            Entry(Field::Drivers),
            "Each entry in the list of driver groups must be an object.",
        ),
        (
            Code::OutOfRange,
            Entry(Field::BridgeChannels),
            "A bridged channel is given by its number, counted from 1.",
        ),
        (
            Code::OutOfRange,
            Of(Field::BridgeChannels),
            "The pair of bridged channels must have two entries.",
        ),
        (Code::OutOfRange, Of(Field::Channels), "The list of channels must have 1 to 8 entries."),
        (Code::OutOfRange, Of(Field::Bridges), "The list of bridges must have at most 4 entries."),
        (
            Code::OutOfRange,
            Of(Field::Name),
            "The name of the group must have at most 60 characters, none of them a control character.",
        ),
        (
            Code::OutOfRange,
            Detail::Most { most: 64, found: None },
            "There are too many entries in this list: at most 64 can ever be right.",
        ),
        (
            Code::NotANumberText,
            Of(Field::CoilOhms),
            "The impedance of one coil cannot be read as a number. Write digits with an optional decimal point, such as 4 or 1.4, or a fraction such as 4/3.",
        ),
        (
            Code::TooManyPlaces,
            Of(Field::ChannelLeast),
            "The least load of the channel has too many decimals. Give at most four, or write it as a fraction such as 4/3.",
        ),
        (
            Code::NotOneOf,
            Of(Field::Coils),
            "The number of voice coils on each driver must be 1, 2 or 4.",
        ),
        (
            Code::NotOneOf,
            Of(Field::WattsPer),
            "The choice of whose power is rated must be “driver” or “coil”.",
        ),
        (
            Code::WrongLength,
            Detail::Length { want: 4, found: 3 },
            "There must be one measured resistance for each coil of the group: 4, not 3.",
        ),
        (
            Code::Repeated,
            Of(Field::PointOhms),
            "This load has a rated power already: each load may stand in the list once.",
        ),
        (
            Code::Repeated,
            Of(Field::BridgeChannels),
            "This channel is in another bridge already: a channel can be in one bridge only.",
        ),
        (
            Code::NotPossibleHere,
            Detail::Why(Why::NoSuchChannel { channel: 3, channels: 2 }),
            "There is no channel 3: the amplifier has 2, counted from 1.",
        ),
        (
            Code::NotPossibleHere,
            Detail::Why(Why::NoSuchChannel { channel: 2, channels: 1 }),
            "There is no channel 2: the amplifier has one, and a bridge takes two.",
        ),
        (
            Code::NotPossibleHere,
            Detail::Why(Why::BridgedToItself),
            "A bridge takes two different channels.",
        ),
        (
            Code::NotPossibleHere,
            Detail::Why(Why::NoCoilLeft),
            "One coil of a driver at least must be in use.",
        ),
        (
            Code::NotPossibleHere,
            Detail::Why(Why::MoreCups { cups: 3, drivers: 2 }),
            "There are more cups than drivers: 3 cups, 2 drivers.",
        ),
        (
            Code::NotPossibleHere,
            Detail::Why(Why::CupsNotCounted),
            "The number of cups follows from the rest: give one only where each group of drivers has a cup.",
        ),
        (
            Code::NotPossibleHere,
            Detail::Why(Why::NoTiedPairs),
            "No channel of the amplifier has two tied terminal pairs, so nothing can be joined there.",
        ),
        (
            Code::NotPossibleHere,
            Detail::Why(Why::NoSuchDriver { driver: 5, drivers: 4 }),
            "There is no driver 5: they are numbered from 1 to 4.",
        ),
        (
            Code::NotPossibleHere,
            Detail::Why(Why::TabTakesOne),
            "A push-on tab takes one conductor.",
        ),
        (
            Code::NotPossibleHere,
            Detail::Why(Why::CupNotWhole { driver: 2 }),
            "Driver 2 cannot be wired through this cup in this configuration: what is behind a cup must be joined to one + and one −. Take other cups, or another configuration.",
        ),
        (
            Code::NotPossibleHere,
            Detail::Why(Why::NotJoinedThere),
            "This configuration has nothing to join at the amplifier: that takes cups in parallel on an output with two tied terminal pairs.",
        ),
        (
            Code::NotPossibleHere,
            Detail::Why(Why::ConductorTooLarge),
            "The conductor is larger than this terminal takes.",
        ),
        (
            Code::NotOneOf,
            Of(Field::Cups),
            "The choice of terminal cups must be “none”, “one”, “group”, “driver” or “coil”.",
        ),
        (
            Code::OutOfRange,
            Of(Field::MountedReversed),
            "The list of drivers mounted facing in has too many entries.",
        ),
        (
            Code::OutOfRange,
            Entry(Field::MountedReversed),
            "A driver is given by its number, counted from 1.",
        ),
        (
            Code::Repeated,
            Entry(Field::MountedReversed),
            "This driver stands in the list already: it may stand once.",
        ),
        (
            Code::OutOfRange,
            Of(Field::ConductorArea),
            "The area of a conductor must be from 0.1 to 120 mm².",
        ),
        (
            Code::WrongType,
            Of(Field::ToCup),
            "The distance from a driver to its cup must be a number from 0.01 to 100 m.",
        ),
        (
            Code::WrongType,
            Of(Field::DriverTerminals),
            "What a driver's terminal takes must be an object.",
        ),
        (
            Code::NotAnObject,
            Of(Field::Rigs),
            "This is no file of saved rigs: it must be an object with a list of rigs in the field “rigs”.",
        ),
        (
            Code::NotOneOf,
            Of(Field::FileVersion),
            "The version of the file must be 1: one of another version cannot be read here.",
        ),
        (Code::Missing, Of(Field::FileVersion), "The version of the file is missing: give 1."),
        (Code::WrongType, Of(Field::FileVersion), "The version of the file must be 1."),
        (
            Code::Missing,
            Of(Field::Rigs),
            "The list of rigs is missing: give a list of 1 to 200 rigs.",
        ),
        (Code::OutOfRange, Of(Field::Rigs), "The list of rigs must have 1 to 200 entries."),
        (Code::WrongType, Entry(Field::Rigs), "Each entry in the list of rigs must be an object."),
        (
            Code::OutOfRange,
            Of(Field::RigName),
            "The name of the rig must have at most 60 characters, none of them a control character.",
        ),
        (Code::Missing, Of(Field::Asked), "The request of the rig is missing: give an object."),
        (
            Code::OutOfRange,
            Of(Field::TypedText),
            "The typed text must have at most 1000 characters.",
        ),
        (
            Code::WrongType,
            Of(Field::TypedPath),
            "The path of the field must be text of at most 100 characters, none of them a control character.",
        ),
        (Code::OutOfRange, Of(Field::StepAtHand), "The step at hand must be from 1 to 1000."),
        (
            Code::WrongType,
            Of(Field::StepsDone),
            "The list of steps done must be a list of act numbers, none twice, each from 1 to 1000.",
        ),
        (
            Code::OutOfRange,
            Entry(Field::StepsDone),
            "An act is given by its number, counted from 1.",
        ),
        (
            Code::Repeated,
            Entry(Field::StepsDone),
            "This act stands in the list already: it may stand once.",
        ),
        (Code::WrongType, Of(Field::SavedBox), "The reading of a closed box must be an object."),
        (
            Code::OutOfRange,
            Of(Field::PutAside),
            "The list of what is compared must have at most 4 entries.",
        ),
        (
            Code::Missing,
            Of(Field::ComparedKey),
            "The key of what is compared is missing: give text of at most 1000 characters, none of them a control character.",
        ),
        (
            Code::TooManyCoils,
            Detail::Most { most: 32, found: Some(40) },
            "There are 40 coils in all: at most 32 are possible. Ask about fewer drivers.",
        ),
        (
            Code::TooMany,
            Detail::Most { most: 300_000, found: Some(2_302_806) },
            "There are 2,302,806 configurations, too many to list: at most 300,000 are. There are fewer with “joined only” and “even only” on, or with fewer coils.",
        ),
        (
            Code::TooMany,
            Detail::Most { most: 300_000, found: None },
            "There are more than 300,000 configurations, too many to list. There are fewer with “joined only” and “even only” on, or with fewer coils.",
        ),
        (
            Code::TooMuchWork,
            Detail::None,
            "Finding every configuration of these drivers would take too long. There are fewer with “joined only” and “even only” on, or with fewer coils.",
        ),
        (
            Code::TooExact,
            Detail::None,
            "These impedances make fractions too long to compute exactly. Give the coils' ohms as their labels do, with fewer digits.",
        ),
        (
            Code::UnknownConfiguration,
            Detail::None,
            "This key is no configuration of these drivers: every coil must stand in it exactly once.",
        ),
        (Code::NotStarted, Detail::None, "The module is not loaded: call “await init()” first."),
        (Code::Closed, Detail::None, "This list is closed: open it again."),
        (Code::Defect, Detail::None, defects::SOMEWHERE),
    ]
}

#[test]
fn every_code_has_its_golden_message() {
    for (code, detail, want) in cases() {
        let problem = Problem::new(Path::root(), code, detail);
        assert_eq!(message(&problem), want, "{problem:?}");
    }
    for code in Code::ALL {
        assert!(cases().iter().any(|(covered, ..)| *covered == code), "{code:?}");
    }
}

/// Whatever comes together, a message is a sentence.
#[test]
fn every_code_with_every_field_is_a_sentence() {
    let fields = Field::ALL.into_iter().map(Detail::Field);
    let entries = Field::ALL.into_iter().map(Detail::Entry);
    for detail in fields.chain(entries).chain([Detail::None]) {
        for code in Code::ALL {
            let text = message(&Problem::new(Path::root(), code, detail.clone()));
            assert!(text.ends_with('.'), "{text}");
            assert!(text.starts_with(char::is_uppercase), "{text}");
            assert!(!text.contains("  ") && !text.contains(" ."), "{text}");
        }
    }
}

#[test]
fn fractions_are_offered_only_where_they_are_taken() {
    let told = |code, field| message(&Problem::new(Path::root(), code, Detail::Field(field)));
    for code in [Code::NotANumberText, Code::TooManyPlaces] {
        assert!(told(code, Field::CoilOhms).contains("4/3"));
        for field in [Field::Watts, Field::BetweenDrivers, Field::Count, Field::DcOhms] {
            assert!(!told(code, field).contains('/'), "{}", told(code, field));
        }
    }
    assert_eq!(
        told(Code::NotANumberText, Field::DcOhms),
        "The list of measured resistances cannot be read. Write a number for each coil with \
         blanks between, such as 3.6 3.7."
    );
}
