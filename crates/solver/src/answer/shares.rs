//! Shares of the power: of an output, and of the whole rig.

use super::arrange::Hung;
use crate::network::{Coil, Network};
use crate::ohms::{Ohms, Ratio};
use crate::rig::{Group, Rig};
use crate::short;

/// Each coil's share of the power of its output, and the most total power before the
/// first of them passes its rating: exactly, and rounded once, where the fractions fit.
pub(super) struct Shares {
    exact: Option<Vec<(Coil, Ratio)>>,
    near: Vec<(Coil, f64)>,
    pub(super) usable: Option<f64>,
}

impl Shares {
    pub(super) fn of(network: &Network, rig: &Rig) -> Self {
        let ohms = |coil: Coil| match rig.group_of(coil.driver) {
            Some(group) => group.ohms,
            None => Ohms::new(Ratio::ONE),
        };
        // Of this output's own coils: what others are rated is nothing to it.
        let rating = |coil: Coil| rig.group_of(coil.driver).and_then(Group::coil_rating);
        let exact = network.shares(&ohms);
        let near = match &exact {
            Some(exact) => exact.iter().map(|(coil, share)| (*coil, share.to_f64())).collect(),
            None => network.shares_near(&|coil| ohms(coil).to_f64()),
        };
        let usable = match &exact {
            Some(exact) => exactly_usable(exact, rating),
            None => None,
        };
        let usable = usable.map(Ratio::to_f64).or_else(|| nearly_usable(&near, rating));
        Self { exact, near, usable }
    }
}

/// The least of rating ÷ share; `None` where a rating is not known or a fraction too long.
fn exactly_usable(
    shares: &[(Coil, Ratio)],
    rating: impl Fn(Coil) -> Option<Ratio>,
) -> Option<Ratio> {
    let mut least: Option<Ratio> = None;
    for (coil, share) in shares {
        let usable = rating(*coil)?.over(*share)?;
        least = Some(least.map_or(usable, |least| least.min(usable)));
    }
    least
}

/// The same in floats; `None` where a rating is not known.
fn nearly_usable(shares: &[(Coil, f64)], rating: impl Fn(Coil) -> Option<Ratio>) -> Option<f64> {
    let mut least = f64::INFINITY;
    for (coil, share) in shares {
        least = least.min(rating(*coil)?.to_f64() / share);
    }
    Some(least)
}

/// Each driver's and each coil's share of the whole power with the same voltage on every
/// output: an output takes power as its conductance.
pub(super) fn of_rig(rig: &Rig, hung: &[Hung], shares: &[Shares]) -> (Vec<f64>, Vec<f64>) {
    let mut whole: Option<Ratio> = None;
    let mut fits = true;
    let mut near = 0.0;
    for hung in hung {
        let conductance = hung.load.ratio().recip();
        let sum = whole.map_or(Some(conductance), |sum| sum.plus(conductance));
        fits = fits && sum.is_some();
        whole = sum;
        near += 1.0 / hung.load.to_f64();
    }
    let whole = whole.filter(|_| fits);
    let mut coils: Vec<(Coil, f64)> = Vec::with_capacity(rig.coils() as usize);
    for (hung, shares) in hung.iter().zip(shares) {
        let part = whole.and_then(|whole| hung.load.ratio().recip().over(whole));
        let exactly = part.zip(shares.exact.as_ref());
        let part = 1.0 / hung.load.to_f64() / near;
        let before = coils.len();
        for (coil, share) in &shares.near {
            coils.push((*coil, share * part));
        }
        if let Some((part, exact)) = exactly {
            let of_whole: Option<Vec<f64>> =
                exact.iter().map(|(_, share)| Some(share.times(part)?.to_f64())).collect();
            for (slot, share) in coils.iter_mut().skip(before).zip(of_whole.into_iter().flatten()) {
                slot.1 = share;
            }
        }
    }
    short::insertion_sort(&mut coils, |(a, _), (b, _)| a.cmp(b));
    let mut drivers = vec![0.0; rig.drivers() as usize];
    let mut each = Vec::with_capacity(coils.len());
    for (coil, share) in coils {
        if let Some(sum) = drivers.get_mut(usize::from(coil.driver)) {
            *sum += share;
        }
        each.push(share);
    }
    (drivers, each)
}
