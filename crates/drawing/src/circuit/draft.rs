//! One output laid out: along the flow from + to −, and across it.

use super::{Hung, MARGIN, SIZE};
use crate::scene::{Anchor, Mark, Point, Role, text_width};
use coilwright_solver::network::{Coil, Joint, Network};

/// Where the current goes from + on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Flow {
    /// Series side by side, parallel parts stacked.
    Right,
    /// Series stacked, parallel parts side by side.
    Down,
}

impl Flow {
    pub(super) const ALL: [Self; 2] = [Self::Right, Self::Down];

    /// Between the wires of two parallel coils: room for windings and a label.
    pub(super) const fn pitch(self) -> i32 {
        match self {
            Self::Right => 40,
            Self::Down => 48,
        }
    }
}

/// Length of the windings of a coil.
pub(super) const COIL: i32 = 36;
/// Wire before and after a coil, and before and after a rail.
const LEAD: i32 = 10;

// Four windings, drawn from the upper or left end; the label stands on the other side.
const WINDINGS_RIGHT: &str = "a4.5 8 0 0 1 9 0a4.5 8 0 0 1 9 0a4.5 8 0 0 1 9 0a4.5 8 0 0 1 9 0";
const WINDINGS_DOWN: &str = "a8 4.5 0 0 0 0 9a8 4.5 0 0 0 0 9a8 4.5 0 0 0 0 9a8 4.5 0 0 0 0 9";
/// A + whose middle is the point.
const PLUS: &str = "m-3 0h6m-3-3v6";
const DOT: &str = "m-3 0a3 3 0 1 0 6 0a3 3 0 1 0-6 0z";
const TERMINAL: &str = "m-4 0a4 4 0 1 0 8 0a4 4 0 1 0-8 0z";

/// The roles of the wires at both ends of a part.
type Ends = (Role, Role);

/// A layout in progress, in places along and across the flow.
#[derive(Debug)]
pub(super) struct Draft {
    flow: Flow,
    /// Size in units, known when the output is laid out.
    pub(super) width: i32,
    pub(super) height: i32,
    pub(super) wires: Vec<(Role, Point, Point)>,
    /// Each coil and where its positive end is.
    pub(super) coils: Vec<(Coil, Point)>,
    /// Marks that are placed already.
    placed: Vec<Mark>,
}

/// Length along the flow, and parallel places across it.
pub(super) fn size(network: &Network) -> (i32, i32) {
    match network {
        Network::Coil(_) => (COIL + 2 * LEAD, 1),
        Network::Node(joint, parts) => {
            let (mut sum, mut most) = ((0, 0), (0, 0));
            for part in parts {
                let (length, places) = size(part);
                sum = (sum.0 + length, sum.1 + places);
                most = (most.0.max(length), most.1.max(places));
            }
            match joint {
                Joint::Series => (sum.0, most.1),
                Joint::Parallel => (most.0 + 2 * LEAD, sum.1),
            }
        }
    }
}

impl Draft {
    pub(super) fn new(flow: Flow) -> Self {
        Self { flow, width: 0, height: 0, wires: vec![], coils: vec![], placed: vec![] }
    }

    fn wire(&mut self, role: Role, from: Point, to: Point) {
        if from != to {
            self.wires.push((role, from, to));
        }
    }

    /// Lays a part on the line `across`, from `along` for `length`: where it is shorter,
    /// in the middle.
    pub(super) fn lay(&mut self, part: &Network, (along, across): Point, length: i32, ends: Ends) {
        let (own, _) = size(part);
        let begin = along + (length - own) / 2;
        self.wire(ends.0, (along, across), (begin, across));
        self.wire(ends.1, (begin + own, across), (along + length, across));
        match part {
            Network::Coil(coil) => {
                let (from, to) = (begin + LEAD, begin + LEAD + COIL);
                self.wire(ends.0, (begin, across), (from, across));
                self.coils.push((*coil, (from, across)));
                self.wire(ends.1, (to, across), (begin + own, across));
            }
            Network::Node(Joint::Series, parts) => {
                let mut at = begin;
                for (i, part) in parts.iter().enumerate() {
                    let (length, _) = size(part);
                    let first = if i == 0 { ends.0 } else { Role::Wire };
                    let last = if i + 1 == parts.len() { ends.1 } else { Role::Wire };
                    self.lay(part, (at, across), length, (first, last));
                    at += length;
                }
            }
            Network::Node(Joint::Parallel, parts) => {
                let (left, right) = (begin + LEAD, begin + own - LEAD);
                self.wire(ends.0, (begin, across), (left, across));
                self.wire(ends.1, (right, across), (begin + own, across));
                let (_, places) = size(part);
                let top = across - places * self.flow.pitch() / 2;
                let (first, last) = self.beside(parts, (left, top), right - left, ends);
                self.wire(ends.0, (left, first), (left, last));
                self.wire(ends.1, (right, first), (right, last));
            }
        }
    }

    /// Lays parts side by side from `top` on; the lines of the first and the last.
    fn beside(
        &mut self,
        parts: &[Network],
        (along, top): Point,
        length: i32,
        ends: Ends,
    ) -> (i32, i32) {
        let (mut at, mut first, mut last) = (top, None, top);
        for part in parts {
            let half = size(part).1 * self.flow.pitch() / 2;
            last = at + half;
            first.get_or_insert(last);
            self.lay(part, (along, last), length, ends);
            at += 2 * half;
        }
        (first.unwrap_or(top), last)
    }

