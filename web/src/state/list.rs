//! What of the answer is looked at: which load, which order, which stretch of the list.
//!
//! The list itself stays in the solver, which writes the entries that are shown; a page
//! never holds more of them than [`PAGE`].

use coilwright_solver::answer::{Order, Wanted};
use coilwright_solver::ohms::Ohms;
use core::ops::Range;

/// The most entries in the page at once.
pub const PAGE: u32 = 25;

/// The name of an order in links.
#[must_use]
pub fn order_name(order: Order) -> &'static str {
    match order {
        Order::Rank => "best",
        Order::Load => "load",
        Order::Power => "power",
        Order::Runs => "runs",
    }
}

/// Every order, as offered.
pub const ORDERS: [Order; 4] = [Order::Rank, Order::Load, Order::Power, Order::Runs];

/// The order of a name.
#[must_use]
pub fn order_named(name: &str) -> Option<Order> {
    ORDERS.into_iter().find(|order| order_name(*order) == name)
}

/// What is looked at.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Look {
    /// The order, where the visitor chose one.
    pub order: Option<Order>,
    /// The rung that was tapped: only configurations with that load.
    pub load: Option<Ohms>,
    /// The bands that were opened, each within the one before: places among the loads.
    pub bands: Vec<Range<usize>>,
    /// The group that was opened.
    pub group: Option<u32>,
    /// The page of the list, counted from 0.
    pub page: u32,
}

impl Look {
    /// What to ask the solver for, where so many configurations are listed, with both
    /// filters on or not.
    #[must_use]
    pub fn wanted(&self, configurations: u64, filtered: bool) -> Wanted {
        // Few are read as they stand on the ladder, many by what is best.
        let few = configurations <= u64::from(PAGE);
        let usual = if few { Order::Load } else { Order::Rank };
        Wanted {
            at_load: self.load,
            order: self.order.unwrap_or(usual),
            gathered: !filtered && self.group.is_none(),
            group: self.group,
        }
    }

    /// The first page of another list.
    pub fn start_over(&mut self) {
        self.page = 0;
        self.group = None;
    }
}

/// How many pages so many rows take; one where there are none.
#[must_use]
pub fn pages(rows: u64) -> u32 {
    u32::try_from(rows.div_ceil(u64::from(PAGE))).unwrap_or(u32::MAX).max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn few_stand_by_load_and_many_by_rank() {
        let look = Look::default();
        assert_eq!(look.wanted(25, true).order, Order::Load);
        assert_eq!(look.wanted(26, true).order, Order::Rank);
        let chosen = Look { order: Some(Order::Runs), ..Look::default() };
        assert_eq!(chosen.wanted(3, true).order, Order::Runs);
    }

    #[test]
    fn with_a_filter_off_one_of_each_stands_for_its_group_until_that_is_opened() {
        let mut look = Look::default();
        assert!(!look.wanted(300, true).gathered);
        assert!(look.wanted(300, false).gathered);
        look.group = Some(4);
        assert!(!look.wanted(300, false).gathered);
        look.page = 3;
        look.start_over();
        assert_eq!(look, Look::default());
    }

    #[test]
    fn pages_hold_every_row() {
        for (rows, want) in [(0, 1), (1, 1), (25, 1), (26, 2), (281_964, 11_279)] {
            assert_eq!(pages(rows), want, "{rows} rows");
        }
    }

    #[test]
    fn orders_have_names_of_their_own() {
        for order in ORDERS {
            assert_eq!(order_named(order_name(order)), Some(order));
        }
        assert_eq!(order_named("sideways"), None);
    }
}
