//! Networks put on the outputs of a way, and drivers numbered across all of them.
//!
//! Each network is first written alone, as if its drivers were the only ones. Outputs of
//! one kind then take theirs in a fixed order, and drivers and coils get their numbers
//! and letters in the order in which they first appear.

use crate::listing::Stock;
use crate::network::{Coil, Network};
use crate::ohms::Ohms;
use crate::outputs::Place;
use crate::outputs::deals::Portion;
use crate::rig::Rig;
use crate::short;

/// A network on an output, its drivers numbered within the portion.
#[derive(Clone, Debug)]
pub(super) struct Hung {
    pub(super) portion: Portion,
    pub(super) network: Network,
    pub(super) load: Ohms,
}

/// Puts each network on an output of its kind; `hung` stands in the way's order.
pub(super) fn arrange(rig: &Rig, way: &[Place], hung: Vec<Hung>) -> Vec<Hung> {
    let kind = |at: usize| way.get(at).map(|place| place.kind);
    let mut order: Vec<(usize, Hung)> = hung.into_iter().enumerate().collect();
    short::sort(&mut order, |(i, a), (j, b)| {
        let portions = b.portion.cmp(&a.portion);
        kind(*i).cmp(&kind(*j)).then(portions).then_with(|| a.network.cmp(&b.network))
    });
    let mut places: Vec<usize> = (0..way.len()).collect();
    short::sort(&mut places, |a, b| kind(*a).cmp(&kind(*b)));
    let mut placed: Vec<(usize, Hung)> =
        places.into_iter().zip(order).map(|(place, (_, hung))| (place, hung)).collect();
    short::sort(&mut placed, |(a, _), (b, _)| a.cmp(b));
    let mut numbers = Numbers::of(rig);
    let number = |(_, hung): (usize, Hung)| {
        let network = numbers.number(rig, hung.portion, &hung.network);
        Hung { network, ..hung }
    };
    placed.into_iter().map(number).collect()
}

/// Gives out driver numbers.
struct Numbers {
    /// The next driver of each group.
    next: Vec<u8>,
    /// The driver that is split, once a coil of it was met.
    split: Option<u8>,
}

impl Numbers {
    fn of(rig: &Rig) -> Self {
        let mut first = 0_u8;
        let mut next = Vec::new();
        for group in rig.groups() {
            next.push(first);
            first = first.saturating_add(u8::try_from(group.count).unwrap_or(u8::MAX));
        }
        Self { next, split: None }
    }

    fn number(&mut self, rig: &Rig, portion: Portion, network: &Network) -> Network {
        // Which group each driver of the portion belongs to, and whether it is whole.
        let mut drivers: Vec<(usize, bool, Option<u8>)> = Vec::new();
        for kind in Stock::of(rig, portion).kinds() {
            let whole = rig.groups().get(kind.group).is_some_and(|g| g.coils == kind.coils);
            for _ in 0..kind.count {
                drivers.push((kind.group, whole, None));
            }
        }
        let second = self.split.is_some();
        for coil in network.coils() {
            let Some((group, whole, number)) = drivers.get_mut(usize::from(coil.driver)) else {
                continue;
            };
            if number.is_none() {
                *number = match (*whole, self.split) {
                    (false, Some(split)) => Some(split),
                    _ => self.take(*group),
                };
                if !*whole {
                    self.split = *number;
                }
            }
        }
        renumbered(network, &|coil| {
            let (_, whole, number) = drivers.get(usize::from(coil.driver)).copied()?;
            let letter = if whole { coil.coil } else { u8::from(second) };
            Some(Coil { driver: number?, coil: letter })
        })
    }

    fn take(&mut self, group: usize) -> Option<u8> {
        let next = self.next.get_mut(group)?;
        let number = *next;
        *next = number.saturating_add(1);
        Some(number)
    }
}

/// A network with other coils in the same places.
pub(super) fn renumbered(network: &Network, number: &impl Fn(Coil) -> Option<Coil>) -> Network {
    match network {
        Network::Coil(coil) => Network::Coil(number(*coil).unwrap_or(*coil)),
        Network::Node(joint, parts) => {
            Network::Node(*joint, parts.iter().map(|part| renumbered(part, number)).collect())
        }
    }
}
