//! The outputs of an amplifier and the ways to use them.
//!
//! An output is one channel, or two channels bridged. Tied terminal pairs of a channel
//! are one output. Two outputs are never joined in parallel, only the bridges that the
//! maker names are offered, and no two outputs share a negative.
//!
//! A *way* is a set of outputs that are used together: one output alone with the other
//! channels idle, or every channel in use. Channels of several amplifiers of a kind are
//! numbered through: the second amplifier's first follows the first amplifier's last.

pub(crate) mod deals;
pub(crate) mod evenness;

use crate::count::tally;
use crate::judge::Figures;
use crate::ohms::Ohms;
use crate::rig::{Amplifier, Bridge, Channel};
use crate::short;

/// How an output uses the amplifier's channels.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Way {
    /// One channel.
    Apart,
    /// Two channels bridged.
    Bridged,
}

impl Way {
    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Apart => "apart",
            Self::Bridged => "bridged",
        }
    }
}

/// An output that a network may hang on.
#[derive(Clone, Debug, PartialEq)]
pub struct Outlet {
    /// How it uses the channels; `None` without an amplifier.
    pub way: Option<Way>,
    /// The channels, counted from 1.
    pub channels: Vec<u32>,
    /// Outputs of one kind may be exchanged for each other: a number for each kind.
    pub kind: usize,
}

/// The outputs of an amplifier: what each kind of them may drive and gives.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outputs {
    /// How the channels are used, figures, and what else tells kinds apart.
    kinds: Vec<(Option<Way>, Figures, Vec<u32>)>,
    channels: Vec<Outlet>,
    bridges: Vec<Outlet>,
}

impl Outputs {
    /// Every output. Without an amplifier there is one, of which nothing is known.
    #[must_use]
    pub fn of(amplifier: Option<&Amplifier>) -> Self {
        let mut this = Self::default();
        let Some(amplifier) = amplifier else {
            let kind = this.kind(None, Figures::default(), &[]);
            this.channels.push(Outlet { way: None, channels: Vec::new(), kind });
            return this;
        };
        let each = tally(amplifier.channels.iter());
        for copy in 0..amplifier.count {
            let first = copy.saturating_mul(each);
            for (number, channel) in (1_u32..).zip(&amplifier.channels) {
                let pairs = [channel.terminal_pairs];
                let kind = this.kind(Some(Way::Apart), of_channel(channel), &pairs);
                let channels = vec![first.saturating_add(number)];
                this.channels.push(Outlet { way: Some(Way::Apart), channels, kind });
            }
            for bridge in &amplifier.bridges {
                let pair = this.pair(bridge, &amplifier.channels);
                let pairs: Vec<u32> = pair.iter().map(|channel| channel.terminal_pairs).collect();
                let kind = this.kind(Some(Way::Bridged), of_bridge(bridge, &pair), &pairs);
                let channels = bridge.channels.iter().map(|n| first.saturating_add(*n)).collect();
                this.bridges.push(Outlet { way: Some(Way::Bridged), channels, kind });
            }
        }
        this
    }

