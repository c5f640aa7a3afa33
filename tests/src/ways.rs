//! Every way to use an amplifier by trying everything.
//!
//! Outlets are told apart, and so are coils: every set of outlets that may be used
//! together, every coil on every one of them, every network there. What an exchange of
//! outlets of one kind, of drivers of a group or of coils of a driver turns into each
//! other is then counted as one.

use crate::brute::{coils, exchanged, neighbour_exchanges, told_apart};
use crate::burnside;
use crate::generate::stated;
use crate::rigs::{Drivers, Filters, Stated, drivers, ohms, ratings};
use crate::tree::{Exact, Leaf, Tree};
use coilwright_solver::rig::{AmplifierDraft, BridgeDraft, ChannelDraft};
use proptest::prelude::*;
use proptest::sample::select;
use std::collections::{BTreeMap, BTreeSet};

mod everything;
mod forms;

pub use everything::{Everything, counted, every_deal};
pub use forms::{Deal, Form, Portion};

/// An amplifier of these channels, with these bridges and what its maker states of them.
pub fn amplifier(channels: &[Stated], bridges: &[([u32; 2], Stated)]) -> AmplifierDraft {
    let bridge = |(pair, stated): &([u32; 2], Stated)| {
        let stated = stated.channel();
        BridgeDraft { channels: Some(*pair), least: stated.least, rated: stated.rated }
    };
    AmplifierDraft {
        channels: channels.iter().map(Stated::channel).collect(),
        bridges: bridges.iter().map(bridge).collect(),
        ..AmplifierDraft::default()
    }
}

/// Several of the kind.
#[must_use]
pub fn several(count: u32, amplifier: AmplifierDraft) -> AmplifierDraft {
    AmplifierDraft { count: Some(count), ..amplifier }
}

/// Amplifiers of at most so many channels, all alike or some unlike, some bridged.
pub fn amplifiers(most: usize) -> impl Strategy<Value = AmplifierDraft> {
    let channels = (stated(), stated(), 1..=most, proptest::collection::vec(0..3, most));
    let bridges = select(vec![0, 0, 1, 2]);
    let own = prop_oneof![2 => Just(Stated::default()), 1 => stated()];
    (channels, bridges, own, 0..3).prop_map(|((each, other, n, unlike), bridges, own, alike)| {
        let channel = |which: &i32| if *which == 0 { other.clone() } else { each.clone() };
        let mut channels: Vec<Stated> = unlike.iter().take(n).map(channel).collect();
        if alike > 0 {
            channels.fill(each.clone());
        }
        let pairs = [[1, 2], [3, 4]].into_iter().take(bridges);
        let pairs = pairs.filter(|pair| pair[1] as usize <= channels.len());
        let bridges: Vec<_> = pairs.map(|pair| (pair, own.clone())).collect();
        amplifier(&channels, &bridges)
    })
}

/// What makes one outlet as good as another: its own figures where its maker states
/// them, for a bridge otherwise those of its two channels in either order, and how many
/// terminal pairs it has.
#[derive(Clone, Debug, PartialEq)]
enum Nature {
    Channel(ChannelDraft),
    Bridge { own: ChannelDraft, of: Option<[ChannelDraft; 2]>, pairs: [u32; 2] },
}

fn plain(channel: &ChannelDraft) -> ChannelDraft {
    let mut channel = channel.clone();
    channel.terminal_pairs = channel.terminal_pairs.or(Some(1));
    channel.rated.sort_by_key(|point| point.ohms);
    channel
}

impl Nature {
    fn of_bridge(bridge: &BridgeDraft, a: &ChannelDraft, b: &ChannelDraft) -> Self {
        let (a, b) = (plain(a), plain(b));
        let own = ChannelDraft {
            least: bridge.least,
            rated: bridge.rated.clone(),
            ..ChannelDraft::default()
        };
        let mut pairs = [&a, &b].map(|channel| channel.terminal_pairs.unwrap());
        pairs.sort_unstable();
        let of = bridge.rated.is_empty().then_some([a, b]);
        Self::Bridge { own: plain(&own), of, pairs }
    }

    fn like(&self, other: &Self) -> bool {
        let turned = match self {
            Self::Bridge { own, of: Some([a, b]), pairs } => {
                Self::Bridge { own: own.clone(), of: Some([b.clone(), a.clone()]), pairs: *pairs }
            }
            other => other.clone(),
        };
        *self == *other || turned == *other
    }
}

/// One channel, or two that are bridged.
#[derive(Clone, Debug, PartialEq)]
pub struct Outlet {
    /// Its channels, counted from 1 through all amplifiers; none without an amplifier.
    pub channels: Vec<u32>,
    /// A number for each kind of outlet.
    pub kind: usize,
}

/// The outlets of an amplifier and the sets of them that may be used together.
#[derive(Clone, Debug)]
pub struct Outlets {
    outlets: Vec<Outlet>,
    ways: Vec<Vec<Outlet>>,
}

