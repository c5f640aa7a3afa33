//! Drivers, loads and channels in words.

use super::{MARKS, listed};
use coilwright_solver::answer::Way;
use coilwright_solver::network::Coil;
use coilwright_solver::ohms::Ohms;
use coilwright_solver::rig::Rig;

/// A load: `4 Ω`, `0.5 Ω`, `4/3 Ω ≈ 1.33 Ω`.
///
/// A decimal where that is exact and short, else the fraction and its nearest
/// decimal; a fraction too long to be of use is left out.
///
/// # Example
/// ```
/// use coilwright_solver::ohms::{Ohms, Ratio};
/// use coilwright_words::english::rig::load;
/// assert_eq!(load(Ohms::new(Ratio::new(4, 3).unwrap())), "4/3 Ω ≈ 1.33 Ω");
/// ```
#[must_use]
pub fn load(load: Ohms) -> String {
    const LONGEST: u128 = 99_999;
    let ratio = load.ratio();
    if let Some(text) = MARKS.exact(ratio) {
        return format!("{text} Ω");
    }
    let near = MARKS.short(ratio.to_f64());
    if ratio.numerator() > LONGEST || ratio.denominator() > LONGEST {
        return format!("≈ {near} Ω");
    }
    format!("{ratio} Ω ≈ {near} Ω")
}

/// A load at its shortest, for an axis or a rung: `1.33 Ω`.
///
/// # Example
/// ```
/// use coilwright_solver::ohms::{Ohms, Ratio};
/// use coilwright_words::english::rig::short_load;
/// assert_eq!(short_load(Ohms::new(Ratio::new(4, 3).unwrap())), "1.33 Ω");
/// ```
#[must_use]
pub fn short_load(load: Ohms) -> String {
    format!("{} Ω", MARKS.short(load.to_f64()))
}

/// A number at a tick of the axis, from a fraction: `0.25`, `4`.
#[must_use]
pub fn tick(over: u32, under: u32) -> String {
    MARKS.short(f64::from(over) / f64::from(under))
}

/// What one driver of a group can be alone: the loads that its coils make.
///
/// # Example
/// ```
/// use coilwright_solver::ohms::{Ohms, Ratio};
/// use coilwright_words::english::rig::one_driver;
/// let ohms = |n| Ohms::new(Ratio::whole(n).unwrap());
/// assert_eq!(one_driver(&[ohms(2), ohms(8)]), "one such driver can be 2 Ω or 8 Ω");
/// assert_eq!(one_driver(&[ohms(4)]), "one such driver is 4 Ω");
/// ```
#[must_use]
pub fn one_driver(loads: &[Ohms]) -> String {
    let loads: Vec<String> = loads.iter().map(|of| load(*of)).collect();
    match loads.as_slice() {
        [] => String::new(),
        [only] => format!("one such driver is {only}"),
        several => format!("one such driver can be {}", listed(several, "or")),
    }
}

/// Coils on one driver as the trade says it.
///
/// # Example
/// ```
/// use coilwright_words::english::rig::coils;
/// assert_eq!(coils(2), "dual voice coil");
/// ```
#[must_use]
pub const fn coils(coils: u32) -> &'static str {
    match coils {
        1 => "single voice coil",
        2 => "dual voice coil",
        _ => "quad voice coil",
    }
}

/// The heading of a group by its drivers: `Driver 1`, `Drivers 1 and 2`, `Drivers 3 to 6`.
///
/// # Example
/// ```
/// use coilwright_words::english::rig::numbered;
/// assert_eq!(numbered(Some((3, 6)), 2), "Drivers 3 to 6");
/// assert_eq!(numbered(None, 2), "Driver group 2");
/// ```
#[must_use]
pub fn numbered(drivers: Option<(u32, u32)>, group: usize) -> String {
    match drivers {
        Some((first, last)) if first == last => format!("Driver {first}"),
        Some((first, last)) if first + 1 == last => format!("Drivers {first} and {last}"),
        Some((first, last)) => format!("Drivers {first} to {last}"),
        None => format!("Driver group {group}"),
    }
}

/// The same in short, and the choices of how many there are.
#[must_use]
pub const fn version(coils: u32) -> &'static str {
    match coils {
        1 => "single",
        2 => "dual",
        _ => "quad",
    }
}