    /// The channels of a bridge, in an order that does not tell which comes first.
    fn pair<'a>(&self, bridge: &Bridge, channels: &'a [Channel]) -> Vec<&'a Channel> {
        let mut numbers = bridge.channels;
        short::insertion_sort(&mut numbers, |a, b| {
            self.channel_kind(*a).cmp(&self.channel_kind(*b))
        });
        let channel = |number: &u32| channels.get(usize::try_from(number.checked_sub(1)?).ok()?);
        numbers.iter().filter_map(channel).collect()
    }

    fn channel_kind(&self, number: u32) -> Option<usize> {
        self.place(&[number]).map(|place| place.kind)
    }

    fn kind(&mut self, way: Option<Way>, figures: Figures, terminal_pairs: &[u32]) -> usize {
        // What is told to other decimals may drive other loads.
        let least = figures.least.iter().chain(figures.points.first().map(|point| &point.ohms));
        let rounded = least.map(|ohms| ohms.slack());
        let apart = terminal_pairs.iter().copied().chain(rounded).collect();
        let new = (way, figures, apart);
        let known = self.kinds.iter().position(|kind| *kind == new);
        known.unwrap_or_else(|| {
            self.kinds.push(new);
            self.kinds.len().saturating_sub(1)
        })
    }

    /// How many kinds there are.
    pub(crate) fn kinds(&self) -> usize {
        self.kinds.len()
    }

    /// What outputs of a kind may drive and give.
    #[must_use]
    pub fn figures(&self, kind: usize) -> Option<&Figures> {
        self.kinds.get(kind).map(|(_, figures, _)| figures)
    }

    /// The output with these channels: one channel, or a bridge that the maker names.
    #[must_use]
    pub fn place(&self, channels: &[u32]) -> Option<&Outlet> {
        self.channels.iter().chain(&self.bridges).find(|place| place.channels == channels)
    }

    /// Every output, channels first.
    pub fn places(&self) -> impl Iterator<Item = &Outlet> {
        self.channels.iter().chain(&self.bridges)
    }

    /// Every way that uses at most so many outputs, distinct up to exchanging outputs of
    /// one kind: single outputs first, then those that use every channel, fewest bridges
    /// first. The outputs of a way stand in the order of their channels.
    #[must_use]
    pub fn ways(&self, most: usize) -> Vec<Vec<Outlet>> {
        let mut ways: Vec<Vec<Outlet>> = Vec::new();
        for place in self.channels.iter().chain(&self.bridges) {
            if !ways.iter().flatten().any(|known| known.kind == place.kind) {
                ways.push(vec![place.clone()]);
            }
        }
        let mut whole = Vec::new();
        self.choose_bridges(&self.bridge_kinds(), &mut Vec::new(), &mut whole);
        whole.retain(|way: &Vec<Outlet>| way.len() > 1 && way.len() <= most);
        let bridges = |way: &[Outlet]| way.iter().filter(|p| p.way == Some(Way::Bridged)).count();
        short::insertion_sort(&mut whole, |a, b| bridges(a).cmp(&bridges(b)));
        ways.extend(whole);
        ways
    }

    /// The bridges, those together that may be exchanged: of one kind, over channels of
    /// the same kinds.
    fn bridge_kinds(&self) -> Vec<Vec<&Outlet>> {
        let name = |place: &Outlet| {
            let over = place.channels.iter().map(|number| self.channel_kind(*number));
            let mut over: Vec<Option<usize>> = over.collect();
            short::insertion_sort(&mut over, Ord::cmp);
            (place.kind, over)
        };
        let mut kinds: Vec<Vec<&Outlet>> = Vec::new();
        for bridge in &self.bridges {
            let same =
                |list: &&mut Vec<&Outlet>| list.iter().any(|known| name(known) == name(bridge));
            match kinds.iter_mut().find(same) {
                Some(list) => list.push(bridge),
                None => kinds.push(vec![bridge]),
            }
        }
        kinds
    }

    /// Of each kind of bridge the first none, one, two and so on.
    fn choose_bridges(
        &self,
        kinds: &[Vec<&Outlet>],
        used: &mut Vec<Outlet>,
        ways: &mut Vec<Vec<Outlet>>,
    ) {
        let Some((kind, rest)) = kinds.split_first() else {
            let free = |place: &&Outlet| {
                let taken = |n: &u32| used.iter().any(|bridge| bridge.channels.contains(n));
                !place.channels.iter().any(taken)
            };
            let mut way: Vec<Outlet> = self.channels.iter().filter(free).cloned().collect();
            way.extend(used.iter().cloned());
            short::insertion_sort(&mut way, |a, b| a.channels.cmp(&b.channels));
            ways.push(way);
            return;
        };
        let before = used.len();
        for taken in 0..=kind.len() {
            used.truncate(before);
            used.extend(kind.iter().take(taken).map(|place| (*place).clone()));
            self.choose_bridges(rest, used, ways);
        }
        used.truncate(before);
    }
}

/// What the output with these channels may drive and gives: one channel, or a bridge
/// that the maker names.
#[must_use]
pub fn figures(amplifier: &Amplifier, channels: &[u32]) -> Option<Figures> {
    let outputs = Outputs::of(Some(amplifier));
    let place = outputs.place(channels)?;
    outputs.figures(place.kind).cloned()
}

fn of_channel(channel: &Channel) -> Figures {
    Figures {
        least: channel.least,
        least_derived: false,
        points: channel.rated.clone(),
        halves: Vec::new(),
    }
}

