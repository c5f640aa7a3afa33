//! The room in which a configuration is wired.

use super::MARKS;
use crate::english::sentence;
use coilwright_solver::rig::{Cups, Fed, JoinedAt};

/// The room.
pub const WIRE_IT: &str = "Wire it";
/// Where there is no plan, and why that may be.
pub const NO_PLAN: &str = "There is no plan yet: what stands in its way is told beside the box.";

/// Over the form of the box.
pub const BOX: &str = "The box";
/// Begins the sentence of the box.
pub const IT_HAS: &str = "Wire it with";
/// A choice of cups: `no box` and so on, in the order of the contract.
pub const NO_BOX: &str = "no box";
/// One cup.
pub const ONE_CUP: &str = "one cup for all";
/// A cup for each group.
pub const CUP_FOR_GROUP: &str = "a cup for each group";
/// A cup for each driver.
pub const CUP_FOR_DRIVER: &str = "a cup for each driver";
/// A cup for each coil.
pub const CUP_FOR_COIL: &str = "a cup for each coil";

/// The choice that is left to the plan.
pub const JOINED_WHERE_IT_CAN_BE: &str = "amplifier, if possible";
/// At the amplifier.
pub const JOINED_AT_AMPLIFIER: &str = "the amplifier";
/// At the box.
pub const JOINED_AT_BOX: &str = "the box";

/// One from the next.
pub const CHAIN: &str = "a chain";
/// Each from the same point.
pub const STAR: &str = "a star";

/// Over the ticks of drivers that face in.
pub const FACING_IN: &str = "Mounted facing in, on purpose";

/// Over the conductor and the distances.
pub const LENGTHS: &str = "Conductor and distances";
/// Over what terminals take.
pub const TERMINALS: &str = "What terminals take";

/// The steps.
pub const STEPS: &str = "Steps";
/// The parts.
pub const PARTS: &str = "Parts";
/// The circuit as it lies in the box.
pub const AS_WIRED: &str = "As wired";

/// What a run in the drawing looks like that is one with the positive terminal, with the
/// negative one, and with neither.
pub const LOOKS: [&str; 3] = ["striped: +", "plain: −", "thin: in series"];
/// Which of the terminals of two bridged channels are the pair (common practice, no source),
/// in the two lines that there is room for.
pub const MARKED: [&str; 2] = ["two of these four,", "by the maker’s marks"];

/// Draws it larger.
pub const LARGER: &str = "Larger";
/// Draws it smaller.
pub const SMALLER: &str = "Smaller";
/// Draws all of it.
pub const WHOLE: &str = "Whole";
/// To the run before.
pub const RUN_BEFORE: &str = "Run before";
/// To the run after.
pub const RUN_AFTER: &str = "Run after";
/// How one moves about in the drawing.
pub const DRAWING_HELP: &str =
    "Touch a run, or go from run to run with the arrows: its step stands below.";
/// Where there is no drawing.
pub const NOT_DRAWN: &str = "This drawing could not be routed: please report it with the link. The steps are complete without it.";

/// One step at a time, in large type.
pub const WORKING: &str = "Working mode";
/// To that, where nothing was done yet.
pub const START_WORKING: &str = "Start working";
/// To that, where something was.
pub const GO_ON_WORKING: &str = "Go on working";
/// Leaves it.
pub const LEAVE_WORKING: &str = "All steps";
/// To the next step, this one being done.
pub const NEXT: &str = "Next";
/// To the next step, this one not being done.
pub const SKIP: &str = "Skip";
/// To the step before.
pub const BACK: &str = "Back";
/// Ticks a step off, and goes on.
pub const DONE: &str = "Done";
/// That a step is ticked off.
pub const IS_DONE: &str = "✓ This step is done.";
/// Takes that back.
pub const NOT_DONE: &str = "Not done";
/// What a step asks for, at length.
pub const HOW: &str = "How";
/// Every step is ticked off.
pub const ALL_DONE: &str = "Every step is done.";
/// The last step was reached, and not every one is ticked off.
pub const AT_THE_END: &str = "That was the last step.";
/// Over what was read of what no plan has for now.
pub const ASIDE: &str = "Read of what this plan does not have";
/// What becomes of it.
pub const ASIDE_HELP: &str =
    "It comes back with the box and the configuration that it was read of.";
/// Over what was read.
pub const READ_THERE: &str = "What was read";
/// Where nothing was.
pub const NOTHING_READ: &str = "Nothing was read.";
/// To where rigs are kept by name.
pub const KEEP_IT: &str = "Keep this rig";
/// To the job sheet.
pub const SHEET_AND_PRINT: &str = "Job sheet to print";
/// The drawing as far as the step at hand is about it.
pub const THIS_STEP: &str = "This step";
/// Speaks the steps.
pub const READ_ALOUD: &str = "Read aloud";
/// Takes every tick back.
pub const START_OVER: &str = "Start over";
/// Copies them as text.
pub const COPY_STEPS: &str = "Copy the steps";
/// That they are copied.
pub const COPIED: &str = "Copied";
/// That the browser does not let the page copy.
pub const NOT_COPIED: &str = "This browser did not let the page copy. Select the text instead.";

/// Saves the drawing.
pub const SAVE_SVG: &str = "Save as SVG";
/// Saves the drawing as a picture of points.
pub const SAVE_PNG: &str = "Save as PNG";

