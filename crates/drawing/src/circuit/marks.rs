//! From laid out outputs to marks.

use super::draft::{COIL, Flow, LEAD, Placed};
use super::sheet::Sheet;
use super::{END, Hung, MARGIN, SIZE};
use crate::scene::{
    Anchor, Mark, Point, Role, Scene, draw_line, draw_rect, draw_shape, draw_text, text_width,
};

// Four windings, drawn from the upper or left end; the label stands on the other side.
const WINDINGS_RIGHT: &str = "a4.5 8 0 0 1 9 0a4.5 8 0 0 1 9 0a4.5 8 0 0 1 9 0a4.5 8 0 0 1 9 0";
const WINDINGS_DOWN: &str = "a8 4.5 0 0 0 0 9a8 4.5 0 0 0 0 9a8 4.5 0 0 0 0 9a8 4.5 0 0 0 0 9";
// Round the point.
const PLUS: &str = "m-3 0h6m-3-3v6";
const DOT: &str = "m-3 0a3 3 0 1 0 6 0a3 3 0 1 0-6 0z";
const TERMINAL: &str = "m-4 0a4 4 0 1 0 8 0a4 4 0 1 0-8 0z";

/// The outputs in their places, what lies below drawn first.
pub(super) fn scene(
    networks: &[Hung<'_>],
    sheets: &[Sheet],
    corners: &[Point],
    size: Point,
) -> Scene {
    // How many coils of each driver are drawn at all.
    let mut counts = [0_u8; 256];
    for placed in sheets.iter().flat_map(|sheet| &sheet.draft.coils) {
        let count = &mut counts[usize::from(placed.coil.driver)];
        *count = count.saturating_add(1);
    }
    let mut scene = Scene { width: size.0, height: size.1, ..Scene::new() };
    let (mut above, mut texts) = (Vec::new(), Vec::new());
    for ((hung, sheet), corner) in networks.iter().zip(sheets).zip(corners) {
        let place = |at: Point| {
            let at = sheet.place(at);
            (corner.0 + at.0, corner.1 + at.1)
        };
        drivers(sheet, *corner, &counts, &mut scene.marks);
        let at = |of: Point| (corner.0 + of.0, corner.1 + of.1);
        let (plus, minus) = (at(sheet.plus), at(sheet.minus));
        let tall = minus.1 - plus.1 + 2 * END;
        let frame = (corner.0 + MARGIN, plus.1 - END);
        draw_rect(&mut scene.marks, Role::Output, frame, sheet.frame, tall, 6);
        for (end, text) in [(plus, hung.plus), (minus, hung.minus)] {
            draw_shape(&mut above, Role::Terminal, end, TERMINAL);
            let middle = (frame.0 + (sheet.frame - 4) / 2, end.1 + 5);
            text_mark(&mut texts, Role::TerminalLabel, middle, Anchor::Middle, text.to_owned());
        }
        for (role, from, to) in &sheet.draft.wires {
            draw_line(&mut above, *role, place(*from), place(*to));
        }
        for joint in sheet.draft.joints() {
            draw_shape(&mut above, Role::Dot, place(joint), DOT);
        }
        for placed in &sheet.draft.coils {
            coil(placed, place(placed.at), sheet.draft.flow, &mut above, &mut texts);
        }
    }
    for layer in LAYERS {
        for mark in &above {
            if matches!(mark, Mark::Line(role, ..) | Mark::Shape(role, ..) if *role == layer) {
                scene.marks.push(mark.clone());
            }
        }
    }
    scene.marks.append(&mut texts);
    scene
}

/// The order of drawing.
const LAYERS: [Role; 7] = [
    Role::Wire,
    Role::WireMinus,
    Role::WirePlus,
    Role::Coil,
    Role::CoilPlus,
    Role::Dot,
    Role::Terminal,
];

fn text_mark(to: &mut Vec<Mark>, role: Role, at: Point, anchor: Anchor, text: String) {
    draw_text(to, role, at, anchor, SIZE, text);
}

/// A coil whose positive end is at a place.
fn coil(placed: &Placed, (x, y): Point, flow: Flow, above: &mut Vec<Mark>, texts: &mut Vec<Mark>) {
    let (from, windings, sign, name, anchor) = match (flow, placed.back) {
        (Flow::Down, _) => ((x, y), WINDINGS_DOWN, (x + 10, y + 5), (x + 7, y + 25), Anchor::Start),
        (Flow::Right, false) => {
            ((x, y), WINDINGS_RIGHT, (x + 2, y + 11), (x + 24, y + 16), Anchor::Middle)
        }
        (Flow::Right, true) => {
            ((x - COIL, y), WINDINGS_RIGHT, (x - 2, y + 11), (x - 24, y + 16), Anchor::Middle)
        }
    };
    draw_shape(above, Role::Coil, from, windings);
    draw_shape(above, Role::CoilPlus, sign, PLUS);
    text_mark(texts, Role::CoilLabel, name, anchor, placed.coil.to_string());
}

/// An outline behind the coils of each driver that has several and has them side by side.
fn drivers(sheet: &Sheet, corner: Point, counts: &[u8; 256], to: &mut Vec<Mark>) {
    let coils = &sheet.draft.coils;
    let pitch = sheet.draft.flow.pitch();
    let mut from = 0;
    while let Some(first) = coils.get(from) {
        let many = usize::from(counts[usize::from(first.coil.driver)]).max(1);
        let own = coils.get(from..from + many).unwrap_or_default();
        let alike = |step: Point| {
            own.windows(2).all(|pair| {
                let (a, b) = (pair[0], pair[1]);
                let apart = ((b.at.0 - a.at.0).abs(), b.at.1 - a.at.1);
                a.coil.driver == b.coil.driver && a.back == b.back && apart == step
            })
        };
        if let (true, [first, .., last]) = (alike((COIL + 2 * LEAD, 0)) || alike((0, pitch)), own) {
            let (a, b) = (sheet.place(first.at), sheet.place(last.at));
            let (left, right) = (a.0.min(b.0), a.0.max(b.0));
            let (ahead, behind, above, below) = match (sheet.draft.flow, first.back) {
                (Flow::Right, false) => (5, COIL + 5, 12, 21),
                (Flow::Right, true) => (COIL + 5, 5, 12, 21),
                (Flow::Down, _) => {
                    let label = |placed: &Placed| text_width(&placed.coil.to_string(), SIZE);
                    (11, 9 + label(first).max(label(last)), 5, COIL + 5)
                }
            };
            let at = (corner.0 + left - ahead, corner.1 + a.1 - above);
            let (wide, tall) = (right - left + ahead + behind, b.1 - a.1 + above + below);
            draw_rect(to, Role::Driver, at, wide, tall, 7);
            from += many;
        } else {
            from += 1;
        }
    }
}
