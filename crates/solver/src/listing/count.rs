//! How many configurations there are, by formula.
//!
//! By the lemma of Cauchy and Frobenius the number of networks that stay distinct
//! under exchanges is the mean, over all exchanges, of the networks that an exchange
//! leaves as they are; and that depends only on the lengths of its cycles.
//!
//! A network is a set of one or more *things to be joined*, each a coil or a network
//! joined the other way. By the symmetry of series and parallel those are half of all
//! networks, which gives the recursion in [`Fixed::of`].
#![expect(
    clippy::arithmetic_side_effects,
    clippy::indexing_slicing,
    reason = "counts and indices of at most MOST_LEAVES leaves; sums that can grow are checked"
)]

use super::Stock;
use std::collections::BTreeMap;

/// Beyond this many leaves the formula is not tried.
pub(crate) const MOST_LEAVES: u32 = 20;

/// How many cycles of each length, from length 1; no trailing zeros.
type Cycles = Vec<u8>;

/// Counts networks, and remembers what it met on the way.
#[derive(Clone, Debug, Default)]
pub(crate) struct Counter {
    fixed: Fixed,
}

impl Counter {
    /// Distinct networks of a stock with both filters off, or with each driver's coils
    /// joined first where `joined`. `None` where the count or the way to it is too large.
    pub(crate) fn networks(&mut self, stock: &Stock, joined: bool) -> Option<u128> {
        let leaves: u32 =
            stock.groups().map(|(count, coils)| if joined { count } else { count * coils }).sum();
        if leaves > MOST_LEAVES {
            return None;
        }
        let mut exchanges: BTreeMap<Cycles, u128> = BTreeMap::from([(Vec::new(), 1)]);
        let mut order: u128 = 1;
        for (count, coils) in stock.groups() {
            let group =
                if joined { of_blocks(count, forms(coils)) } else { of_coils(count, coils) };
            let mut product = BTreeMap::new();
            for (a, n) in &exchanges {
                for (b, m) in &group {
                    let ways = product.entry(add(a, b)).or_insert(0_u128);
                    *ways = ways.checked_add(n.checked_mul(*m)?)?;
                }
            }
            exchanges = product;
            let own = if joined { 1 } else { factorial(coils) };
            for driver in 1..=count {
                order = order.checked_mul(own)?.checked_mul(u128::from(driver))?;
            }
        }
        let mut sum: u128 = 0;
        for (cycles, ways) in exchanges {
            sum = sum.checked_add(ways.checked_mul(self.fixed.of(&cycles)?)?)?;
        }
        Some(sum / order)
    }
}

/// Networks of the coils of one driver: 1, 2 or 10 (OEIS A000084 at 1, 2 and 4).
pub(crate) fn forms(coils: u32) -> u128 {
    match coils {
        1 => 1,
        2 => 2,
        _ => 10,
    }
}

fn factorial(n: u32) -> u128 {
    (1..=u128::from(n)).product()
}

fn add(a: &[u8], b: &[u8]) -> Cycles {
    let mut sum = vec![0; a.len().max(b.len())];
    for (i, slot) in sum.iter_mut().enumerate() {
        *slot = a.get(i).copied().unwrap_or(0) + b.get(i).copied().unwrap_or(0);
    }
    sum
}

/// `count` cycles of one length.
fn cycles(length: u32, count: u8) -> Cycles {
    let mut cycles = vec![0; length as usize];
    cycles[length as usize - 1] = count;
    cycles
}

/// Exchanges of `count` equal things, the thing numbered lowest in a cycle of each length.
fn exchanges_of(count: u32, cycle: impl Fn(u32) -> Vec<(Cycles, u128)>) -> BTreeMap<Cycles, u128> {
    let mut of: Vec<BTreeMap<Cycles, u128>> = vec![BTreeMap::from([(Vec::new(), 1)])];
    for m in 1..=count {
        let mut here = BTreeMap::new();
        for length in 1..=m {
            // The others in the cycle of the lowest, in order.
            let chosen: u128 = ((m - length + 1)..m).map(u128::from).product();
            for (shape, ways) in cycle(length) {
                for (rest, n) in &of[(m - length) as usize] {
                    *here.entry(add(&shape, rest)).or_insert(0) += chosen * ways * n;
                }
            }
        }
        of.push(here);
    }
    of.pop().unwrap_or_default()
}