impl Outlets {
    /// The outlets of an amplifier.
    pub fn of(amplifier: Option<&AmplifierDraft>) -> Self {
        let Some(amplifier) = amplifier else {
            let only = Outlet { channels: Vec::new(), kind: 0 };
            return Self { outlets: vec![only.clone()], ways: vec![vec![only]] };
        };
        let each = amplifier.channels.len() as u32;
        let mut natures: Vec<Nature> = Vec::new();
        let mut kind = |nature: Nature| {
            let known = natures.iter().position(|known| known.like(&nature));
            known.unwrap_or_else(|| {
                natures.push(nature);
                natures.len() - 1
            })
        };
        let mut outlets = Vec::new();
        for before in (0..amplifier.count.unwrap_or(1)).map(|copy| copy * each) {
            for (number, channel) in (1..).zip(&amplifier.channels) {
                let kind = kind(Nature::Channel(plain(channel)));
                outlets.push(Outlet { channels: vec![before + number], kind });
            }
            for bridge in &amplifier.bridges {
                let mut pair = bridge.channels.unwrap();
                pair.sort_unstable();
                let [a, b] = pair.map(|number| &amplifier.channels[number as usize - 1]);
                let kind = kind(Nature::of_bridge(bridge, a, b));
                outlets.push(Outlet { channels: pair.map(|n| before + n).into(), kind });
            }
        }
        let channels = each * amplifier.count.unwrap_or(1);
        let ways = (1_u32..1 << outlets.len())
            .map(|set| chosen(&outlets, set))
            .filter(|way| may_be_used(way, channels))
            .collect();
        Self { outlets, ways }
    }

    /// Every set of outlets that may be used together: one alone, or all channels, each
    /// once.
    pub fn ways(&self) -> &[Vec<Outlet>] {
        &self.ways
    }

    /// The kinds of outlet in each way, each choice of kinds once.
    fn kinds(&self) -> BTreeSet<Vec<usize>> {
        self.ways.iter().map(|way| sorted_kinds(way)).collect()
    }

    /// Reads a key: what hangs on which outlet.
    ///
    /// # Panics
    /// If the text is not in canonical form, names an outlet that is none, or uses
    /// outlets together that are no way.
    pub fn read(&self, key: &str) -> Vec<(Outlet, Tree)> {
        let mut hung = Vec::new();
        for part in key.split(';') {
            let (numbers, network) = part.split_once(':').unwrap_or(("", part));
            let channels: Vec<u32> = numbers
                .split('+')
                .filter(|number| !number.is_empty())
                .map(|number| number.parse().unwrap())
                .collect();
            let outlet = self.outlets.iter().find(|outlet| outlet.channels == channels);
            let outlet = outlet.unwrap_or_else(|| panic!("{key}: no outlet `{numbers}`"));
            hung.push((outlet.clone(), Tree::read(network)));
        }
        let numbers = |outlets: &mut dyn Iterator<Item = &Outlet>| {
            outlets.map(|outlet| outlet.channels.clone()).collect::<BTreeSet<_>>()
        };
        let used = numbers(&mut hung.iter().map(|(outlet, _)| outlet));
        let is_way =
            |way: &Vec<Outlet>| way.len() == hung.len() && numbers(&mut way.iter()) == used;
        assert!(self.ways.iter().any(is_way), "{key}: these outlets are not used together");
        hung
    }

    /// Every key with which a form may be written: its networks on outlets of their
    /// kinds, in every way that has such outlets, in several orders.
    pub fn writings(&self, form: &Form) -> Vec<String> {
        let wanted: Vec<usize> = form.0.iter().map(|(kind, _)| *kind).collect();
        let mut keys = Vec::new();
        for way in self.ways.iter().filter(|way| sorted_kinds(way) == wanted) {
            // Outlets of one kind take theirs in both directions.
            for reversed in [false, true] {
                let mut left = form.0.clone();
                if reversed {
                    left.reverse();
                }
                let mut take = |outlet: &Outlet| {
                    let at = left.iter().position(|(kind, _)| *kind == outlet.kind).unwrap();
                    written_on(outlet, &left.remove(at).1)
                };
                let mut parts: Vec<String> = way.iter().map(&mut take).collect();
                keys.push(parts.join(";"));
                parts.reverse();
                keys.push(parts.join(";"));
            }
        }
        keys.sort();
        keys.dedup();
        keys
    }
}

fn written_on(outlet: &Outlet, tree: &Tree) -> String {
    let numbers: Vec<String> = outlet.channels.iter().map(u32::to_string).collect();
    let colon = if numbers.is_empty() { "" } else { ":" };
    format!("{}{colon}{}", numbers.join("+"), tree.ascii())
}

