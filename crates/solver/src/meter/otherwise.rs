//! Other joinings of the same coils that somebody may have made instead of the planned
//! one: series for parallel at one node, in one driver or in all, and the plain ways of
//! joining like drivers.

use super::job::Job;
use crate::answer::Configuration;
use crate::network::{Coil, Joint, Network};
use crate::rig::{Build, Rig};
use crate::wiring::Plan;

/// At most so many: what is above has hardly a reading of its own.
const MOST: usize = 24;
/// With at most so many coils any two of different drivers may have been exchanged.
const EXCHANGED: usize = 8;

/// Another network of the same coils on one output, wired in the same box.
#[derive(Clone, Debug, PartialEq)]
pub struct Other {
    /// The output, counted from 0.
    pub output: u8,
    /// The network on it.
    pub network: Network,
    /// How all is wired then; its currents are those of the plan.
    pub plan: Plan,
    /// Its part among the others.
    pub(super) weight: f64,
}

/// What may have been made instead, planned one by one.
#[derive(Debug)]
pub(super) struct Joining {
    build: Build,
    configuration: Configuration,
    /// Networks that are still to be planned, the next one last: the output of each, and
    /// its part among the others.
    left: Vec<(u8, Network, f64)>,
    found: Vec<Other>,
}

impl Joining {
    pub(super) fn of(build: &Build, configuration: &Configuration) -> Self {
        let mut left: Vec<(u8, Network, f64)> = Vec::new();
        for (number, output) in (0_u8..).zip(&configuration.outputs) {
            let own = in_order(&output.network);
            let mut known = vec![own];
            for (network, weight) in turned(&output.network) {
                // Whoever joins parts otherwise leaves them where they stand.
                let ordered = in_order(&network);
                if !known.contains(&ordered) {
                    known.push(ordered);
                    left.push((number, network, weight));
                }
            }
        }
        left.reverse();
        let (build, configuration) = (build.clone(), configuration.clone());
        Self { build, configuration, left, found: Vec::new() }
    }

    /// Plans the next one; `false` once there is none.
    pub(super) fn step(&mut self, rig: &Rig) -> bool {
        let Some((output, network, weight)) = self.left.pop() else { return false };
        let mut changed = self.configuration.clone();
        if let Some(output) = changed.outputs.get_mut(usize::from(output)) {
            output.network = network.clone();
        }
        if let Ok(plan) = Plan::of(rig, &self.build, &changed) {
            self.found.push(Other { output, network, plan, weight });
        }
        self.found.len() < MOST.saturating_add(EXCHANGED.saturating_mul(EXCHANGED) / 2)
    }

    pub(super) fn found(self) -> Vec<Other> {
        self.found
    }
}

/// Everything that the coils of a plan may have been joined to instead, as
/// [`super::Fault::Otherwise`] numbers it.
#[must_use]
pub fn others(job: &Job<'_>) -> Vec<Other> {
    let mut joining = Joining::of(job.build, job.configuration);
    while joining.step(job.rig) {}
    joining.found()
}

/// A network with its parts in the order of the column.
fn in_order(network: &Network) -> Network {
    let Network::Node(joint, parts) = network else { return network.clone() };
    let mut parts: Vec<Network> = parts.iter().map(in_order).collect();
    let first = |part: &Network| part.coils().into_iter().min();
    crate::short::insertion_sort(&mut parts, |a, b| first(a).cmp(&first(b)));
    Network::Node(*joint, parts)
}

/// Networks of the same coils, with parts: one thing turned is likelier than many.
fn turned(network: &Network) -> Vec<(Network, f64)> {
    let mut all = Vec::new();
    let mut drivers: Vec<u8> = network.coils().into_iter().map(|coil| coil.driver).collect();
    crate::short::insertion_sort(&mut drivers, u8::cmp);
    drivers.dedup();
    // Everything joined the other way, then drivers to each other, then each driver.
    all.push((between_drivers(network), 4.0));
    let mut each = network.clone();
    for driver in &drivers {
        each = in_driver(&each, *driver);
    }
    all.push((each.clone(), 2.0));
    all.push((between_drivers(&each), 1.0));
    for driver in &drivers {
        all.push((in_driver(network, *driver), 1.0));
    }
    nodes(network, &|whole| whole, &mut all);
    plain(network, &drivers, &mut all);
    all.truncate(MOST);
    exchanged(network, &mut all);
    all
}

