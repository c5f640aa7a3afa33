//! How the drawing lies on the page, so that it is as large as it can be: one way for each
//! shape that a drawing may have. The style sheet then gives it all the room that is left.

use crate::words::wiring::Wording;
use coilwright_solver::meter::at_act;

/// The most drivers whose sheet is one page.
pub const FEW: u32 = 4;
/// The most outputs that stand beside the wire.
pub const OUTPUTS: usize = 2;

/// What stands beside the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// Outputs, wire and readings: it is slim.
    Slim,
    /// Outputs and wire.
    Beside,
    /// Nothing.
    Across,
}

/// How what is not drawn is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Set {
    /// With room to write between the readings.
    Roomy,
    /// Closely.
    Close,
    /// More closely: the steps leave it to the drawing which terminals several runs join.
    Brief,
}

/// How a drawing lies on the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lies {
    /// In how many columns it is cut.
    pub columns: i32,
    /// What stands beside it.
    pub how: How,
    /// How the rest is set.
    pub set: Set,
}

/// The most columns: a drawing of sixteen drivers is six times as tall as it is wide.
const COLUMNS: i32 = 4;
/// What both A4 and Letter have within their margins, in CSS pixels.
const PAGE: [i32; 2] = [733, 995];
/// What head, cautions and gaps take of its height.
const TOP: i32 = 222;
/// What stands beside a drawing takes so much of its width, and holds so many letters in a line.
const SLIM: (i32, i32) = (264, 47);
const BESIDE: (i32, i32) = (166, 28);
/// The letters of a line in half a page.
const HALF: i32 = 66;
/// The room on the first page of two.
const OF_MANY: [i32; 2] = [733, 516];
/// What outputs and wire take of it, where they stand there.
const BAND: i32 = 180;
/// The height of a line of text; of a reading, and where there is room to write; of headings.
const LINE: i32 = 12;
const ROWS: [i32; 2] = [13, 19];
const HEAD: i32 = 40;
/// The letters of a line of the steps, closely and more closely set.
const OF_STEPS: [usize; 2] = [30, 34];
/// The thousandths of its natural size from which on a drawing is read at arm's length, and
/// leaves room to write: what is foretold here may come out a little smaller.
const LARGE: i32 = 1040;

impl Lies {
    /// As large as a drawing of this size can be; so much is between two columns of it, and so
    /// many lines stand among the cautions beside those that always do.
    #[must_use]
    pub fn of(size: (i32, i32), wording: &Wording<'_>, apart: i32, said: usize) -> Self {
        let [roomy, close, brief] = [Set::Roomy, Set::Close, Set::Brief]
            .map(|set| Self::best(size, rooms(wording, set, LINE * count(said)), apart, set));
        if roomy.1 >= LARGE || roomy.1 > 0 && roomy.1 == close.1 {
            roomy.0
        } else if close.1 >= LARGE || close.1 >= brief.1 {
            close.0
        } else {
            brief.0
        }
    }

    /// The largest, and its thousandths of the natural size.
    fn best(size: (i32, i32), rooms: Vec<(How, [i32; 2])>, apart: i32, set: Set) -> (Self, i32) {
        let mut best = Self { columns: 1, how: How::Across, set };
        let mut most = 0;
        for columns in 1..=COLUMNS {
            let whole = [columns * (size.0 + apart) - apart, size.1 / columns];
            for (how, room) in &rooms {
                let scale = room.iter().zip(whole).map(|(room, size)| room * 1000 / size.max(1));
                // A drawing that is cut is harder to follow than a smaller one.
                let scale = scale.min().unwrap_or(0) * 4 / (columns + 3);
                if scale > most {
                    (best, most) = (Self { columns, how: *how, set }, scale);
                }
            }
        }
        (best, most)
    }
}

