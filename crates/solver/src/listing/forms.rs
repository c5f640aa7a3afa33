//! Whole drivers as leaves: their own coils joined in each of the forms there are.

use super::Stock;
use super::atoms::{Atom, coils};
use super::electrics::Electrics;
use super::keys::{Content, Keys};
use super::parts::Parts;
use crate::network::{Coil, Network};
use crate::ohms::Ratio;
use crate::problem::Code;
use crate::work::Steps;

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
            let mut next = 0_u8;
            let network = parts.network(joint, &walker.children, &mut |_| {
                let coil = next;
                next = next.saturating_add(1);
                Network::Coil(Coil { driver: 0, coil })
            });
            forms.push((network, electrics));
        }
    }
    Ok(forms)
}
