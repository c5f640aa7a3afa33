//! Counting configurations without listing any.
//!
//! By Burnside's lemma the configurations of a rig number the average, over all
//! exchanges of its drivers and coils, of the networks that an exchange leaves as
//! they are. How many that is depends only on the lengths of the exchange's cycles,
//! so both the exchanges and the networks are written as cycle indices: sums over
//! cycle lengths, added, multiplied and substituted like polynomials.
//! (Pólya's method as in Harary and Palmer, *Graphical Enumeration*, from memory.)

use crate::rigs::Drivers;
use num_rational::Ratio;
use std::collections::BTreeMap;

type Number = Ratio<i128>;

/// A cycle index: cycle lengths, falling, each with its coefficient.
#[derive(Clone, Debug, Default, PartialEq)]
struct Index(BTreeMap<Vec<u32>, Number>);

impl Index {
    fn one() -> Self {
        Self([(Vec::new(), Number::from_integer(1))].into())
    }

    /// A single coil (or driver) times a number of kinds it may be of.
    fn point(kinds: i128) -> Self {
        let mut index = Self::default();
        index.put(vec![1], Number::from_integer(kinds));
        index
    }

    fn put(&mut self, cycles: Vec<u32>, number: Number) {
        let zero = Number::from_integer(0);
        if number != zero {
            *self.0.entry(cycles).or_insert(zero) += number;
        }
    }

    fn plus(mut self, other: &Self) -> Self {
        for (cycles, number) in &other.0 {
            self.put(cycles.clone(), *number);
        }
        self
    }

    fn scaled(mut self, by: Number) -> Self {
        self.0.values_mut().for_each(|number| *number *= by);
        self
    }

    fn times(&self, other: &Self) -> Self {
        let mut product = Self::default();
        for (a, x) in &self.0 {
            for (b, y) in &other.0 {
                let mut cycles = [a.as_slice(), b].concat();
                cycles.sort_unstable_by(|a, b| b.cmp(a));
                product.put(cycles, x * y);
            }
        }
        product
    }

    /// The same structure `k` times over, the copies exchanged in one cycle.
    fn wound(&self, k: u32) -> Self {
        let cycles = |cycles: &Vec<u32>| cycles.iter().map(|length| length * k).collect();
        Self(self.0.iter().map(|(c, n)| (cycles(c), *n)).collect())
    }

    /// How many cycle lengths together, averaged over exchanges: the number of
    /// structures that the exchanges leave apart.
    fn met_by(&self, networks: &Self) -> i128 {
        let met = self.0.iter().filter_map(|(cycles, share)| {
            let fixed = networks.0.get(cycles)?;
            Some(share * fixed * Number::from_integer(symmetries(cycles)))
        });
        let total: Number = met.sum();
        assert!(total.is_integer(), "a count came out as {total}");
        total.to_integer()
    }
}

/// How many exchanges leave an exchange with these cycles as it is.
fn symmetries(cycles: &[u32]) -> i128 {
    let mut repeated = 0;
    let mut last = 0;
    let mut product = 1;
    for &length in cycles {
        repeated = if length == last { repeated + 1 } else { 1 };
        last = length;
        product *= i128::from(length) * repeated;
    }
    product
}

/// Handfuls of things, by the total of a mark on each: from `things[mark]` the
/// handfuls (none, one or more things, no order) with each total of marks.
fn handfuls(things: &[Index], most: usize) -> Vec<Index> {
    let mut handfuls = vec![Index::one()];
    for total in 1..=most {
        handfuls.push(handfuls_of(total, things, &handfuls));
    }
    handfuls
}

/// The handfuls with one total, from those with lesser totals: the derivative of
/// exp(Σ things wound k times / k).
fn handfuls_of(total: usize, things: &[Index], lesser: &[Index]) -> Index {
    let mut sum = Index::default();
    for j in 1..=total {
        let mut pulled = Index::default();
        for k in (1..=j).filter(|k| j % k == 0) {
            if let Some(thing) = things.get(j / k) {
                let weight = Number::from_integer((j / k) as i128);
                pulled = pulled.plus(&thing.wound(k as u32).scaled(weight));
            }
        }
        if let Some(rest) = lesser.get(total - j) {
            sum = sum.plus(&pulled.times(rest));
        }
    }
    sum.scaled(Number::new(1, total as i128))
}

/// All networks of `n` leaves.
fn networks(n: usize) -> Index {
    // What may stand in a series node: a leaf, or a parallel node. By duality there are
    // as many parallel nodes as series nodes, and a series node is a handful of two or more.
    let mut parts = vec![Index::default(), Index::point(1)];
    let mut hands = vec![Index::one(), Index::point(1)];
    for total in 2..=n {
        // A handful of one part of this size is the part itself: not known yet, left out.
        let nodes = handfuls_of(total, &parts, &hands);
        hands.push(nodes.clone().plus(&nodes));
        parts.push(nodes);
    }
    match n {
        1 => Index::point(1),
        _ => parts[n].clone().scaled(Number::from_integer(2)),
    }
}

/// Exchanges of the drivers of a group, each driver with these exchanges of its own.
fn exchanges(count: u32, of_each: Index) -> Index {
    let hands = handfuls(&[Index::default(), of_each], count as usize);
    hands[count as usize].clone()
}

