//! The shape of a network alone, in a box of the size of a word.

use super::draft::{COIL, Draft, Flow, size};
use crate::scene::{Role, Scene, draw_line, draw_rect};
use coilwright_solver::network::Network;

/// Units in a CSS pixel: 32 coils in a row are not whole pixels apart.
const FINE: i32 = 4;
const WIDEST: i32 = 96 * FINE;
const TALLEST: i32 = 56 * FINE;

/// The shape of a network, at most 96 by 56 CSS pixels, + at the left and − at the right.
///
/// Its units are quarter pixels, and so are the widths of strokes in its style.
#[must_use]
pub fn thumbnail(network: &Network) -> Scene {
    let (length, places) = size(network);
    let (length, span) = (length.max(1), (places * Flow::Right.pitch()).max(1));
    // Few coils need not fill the box.
    let width = (length * 3 / 2).min(WIDEST);
    let height = (span * 7 / 5).min(TALLEST);
    let mut draft = Draft::new(Flow::Right);
    draft.lay(network, (0, span / 2), length, (Role::ThumbWire, Role::ThumbWire));
    let place = |at: (i32, i32)| (at.0 * width / length, at.1 * height / span);
    let mut scene = Scene { width, height, fine: FINE, ..Scene::new() };
    for (_, from, to) in &draft.wires {
        draw_line(&mut scene.marks, Role::ThumbWire, place(*from), place(*to));
    }
    let thick = (height / places.max(1) * 4 / 7).max(2);
    for placed in &draft.coils {
        let (x, y) = place(placed.at);
        let (end, _) = place((placed.at.0 + COIL, placed.at.1));
        draw_rect(&mut scene.marks, Role::ThumbCoil, (x, y - thick / 2), end - x, thick, 0);
    }
    scene
}
