//! Parts of a network that have a reading of their own.

use crate::network::{Coil, Joint, Network};

/// Nodes of a network that are not read across one coil, by the coils at their ends.
pub(crate) fn nodes(network: &Network, found: &mut Vec<(Coil, Coil)>) {
    let Network::Node(joint, parts) = network else { return };
    for part in parts {
        // A series part is as long as its node only where that is parallel; then it reads
        // as the node does. What is below may differ.
        if let (Network::Node(..), Joint::Series) = (part, joint)
            && let (Some(into), Some(out)) = (first(part), last(part))
            && into != out
            && !is_across_a_coil(part)
        {
            found.push((into, out));
        }
        nodes(part, found);
    }
}

/// Whether one coil of a parallel node spans it.
fn is_across_a_coil(network: &Network) -> bool {
    match network {
        Network::Node(_, parts) => parts.iter().any(|part| matches!(part, Network::Coil(_))),
        Network::Coil(_) => true,
    }
}

fn first(network: &Network) -> Option<Coil> {
    match network {
        Network::Coil(coil) => Some(*coil),
        Network::Node(_, parts) => first(parts.first()?),
    }
}

fn last(network: &Network) -> Option<Coil> {
    match network {
        Network::Coil(coil) => Some(*coil),
        Network::Node(_, parts) => last(parts.last()?),
    }
}
