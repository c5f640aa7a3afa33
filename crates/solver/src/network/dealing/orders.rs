//! Other orders of equal parts: whether one gives a greater row of words.
#![expect(
    clippy::arithmetic_side_effects,
    clippy::indexing_slicing,
    reason = "at most 32 leaves, nodes and bunches and 16 dealt drivers; indices are made here"
)]

use super::words::{Word, bits_from, digit, put_in, with_digit};
use super::{Bunch, Dealing, Node};
use core::cmp::Ordering;

/// The most images tried for one dealing. Of a hundred thousand random networks of 32
/// coils none came near; a network made to be hard could.
pub(super) const MOST_TRIED: u64 = 4_000_000;

/// A walk in another order: the image of each node so far.
pub(super) struct Walk {
    upto: usize,
    images: [u8; 32],
    used: u64,
    /// How many nodes have an image, where the walk ended with a greater word.
    settled: usize,
    tried: u64,
}

/// The driver in each place, four bits each as in a word.
type Order = Word;

/// Every driver in its own place.
const IN_ORDER: Order = 0x0123_4567_89AB_CDEF;

impl Dealing {
    /// Another order of equal parts that gives a greater row of words, as far as the
    /// first `upto` bunches tell: then this dealing is not the one to keep.
    ///
    /// Also how many images were tried; from [`MOST_TRIED`] on nothing is known.
    pub(super) fn greater(&self, upto: usize) -> (Option<Walk>, u64) {
        let mut walk = Walk { upto, images: [0; 32], used: 0, settled: 0, tried: 0 };
        let found = self.try_node(0, &mut walk, IN_ORDER, true);
        let tried = walk.tried;
        ((found == Ordering::Greater).then_some(walk), tried)
    }

    /// Tries every image of a node, given the images of those before it.
    ///
    /// Once an order ties to the end while all images before this node are themselves,
    /// every other order through the same image is a copy of one already tried.
    fn try_node(&self, at: usize, walk: &mut Walk, order: Order, themselves: bool) -> Ordering {
        let Some(node) = self.nodes.get(at) else {
            return Ordering::Equal;
        };
        if usize::from(node.bunches.0) >= walk.upto {
            return Ordering::Equal;
        }
        let (parent, first_equal) = (usize::from(node.parent), usize::from(node.first_equal));
        let size = usize::from(node.end) - at;
        // The same place under the image of the parent.
        let base = usize::from(walk.images[parent]) + (first_equal - parent);
        let mut best = Ordering::Less;
        let mut image = if at == 0 { 0 } else { base };
        while let Some(candidate) = self.nodes.get(image) {
            let equal = candidate.name == node.name
                && (at == 0
                    || (candidate.parent == walk.images[parent]
                        && usize::from(candidate.first_equal) == base));
            if !equal || (at == 0 && image > 0) {
                break;
            }
            let dealt = usize::from(candidate.bunches.1) <= walk.upto;
            if dealt && walk.used >> image & 1 == 0 {
                let mut inner = order;
                walk.tried += 1;
                if walk.tried >= MOST_TRIED {
                    return Ordering::Less;
                }
                // In its own order every word comes out as it stands.
                let own = themselves && image == at;
                let differs = if own { None } else { self.emit(node, candidate, &mut inner) };
                if let Some(found) = differs {
                    if found == Ordering::Greater {
                        walk.images[at] = image as u8;
                        walk.used |= 1 << image;
                        walk.settled = at + 1;
                        return found;
                    }
                } else {
                    walk.images[at] = image as u8;
                    walk.used |= 1 << image;
                    let found = self.try_node(at + 1, walk, inner, own);
                    if found == Ordering::Greater {
                        return found;
                    }
                    walk.used &= !(1 << image);
                    if found == Ordering::Equal {
                        best = Ordering::Equal;
                        if !themselves {
                            return best;
                        }
                    }
                }
            }
            image += size;
        }
        best
    }

    /// Deals the image's leaves in place of the node's: `None` where the words agree.
    fn emit(&self, node: &Node, image: &Node, order: &mut Order) -> Option<Ordering> {
        for (bunch, other) in (node.bunches.0..node.bunches.1).zip(image.bunches.0..) {
            let bunch = usize::from(bunch);
            let emitted = self.emit_run(bunch, self.words[usize::from(other)], order);
            match emitted.cmp(&self.words[bunch]) {
                Ordering::Equal => {}
                found => return Some(found),
            }
        }
        None
    }

    /// The word that dealing `theirs` at a bunch writes, drivers taken in `order`, and
    /// inside each cell the greatest number first.
    fn emit_run(&self, bunch: usize, theirs: Word, order: &mut Order) -> Word {
        let cells = self.states[bunch].cells;
        let Bunch { low, high, .. } = self.bunches[bunch];
        // All from the first driver on are put into their places anew.
        let mut placed = *order & !bits_from(low);
        let mut emitted = 0;
        for place in usize::from(low)..usize::from(high) {
            let driver = digit(*order, place);
            let here = digit(theirs, driver.into());
            let mut to = place;
            while !Self::begins_cell(cells, to) && digit(emitted, to - 1) < here {
                to -= 1;
            }
            if to == place {
                emitted = with_digit(emitted, to, here);
                placed = with_digit(placed, to, driver);
            } else {
                emitted = put_in(emitted, to, here);
                placed = put_in(placed, to, driver);
            }
        }
        *order = placed | (*order & bits_from(high));
        emitted
    }

    /// Takes words as they come, numbers the drivers by the rules of the cells, and
    /// finds the order of equal parts with the greatest row of words.
    ///
    /// `false` if that would take too many tries.
    pub(crate) fn settle(&mut self, words: &[Word]) -> bool {
        self.begin();
        self.number(words);
        let mut all_tried = 0;
        loop {
            let (found, tried) = self.greater(self.bunches.len());
            all_tried += tried;
            if all_tried >= MOST_TRIED {
                return false;
            }
            let Some(mut walk) = found else { return true };
            self.complete(&mut walk);
            let mut words = self.words.clone();
            for (node, image) in self.nodes.iter().zip(walk.images) {
                let theirs = self.nodes[usize::from(image)].bunches.0..;
                for (bunch, other) in (node.bunches.0..node.bunches.1).zip(theirs) {
                    words[usize::from(bunch)] = self.words[usize::from(other)];
                }
            }
            self.number(&words);
        }
    }

    fn number(&mut self, words: &[Word]) {
        let mut order = IN_ORDER;
        for (bunch, word) in words.iter().enumerate().take(self.bunches.len()) {
            let emitted = self.emit_run(bunch, *word, &mut order);
            self.deal(bunch, emitted);
        }
    }

    /// Gives every node that has no image yet the first free one.
    fn complete(&self, walk: &mut Walk) {
        for at in walk.settled..self.nodes.len() {
            let node = &self.nodes[at];
            let parent = usize::from(node.parent);
            let mut image =
                usize::from(walk.images[parent]) + usize::from(node.first_equal) - parent;
            while walk.used >> image & 1 == 1 {
                image += usize::from(node.end) - at;
            }
            walk.images[at] = image as u8;
            walk.used |= 1 << image;
        }
    }
}
