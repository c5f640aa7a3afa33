//! The one canonical writing of a configuration.
//!
//! Parts are put in order by size and then by structure, a node's own coils first;
//! drivers of a group and coils of a driver take their numbers and letters by the
//! rules of dealing, so that any two networks that differ only by exchanges are written
//! the same.

use super::dealing::Dealing;
use super::{Coil, Joint, Network};
use crate::interner::Interner;
use crate::short;
use core::cmp::Ordering;

/// The most drivers, and the most kinds of them.
const DRIVERS: usize = 32;
const KINDS: usize = 16;

/// A node with its own coils by driver; what it is with its drivers forgotten, down to how
/// many coils of each kind stand where, has a name.
#[derive(Clone, Debug)]
struct Tree {
    /// Its place among the nodes as they were given, each before its parts.
    node: usize,
    name: u32,
    leaves: u32,
    /// Coils in it and below of each kind.
    groups: [u8; KINDS],
    /// Its own coils of each kind, and of each driver.
    own: [u8; KINDS],
    drivers: [u8; DRIVERS],
    parts: Vec<Tree>,
}

impl Tree {
    /// Small parts are written first, and among equals those with most coils of the first
    /// kind.
    fn compare(&self, other: &Self) -> Ordering {
        if self.name == other.name {
            return Ordering::Equal;
        }
        let here = self.leaves.cmp(&other.leaves).then(other.groups.cmp(&self.groups));
        let mut order = here.then(self.own.cmp(&other.own));
        for (a, b) in self.parts.iter().zip(&other.parts) {
            if order == Ordering::Equal {
                order = a.compare(b);
            }
        }
        order.then(self.parts.len().cmp(&other.parts.len()))
    }
}

/// Writes a network canonically, given count and coils of each kind of driver in it.
/// `None` where finding the one writing would take too much work: that takes a network
/// of very many alike parts, woven to be hard.
pub(crate) fn canonical(network: &Network, kinds: &[(u32, u32)]) -> Option<Network> {
    if let Network::Coil(_) = network {
        return Some(network.clone());
    }
    let mut form = Form::of(network, kinds)?;
    let words = form.own_words();
    form.write(&words)
}

/// What all dealings of one shape have in common in their canonical writing.
#[derive(Clone, Debug)]
pub(crate) struct Form {
    numbering: Numbering,
    tree: Tree,
    joint: Joint,
    dealing: Dealing,
}

impl Form {
    /// Of any network of the shape; none of a single coil.
    pub(crate) fn of(network: &Network, kinds: &[(u32, u32)]) -> Option<Self> {
        let Network::Node(joint, _) = network else { return None };
        let mut numbering = Numbering { first: vec![0], names: Interner::default() };
        let mut next = 0_u8;
        for (count, _) in kinds {
            next = next.saturating_add(u8::try_from(*count).ok()?);
            numbering.first.push(next);
        }
        let tree = numbering.tree(network, &mut 0);
        numbering.names = Interner::default();
        let mut dealing = Dealing::new(kinds.iter().copied());
        numbering.load(&tree, 0, &mut dealing);
        Some(Self { numbering, tree, joint: *joint, dealing })
    }

    /// The words of the network that it was made of.
    fn own_words(&self) -> Vec<u64> {
        let mut words = Vec::new();
        self.each_bunch(&self.tree, &mut |tree, kind| {
            let range = self.numbering.range(kind);
            let drivers = tree.drivers.iter().skip(range.start).take(range.len());
            words.push(self.dealing.word(kind, drivers));
        });
        words
    }

    /// The words of another dealing of the shape, whose nodes stand as in the network that
    /// it was made of.
    pub(crate) fn words_of(&self, dealing: &Dealing) -> Vec<u64> {
        let mut words = Vec::new();
        self.each_bunch(&self.tree, &mut |tree, kind| words.push(dealing.word_at(tree.node, kind)));
        words
    }

    fn each_bunch(&self, tree: &Tree, visit: &mut dyn FnMut(&Tree, usize)) {
        for (kind, coils) in tree.own.iter().enumerate().take(self.numbering.kinds()) {
            if self.dealing.deals(kind) && *coils > 0 {
                visit(tree, kind);
            }
        }
        tree.parts.iter().for_each(|part| self.each_bunch(part, visit));
    }

