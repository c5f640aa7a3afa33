//! A configuration written as a key, read back.
//!
//! `1:(1a+1b)||(2a+2b)`: each output's channels, then its network in ASCII; outputs are
//! joined by `;`. Any equal way of writing is read, and comes back in the one canonical
//! writing, so a key never depends on the order or version of the listing.

use super::Request;
use super::arrange::{Hung, arrange, renumbered};
use super::plan::most_outputs;
use crate::listing::Stock;
use crate::network::{Coil, Network, canonical::canonical};
use crate::ohms::{Ohms, Ratio};
use crate::outputs::deals::Portion;
use crate::outputs::{Outputs, Place};
use crate::problem::{Code, Detail, Path, Problem};
use crate::rig::Rig;
use crate::short;

/// A configuration by its outputs.
#[derive(Clone, Debug, PartialEq)]
pub struct Key {
    /// Each output used and the network on it.
    pub outputs: Vec<(Place, Network)>,
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
        let problem = |code| Problem::new(Path::root().field("key"), code, Detail::None);
        let unknown = || problem(Code::UnknownConfiguration);
        // Longer than any writing of 32 coils: not worth reading.
        if text.len() > 2_000 {
            return Err(unknown());
        }
        let outputs = Outputs::of(rig.amplifier());
        let read = read_outputs(&outputs, text).ok_or_else(unknown)?;
        let networks: Vec<&Network> = read.iter().map(|(_, network)| network).collect();
        if !use_every_coil_once(rig, &networks) {
            return Err(unknown());
        }
        let kinds: Vec<usize> = read.iter().map(|(place, _)| place.kind).collect();
        let way = way_with(&outputs, rig, &kinds).ok_or_else(unknown)?;
        let portions = portions(rig, &networks, &kinds).ok_or_else(unknown)?;
        // The way's outputs take the networks of their kind as they come.
        let mut ahead: Vec<(usize, Hung)> = Vec::new();
        for ((kind, network), portion) in kinds.iter().zip(networks).zip(portions) {
            let local = local(rig, portion, network).ok_or_else(unknown)?;
            let of_kinds: Vec<(u32, u32)> = Stock::of(rig, portion).groups().collect();
            let network = canonical(&local, &of_kinds).ok_or_else(|| problem(Code::TooMuchWork))?;
            ahead.push((*kind, Hung { portion, network, load: Ohms::new(Ratio::ONE) }));
        }
        let mut hung = Vec::new();
        for place in &way {
            let at = ahead.iter().position(|(kind, _)| *kind == place.kind).ok_or_else(unknown)?;
            hung.push(ahead.remove(at).1);
        }
        let hung = arrange(rig, &way, hung);
        Ok(Self { outputs: way.into_iter().zip(hung.into_iter().map(|h| h.network)).collect() })
    }

    /// The canonical writing.
    #[must_use]
    pub fn write(&self) -> String {
        let outputs = self.outputs.iter().map(|(place, network)| write(&place.channels, network));
        outputs.collect::<Vec<_>>().join(";")
    }
}

/// One output of a key.
pub(super) fn write(channels: &[u32], network: &Network) -> String {
    let numbers: Vec<String> = channels.iter().map(u32::to_string).collect();
    let network = network.ascii();
    if numbers.is_empty() { network } else { format!("{}:{network}", numbers.join("+")) }
}

fn channel_list(text: &str) -> Option<Vec<u32>> {
    let numbers = text.split('+').map(|number| number.trim().parse().ok());
    let mut channels: Vec<u32> = numbers.collect::<Option<_>>()?;
    short::sort(&mut channels, u32::cmp);
    Some(channels)
}