fn chosen(outlets: &[Outlet], set: u32) -> Vec<Outlet> {
    let chosen = (0..).zip(outlets).filter(|(bit, _)| set >> bit & 1 == 1);
    chosen.map(|(_, outlet)| outlet.clone()).collect()
}

fn may_be_used(way: &[Outlet], channels: u32) -> bool {
    let mut used: Vec<u32> = way.iter().flat_map(|outlet| outlet.channels.clone()).collect();
    used.sort_unstable();
    way.len() == 1 || used == (1..=channels).collect::<Vec<_>>()
}

fn sorted_kinds(way: &[Outlet]) -> Vec<usize> {
    let mut kinds: Vec<usize> = way.iter().map(|outlet| outlet.kind).collect();
    kinds.sort_unstable();
    kinds
}

#[cfg(test)]
mod tests {
    use super::*;

    fn channels(n: usize) -> Vec<Stated> {
        vec![Stated { least: Some("2"), rated: &[] }; n]
    }

    /// Worked by hand: two equal drivers and two equal channels: both on one in series
    /// or in parallel, or one on each.
    #[test]
    fn two_drivers_on_two_channels_have_three_configurations() {
        let outlets = Outlets::of(Some(&amplifier(&channels(2), &[])));
        let everything = Everything::of(&[drivers(2, 1, "4")], &outlets);
        assert_eq!(everything.examples().len(), 3);
        let unlike = [drivers(1, 1, "4"), drivers(1, 1, "8")];
        assert_eq!(Everything::of(&unlike, &outlets).examples().len(), 3);
        let mut two = channels(2);
        two[1].least = Some("1");
        let outlets = Outlets::of(Some(&amplifier(&two, &[])));
        assert_eq!(Everything::of(&[drivers(2, 1, "4")], &outlets).examples().len(), 5);
        assert_eq!(Everything::of(&unlike, &outlets).examples().len(), 6);
    }

    /// Worked by hand: one dual-coil driver in series, in parallel, or a coil on each of
    /// two channels; not on two unlike ones.
    #[test]
    fn a_dual_coil_driver_is_split_between_equal_channels_alone() {
        let dual = [drivers(1, 2, "4")];
        let equal = Outlets::of(Some(&amplifier(&channels(2), &[])));
        assert_eq!(Everything::of(&dual, &equal).examples().len(), 3);
        assert_eq!(every_deal(&dual, &equal).len(), 2);
        let mut two = channels(2);
        two[1].least = Some("1");
        let unlike = Outlets::of(Some(&amplifier(&two, &[])));
        assert_eq!(Everything::of(&dual, &unlike).examples().len(), 4);
        assert_eq!(every_deal(&dual, &unlike).len(), 2);
    }

    /// Worked by hand: of four channels with two bridges one channel or one bridge
    /// alone, all apart, one pair bridged, the other, or both.
    #[test]
    fn ways_are_one_outlet_or_every_channel_once() {
        let bridges = [([1, 2], Stated::default()), ([3, 4], Stated::default())];
        let outlets = Outlets::of(Some(&amplifier(&channels(4), &bridges)));
        assert_eq!(outlets.ways().len(), 4 + 2 + 1 + 2 + 1);
        assert_eq!(outlets.kinds().len(), 5);
        let two = Outlets::of(Some(&several(2, amplifier(&channels(2), &bridges[..1]))));
        assert_eq!(two.ways().len(), 10);
        assert_eq!(two.kinds().len(), 5);
    }

    /// By Burnside's lemma the configurations number the average of the forms that an
    /// exchange leaves as they are.
    #[test]
    fn classes_number_the_average_of_the_forms_an_exchange_leaves() {
        let bridges = [([1, 2], Stated::default())];
        let outlets = Outlets::of(Some(&amplifier(&channels(3), &bridges)));
        for rig in [
            vec![drivers(4, 1, "4")],
            vec![drivers(2, 2, "4")],
            vec![drivers(1, 2, "4"), drivers(2, 1, "4")],
        ] {
            let everything = Everything::of(&rig, &outlets);
            let start: BTreeMap<Leaf, Leaf> =
                coils(&rig).into_iter().map(|leaf| (leaf, leaf)).collect();
            let mut all = BTreeSet::from([start.clone()]);
            let mut new = vec![start];
            while let Some(one) = new.pop() {
                for next in neighbour_exchanges(&rig) {
                    let both: BTreeMap<Leaf, Leaf> =
                        one.iter().map(|(a, b)| (*a, *next.get(b).unwrap_or(b))).collect();
                    if all.insert(both.clone()) {
                        new.push(both);
                    }
                }
            }
            let left = |exchange: &BTreeMap<Leaf, Leaf>| {
                everything.forms().filter(|(form, _)| form.exchanged(exchange) == **form).count()
            };
            let sum: usize = all.iter().map(left).sum();
            assert_eq!(sum, everything.examples().len() * all.len());
            assert_eq!(counted(&rig, &outlets, false), everything.examples().len() as i128);
        }
    }
}
