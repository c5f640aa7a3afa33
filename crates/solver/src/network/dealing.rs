//! Dealing the leaves of a shape to drivers, each distinct dealing once.
//!
//! A shape's nodes are walked from the root down, a node's own leaves (its *bunch* of
//! each group) before its parts. A bunch is dealt at once: a *word* says how many of its
//! leaves each driver gets. Drivers not yet told apart form a *cell*; inside a cell
//! the numbers never rise, and after a bunch the cell splits where they differ: the cells are
//! an ordered partition that is refined, as in canonical labelling of graphs (B. D. McKay,
//! Congr. Numer. 30, 1981; from memory). That
//! settles the exchanges of drivers, of coils and of leaves. What remains are the
//! exchanges of equal parts under one node: a dealing is the one to keep exactly when
//! no other order of equal parts, dealt under the same rules, gives a greater row of
//! words ([`Dealing::greater`]).
#![expect(
    clippy::arithmetic_side_effects,
    clippy::indexing_slicing,
    reason = "at most 32 leaves, nodes and bunches and 16 dealt drivers; indices are made here"
)]

mod orders;
mod words;

use crate::work::Steps;
use orders::MOST_TRIED;
use words::{DRIVERS, Word, bits_before, digit, marks_from, with_digit};

/// The leaves of one group directly under a node.
#[derive(Clone, Copy, Debug)]
struct Bunch {
    /// The drivers of the group, first and end.
    low: u8,
    high: u8,
    leaves: u8,
    /// A mark for each of the drivers but the first: where a cell may begin.
    inner: Word,
}

#[derive(Clone, Debug)]
struct Node {
    parent: u8,
    /// Equal parts under one parent have equal names.
    name: u32,
    /// The node after this one's last descendant.
    end: u8,
    /// Its own bunches, first and end.
    bunches: (u8, u8),
    /// The first bunch after its last descendant's.
    last_bunch: u8,
    /// The first of its equals under the same parent.
    first_equal: u8,
    /// Leaves in it and below, of all groups.
    leaves: u8,
}

#[derive(Clone, Copy, Debug, Default)]
struct State {
    /// Coils each driver still has.
    left: Word,
    /// The highest bit of a driver's digit where a cell begins.
    cells: Word,
}

/// What a walk for the next dealing came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Dealt {
    /// A dealing stands in the words.
    Found,
    /// The budget ran out; ask again.
    Pending,
    /// There are no more.
    End,
    /// To tell whether a dealing is the one to keep takes too many tries.
    TooMuch,
}

/// The dealings of one shape.
#[derive(Clone, Debug, Default)]
pub(crate) struct Dealing {
    /// First driver and end of each dealt group, by group; alike for groups not dealt.
    ranges: Vec<(u8, u8)>,
    start: State,
    /// Whether no driver has more than two coils.
    pairs: bool,
    nodes: Vec<Node>,
    bunches: Vec<Bunch>,
    words: Vec<Word>,
    states: Vec<State>,
    /// Whether equal parts become comparable once this bunch is dealt.
    test: Vec<bool>,
    depth: usize,
    fresh: bool,
    /// Counted steps that trying another order takes, for an image.
    each_try: u64,
}

impl Dealing {
    /// For groups of so many drivers with so many coils; groups of single-coil drivers
    /// need no dealing.
    pub(crate) fn new(groups: impl Iterator<Item = (u32, u32)>) -> Self {
        let mut dealing = Self::default();
        let mut next = 0_u8;
        let mut all = 0_u64;
        dealing.pairs = true;
        for (count, coils) in groups {
            let first = next;
            if coils > 1 {
                next += count as u8;
                for driver in first..next {
                    let left = dealing.start.left;
                    dealing.start.left = with_digit(left, usize::from(driver), coils as u8);
                }
                dealing.start.cells |= marks_from(first) & !marks_from(first + 1);
                dealing.pairs &= coils <= 2;
                all += u64::from(count) * u64::from(coils);
            }
            dealing.ranges.push((first, next));
        }
        // Of more coils than lists hold as a rule an image takes longer, 32 some five times.
        dealing.each_try = 1 + all.saturating_sub(18) / 3;
        dealing
    }

    /// Whether the group's leaves are dealt at all.
    pub(crate) fn deals(&self, group: usize) -> bool {
        self.ranges[group].0 < self.ranges[group].1
    }

    /// Forgets the last shape.
    pub(crate) fn clear(&mut self) {
        self.nodes.clear();
        self.bunches.clear();
    }

