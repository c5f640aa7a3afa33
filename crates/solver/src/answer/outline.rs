//! What hangs on an output in outline: how its drivers are joined, and how the coils of each.

use super::Output;
use crate::count::index;
use crate::network::{Joint, Network};
use crate::rig::Rig;

/// A network in outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outline {
    /// One coil of a driver whose other coils hang elsewhere, and so many drivers.
    Half {
        /// The driver, counted from 0.
        driver: u8,
        /// The drivers beside it.
        others: usize,
    },
    /// Drivers whose coils are joined one by one across drivers.
    Woven {
        /// How many.
        drivers: usize,
    },
    /// Drivers whose own coils are joined first.
    Joined {
        /// How many.
        drivers: usize,
        /// How they are joined to each other; `None` of one alone, and where it is in both ways.
        between: Option<Joint>,
        /// How the coils of each are joined; `None` where each has one, or they are not alike.
        coils: Option<Joint>,
    },
}

impl Outline {
    /// Of a network of a rig.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{bounds::Field, rig::{Draft, GroupDraft}};
    /// # let two = GroupDraft { count: Some(2), coils: Some(2), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// use coilwright_solver::{answer::outline::Outline, network::Joint};
    /// let network = "(1a + 1b) ∥ (2a + 2b)".parse().unwrap();
    /// let (between, coils) = (Some(Joint::Parallel), Some(Joint::Series));
    /// assert_eq!(Outline::of(&rig, &network), Outline::Joined { drivers: 2, between, coils });
    /// ```
    #[must_use]
    pub fn of(rig: &Rig, network: &Network) -> Self {
        let coils = network.coils();
        let mut drivers: Vec<u8> = Vec::new();
        for coil in &coils {
            if let Err(at) = drivers.binary_search(&coil.driver) {
                drivers.insert(at, coil.driver);
            }
        }
        let whole = |driver: &u8| {
            let here = coils.iter().filter(|coil| coil.driver == *driver).count();
            rig.group_of(*driver).is_some_and(|group| here == index(group.coils))
        };
        if let Some(driver) = drivers.iter().copied().find(|driver| !whole(driver)) {
            return Self::Half { driver, others: drivers.len().saturating_sub(1) };
        }
        let drivers = drivers.len();
        match shape(network, drivers) {
            None => Self::Woven { drivers },
            Some(Shape { drivers: between, coils }) => {
                Self::Joined { drivers, between: between.filter(|_| drivers > 1), coils }
            }
        }
    }
}

/// Outputs that stand alike.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AlikeOutputs {
    /// What hangs on each.
    pub outline: Outline,
    /// The outputs, as places in the list.
    pub outputs: Vec<usize>,
}

/// Gathers the outputs of a configuration that stand alike: used in the same way, with the same
/// load, verdict and power, and the same in outline on each.
#[must_use]
pub fn alike_outputs(rig: &Rig, outputs: &[Output]) -> Vec<AlikeOutputs> {
    let same = |a: &Output, b: &Output| {
        a.way == b.way
            && a.load == b.load
            && a.verdict == b.verdict
            && a.available == b.available
            && a.usable_watts == b.usable_watts
    };
    let mut found: Vec<(AlikeOutputs, &Output)> = Vec::new();
    for (at, output) in outputs.iter().enumerate() {
        let outline = Outline::of(rig, &output.network);
        let is_mine = |(alike, first): &&mut (AlikeOutputs, &Output)| {
            alike.outline == outline && same(first, output)
        };
        match found.iter_mut().find(is_mine) {
            Some((alike, _)) => alike.outputs.push(at),
            None => found.push((AlikeOutputs { outline, outputs: vec![at] }, output)),
        }
    }
    found.into_iter().map(|(alike, _)| alike).collect()
}

/// How drivers are joined, and how the coils of each, where one word says it.
struct Shape {
    drivers: Option<Joint>,
    coils: Option<Joint>,
}

fn shape(network: &Network, drivers: usize) -> Option<Shape> {
    let Network::Node(joint, parts) = network else {
        return Some(Shape { drivers: None, coils: None });
    };
    let own = |part: &Network| {
        let coils = part.coils();
        let first = coils.first().map(|coil| coil.driver);
        first.filter(|first| coils.iter().all(|coil| coil.driver == *first))
    };
    let mut coils: Vec<Option<Joint>> = Vec::new();
    let mut of: Vec<u8> = Vec::new();
    let mut all_own = true;
    for part in parts {
        match (own(part), part) {
            (Some(driver), Network::Coil(_)) => {
                // The second coil of a driver under one node is joined as the node joins.
                let again = of.contains(&driver);
                of.push(driver);
                if again {
                    coils.push(Some(*joint));
                }
            }
            (Some(driver), Network::Node(inner, _)) => {
                if of.contains(&driver) {
                    return None;
                }
                of.push(driver);
                coils.push(Some(*inner));
            }
            (None, part) => {
                all_own = false;
                let mut inner: Vec<u8> = part.coils().iter().map(|coil| coil.driver).collect();
                inner.dedup();
                // A driver whose coils stand in two parts is joined coil by coil.
                if inner.iter().any(|driver| of.contains(driver)) {
                    return None;
                }
                of.extend(inner);
                let inside = shape(part, 0)?;
                coils.push(inside.coils);
            }
        }
    }
    coils.dedup();
    let coils = match coils.as_slice() {
        [one] => *one,
        _ => None,
    };
    let drivers = (all_own && drivers > 1).then_some(*joint);
    Some(Shape { drivers, coils })
}
