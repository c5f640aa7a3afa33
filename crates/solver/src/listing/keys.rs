//! Which parts there can be, before any of them is made.
//!
//! A *content* says how many leaves of each group a part holds. Parts of one content
//! that are joined alike and (with `even`) have the same load share a *key*; all parts
//! that may stand side by side under one node share a *bucket*. In an even network
//! parts join in series exactly when their rating ÷ load agrees, in parallel exactly
//! when rating × load agrees: that value names the bucket. Without `even` there is one
//! bucket for each way of joining.
#![expect(
    clippy::arithmetic_side_effects,
    clippy::indexing_slicing,
    reason = "contents hold at most 32 leaves a byte; indices are made and used in this module"
)]

use super::atoms::Atom;
use super::bucket::Sum;
pub(crate) use super::bucket::{Bucket, Filling, Slot};
pub(crate) use super::content::Content;
use crate::interner::Interner;
use crate::network::Joint;
use crate::ohms::Ratio;
use crate::problem::Code;
use crate::short;
use crate::work::Steps;
use core::cmp::Ordering;

/// Parts of one content, joined alike, with one load.
#[derive(Clone, Debug)]
pub(crate) struct Key {
    pub(crate) content: Content,
    /// The bucket its own parts come from.
    pub(crate) bucket: usize,
    /// The bucket it is a part in.
    pub(crate) goes_to: usize,
    /// How many parts it stands for (capped).
    pub(crate) count: u64,
    /// Whether any complete network uses it.
    pub(crate) useful: bool,
}

/// Counts stop growing here; nothing that large is listed.
const CAP: u64 = 1 << 40;

/// The most sums of one bucket: what has more has far too many keys to walk.
const MOST_SUMS: usize = 13_000;

/// All buckets and keys of a question.
#[derive(Clone, Debug)]
pub(crate) struct Keys {
    pub(crate) buckets: Vec<Bucket>,
    pub(crate) keys: Vec<Key>,
    even: bool,
    ratings: Vec<Ratio>,
    whole: Content,
    /// The buckets by joint and class.
    names: Interner,
    /// How far the finding is.
    at: At,
}

/// Where the finding of keys stands.
#[derive(Clone, Debug)]
enum At {
    /// Keys of so many leaves are still to be lined up.
    Size(u32),
    /// Bucket, content and count of keys of so many leaves, the next one last.
    Found(u32, Vec<(usize, Content, u64)>),
    /// Whether keys are useful is known from this one on.
    Useful(usize),
}

impl Keys {
    /// Begins to find every key for networks that hold exactly `whole`.
    ///
    /// `ratings` is the rating of one leaf of each group.
    pub(crate) fn begin(
        atoms: &[Atom],
        whole: Content,
        ratings: Vec<Ratio>,
        even: bool,
        budget: &mut Steps,
    ) -> Result<Self, Code> {
        let mut keys = Self {
            buckets: Vec::new(),
            keys: Vec::new(),
            even,
            ratings,
            whole,
            names: Interner::default(),
            at: At::Size(2),
        };
        for joint in [Joint::Series, Joint::Parallel] {
            keys.add_atoms(atoms, joint, budget)?;
        }
        Ok(keys)
    }

    /// Finds keys until all are found (`true`) or the budget is spent.
    pub(crate) fn find(&mut self, budget: &mut Steps) -> Result<bool, Code> {
        let leaves = self.whole.leaves();
        while budget.any() {
            match &mut self.at {
                At::Size(size) if *size > leaves => {
                    self.at = At::Useful(if self.even { self.keys.len() } else { 0 });
                }
                At::Size(size) => {
                    let size = *size;
                    let found = self.of_size(size);
                    budget.take(4 + found.len() as u64 / 2 + self.buckets.len() as u64);
                    self.at = At::Found(size, found);
                }
                At::Found(size, found) => {
                    let size = *size;
                    match found.pop() {
                        Some((bucket, content, count)) => {
                            budget.take(10);
                            self.add_key(bucket, content, count, size, budget)?;
                        }
                        None => self.at = At::Size(size + 1),
                    }
                }
                At::Useful(0) => return Ok(true),
                At::Useful(key) => {
                    let key = *key - 1;
                    self.at = At::Useful(key);
                    self.mark_useful(key, budget);
                }
            }
        }
        Ok(false)
    }

