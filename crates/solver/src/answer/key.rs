//! A configuration written as a key, read back.
//!
//! `1:(1a+1b)||(2a+2b)`: each output's channels, then its network in ASCII; outputs are
//! joined by `;`. Any equal way of writing is read, and comes back in the one canonical
//! writing, so a key never depends on the order or version of the listing.

use super::Request;
use super::allotment::most_outputs;
use super::arrange::{Hung, arrange};
use crate::listing::Stock;
use crate::network::{Coil, Network, canonical::canonical};
use crate::ohms::{Ohms, Ratio};
use crate::outputs::deals::Portion;
use crate::outputs::{Outlet, Outputs};
use crate::problem::{Code, Path, Problem, Stop};
use crate::rig::Rig;
use crate::short;

/// A configuration by its outputs.
#[derive(Clone, Debug, PartialEq)]
pub struct Key {
    /// Each output used and the network on it.
    pub outputs: Vec<(Outlet, Network)>,
}

impl Key {
    /// Reads a key for a rig.
    ///
    /// # Errors
    /// [`Code::UnknownConfiguration`] for text that cannot be read, an output or a way
    /// that the amplifier does not have, or networks that do not use every coil exactly
    /// once; [`Code::TooMuchWork`] for a network woven so that its one writing is hard to
    /// find.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::key::Key, bounds::Field, rig::{Draft, GroupDraft}};
    /// # let two = GroupDraft { count: Some(2), coils: Some(2), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// let key = Key::read(&rig, "(2b || 2a) + (1a ∥ 1b)").unwrap();
    /// assert_eq!(key.write(), "(1a||1b)+(2a||2b)");
    /// assert!(Key::read(&rig, "1a + 1b").is_err());
    /// ```
    pub fn read(rig: &Rig, text: &str) -> Result<Self, Problem> {
        let problem = |stop: Stop| stop.problem(Path::root().field("key"));
        // Longer than any writing of 32 coils: not worth reading.
        if text.len() > 2_000 {
            return Err(problem(Code::UnknownConfiguration.into()));
        }
        read(rig, text).map_err(problem)
    }

    /// The canonical writing.
    #[must_use]
    pub fn write(&self) -> String {
        let mut text = String::new();
        for (place, network) in &self.outputs {
            write(&mut text, &place.channels, network);
        }
        text
    }
}

/// Adds one output to a key.
pub(super) fn write(text: &mut String, channels: &[u32], network: &Network) {
    if !text.is_empty() {
        text.push(';');
    }
    for (at, number) in channels.iter().enumerate() {
        if at > 0 {
            text.push('+');
        }
        text.push_str(&number.to_string());
    }
    if !channels.is_empty() {
        text.push(':');
    }
    text.push_str(&network.ascii());
}

fn read(rig: &Rig, text: &str) -> Result<Key, Stop> {
    const UNKNOWN: Code = Code::UnknownConfiguration;
    let outputs = Outputs::of(rig.amplifier());
    let read = read_outputs(&outputs, text).ok_or(UNKNOWN)?;
    if !use_every_coil_once(rig, &read) {
        return Err(UNKNOWN.into());
    }
    let way = way_with(&outputs, rig, &read).ok_or(UNKNOWN)?;
    let portions = portions(rig, &read).ok_or(UNKNOWN)?;
    // The way's outputs take the networks of their kind as they come.
    let mut taken = vec![false; read.len()];
    let mut hung = Vec::new();
    for place in &way {
        for ((taken, (from, network)), portion) in taken.iter_mut().zip(&read).zip(&portions) {
            if !*taken && from.kind == place.kind {
                *taken = true;
                let local = local(rig, *portion, network).ok_or(UNKNOWN)?;
                let kinds: Vec<(u32, u32)> = Stock::of(rig, *portion).groups().collect();
                let network = canonical(&local, &kinds).ok_or(Code::TooMuchWork)?;
                hung.push(Hung { portion: *portion, network, load: Ohms::new(Ratio::ONE) });
                break;
            }
        }
    }
    let mut key = Key { outputs: Vec::new() };
    for (place, hung) in way.iter().zip(arrange(rig, &way, hung)?) {
        key.outputs.push((place.clone(), hung.network));
    }
    Ok(key)
}

/// Channel numbers joined by `+`, with or without spaces around each.
fn channel_list(text: &str) -> Option<Vec<u32>> {
    let mut channels = Vec::new();
    for number in text.split('+') {
        channels.push(number.trim().parse().ok()?);
    }
    short::insertion_sort(&mut channels, u32::cmp);
    Some(channels)
}

fn read_outputs(outputs: &Outputs, text: &str) -> Option<Vec<(Outlet, Network)>> {
    let mut read: Vec<(Outlet, Network)> = Vec::new();
    for part in text.split(';') {
        let (channels, network) = match part.find(':') {
            Some(end) => (channel_list(part.get(..end)?)?, part.get(end.checked_add(1)?..)?),
            None => (Vec::new(), part),
        };
        // No channel stands in two outputs.
        for (place, _) in &read {
            if place.channels.is_empty() || place.channels.iter().any(|n| channels.contains(n)) {
                return None;
            }
        }
        read.push((outputs.place(&channels)?.clone(), network.parse().ok()?));
    }
    Some(read)
}

