//! The one canonical writing of a configuration.
//!
//! Parts are put in order by size and then by structure, a node's own coils first;
//! drivers of a group and coils of a driver take their numbers and letters by the
//! rules of dealing, so that any two networks that differ only by exchanges are written
//! the same.

use super::dealing::Dealing;
use super::{Coil, Joint, Network};
use crate::short;
use core::cmp::Reverse;
use std::collections::BTreeMap;

/// A network with its drivers forgotten, down to how many coils of each group stand
/// where. Small parts are written first, and among equals those of earlier groups.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Structure {
    leaves: u32,
    /// Coils in it and below of each group, the most of the first group first.
    groups: Reverse<Vec<u8>>,
    own: Vec<u8>,
    parts: Vec<Structure>,
}

/// A node with its own coils by group and driver.
struct Tree {
    structure: Structure,
    own: Vec<Vec<u8>>,
    parts: Vec<Tree>,
}

/// Writes a network canonically, given count and coils of each kind of driver in it.
/// `None` where finding the one writing would take too much work: that takes a network
/// of very many alike parts, woven to be hard.
pub(crate) fn canonical(network: &Network, kinds: &[(u32, u32)]) -> Option<Network> {
    let Network::Node(joint, _) = network else { return Some(network.clone()) };
    let numbering = Numbering::of(kinds);
    let tree = numbering.tree(network);
    let mut dealing = Dealing::new(kinds.iter().copied());
    let mut words = Vec::new();
    numbering.load(&tree, 0, &mut BTreeMap::new(), &mut dealing, &mut words);
    if !dealing.settle(&words) {
        return None;
    }
    let next = numbering.fresh();
    let mut writer = Writer { numbering: &numbering, dealing: &dealing, next, node: 0 };
    Some(writer.write(&tree, *joint))
}

/// Where each group's drivers begin.
struct Numbering {
    first: Vec<u8>,
    count: Vec<u8>,
}

impl Numbering {
    #[expect(clippy::cast_possible_truncation, reason = "at most 32 drivers")]
    fn of(kinds: &[(u32, u32)]) -> Self {
        let mut next = 0_u8;
        let (mut first, mut count) = (Vec::new(), Vec::new());
        for (drivers, _) in kinds {
            first.push(next);
            count.push(*drivers as u8);
            next = next.saturating_add(*drivers as u8);
        }
        Self { first, count }
    }

    /// The group of a driver and its place in the group.
    fn place(&self, driver: u8) -> Option<(usize, usize)> {
        let group = self.first.iter().rposition(|first| *first <= driver)?;
        let place = driver.checked_sub(*self.first.get(group)?)?;
        Some((group, usize::from(place)))
    }

    fn tree(&self, network: &Network) -> Tree {
        let mut own: Vec<Vec<u8>> = self.count.iter().map(|n| vec![0; usize::from(*n)]).collect();
        let mut parts = Vec::new();
        let list = match network {
            Network::Coil(_) => core::slice::from_ref(network),
            Network::Node(_, parts) => parts.as_slice(),
        };
        for part in list {
            match part {
                Network::Coil(coil) => {
                    let slot = self
                        .place(coil.driver)
                        .and_then(|(group, place)| own.get_mut(group)?.get_mut(place));
                    if let Some(slot) = slot {
                        *slot = slot.saturating_add(1);
                    }
                }
                node => parts.push(self.tree(node)),
            }
        }
        short::sort(&mut parts, |a, b: &Tree| a.structure.cmp(&b.structure));
        let counts: Vec<u8> = own.iter().map(|drivers| drivers.iter().sum()).collect();
        let mut groups = counts.clone();
        for part in &parts {
            for (sum, more) in groups.iter_mut().zip(&part.structure.groups.0) {
                *sum = sum.saturating_add(*more);
            }
        }
        let structure = Structure {
            leaves: groups.iter().map(|n| u32::from(*n)).sum(),
            groups: Reverse(groups),
            own: counts,
            parts: parts.iter().map(|part| part.structure.clone()).collect(),
        };
        Tree { structure, own, parts }
    }

    fn load<'a>(
        &self,
        tree: &'a Tree,
        parent: usize,
        names: &mut BTreeMap<&'a Structure, u32>,
        dealing: &mut Dealing,
        words: &mut Vec<u64>,
    ) {
        let next = u32::try_from(names.len()).unwrap_or(u32::MAX);
        let name = *names.entry(&tree.structure).or_insert(next);
        let node = dealing.open(parent, name, &tree.structure.own);
        for (group, drivers) in tree.own.iter().enumerate() {
            if dealing.deals(group) && drivers.iter().any(|n| *n > 0) {
                words.push(dealing.word(group, drivers.iter().copied()));
            }
        }
        for part in &tree.parts {
            self.load(part, node, names, dealing, words);
        }
        dealing.close(node);
    }

    fn fresh(&self) -> Vec<Vec<u8>> {
        self.count.iter().map(|n| vec![0; usize::from(*n)]).collect()
    }
}

struct Writer<'a> {
    numbering: &'a Numbering,
    dealing: &'a Dealing,
    /// The next letter of each driver of each group.
    next: Vec<Vec<u8>>,
    node: usize,
}

impl Writer<'_> {
    fn write(&mut self, tree: &Tree, joint: Joint) -> Network {
        let node = self.node;
        self.node = node.saturating_add(1);
        let mut parts = Vec::new();
        for (group, leaves) in tree.structure.own.iter().enumerate() {
            if self.dealing.deals(group) {
                let dealt: Vec<u8> = self.dealing.dealt(node, group).collect();
                for (place, n) in dealt.into_iter().enumerate() {
                    (0..n).for_each(|_| parts.extend(self.coil(group, place)));
                }
            } else {
                for _ in 0..*leaves {
                    // Single coils: the lowest driver not yet written.
                    let free =
                        self.next.get(group).and_then(|list| list.iter().position(|n| *n == 0));
                    parts.extend(free.and_then(|place| self.coil(group, place)));
                }
            }
        }
        for part in &tree.parts {
            parts.push(self.write(part, joint.other()));
        }
        Network::Node(joint, parts)
    }

    fn coil(&mut self, group: usize, place: usize) -> Option<Network> {
        let letter = self.next.get_mut(group)?.get_mut(place)?;
        let coil = *letter;
        *letter = coil.saturating_add(1);
        let first = *self.numbering.first.get(group)?;
        let driver = first.saturating_add(u8::try_from(place).ok()?);
        Some(Network::Coil(Coil { driver, coil }))
    }
}
