//! Networks put on the outputs of a way, and drivers numbered across all of them.
//!
//! Each network is first written alone, as if its drivers were the only ones. Outputs of
//! one kind then take theirs in a fixed order, and drivers and coils get their numbers
//! and letters in the order in which they first appear.

use crate::defect::Defect;
use crate::listing::Stock;
use crate::network::{Coil, Network};
use crate::ohms::Ohms;
use crate::outputs::Outlet;
use crate::outputs::deals::Portion;
use crate::rig::Rig;

/// A network on an output, its drivers numbered within the portion.
#[derive(Clone, Debug)]
pub(super) struct Hung {
    pub(super) portion: Portion,
    pub(super) network: Network,
    pub(super) load: Ohms,
}

/// Puts each network on an output of its kind; `hung` stands in the way's order.
pub(super) fn arrange(rig: &Rig, way: &[Outlet], mut hung: Vec<Hung>) -> Result<Vec<Hung>, Defect> {
    for (at, place) in way.iter().enumerate() {
        for (later, other) in way.iter().enumerate().skip(at) {
            if let (Some(a), Some(b)) = (hung.get(at), hung.get(later))
                && place.kind == other.kind
                && b.portion.cmp(&a.portion).then_with(|| a.network.cmp(&b.network)).is_gt()
            {
                hung.swap(at, later);
            }
        }
    }
    let mut numbers = Numbers::of(rig);
    for hung in &mut hung {
        hung.network = numbers.number(rig, hung.portion, &hung.network)?;
    }
    Ok(hung)
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
        let next = rig.drivers_of_groups().map(|drivers| drivers.start).collect();
        Self { next, split: None }
    }

    fn number(
        &mut self,
        rig: &Rig,
        portion: Portion,
        network: &Network,
    ) -> Result<Network, Defect> {
        // Which group each driver of the portion belongs to, and whether it is whole.
        let mut drivers: Vec<(usize, bool, Option<u8>)> = Vec::new();
        for kind in Stock::of(rig, portion).kinds() {
            let whole = rig.groups().get(kind.group).is_some_and(|g| g.coils == kind.coils);
            for _ in 0..kind.count {
                drivers.push((kind.group, whole, None));
            }
        }
        let second = self.split.is_some();
        let mut all_there = true;
        let network = network.with_coils(&mut |coil| {
            let numbered = self.coil(coil, second, &mut drivers);
            all_there &= numbered.is_some();
            numbered.map_or(coil, |coil| coil)
        });
        if all_there { Ok(network) } else { Err(Defect::Coil) }
    }

    /// A coil by the number that its driver has or gets.
    fn coil(
        &mut self,
        coil: Coil,
        second: bool,
        drivers: &mut [(usize, bool, Option<u8>)],
    ) -> Option<Coil> {
        let (group, whole, known) = drivers.get_mut(usize::from(coil.driver))?;
        let driver = match (*known, *whole, self.split) {
            (Some(number), _, _) | (None, false, Some(number)) => number,
            _ => self.take(*group)?,
        };
        *known = Some(driver);
        if *whole {
            return Some(Coil { driver, coil: coil.coil });
        }
        self.split = Some(driver);
        Some(Coil { driver, coil: u8::from(second) })
    }

    fn take(&mut self, group: usize) -> Option<u8> {
        let next = self.next.get_mut(group)?;
        let number = *next;
        *next = number.saturating_add(1);
        Some(number)
    }
}