/// The page that is handed over.
pub const JOB_SHEET: &str = "Job sheet";
/// Prints it.
pub const PRINT: &str = "Print";
/// The field of a reading.
pub const IT_READS: &str = "the meter reads";
/// Before what is right beside what the leads read.
pub const WITH_LEADS: &str = "with your leads ";
/// What can be entered there.
pub const READ_HELP: &str = "Ohms as shown, or OL where the meter shows no end.";
/// A reading that cannot be read.
pub const NOT_A_READING: &str = "Enter ohms as the meter shows them, such as 1.9 or 0,9, or OL.";
/// A reading below nothing.
pub const NEGATIVE: &str = "A resistance is never negative: is the meter set to ohms?";

/// Which step it is, counted from 1.
///
/// # Example
/// ```
/// assert_eq!(coilwright_words::english::page::wire::step_of(3, 14), "Step 3 of 14");
/// ```
#[must_use]
pub fn step_of(step: usize, of: usize) -> String {
    format!("Step {} of {}", count(step), count(of))
}

/// How many steps are ticked off.
///
/// # Example
/// ```
/// assert_eq!(coilwright_words::english::page::wire::done_of(5, 14), "done 5 of 14");
/// ```
#[must_use]
pub fn done_of(done: usize, of: usize) -> String {
    format!("done {} of {}", count(done), count(of))
}

/// How many steps were left out.
///
/// # Example
/// ```
/// use coilwright_words::english::page::wire::skipped;
/// assert_eq!(skipped(1), "1 step was skipped:");
/// assert_eq!(skipped(3), "3 steps were skipped:");
/// ```
#[must_use]
pub fn skipped(steps: usize) -> String {
    match steps {
        1 => "1 step was skipped:".to_owned(),
        _ => format!("{} steps were skipped:", count(steps)),
    }
}

/// A reading as typed, with its unit where it is a number.
///
/// # Example
/// ```
/// use coilwright_words::english::page::wire::with_ohms;
/// assert_eq!(with_ohms("1.1"), "1.1 Ω");
/// assert_eq!(with_ohms("OL"), "OL");
/// ```
#[must_use]
pub fn with_ohms(read: &str) -> String {
    let unit = if read.bytes().any(|byte| byte.is_ascii_digit()) { " Ω" } else { "" };
    format!("{read}{unit}")
}

/// A driver by its number, counted from 1.
#[must_use]
pub fn driver(number: u32) -> String {
    format!("driver {number}")
}

/// The box that ticks a step off.
#[must_use]
pub fn done_with(step: &str) -> String {
    format!("{DONE}: {step}")
}

/// A choice of cups.
#[must_use]
pub const fn cups(cups: Cups) -> &'static str {
    match cups {
        Cups::None => NO_BOX,
        Cups::One => ONE_CUP,
        Cups::Group(_) => CUP_FOR_GROUP,
        Cups::Driver => CUP_FOR_DRIVER,
        Cups::Coil => CUP_FOR_COIL,
    }
}

/// A box in a line.
///
/// # Example
/// ```
/// use coilwright_solver::rig::{Cups, Fed};
/// use coilwright_words::english::page::wire::box_line;
/// assert_eq!(box_line(Cups::One, Fed::Chain, 2.5), "One cup for all, a chain, 2.5 mm²");
/// ```
#[must_use]
pub fn box_line(of: Cups, fed: Fed, conductor_mm2: f64) -> String {
    let mut text = sentence(cups(of));
    text.push_str(match fed {
        Fed::Chain => ", a chain, ",
        Fed::Star => ", a star, ",
    });
    text.push_str(&MARKS.short(conductor_mm2));
    text.push_str(" mm²");
    text
}

/// A choice of the place where cups are joined.
#[must_use]
pub const fn joined_at(at: Option<JoinedAt>) -> &'static str {
    match at {
        None => JOINED_WHERE_IT_CAN_BE,
        Some(JoinedAt::Amplifier) => JOINED_AT_AMPLIFIER,
        Some(JoinedAt::Box) => JOINED_AT_BOX,
    }
}

fn count(count: usize) -> String {
    MARKS.whole(u128::try_from(count).unwrap_or(u128::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;
    use coilwright_solver::bounds::{Field, Kind};

    /// Every choice of the contract has words of its own.
    #[test]
    fn every_choice_of_the_box_has_its_words() {
        let choices = |field: Field| match field.spec().kind {
            Kind::OneOfWords(words) => words,
            _ => &[],
        };
        let mut said = Vec::new();
        for name in choices(Field::Cups) {
            said.push(Cups::named(name).map(cups).unwrap());
        }
        let want = [
            "no box",
            "one cup for all",
            "a cup for each group",
            "a cup for each driver",
            "a cup for each coil",
        ];
        assert_eq!(said, want);
        let at = choices(Field::JoinedAt).iter().map(|name| joined_at(JoinedAt::named(name)));
        assert_eq!(at.collect::<Vec<_>>(), ["the amplifier", "the box"]);
        assert_eq!(joined_at(None), "amplifier, if possible");
    }

    #[test]
    fn steps_are_counted_from_one() {
        assert_eq!(step_of(1, 1), "Step 1 of 1");
        assert_eq!(done_of(0, 14), "done 0 of 14");
    }
}