fn read_outputs(outputs: &Outputs, text: &str) -> Option<Vec<(Place, Network)>> {
    let mut read = Vec::new();
    for part in text.split(';') {
        let (channels, network) = match part.split_once(':') {
            Some((channels, network)) => (channel_list(channels)?, network),
            None => (Vec::new(), part),
        };
        // No channel stands in two outputs.
        let shared = |(place, _): &(Place, Network)| {
            place.channels.is_empty() || place.channels.iter().any(|n| channels.contains(n))
        };
        if read.iter().any(shared) {
            return None;
        }
        read.push((outputs.place(&channels)?.clone(), network.parse().ok()?));
    }
    Some(read)
}

/// The way with outputs of just these kinds.
fn way_with(outputs: &Outputs, rig: &Rig, kinds: &[usize]) -> Option<Vec<Place>> {
    let sorted = |kinds: &mut dyn Iterator<Item = usize>| {
        let mut kinds: Vec<usize> = kinds.collect();
        short::sort(&mut kinds, usize::cmp);
        kinds
    };
    let wanted = sorted(&mut kinds.iter().copied());
    let ways = outputs.ways(most_outputs(rig, true));
    ways.into_iter().find(|way| sorted(&mut way.iter().map(|place| place.kind)) == wanted)
}

/// What hangs on each output: whole drivers, and at most one dual-coil driver with a coil
/// on each of two outputs of one kind.
fn portions(rig: &Rig, networks: &[&Network], kinds: &[usize]) -> Option<Vec<Portion>> {
    let mut portions = vec![Portion::default(); networks.len()];
    let mut first = 0_u8;
    let mut split = false;
    for (number, group) in (0_u8..).zip(rig.groups()) {
        let count = u8::try_from(group.count).ok()?;
        for driver in (first..).take(usize::from(count)) {
            let coils_on = |network: &&Network| {
                network.coils().iter().filter(|coil| coil.driver == driver).count()
            };
            let coils: Vec<usize> = networks.iter().map(coils_on).collect();
            let on: Vec<usize> = (0..coils.len()).filter(|at| coils.get(*at) > Some(&0)).collect();
            match on.as_slice() {
                [at] => {
                    let portion = portions.get_mut(*at)?;
                    portion.counts = portion.counts.with(usize::from(number), 1);
                }
                [a, b] if group.coils == 2 && !split && kinds.get(*a) == kinds.get(*b) => {
                    split = true;
                    portions.get_mut(*a)?.half = Some(number);
                    portions.get_mut(*b)?.half = Some(number);
                }
                _ => return None,
            }
        }
        first = first.saturating_add(count);
    }
    Some(portions)
}

/// A network with its drivers numbered within the portion: whole drivers group by group,
/// then the one that is split.
fn local(rig: &Rig, portion: Portion, network: &Network) -> Option<Network> {
    let mut drivers: Vec<u8> = network.coils().iter().map(|coil| coil.driver).collect();
    short::sort(&mut drivers, u8::cmp);
    drivers.dedup();
    if let Some(group) = portion.half {
        let is_half = |driver: &u8| {
            let coils = network.coils().iter().filter(|coil| coil.driver == *driver).count();
            coils == 1 && rig.group_number_of(*driver) == Some(usize::from(group))
        };
        let at = drivers.iter().position(is_half)?;
        let half = drivers.remove(at);
        drivers.push(half);
    }
    Some(renumbered(network, &|coil| {
        let place = drivers.iter().position(|driver| *driver == coil.driver)?;
        Some(Coil { driver: u8::try_from(place).ok()?, coil: coil.coil })
    }))
}

fn use_every_coil_once(rig: &Rig, networks: &[&Network]) -> bool {
    let mut coils: Vec<Coil> = networks.iter().flat_map(|network| network.coils()).collect();
    short::sort(&mut coils, Coil::cmp);
    let mut wanted = Vec::new();
    let mut driver = 0_u8;
    for group in rig.groups() {
        for _ in 0..group.count {
            let letters = (0_u8..).take(usize::try_from(group.coils).unwrap_or(0));
            wanted.extend(letters.map(|coil| Coil { driver, coil }));
            driver = driver.saturating_add(1);
        }
    }
    coils == wanted
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
