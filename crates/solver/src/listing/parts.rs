//! The parts themselves: every useful key's networks, made once, with their electrics.
//!
//! A complete network is never stored: [`Parts::next`] walks from one to the next.
#![expect(
    clippy::arithmetic_side_effects,
    clippy::indexing_slicing,
    reason = "indices are made and used in this module; counts of at most 32 leaves"
)]

use super::atoms::Atom;
use super::electrics::{Electrics, join};
use super::keys::{Bucket, Content, Filling, Key, Keys};
use crate::network::{Joint, Network};
use crate::problem::Code;
use crate::short;
use crate::work::Steps;

/// Joining a part to others takes about as long as so many counted steps.
pub(super) const EACH_JOINED: u64 = 3;

#[derive(Clone, Debug)]
struct Part {
    first: u32,
    end: u32,
    joint: Joint,
}

/// All parts: the atoms first, then the parts of each useful key, smallest first.
#[derive(Clone, Debug)]
pub(crate) struct Parts {
    keys: Keys,
    atoms: Vec<Atom>,
    parts: Vec<Part>,
    /// Of each part.
    electrics: Vec<Electrics>,
    children: Vec<u32>,
    /// The first part and the end of each key made so far.
    made: Vec<(u32, u32)>,
    making: Option<Walker>,
}

/// Where a walk through the networks of a key stands.
#[derive(Clone, Debug)]
pub(crate) struct Walker {
    bucket: usize,
    whole: Content,
    /// Slot and entry of each part chosen, and what was left before it.
    chosen: Vec<(usize, u32, Content)>,
    /// The parts chosen.
    pub(crate) children: Vec<u32>,
    started: bool,
}

impl Parts {
    pub(crate) fn new(keys: Keys, atoms: Vec<Atom>) -> Self {
        let parts = vec![Part { first: 0, end: 0, joint: Joint::Series }; atoms.len()];
        let electrics = atoms.iter().map(|atom| atom.electrics).collect();
        let (children, made) = (Vec::new(), Vec::new());
        Self { keys, atoms, parts, electrics, children, made, making: None }
    }

    /// Forgets what only walking needs: there may be tens of thousands of listings.
    pub(super) fn let_go(&mut self) {
        self.keys.let_go();
        self.made = Vec::new();
        self.electrics = Vec::new();
    }

    pub(super) fn keys_mut(&mut self) -> &mut Keys {
        &mut self.keys
    }

    pub(crate) fn keys(&self) -> &Keys {
        &self.keys
    }

    pub(crate) fn atoms(&self) -> &[Atom] {
        &self.atoms
    }

    /// The atom that a part is, if it is one.
    pub(crate) fn atom(&self, part: u32) -> Option<&Atom> {
        self.atoms.get(part as usize)
    }

    pub(crate) fn children_of(&self, part: u32) -> &[u32] {
        let part = &self.parts[part as usize];
        &self.children[part.first as usize..part.end as usize]
    }

    /// Makes parts until all are made (`true`) or the budget is spent.
    pub(crate) fn fill(&mut self, budget: &mut Steps) -> Result<bool, Code> {
        while self.made.len() < self.keys.keys.len() {
            let at = self.made.len();
            let key = &self.keys.keys[at];
            let wanted = key.useful && key.content != self.keys.whole();
            // A key half made when the budget ended goes on from where it began.
            let first = self.made.last().map_or(self.atoms.len() as u32, |(_, end)| *end);
            if !wanted {
                self.made.push((first, first));
                continue;
            }
            let joint = self.keys.buckets[key.bucket].joint;
            let mut walker = match self.making.take() {
                Some(walker) => walker,
                None => self.walker(at),
            };
            loop {
                if !budget.any() {
                    self.making = Some(walker);
                    return Ok(false);
                }
                if !self.next(&mut walker, budget) {
                    break;
                }
                budget.take(EACH_JOINED * walker.children.len() as u64);
                let electrics = self.join(joint, &walker.children)?;
                let from = self.children.len() as u32;
                short::extend(&mut self.children, &walker.children);
                let end = self.children.len() as u32;
                short::room(&mut self.parts);
                short::room(&mut self.electrics);
                self.parts.push(Part { first: from, end, joint });
                self.electrics.push(electrics);
            }
            self.made.push((first, self.parts.len() as u32));
        }
        Ok(true)
    }