/// A rig in a line: `3 × dual 4 Ω, 400 W each; least load 1 Ω`.
#[must_use]
pub fn summary(rig: &Rig) -> String {
    let mut text = String::new();
    for group in rig.groups() {
        if !text.is_empty() {
            text.push_str("; ");
        }
        let version = version(group.coils_on_each());
        text.push_str(&format!("{} × {version} {}", group.count, short_load(group.ohms)));
        if let Some(watts) = group.watts {
            text.push_str(&format!(", {} each", super::watts(watts.to_f64())));
        }
    }
    let least = rig.amplifier().and_then(|amplifier| amplifier.channels.first()?.least);
    if let Some(least) = least {
        text.push_str("; least load ");
        text.push_str(&short_load(least));
    }
    text
}

/// A number of drivers: `1 driver`, `3 drivers`.
#[must_use]
pub fn drivers(drivers: u32) -> String {
    super::counts::counted(u128::from(drivers), "driver", "drivers")
}

/// The channels an output uses: `channel 1`, `channels 1 and 2 bridged`; nothing
/// without an amplifier.
///
/// # Example
/// ```
/// use coilwright_solver::answer::Way;
/// use coilwright_words::english::rig::channels;
/// assert_eq!(channels(Some(Way::Apart), &[1]), "channel 1");
/// assert_eq!(channels(Some(Way::Bridged), &[1, 2]), "channels 1 and 2 bridged");
/// assert_eq!(channels(None, &[]), "");
/// ```
#[must_use]
pub fn channels(way: Option<Way>, channels: &[u32]) -> String {
    let Some(way) = way else {
        return String::new();
    };
    let numbers = numbers(channels);
    let text = listed(&numbers, "and");
    let s = if numbers.len() > 1 { "s" } else { "" };
    match way {
        Way::Apart => format!("channel{s} {text}"),
        Way::Bridged => format!("channel{s} {text} bridged"),
    }
}

/// A coil by its written name: `coil 1a`; for a driver with one coil `driver 1`.
#[must_use]
pub fn coil(coil: Coil, coils_on_driver: u32) -> String {
    if coils_on_driver == 1 {
        return driver(coil.driver);
    }
    format!("coil {coil}")
}

/// A driver, counted from 0 in code and from 1 in writing: `driver 1`.
#[must_use]
pub fn driver(driver: u8) -> String {
    format!("driver {}", u16::from(driver) + 1)
}

/// Numbers as texts.
pub(super) fn numbers(list: &[u32]) -> Vec<String> {
    let mut texts = Vec::new();
    for number in list {
        texts.push(number.to_string());
    }
    texts
}

#[cfg(test)]
mod tests {
    use super::*;
    use coilwright_solver::ohms::Ratio;

    #[test]
    fn loads_are_decimals_where_exact_and_fractions_where_not() {
        let cases = [
            ((4, 1), "4 Ω"),
            ((1, 2), "0.5 Ω"),
            ((5, 4), "1.25 Ω"),
            ((1, 8), "0.125 Ω"),
            ((4, 3), "4/3 Ω ≈ 1.33 Ω"),
            ((1, 3), "1/3 Ω ≈ 0.333 Ω"),
            ((97, 19), "97/19 Ω ≈ 5.11 Ω"),
            ((9, 8), "9/8 Ω ≈ 1.13 Ω"),
            ((1_000_003, 300_001), "≈ 3.33 Ω"),
            ((16_000, 1), "16,000 Ω"),
        ];
        for ((num, den), want) in cases {
            let ohms = Ohms::new(Ratio::new(num, den).unwrap());
            assert_eq!(load(ohms), want);
        }
    }

    #[test]
    fn quad_coils_can_be_three_loads_and_more() {
        let loads = [1, 4, 16].map(|n| Ohms::new(Ratio::whole(n).unwrap()));
        assert_eq!(one_driver(&loads), "one such driver can be 1 Ω, 4 Ω or 16 Ω");
    }

    #[test]
    fn coils_and_drivers_count_from_one() {
        let second = Coil { driver: 1, coil: 1 };
        assert_eq!(coil(second, 2), "coil 2b");
        assert_eq!(coil(Coil { driver: 1, coil: 0 }, 1), "driver 2");
        assert_eq!(drivers(1), "1 driver");
        assert_eq!(drivers(2), "2 drivers");
    }
}
