//! The ohm ladder: loads on one upright logarithmic axis, beside rows of text.

mod column;
mod scale;

use crate::scene::{
    Anchor, Mark, Role, Scene, draw_line, draw_rect, draw_shape, draw_text, text_width,
};
use column::{Label, spread};
use core::ops::Range;
use scale::Scale;

/// One rung: a load, or neighbouring loads gathered into a band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rung {
    /// The load in ohms; of a band the highest.
    pub ohms: f64,
    /// The lowest load of a band in ohms; of a single load the same.
    pub to: f64,
    /// Whether a configuration there is even.
    pub even: bool,
    /// Whether the load is below the least load.
    pub low: bool,
}

/// A load that the amplifier's maker states something about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stated<'a> {
    /// Ohms.
    pub ohms: f64,
    /// What to write beside it, as `760 W`; nothing where empty.
    pub label: &'a str,
}

/// What the column beside the rows shows.
#[derive(Clone, Copy)]
pub struct Ladder<'a> {
    /// One for each row, the highest load first.
    pub rungs: &'a [Rung],
    /// Height of a row in units.
    pub pitch: i32,
    /// The least load.
    pub least: Option<Stated<'a>>,
    /// The rated points.
    pub rated: &'a [Stated<'a>],
    /// The row of the chosen rung.
    pub chosen: Option<usize>,
    /// The unit at the top of the axis, as `Ω`.
    pub unit: &'a str,
    /// Writes the number at a tick: a fraction in lowest terms, upper and lower part.
    pub tick: &'a dyn Fn(u32, u32) -> String,
}

impl core::fmt::Debug for Ladder<'_> {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_struct("Ladder").field("rungs", &self.rungs).finish_non_exhaustive()
    }
}

/// Size of all text in units.
const SIZE: i32 = 12;
/// Between the base lines of two labels.
pub(crate) const LINE: i32 = 16;
/// Between the stiles.
const BETWEEN: i32 = 30;
/// From the second stile to the rows.
const LEADERS: i32 = 28;

// Round the point: a mark on the axis, and arrows beyond its ends.
const DIAMOND: &str = "m-5 0l5-5 5 5-5 5z";
const ABOVE: &str = "m-4 3l4-6 4 6z";
const BELOW: &str = "m-4-3l4 6 4-6z";

/// Neighbouring loads gathered into at most `most` bands of nearly equal count; each load
/// alone where there are no more than that.
///
/// # Example
/// ```
/// use coilwright_drawing::ladder::gather;
/// assert_eq!(gather(5, 2), [0..2, 2..5]);
/// assert_eq!(gather(2, 9), [0..1, 1..2]);
/// ```
#[must_use]
pub fn gather(loads: usize, most: usize) -> Vec<Range<usize>> {
    let bands = loads.min(most.max(1));
    (0..bands).map(|i| i * loads / bands..(i + 1) * loads / bands).collect()
}

/// The column to the left of the rows, as tall as all of them.
#[must_use]
pub fn ladder(of: &Ladder<'_>) -> Scene {
    let mut scene = Scene::new();
    let rows = i32::try_from(of.rungs.len()).unwrap_or(0);
    scene.height = rows * of.pitch;
    let Some(scale) = Scale::of(of, scene.height) else {
        return scene;
    };
    let labels = labels(of, &scale);
    let ticks = scale.ticks(of.tick);

    // From the left: labels, pointers, tick labels, axis, rungs, leaders.
    let mut labelled = 0;
    for label in &labels {
        labelled = labelled.max(text_width(label.text, SIZE));
    }
    // Arrows stand between labels and pointers, so that no pointer crosses one.
    let arrows = if labels.iter().any(Label::is_beyond) { 11 } else { 0 };
    let point = if labelled > 0 { 2 + labelled + 3 + arrows } else { 0 };
    let numbers = if labelled > 0 { point + 14 } else { 2 };
    let mut numbered = text_width(of.unit, SIZE);
    for (_, text) in &ticks {
        numbered = numbered.max(text_width(text, SIZE));
    }
    let axis = numbers + numbered + 12;
    let end = axis + BETWEEN;
    scene.width = end + LEADERS;
    let bottom = scene.height;

    shade(of, &scale, axis, end, &mut scene);
    for x in [axis, end] {
        draw_line(&mut scene.marks, Role::Stile, (x, scale.top()), (x, bottom));
    }
    for (y, _) in &ticks {
        draw_line(&mut scene.marks, Role::Tick, (axis - 6, *y), (axis, *y));
    }
    // The chosen one last, over its neighbours.
    let mut over = Vec::new();
    for (i, rung) in of.rungs.iter().enumerate() {
        let row = i32::try_from(i).unwrap_or(0) * of.pitch + of.pitch / 2;
        let chosen = of.chosen == Some(i);
        let to = if chosen { &mut over } else { &mut scene.marks };
        one(rung, chosen, &scale, (axis, end), row, to);
    }
    if let Some(least) = of.least.and_then(|least| scale.inside(least.ohms)) {
        draw_line(&mut scene.marks, Role::Least, (axis - 6, least), (end + 6, least));
    }
    scene.marks.append(&mut over);
    for rated in of.rated {
        if let Some(y) = scale.inside(rated.ohms) {
            draw_shape(&mut scene.marks, Role::Rated, (axis, y), DIAMOND);
        }
    }
    for label in &labels {
        label.draw((2 + labelled, point), &ticks, axis, &mut scene.marks);
    }
    for (y, text) in ticks {
        let place = (numbers + numbered, y + 4);
        draw_text(&mut scene.marks, Role::TickLabel, place, Anchor::End, SIZE, text);
    }
    let place = (numbers + numbered, 13);
    draw_text(&mut scene.marks, Role::Unit, place, Anchor::End, SIZE, of.unit.to_owned());
    scene
}

