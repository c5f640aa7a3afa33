//! A network with the cups that some parts of it stand behind.

use crate::answer::Output;
use crate::bounds::Field;
use crate::count::index;
use crate::network::{Coil, Joint, Network};
use crate::problem::Why;
use crate::rig::{Build, Cups, Rig};
use crate::short;

/// A network whose parts may stand behind cups.
#[derive(Clone, Debug)]
pub(super) enum Laid {
    Coil(Coil),
    /// A cup by its number, and what is joined behind it.
    Cup(u8, Network),
    Node(Joint, Vec<Laid>),
}

impl Laid {
    /// How many parts are side by side on the output.
    pub(super) fn branches(&self) -> usize {
        match self {
            Self::Node(Joint::Parallel, parts) => parts.len(),
            _ => 1,
        }
    }

    /// A network without a cup.
    pub(super) fn of(network: &Network) -> Self {
        match network {
            Network::Coil(coil) => Self::Coil(*coil),
            Network::Node(joint, parts) => Self::Node(*joint, parts.iter().map(Self::of).collect()),
        }
    }
}

/// The coils of an output, cup by cup; nothing where there is no cup.
pub(super) fn units(
    rig: &Rig,
    build: &Build,
    output: &Output,
) -> Result<Vec<Vec<Coil>>, (Field, Why)> {
    let mut coils = output.network.coils();
    short::insertion_sort(&mut coils, Coil::cmp);
    let mut units: Vec<(Option<usize>, Vec<Coil>)> = Vec::new();
    if build.cups != Cups::None {
        for coil in &coils {
            let number = cup_number(rig, build, *coil);
            match units.iter_mut().find(|(known, _)| *known == number) {
                Some((_, unit)) => unit.push(*coil),
                None => units.push((number, vec![*coil])),
            }
        }
    }
    // A cup is one pair of terminals: it cannot serve two outputs, whatever it is for.
    let whole = |number: Option<usize>| {
        let mut all = 0_usize;
        for driver in rig.driver_numbers() {
            if cup_number(rig, build, Coil { driver, coil: 0 }) == number
                && let Some(group) = rig.group_of(driver)
            {
                all = all.saturating_add(index(group.coils));
            }
        }
        all
    };
    if build.cups != Cups::Coil {
        for (number, unit) in &units {
            if whole(*number) != unit.len() {
                let driver = unit.first().map_or(0, |coil| u32::from(coil.driver));
                let driver = driver.saturating_add(1);
                return Err((Field::Cups, Why::CupNotWhole { driver }));
            }
        }
    }
    Ok(units.into_iter().map(|(_, unit)| unit).collect())
}

/// A number that coils of one cup share.
fn cup_number(rig: &Rig, build: &Build, coil: Coil) -> Option<usize> {
    let driver = usize::from(coil.driver);
    match build.cups {
        Cups::None | Cups::One => Some(0),
        Cups::Group(None) => rig.group_number_of(coil.driver),
        Cups::Group(Some(cups)) => cup_of(coil.driver, rig.drivers(), cups),
        Cups::Driver => Some(driver),
        Cups::Coil => Some(driver.saturating_mul(4).saturating_add(coil.coil.into())),
    }
}

/// The cup of a driver where drivers go to so many cups in their order, the first cups
/// taking one more.
fn cup_of(driver: u8, drivers: u32, cups: u32) -> Option<usize> {
    let each = drivers.checked_div(cups)?;
    let more = drivers.checked_rem(cups)?;
    let driver = u32::from(driver);
    let in_larger = more.checked_mul(each.checked_add(1)?)?;
    let cup = match driver.checked_sub(in_larger) {
        Some(rest) => more.checked_add(rest.checked_div(each)?)?,
        None => driver.checked_div(each.checked_add(1)?)?,
    };
    usize::try_from(cup).ok()
}

/// Puts the cups that serve an output into its network. `cups` are those of all outputs,
/// each with its coils; none where there is no cup.
///
/// # Errors
/// The first driver, counted from 1, of a cup whose coils are not whole parts of one node.
pub(super) fn laid(network: &Network, cups: &[Vec<Coil>]) -> Result<Laid, u32> {
    if cups.is_empty() { Ok(Laid::of(network)) } else { behind(network, cups) }
}

fn behind(network: &Network, units: &[Vec<Coil>]) -> Result<Laid, u32> {
    let coils = network.coils();
    // Whether all of some coils are of one unit: its cup, and how many coils it has in all.
    let one_unit = |coils: &[Coil]| {
        let first = coils.first()?;
        let (cup, all) = (0_u8..).zip(units).find(|(_, unit)| unit.contains(first))?;
        coils.iter().all(|coil| all.contains(coil)).then_some((cup, all.len()))
    };
    if let Some((cup, all)) = one_unit(&coils)
        && all == coils.len()
    {
        return Ok(Laid::Cup(cup, network.clone()));
    }
    let driver = coils.first().map_or(0, |coil| u32::from(coil.driver)).saturating_add(1);
    let Network::Node(joint, parts) = network else { return Err(driver) };
    let mut whole: Vec<(u8, usize, Vec<Network>)> = Vec::new();
    let mut outer = Vec::new();
    for part in parts {
        let coils = part.coils();
        match one_unit(&coils) {
            Some((cup, all)) if all > coils.len() => {
                match whole.iter_mut().find(|(known, ..)| *known == cup) {
                    Some((.., parts)) => parts.push(part.clone()),
                    None => whole.push((cup, all, vec![part.clone()])),
                }
            }
            _ => outer.push(behind(part, units)?),
        }
    }
    for (cup, all, parts) in whole {
        let inner = Network::joined(*joint, parts);
        let coils = inner.coils();
        if all != coils.len() {
            return Err(coils.first().map_or(0, |coil| u32::from(coil.driver)).saturating_add(1));
        }
        outer.push(Laid::Cup(cup, inner));
    }
    if outer.len() == 1
        && let Some(only) = outer.pop()
    {
        return Ok(only);
    }
    short::insertion_sort(&mut outer, |a, b| first_coil(a).cmp(&first_coil(b)));
    Ok(Laid::Node(*joint, outer))
}

/// The first coil of a part in the column of drivers.
fn first_coil(laid: &Laid) -> Option<Coil> {
    match laid {
        Laid::Coil(coil) => Some(*coil),
        Laid::Cup(_, network) => network.coils().into_iter().min(),
        Laid::Node(_, parts) => parts.iter().filter_map(first_coil).min(),
    }
}