    /// Lays out a network with its terminals, which stand at the left, in a frame of the
    /// given width.
    pub(super) fn output(&mut self, hung: &Hung<'_>, frame: i32) {
        let ends = (Role::WirePlus, Role::WireMinus);
        let (length, places) = size(hung.network);
        let pitch = self.flow.pitch();
        let terminal = MARGIN + frame;
        // A parallel network needs no leads: its rails run to the terminals.
        let (parts, length) = match hung.network {
            Network::Node(Joint::Parallel, parts) => (Some(parts), length - 2 * LEAD),
            _ => (None, length),
        };
        let (plus, minus);
        match self.flow {
            Flow::Right => {
                let left = terminal + 12;
                let back = MARGIN + places * pitch + 10;
                let right = left + length;
                let (first, last) = match parts {
                    Some(parts) => self.beside(parts, (left, MARGIN), length, ends),
                    None => {
                        let middle = MARGIN + places * pitch / 2;
                        self.lay(hung.network, (left, middle), length, ends);
                        (middle, middle)
                    }
                };
                self.wire(ends.0, (terminal, first), (left, first));
                self.wire(ends.0, (left, first), (left, last));
                self.wire(ends.1, (right, first), (right, back));
                self.wire(ends.1, (right, back), (terminal, back));
                (plus, minus) = ((terminal, first), (terminal, back));
                self.width = right + MARGIN;
            }
            Flow::Down => {
                let top = MARGIN + 14;
                let left = terminal + 16 - pitch / 2 + 8;
                let bottom = top + length;
                let (_, last) = match parts {
                    Some(parts) => self.beside(parts, (top, left), length, ends),
                    None => {
                        let middle = left + places * pitch / 2;
                        self.lay(hung.network, (top, middle), length, ends);
                        (middle, middle)
                    }
                };
                self.wire(ends.0, (top, terminal), (top, last));
                self.wire(ends.1, (bottom, terminal), (bottom, last));
                (plus, minus) = ((terminal, top), (terminal, bottom));
                self.width = last + MARGIN;
                for (coil, at) in &self.coils {
                    let label = text_width(&coil.to_string(), SIZE);
                    self.width = self.width.max(at.1 + 7 + label + MARGIN);
                }
            }
        }
        self.height = minus.1 + 14 + MARGIN;
        let tall = minus.1 - plus.1 + 28;
        let corner = (MARGIN, plus.1 - 14);
        self.placed.push(Mark::Rect(Role::Output, corner, frame, tall, 6));
        for (at, text) in [(plus, hung.plus), (minus, hung.minus)] {
            self.placed.push(Mark::Shape(Role::Terminal, at, TERMINAL));
            let place = (MARGIN + (frame - 4) / 2, at.1 + 5);
            self.placed.push(Mark::Text(
                Role::TerminalLabel,
                place,
                Anchor::Middle,
                SIZE,
                text.to_owned(),
            ));
        }
    }

    /// Everything as marks, moved to its place.
    pub(super) fn marks(&self, left: i32, top: i32, to: &mut Vec<Mark>) {
        let down = self.flow == Flow::Down;
        let place = |(along, across): Point| {
            let (x, y) = if down { (across, along) } else { (along, across) };
            (left + x, top + y)
        };
        for (role, from, end) in &self.wires {
            to.push(Mark::Line(*role, place(*from), place(*end)));
        }
        for at in self.joints() {
            to.push(Mark::Shape(Role::Dot, place(at), DOT));
        }
        for (coil, at) in &self.coils {
            let (x, y) = place(*at);
            let windings = if down { WINDINGS_DOWN } else { WINDINGS_RIGHT };
            to.push(Mark::Shape(Role::Coil, (x, y), windings));
            let (sign, name, anchor) = if down {
                ((x + 10, y + 5), (x + 7, y + 25), Anchor::Start)
            } else {
                ((x + 5, y + 10), (x + 23, y + 16), Anchor::Middle)
            };
            to.push(Mark::Shape(Role::CoilPlus, sign, PLUS));
            to.push(Mark::Text(Role::CoilLabel, name, anchor, SIZE, coil.to_string()));
        }
        for mark in &self.placed {
            to.push(match mark.clone() {
                Mark::Line(role, a, b) => {
                    Mark::Line(role, (a.0 + left, a.1 + top), (b.0 + left, b.1 + top))
                }
                Mark::Shape(role, a, shape) => Mark::Shape(role, (a.0 + left, a.1 + top), shape),
                Mark::Rect(role, a, w, h, r) => Mark::Rect(role, (a.0 + left, a.1 + top), w, h, r),
                Mark::Text(role, a, anchor, size, text) => {
                    Mark::Text(role, (a.0 + left, a.1 + top), anchor, size, text)
                }
            });
        }
    }

    /// Where three or more wires meet.
    fn joints(&self) -> Vec<Point> {
        let mut joints = Vec::new();
        for (_, from, to) in &self.wires {
            for at in [*from, *to] {
                if joints.contains(&at) {
                    continue;
                }
                let mut meet = 0;
                for (_, a, b) in &self.wires {
                    if at == *a || at == *b {
                        meet += 1;
                    } else if between(at, *a, *b) {
                        meet += 2;
                    }
                }
                if meet > 2 {
                    joints.push(at);
                }
            }
        }
        joints
    }
}

/// Whether a place lies on an upright or level line.
fn between(at: Point, a: Point, b: Point) -> bool {
    let within = |at: i32, a: i32, b: i32| a.min(b) <= at && at <= a.max(b);
    within(at.0, a.0, b.0) && within(at.1, a.1, b.1)
}
