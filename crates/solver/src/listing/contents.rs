//! What each driver of a dealing gets of the power: coil by coil, whichever coil it is.

use super::Listing;
use super::hand::Dealings;
use crate::count::wide;
use crate::interner::Interner;
use crate::network::Coil;
use crate::ohms::{Ohms, Ratio};

/// The shares of one class by where its coils stand: all leaves of one bunch of a node get
/// alike, so a dealing only says whose they are.
#[derive(Clone, Debug)]
pub(crate) struct Contents {
    /// The number of the share in each bunch.
    bunches: Vec<u32>,
    /// The kinds in order: first driver and end of those dealt, or what is the same in
    /// every dealing.
    kinds: Vec<(u64, Content)>,
    coils: u64,
}

#[derive(Clone, Debug)]
enum Content {
    Dealt(u8, u8),
    Fixed(Vec<[u32; 4]>),
}

impl Contents {
    /// Of the class that `dealings` walks through and stands in; equal shares have equal
    /// numbers among `shares`.
    pub(crate) fn of(
        listing: &Listing,
        dealings: &Dealings,
        shares: &mut Interner,
    ) -> Option<Self> {
        let kinds = listing.stock.kinds();
        let ohms = |coil: Coil| {
            let mut left = coil.driver;
            for kind in kinds {
                match left.checked_sub(kind.count) {
                    None => return kind.ohms,
                    Some(rest) => left = rest,
                }
            }
            Ohms::new(Ratio::ONE)
        };
        let network = dealings.network(listing)?;
        let mut numbers: Vec<(Coil, u32)> = Vec::new();
        match network.shares(&ohms) {
            Some(exact) => {
                for (coil, share) in exact {
                    numbers.push((coil, shares.number(&share.words()).0));
                }
            }
            // Shares whose fractions are too long are told apart by their floats.
            None => {
                for (coil, share) in network.shares_near(&|coil| ohms(coil).to_f64()) {
                    numbers.push((coil, shares.number(&[share.to_bits()]).0));
                }
            }
        }
        let number = |coil: Coil| numbers.iter().find(|(one, _)| *one == coil).map(|(_, n)| *n);
        let dealing = &dealings.dealing;
        let mut this = Self { bunches: vec![0; dealing.bunches()], kinds: Vec::new(), coils: 0 };
        this.coils = wide(numbers.len());
        let mut first = 0_u8;
        for (at, kind) in kinds.iter().enumerate() {
            let end = first.saturating_add(kind.count);
            let content = if dealing.deals(at) {
                let (low, high) = dealing.range(at);
                for dealt in low..high {
                    let driver = first.saturating_add(dealt.saturating_sub(low));
                    // Coils are given out bunch by bunch.
                    let mut coil = 0_u8;
                    for (bunch, slot) in this.bunches.iter_mut().enumerate() {
                        let here = dealing.in_bunch(bunch, dealt);
                        if here > 0 {
                            *slot = number(Coil { driver, coil })?;
                        }
                        coil = coil.saturating_add(here);
                    }
                }
                Content::Dealt(low, high)
            } else {
                let mut drivers = Vec::new();
                for driver in first..end {
                    let own = numbers.iter().filter(|(coil, _)| coil.driver == driver);
                    drivers.push(sorted(own.map(|(_, number)| *number)));
                }
                drivers.sort_unstable();
                Content::Fixed(drivers)
            };
            let group = wide(kind.group);
            this.kinds.push((group, content));
            first = end;
        }
        Some(this)
    }

    /// How many coils there are.
    pub(crate) fn coils(&self) -> u64 {
        self.coils
    }

    /// Adds to a row of words what is the same in every dealing: which drivers there are, and
    /// what those get that are not dealt.
    pub(crate) fn write_fixed(&self, row: &mut Vec<u64>) {
        for (group, content) in &self.kinds {
            row.push(*group);
            match content {
                Content::Dealt(low, high) => row.push(u64::from(high.saturating_sub(*low))),
                Content::Fixed(drivers) => row.extend(drivers.iter().flat_map(|all| words(*all))),
            }
        }
    }

    /// Adds to a row of words what the dealt drivers get, equal where they get alike
    /// whichever they are; what a driver gets has a number among `known`.
    pub(crate) fn write_dealt(
        &self,
        dealings: &Dealings,
        known: &mut Interner,
        row: &mut Vec<u64>,
    ) {
        let mut drivers: Vec<u32> = Vec::new();
        for (_, content) in &self.kinds {
            let Content::Dealt(low, high) = content else { continue };
            drivers.clear();
            for driver in *low..*high {
                let own = self.bunches.iter().enumerate().flat_map(|(bunch, number)| {
                    let coils = dealings.dealing.in_bunch(bunch, driver);
                    core::iter::repeat_n(*number, usize::from(coils))
                });
                drivers.push(known.number(&words(sorted(own))).0);
            }
            drivers.sort_unstable();
            for two in drivers.chunks(2) {
                let [first, second] = match *two {
                    [first, second] => [first, second],
                    [first] => [first, 0],
                    _ => continue,
                };
                row.push(u64::from(first) << 32 | u64::from(second));
            }
        }
    }
}

fn words(coils: [u32; 4]) -> [u64; 2] {
    let [a, b, c, d] = coils.map(u64::from);
    [a << 32 | b, c << 32 | d]
}

/// The numbers of at most four coils, counted from 1 and falling; 0 where there are fewer.
fn sorted(coils: impl Iterator<Item = u32>) -> [u32; 4] {
    let mut all = [0; 4];
    for (slot, number) in all.iter_mut().zip(coils) {
        *slot = number.saturating_add(1);
    }
    crate::short::insertion_sort(&mut all, |a, b| b.cmp(a));
    all
}
