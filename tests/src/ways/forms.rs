//! What hangs on which outlets, and how it was dealt.

use super::*;

/// What hangs on which kind of outlet, in a fixed order.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Form(pub Vec<(usize, Tree)>);

impl Form {
    /// Networks on outlets.
    pub fn of(hung: &[(Outlet, Tree)]) -> Self {
        Self::ordered(hung.iter().map(|(outlet, tree)| (outlet.kind, tree.sorted())).collect())
    }

    pub(super) fn ordered(mut parts: Vec<(usize, Tree)>) -> Self {
        parts.sort();
        Self(parts)
    }

    pub(super) fn exchanged(&self, exchange: &BTreeMap<Leaf, Leaf>) -> Self {
        let parts = self.0.iter().map(|(kind, tree)| (*kind, exchanged(tree, exchange)));
        Self::ordered(parts.collect())
    }

    /// The driver that hangs on two outlets, if one does.
    pub fn split(&self) -> Option<u8> {
        let mut met = BTreeSet::new();
        let on_each = self.0.iter().map(|(_, tree)| drivers_of(tree));
        on_each.into_iter().flatten().find(|driver| !met.insert(*driver))
    }

    /// Whether each driver's coils are joined at the driver.
    pub fn joined(&self) -> bool {
        self.split().is_none() && self.0.iter().all(|(_, tree)| tree.joined())
    }

    /// Whether each network is even in itself, and outlets of one kind carry the same
    /// load and the same rating in all.
    pub fn even(&self, ohms: &impl Fn(Leaf) -> Exact, rating: &impl Fn(Leaf) -> Exact) -> bool {
        let mut carried: BTreeMap<usize, (Exact, Exact)> = BTreeMap::new();
        self.0.iter().all(|(kind, tree)| {
            let in_all: Exact = tree.leaves().into_iter().map(rating).sum();
            let here = (tree.load(ohms), in_all);
            tree.even(ohms, rating) && *carried.entry(*kind).or_insert(here) == here
        })
    }

    /// What is dealt to each outlet.
    pub fn deal(&self, rig: &[Drivers]) -> Deal {
        let mut groups = Vec::new();
        for (number, group) in rig.iter().enumerate() {
            groups.extend((0..group.count).map(|_| number));
        }
        let split = self.split();
        let portion = |(kind, tree): &(usize, Tree)| {
            let mut whole = vec![0; rig.len()];
            let mut half = None;
            for driver in drivers_of(tree) {
                let group = groups[usize::from(driver)];
                match split == Some(driver) {
                    true => half = Some(group),
                    false => whole[group] += 1,
                }
            }
            Portion { kind: *kind, whole, half }
        };
        let mut portions: Vec<Portion> = self.0.iter().map(portion).collect();
        portions.sort();
        Deal(portions)
    }
}

fn drivers_of(tree: &Tree) -> BTreeSet<u8> {
    tree.leaves().into_iter().map(|leaf| leaf.driver).collect()
}

/// What is dealt to an outlet.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Portion {
    /// The kind of outlet.
    pub kind: usize,
    /// Whole drivers of each group.
    pub whole: Vec<u32>,
    /// The group of a driver of which one coil is here.
    pub half: Option<usize>,
}

/// What is dealt to the outlets of a way, in a fixed order.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Deal(pub Vec<Portion>);