    /// Adds a node: its name and its leaves of each group. Its parts follow, equal ones
    /// together, then [`Dealing::close`].
    pub(crate) fn open(&mut self, parent: usize, name: u32, leaves: &[u8]) -> usize {
        let node = self.nodes.len();
        let first = self.bunches.len() as u8;
        for (leaves, (low, high)) in leaves.iter().zip(&self.ranges) {
            let (low, high) = (*low, *high);
            if low < high && *leaves > 0 {
                let inner = marks_from(low + 1) & !marks_from(high);
                self.bunches.push(Bunch { low, high, leaves: *leaves, inner });
            }
        }
        let end = self.bunches.len() as u8;
        let equal = |n: &&Node| n.name == name && usize::from(n.parent) == parent;
        let first_equal =
            self.nodes.iter().position(|n| equal(&n)).filter(|_| node > 0).unwrap_or(node);
        self.nodes.push(Node {
            parent: parent as u8,
            name,
            end: 0,
            bunches: (first, end),
            last_bunch: 0,
            first_equal: first_equal as u8,
            leaves: leaves.iter().sum(),
        });
        node
    }

    /// Ends a node.
    pub(crate) fn close(&mut self, node: usize) {
        let (end, bunches) = (self.nodes.len() as u8, self.bunches.len() as u8);
        let (parent, leaves) = (usize::from(self.nodes[node].parent), self.nodes[node].leaves);
        if node > 0 {
            self.nodes[parent].leaves += leaves;
        }
        let node = &mut self.nodes[node];
        node.end = end;
        node.last_bunch = bunches;
    }

    /// Makes ready for the first dealing.
    pub(crate) fn begin(&mut self) {
        let bunches = self.bunches.len();
        self.words.clear();
        self.words.resize(bunches, 0);
        self.states.clear();
        self.states.resize(bunches + 1, self.start);
        self.test.clear();
        self.test.resize(bunches, false);
        for (at, node) in self.nodes.iter().enumerate() {
            if usize::from(node.first_equal) != at && node.last_bunch > node.bunches.0 {
                self.test[usize::from(node.last_bunch) - 1] = true;
            }
        }
        // Equals met early may still tie; the last bunch decides between those.
        if self.test.iter().any(|test| *test) {
            self.test[bunches - 1] = true;
        }
        self.depth = 0;
        self.fresh = true;
    }

    /// Walks to the next dealing to keep.
    pub(crate) fn next(&mut self, budget: &mut Steps) -> Dealt {
        let bunches = self.bunches.len();
        if bunches == 0 {
            // Nothing to deal: one dealing.
            return if core::mem::take(&mut self.fresh) { Dealt::Found } else { Dealt::End };
        }
        if self.depth == bunches {
            self.depth -= 1;
            self.fresh = false;
        }
        while budget.any() {
            budget.take(1);
            let d = self.depth;
            let word = if self.fresh { self.first_word(d) } else { self.next_word(d) };
            let Some(word) = word else {
                if d == 0 {
                    return Dealt::End;
                }
                self.depth -= 1;
                self.fresh = false;
                continue;
            };
            self.deal(d, word);
            self.fresh = false;
            if self.test[d] {
                let (found, tried) = self.greater(d + 1);
                budget.take(tried * self.each_try);
                if tried >= MOST_TRIED {
                    return Dealt::TooMuch;
                }
                if found.is_some() {
                    continue;
                }
            }
            self.depth += 1;
            self.fresh = true;
            if self.depth == bunches {
                return Dealt::Found;
            }
        }
        Dealt::Pending
    }

    fn begins_cell(cells: Word, driver: usize) -> bool {
        cells.wrapping_shl(bits_before(driver)) >> 63 == 1
    }

    /// Fills a word greedily from a driver on, `before` what the one before it has; `None`
    /// where leaves are left over.
    fn fill(
        &self,
        d: usize,
        mut word: Word,
        from: usize,
        mut before: Word,
        mut leaves: Word,
    ) -> Option<Word> {
        let State { left, cells } = self.states[d];
        let (mut bits, end) = (bits_before(from), bits_before(self.bunches[d].high.into()));
        while leaves > 0 {
            if bits >= end {
                return None;
            }
            let mut most = (left.wrapping_shl(bits) >> 60).min(leaves);
            if cells.wrapping_shl(bits) >> 63 == 0 {
                most = most.min(before);
            }
            word |= (most << 60).wrapping_shr(bits);
            leaves = leaves.wrapping_sub(most);
            before = most;
            bits = bits.wrapping_add(4);
        }
        Some(word)
    }

    fn first_word(&self, d: usize) -> Option<Word> {
        let Bunch { low, leaves, .. } = self.bunches[d];
        // The first driver begins a cell.
        self.fill(d, 0, low.into(), 0, leaves.into())
    }