/// The way with outputs of just the kinds that are read.
fn way_with(outputs: &Outputs, rig: &Rig, read: &[(Outlet, Network)]) -> Option<Vec<Outlet>> {
    for way in outputs.ways(most_outputs(rig, true)) {
        let of_kind = |kind| way.iter().filter(|place| place.kind == kind).count();
        let read_of = |kind| read.iter().filter(|(place, _)| place.kind == kind).count();
        if way.len() == read.len()
            && way.iter().all(|place| of_kind(place.kind) == read_of(place.kind))
        {
            return Some(way);
        }
    }
    None
}

/// What hangs on each output: whole drivers, and at most one dual-coil driver with a coil
/// on each of two outputs of one kind.
fn portions(rig: &Rig, read: &[(Outlet, Network)]) -> Option<Vec<Portion>> {
    let mut portions = vec![Portion::default(); read.len()];
    let mut driver = 0_u8;
    let mut split = false;
    for (number, group) in (0_u8..).zip(rig.groups()) {
        for _ in 0..group.count {
            // The first output that holds a coil of it, and the last.
            let mut on: Option<(usize, usize)> = None;
            let mut outputs = 0_u32;
            for (at, (_, network)) in read.iter().enumerate() {
                if network.coils().iter().any(|coil| coil.driver == driver) {
                    on = Some((on.map_or(at, |(first, _)| first), at));
                    outputs = outputs.saturating_add(1);
                }
            }
            let (first, last) = on?;
            if outputs == 1 {
                let portion = portions.get_mut(first)?;
                portion.counts = portion.counts.with(usize::from(number), 1);
            } else {
                let alike = read.get(first)?.0.kind == read.get(last)?.0.kind;
                if outputs > 2 || group.coils != 2 || split || !alike {
                    return None;
                }
                split = true;
                portions.get_mut(first)?.half = Some(number);
                portions.get_mut(last)?.half = Some(number);
            }
            driver = driver.saturating_add(1);
        }
    }
    Some(portions)
}

/// A network with its drivers numbered within the portion: whole drivers group by group,
/// then the one that is split.
fn local(rig: &Rig, portion: Portion, network: &Network) -> Option<Network> {
    let coils = network.coils();
    let mut drivers: Vec<u8> = Vec::new();
    let mut half = None;
    for driver in rig.driver_numbers() {
        let own = coils.iter().filter(|coil| coil.driver == driver).count();
        let group = rig.group_number_of(driver);
        if own == 1 && portion.half.is_some() && group == portion.half.map(usize::from) {
            half = Some(driver);
        } else if own > 0 {
            drivers.push(driver);
        }
    }
    drivers.extend(half);
    let mut all_there = true;
    let local = network.with_coils(&mut |coil| {
        let place = (0_u8..).zip(&drivers).find(|(_, driver)| **driver == coil.driver);
        all_there &= place.is_some();
        place.map_or(coil, |(driver, _)| Coil { driver, ..coil })
    });
    all_there.then_some(local)
}

fn use_every_coil_once(rig: &Rig, read: &[(Outlet, Network)]) -> bool {
    let mut left = rig.coils();
    let mut met: Vec<Coil> = Vec::new();
    for (_, network) in read {
        for coil in network.coils() {
            let coils = rig.group_of(coil.driver).map_or(0, |group| group.coils);
            if u32::from(coil.coil) >= coils || met.contains(&coil) {
                return false;
            }
            met.push(coil);
            left = left.saturating_sub(1);
        }
    }
    left == 0
}

