//! What of the answer is looked at: which load, which order, which stretch of the list.
//!
//! The list itself stays in the solver, which writes the entries that are shown; a page
//! never holds more of them than [`PAGE`].

use crate::answer::Answer;
use crate::answer::asking::Answered;
use crate::rooms::{Given, Kept as LinkPart, Remembers, Wish};
use coilwright_solver::answer::{Order, View, Wanted};
use coilwright_solver::ohms::{Ohms, Ratio};
use core::ops::Range;
use std::rc::Rc;

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
#[derive(Clone, Debug, Default)]
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
    /// The list as it is looked at.
    pub view: Option<Rc<View>>,
}

/// What can be done in the room.
#[derive(Clone, Debug)]
pub enum Action {
    /// An order is chosen.
    Order(Order),
    /// Only configurations with a load are wanted, or all.
    Load(Option<Ohms>),
    /// A band of the ladder is opened, or the last one closed.
    Band(Option<Range<usize>>),
    /// A group of the list is opened, or closed.
    Group(Option<u32>),
    /// A page of the list is turned to.
    Page(u32),
}

/// What a link holds of it: the order and the rung, where the visitor chose one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Kept {
    /// The order of the list.
    pub order: Option<Order>,
    /// The rung that was tapped.
    pub load: Option<Ohms>,
}

impl Look {
    /// What to ask the solver for, with both filters on or not: the best first, unless another
    /// order is wanted.
    fn of(&self, filtered: bool) -> Wanted {
        Wanted {
            at_load: self.load,
            order: self.order.unwrap_or_default(),
            gathered: !filtered && self.group.is_none(),
            group: self.group,
        }
    }

    /// What of the answer is wanted.
    #[must_use]
    pub fn wanted(&self, answer: &Answer) -> Wanted {
        self.of(answer.answered.as_deref().is_none_or(Answered::is_filtered))
    }

    /// The first page of another list.
    pub fn start_over(&mut self) {
        self.page = 0;
        self.group = None;
    }

    /// Looks at a load of an answer to come.
    pub fn begin_at(&mut self, load: Option<Ohms>) {
        self.load = load;
    }

    /// Looks at another answer; `false` where it has no load as was looked at.
    pub fn look_anew(&mut self, answer: &Answer) -> bool {
        self.bands.clear();
        let gone = !answer.has_load(self.load) && self.load.take().is_some();
        self.arrange(answer);
        !gone
    }

    /// The list as it is now looked at.
    fn arrange(&mut self, answer: &Answer) {
        let wanted = self.wanted(answer);
        let view = |answered: &Answered| Rc::new(answered.view(&wanted));
        self.view = answer.answered.as_deref().map(view);
    }
}

impl Remembers for Look {
    type Action = Action;
    type Kept = Kept;

    fn act(&mut self, action: Action, given: Given<'_>) -> Wish {
        match action {
            Action::Order(order) => {
                self.order = Some(order);
                self.start_over();
                self.arrange(given.answer);
            }
            Action::Load(load) => {
                self.load = load;
                self.start_over();
                self.arrange(given.answer);
            }
            Action::Group(group) => {
                self.start_over();
                self.group = group;
                self.arrange(given.answer);
            }
            Action::Band(Some(band)) => self.bands.push(band),
            Action::Band(None) => {
                self.bands.pop();
            }
            Action::Page(page) => self.page = page,
        }
        Wish::Nothing
    }

    fn kept(&self) -> Kept {
        Kept { order: self.order, load: self.load }
    }

    fn begin(&mut self, Kept { order, load }: Kept) {
        *self = Self { order, load, ..Self::default() };
    }
}

impl LinkPart for Kept {
    fn write(&self, part: &mut dyn FnMut(&str, &str)) {
        if let Some(order) = self.order {
            part("order", order_name(order));
        }
        if let Some(load) = self.load {
            part("load", &load.to_string());
        }
    }

    fn read(&mut self, name: &str, value: &str) -> Option<Option<()>> {
        match name {
            "order" => Some(order_named(value).map(|order| self.order = Some(order))),
            "load" => Some(load(value).map(|load| self.load = Some(load))),
            _ => None,
        }
    }
}

/// A load as it is written: `4`, or a fraction `8/3`.
fn load(value: &str) -> Option<Ohms> {
    let (over, under) = value.split_once('/').unwrap_or((value, "1"));
    Some(Ohms::new(Ratio::new(over.parse().ok()?, under.parse().ok()?)?))
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
    fn the_best_stands_first_unless_another_order_is_wanted() {
        assert_eq!(Look::default().of(true).order, Order::Rank);
        let chosen = Look { order: Some(Order::Runs), ..Look::default() };
        assert_eq!(chosen.of(true).order, Order::Runs);
    }

    #[test]
    fn with_a_filter_off_one_of_each_stands_for_its_group_until_that_is_opened() {
        let mut look = Look::default();
        assert!(!look.of(true).gathered);
        assert!(look.of(false).gathered);
        look.group = Some(4);
        assert!(!look.of(false).gathered);
        look.page = 3;
        look.start_over();
        assert_eq!((look.page, look.group), (0, None));
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