    /// The next smaller word of a bunch.
    fn next_word(&self, d: usize) -> Option<Word> {
        let (word, Bunch { low, high, .. }) = (self.words[d], self.bunches[d]);
        let behind = 64_u32.wrapping_sub(bits_before(high.into()));
        let State { left, cells } = self.states[d];
        let [mut digits, mut left, mut cells] =
            [word, left, cells].map(|all| all.wrapping_shr(behind));
        // Behind a driver: what was dealt, drivers of its own cell, and what there is room for
        // in other cells, whose drivers have equally many left. Wrapping: 32 at most.
        let (mut freed, mut same, mut room): (Word, Word, Word) = (0, 0, 0);
        for driver in (usize::from(low)..usize::from(high)).rev() {
            let here = digits & 15;
            // Drivers of one cell have no more than the one before them.
            let fits = |less: Word| same.wrapping_mul(less).wrapping_add(room) > freed;
            if let Some(less) = here.checked_sub(1)
                && fits(less)
            {
                // Keep what stands before, give this driver one less, fill the rest.
                let bits = bits_before(driver);
                let kept = word & !u64::MAX.wrapping_shr(bits) | (less << 60).wrapping_shr(bits);
                return self.fill(d, kept, driver + 1, less, freed.wrapping_add(1));
            }
            freed = freed.wrapping_add(here);
            same = same.wrapping_add(1);
            if cells & 8 > 0 {
                room = room.wrapping_add(same.wrapping_mul(left & 15));
                same = 0;
            }
            (digits, left, cells) = (digits >> 4, left >> 4, cells >> 4);
        }
        None
    }

    fn deal(&mut self, d: usize, word: Word) {
        let State { left, cells } = self.states[d];
        // What each driver has that the one before it has not.
        let differs = word ^ (word >> 4);
        let begins = differs | differs << 1 | differs << 2 | differs << 3;
        self.words[d] = word;
        // No driver gets more than it has, so no digit borrows of another.
        self.states[d + 1] =
            State { left: left - word, cells: cells | (begins & self.bunches[d].inner) };
    }

    /// How many leaves of a group each of its drivers has directly under a node.
    pub(crate) fn dealt(&self, node: usize, group: usize) -> impl Iterator<Item = u8> + '_ {
        let (low, high) = self.ranges[group];
        let word = self.word_at(node, group);
        (low..high).map(move |driver| digit(word, usize::from(driver)))
    }

    /// The word of a group's leaves directly under a node.
    pub(crate) fn word_at(&self, node: usize, group: usize) -> Word {
        let (first, end) = self.nodes[node].bunches;
        let low = self.ranges[group].0;
        let found = (first..end).map(usize::from).find(|bunch| self.bunches[*bunch].low == low);
        found.map_or(0, |bunch| self.words[bunch])
    }

    /// How many bunches there are.
    pub(crate) fn bunches(&self) -> usize {
        self.bunches.len()
    }

    /// The first driver of a group and the end, as they are dealt.
    pub(crate) fn range(&self, group: usize) -> (u8, u8) {
        self.ranges[group]
    }

    /// How many leaves of a bunch a driver has.
    pub(crate) fn in_bunch(&self, bunch: usize, driver: u8) -> u8 {
        digit(self.words[bunch], usize::from(driver))
    }

    /// Whether each driver's coils are one or more whole parts of one node.
    pub(crate) fn joined_at_driver(&self) -> bool {
        const ODD: Word = 0x1111_1111_1111_1111;
        if self.pairs {
            // Two coils are whole parts of one node only as leaves of it. Three, of a quad
            // with one left out, may be so as well, and are odd.
            return self.words.iter().all(|word| word & ODD == 0);
        }
        let dealt = |driver: &usize| digit(self.start.left, *driver) > 1;
        (0..DRIVERS).filter(dealt).all(|driver| self.is_joined(driver))
    }

    fn is_joined(&self, driver: usize) -> bool {
        let within = |node: &Node| -> u8 {
            (node.bunches.0..node.last_bunch)
                .map(|bunch| digit(self.words[usize::from(bunch)], driver))
                .sum()
        };
        // The lowest node that holds all of its coils, and that node's parts.
        let coils = digit(self.start.left, driver);
        let Some(at) = self.nodes.iter().rposition(|node| within(node) == coils) else {
            return true;
        };
        let part = |node: &&Node| usize::from(node.parent) == at;
        let mut parts = self.nodes.iter().skip(at + 1).filter(part);
        parts.all(|part| within(part) == 0 || within(part) == part.leaves)
    }

    /// A word that gives each driver of a group so many leaves, as [`Dealing::settle`]
    /// takes them, one for each bunch of a node.
    pub(crate) fn word<'a>(&self, group: usize, leaves: impl Iterator<Item = &'a u8>) -> Word {
        let mut word = 0;
        for (driver, n) in (usize::from(self.ranges[group].0)..).zip(leaves) {
            word = with_digit(word, driver, *n);
        }
        word
    }
}
