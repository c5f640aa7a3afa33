//! Every network by trying everything: all networks over coils that can all be told
//! apart, then those that an exchange turns into each other counted as one.

use crate::rigs::Drivers;
use crate::tree::{Leaf, Tree};
use std::collections::BTreeMap;

/// The coils of a rig, driver by driver.
pub fn coils(rig: &[Drivers]) -> Vec<Leaf> {
    let mut coils = Vec::new();
    let mut driver = 0;
    for group in rig {
        for _ in 0..group.count {
            coils.extend((0..group.coils).map(|coil| Leaf { driver, coil: coil as u8 }));
            driver += 1;
        }
    }
    coils
}

/// Every network over these coils, each coil used once, all coils told apart.
///
/// # Panics
/// Beyond eight coils, which have more than a million.
pub fn told_apart(coils: &[Leaf]) -> Vec<Tree> {
    assert!((1..=8).contains(&coils.len()), "trying everything ends at eight coils");
    let mut series = BTreeMap::new();
    let all = (1_u32 << coils.len()) - 1;
    if coils.len() == 1 {
        return vec![Tree::Leaf(coils[0])];
    }
    let series = series_nodes(all, coils, &mut series);
    let parallel: Vec<Tree> = series.iter().map(Tree::dual).collect();
    series.into_iter().chain(parallel).collect()
}

type Memory = BTreeMap<u32, Vec<Tree>>;

/// Networks over a set of coils whose outermost joint is series.
fn series_nodes(set: u32, coils: &[Leaf], memory: &mut Memory) -> Vec<Tree> {
    if let Some(known) = memory.get(&set) {
        return known.clone();
    }
    let nodes: Vec<Tree> = partitions(set, coils, memory)
        .into_iter()
        .filter(|parts| parts.len() > 1)
        .map(|parts| Tree::Series(parts).sorted())
        .collect();
    memory.insert(set, nodes.clone());
    nodes
}

/// What may stand in a series node over exactly this set: a coil, or a parallel node.
fn series_parts(set: u32, coils: &[Leaf], memory: &mut Memory) -> Vec<Tree> {
    if set.count_ones() == 1 {
        return vec![Tree::Leaf(coils[set.trailing_zeros() as usize])];
    }
    let nodes = series_nodes(set, coils, memory);
    nodes.iter().map(Tree::dual).collect()
}

/// Every way to split a set into parts of a series node. The part with the lowest
/// coil comes first, so that no order of parts is tried twice. The whole set as one
/// part is left out where it would ask for itself.
fn partitions(set: u32, coils: &[Leaf], memory: &mut Memory) -> Vec<Vec<Tree>> {
    let lowest = 1 << set.trailing_zeros();
    let others = set ^ lowest;
    let mut ways = Vec::new();
    let mut extra = others;
    // Every subset of the others joins the lowest coil in the first part.
    loop {
        let first = lowest | extra;
        let rest = set ^ first;
        if rest != 0 {
            let tails = forests(rest, coils, memory);
            for head in series_parts(first, coils, memory) {
                for tail in &tails {
                    ways.push([std::slice::from_ref(&head), tail].concat());
                }
            }
        }
        if extra == 0 {
            break;
        }
        extra = (extra - 1) & others;
    }
    ways
}

/// Every way to split a set into one or more parts of a series node.
fn forests(set: u32, coils: &[Leaf], memory: &mut Memory) -> Vec<Vec<Tree>> {
    let mut ways = partitions(set, coils, memory);
    ways.extend(series_parts(set, coils, memory).into_iter().map(|part| vec![part]));
    ways
}

/// Exchanges of two neighbours that together make every exchange: coils of one
/// driver, drivers of one group.
pub fn neighbour_exchanges(rig: &[Drivers]) -> Vec<BTreeMap<Leaf, Leaf>> {
    let mut exchanges = Vec::new();
    let mut first = 0_u8;
    for group in rig {
        let (count, coils) = (group.count as u8, group.coils as u8);
        for driver in first..first + count {
            for coil in 1..coils {
                let (a, b) = (Leaf { driver, coil: coil - 1 }, Leaf { driver, coil });
                exchanges.push([(a, b), (b, a)].into());
            }
            if driver > first {
                let both = |coil| {
                    let (a, b) = (Leaf { driver: driver - 1, coil }, Leaf { driver, coil });
                    [(a, b), (b, a)]
                };
                exchanges.push((0..coils).flat_map(both).collect());
            }
        }
        first += count;
    }
    exchanges
}

/// Carries out an exchange.
pub fn exchanged(tree: &Tree, exchange: &BTreeMap<Leaf, Leaf>) -> Tree {
    tree.renamed(&|leaf| exchange.get(&leaf).copied().unwrap_or(leaf))
}

/// Every configuration of a rig on one output.
#[derive(Clone, Debug)]
pub struct Everything {
    class_of: BTreeMap<Tree, usize>,
    examples: Vec<Tree>,
}

impl Everything {
    /// Tries everything.
    pub fn of(rig: &[Drivers]) -> Self {
        let exchanges = neighbour_exchanges(rig);
        let mut class_of = BTreeMap::new();
        let mut examples = Vec::new();
        for tree in told_apart(&coils(rig)) {
            if class_of.contains_key(&tree) {
                continue;
            }
            let class = examples.len();
            examples.push(tree.clone());
            let mut reached = vec![tree];
            while let Some(tree) = reached.pop() {
                if class_of.contains_key(&tree) {
                    continue;
                }
                reached.extend(exchanges.iter().map(|exchange| exchanged(&tree, exchange)));
                class_of.insert(tree, class);
            }
        }
        Self { class_of, examples }
    }

    /// One network of each configuration.
    pub fn examples(&self) -> &[Tree] {
        &self.examples
    }

    /// The number of the configuration that a network is.
    ///
    /// # Panics
    /// If it is none of the rig's.
    pub fn class(&self, tree: &Tree) -> usize {
        match self.class_of.get(&tree.sorted()) {
            Some(class) => *class,
            None => panic!("{tree:?} is no network of this rig"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rigs::drivers;

    #[test]
    fn trying_everything_meets_the_published_counts() {
        // OEIS A006351 (all told apart) and A000084 (none).
        for (n, apart, alike) in [(1, 1, 1), (2, 2, 2), (3, 8, 4), (4, 52, 10), (5, 472, 24)] {
            let rig = [drivers(n, 1, "4")];
            assert_eq!(told_apart(&coils(&rig)).len(), apart);
            assert_eq!(Everything::of(&rig).examples().len(), alike);
        }
    }
}
