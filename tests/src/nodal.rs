//! A network as an electrical circuit: nodes, conductances, one linear system.
//!
//! Nothing is combined in series or in parallel here; the only physics is that the
//! currents into every node sum to zero.

use crate::tree::{Leaf, Tree};
use nalgebra::{DMatrix, DVector};

/// A circuit: coils between numbered nodes; node 0 is the negative terminal, node 1
/// the positive.
#[derive(Clone, Debug)]
pub struct Circuit {
    /// How many nodes.
    pub nodes: usize,
    /// Each coil with the nodes at its + and −.
    pub coils: Vec<(Leaf, usize, usize)>,
}

impl Circuit {
    /// The circuit that a network describes.
    pub fn of(tree: &Tree) -> Self {
        let mut circuit = Self { nodes: 2, coils: Vec::new() };
        circuit.lay(tree, 1, 0);
        circuit
    }

    fn lay(&mut self, tree: &Tree, plus: usize, minus: usize) {
        match tree {
            Tree::Leaf(leaf) => self.coils.push((*leaf, plus, minus)),
            Tree::Parallel(parts) => parts.iter().for_each(|part| self.lay(part, plus, minus)),
            Tree::Series(parts) => {
                let mut from = plus;
                for (i, part) in parts.iter().enumerate() {
                    let last = i + 1 == parts.len();
                    let to = if last { minus } else { self.nodes };
                    self.nodes += usize::from(!last);
                    self.lay(part, from, to);
                    from = to;
                }
            }
        }
    }

    /// Voltage of every node with one ampere sent into the positive terminal.
    ///
    /// # Panics
    /// If the system cannot be solved: some node hangs in the air.
    pub fn voltages(&self, ohms: &impl Fn(Leaf) -> f64) -> Vec<f64> {
        let unknown = self.nodes - 1;
        let mut conductance = DMatrix::<f64>::zeros(unknown, unknown);
        for &(leaf, plus, minus) in &self.coils {
            let siemens = ohms(leaf).recip();
            for (a, b) in [(plus, minus), (minus, plus)] {
                if a > 0 {
                    conductance[(a - 1, a - 1)] += siemens;
                }
                if a > 0 && b > 0 {
                    conductance[(a - 1, b - 1)] -= siemens;
                }
            }
        }
        let mut current = DVector::<f64>::zeros(unknown);
        current[0] = 1.0;
        let solved = conductance.cholesky().map(|factor| factor.solve(&current));
        let volts = solved.expect("a circuit without loose ends");
        std::iter::once(0.0).chain(volts.iter().copied()).collect()
    }

    /// What the voltages come to: the load in ohms, and each coil's share of the power.
    pub fn solved(&self, ohms: &impl Fn(Leaf) -> f64) -> Solved {
        self.reckoned(&self.voltages(ohms), ohms)
    }

    /// Load and shares from the voltage of every node at one ampere.
    pub fn reckoned(&self, volts: &[f64], ohms: &impl Fn(Leaf) -> f64) -> Solved {
        let load = volts[1];
        let share = |&(leaf, plus, minus): &(Leaf, usize, usize)| {
            let across = volts[plus] - volts[minus];
            (leaf, across * across / ohms(leaf) / load)
        };
        let mut shares: Vec<(Leaf, f64)> = self.coils.iter().map(share).collect();
        shares.sort_by_key(|(leaf, _)| *leaf);
        Solved { load, shares }
    }
}

/// What a circuit comes to with one ampere through it.
#[derive(Clone, Debug)]
pub struct Solved {
    /// Ohms between the terminals.
    pub load: f64,
    /// Each coil's share of the power, driver by driver, coil by coil.
    pub shares: Vec<(Leaf, f64)>,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brute::{coils, told_apart};
    use crate::rigs::drivers;
    use crate::tree::Exact;

    #[test]
    fn nodes_and_exact_fractions_agree_on_every_network_of_five_different_coils() {
        let ohms = |leaf: Leaf| [2.0, 3.0, 5.0, 7.0, 11.0][usize::from(leaf.driver)];
        let exact = |leaf: Leaf| Exact::from_integer(ohms(leaf) as i128);
        let float = |exact: Exact| *exact.numer() as f64 / *exact.denom() as f64;
        for tree in told_apart(&coils(&[drivers(5, 1, "1")])) {
            let solved = Circuit::of(&tree).solved(&ohms);
            assert!((solved.load - float(tree.load(&exact))).abs() < 1e-12, "{tree:?}");
            let mut shares = tree.shares(&exact);
            shares.sort_by_key(|(leaf, _)| *leaf);
            for ((leaf, near), (other, share)) in solved.shares.into_iter().zip(shares) {
                assert_eq!(leaf, other);
                assert!((near - float(share)).abs() < 1e-12, "{tree:?}: {leaf}");
            }
        }
    }
}