/// The room that each way leaves to a drawing.
fn rooms(wording: &Wording<'_>, set: Set, said: i32) -> Vec<(How, [i32; 2])> {
    let [wide, high] = PAGE;
    let drivers = wording.rig.drivers();
    let [close, roomy] = ROWS;
    let row = if set == Set::Roomy { roomy } else { close };
    let in_thirds = points(wording, row, 18);
    let steps = LINE * lines(wording, set == Set::Brief) / 4 + HEAD;
    let readings = in_thirds / 3 + row + HEAD + LINE;
    if drivers > FEW {
        // The steps share the second page with the readings, and with more than a few outputs.
        let [wide, mut tall] = OF_MANY;
        let mut second = steps + readings;
        if wording.configuration.outputs.len() > OUTPUTS {
            tall += BAND;
            second += side(wording, HALF) / 2;
        }
        return vec![(How::Across, [wide, if second > high { 0 } else { tall }])];
    }
    // Who has room to write can spare some.
    let spared = if set == Set::Roomy { 2 * LINE } else { 0 };
    let left = high - TOP - said - steps - spared;
    let below = left - readings;
    let [slim, beside] = [SLIM, BESIDE].map(|(_, letters)| side(wording, letters));
    let mut rooms = vec![(How::Across, [wide, below - side(wording, HALF) * 2 / 3])];
    // What stands beside must not be taller than the drawing may be.
    if slim + points(wording, row, 30) + HEAD <= left {
        rooms.push((How::Slim, [wide - SLIM.0, left]));
    }
    if beside <= below {
        rooms.push((How::Beside, [wide - BESIDE.0, below]));
    }
    rooms
}

/// About how tall outputs and wire are, where a line holds so many letters.
fn side(wording: &Wording<'_>, letters: i32) -> i32 {
    let long = |text: &str| count(text.chars().count()) / letters + 1;
    let mut lines = 5;
    for output in &wording.configuration.outputs {
        lines += 6 + long(&output.network.to_string());
    }
    for (stage, lot) in wording.wire() {
        lines += long(&[stage, &lot].join("  "));
    }
    lines += long(&wording.fittings().join("; "));
    for note in wording.notes() {
        lines += long(&note);
    }
    LINE * lines
}

/// What stands at a step on paper: its title, whether the lines go on in that, and the lines.
pub fn step(wording: &Wording<'_>, number: usize, brief: bool) -> (String, bool, Vec<String>) {
    let (title, on, mut lines) = wording.step_on_paper(number, brief);
    let plan = wording.plan;
    let of = plan.steps.get(number);
    let places = of.is_some_and(|of| !of.runs(plan).is_empty());
    let mut acts = of.into_iter().flat_map(|of| of.acts());
    let reads = |act| !at_act(plan, u16::try_from(act).unwrap_or(u16::MAX)).is_empty();
    // What is read stands among the readings.
    if !places && acts.any(reads) {
        lines.clear();
    }
    (title, on, lines)
}

/// About how many lines the steps take in one column.
fn lines(wording: &Wording<'_>, brief: bool) -> i32 {
    let [close, closer] = OF_STEPS;
    let letters = if brief { closer } else { close };
    let tall = |text: &String| count(text.chars().count().div_ceil(letters));
    let steps = (0..wording.plan.steps.len()).map(|number| step(wording, number, brief));
    let tall_of = |(mut title, on, mut lines): (String, bool, Vec<String>)| {
        if on && !lines.is_empty() {
            title.push_str(&lines.remove(0));
        }
        tall(&title) + lines.iter().map(tall).sum::<i32>()
    };
    steps.map(tall_of).sum()
}

/// How tall the readings are that the steps ask for, where a name has so many letters in a line.
fn points(wording: &Wording<'_>, row: i32, letters: i32) -> i32 {
    let acts = u16::try_from(wording.plan.acts.len()).unwrap_or(u16::MAX);
    let points = (0..acts).flat_map(|act| at_act(wording.plan, act));
    let tall = |point| {
        let name = count(wording.point_short(&point).chars().count());
        row.max(LINE * (name / letters + 1))
    };
    points.map(tall).sum()
}

fn count(count: usize) -> i32 {
    i32::try_from(count).unwrap_or(i32::MAX / 1000)
}
