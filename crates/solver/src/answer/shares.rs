//! Shares of the power: of an output, and of the whole rig.

use super::arrange::Hung;
use crate::network::{Coil, Network};
use crate::ohms::{Ohms, Ratio};
use crate::rig::Rig;
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
        let rating = |coil: Coil| match rig.group_of(coil.driver) {
            Some(group) => rig.coil_rating(group),
            None => Ratio::ONE,
        };
        let exact = network.shares(&ohms);
        let mut near = Vec::new();
        let mut least: Option<Ratio> = None;
        let mut fits = exact.is_some();
        for (coil, share) in exact.as_deref().unwrap_or(&[]) {
            near.push((*coil, share.to_f64()));
            match rating(*coil).over(*share) {
                Some(usable) => least = Some(least.map_or(usable, |least| least.min(usable))),
                None => fits = false,
            }
        }
        if exact.is_none() {
            near = network.shares_near(&|coil| ohms(coil).to_f64());
        }
        let mut usable = f64::INFINITY;
        for (coil, share) in &near {
            usable = usable.min(rating(*coil).to_f64() / share);
        }
        if let Some(least) = least.filter(|_| fits) {
            usable = least.to_f64();
        }
        Self { exact, near, usable: rig.every_rating_known().then_some(usable) }
    }
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
    let mut coils: Vec<(Coil, f64)> = Vec::new();
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
            for (slot, share) in coils.iter_mut().skip(before).zip(of_whole.unwrap_or_default()) {
                slot.1 = share;
            }
        }
    }
    short::sort(&mut coils, |(a, _), (b, _)| a.cmp(b));
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
