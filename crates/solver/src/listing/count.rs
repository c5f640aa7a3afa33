//! How many configurations there are, by formula.
//!
//! By the lemma of Cauchy and Frobenius the number of networks that stay distinct
//! under exchanges is the mean, over all exchanges, of the networks that an exchange
//! leaves as they are; and that depends only on the lengths of its cycles.
//!
//! A network is a set of one or more *things to be joined*, each a coil or a network
//! joined the other way. By the symmetry of series and parallel those are half of all
//! networks, which gives the recursion in [`Counter::fixed`].
#![expect(
    clippy::arithmetic_side_effects,
    clippy::indexing_slicing,
    reason = "counts and indices of at most MOST_LEAVES leaves; sums that can grow are checked"
)]

use super::Stock;
use crate::interner::Interner;

/// Beyond this many leaves the formula is not tried.
pub(crate) const MOST_LEAVES: u32 = 20;

/// How many cycles of each length there are, five bits a length, from length 1 on: the
/// cycles of things side by side are a sum.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Cycles(u128);

impl Cycles {
    /// `count` cycles of one length.
    fn new(length: u32, count: u32) -> Self {
        Self(u128::from(count) << (5 * (length - 1)))
    }

    fn of(self, length: u32) -> u32 {
        (self.0 >> (5 * (length - 1))) as u32 & 31
    }

    /// Leaves in all of them.
    fn weight(self) -> u32 {
        (1..=MOST_LEAVES).map(|length| length * self.of(length)).sum()
    }

    fn words(self) -> [u64; 2] {
        [self.0 as u64, (self.0 >> 64) as u64]
    }
}

/// Exchanges by their cycles, with how many there are of each kind.
#[derive(Default)]
struct Exchanges {
    names: Interner,
    list: Vec<(Cycles, u128)>,
}

impl Exchanges {
    fn none() -> Self {
        let mut this = Self::default();
        let _ = this.add(Cycles(0), Some(1));
        this
    }

    fn add(&mut self, cycles: Cycles, ways: Option<u128>) -> Option<()> {
        let (number, new) = self.names.number(&cycles.words());
        if new {
            self.list.push((cycles, 0));
        }
        let known = &mut self.list.get_mut(number as usize)?.1;
        *known = known.checked_add(ways?)?;
        Some(())
    }
}

/// A product, if it fits.
#[inline(never)]
fn times(a: u128, b: u128) -> Option<u128> {
    a.checked_mul(b)
}

/// About so many counted steps are worked at once: a few milliseconds.
const PORTION: u64 = 100_000;

/// What asking for a count came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Counted {
    /// There is more to do: ask again.
    More,
    /// The count; `None` where it or the way to it is too large.
    Told(Option<u128>),
}

/// What is known of the networks that an exchange leaves as they are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Known {
    /// They were begun to be counted.
    Begun,
    /// So many.
    So(u128),
    /// Too many to be told.
    TooMany,
}

/// Counts networks, and remembers what it met on the way.
#[derive(Clone, Debug, Default)]
pub(crate) struct Counter {
    /// The cycles of exchanges, and the networks that one with these leaves as they are.
    names: Interner,
    known: Vec<Known>,
    work: u64,
    /// Where the portion at hand ends; not before something more is known, since what is
    /// begun is begun anew with the next one.
    until: u64,
    more_is_known: bool,
    paused: bool,
}

impl Counter {
    /// Counted steps since this was asked last.
    pub(crate) fn take_work(&mut self) -> u64 {
        core::mem::take(&mut self.work)
    }

    /// Distinct networks of a stock with both filters off, or with each driver's coils
    /// joined first where `joined`, a portion of the work at a time.
    pub(crate) fn networks(&mut self, stock: &Stock, joined: bool) -> Counted {
        self.until = self.work + PORTION;
        (self.more_is_known, self.paused) = (false, false);
        let total = self.total(stock, joined);
        if self.paused { Counted::More } else { Counted::Told(total) }
    }

    fn total(&mut self, stock: &Stock, joined: bool) -> Option<u128> {
        let leaves: u32 =
            stock.groups().map(|(count, coils)| if joined { count } else { count * coils }).sum();
        if leaves > MOST_LEAVES {
            return None;
        }
        self.work += 100;
        let mut exchanges = Exchanges::none();
        let mut order: u128 = 1;
        for (count, coils) in stock.groups() {
            let group = exchanges_of(count, &turns(count, coils, joined)?)?;
            let mut product = Exchanges::default();
            for (a, n) in &exchanges.list {
                self.work += 4 * group.list.len() as u64;
                for (b, m) in &group.list {
                    product.add(Cycles(a.0 + b.0), times(*n, *m))?;
                }
            }
            exchanges = product;
            let own = if joined { 1 } else { factorial(coils) };
            for driver in 1..=count {
                order = times(order, own * u128::from(driver))?;
            }
        }
        let mut sum: u128 = 0;
        for (cycles, ways) in exchanges.list {
            sum = sum.checked_add(times(ways, self.fixed(cycles)?)?)?;
        }
        Some(sum / order)
    }