/// A bridge's own figures, or what follows from its channels, each of which sees half
/// the load.
fn of_bridge(bridge: &Bridge, pair: &[&Channel]) -> Figures {
    let stated = bridge.least.is_some() || !bridge.rated.is_empty();
    let derived = if stated { None } else { twice_the_larger_least(pair) };
    // Of its channels only what they give: what they may drive is the least load's to say.
    let all_rated = pair.iter().all(|channel| !channel.rated.is_empty());
    let halves = if bridge.rated.is_empty() && all_rated {
        let half =
            |channel: &&Channel| Figures { points: channel.rated.clone(), ..Figures::default() };
        pair.iter().map(half).collect()
    } else {
        Vec::new()
    };
    Figures {
        least: bridge.least.or(derived),
        least_derived: derived.is_some(),
        points: bridge.rated.clone(),
        halves,
    }
}

/// Twice the least load of the channel that needs more; a channel that states none is
/// held to its lowest rated load.
fn twice_the_larger_least(pair: &[&Channel]) -> Option<Ohms> {
    let mut larger = None;
    for channel in pair {
        let least = channel.least.or(channel.rated.first().map(|point| point.ohms))?;
        larger = Some(larger.map_or(least, |larger: Ohms| larger.stricter(least)));
    }
    larger.and_then(|least| least.series(least))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bounds::Field;

    /// Worked by hand: what a bridge leaves over matters as much as the bridge.
    #[test]
    fn bridges_over_unlike_channels_are_not_exchanged() {
        let mut over = amplifier(1, &["2", "2", "1", "1"], &[[1, 2], [3, 4]]);
        for bridge in &mut over.bridges {
            bridge.least = Field::BridgeLeast.ohms_text("4").ok();
        }
        ways(&over, 3, &["1", "3", "1+2", "1 2 3+4", "1+2 3 4", "1+2 3+4"]);
        // Which channel of a bridge comes first says nothing.
        let turned = amplifier(1, &["2", "1", "1", "2"], &[[1, 2], [3, 4]]);
        ways(&turned, 3, &["1", "2", "1+2", "1+2 3 4", "1+2 3+4"]);
    }

    fn amplifier(count: u32, least: &[&str], bridges: &[[u32; 2]]) -> Amplifier {
        let channel = |text: &&str| Channel {
            least: Field::ChannelLeast.ohms_text(text).ok(),
            rated: Vec::new(),
            terminal_pairs: 1,
        };
        let bridge = |pair: &[u32; 2]| Bridge { channels: *pair, least: None, rated: Vec::new() };
        Amplifier {
            count,
            channels: least.iter().map(channel).collect(),
            bridges: bridges.iter().map(bridge).collect(),
        }
    }

    #[track_caller]
    fn ways(amplifier: &Amplifier, most: usize, want: &[&str]) {
        let write = |place: &Outlet| {
            let numbers: Vec<String> = place.channels.iter().map(u32::to_string).collect();
            numbers.join("+")
        };
        let found: Vec<String> = Outputs::of(Some(amplifier))
            .ways(most)
            .iter()
            .map(|way| way.iter().map(write).collect::<Vec<_>>().join(" "))
            .collect();
        assert_eq!(found, want);
    }

    #[test]
    fn ways_use_one_output_or_every_channel() {
        ways(&amplifier(1, &["1"], &[]), 9, &["1"]);
        ways(&amplifier(1, &["2", "2"], &[[1, 2]]), 9, &["1", "1+2", "1 2"]);
        ways(&amplifier(1, &["2", "1"], &[]), 9, &["1", "2", "1 2"]);
        ways(
            &amplifier(1, &["2", "2", "2", "2"], &[[1, 2], [3, 4]]),
            9,
            &["1", "1+2", "1 2 3 4", "1+2 3 4", "1+2 3+4"],
        );
        ways(&amplifier(1, &["2", "2", "2", "2"], &[[1, 2], [3, 4]]), 2, &["1", "1+2", "1+2 3+4"]);
        ways(
            &amplifier(1, &["2", "2", "2", "2", "1"], &[[1, 2]]),
            9,
            &["1", "5", "1+2", "1 2 3 4 5", "1+2 3 4 5"],
        );
        ways(&amplifier(3, &["1"], &[]), 9, &["1", "1 2 3"]);
        ways(
            &amplifier(2, &["2", "2"], &[[1, 2]]),
            9,
            &["1", "1+2", "1 2 3 4", "1+2 3 4", "1+2 3+4"],
        );
    }

    #[test]
    fn a_bridge_the_maker_does_not_name_is_no_output() {
        let outputs = Outputs::of(Some(&amplifier(1, &["2", "2", "2", "2"], &[[1, 2], [3, 4]])));
        assert!(outputs.place(&[3, 4]).is_some());
        assert_eq!(outputs.place(&[2, 3]), None);
    }
}
