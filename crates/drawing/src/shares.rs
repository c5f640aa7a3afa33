//! What each coil of an uneven configuration gets, as bars.

use crate::scene::{
    Anchor, Mark, Point, Role, Scene, draw_line, draw_name, draw_rect, draw_text, text_width,
};

/// One driver.
#[derive(Clone, Debug)]
pub struct Row {
    /// The driver's name.
    pub label: String,
    /// What it is called beside that; blank where it is not.
    pub name: String,
    /// Its coils.
    pub coils: Vec<Share>,
}

/// What one coil gets.
#[derive(Clone, Debug)]
pub struct Share {
    /// The coil's name, as `1a`.
    pub label: String,
    /// Its power as a fraction of its rating, or of what the hottest coil gets.
    pub fraction: f64,
    /// The figure at the end of its bar.
    pub figure: String,
}

/// Size of all text in units.
const SIZE: i32 = 13;
/// Height of a coil's line, and of the bar in it.
const LINE: i32 = 22;
const BAR: i32 = 12;
/// Between two drivers.
const APART: i32 = 10;

/// A bar for each coil, in a picture `room` units wide; `all` names the line at the
/// fraction 1, as "all of its rating".
#[must_use]
pub fn shares(rows: &[Row], all: &str, room: i32) -> Scene {
    let (mut named, mut coiled, mut figured) = (0, 0, 0);
    let mut most: f64 = 1.0;
    for row in rows {
        named = named.max(text_width(&row.label, SIZE));
        for coil in &row.coils {
            coiled = coiled.max(text_width(&coil.label, SIZE));
            figured = figured.max(text_width(&coil.figure, SIZE));
            most = most.max(coil.fraction.min(1e6));
        }
    }
    // A driver's label stands beside its coils where there is room, else above them, and
    // what it is called behind that.
    let called = rows.iter().any(|row| !row.name.is_empty());
    let beside = !called && named + coiled + figured + 120 <= room;
    let coils = if beside { 2 + named + 10 } else { 2 };
    let left = coils + coiled + 8;
    let right = (room - figured - 8).max(left + 40);
    #[expect(clippy::cast_possible_truncation, reason = "at most as long as the room is wide")]
    let long = |fraction: f64| {
        libm::round(f64::from(right - left) * fraction.max(0.0).min(most) / most) as i32
    };
    let limit = left + long(1.0);
    let mut scene = Scene::new();
    scene.width = right + figured + 8;
    let mut y = if all.is_empty() { 2 } else { 22 };
    let first = y;
    for row in rows {
        if !beside {
            text(&mut scene.marks, Role::RowLabel, (2, y + 15), Anchor::Start, &row.label);
            let after = 2 + text_width(&row.label, SIZE) + 8;
            let left = (scene.width - after).max(0);
            draw_name(&mut scene.marks, (after, y + 15), Anchor::Start, SIZE, &row.name, left);
            y += LINE;
        }
        for (i, coil) in row.coils.iter().enumerate() {
            let base = y + 16;
            if beside && i == 0 {
                text(&mut scene.marks, Role::RowLabel, (2, base), Anchor::Start, &row.label);
            }
            let top = y + (LINE - BAR) / 2;
            let wide = long(coil.fraction);
            text(&mut scene.marks, Role::CoilLabel, (coils, base), Anchor::Start, &coil.label);
            draw_rect(&mut scene.marks, Role::Track, (left, top), limit - left, BAR, 0);
            let over = wide > limit - left;
            let role = if over { Role::BarOver } else { Role::Bar };
            draw_rect(&mut scene.marks, role, (left, top), wide, BAR, 0);
            let place = (scene.width - 2, base);
            text(&mut scene.marks, Role::Figure, place, Anchor::End, &coil.figure);
            y += LINE;
        }
        y += APART;
    }
    scene.height = (y - APART).max(first) + 4;
    draw_line(&mut scene.marks, Role::Limit, (limit, first - 2), (limit, scene.height - 2));
    if !all.is_empty() {
        let half = text_width(all, SIZE) / 2;
        let x = limit.min(scene.width - half - 2).max(half + 2);
        text(&mut scene.marks, Role::LimitLabel, (x, 14), Anchor::Middle, all);
    }
    scene
}

fn text(to: &mut Vec<Mark>, role: Role, at: Point, anchor: Anchor, text: &str) {
    draw_text(to, role, at, anchor, SIZE, text.to_owned());
}

#[cfg(test)]
mod tests;