    /// Networks that an exchange with these cycles leaves as they are.
    fn fixed(&mut self, cycles: Cycles) -> Option<u128> {
        if cycles.weight() <= 1 {
            return Some(1);
        }
        let (number, new) = self.names.number(&cycles.words());
        if new {
            self.known.push(Known::Begun);
        }
        match *self.known.get(number as usize)? {
            Known::Begun => {}
            Known::So(known) => return Some(known),
            Known::TooMany => return None,
        }
        let total = self.followed(cycles);
        if !self.paused {
            *self.known.get_mut(number as usize)? = total.map_or(Known::TooMany, Known::So);
            self.more_is_known = true;
        }
        total
    }

    /// The same, counted; `None` where it is too large or the portion is at its end.
    fn followed(&mut self, cycles: Cycles) -> Option<u128> {
        // Follow the cycle of the first leaf. It lies in a thing to be joined which the
        // exchange carries round `copies` of its like; choose which other cycles lie in
        // those copies, how they line up, what the thing is, and what the rest is.
        let first = (1..=MOST_LEAVES).find(|length| cycles.of(*length) > 0)?;
        let mut sum: u128 = 0;
        for copies in 1..=first {
            if first % copies > 0 {
                continue;
            }
            let mut part = Some(Cycles::new(first, 1));
            while let Some(chosen) = part {
                if copies > 1 || chosen != cycles {
                    sum = sum.checked_add(self.ways(cycles, chosen, first, copies)?)?;
                }
                part = next_part(chosen, cycles, first, copies);
            }
        }
        // What is left out above is the network itself as the one thing: half of the total.
        times(sum, 2)
    }

    fn ways(&mut self, cycles: Cycles, part: Cycles, first: u32, copies: u32) -> Option<u128> {
        // About as long as so many counted steps.
        const EACH: u64 = 12;
        if self.paused || (self.more_is_known && self.work >= self.until) {
            self.paused = true;
            return None;
        }
        self.work += EACH;
        let mut ways: u128 = 1;
        let mut chosen: u32 = 0;
        let mut thing = Cycles(0);
        for length in 1..=MOST_LEAVES {
            let n = part.of(length);
            if n > 0 {
                let own = u32::from(length == first);
                ways = times(ways, choose(cycles.of(length) - own, n - own)?)?;
                chosen += n;
                thing.0 += Cycles::new(length / copies, n).0;
            }
        }
        let aligned = u128::from(copies).checked_pow(chosen - 1)?;
        let things = if thing.weight() == 1 { 1 } else { self.fixed(thing)? / 2 };
        let rest = self.fixed(Cycles(cycles.0 - part.0))?;
        times(times(ways, aligned)?, times(things, rest)?)
    }
}

/// Networks of the coils of one driver (OEIS A000084); three where one of four is unused.
pub(crate) fn forms(coils: u32) -> u128 {
    match coils {
        1 => 1,
        2 => 2,
        3 => 4,
        _ => 10,
    }
}

fn factorial(n: u32) -> u128 {
    (1..=u128::from(n)).product()
}

/// Exchanges of `count` equal things, the thing numbered lowest in a cycle of each
/// length; `turns` says what a cycle of each length, from 1, can do to what is inside.
fn exchanges_of(count: u32, turns: &[Vec<(Cycles, u128)>]) -> Option<Exchanges> {
    let mut of = vec![Exchanges::none()];
    for m in 1..=count {
        let mut here = Exchanges::default();
        // The others in the cycle of the lowest, in order.
        let mut chosen: u128 = 1;
        for (length, turns) in (1..=m).zip(turns) {
            for (shape, ways) in turns {
                for (rest, n) in &of[(m - length) as usize].list {
                    here.add(Cycles(shape.0 + rest.0), times(chosen * ways, *n))?;
                }
            }
            chosen *= u128::from(m - length);
        }
        of.push(here);
    }
    of.pop()
}

