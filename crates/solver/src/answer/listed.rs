//! What a list is made of: networks, strands and entries, which its rows are written from.

use super::Request;
use super::combine::{Combining, Strands};
use super::entry::Entry;
use super::plan::Plan;
use crate::listing::Listing;
use crate::loads::Loads;

/// A list as far as it is worked out.
#[derive(Clone, Debug)]
pub(super) struct Listed {
    pub(super) request: Request,
    pub(super) plan: Plan,
    pub(super) listings: Vec<Listing>,
    /// Every load that was met, by number.
    pub(super) loads: Loads,
    pub(super) strands: Strands,
    pub(super) combining: Combining,
    /// Entries by number, in rank order.
    pub(super) ranked: Vec<u32>,
}

impl Listed {
    /// Nothing of it yet.
    pub(super) fn new(request: Request) -> Self {
        Self {
            request,
            plan: Plan::default(),
            listings: Vec::new(),
            loads: Loads::default(),
            strands: Strands::default(),
            combining: Combining::default(),
            ranked: Vec::new(),
        }
    }

    /// An entry by its number.
    pub(super) fn entry(&self, number: u32) -> Option<&Entry> {
        self.combining.entries.get(usize::try_from(number).ok()?)
    }

    /// Whether two strands are of one class on one kind of output.
    pub(super) fn same_class(&self, one: u32, other: u32) -> bool {
        let of = |number| {
            let class = self.strands.get(number).map(|strand| strand.class);
            (class, self.strands.place(number))
        };
        of(one) == of(other)
    }
}
