//! A network laid out: along the flow from + to −, and across it.

use crate::scene::{Point, Role};
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
pub(super) const LEAD: i32 = 10;

/// The roles of the wires at both ends of a part.
pub(super) type Ends = (Role, Role);

/// A coil in its place.
#[derive(Clone, Copy, Debug)]
pub(super) struct Placed {
    pub(super) coil: Coil,
    /// Its positive end.
    pub(super) at: Point,
    /// Whether the current goes against the flow, in a row that leads back.
    pub(super) back: bool,
}

/// A layout in progress, in places along and across the flow.
#[derive(Debug)]
pub(super) struct Draft {
    pub(super) flow: Flow,
    pub(super) wires: Vec<(Role, Point, Point)>,
    /// In the order of writing.
    pub(super) coils: Vec<Placed>,
}

/// Length along the flow, and parallel places across it.
pub(super) fn size(network: &Network) -> (i32, i32) {
    match network {
        Network::Coil(_) => (COIL + 2 * LEAD, 1),
        Network::Node(joint, parts) => {
            let (sum, most) = sizes(parts);
            match joint {
                Joint::Series => (sum.0, most.1),
                Joint::Parallel => (most.0 + 2 * LEAD, sum.1),
            }
        }
    }
}

/// The sums of both sizes of all parts, and the most of both.
pub(super) fn sizes(parts: &[Network]) -> (Point, Point) {
    let (mut sum, mut most) = ((0, 0), (0, 0));
    for part in parts {
        let (length, places) = size(part);
        sum = (sum.0 + length, sum.1 + places);
        most = (most.0.max(length), most.1.max(places));
    }
    (sum, most)
}

impl Draft {
    pub(super) const fn new(flow: Flow) -> Self {
        Self { flow, wires: Vec::new(), coils: Vec::new() }
    }

    pub(super) fn wire(&mut self, role: Role, from: Point, to: Point) {
        if from != to {
            self.wires.push((role, from, to));
        }
    }

    /// Lays a part on the line `across`, from `along` for `length`: where it is shorter,
    /// in the middle.
    pub(super) fn lay(&mut self, part: &Network, (along, across): Point, length: i32, ends: Ends) {
        let (own, places) = size(part);
        let begin = along + (length - own) / 2;
        match part {
            Network::Coil(coil) => {
                let (from, to) = (begin + LEAD, begin + LEAD + COIL);
                self.wire(ends.0, (along, across), (from, across));
                self.coils.push(Placed { coil: *coil, at: (from, across), back: false });
                self.wire(ends.1, (to, across), (along + length, across));
            }
            Network::Node(Joint::Series, parts) => {
                self.wire(ends.0, (along, across), (begin, across));
                self.wire(ends.1, (begin + own, across), (along + length, across));
                self.series(parts, (begin, across), ends);
            }
            Network::Node(Joint::Parallel, parts) => {
                let (left, right) = (begin + LEAD, begin + own - LEAD);
                self.wire(ends.0, (along, across), (left, across));
                self.wire(ends.1, (right, across), (along + length, across));
                let top = across - places * self.flow.pitch() / 2;
                let (first, last) = self.beside(parts, (left, top), right - left, ends);
                self.wire(ends.0, (left, first), (left, last));
                self.wire(ends.1, (right, first), (right, last));
            }
        }
    }

    /// Lays parts one after the other.
    pub(super) fn series(&mut self, parts: &[Network], (along, across): Point, ends: Ends) {
        let mut at = along;
        for (i, part) in parts.iter().enumerate() {
            let (length, _) = size(part);
            let first = if i == 0 { ends.0 } else { Role::Wire };
            let last = if i + 1 == parts.len() { ends.1 } else { Role::Wire };
            self.lay(part, (at, across), length, (first, last));
            at += length;
        }
    }

    /// Lays parts side by side from `top` on; the lines of the first and the last.
    pub(super) fn beside(
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

    /// Turns the wires from `wire` on and the coils from `coil` on round, between two
    /// places along the flow: what led forth leads back.
    pub(super) fn turn(&mut self, (wire, coil): (usize, usize), left: i32, right: i32) {
        for (_, from, to) in self.wires.iter_mut().skip(wire) {
            from.0 = left + right - from.0;
            to.0 = left + right - to.0;
        }
        for placed in self.coils.iter_mut().skip(coil) {
            placed.at.0 = left + right - placed.at.0;
            placed.back = true;
        }
    }

    /// Where three or more wires meet.
    pub(super) fn joints(&self) -> Vec<Point> {
        let mut joints = Vec::new();
        for (_, from, to) in &self.wires {
            for at in [*from, *to] {
                if !joints.contains(&at) && self.meeting(at) > 2 {
                    joints.push(at);
                }
            }
        }
        joints
    }

    /// How many wires lead away from a place.
    fn meeting(&self, at: Point) -> u32 {
        let mut meet = 0;
        for (_, a, b) in &self.wires {
            if at == *a || at == *b {
                meet += 1;
            } else if between(at, *a, *b) {
                meet += 2;
            }
        }
        meet
    }
}

/// Whether a place lies on an upright or level line.
pub(super) fn between(at: Point, a: Point, b: Point) -> bool {
    let within = |at: i32, a: i32, b: i32| a.min(b) <= at && at <= a.max(b);
    within(at.0, a.0, b.0) && within(at.1, a.1, b.1)
}