/// Exchanges of drivers and of coils within drivers, by their cycles on the coils.
fn of_coils(count: u32, coils: u32) -> BTreeMap<Cycles, u128> {
    let inside = exchanges_of(coils, |length| vec![(cycles(length, 1), 1)]);
    exchanges_of(count, |length| {
        // Round a cycle of drivers the coil exchanges multiply up to one of them.
        let free = factorial(coils).pow(length - 1);
        let stretch = |inside: &Cycles| {
            let mut long = vec![0; inside.len() * length as usize];
            for (i, n) in inside.iter().enumerate() {
                long[(i + 1) * length as usize - 1] = *n;
            }
            long
        };
        inside.iter().map(|(shape, ways)| (stretch(shape), ways * free)).collect()
    })
}

/// Exchanges of drivers, each a block of one of so many forms: drivers of one cycle
/// must have the same form.
fn of_blocks(count: u32, forms: u128) -> BTreeMap<Cycles, u128> {
    exchanges_of(count, |length| vec![(cycles(length, 1), forms)])
}

/// Networks that an exchange with these cycles leaves as they are.
#[derive(Clone, Debug, Default)]
struct Fixed {
    known: BTreeMap<Cycles, u128>,
}

impl Fixed {
    fn of(&mut self, cycles: &Cycles) -> Option<u128> {
        if weight(cycles) <= 1 {
            return Some(1);
        }
        if let Some(known) = self.known.get(cycles) {
            return Some(*known);
        }
        // Follow the cycle of the first leaf. It lies in a thing to be joined which the
        // exchange carries round `copies` of its like; choose which other cycles lie in
        // those copies, how they line up, what the thing is, and what the rest is.
        let first = cycles.iter().position(|n| *n > 0)?;
        let mut sum: u128 = 0;
        for copies in (1..=first + 1).filter(|copies| (first + 1) % copies == 0) {
            let mut part = vec![0; cycles.len()];
            part[first] = 1;
            loop {
                let whole = copies == 1 && part == *cycles;
                if !whole {
                    sum = sum.checked_add(self.ways(cycles, &part, first, copies)?)?;
                }
                if !next_part(&mut part, cycles, first, copies) {
                    break;
                }
            }
        }
        // What is left out above is the network itself as the one thing: half of the total.
        let total = sum.checked_mul(2)?;
        self.known.insert(cycles.clone(), total);
        Some(total)
    }

    fn ways(
        &mut self,
        cycles: &Cycles,
        part: &Cycles,
        first: usize,
        copies: usize,
    ) -> Option<u128> {
        let mut ways: u128 = 1;
        let mut chosen: u32 = 0;
        let mut rest = cycles.clone();
        let mut thing = Vec::new();
        for (i, n) in part.iter().enumerate() {
            let (of, take) = if i == first { (cycles[i] - 1, n - 1) } else { (cycles[i], *n) };
            ways = ways.checked_mul(choose(u128::from(of), u128::from(take))?)?;
            chosen += u32::from(*n);
            rest[i] -= n;
            if *n > 0 {
                thing = add(&thing, &self::cycles(((i + 1) / copies) as u32, *n));
            }
        }
        let aligned = (copies as u128).checked_pow(chosen - 1)?;
        let things = if weight(&thing) == 1 { 1 } else { self.of(&thing)? / 2 };
        while rest.last() == Some(&0) {
            rest.pop();
        }
        ways.checked_mul(aligned)?.checked_mul(things)?.checked_mul(self.of(&rest)?)
    }
}

fn weight(cycles: &[u8]) -> usize {
    cycles.iter().enumerate().map(|(i, n)| (i + 1) * usize::from(*n)).sum()
}

/// The next choice of cycles, the first kept, all lengths multiples of `copies`.
fn next_part(part: &mut Cycles, cycles: &Cycles, first: usize, copies: usize) -> bool {
    for i in 0..part.len() {
        let least = u8::from(i == first);
        if (i + 1) % copies != 0 || cycles[i] == 0 {
            continue;
        }
        if part[i] < cycles[i] {
            part[i] += 1;
            return true;
        }
        part[i] = least;
    }
    false
}

fn choose(n: u128, k: u128) -> Option<u128> {
    let mut ways: u128 = 1;
    for i in 0..k {
        ways = ways.checked_mul(n - i)? / (i + 1);
    }
    Some(ways)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn count(groups: &[(u32, u32)], joined: bool) -> Option<u128> {
        Counter::default().networks(&Stock::plain(groups), joined)
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
