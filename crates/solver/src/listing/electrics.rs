//! What parts come to electrically when they are joined.
#![expect(
    clippy::arithmetic_side_effects,
    clippy::indexing_slicing,
    reason = "parts are numbered by their maker; counts of at most 32 leaves"
)]

use crate::network::Joint;
use crate::ohms::Ratio;
use crate::problem::Code;

/// What is worth knowing of a part: everything follows from its parts' own.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Electrics {
    pub(crate) load: Ratio,
    pub(crate) rating: Ratio,
    /// Whether every coil gets the same fraction of its rating.
    pub(crate) even: bool,
    /// The greatest share ÷ rating of any coil, per watt.
    pub(crate) hottest: f64,
    /// Joints inside series nodes: each saves a run.
    pub(crate) joints: u32,
    /// The groups in it, a bit each.
    groups: u8,
    /// Whether unlike drivers stand in series somewhere.
    pub(crate) unlike_in_series: bool,
}

impl Electrics {
    /// A coil: `rating` is what evenness is judged by, `takes` what heat is judged by.
    pub(crate) fn of_coil(load: Ratio, rating: Ratio, takes: Ratio, group: usize) -> Self {
        let hottest = takes.recip().to_f64();
        let groups = 1 << group;
        Self { load, rating, even: true, hottest, joints: 0, groups, unlike_in_series: false }
    }
}

/// The electrics of parts joined, each given by its number among all.
pub(crate) fn join(joint: Joint, parts: &[u32], all: &[Electrics]) -> Result<Electrics, Code> {
    let of = |part: &u32| &all[*part as usize];
    let (first, rest) = parts.split_first().ok_or(Code::TooExact)?;
    let first = of(first);
    let facing = |load: Ratio| joint.facing(load);
    let mut sum = facing(first.load);
    let mut whole = Electrics { ..*first };
    for part in rest.iter().map(of) {
        sum = sum.plus(facing(part.load)).ok_or(Code::TooExact)?;
        whole.even = whole.even && part.even && alike(joint, first, part)?;
        whole.rating = whole.rating.plus(part.rating).ok_or(Code::TooExact)?;
        whole.joints += part.joints;
        whole.unlike_in_series |=
            part.unlike_in_series || (joint == Joint::Series && part.groups != first.groups);
        whole.groups |= part.groups;
    }
    whole.load = facing(sum);
    if joint == Joint::Series {
        whole.joints += rest.len() as u32;
    }
    let sum = sum.to_f64();
    let hottest = |part: &u32| of(part).hottest * (facing(of(part).load).to_f64() / sum);
    whole.hottest = parts.iter().map(hottest).fold(0.0, f64::max);
    Ok(whole)
}

/// Whether two even parts stay even when joined: the same current in series, the same
/// voltage in parallel, each at full rating.
fn alike(joint: Joint, a: &Electrics, b: &Electrics) -> Result<bool, Code> {
    let pair = match joint {
        Joint::Series => (a.rating.times(b.load), b.rating.times(a.load)),
        Joint::Parallel => (a.rating.times(a.load), b.rating.times(b.load)),
    };
    let (Some(x), Some(y)) = pair else {
        return Err(Code::TooExact);
    };
    Ok(x == y)
}
