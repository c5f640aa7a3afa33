//! What each field is called and what it takes, from the one table of fields.

use super::{MARKS, listed};
use coilwright_solver::bounds::{Field, Kind, OPEN, Object};

/// The field with its article, to stand in a sentence: `the impedance of one coil`.
///
/// # Example
/// ```
/// use coilwright_solver::bounds::Field;
/// use coilwright_words::english::fields::the;
/// assert_eq!(the(Field::CoilOhms), "the impedance of one coil");
/// ```
#[must_use]
pub const fn the(field: Field) -> &'static str {
    match field {
        Field::Drivers => "the list of driver groups",
        Field::Amplifier => "the amplifier",
        Field::JoinedOnly => "the filter “joined only”",
        Field::EvenOnly => "the filter “even only”",
        Field::From => "the first configuration to return",
        Field::Limit => "the most configurations to return",
        Field::Name => "the name of the group",
        Field::Count => "the number of drivers in the group",
        Field::Coils => "the number of voice coils on each driver",
        Field::CoilOhms => "the impedance of one coil",
        Field::Watts => "the rated power",
        Field::WattsPer => "the choice of whose power is rated",
        Field::DcOhms => "the list of measured resistances",
        Field::AmplifierCount => "the number of amplifiers of this kind",
        Field::Channels => "the list of channels",
        Field::Bridges => "the list of bridges",
        Field::ChannelLeast => "the least load of the channel",
        Field::ChannelRated => "the list of rated points of the channel",
        Field::TerminalPairs => "the number of terminal pairs of the channel",
        Field::BridgeChannels => "the pair of bridged channels",
        Field::BridgeLeast => "the least load of the bridge",
        Field::BridgeRated => "the list of rated points of the bridge",
        Field::PointOhms => "the load of the rated point",
        Field::PointWatts => "the power of the rated point",
        Field::Build => "the box",
        Field::UnusedCoils => "the number of coils left out on each driver",
        Field::Cups => "the choice of terminal cups",
        Field::CupCount => "the number of cups",
        Field::JoinedAt => "the choice of where cups are joined",
        Field::Fed => "the choice of chain or star",
        Field::MountedReversed => "the list of drivers mounted facing in",
        Field::Vehicle => "the choice of a vehicle",
        Field::ConductorArea => "the area of a conductor",
        Field::BetweenCoils => "the distance between the coils of a driver",
        Field::BetweenDrivers => "the distance between drivers",
        Field::ToCup => "the distance from a driver to its cup",
        Field::BetweenCups => "the distance between cups",
        Field::ToAmplifier => "the distance to the amplifier",
        Field::DriverTerminals => "what a driver's terminal takes",
        Field::CupTerminals => "what a cup's terminal takes",
        Field::AmplifierTerminals => "what an amplifier's terminal takes",
        Field::Conductors => "the number of conductors that a terminal takes",
        Field::PushOn => "the choice of a push-on tab",
        Field::LargestArea => "the largest conductor that a terminal takes",
        Field::CupReading => "the reading at the cup",
        Field::LeadsReading => "the reading of the leads",
        Field::ReadingStep | Field::ReadsStep => "the smallest step of the meter",
        Field::Readings | Field::SavedReadings => "the list of readings",
        Field::CheckPoint => "the check point",
        Field::Reads => "the reading",
        Field::Question => "the question",
        Field::Answered => "the answer to the question",
        Field::FileVersion => "the version of the file",
        Field::Rigs => "the list of rigs",
        Field::RigName => "the name of the rig",
        Field::Asked => "the request of the rig",
        Field::TypedTexts => "the list of typed texts",
        Field::ChosenKey => "the key of the chosen configuration",
        Field::StepAtHand => "the step at hand",
        Field::StepsDone => "the list of steps done",
        Field::Against => "why power went on against the meter",
        Field::SavedBox => "the reading of a closed box",
        Field::PutAside => "the list of what is compared",
        Field::TypedPath => "the path of the field",
        Field::TypedText => "the typed text",
        Field::ComparedKey => "the key of what is compared",
        Field::ComparedRequest => "the request of what is compared",
    }
}

