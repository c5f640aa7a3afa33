//! One output with its terminals at the left, and a long network folded into rows.

use super::draft::{Draft, Ends, Flow, size, sizes};
use super::{END, MARGIN, SIZE};
use crate::ladder::gather;
use crate::scene::{Point, Role, text_width};
use coilwright_solver::network::{Joint, Network};
use core::ops::Range;

/// From the terminals to the first rail.
const IN: i32 = 12;
/// From the lowest row to the wire that leads back below it.
const BACK: i32 = 10;

/// Between the lower rail of a row and the upper one of the next.
const ROWS: i32 = 18;

const ENDS: Ends = (Role::WirePlus, Role::WireMinus);

/// One output, laid out.
#[derive(Debug)]
pub(super) struct Sheet {
    pub(super) draft: Draft,
    pub(super) width: i32,
    pub(super) height: i32,
    pub(super) frame: i32,
    pub(super) plus: Point,
    pub(super) minus: Point,
}

impl Sheet {
    /// Lays out a network in at most `rows` rows, with its terminals in a frame of the
    /// given width.
    pub(super) fn of(network: &Network, flow: Flow, rows: usize, frame: i32) -> Self {
        let zero = (0, 0);
        let draft = Draft::new(flow);
        let mut sheet = Self { draft, width: 0, height: 0, frame, plus: zero, minus: zero };
        match (flow, network) {
            (Flow::Right, Network::Node(Joint::Parallel, parts)) => sheet.stacked(parts),
            (Flow::Right, Network::Node(Joint::Series, parts)) if rows > 1 => {
                sheet.there_and_back(parts, rows);
            }
            (Flow::Right, _) => sheet.string(network),
            (Flow::Down, Network::Node(Joint::Parallel, parts)) => sheet.side_by_side(parts, rows),
            (Flow::Down, _) => sheet.column(network),
        }
        let wires = sheet.draft.wires.iter();
        let right = wires.map(|(_, a, b)| sheet.place(*a).0.max(sheet.place(*b).0)).max();
        sheet.width = right.unwrap_or(0).max(sheet.labels_end()) + MARGIN;
        sheet.height = sheet.minus.1.max(sheet.lowest() - END) + END + MARGIN;
        sheet
    }

    const fn terminal(&self) -> i32 {
        MARGIN + self.frame
    }

    /// From along and across to left and top.
    pub(super) fn place(&self, (along, across): Point) -> Point {
        match self.draft.flow {
            Flow::Right => (along, across),
            Flow::Down => (across, along),
        }
    }

    /// Where the labels beside upright coils end.
    fn labels_end(&self) -> i32 {
        let mut end = 0;
        if self.draft.flow == Flow::Down {
            for placed in &self.draft.coils {
                let label = text_width(&placed.coil.to_string(), SIZE);
                end = end.max(placed.at.1 + 9 + label);
            }
        }
        end
    }

    /// Where the labels under level coils end.
    fn lowest(&self) -> i32 {
        let coils = self.draft.coils.iter();
        match self.draft.flow {
            Flow::Right => coils.map(|placed| placed.at.1 + 21).max().unwrap_or(0),
            Flow::Down => 0,
        }
    }

    /// Parallel parts one below the other; their rails run to the terminals.
    fn stacked(&mut self, parts: &[Network]) {
        let (sum, most) = sizes(parts);
        let (left, right) = (self.terminal() + IN, self.terminal() + IN + most.0);
        let back = MARGIN + sum.1 * self.draft.flow.pitch() + BACK;
        let (first, last) = self.draft.beside(parts, (left, MARGIN), most.0, ENDS);
        self.draft.wire(ENDS.0, (left, first), (left, last));
        self.draft.wire(ENDS.1, (right, first), (right, back));
        self.forth(left, first);
        self.back_below(right, back);
    }

    /// One row.
    fn string(&mut self, network: &Network) {
        let (length, places) = size(network);
        let (left, right) = (self.terminal() + IN / 2, self.terminal() + IN / 2 + length);
        let under = MARGIN + places * self.draft.flow.pitch();
        let line = MARGIN + places * self.draft.flow.pitch() / 2;
        self.draft.lay(network, (left, line), length, ENDS);
        self.draft.wire(ENDS.1, (right, line), (right, under + BACK));
        self.forth(left, line);
        self.back_below(right, under + BACK);
    }

