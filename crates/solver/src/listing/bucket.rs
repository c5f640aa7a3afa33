//! Parts that may stand side by side under one node, and what can be made of them.

use super::content::Content;
use crate::network::Joint;
use crate::ohms::Ratio;

/// What fills a slot.
#[derive(Clone, Debug)]
pub(crate) enum Filling {
    /// Leaves, by number.
    Atoms(Vec<u32>),
    /// All parts of a key.
    Key(usize),
}

/// Parts of one content in a bucket.
#[derive(Clone, Debug)]
pub(crate) struct Slot {
    pub(crate) content: Content,
    pub(crate) filling: Filling,
}

/// Parts that may be joined with each other in one way.
#[derive(Clone, Debug)]
pub(crate) struct Bucket {
    pub(crate) joint: Joint,
    pub(super) class: Option<Ratio>,
    /// In rising order of leaves.
    pub(crate) slots: Vec<Slot>,
    /// What can be made of one part or more, smallest first.
    pub(super) sums: Vec<Sum>,
}

/// A content that can be made.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sum {
    pub(super) content: Content,
    /// In how many ways (capped).
    pub(super) ways: u64,
    /// The slot of parts that are just this, if there is one.
    pub(super) slot: Option<u32>,
}

impl Bucket {
    pub(super) fn sum(&self, content: Content) -> Option<&Sum> {
        let place = content.place();
        let at = self.sums.partition_point(|sum| sum.content.place() < place);
        self.sums.get(at).filter(|sum| sum.content == content)
    }

    pub(crate) fn can_make(&self, content: Content) -> bool {
        self.sum(content).is_some()
    }

    /// The slot of the parts with a content.
    pub(crate) fn slot_of(&self, content: Content) -> Option<usize> {
        Some(self.sum(content)?.slot? as usize)
    }
}
