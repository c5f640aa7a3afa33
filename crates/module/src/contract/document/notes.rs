//! What the document says of a field beside what the page, the schema and the types say.

use coilwright_solver::bounds::Field;

/// What stands in for a field, where that is more than a value.
pub(super) const fn left_out(field: Field) -> Option<&'static str> {
    Some(match field {
        Field::Build => "no box, everything by its default",
        Field::CupCount => "one for each driver group",
        Field::JoinedAt => "at the amplifier where it can be",
        Field::DriverTerminals | Field::CupTerminals | Field::AmplifierTerminals => "as usual",
        Field::Conductors => "2; 1 on a push-on tab",
        Field::CheckPoint | Field::Reads => "required for a reading",
        Field::Question | Field::Answered => "required for an answer",
        _ => return None,
    })
}

/// What else there is to say of it.
pub(super) const fn more(field: Field) -> Option<&'static str> {
    Some(match field {
        Field::Limit => "In a saved rig it may be 300,000, as it once could, and changes nothing.",
        Field::UnusedCoils => "The last ones of each driver; at least one stays in use.",
        Field::DcOhms => "Driver by driver, coil by coil, those left out too.",
        Field::TerminalPairs => "A plan may then join cups at the amplifier.",
        Field::Cups => {
            "What has a terminal cup of its own: nothing, all drivers together, each group, each driver, each coil."
        }
        Field::CupCount => {
            "Where cups is “group” alone, and at most the drivers; the first cups take one more."
        }
        Field::JoinedAt => "Of cups in parallel; “amplifier” is only possible on such a channel.",
        Field::Fed => "A star is fed so where terminals take the conductors.",
        Field::MountedReversed => "Counted from 1.",
        Field::Vehicle => {
            "Whether a vehicle's battery feeds the amplifier and not the mains: what power off means."
        }
        Field::ConductorArea => "Of every conductor.",
        Field::CupTerminals => "On each side of the cup.",
        Field::LargestArea => "At least the conductor of the box.",
        Field::CheckPoint => "One that the plan does not have is “not_one_of”.",
        Field::Reads => "Ohms never as text.",
        Field::FileVersion => "Of a file of another version nothing else is told.",
        Field::Asked => "Its “from” and “limit” are read and change nothing.",
        Field::TypedTexts => "A text counts before a value at the same path.",
        Field::TypedPath => {
            "A reading as “readings.” and its point; what is not yet said against the meter as “against”. Not checked."
        }
        Field::TypedText => "As it was typed.",
        Field::ChosenKey | Field::ComparedKey => "Not checked against the rig.",
        Field::SavedReadings => {
            "In the order taken, not checked against the plan; a text that is no reading yet stands in “typed”."
        }
        Field::Against => "What is typed and was not said yet stands in “typed”.",
        _ => return None,
    })
}
