//! The network on one output: a series/parallel tree whose leaves are coils.
//!
//! A series node never has a series part and a parallel node never a parallel one,
//! parts have no order, and every coil is driven in phase. The written form, its
//! reader are in [`written`]; the one canonical writing of a configuration is that of
//! its [key](crate::answer::key).

pub(crate) mod canonical;
pub(crate) mod dealing;
mod spans;
pub mod written;

use crate::ohms::{Ohms, Ratio};
use core::fmt;
pub(crate) use spans::spans;

/// One voice coil: driver and coil, both counted from 0. Written `1a`, `1b`, `2a` …
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Coil {
    /// The driver, counted from 0 across all groups.
    pub driver: u8,
    /// The coil within its driver, counted from 0.
    pub coil: u8,
}

impl fmt::Display for Coil {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let letter = char::from(b'a'.saturating_add(self.coil));
        write!(f, "{}{letter}", u16::from(self.driver).saturating_add(1))
    }
}

/// How the parts of a node are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Joint {
    /// One after the other: the same current through all.
    Series,
    /// Side by side: the same voltage on all.
    Parallel,
}

impl Joint {
    /// The other one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Series => Self::Parallel,
            Self::Parallel => Self::Series,
        }
    }

    /// What adds up over its parts: loads in series, their reciprocals in parallel; and back.
    pub(crate) fn facing(self, load: Ratio) -> Ratio {
        match self {
            Self::Series => load,
            Self::Parallel => load.recip(),
        }
    }
}

/// A two-terminal network of coils.
///
/// Build it with [`Network::joined`], which keeps the tree in its one form.
///
/// # Example
/// ```
/// use coilwright_solver::network::{Coil, Joint, Network};
/// let coil = |driver, coil| Network::Coil(Coil { driver, coil });
/// let pair = Network::joined(Joint::Series, vec![coil(0, 0), coil(0, 1)]);
/// let both = Network::joined(Joint::Parallel, vec![pair, coil(1, 0)]);
/// assert_eq!(both.to_string(), "(1a + 1b) ∥ 2a");
/// ```
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Network {
    /// A single coil.
    Coil(Coil),
    /// Two or more parts joined alike, none of them a node joined the same way.
    Node(Joint, Vec<Network>),
}

impl Network {
    /// Joins parts, lifting the parts of any part that is joined the same way.
    /// A single part is itself.
    #[must_use]
    pub fn joined(joint: Joint, parts: Vec<Self>) -> Self {
        let mut flat = Vec::with_capacity(parts.len());
        for part in parts {
            match part {
                Self::Node(inner, parts) if inner == joint => flat.extend(parts),
                part => flat.push(part),
            }
        }
        match flat.pop() {
            Some(only) if flat.is_empty() => only,
            Some(last) => {
                flat.push(last);
                Self::Node(joint, flat)
            }
            None => Self::Node(joint, flat),
        }
    }

    /// Every coil, in the order of writing.
    #[must_use]
    pub fn coils(&self) -> Vec<Coil> {
        let mut coils = Vec::new();
        self.each_coil(&mut |coil| coils.push(coil));
        coils
    }

    fn each_coil(&self, visit: &mut dyn FnMut(Coil)) {
        match self {
            Self::Coil(coil) => visit(*coil),
            Self::Node(_, parts) => parts.iter().for_each(|part| part.each_coil(visit)),
        }
    }

    /// The same network with other coils in the same places, taken in the order of writing.
    pub(crate) fn with_coils(&self, other: &mut dyn FnMut(Coil) -> Coil) -> Self {
        match self {
            Self::Coil(coil) => Self::Coil(other(*coil)),
            Self::Node(joint, parts) => {
                let mut others = Vec::with_capacity(parts.len());
                for part in parts {
                    others.push(part.with_coils(other));
                }
                Self::Node(*joint, others)
            }
        }
    }

    /// The load, given the ohms of each coil; `None` where the fraction does not fit.
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::network::{Coil, Joint, Network};
    /// use coilwright_solver::ohms::{Ohms, Ratio};
    /// let coil = |driver| Network::Coil(Coil { driver, coil: 0 });
    /// let two = Ohms::new(Ratio::whole(2).unwrap());
    /// let pair = Network::joined(Joint::Parallel, vec![coil(0), coil(1)]);
    /// assert_eq!(pair.load(&|_| two).unwrap().to_string(), "1");
    /// ```
    #[must_use]
    pub fn load(&self, ohms: &dyn Fn(Coil) -> Ohms) -> Option<Ohms> {
        match self {
            Self::Coil(coil) => Some(ohms(*coil)),
            Self::Node(joint, parts) => {
                let mut loads = parts.iter().map(|part| part.load(ohms));
                let first = loads.next()??;
                loads.try_fold(first, |sum, load| match joint {
                    Joint::Series => sum.series(load?),
                    Joint::Parallel => sum.parallel(load?),
                })
            }
        }
    }

