//! The outputs a network may hang on: one channel, or two channels bridged.
//!
//! Tied terminal pairs of a channel are one output. Two channels are never joined in
//! parallel, and only the bridges that the maker names are offered.

use crate::answer::Way;
use crate::judge::Figures;
use crate::ohms::Ohms;
use crate::rig::{Amplifier, Bridge, Channel};

/// An output that a network may hang on.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// How it uses the channels; `None` without an amplifier.
    pub way: Option<Way>,
    /// The channels, counted from 1.
    pub channels: Vec<u32>,
    /// What it may drive and what it gives.
    pub figures: Figures,
}

/// Every distinct output that may be used alone: equal channels, and equal bridges
/// between equal channels, count once. Without an amplifier there is one.
#[must_use]
pub fn single(amplifier: Option<&Amplifier>) -> Vec<Place> {
    let Some(amplifier) = amplifier else {
        let figures = Figures::default();
        return vec![Place { way: None, channels: Vec::new(), figures }];
    };
    let mut places: Vec<Place> = Vec::new();
    let mut add = |way, channels, figures| {
        if !places.iter().any(|place| place.way == Some(way) && place.figures == figures) {
            places.push(Place { way: Some(way), channels, figures });
        }
    };
    for (number, channel) in (1..).zip(&amplifier.channels) {
        add(Way::Apart, vec![number], of_channel(channel));
    }
    for bridge in &amplifier.bridges {
        add(Way::Bridged, bridge.channels.to_vec(), of_bridge(bridge, &amplifier.channels));
    }
    places
}

/// The figures of the output with these channels: one channel, or a bridge that the
/// maker names.
#[must_use]
pub fn figures(amplifier: &Amplifier, channels: &[u32]) -> Option<Figures> {
    match channels {
        [number] => {
            let index = usize::try_from(number.checked_sub(1)?).ok()?;
            amplifier.channels.get(index).map(of_channel)
        }
        pair => {
            let bridge = amplifier.bridges.iter().find(|bridge| bridge.channels == pair)?;
            Some(of_bridge(bridge, &amplifier.channels))
        }
    }
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
fn of_bridge(bridge: &Bridge, channels: &[Channel]) -> Figures {
    let pair = bridge.channels.iter().filter_map(|number| {
        let index = usize::try_from(number.checked_sub(1)?).ok()?;
        channels.get(index)
    });
    let pair: Vec<&Channel> = pair.collect();
    let stated = bridge.least.is_some() || !bridge.rated.is_empty();
    let derived = if stated { None } else { twice_the_larger_least(&pair) };
    let halves = if bridge.rated.is_empty() {
        pair.iter().map(|channel| of_channel(channel)).collect()
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
        larger = larger.max(Some(least));
    }
    larger.and_then(|least| least.series(least))
}