    /// Writes the dealing with such words; `None` as [`canonical`].
    pub(crate) fn write(&mut self, words: &[u64]) -> Option<Network> {
        if !self.dealing.settle(words) {
            return None;
        }
        let next = [0; DRIVERS];
        let (numbering, dealing) = (&self.numbering, &self.dealing);
        let mut writer = Writer { numbering, dealing, next, node: 0 };
        Some(writer.write(&self.tree, self.joint))
    }
}

/// Where each kind's drivers begin, and the names of structures.
#[derive(Clone, Debug)]
struct Numbering {
    /// With the end after the last.
    first: Vec<u8>,
    names: Interner,
}

impl Numbering {
    /// How many kinds there are.
    fn kinds(&self) -> usize {
        self.first.len().saturating_sub(1).min(KINDS)
    }

    /// The drivers of a kind.
    fn range(&self, kind: usize) -> core::ops::Range<usize> {
        let at = |kind: usize| self.first.get(kind).copied().map_or(0, usize::from);
        at(kind)..at(kind.saturating_add(1))
    }

    fn tree(&mut self, network: &Network, next: &mut usize) -> Tree {
        let node = *next;
        *next = node.saturating_add(1);
        let mut drivers = [0_u8; DRIVERS];
        let mut parts = Vec::new();
        if let Network::Node(_, list) = network {
            for part in list {
                match part {
                    Network::Coil(coil) => {
                        if let Some(slot) = drivers.get_mut(usize::from(coil.driver)) {
                            *slot = slot.saturating_add(1);
                        }
                    }
                    part => parts.push(self.tree(part, next)),
                }
            }
        }
        short::insertion_sort(&mut parts, Tree::compare);
        let mut own = [0_u8; KINDS];
        for (kind, sum) in own.iter_mut().enumerate().take(self.kinds()) {
            let range = self.range(kind);
            for coils in drivers.iter().skip(range.start).take(range.len()) {
                *sum = sum.saturating_add(*coils);
            }
        }
        let mut groups = own;
        let whole = u128::from_le_bytes(own);
        let mut row = vec![whole as u64, (whole >> 64) as u64];
        for part in &parts {
            row.push(u64::from(part.name));
            for (sum, more) in groups.iter_mut().zip(&part.groups) {
                *sum = sum.saturating_add(*more);
            }
        }
        let mut leaves = 0_u32;
        for coils in groups {
            leaves = leaves.saturating_add(coils.into());
        }
        let name = self.names.number(&row).0;
        Tree { node, name, leaves, groups, own, drivers, parts }
    }

    fn load(&self, tree: &Tree, parent: usize, dealing: &mut Dealing) {
        let node = dealing.open(parent, tree.name, &tree.own);
        for part in &tree.parts {
            self.load(part, node, dealing);
        }
        dealing.close(node);
    }
}

struct Writer<'a> {
    numbering: &'a Numbering,
    dealing: &'a Dealing,
    /// The next letter of each driver.
    next: [u8; DRIVERS],
    node: usize,
}

impl Writer<'_> {
    fn write(&mut self, tree: &Tree, joint: Joint) -> Network {
        let node = self.node;
        self.node = node.saturating_add(1);
        let mut parts = Vec::new();
        for (kind, own) in tree.own.iter().enumerate().take(self.numbering.kinds()) {
            let drivers = self.numbering.range(kind);
            if self.dealing.deals(kind) {
                for (driver, n) in drivers.zip(self.dealing.dealt(node, kind)) {
                    for _ in 0..n {
                        self.coil(driver, &mut parts);
                    }
                }
            } else {
                // Single coils: the lowest drivers not yet written.
                let mut left = *own;
                for driver in drivers {
                    if left > 0 && self.next.get(driver) == Some(&0) {
                        left = left.saturating_sub(1);
                        self.coil(driver, &mut parts);
                    }
                }
            }
        }
        for part in &tree.parts {
            parts.push(self.write(part, joint.other()));
        }
        Network::Node(joint, parts)
    }

    fn coil(&mut self, driver: usize, parts: &mut Vec<Network>) {
        let (Some(letter), Ok(number)) = (self.next.get_mut(driver), u8::try_from(driver)) else {
            return;
        };
        parts.push(Network::Coil(Coil { driver: number, coil: *letter }));
        *letter = letter.saturating_add(1);
    }
}
