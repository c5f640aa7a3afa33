//! Walking and counting must agree.

use super::*;
use crate::bounds::MOST_WORK;

fn list(groups: &[(u32, u32)], joined: bool, even: bool) -> Result<Listing, Stopped> {
    let mut budget = Steps::new(MOST_WORK);
    let mut counter = Counter::default();
    let stock = Stock::plain(groups);
    while !even && !Listing::is_counted(&mut counter, &stock, joined, &mut budget)? {}
    let mut listing = Listing::new(stock, joined, even, &mut budget)?;
    let mut loads = Loads::default();
    while !listing.step(&mut loads, &mut budget)? {
        if !budget.any() {
            return Err(Code::TooMuchWork.into());
        }
    }
    Ok(listing)
}

#[track_caller]
fn found(groups: &[(u32, u32)], joined: bool, even: bool) -> u64 {
    let listing = list(groups, joined, even).unwrap();
    assert_eq!(listing.classes().len() as u64, listing.expected, "shapes foretold");
    let sum: u64 = listing.classes().iter().map(|c| u64::from(c.joined + c.apart)).sum();
    assert_eq!(sum, listing.found);
    sum
}

/// Two roads to one number: walking every network, and the counting formula.
#[test]
fn the_walk_meets_as_many_networks_as_the_formula_counts() {
    let stocks: [&[(u32, u32)]; 14] = [
        &[(1, 1)],
        &[(1, 2)],
        &[(1, 4)],
        &[(9, 1)],
        &[(2, 2)],
        &[(3, 2)],
        &[(4, 2)],
        &[(2, 4)],
        &[(1, 1), (1, 1), (1, 1), (1, 1), (1, 1)],
        &[(3, 1), (1, 2)],
        &[(1, 2), (1, 2), (1, 2)],
        &[(2, 2), (1, 4)],
        &[(1, 4), (2, 1), (1, 2)],
        &[(2, 2), (2, 2)],
    ];
    for stock in stocks {
        for joined in [false, true] {
            let formula = count::whole(&Stock::plain(stock), joined).unwrap();
            assert_eq!(u128::from(found(stock, joined, false)), formula, "{stock:?} {joined}");
        }
    }
}

/// Worked by hand: two dual-coil drivers, 16 networks, 6 even, 4 of them joined.
#[test]
fn filters_narrow_the_list() {
    assert_eq!(found(&[(2, 2)], false, false), 16);
    assert_eq!(found(&[(2, 2)], false, true), 6);
    assert_eq!(found(&[(2, 2)], true, true), 4);
    assert_eq!(found(&[(10, 2)], true, true), 130);
}

#[test]
fn too_much_ends_with_a_reason() {
    let stopped = list(&[(16, 2)], false, false).unwrap_err();
    assert_eq!(stopped.stop, Code::TooMany.into());
    let stopped = list(&[(10, 2)], false, true).unwrap_err();
    assert_eq!(stopped.stop, Code::TooMany.into());
}
