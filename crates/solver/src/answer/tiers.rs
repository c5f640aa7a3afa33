//! What one output of a configuration contributes: its networks, judged.
//!
//! A *tier* is all networks of one class on one kind of output that are joined at the
//! driver, or all that are not: they stand alike in every respect that ranks.

use super::power::Power;
use crate::defect::{Defect, number};
use crate::judge::{Basis, Figures, Verdict};
use crate::listing::Listing;
use crate::loads::Loads;
use crate::ohms::Ohms;

#[derive(Clone, Copy, Debug)]
pub(super) struct Tier {
    pub(super) class: u32,
    pub(super) joined: bool,
    pub(super) count: u32,
    /// By its number.
    pub(super) load: u32,
    pub(super) verdict: Verdict,
    /// From 0, a stated fit, to 4, too low.
    pub(super) fit: u8,
    pub(super) target: Power,
    pub(super) even: bool,
    pub(super) unlike_in_series: bool,
    pub(super) runs: u32,
}

/// Judges the classes of a listing from `from` on, at most `most` of them, into tiers.
pub(super) fn judge(
    listing: &Listing,
    figures: &Figures,
    loads: &Loads,
    from: usize,
    most: usize,
    tiers: &mut Vec<Tier>,
) -> Result<(), Defect> {
    if from == 0 {
        let joined = listing.classes().iter().filter(|class| class.joined > 0).count();
        let apart = listing.classes().iter().filter(|class| class.apart > 0).count();
        tiers.reserve_exact(joined.saturating_add(apart));
    }
    for (at, class) in listing.classes().iter().enumerate().skip(from).take(most) {
        let load = Ohms::new(loads.get(class.load)?);
        let verdict = figures.verdict(load);
        let available = figures.available(load);
        let usable = listing.rated().then(|| 1.0 / class.hottest);
        let target = available.zip(usable).map(|(a, usable)| a.low.min(usable)).into();
        for (joined, count) in [(true, class.joined), (false, class.apart)] {
            if count > 0 {
                tiers.push(Tier {
                    class: number(at)?,
                    joined,
                    count,
                    load: class.load,
                    verdict,
                    fit: fit(verdict, available.map(|a| a.basis)),
                    target,
                    even: class.even,
                    unlike_in_series: class.unlike_in_series,
                    runs: class.runs,
                });
            }
        }
    }
    Ok(())
}

/// Stated before derived before range-only, then what nobody states, then what is too low.
fn fit(verdict: Verdict, basis: Option<Basis>) -> u8 {
    match (verdict, basis) {
        (Verdict::Fits, Some(Basis::Range)) => 2,
        (Verdict::Fits, Some(Basis::Derived)) | (Verdict::FitsByDerivation, _) => 1,
        (Verdict::Fits, _) => 0,
        (Verdict::NotStated, _) => 3,
        (Verdict::BelowStated | Verdict::TooLow, _) => 4,
    }
}
