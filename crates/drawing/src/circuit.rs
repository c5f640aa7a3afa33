//! Schematics: the network of each output, with its coils, joints and terminals.

mod draft;
mod marks;
mod sheet;
mod thumbnail;

pub use thumbnail::thumbnail;

use crate::scene::{Point, Scene, text_width};
use coilwright_solver::network::Network;
use draft::Flow;
use sheet::Sheet;

/// A network and the terminals it hangs on.
#[derive(Clone, Copy, Debug)]
pub struct Hung<'a> {
    /// The network.
    pub network: &'a Network,
    /// What stands at the positive terminal, as `+` or `1+`.
    pub plus: &'a str,
    /// What stands at the negative terminal.
    pub minus: &'a str,
}

/// Between two outputs.
const APART: i32 = 20;
/// Ground round everything, so that no stroke is cut off.
const MARGIN: i32 = 4;
/// From a terminal to the end of its frame.
const END: i32 = 14;
/// Size of all text in units.
const SIZE: i32 = 13;

/// Most rows that a long string or a long rail is folded into.
const ROWS: usize = 10;

/// The schematic of every output given, for a place that is `room` units wide.
///
/// Of the drawings that fit it is the least tall; where none fits, the least wide. A
/// drawing in rows must save a quarter of the height, since one reads it less easily.
#[must_use]
pub fn circuit(networks: &[Hung<'_>], room: i32) -> Scene {
    let mut best: Option<(Vec<Sheet>, Point, i32)> = None;
    for rows in 1..=ROWS {
        for flow in [Flow::Right, Flow::Down] {
            let sheets = sheets(networks, flow, rows, room);
            let (_, size) = arranged(&sheets, room);
            let tall = if rows > 1 { size.1 / 3 * 4 } else { size.1 };
            let better = best.as_ref().is_none_or(|(_, best, height)| {
                match (size.0 <= room, best.0 <= room) {
                    (true, true) => tall < *height,
                    (false, false) => size.0 < best.0,
                    (fits, _) => fits,
                }
            });
            if better {
                best = Some((sheets, size, tall));
            }
        }
    }
    let (sheets, ..) = best.unwrap_or_default();
    let (corners, size) = arranged(&sheets, room);
    marks::scene(networks, &sheets, &corners, size)
}

/// Every output laid out alike, with terminals in frames of one width; in rows only what
/// does not fit in one.
fn sheets(networks: &[Hung<'_>], flow: Flow, rows: usize, room: i32) -> Vec<Sheet> {
    let mut frame = 0;
    for one in networks {
        frame = frame.max(text_width(one.plus, SIZE)).max(text_width(one.minus, SIZE));
    }
    let mut sheets = Vec::with_capacity(networks.len());
    for one in networks {
        let mut sheet = Sheet::of(one.network, flow, 1, frame + 14);
        if rows > 1 && sheet.width > room {
            sheet = Sheet::of(one.network, flow, rows, frame + 14);
        }
        sheets.push(sheet);
    }
    sheets
}

/// The corner of every output, one beside the other as far as there is room, and the size
/// of all.
fn arranged(sheets: &[Sheet], room: i32) -> (Vec<Point>, Point) {
    let mut corners = Vec::with_capacity(sheets.len());
    let (mut left, mut top, mut size) = (0, 0, (0, 0));
    for sheet in sheets {
        if left > 0 && left + sheet.width > room {
            (left, top) = (0, size.1 + APART);
        }
        corners.push((left, top));
        size = (size.0.max(left + sheet.width), size.1.max(top + sheet.height));
        left += sheet.width + APART;
    }
    (corners, size)
}

#[cfg(test)]
mod tests;