/// Forms a driver's own coils may take, by coils in each path and number of paths,
/// even ones only.
fn even_forms(coils: u32) -> BTreeMap<(usize, usize), i128> {
    let all = exchanges(coils, Index::point(1));
    let single = [((1, 1), 1)].into();
    even_networks(coils as usize, &single)
        .into_iter()
        .map(|(form, index)| (form, all.met_by(&index)))
        .collect()
}

/// Even networks of so many coils, by (coils in each path, paths), over leaves that
/// are single coils or whole drivers in the forms given.
///
/// All coils alike, a network is even exactly when every path through it has as many
/// coils as any other and every cut as many paths; in series go parts with equally
/// many paths, in parallel parts with equally long ones (worked by hand).
fn even_networks(
    coils: usize,
    forms: &BTreeMap<(usize, usize), i128>,
) -> BTreeMap<(usize, usize), Index> {
    let leaf = |at: (usize, usize)| Index::point(forms.get(&at).copied().unwrap_or(0));
    // series[(l, w)]: series nodes; a parallel node of (l, w) is one of (w, l) mirrored,
    // leaves included, which holds as the forms mirror too.
    let mirrored = forms.iter().all(|(&(l, w), n)| forms.get(&(w, l)) == Some(n));
    assert!(mirrored, "every form has its dual");
    let mut series: BTreeMap<(usize, usize), Index> = BTreeMap::new();
    for n in 1..=coils {
        for l in (1..=n).filter(|l| n % l == 0) {
            let w = n / l;
            let parts: Vec<Index> = (0..l)
                .map(|part| {
                    let parallel = series.get(&(w, part)).cloned().unwrap_or_default();
                    parallel.plus(&leaf((part, w)))
                })
                .collect();
            let hands = handfuls(&parts, l - 1);
            let nodes = handfuls_of(l, &parts, &hands);
            series.insert((l, w), nodes);
        }
    }
    let mut all = BTreeMap::new();
    for l in (1..=coils).filter(|l| coils.is_multiple_of(*l)) {
        let w = coils / l;
        let both = series[&(l, w)].clone().plus(&series[&(w, l)]);
        all.insert((l, w), both.plus(&leaf((l, w))));
    }
    all
}

fn per_group(rig: &[Drivers], exchanges_of: impl Fn(&Drivers) -> Index) -> Index {
    rig.iter().map(exchanges_of).fold(Index::one(), |all, group| all.times(&group))
}

fn size(rig: &[Drivers], of: impl Fn(&Drivers) -> u32) -> usize {
    rig.iter().map(of).sum::<u32>() as usize
}

/// Every configuration.
pub fn all(rig: &[Drivers]) -> i128 {
    let own = |group: &Drivers| exchanges(group.coils, Index::point(1));
    per_group(rig, |group| exchanges(group.count, own(group)))
        .met_by(&networks(size(rig, |group| group.count * group.coils)))
}

/// Configurations joined at the driver: networks of drivers, each in one of the forms
/// its own coils may take.
pub fn joined(rig: &[Drivers]) -> i128 {
    let forms = |coils| exchanges(coils, Index::point(1)).met_by(&networks(coils as usize));
    per_group(rig, |group| exchanges(group.count, Index::point(forms(group.coils))))
        .met_by(&networks(size(rig, |group| group.count)))
}

/// Even configurations of drivers whose coils are all alike in ohms and rating.
pub fn even(rig: &[Drivers]) -> i128 {
    let own = |group: &Drivers| exchanges(group.coils, Index::point(1));
    let exchanges = per_group(rig, |group| exchanges(group.count, own(group)));
    let coils = size(rig, |group| group.count * group.coils);
    let networks = even_networks(coils, &[((1, 1), 1)].into());
    networks.values().map(|index| exchanges.met_by(index)).sum()
}

/// Even configurations joined at the driver, of drivers alike in everything.
///
/// # Panics
/// If the groups differ in the number of coils.
pub fn joined_and_even(rig: &[Drivers]) -> i128 {
    let coils = rig.first().map_or(0, |group| group.coils);
    assert!(rig.iter().all(|group| group.coils == coils), "one kind of driver");
    let exchanges = per_group(rig, |group| exchanges(group.count, Index::point(1)));
    let all = size(rig, |group| group.count * group.coils);
    let networks = even_networks(all, &even_forms(coils));
    networks.values().map(|index| exchanges.met_by(index)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rigs::drivers;

    #[test]
    fn counting_meets_the_published_counts() {
        // OEIS A000084, configurations of equal single coils.
        let alike = [1, 2, 4, 10, 24, 66, 180, 522, 1532, 4624, 14136, 43930];
        for (n, want) in (1..).zip(alike) {
            assert_eq!(all(&[drivers(n, 1, "4")]), want, "{n} alike");
        }
        // OEIS A006351, all drivers different.
        let apart = [1, 2, 8, 52, 472, 5504, 78416, 1_320_064];
        for (n, want) in (1..).zip(apart) {
            assert_eq!(all(&vec![drivers(1, 1, "4"); n]), want, "{n} different");
        }
    }

    #[test]
    fn a_driver_alone_has_one_two_or_ten_forms_and_one_two_or_four_even_ones() {
        // Worked by hand: four coils in ten networks, of which all in series, all in
        // parallel, two pairs in series side by side and two pairs side by side in series are even.
        for (coils, forms, even_ones) in [(1, 1, 1), (2, 2, 2), (4, 10, 4)] {
            let one = [drivers(1, coils, "4")];
            assert_eq!((joined(&one), joined_and_even(&one)), (forms, even_ones));
            assert_eq!((all(&one), even(&one)), (forms, even_ones));
        }
    }
}