/// What the field takes: `a whole number from 1 to 16`.
///
/// # Example
/// ```
/// use coilwright_solver::bounds::Field;
/// use coilwright_words::english::fields::takes;
/// assert_eq!(takes(Field::Coils), "1, 2 or 4");
/// assert_eq!(takes(Field::PointWatts), "a number from 0.1 to 100,000 W");
/// ```
#[must_use]
pub fn takes(field: Field) -> String {
    match field.spec().kind {
        Kind::Text { .. } | Kind::AnyText { .. } => format!("text of {}", bounds(field)),
        Kind::Whole { .. } => format!("a whole number {}", bounds(field)),
        Kind::OneOfNumbers(_) | Kind::OneOfWords(_) | Kind::Boolean | Kind::Object(_) => {
            bounds(field)
        }
        Kind::Ohms { .. } => {
            format!("a number {}, or text such as 1.4 or 4/3", bounds(field))
        }
        Kind::Number { .. } => format!("a number {}", bounds(field)),
        Kind::Reading { .. } => format!("a number {}, or the text “{OPEN}”", bounds(field)),
        Kind::Objects { of, .. } => format!("a list of {} {}", bounds(field), plural(of)),
        Kind::Numbers { .. } => {
            format!("a list of numbers, one for each coil, each {}", bounds(field))
        }
        Kind::TwoChannels => "a list of two different channel numbers, such as 1 and 2".to_owned(),
        Kind::Different { .. } => {
            format!("a list of {} numbers, none twice, each {}", numbered(field), bounds(field))
        }
    }
}

/// The bounds alone: `from 0.1 to 1000 Ω`.
#[must_use]
pub fn bounds(field: Field) -> String {
    let spec = field.spec();
    let unit = if spec.unit.is_empty() { String::new() } else { format!(" {}", spec.unit) };
    match spec.kind {
        Kind::Text { most } => {
            let most = MARKS.whole(most.into());
            format!("at most {most} characters, none of them a control character")
        }
        Kind::AnyText { most } => format!("at most {} characters", MARKS.whole(most.into())),
        Kind::Whole { least, most } | Kind::Different { least, most } => {
            range(&MARKS.whole(u128::from(least)), &MARKS.whole(u128::from(most)), &unit)
        }
        Kind::OneOfNumbers(list) => listed(&super::rig::numbers(list), "or"),
        Kind::OneOfWords(list) => {
            let list: Vec<String> = list.iter().map(|word| format!("“{word}”")).collect();
            listed(&list, "or")
        }
        Kind::Ohms { least, most } => {
            range(&MARKS.ten_thousandths(least), &MARKS.ten_thousandths(most), &unit)
        }
        Kind::Number { least, most } | Kind::Numbers { least, most } => {
            range(&MARKS.short(least), &MARKS.short(most), &unit)
        }
        Kind::Reading { most } => range("0", &MARKS.short(most), &unit),
        Kind::Objects { least: 0, most, .. } => format!("at most {most}"),
        Kind::Objects { least, most, .. } => format!("{least} to {most}"),
        Kind::Boolean => "true or false".to_owned(),
        Kind::Object(_) => "an object".to_owned(),
        Kind::TwoChannels => "two".to_owned(),
    }
}

fn range(least: &str, most: &str, unit: &str) -> String {
    format!("from {least} to {most}{unit}")
}

/// What the numbers of a list count.
pub(super) const fn numbered(field: Field) -> &'static str {
    match field {
        Field::StepsDone => "act",
        _ => "driver",
    }
}

