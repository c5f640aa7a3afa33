//! Schematics: the network of each output, with its coils, joints and terminals.

mod draft;
mod thumbnail;

pub use thumbnail::thumbnail;

use crate::scene::{Mark, Role, Scene, text_width};
use coilwright_solver::network::Network;
use draft::{Draft, Flow};

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
/// Size of all text in units.
const SIZE: i32 = 13;

/// The schematic of every output given, for a place that is `room` units wide.
///
/// Of the drawings that fit it is the least tall; where none fits, the least wide.
#[must_use]
pub fn circuit(networks: &[Hung<'_>], room: i32) -> Scene {
    let mut best: Option<Scene> = None;
    for flow in Flow::ALL {
        let scene = drawn(networks, room, flow);
        let better =
            best.as_ref().is_none_or(|best| match (scene.width <= room, best.width <= room) {
                (true, true) => scene.height < best.height,
                (false, false) => scene.width < best.width,
                (fits, _) => fits,
            });
        if better {
            best = Some(scene);
        }
    }
    best.unwrap_or(Scene::new())
}

/// One output after the other, in rows no wider than the room.
fn drawn(networks: &[Hung<'_>], room: i32, flow: Flow) -> Scene {
    // All outputs have equally wide frames, so that they line up.
    let mut frame = 0;
    for one in networks {
        frame = frame.max(text_width(one.plus, SIZE)).max(text_width(one.minus, SIZE));
    }
    let mut scene = Scene::new();
    let mut layers: Vec<Mark> = Vec::new();
    let (mut left, mut top, mut bottom) = (0, 0, 0);
    for one in networks {
        let mut draft = Draft::new(flow);
        draft.output(one, frame + 14);
        if left > 0 && left + draft.width > room {
            (left, top) = (0, bottom + APART);
        }
        draft.marks(left, top, &mut layers);
        scene.width = scene.width.max(left + draft.width);
        bottom = bottom.max(top + draft.height);
        left += draft.width + APART;
    }
    scene.height = bottom;
    scene.marks = by_layer(layers);
    scene
}

/// The order of drawing: what lies below comes first.
const LAYERS: [Role; 11] = [
    Role::Driver,
    Role::Output,
    Role::Wire,
    Role::WireMinus,
    Role::WirePlus,
    Role::Coil,
    Role::CoilPlus,
    Role::Dot,
    Role::Terminal,
    Role::TerminalLabel,
    Role::CoilLabel,
];

fn by_layer(mut marks: Vec<Mark>) -> Vec<Mark> {
    let mut sorted = Vec::with_capacity(marks.len());
    for layer in LAYERS {
        let mut rest = Vec::new();
        for mark in marks {
            let (Mark::Line(role, ..)
            | Mark::Shape(role, ..)
            | Mark::Rect(role, ..)
            | Mark::Text(role, ..)) = &mark;
            if *role == layer { sorted.push(mark) } else { rest.push(mark) }
        }
        marks = rest;
    }
    sorted
}

#[cfg(test)]
mod tests;