    /// What can be made of so many leaves: bucket, content and count, the first last.
    fn of_size(&self, size: u32) -> Vec<(usize, Content, u64)> {
        let mut found = Vec::new();
        for (bucket, b) in self.buckets.iter().enumerate() {
            let first = b.sums.partition_point(|sum| sum.content.leaves() < size);
            for sum in &b.sums[first..] {
                if sum.content.leaves() > size {
                    break;
                }
                found.push((bucket, sum.content, sum.ways));
            }
        }
        found.reverse();
        found
    }

    fn add_key(
        &mut self,
        bucket: usize,
        content: Content,
        count: u64,
        size: u32,
        budget: &mut Steps,
    ) -> Result<(), Code> {
        let partial = size < self.whole.leaves();
        let goes_to = if partial { self.outer_bucket(bucket, content)? } else { 0 };
        let key = self.keys.len();
        let useful = !self.even || !partial;
        self.keys.push(Key { content, bucket, goes_to, count, useful });
        if partial {
            let slot = Slot { content, filling: Filling::Key(key) };
            self.add_slot(goes_to, slot, count, budget)?;
        }
        Ok(())
    }

    /// Forgets everything.
    pub(crate) fn let_go(&mut self) {
        self.buckets = Vec::new();
        self.keys = Vec::new();
        self.names = Interner::default();
    }

    pub(crate) fn whole(&self) -> Content {
        self.whole
    }

    /// The keys of complete networks: series first, then parallel.
    pub(crate) fn complete(&self) -> Vec<usize> {
        let mut complete: Vec<usize> =
            (0..self.keys.len()).filter(|key| self.keys[*key].content == self.whole).collect();
        let joint = |key: &usize| self.buckets[self.keys[*key].bucket].joint;
        short::insertion_sort(&mut complete, |a, b| joint(a).cmp(&joint(b)));
        complete
    }

    /// How many shapes some keys stand for (capped).
    pub(crate) fn shapes(&self, keys: &[usize]) -> u64 {
        keys.iter().map(|key| self.keys[*key].count).fold(0, u64::saturating_add)
    }

    /// A count of shapes, if it was not capped.
    pub(crate) fn exact(&self, shapes: u64) -> Option<u128> {
        (shapes < CAP).then_some(u128::from(shapes))
    }

    /// How many parts have to be made (capped).
    pub(crate) fn useful_parts(&self) -> u64 {
        let partial = |key: &&Key| key.useful && key.content != self.whole;
        self.keys.iter().filter(partial).map(|key| key.count).fold(0, u64::saturating_add)
    }

    /// Whether series and parallel mirror each other.
    pub(crate) fn mirrored(&self) -> bool {
        !self.even
    }

    fn rating(&self, content: Content) -> Result<Ratio, Code> {
        let mut sum: Option<Ratio> = None;
        for (group, rating) in self.ratings.iter().enumerate() {
            let Some(n) = Ratio::whole(u128::from(content.of(group))) else {
                continue;
            };
            let part = rating.times(n).ok_or(Code::TooExact)?;
            sum = Some(match sum {
                Some(sum) => sum.plus(part).ok_or(Code::TooExact)?,
                None => part,
            });
        }
        sum.ok_or(Code::TooExact)
    }

    fn add_atoms(&mut self, atoms: &[Atom], joint: Joint, budget: &mut Steps) -> Result<(), Code> {
        let mut slots: Vec<(usize, Content, Vec<u32>)> = Vec::new();
        for (number, atom) in (0_u32..).zip(atoms) {
            if self.even && !atom.even {
                continue;
            }
            let class = match joint {
                Joint::Series => atom.rating.over(atom.load),
                Joint::Parallel => atom.rating.times(atom.load),
            };
            let bucket = self.bucket(joint, class.ok_or(Code::TooExact)?);
            let content = Content::one(atom.group);
            match slots.iter_mut().find(|(b, c, _)| (*b, *c) == (bucket, content)) {
                Some((_, _, list)) => list.push(number),
                None => slots.push((bucket, content, vec![number])),
            }
        }
        for (bucket, content, list) in slots {
            let count = list.len() as u64;
            self.add_slot(bucket, Slot { content, filling: Filling::Atoms(list) }, count, budget)?;
        }
        Ok(())
    }

    fn bucket(&mut self, joint: Joint, class: Ratio) -> usize {
        let class = self.even.then_some(class);
        let [a, b, c, d] = class.map_or([0; 4], Ratio::words);
        let words = [joint as u64, a, b, c, d];
        let (number, new) = self.names.number(&words);
        if new {
            self.buckets.push(Bucket { joint, class, slots: Vec::new(), sums: Vec::new() });
        }
        number as usize
    }