    pub(crate) fn walker(&self, key: usize) -> Walker {
        let Key { bucket, content: whole, .. } = self.keys.keys[key];
        Walker { bucket, whole, chosen: Vec::new(), children: Vec::new(), started: false }
    }

    pub(crate) fn joint_of(&self, key: usize) -> Joint {
        self.keys.buckets[self.keys.keys[key].bucket].joint
    }

    /// Steps to the next network of a key: its parts are then `walker.children`, in an
    /// order that never falls. `false` after the last.
    pub(crate) fn next(&self, walker: &mut Walker, budget: &mut Steps) -> bool {
        let bucket = &self.keys.buckets[walker.bucket];
        let (mut slot, mut entry, mut left) = (0, 0, walker.whole);
        let mut back = core::mem::replace(&mut walker.started, true);
        loop {
            if back {
                let Some(last) = walker.chosen.pop() else {
                    return false;
                };
                walker.children.pop();
                (slot, entry, left) = (last.0, last.1 + 1, last.2);
            }
            let first = walker.chosen.is_empty();
            match self.find(bucket, slot, entry, left, first, budget) {
                Some((s, e, part, rest)) => {
                    walker.chosen.push((s, e, left));
                    walker.children.push(part);
                    if rest == Content(0) {
                        return true;
                    }
                    (slot, entry, left, back) = (s, e, rest, false);
                }
                None => back = true,
            }
        }
    }

    /// The first part at or after a place whose rest can still be made.
    fn find(
        &self,
        bucket: &Bucket,
        slot: usize,
        entry: u32,
        left: Content,
        first: bool,
        budget: &mut Steps,
    ) -> Option<(usize, u32, u32, Content)> {
        let half = left.leaves() / 2;
        budget.take(2);
        for (s, candidate) in bucket.slots.iter().enumerate().skip(slot) {
            // The slot at hand is mostly the one.
            if s > slot {
                budget.take(1);
            }
            // Parts never shrink along the walk, so a larger one must be the last.
            if candidate.content.leaves() > half {
                break;
            }
            let e = if s == slot { entry } else { 0 };
            if let Some(rest) = left.without(candidate.content)
                && let Some(part) = self.entry(&candidate.filling, e)
                && bucket.can_make(rest)
            {
                return Some((s, e, part, rest));
            }
        }
        let s = bucket.slot_of(left).filter(|s| *s >= slot && !first)?;
        let e = if s == slot { entry } else { 0 };
        self.entry(&bucket.slots[s].filling, e).map(|part| (s, e, part, Content(0)))
    }

    fn entry(&self, filling: &Filling, entry: u32) -> Option<u32> {
        match filling {
            Filling::Atoms(list) => list.get(entry as usize).copied(),
            Filling::Key(key) => {
                let (first, end) = self.made.get(*key).copied()?;
                (entry < end - first).then_some(first + entry)
            }
        }
    }

    /// The electrics of parts joined.
    pub(crate) fn join(&self, joint: Joint, children: &[u32]) -> Result<Electrics, Code> {
        join(joint, children, &self.electrics)
    }

    /// The network of parts joined, each atom as `leaf` makes it.
    pub(crate) fn network(
        &self,
        joint: Joint,
        children: &[u32],
        leaf: &mut impl FnMut(&Atom) -> Network,
    ) -> Network {
        let mut parts = Vec::with_capacity(children.len());
        for child in children {
            parts.push(match self.atom(*child) {
                Some(atom) => leaf(atom),
                None => {
                    let joint = self.parts[*child as usize].joint;
                    self.network(joint, self.children_of(*child), leaf)
                }
            });
        }
        Network::joined(joint, parts)
    }
}