/// One rung with its leader.
fn one(
    rung: &Rung,
    chosen: bool,
    scale: &Scale,
    (axis, end): (i32, i32),
    row: i32,
    to: &mut Vec<Mark>,
) {
    let (upper, lower) = (scale.y(rung.ohms), scale.y(rung.to));
    let middle = (upper + lower) / 2;
    // An uneven rung does not reach the second stile: nobody should stand on it.
    let reach = if rung.even { end } else { axis + BETWEEN * 3 / 5 };
    let leader = if chosen { Role::LeaderChosen } else { Role::Leader };
    for (a, b) in [
        ((reach, middle), (end + 4, middle)),
        ((end + 4, middle), (end + LEADERS - 6, row)),
        ((end + LEADERS - 6, row), (end + LEADERS, row)),
    ] {
        draw_line(to, leader, a, b);
    }
    if lower > upper {
        let role = match (chosen, rung.low, rung.even) {
            (true, ..) => Role::BandChosen,
            (_, true, true) => Role::BandLow,
            (_, true, false) => Role::BandLowUneven,
            (_, false, true) => Role::Band,
            (_, false, false) => Role::BandUneven,
        };
        // At least as thick as a rung is.
        let tall = (lower - upper).max(4);
        let corner = (axis, (middle - tall / 2).max(0));
        draw_rect(to, role, corner, reach - axis, tall, 0);
        return;
    }
    let role = match (rung.low, rung.even) {
        (true, true) => Role::RungLow,
        (true, false) => Role::RungLowUneven,
        (false, true) => Role::Rung,
        (false, false) => Role::RungUneven,
    };
    draw_line(to, role, (axis, middle), (reach, middle));
    if chosen {
        draw_line(to, Role::RungChosen, (axis, middle), (reach, middle));
    }
}

/// The region below the least load, between the stiles, hatched.
fn shade(of: &Ladder<'_>, scale: &Scale, axis: i32, end: i32, scene: &mut Scene) {
    let Some(least) = of.least else { return };
    let top = scale.y(least.ohms).max(scale.top());
    let tall = scene.height - top;
    let wide = end - axis;
    if tall <= 0 || scale.is_below(least.ohms) {
        return;
    }
    draw_rect(&mut scene.marks, Role::Shade, (axis, top), wide, tall, 0);
    // Lines from lower left to upper right, each cut off at the sides it meets.
    let mut sum = 8;
    while sum < wide + tall {
        let (left, right) = ((sum - tall).max(0), sum.min(wide));
        let ends = ((axis + left, top + sum - left), (axis + right, top + sum - right));
        draw_line(&mut scene.marks, Role::Hatch, ends.0, ends.1);
        sum += 8;
    }
}

/// The labels at the left, pushed apart where they would overlap.
fn labels<'a>(of: &Ladder<'a>, scale: &Scale) -> Vec<Label<'a>> {
    let mut labels = Vec::new();
    if let Some(least) = of.least {
        labels.push(Label::of(&least, Role::LeastLabel, scale));
    }
    for rated in of.rated {
        labels.push(Label::of(rated, Role::RatedLabel, scale));
    }
    spread(labels, scale)
}

#[cfg(test)]
mod tests;
