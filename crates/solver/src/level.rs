//! The volts that a level is set by, and how much louder one configuration plays than another.

use crate::answer::{Configuration, Output};
use crate::ohms::Ohms;
use crate::rig::Rig;

/// Why no difference of level is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyNot {
    /// The drivers are not all alike, and how loud each kind is for its power is not
    /// known.
    UnlikeDrivers,
    /// The target power of the first is not known.
    FirstUnknown,
    /// The target power of the second is not known.
    SecondUnknown,
}

/// What a meter shows from + to − of an output once its level is set, in volts RMS with a tone:
/// those at which its nominal load takes the target power, √(target × load). `None` where the
/// target power is not known.
///
/// # Example
/// ```
/// # use coilwright_solver::{answer::*, bounds::Field, rig::*};
/// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
/// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
/// use coilwright_solver::level::volts;
/// // 1000 W into 1 Ω.
/// let mut output = one(&rig, "1a||2a").unwrap().outputs.remove(0);
/// assert_eq!(volts(&output), None);
/// output.target_watts = Some(1000.0);
/// assert!((volts(&output).unwrap() - 31.623).abs() < 0.001);
/// ```
#[must_use]
pub fn volts(output: &Output) -> Option<f64> {
    Some(libm::sqrt(output.target_watts? * output.load.to_f64()))
}

/// How much louder the second configuration plays than the first, in decibels, each at
/// its target power: for equal drivers close together, whose sound pressures add.
///
/// 10·log10 of the ratio of powers and 20·log10 of the ratio of Σ√share: pressure goes as
/// the root of power. Taken coil by coil: a driver's force is the sum over its coils of
/// what their currents give, so that a driver with one coil loaded more than another is
/// not counted as loud as one whose coils share alike. Where they do share alike this is
/// the same as driver by driver.
///
/// # Errors
/// [`WhyNot`].
///
/// # Example
/// ```
/// # use coilwright_solver::{answer::*, bounds::Field, rig::*};
/// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("4").ok(), ..Default::default() };
/// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
/// use coilwright_solver::level::{WhyNot, difference};
/// # let request = Request { rig: rig.clone(), joined_only: true, even_only: true, limit: 2 };
/// # let list = answer(request).configurations;
/// // Without an amplifier no power is known.
/// let found = difference((&rig, &list[0]), (&rig, &list[1]));
/// assert_eq!(found, Err(WhyNot::FirstUnknown));
/// ```
pub fn difference(
    first: (&Rig, &Configuration),
    second: (&Rig, &Configuration),
) -> Result<f64, WhyNot> {
    let mut groups = first.0.groups().iter().chain(second.0.groups());
    let Some(kind) = groups.next() else { return Err(WhyNot::UnlikeDrivers) };
    let like = (kind.coils, kind.unused, kind.ohms, kind.watts);
    if groups.any(|group| (group.coils, group.unused, group.ohms, group.watts) != like) {
        return Err(WhyNot::UnlikeDrivers);
    }
    let before = pressure(kind.ohms, first.1).ok_or(WhyNot::FirstUnknown)?;
    let after = pressure(kind.ohms, second.1).ok_or(WhyNot::SecondUnknown)?;
    Ok(20.0 * libm::log10(after / before))
}

/// What the coils' currents add up to, as roots of their watts.
fn pressure(ohms: Ohms, one: &Configuration) -> Option<f64> {
    let mut sum = 0.0;
    for output in &one.outputs {
        let power = output.target_watts?;
        let shares = output.network.shares_near(&|_| ohms.to_f64());
        sum += shares.iter().map(|(_, share)| libm::sqrt(share * power)).sum::<f64>();
    }
    (sum > 0.0).then_some(sum)
}