    /// Each coil's exact share of the power, in the order of writing; `None` where a
    /// fraction does not fit. The shares sum to exactly one.
    ///
    /// In series a part takes power as its resistance, in parallel as its conductance.
    #[must_use]
    pub fn shares(&self, ohms: &dyn Fn(Coil) -> Ohms) -> Option<Vec<(Coil, Ratio)>> {
        // Room for as many coils as there may be, at once: lists ask for ten thousands.
        const MOST: usize = 32;
        let mut loads = Vec::with_capacity(MOST);
        self.loads(ohms, &mut loads)?;
        let mut shares = Vec::with_capacity(MOST);
        self.share_out(&mut loads.iter(), Ratio::ONE, &mut shares)?;
        Some(shares)
    }

    /// The load of every part, each before those of its own parts; returns its own.
    fn loads(&self, ohms: &dyn Fn(Coil) -> Ohms, all: &mut Vec<Ratio>) -> Option<Ratio> {
        let at = all.len();
        match self {
            Self::Coil(coil) => all.push(ohms(*coil).ratio()),
            Self::Node(joint, parts) => {
                all.push(Ratio::ONE);
                let mut sum: Option<Ratio> = None;
                for part in parts {
                    let facing = joint.facing(part.loads(ohms, all)?);
                    sum = Some(sum.map_or(Some(facing), |sum| sum.plus(facing))?);
                }
                *all.get_mut(at)? = joint.facing(sum?);
            }
        }
        all.get(at).copied()
    }

    /// Shares out a whole among the coils, given the load of every part.
    fn share_out(
        &self,
        loads: &mut core::slice::Iter<'_, Ratio>,
        whole: Ratio,
        shares: &mut Vec<(Coil, Ratio)>,
    ) -> Option<()> {
        let load = loads.next()?;
        match self {
            Self::Coil(coil) => shares.push((*coil, whole)),
            Self::Node(joint, parts) => {
                for part in parts {
                    let of_load = joint.facing(loads.as_slice().first()?.over(*load)?);
                    part.share_out(loads, whole.times(of_load)?, shares)?;
                }
            }
        }
        Some(())
    }

    /// Each coil's share of the power as a float, in the order of writing: for networks
    /// whose exact shares do not fit, and for answers that are floats anyway.
    #[must_use]
    pub fn shares_near(&self, ohms: &dyn Fn(Coil) -> f64) -> Vec<(Coil, f64)> {
        let mut shares = Vec::new();
        self.share_near(ohms, 1.0, &mut shares);
        shares
    }

    fn load_near(&self, ohms: &dyn Fn(Coil) -> f64) -> f64 {
        match self {
            Self::Coil(coil) => ohms(*coil),
            Self::Node(Joint::Series, parts) => parts.iter().map(|part| part.load_near(ohms)).sum(),
            Self::Node(Joint::Parallel, parts) => {
                1.0 / parts.iter().map(|part| 1.0 / part.load_near(ohms)).sum::<f64>()
            }
        }
    }

    fn share_near(&self, ohms: &dyn Fn(Coil) -> f64, whole: f64, shares: &mut Vec<(Coil, f64)>) {
        match self {
            Self::Coil(coil) => shares.push((*coil, whole)),
            Self::Node(joint, parts) => {
                let load = self.load_near(ohms);
                for part in parts {
                    let of_load = part.load_near(ohms) / load;
                    let fraction = match joint {
                        Joint::Series => of_load,
                        Joint::Parallel => 1.0 / of_load,
                    };
                    part.share_near(ohms, whole * fraction, shares);
                }
            }
        }
    }

    /// Runs of wire of a plan without a box: two ends for each coil, less one for each
    /// joint of a series node, where one run serves two ends.
    #[must_use]
    pub fn runs(&self) -> u32 {
        match self {
            Self::Coil(_) => 2,
            Self::Node(joint, parts) => {
                let inside: u32 = parts.iter().map(Self::runs).sum();
                let joints = parts.iter().skip(1).fold(0_u32, |sum, _| sum.saturating_add(1));
                match joint {
                    Joint::Series => inside.saturating_sub(joints),
                    Joint::Parallel => inside,
                }
            }
        }
    }
}
