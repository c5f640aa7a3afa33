//! The outputs of a way before anything is dealt to them.

use super::Outlet;
use crate::count::tally;
use crate::rig::Rig;
use crate::short;
use crate::work::steps;

/// What is known of an output before anything is dealt to it.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Seat {
    /// The group of the split driver, if it takes a coil of it: the first two of a kind do.
    pub(super) half: Option<u8>,
    /// The output before it of the same kind.
    pub(super) same_kind: Option<usize>,
    /// The same, where it takes a half just as this one does: it takes no less.
    pub(super) like: Option<usize>,
    /// How many after it are of its kind.
    pub(super) more: u64,
    /// How many after it have no half, so that each needs a driver.
    pub(super) needy: u32,
    /// How many kinds of output come after it for the first time.
    pub(super) new_kinds: usize,
    /// Whether each after it is like it or like one before it.
    pub(super) bounded: bool,
}

/// The outputs of a way, where a driver is split or none is.
pub(super) fn seats(way: &[Outlet], halves: Option<(u8, usize)>) -> Vec<Seat> {
    let mut seats: Vec<Seat> = Vec::new();
    for (at, place) in way.iter().enumerate() {
        let same = |other: &usize| way.get(*other).is_some_and(|p| p.kind == place.kind);
        let before = (0..at).filter(same).count();
        let half = halves.filter(|(_, kind)| *kind == place.kind && before < 2);
        let half = half.map(|(group, _)| group);
        let same_kind = (0..at).rev().find(same);
        let takes_alike = |other: &usize| {
            seats.get(*other).is_some_and(|seat| seat.half.is_some() == half.is_some())
        };
        let like = same_kind.filter(takes_alike);
        let more = steps((at.saturating_add(1)..way.len()).filter(same).count());
        seats.push(Seat { half, same_kind, like, more, ..Seat::default() });
    }
    for at in 0..seats.len() {
        let rest = || seats.iter().skip(at.saturating_add(1));
        let needy = tally(rest().filter(|seat| seat.half.is_none()));
        let new_kinds = rest().filter(|seat| seat.same_kind.is_none()).count();
        let bounded = rest().all(|seat| seat.like.is_some());
        if let Some(seat) = seats.get_mut(at) {
            (seat.needy, seat.new_kinds, seat.bounded) = (needy, new_kinds, bounded);
        }
    }
    seats
}

/// Each dual-coil group with each kind of output that a way has twice, the last first.
pub(super) fn splits(rig: &Rig, way: &[Outlet], ahead: &mut Vec<Option<(u8, usize)>>) {
    let mut kinds: Vec<usize> = way.iter().map(|place| place.kind).collect();
    short::insertion_sort(&mut kinds, usize::cmp);
    for (group, number) in rig.groups().iter().zip(0_u8..) {
        let mut last = None;
        for pair in kinds.windows(2) {
            if let [kind, next] = pair
                && kind == next
                && last.replace(*kind) != Some(*kind)
                && group.coils == 2
            {
                ahead.push(Some((number, *kind)));
            }
        }
    }
    ahead.reverse();
}
