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
        let group = |coil: Coil| rig.group_of(coil.driver);
        let ohms = |coil: Coil| group(coil).map_or(Ohms::new(Ratio::ONE), |group| group.ohms);
        let rating = |coil: Coil| group(coil).map_or(Ratio::ONE, |group| rig.coil_rating(group));
        let exact = network.shares(&ohms);
        let usable = exact.as_ref().and_then(|shares| {
            let usable = |(coil, share): &(Coil, Ratio)| rating(*coil).over(*share);
            shares.iter().map(usable).collect::<Option<Vec<_>>>()?.into_iter().min()
        });
        let near = match &exact {
            Some(shares) => shares.iter().map(|(coil, share)| (*coil, share.to_f64())).collect(),
            None => network.shares_near(&|coil| ohms(coil).to_f64()),
        };
        let from_near = || {
            let usable = |(coil, share): &(Coil, f64)| rating(*coil).to_f64() / share;
            near.iter().map(usable).fold(f64::INFINITY, f64::min)
        };
        let usable = usable.map_or_else(from_near, Ratio::to_f64);
        let usable = rig.every_rating_known().then_some(usable);
        Self { exact, near, usable }
    }
}

/// Each driver's and each coil's share of the whole power with the same voltage on every
/// output: an output takes power as its conductance.
pub(super) fn of_rig(rig: &Rig, hung: &[Hung], shares: &[Shares]) -> (Vec<f64>, Vec<f64>) {
    let mut coils: Vec<(Coil, f64)> = Vec::new();
    let conductance = |hung: &Hung| hung.load.ratio().recip();
    let whole = hung.iter().map(conductance).map(Some).reduce(|a, b| a?.plus(b?)).flatten();
    let near: f64 = hung.iter().map(|hung| 1.0 / hung.load.to_f64()).sum();
    for (hung, shares) in hung.iter().zip(shares) {
        let part = whole.and_then(|whole| conductance(hung).over(whole));
        let exactly = part.zip(shares.exact.as_ref()).and_then(|(part, exact)| {
            let share = |(coil, share): &(Coil, Ratio)| Some((*coil, share.times(part)?.to_f64()));
            exact.iter().map(share).collect::<Option<Vec<_>>>()
        });
        let nearly = || {
            let part = 1.0 / hung.load.to_f64() / near;
            shares.near.iter().map(|(coil, share)| (*coil, share * part)).collect()
        };
        coils.extend(exactly.unwrap_or_else(nearly));
    }
    short::sort(&mut coils, |(a, _), (b, _)| a.cmp(b));
    let mut drivers = vec![0.0; usize::try_from(rig.drivers()).unwrap_or(0)];
    for (coil, share) in &coils {
        if let Some(sum) = drivers.get_mut(usize::from(coil.driver)) {
            *sum += share;
        }
    }
    (drivers, coils.into_iter().map(|(_, share)| share).collect())
}
