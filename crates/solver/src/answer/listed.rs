//! What a list is made of: networks, tiers and entries, which its rows are written from.

use super::Request;
use super::allotment::Allotment;
use super::combine::{Combining, Tiers};
use super::entry::Entry;
use crate::listing::Listing;
use crate::loads::Loads;

/// A list as far as it is worked out.
#[derive(Clone, Debug)]
pub(super) struct Listed {
    pub(super) request: Request,
    pub(super) allotment: Allotment,
    pub(super) listings: Vec<Listing>,
    /// Every load that was met, by number.
    pub(super) loads: Loads,
    pub(super) tiers: Tiers,
    pub(super) combining: Combining,
    /// Entries by number, in rank order.
    pub(super) ranked: Vec<u32>,
}

impl Listed {
    /// Nothing of it yet.
    pub(super) fn new(request: Request) -> Self {
        Self {
            request,
            allotment: Allotment::default(),
            listings: Vec::new(),
            loads: Loads::default(),
            tiers: Tiers::default(),
            combining: Combining::default(),
            ranked: Vec::new(),
        }
    }

    /// An entry by its number.
    pub(super) fn entry(&self, number: u32) -> Option<&Entry> {
        self.combining.entries.get(usize::try_from(number).ok()?)
    }

    /// Whether two tiers are of one class on one kind of output.
    pub(super) fn same_class(&self, one: u32, other: u32) -> bool {
        let of = |number| {
            let class = self.tiers.get(number).map(|tier| tier.class);
            (class, self.tiers.place(number))
        };
        of(one) == of(other)
    }
}
