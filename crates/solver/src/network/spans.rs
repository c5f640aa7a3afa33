//! The parts of a network that no coil spans, by the coils at their ends.

use super::{Coil, Joint, Network};

/// Adds every part of a network that is neither a coil nor lies across one: the coil where
/// current goes in and the one where it comes out.
pub(crate) fn spans(network: &Network, found: &mut Vec<(Coil, Coil)>) {
    let Network::Node(joint, parts) = network else { return };
    for part in parts {
        // A part lies between the same two points as its node only where that is parallel.
        // What is below may differ.
        if let (Network::Node(..), Joint::Series) = (part, joint)
            && let (Some(into), Some(out)) = (first(part), last(part))
            && into != out
            && !is_across_a_coil(part)
        {
            found.push((into, out));
        }
        spans(part, found);
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