/// Several of an object of the contract.
const fn plural(object: Object) -> &'static str {
    match object {
        Object::Request => "requests",
        Object::Group => "driver groups",
        Object::Amplifier => "amplifiers",
        Object::Channel => "channels",
        Object::Bridge => "bridges",
        Object::Point => "rated points",
        Object::Build => "boxes",
        Object::Terminal => "terminals",
        Object::ClosedBox => "closed boxes",
        Object::Diagnose => "lists of readings",
        Object::Reading => "readings",
        Object::File => "files",
        Object::Saved => "rigs",
        Object::Typed => "texts",
        Object::Compared => "configurations",
    }
}

/// A short label beside an input: `ohms of one coil`.
#[must_use]
pub const fn label(field: Field) -> &'static str {
    match field {
        Field::Drivers => "drivers",
        Field::Amplifier => "amplifier",
        Field::JoinedOnly => "joined only",
        Field::EvenOnly => "even only",
        Field::From => "from",
        Field::Limit => "at most",
        Field::Name => "name",
        Field::Count => "drivers",
        Field::Coils => "voice coils on each",
        Field::CoilOhms => "ohms of one coil",
        Field::Watts => "rated power",
        Field::WattsPer => "rated per",
        Field::DcOhms => "measured resistance",
        Field::AmplifierCount => "amplifiers of this kind",
        Field::Channels => "channels",
        Field::Bridges => "bridges",
        Field::ChannelLeast | Field::BridgeLeast => "least load",
        Field::ChannelRated | Field::BridgeRated => "rated power",
        Field::TerminalPairs => "terminal pairs",
        Field::BridgeChannels => "channels bridged",
        Field::PointOhms => "load",
        Field::PointWatts => "power",
        Field::Build => "box",
        Field::UnusedCoils => "coils left out on each",
        Field::Cups => "terminal cups",
        Field::CupCount => "cups",
        Field::JoinedAt => "cups joined at",
        Field::Fed => "drivers fed as",
        Field::MountedReversed => "mounted facing in",
        Field::Vehicle => "in a vehicle",
        Field::ConductorArea => "conductor",
        Field::BetweenCoils => "between coils of a driver",
        Field::BetweenDrivers => "between drivers",
        Field::ToCup => "driver to cup",
        Field::BetweenCups => "between cups",
        Field::ToAmplifier => "box to amplifier",
        Field::DriverTerminals => "driver terminals",
        Field::CupTerminals => "cup terminals",
        Field::AmplifierTerminals => "amplifier terminals",
        Field::Conductors => "conductors on one",
        Field::PushOn => "push-on tabs",
        Field::LargestArea => "largest conductor",
        Field::CupReading => "reading at the cup",
        Field::LeadsReading => "reading of the leads",
        Field::ReadingStep | Field::ReadsStep => "smallest step",
        Field::Readings | Field::SavedReadings => "readings",
        Field::CheckPoint => "check point",
        Field::Reads => "reading",
        Field::Question => "question",
        Field::Answered => "answer",
        Field::FileVersion => "version",
        Field::Rigs => "rigs",
        Field::RigName => "name of the rig",
        Field::Asked | Field::ComparedRequest => "rig",
        Field::TypedTexts => "typed texts",
        Field::ChosenKey | Field::ComparedKey => "configuration",
        Field::StepAtHand => "step",
        Field::StepsDone => "steps done",
        Field::Against => "against the meter",
        Field::SavedBox => "closed box",
        Field::PutAside => "compared",
        Field::TypedPath => "field",
        Field::TypedText => "text",
    }
}

