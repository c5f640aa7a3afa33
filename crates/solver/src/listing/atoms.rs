//! The leaves a listing is made of: single coils, or whole drivers whose coils are
//! already joined, in each of their forms.

use super::electrics::Electrics;
use super::parts::Parts;
use super::{Stock, keys::Content, keys::Keys};
use crate::network::{Coil, Network};
use crate::ohms::Ratio;
use crate::problem::Code;
use crate::work::Steps;

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

/// Whole drivers, an atom for every way to join a driver's own coils.
pub(crate) fn drivers(stock: &Stock) -> Result<Vec<Atom>, Code> {
    let mut atoms = Vec::new();
    for (group, kind) in stock.kinds.iter().enumerate() {
        if kind.count == 0 {
            continue;
        }
        let rating = Ratio::whole(u128::from(kind.coils)).and_then(|n| kind.coil_rating.times(n));
        let rating = rating.ok_or(Code::TooExact)?;
        for (network, electrics) in forms(stock, group)? {
            atoms.push(Atom {
                group,
                network,
                load: electrics.load,
                rating,
                even: electrics.even,
                electrics,
            });
        }
    }
    Ok(atoms)
}

/// Every network of the coils of one driver: the listing of that many equal coils.
fn forms(stock: &Stock, group: usize) -> Result<Vec<(Network, Electrics)>, Code> {
    let Some(kind) = stock.kinds.get(group) else {
        return Ok(Vec::new());
    };
    let coils: Vec<Atom> = coils(stock)?.into_iter().filter(|atom| atom.group == group).collect();
    let [coil] = coils.as_slice() else {
        return Ok(Vec::new());
    };
    if kind.coils == 1 {
        return Ok(vec![(coil.network.clone(), coil.electrics)]);
    }
    let whole = Content(u64::from(kind.coils) << group.saturating_mul(8));
    let ratings = stock.kinds.iter().map(|kind| kind.coil_rating).collect();
    // At most four coils: a few hundred steps.
    let mut unbounded = Steps::unbounded();
    let mut keys = Keys::begin(&coils, whole, ratings, false, &mut unbounded)?;
    keys.find(&mut unbounded)?;
    let mut parts = Parts::new(keys, coils);
    parts.fill(&mut unbounded)?;
    let mut forms = Vec::new();
    for key in parts.keys().complete() {
        let joint = parts.joint_of(key);
        let mut walker = parts.walker(key);
        while parts.next(&mut walker, &mut unbounded) {
            let electrics = parts.join(joint, &walker.children)?;
            let mut letters = 0..;
            let network = parts.network(joint, &walker.children, &mut |_| {
                Network::Coil(Coil { driver: 0, coil: letters.next().unwrap_or(0) })
            });
            forms.push((network, electrics));
        }
    }
    Ok(forms)
}