    /// The bucket of parts with this content that are made in `bucket`.
    fn outer_bucket(&mut self, bucket: usize, content: Content) -> Result<usize, Code> {
        let (joint, class) = (self.buckets[bucket].joint, self.buckets[bucket].class);
        let Some(class) = class else {
            return Ok(self.bucket(joint.other(), Ratio::ONE));
        };
        // In series load = rating ÷ class and in parallel class ÷ rating: either way
        // the outer class is rating² ÷ class.
        let rating = self.rating(content)?;
        let outer = rating.over(class).and_then(|load| load.times(rating));
        Ok(self.bucket(joint.other(), outer.ok_or(Code::TooExact)?))
    }

    fn add_slot(
        &mut self,
        bucket: usize,
        slot: Slot,
        count: u64,
        budget: &mut Steps,
    ) -> Result<(), Code> {
        let (whole, content) = (self.whole, slot.content);
        let bucket = &mut self.buckets[bucket];
        let before = bucket.sums.len();
        let mut all = Vec::new();
        let (mut made, mut repeats) = (before, 1);
        let mut several = content;
        while whole.without(several).is_some() {
            // So many of them alone, then beside each of the others: in order as these are.
            let more = multisets(count, repeats);
            let alone = Sum { content: several, ways: more.min(CAP), slot: None };
            let mut run = vec![alone];
            for sum in &bucket.sums {
                let content = sum.content.with(several);
                if whole.without(content).is_some() {
                    let ways = sum.ways.saturating_mul(more).min(CAP);
                    run.push(Sum { content, ways, slot: None });
                }
            }
            made += run.len();
            if made > MOST_SUMS {
                return Err(Code::TooMuchWork);
            }
            all = merged(if repeats == 1 { &bucket.sums } else { &all }, &run);
            several = several.with(content);
            repeats += 1;
        }
        // Each new one is made, and all are put in order.
        budget.take((2 * (made - before) + made / 2) as u64);
        if repeats > 1 {
            bucket.sums = all;
        }
        let at = bucket.sums.partition_point(|sum| sum.content.place() < content.place());
        if let Some(sum) = bucket.sums.get_mut(at) {
            sum.slot = Some(bucket.slots.len() as u32);
        }
        bucket.slots.push(slot);
        Ok(())
    }

    /// From the complete networks down: a key is useful if the rest of some useful
    /// key's content can be made beside it.
    fn mark_useful(&mut self, key: usize, budget: &mut Steps) {
        let Key { content, goes_to, useful, .. } = self.keys[key];
        budget.take(1);
        if useful {
            return;
        }
        let mut made = 0;
        let mut seen = 0;
        for user in &self.keys[key + 1..] {
            seen += 1;
            if !user.useful || user.bucket != goes_to {
                continue;
            }
            made += 1;
            let rest = user.content.without(content).filter(|rest| rest.0 != 0);
            if rest.is_some_and(|rest| self.buckets[goes_to].can_make(rest)) {
                self.keys[key].useful = true;
                break;
            }
        }
        budget.take(seen / 12 + made);
    }
}

/// Ways to pick `k` of `n` things, each as often as one likes (capped).
fn multisets(n: u64, k: u64) -> u64 {
    let mut ways: u128 = 1;
    for i in 0..u128::from(k) {
        ways = (ways * (u128::from(n) + i) / (i + 1)).min(u128::from(CAP) << 20);
    }
    match u64::try_from(ways) {
        Ok(ways) if ways < CAP => ways,
        _ => CAP,
    }
}

/// What can be made in either way, in order; the ways to what both make add up.
fn merged(known: &[Sum], more: &[Sum]) -> Vec<Sum> {
    let mut all: Vec<Sum> = Vec::with_capacity(known.len() + more.len());
    let (mut known, mut more) = (known.iter().peekable(), more.iter().peekable());
    loop {
        let order = match (known.peek(), more.peek()) {
            (None, None) => return all,
            (Some(_), None) => Ordering::Less,
            (None, Some(_)) => Ordering::Greater,
            (Some(one), Some(other)) => one.content.place().cmp(&other.content.place()),
        };
        let one = if order == Ordering::Greater { None } else { known.next() };
        let other = if order == Ordering::Less { None } else { more.next() };
        all.extend(match (one, other) {
            (Some(one), Some(other)) => {
                let ways = one.ways.saturating_add(other.ways).min(CAP);
                Some(Sum { ways, slot: one.slot.or(other.slot), ..*one })
            }
            (one, other) => one.or(other).copied(),
        });
    }
}
