//! What is wrong with a request and what to do about it: one sentence or two for
//! each problem, fit to stand beside a field of the page and in a JSON answer.

use super::defects;
use super::fields::{bounds, numbered, takes, the};
use super::{MARKS, sentence};
use coilwright_solver::bounds::{Field, Kind, MOST_COILS, MOST_CONFIGURATIONS};
use coilwright_solver::problem::{Code, Detail, Problem, Why};

/// The message of a problem.
///
/// # Example
/// ```
/// use coilwright_solver::bounds::Field;
/// use coilwright_solver::problem::{Code, Detail, Path, Problem};
/// use coilwright_words::english::problems::message;
/// let path = Path::root().field("drivers").entry(0).field("count");
/// let problem = Problem::new(path, Code::OutOfRange, Detail::Field(Field::Count));
/// assert_eq!(message(&problem), "The number of drivers in the group must be from 1 to 16.");
/// ```
#[must_use]
pub fn message(problem: &Problem) -> String {
    match (problem.code, &problem.detail) {
        (Code::NotAnObject, Detail::Field(Field::CupReading)) => {
            "This must be an object with what the meter showed in the field “reading”.".to_owned()
        }
        (Code::NotAnObject, Detail::Field(Field::Rigs)) => {
            "This is no file of saved rigs: it must be an object with a list of rigs in the field “rigs”."
                .to_owned()
        }
        (Code::NotAnObject, _) => {
            "The request must be an object with a list of driver groups in the field “drivers”."
                .to_owned()
        }
        (Code::UnknownField, Detail::Name(name)) => format!(
            "There is no field “{}” here: leave it out, or check its spelling.",
            cut(name)
        ),
        (Code::UnknownField, _) => {
            "There is no such field here: leave it out, or check its spelling.".to_owned()
        }
        (Code::WrongLength, Detail::Length { want, found }) => format!(
            "There must be one measured resistance for each coil of the group: {want}, not {found}."
        ),
        (Code::WrongLength, _) => "The list must have one entry for each coil.".to_owned(),
        (Code::Repeated, detail) => repeated(detail).to_owned(),
        (Code::NotPossibleHere, detail) => not_possible(detail),
        (Code::TooManyCoils, detail) => too_many_coils(detail),
        (Code::TooMany, detail) => too_many(detail),
        (Code::TooMuchWork, _) => format!(
            "Finding every configuration of these drivers would take too long. {FEWER_WITH}"
        ),
        (Code::TooExact, _) => {
            "These impedances make fractions too long to compute exactly. Give the coils' ohms as their labels do, with fewer digits."
                .to_owned()
        }
        (Code::UnknownConfiguration, _) => {
            "This key is no configuration of these drivers: every coil must stand in it exactly once."
                .to_owned()
        }
        (Code::NotStarted, _) => "The module is not loaded: call “await init()” first.".to_owned(),
        (Code::Closed, _) => "This list is closed: open it again.".to_owned(),
        (Code::Defect, Detail::Defect(of)) => defects::defect(*of),
        (Code::Defect, _) => defects::SOMEWHERE.to_owned(),
        (Code::Missing, Detail::Field(Field::CheckPoint)) => {
            "The check point is missing: give its name, such as 2 or 14.across.1a.".to_owned()
        }
        (Code::NotOneOf, Detail::Field(Field::CheckPoint)) => {
            "There is no such check point in this plan: take one of those that “readings” names, such as 2 or 14.across.1a."
                .to_owned()
        }
        (Code::NotOneOf, Detail::Field(Field::FileVersion)) => format!(
            "The version of the file must be {}: one of another version cannot be read here.",
            bounds(Field::FileVersion)
        ),
        (code, Detail::Field(field)) => of_field(code, *field),
        (code, Detail::Entry(field)) => of_entry(code, *field),
        (Code::OutOfRange, Detail::Most { most, .. }) => {
            format!("There are too many entries in this list: at most {most} can ever be right.")
        }
        (Code::Missing, _) => "A value is missing here.".to_owned(),
        (Code::WrongType, _) => "A value of this type cannot stand here.".to_owned(),
        (Code::OutOfRange, _) => "This value is out of bounds.".to_owned(),
        (Code::NotANumberText, _) => format!("This is not a number. {WRITE}"),
        (Code::TooManyPlaces, _) => format!("This number has too many decimals. {FEWER}"),
        (Code::NotOneOf, _) => "This value is none of those that can stand here.".to_owned(),
    }
}

const WRITE: &str =
    "Write digits with an optional decimal point, such as 4 or 1.4, or a fraction such as 4/3.";
const WRITE_PLAIN: &str = "Write digits with an optional decimal point, such as 4 or 1.4.";
const WRITE_LIST: &str = "Write a number for each coil with blanks between, such as 3.6 3.7.";
const FEWER_PLAIN: &str = "Give at most four.";
const FEWER: &str = "Give at most four, or write it as a fraction such as 4/3.";
const FEWER_WITH: &str =
    "There are fewer with “joined only” and “even only” on, or with fewer coils.";