/// A hint under an input, where one is needed.
#[must_use]
pub const fn hint(field: Field) -> Option<&'static str> {
    Some(match field {
        Field::CoilOhms => "Of one coil: on a label, dual 4 means 4.",
        Field::Watts => "Continuous (RMS). Peak and max figures do not count.",
        Field::DcOhms => "With the coil connected to nothing else.",
        Field::ChannelLeast => "The minimum stable load in the amplifier's manual.",
        Field::BridgeLeast => {
            "As the manual states it for bridged use. Left empty, it is derived: twice the channel's."
        }
        Field::ChannelRated | Field::BridgeRated => {
            "Continuous (RMS) power at each load in the manual. Peak and max figures do not count."
        }
        Field::TerminalPairs => {
            "Two pairs on one channel, tied inside, are one output; the plan has a reading that decides."
        }
        Field::Bridges => "Only the pairs its maker names: check the marks on the terminals.",
        Field::JoinedOnly => "Each driver's own coils are joined to each other first.",
        Field::EvenOnly => "Every coil gets the same fraction of its rating.",
        Field::From => "Counted from 0 in the order of rank.",
        Field::UnusedCoils => "They stay open with their ends insulated, never shorted.",
        Field::CupCount => {
            "Drivers go to them in their order. Left empty: one for each driver group."
        }
        Field::JoinedAt => "Left open: at the amplifier where it has two tied terminal pairs.",
        Field::Fed => "Chain: one driver fed from the next. Star: each from the same point.",
        Field::MountedReversed => "Their + and − are exchanged, so that all cones move air alike.",
        Field::PushOn => "A push-on tab takes one conductor.",
        Field::CupReading => "With the cables off the amplifier, the leads in it.",
        Field::LeadsReading => "With the probes touching.",
        Field::CheckPoint => "As “readings” names it: an act, and what is looked at more closely.",
        Field::Reads => "What the meter showed, the leads in it.",
        Field::Asked | Field::ComparedRequest => "As “configurations” takes it, finished or not.",
        Field::TypedTexts => "What stands in a field of the page and is no value yet.",
        Field::TypedPath => "As problems name it, such as drivers[0].ohms.",
        Field::ChosenKey | Field::ComparedKey => "As “configurations” names it.",
        Field::StepAtHand => "By the number of one of its acts.",
        Field::StepsDone => "By the numbers of all their acts.",
        Field::SavedReadings => "As “diagnose” takes them.",
        Field::Against => "In the words of whoever went on. Left out where nobody did.",
        Field::SavedBox => "As “closed_box” takes it, finished or not.",
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_says_what_it_takes() {
        let cases = [
            (Field::Drivers, "a list of 1 to 8 driver groups"),
            (Field::Amplifier, "an object"),
            (Field::JoinedOnly, "true or false"),
            (Field::From, "a whole number from 0 to 300,000"),
            (Field::Limit, "a whole number from 0 to 10,000"),
            (Field::Name, "text of at most 60 characters, none of them a control character"),
            (Field::Count, "a whole number from 1 to 16"),
            (Field::Coils, "1, 2 or 4"),
            (Field::CoilOhms, "a number from 0.1 to 1000 Ω, or text such as 1.4 or 4/3"),
            (Field::Watts, "a number from 0.1 to 100,000 W"),
            (Field::WattsPer, "“driver” or “coil”"),
            (Field::DcOhms, "a list of numbers, one for each coil, each from 0.01 to 2000 Ω"),
            (Field::ChannelRated, "a list of at most 8 rated points"),
            (Field::CupReading, "a number from 0 to 1,000,000 Ω, or the text “open”"),
            (Field::BridgeChannels, "a list of two different channel numbers, such as 1 and 2"),
            (Field::MountedReversed, "a list of driver numbers, none twice, each from 1 to 16"),
            (Field::StepsDone, "a list of act numbers, none twice, each from 1 to 1000"),
            (Field::TypedText, "text of at most 1000 characters"),
            (Field::Rigs, "a list of 1 to 200 rigs"),
            (Field::PutAside, "a list of at most 4 configurations"),
        ];
        for (field, want) in cases {
            assert_eq!(takes(field), want, "{field:?}");
        }
    }

    #[test]
    fn no_two_fields_of_an_object_are_called_alike() {
        for object in Object::ALL {
            let mut names: Vec<&str> = object.fields().map(the).collect();
            let all = names.len();
            names.sort_unstable();
            names.dedup();
            assert_eq!(names.len(), all, "{object:?}");
        }
    }
}