impl Request {
    /// Reads a key for the rig asked about.
    ///
    /// # Errors
    /// As [`Key::read`].
    pub fn key(&self, text: &str) -> Result<Key, Problem> {
        Key::read(&self.rig, text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bounds::Field;
    use crate::network::Joint;
    use crate::rig::{Draft, GroupDraft};

    fn rig(groups: &[(u32, u32)]) -> Rig {
        let group = |(count, coils): &(u32, u32)| GroupDraft {
            count: Some(*count),
            coils: Some(*coils),
            ohms: Field::CoilOhms.ohms_text("4").ok(),
            ..GroupDraft::default()
        };
        let groups = groups.iter().map(group).collect();
        Draft { groups, amplifier: None }.check(Vec::new()).unwrap()
    }

    /// The golden table of canonical writing.
    #[test]
    fn equal_configurations_have_one_writing() {
        type Case = (&'static [(u32, u32)], &'static str, &'static str);
        let table: [Case; 14] = [
            (&[(1, 1)], "1a", "1a"),
            (&[(1, 2)], "1b+1a", "1a+1b"),
            (&[(2, 1)], "2a||1a", "1a||2a"),
            (&[(3, 1)], "(3a||1a)+2a", "1a+(2a||3a)"),
            (&[(2, 2)], "(2b+2a)||(1b+1a)", "(1a+1b)||(2a+2b)"),
            (&[(2, 2)], "(1a+2a)||(2b+1b)", "(1a+2a)||(1b+2b)"),
            (&[(2, 2)], "2a+(2b||(1a+1b))", "1a+(1b||(2a+2b))"),
            (&[(2, 2)], "1b||(2a+1a+2b)", "1a||(1b+2a+2b)"),
            (&[(2, 2)], "(2a||1b)+1a+2b", "1a+2a+(1b||2b)"),
            (&[(3, 2)], "(3a+2a)||(3b+1a)||(1b+2b)", "(1a+2a)||(1b+3a)||(2b+3b)"),
            (&[(1, 4)], "((1a||1d)+1c)||1b", "1a||(1b+(1c||1d))"),
            (&[(1, 1), (2, 1)], "(3a+1a)||2a", "2a||(1a+3a)"),
            (&[(1, 1), (1, 1)], "2a+1a", "1a+2a"),
            (
                &[(2, 2), (2, 2)],
                "(4a+4b)||(3a+3b)||(1a+1b)||(2b+2a)",
                "(1a+1b)||(2a+2b)||(3a+3b)||(4a+4b)",
            ),
        ];
        for (groups, written, canonical) in table {
            let rig = rig(groups);
            let key = Key::read(&rig, written).unwrap();
            assert_eq!(key.write(), canonical, "{written}");
            assert_eq!(Key::read(&rig, canonical).unwrap(), key, "{canonical} stays itself");
        }
    }

    /// Sixteen alike drivers have more orders than could ever be tried one by one.
    #[test]
    fn many_equal_parts_are_written_at_once() {
        let rig = rig(&[(16, 2)]);
        let pairs: Vec<String> = (1..=16).rev().map(|d| format!("({d}b+{d}a)")).collect();
        let written = Key::read(&rig, &pairs.join("||")).unwrap().write();
        let pairs: Vec<String> = (1..=16).map(|d| format!("({d}a+{d}b)")).collect();
        assert_eq!(written, pairs.join("||"));
        // A ring: each driver shares a pair with the next.
        let ring: Vec<String> = (1..=16).map(|d| format!("({d}a+{}b)", d % 16 + 1)).collect();
        let written = Key::read(&rig, &ring.join("||")).unwrap().write();
        assert!(written.starts_with("(1a+2a)||(1b+3a)||(2b+4a)||(3b+5a)"), "{written}");
    }

    /// Exchanging drivers, coils or the order of parts never changes the writing.
    #[test]
    fn exchanges_do_not_change_the_writing() {
        let mut turn = Turn(88_172_645_463_325_252);
        for drivers in 2..=8_u8 {
            let rig = rig(&[(u32::from(drivers), 2)]);
            let read = |n: &Network| Key::read(&rig, &n.ascii()).unwrap().write();
            for _ in 0..200 {
                let network = turn.network(drivers);
                let mut order: Vec<u8> = (0..drivers).collect();
                turn.shuffle(&mut order);
                let other = turn.exchanged(&network, &order);
                assert_eq!(read(&network), read(&other), "{network} and {other}");
            }
        }
    }

    /// A source of turns that repeats exactly.
    struct Turn(u64);

    impl Turn {
        fn below(&mut self, n: usize) -> usize {
            self.0 ^= self.0 << 13;
            self.0 ^= self.0 >> 7;
            self.0 ^= self.0 << 17;
            (self.0 >> 11) as usize % n
        }

        fn shuffle<T>(&mut self, list: &mut [T]) {
            for i in (1..list.len()).rev() {
                list.swap(i, self.below(i + 1));
            }
        }

        /// A network of dual-coil drivers, in equal parts as far as they go.
        fn network(&mut self, drivers: u8) -> Network {
            let both = |driver| [0, 1].map(|coil| Network::Coil(Coil { driver, coil }));
            let mut parts: Vec<Network> = (0..drivers).flat_map(both).collect();
            self.shuffle(&mut parts);
            let size = 2 + self.below(3);
            let mut joint = Joint::Series;
            while parts.len() > 1 {
                parts = parts.chunks(size).map(|c| Network::joined(joint, c.to_vec())).collect();
                joint = joint.other();
            }
            parts.remove(0)
        }

        fn exchanged(&mut self, network: &Network, order: &[u8]) -> Network {
            match network {
                Network::Coil(coil) => {
                    let driver = order[usize::from(coil.driver)];
                    Network::Coil(Coil { driver, coil: coil.coil ^ (driver & 1) })
                }
                Network::Node(joint, parts) => {
                    let mut parts: Vec<_> =
                        parts.iter().map(|part| self.exchanged(part, order)).collect();
                    self.shuffle(&mut parts);
                    Network::Node(*joint, parts)
                }
            }
        }
    }

    #[test]
    fn what_is_no_configuration_of_the_rig_is_refused() {
        let rig = rig(&[(2, 1)]);
        for text in ["", "1a", "1a+2a+1a", "1a+2b", "1a+3a", "1:1a+2a", "1a+2a;1a", "1a 2a"] {
            let problem = Key::read(&rig, text).unwrap_err();
            assert_eq!(problem.code, Code::UnknownConfiguration, "{text:?}");
        }
        assert!(Key::read(&rig, &"(".repeat(100_000)).is_err());
    }
}