    /// An even number of rows of one string, each second of which leads back.
    fn there_and_back(&mut self, parts: &[Network], rows: usize) {
        let rows = gather(parts.len(), rows.min(parts.len()) & !1);
        let slice = |row: &Range<usize>| parts.get(row.clone()).unwrap_or_default();
        let longest = rows.iter().map(|row| sizes(slice(row)).0.0).max().unwrap_or(0);
        // Turns at the left stand clear of the terminals.
        let (left, right) = (self.terminal() + IN, self.terminal() + IN + longest);
        let (mut top, mut before) = (MARGIN, 0);
        for (i, row) in rows.iter().enumerate() {
            let row = slice(row);
            let (sum, most) = sizes(row);
            let half = most.1 * self.draft.flow.pitch() / 2;
            let line = top + half;
            let mark = (self.draft.wires.len(), self.draft.coils.len());
            let first = if i == 0 { ENDS.0 } else { Role::Wire };
            let last = if i + 1 == rows.len() { ENDS.1 } else { Role::Wire };
            self.draft.series(row, (left, line), (first, last));
            // What is left of a short row comes before the turn or before the terminal.
            self.draft.wire(last, (left + sum.0, line), (right, line));
            if i % 2 == 1 {
                self.draft.turn(mark, left, right);
            }
            let turn = if i % 2 == 1 { right } else { left };
            if i == 0 {
                self.forth(left, line);
            } else {
                self.draft.wire(Role::Wire, (turn, before), (turn, line));
            }
            before = line;
            top += 2 * half;
        }
        self.back_below(left, before);
    }

    /// Parallel parts beside one another, in rows between two rails each.
    fn side_by_side(&mut self, parts: &[Network], rows: usize) {
        let full = parts.len().div_ceil(rows.max(1)).max(1);
        let rows = parts.len().div_ceil(full);
        let several = rows > 1;
        let pitch = self.draft.flow.pitch();
        let bus = self.terminal() + IN;
        let left = self.terminal() + if several { IN + 20 } else { IN + 12 } - pitch / 2;
        let (mut top, mut bottoms) = (MARGIN + END, Vec::new());
        for (i, row) in parts.chunks(full).enumerate() {
            let (_, most) = sizes(row);
            let bottom = top + most.0;
            let (first, last) = self.draft.beside(row, (top, left), most.0, ENDS);
            let (is_first, is_last) = (i == 0, i + 1 == rows);
            let from = if is_first { self.terminal() } else { bus };
            self.draft.wire(ENDS.0, (top, from), (top, last));
            if several && is_last {
                self.draft.wire(ENDS.0, (MARGIN + END, bus), (top, bus));
            }
            let from = if is_last { self.terminal() } else { first };
            bottoms.push((bottom, from, last));
            self.minus = (self.terminal(), bottom);
            top = bottom + ROWS;
        }
        self.plus = (self.terminal(), MARGIN + END);
        // The lower rails of several rows meet at the right of all labels.
        let end = self.labels_end() + 8;
        for (bottom, from, last) in &bottoms {
            let to = if several { end } else { *last };
            self.draft.wire(ENDS.1, (*bottom, *from), (*bottom, to));
        }
        if let (Some((first, ..)), Some((last, ..))) = (bottoms.first(), bottoms.last()) {
            self.draft.wire(ENDS.1, (*first, end), (*last, end));
        }
    }

    /// One column.
    fn column(&mut self, network: &Network) {
        let (length, places) = size(network);
        let pitch = self.draft.flow.pitch();
        let (top, bottom) = (MARGIN + END, MARGIN + END + length);
        let line = self.terminal() + IN + 12 + (places - 1) * pitch / 2;
        self.draft.lay(network, (top, line), length, ENDS);
        self.draft.wire(ENDS.0, (top, self.terminal()), (top, line));
        self.draft.wire(ENDS.1, (bottom, self.terminal()), (bottom, line));
        self.plus = (self.terminal(), top);
        self.minus = (self.terminal(), bottom);
    }

    /// From the positive terminal to the right.
    fn forth(&mut self, to: i32, line: i32) {
        self.plus = (self.terminal(), line);
        self.draft.wire(ENDS.0, self.plus, (to, line));
    }

    /// Below everything to the negative terminal.
    fn back_below(&mut self, from: i32, line: i32) {
        self.minus = (self.terminal(), line);
        self.draft.wire(ENDS.1, (from, line), self.minus);
    }
}