/// A problem that the field's row of the table explains.
fn of_field(code: Code, field: Field) -> String {
    let the = sentence(the(field));
    match code {
        Code::Missing => format!("{the} is missing: give {}.", takes(field)),
        // Only ohms take fractions.
        Code::NotANumberText => match field.spec().kind {
            Kind::Ohms { .. } => format!("{the} cannot be read as a number. {WRITE}"),
            Kind::Numbers { .. } => format!("{the} cannot be read. {WRITE_LIST}"),
            _ => format!("{the} cannot be read as a number. {WRITE_PLAIN}"),
        },
        Code::TooManyPlaces => match field.spec().kind {
            Kind::Ohms { .. } => format!("{the} has too many decimals. {FEWER}"),
            _ => format!("{the} has too many decimals. {FEWER_PLAIN}"),
        },
        Code::NotOneOf if !matches!(field.spec().kind, Kind::Reading { .. }) => {
            format!("{the} must be {}.", bounds(field))
        }
        Code::OutOfRange => match field.spec().kind {
            Kind::Text { .. } | Kind::AnyText { .. } => {
                format!("{the} must have {}.", bounds(field))
            }
            Kind::Objects { .. } => format!("{the} must have {} entries.", bounds(field)),
            Kind::TwoChannels => format!("{the} must have two entries."),
            Kind::Different { .. } => format!("{the} has too many entries."),
            _ => format!("{the} must be {}.", bounds(field)),
        },
        _ => format!("{the} must be {}.", takes(field)),
    }
}

/// A problem of one entry of a list.
fn of_entry(code: Code, field: Field) -> String {
    match (code, field.spec().kind) {
        (Code::OutOfRange, Kind::Numbers { .. }) => {
            format!("Each measured resistance must be {}.", bounds(field))
        }
        (_, Kind::Numbers { .. }) => {
            format!("Each measured resistance must be a number {}.", bounds(field))
        }
        (_, Kind::Different { .. }) => {
            let one = if field == Field::StepsDone { "An" } else { "A" };
            format!("{one} {} is given by its number, counted from 1.", numbered(field))
        }
        (_, Kind::TwoChannels) => {
            "A bridged channel is given by its number, counted from 1.".to_owned()
        }
        _ => format!("Each entry in {} must be an object.", the(field)),
    }
}

const fn repeated(detail: &Detail) -> &'static str {
    match detail {
        Detail::Field(Field::PointOhms) => {
            "This load has a rated power already: each load may stand in the list once."
        }
        Detail::Field(Field::BridgeChannels) => {
            "This channel is in another bridge already: a channel can be in one bridge only."
        }
        Detail::Entry(Field::MountedReversed) => {
            "This driver stands in the list already: it may stand once."
        }
        Detail::Entry(Field::StepsDone) => {
            "This act stands in the list already: it may stand once."
        }
        _ => "This value stands here already: it may stand once.",
    }
}

fn not_possible(detail: &Detail) -> String {
    match detail {
        Detail::Why(Why::NoSuchChannel { channel, channels: 1 }) => {
            format!("There is no channel {channel}: the amplifier has one, and a bridge takes two.")
        }
        Detail::Why(Why::NoSuchChannel { channel, channels }) => {
            format!("There is no channel {channel}: the amplifier has {channels}, counted from 1.")
        }
        Detail::Why(Why::BridgedToItself) => "A bridge takes two different channels.".to_owned(),
        Detail::Why(why) => not_here(*why),
        Detail::Field(Field::Question | Field::Answered) => {
            "An entry is either a reading at a check point or the answer to a question: make two entries of it.".to_owned()
        }
        _ => "This value does not go with the rest of the request.".to_owned(),
    }
}

/// Why the box does not go with the rig or with the configuration.
fn not_here(why: Why) -> String {
    let text = match why {
        Why::NoSuchChannel { .. } | Why::BridgedToItself => "",
        Why::NoCoilLeft => "One coil of a driver at least must be in use.",
        Why::MoreCups { cups, drivers } => {
            let cups = MARKS.whole(u128::from(cups));
            return format!("There are more cups than drivers: {cups} cups, {drivers} drivers.");
        }
        Why::CupsNotCounted => {
            "The number of cups follows from the rest: give one only where each group of drivers has a cup."
        }
        Why::NoTiedPairs => {
            "No channel of the amplifier has two tied terminal pairs, so nothing can be joined there."
        }
        Why::NoSuchDriver { driver, drivers } => {
            return format!("There is no driver {driver}: they are numbered from 1 to {drivers}.");
        }
        Why::TabTakesOne => "A push-on tab takes one conductor.",
        Why::CupNotWhole { driver } => {
            return format!(
                "Driver {driver} cannot be wired through this cup in this configuration: what is behind a cup must be joined to one + and one −. Take other cups, or another configuration."
            );
        }
        Why::NotJoinedThere => {
            "This configuration has nothing to join at the amplifier: that takes cups in parallel on an output with two tied terminal pairs."
        }
        Why::ConductorTooLarge => "The conductor is larger than this terminal takes.",
    };
    text.to_owned()
}

fn too_many_coils(detail: &Detail) -> String {
    let (most, found) = match detail {
        Detail::Most { most, found } => (*most, *found),
        _ => (u64::from(MOST_COILS), None),
    };
    let found = found.map_or_else(
        || "There are more coils than can be planned at once".to_owned(),
        |found| format!("There are {} coils in all", MARKS.whole(found)),
    );
    format!("{found}: at most {most} are possible. Ask about fewer drivers.")
}

fn too_many(detail: &Detail) -> String {
    let (most, found) = match detail {
        Detail::Most { most, found } => (*most, *found),
        _ => (MOST_CONFIGURATIONS, None),
    };
    let most = MARKS.whole(u128::from(most));
    match found {
        Some(found) => format!(
            "There are {} configurations, too many to list: at most {most} are. {FEWER_WITH}",
            MARKS.whole(found)
        ),
        None => {
            format!("There are more than {most} configurations, too many to list. {FEWER_WITH}")
        }
    }
}

/// At most 40 characters of a name that someone else chose.
fn cut(name: &str) -> String {
    const MOST: usize = 40;
    if name.chars().count() <= MOST {
        return name.to_owned();
    }
    name.chars().take(MOST).chain(['…']).collect()
}

#[cfg(test)]
#[path = "problems_tests.rs"]
mod tests;
