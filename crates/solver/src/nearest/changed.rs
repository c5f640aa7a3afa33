//! What a rig could be changed to, and the rig so changed.

use super::Change;
use crate::bounds::{Field, Kind, MOST_COILS};
use crate::count::{index, tally};
use crate::ohms::{Ohms, Ratio};
use crate::rig::{Bridge, Rig};
use crate::short;

/// Ohms that coils are usually made with; common practice, no source.
const USUAL: [u128; 4] = [1, 2, 4, 8];

/// Every change of a rig that lies within the bounds, nearest first: bridges of
/// neighbouring channels that the maker may name, the same coils of twice or half the
/// ohms, a driver more and a driver fewer, then the other coil versions. The least load
/// of another amplifier depends on the answer; [`Nearest`](super::Nearest) adds it.
///
/// # Example
/// ```
/// # use coilwright_solver::{answer::*, bounds::Field, rig::*};
/// use coilwright_solver::nearest::{Change, changes};
/// # let ohms = |text| Field::CoilOhms.ohms_text(text).ok();
/// # let one = GroupDraft { count: Some(1), coils: Some(2), ohms: ohms("2"), ..Default::default() };
/// # let rig = Draft { groups: vec![one], amplifier: None }.check(Vec::new()).unwrap();
/// let four = ohms("4").unwrap();
/// assert_eq!(changes(&rig)[0], Change::Coils { group: 0, coils: 2, ohms: four });
/// ```
#[must_use]
pub fn changes(rig: &Rig) -> Vec<Change> {
    let mut list: Vec<(u32, Change)> = Vec::new();
    for channels in free_pairs(rig) {
        list.push((0, Change::Bridge { channels }));
    }
    for (group, now) in rig.groups().iter().enumerate() {
        for ohms in ohms_near(now.ohms) {
            for &coils in coil_versions() {
                let version = (now.coils_on_each(), now.ohms);
                if (coils, ohms) != version {
                    let far = far(version.0, version.1, coils, ohms);
                    list.push((far, Change::Coils { group, coils, ohms }));
                }
            }
        }
        list.push((3, Change::Count { group, count: now.count.saturating_add(1) }));
        list.push((4, Change::Count { group, count: now.count.saturating_sub(1) }));
    }
    short::insertion_sort(&mut list, |a, b| a.0.cmp(&b.0));
    list.retain(|(_, change)| in_bounds(rig, change));
    list.into_iter().map(|(_, change)| change).collect()
}

/// The rig with a change made; `None` where it does not apply or leaves the bounds.
/// Drivers of another version keep the rating of the whole driver; measured resistances
/// of the old ones are dropped.
#[must_use]
pub fn with(rig: &Rig, change: &Change) -> Option<Rig> {
    if !in_bounds(rig, change) {
        return None;
    }
    let mut rig = rig.clone();
    match *change {
        Change::Coils { group, coils, ohms } => {
            let group = rig.groups.get_mut(group)?;
            (group.coils, group.unused, group.ohms, group.dc_ohms) = (coils, 0, ohms, None);
        }
        Change::Count { group, count } => {
            let group = rig.groups.get_mut(group)?;
            (group.count, group.dc_ohms) = (count, None);
        }
        Change::Bridge { channels } => {
            let bridge = Bridge { channels, least: None, rated: Vec::new() };
            rig.amplifier.as_mut()?.bridges.push(bridge);
        }
        Change::LeastLoad { ohms } => {
            for channel in &mut rig.amplifier.as_mut()?.channels {
                let least = channel.least.or(channel.rated.first().map(|point| point.ohms));
                channel.least = Some(least.map_or(ohms, |least| least.min(ohms)));
            }
        }
    }
    Some(rig)
}

fn in_bounds(rig: &Rig, change: &Change) -> bool {
    let (group, coils, count) = match *change {
        Change::Bridge { channels } => return free_pairs(rig).contains(&channels),
        Change::LeastLoad { ohms } => {
            return rig.amplifier().is_some() && takes(Field::ChannelLeast, ohms);
        }
        Change::Coils { group, coils, ohms } => {
            if !coil_versions().contains(&coils) || !takes(Field::CoilOhms, ohms) {
                return false;
            }
            (group, Some(coils), None)
        }
        Change::Count { group, count } => {
            let Kind::Whole { least, most } = Field::Count.spec().kind else { return false };
            if count < least || count > most {
                return false;
            }
            (group, None, Some(count))
        }
    };
    let Some(now) = rig.groups().get(group) else { return false };
    let others = rig.coils().saturating_sub(now.coils_in_all());
    let changed = coils.unwrap_or(now.coils).saturating_mul(count.unwrap_or(now.count));
    others.saturating_add(changed) <= MOST_COILS
}

/// Whether a field of ohms takes a value.
fn takes(field: Field, ohms: Ohms) -> bool {
    let Kind::Ohms { least, most } = field.spec().kind else { return false };
    let bound = |parts: u32| Ratio::new(u128::from(parts), 10_000);
    bound(least).is_some_and(|least| ohms.ratio() >= least)
        && bound(most).is_some_and(|most| ohms.ratio() <= most)
}

/// Coils that a driver may have.
fn coil_versions() -> &'static [u32] {
    match Field::Coils.spec().kind {
        Kind::OneOfNumbers(list) => list,
        _ => &[],
    }
}

/// Twice, half and the same ohms, then the usual ones, each once.
fn ohms_near(now: Ohms) -> Vec<Ohms> {
    let (twice, half) = (now.series(now), now.parallel(now));
    let mut list: Vec<Ohms> = [twice, half, Some(now)].into_iter().flatten().collect();
    for usual in USUAL.iter().rev().filter_map(|ohms| Ratio::whole(*ohms)).map(Ohms::new) {
        if !list.contains(&usual) {
            list.push(usual);
        }
    }
    list
}

/// How far a coil version is from what is there: twice the ohms 1, half the ohms 2, other
/// ohms of as many coils next, another number of coils last.
fn far(coils_now: u32, now: Ohms, coils: u32, ohms: Ohms) -> u32 {
    let (mut low, high) = (now.min(ohms), now.max(ohms));
    let mut octaves = 0_u32;
    while low < high
        && let Some(twice) = low.series(low)
    {
        low = twice;
        octaves = octaves.saturating_add(1);
    }
    if coils == coils_now && octaves == 1 && low == high {
        return if ohms > now { 1 } else { 2 };
    }
    // Two coils against one or four: a step; one against four: two steps.
    let times = coils_now.max(coils).checked_div(coils_now.min(coils));
    let steps = times.map_or(0, |times| times / 2);
    octaves.saturating_add(5).saturating_add(steps.saturating_mul(20))
}

/// Neighbouring channels (1 and 2, 3 and 4 …) of which neither is bridged yet: the pairs
/// that makers name; common practice, no source.
fn free_pairs(rig: &Rig) -> Vec<[u32; 2]> {
    let Some(amplifier) = rig.amplifier() else { return Vec::new() };
    let channels = tally(amplifier.channels.iter());
    let Kind::Objects { most, .. } = Field::Bridges.spec().kind else { return Vec::new() };
    let mut pairs = Vec::new();
    let mut room = index(most).saturating_sub(amplifier.bridges.len());
    let mut first = 1_u32;
    while first < channels && room > 0 {
        let pair = [first, first.saturating_add(1)];
        let taken = |n: &u32| amplifier.bridges.iter().any(|bridge| bridge.channels.contains(n));
        if !pair.iter().any(taken) {
            pairs.push(pair);
            room = room.saturating_sub(1);
        }
        first = first.saturating_add(2);
    }
    pairs
}
