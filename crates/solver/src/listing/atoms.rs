//! The leaves a listing is made of: single coils, or whole drivers whose coils are
//! already joined.

use super::Stock;
use super::electrics::Electrics;
use crate::network::{Coil, Network};
use crate::ohms::Ratio;
use crate::problem::Code;

/// A leaf.
#[derive(Clone, Debug)]
pub(crate) struct Atom {
    pub(crate) group: usize,
    /// Its coils, as if of driver 0.
    pub(crate) network: Network,
    pub(crate) load: Ratio,
    /// The rating of all its coils together.
    pub(crate) rating: Ratio,
    pub(crate) even: bool,
    pub(crate) electrics: Electrics,
}

/// Single coils, one atom a group.
pub(crate) fn coils(stock: &Stock) -> Result<Vec<Atom>, Code> {
    let mut atoms = Vec::new();
    for (group, kind) in stock.kinds.iter().enumerate() {
        if kind.count == 0 {
            continue;
        }
        let (load, rating) = (kind.ohms.ratio(), kind.coil_rating);
        atoms.push(Atom {
            group,
            network: Network::Coil(Coil { driver: 0, coil: 0 }),
            load,
            rating,
            even: true,
            electrics: Electrics::of_coil(load, rating, kind.takes, kind.group),
        });
    }
    Ok(atoms)
}