/// Two coils of different drivers, each in the other's place.
fn exchanged(network: &Network, all: &mut Vec<(Network, f64)>) {
    let coils = network.coils();
    if coils.len() > EXCHANGED {
        return;
    }
    for (at, one) in coils.iter().enumerate() {
        for other in coils.iter().skip(at).filter(|other| other.driver != one.driver) {
            let mut change = |coil: Coil| match coil {
                coil if coil == *one => *other,
                coil if coil == *other => *one,
                coil => coil,
            };
            all.push((network.with_coils(&mut change), 0.5));
        }
    }
}

/// A network whose uppermost node of several drivers is joined the other way, the
/// drivers' own coils as they were.
fn between_drivers(network: &Network) -> Network {
    let Network::Node(joint, parts) = network else { return network.clone() };
    let mut blocks: Vec<(Option<u8>, Vec<Network>)> = Vec::new();
    for part in parts {
        let driver = only_driver(part);
        match blocks.iter_mut().find(|(of, _)| driver.is_some() && *of == driver) {
            Some((_, block)) => block.push(part.clone()),
            None => blocks.push((driver, vec![part.clone()])),
        }
    }
    let blocks = blocks.into_iter().map(|(_, parts)| Network::joined(*joint, parts)).collect();
    Network::joined(joint.other(), blocks)
}

fn only_driver(network: &Network) -> Option<u8> {
    let coils = network.coils();
    let first = coils.first()?.driver;
    coils.iter().all(|coil| coil.driver == first).then_some(first)
}

/// A network in which the coils of one driver, where they are parts of one node, are
/// joined to each other the other way.
fn in_driver(network: &Network, driver: u8) -> Network {
    let Network::Node(joint, parts) = network else { return network.clone() };
    let of = |part: &Network| only_driver(part) == Some(driver);
    let own: Vec<Network> = parts.iter().filter(|part| of(part)).cloned().collect();
    if own.len() > 1 {
        let block = Network::joined(joint.other(), own);
        let mut rest: Vec<Network> = parts.iter().filter(|part| !of(part)).cloned().collect();
        rest.push(block);
        return Network::joined(*joint, rest);
    }
    let parts = parts.iter().map(|part| in_driver(part, driver)).collect();
    Network::joined(*joint, parts)
}

/// Every single node joined the other way.
fn nodes(network: &Network, place: &dyn Fn(Network) -> Network, all: &mut Vec<(Network, f64)>) {
    let Network::Node(joint, parts) = network else { return };
    all.push((place(Network::joined(joint.other(), parts.clone())), 1.0));
    for (at, part) in parts.iter().enumerate() {
        let inside = |changed: Network| {
            let parts = parts
                .iter()
                .enumerate()
                .map(|(one, part)| if one == at { changed.clone() } else { part.clone() });
            place(Network::joined(*joint, parts.collect()))
        };
        nodes(part, &inside, all);
    }
}

/// The plain ways of joining drivers: in rows of so many, each driver's own coils in
/// series or in parallel.
fn plain(network: &Network, drivers: &[u8], all: &mut Vec<(Network, f64)>) {
    let coils = network.coils();
    for inside in [Joint::Parallel, Joint::Series] {
        let block = |driver: &u8| {
            let own = |coil: &&Coil| coil.driver == *driver;
            let own = coils.iter().filter(own).map(|coil| Network::Coil(*coil)).collect();
            Network::joined(inside, own)
        };
        for row in 1..=drivers.len() {
            if drivers.len().checked_rem(row) != Some(0) {
                continue;
            }
            for joint in [Joint::Series, Joint::Parallel] {
                let rows = drivers
                    .chunks(row)
                    .map(|row| Network::joined(joint, row.iter().map(block).collect()));
                all.push((Network::joined(joint.other(), rows.collect()), 0.3));
            }
        }
    }
}