/// What cycles of `count` drivers can do to their coils, by the length of the cycle.
fn turns(count: u32, coils: u32, joined: bool) -> Option<Vec<Vec<(Cycles, u128)>>> {
    let single: Vec<_> = (1..=coils).map(|length| vec![(Cycles::new(length, 1), 1)]).collect();
    let inside = exchanges_of(coils, &single)?;
    let mut turns = Vec::new();
    let mut free: u128 = 1;
    for length in 1..=count {
        if joined {
            // Each driver is a block of one of so many forms: those of one cycle must
            // have the same form.
            turns.push(vec![(Cycles::new(length, 1), forms(coils))]);
            continue;
        }
        // Round a cycle of drivers the coil exchanges multiply up to one of them.
        let mut list = Vec::new();
        for (shape, ways) in &inside.list {
            let mut long = Cycles(0);
            for own in 1..=coils {
                if shape.of(own) > 0 {
                    long.0 += Cycles::new(own * length, shape.of(own)).0;
                }
            }
            list.push((long, ways * free));
        }
        turns.push(list);
        free *= factorial(coils);
    }
    Some(turns)
}

/// The next choice of cycles, the first kept, all lengths multiples of `copies`.
fn next_part(part: Cycles, cycles: Cycles, first: u32, copies: u32) -> Option<Cycles> {
    let mut next = part;
    for length in 1..=MOST_LEAVES {
        let (n, most) = (next.of(length), cycles.of(length));
        if length % copies > 0 || most == 0 {
            continue;
        }
        if n < most {
            next.0 += Cycles::new(length, 1).0;
            return Some(next);
        }
        next.0 -= Cycles::new(length, n - u32::from(length == first)).0;
    }
    None
}

fn choose(n: u32, k: u32) -> Option<u128> {
    let mut ways: u128 = 1;
    for i in 0..k {
        ways = times(ways, u128::from(n - i))? / u128::from(i + 1);
    }
    Some(ways)
}

/// The whole count.
#[cfg(test)]
pub(super) fn whole(stock: &Stock, joined: bool) -> Option<u128> {
    let mut counter = Counter::default();
    loop {
        if let Counted::Told(total) = counter.networks(stock, joined) {
            return total;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn count(groups: &[(u32, u32)], joined: bool) -> Option<u128> {
        whole(&Stock::plain(groups), joined)
    }

    /// What takes the most counted steps of all (found by trying every stock).
    #[test]
    fn the_longest_count_is_done_in_portions() {
        let stock = Stock::plain(&[(16, 1), (4, 1)]);
        let (mut counter, mut portions) = (Counter::default(), 0);
        let told = loop {
            let counted = counter.networks(&stock, false);
            let work = counter.take_work();
            assert!(work < PORTION + PORTION / 2, "{work}");
            portions += 1;
            if let Counted::Told(told) = counted {
                break told;
            }
        };
        assert!((5..20).contains(&portions), "{portions}");
        let mut at_once = Counter { until: u64::MAX, ..Counter::default() };
        assert_eq!(at_once.total(&stock, false), told);
    }

    /// OEIS A000084 (seen).
    #[test]
    fn equal_single_coils_follow_a000084() {
        let known = [1, 2, 4, 10, 24, 66, 180, 522, 1532, 4624, 14136, 43930];
        for (n, want) in (1..).zip(known) {
            assert_eq!(count(&[(n, 1)], false), Some(want), "{n} coils");
        }
    }

    /// Fourteen coils are beyond the most that are listed, thirteen are not.
    #[test]
    fn fourteen_coils_are_too_many() {
        let most = u128::from(crate::bounds::MOST_CONFIGURATIONS);
        assert!(count(&[(13, 1)], false) <= Some(most));
        assert_eq!(count(&[(14, 1)], false), Some(437_502));
        assert!(count(&[(14, 1)], false) > Some(most));
    }

    /// OEIS A006351 (seen).
    #[test]
    fn different_single_coils_follow_a006351() {
        let known = [1, 2, 8, 52, 472, 5504, 78416, 1_320_064];
        for (n, want) in (1..).zip(known) {
            assert_eq!(count(&vec![(1, 1); n], false), Some(want), "{n} coils");
        }
    }

    /// Worked by hand: two dual-coil drivers make 16 configurations.
    #[test]
    fn dual_coils_count_up_to_exchanging_drivers_and_coils() {
        assert_eq!(count(&[(1, 2)], false), Some(2));
        assert_eq!(count(&[(2, 2)], false), Some(16));
        assert_eq!(count(&[(1, 4)], true), Some(10));
    }

    #[test]
    fn too_many_leaves_are_not_counted() {
        assert_eq!(count(&[(16, 2)], false), None);
    }
}
