//! One output with one coil of it failed.

use super::{After, Failed, Fault, Hot};
use crate::answer::Output;
use crate::network::{Coil, Joint, Network};
use crate::ohms::Ohms;
use crate::rig::Rig;

/// An output whose coils fail one at a time.
pub(super) struct Broken<'a> {
    rig: &'a Rig,
    output: &'a Output,
    /// Each coil's power at one volt while all are well, in the order of writing.
    healthy: Vec<(Coil, f64)>,
    /// The same with the coil at hand failed.
    powers: Vec<(Coil, f64)>,
    /// The coil at hand and its ohms: none or without end.
    failed: Option<(Coil, f64)>,
    /// Whether that gives any other coil more power than it got.
    pub(super) raised: bool,
}

impl<'a> Broken<'a> {
    pub(super) fn new(rig: &'a Rig, output: &'a Output) -> Self {
        let mut this = Self {
            rig,
            output,
            healthy: Vec::new(),
            powers: Vec::new(),
            failed: None,
            raised: false,
        };
        let mut powers = Vec::new();
        this.spread(&output.network, 1.0, &mut powers);
        this.healthy = powers;
        this
    }

    fn ohms(&self, coil: Coil) -> Option<Ohms> {
        self.rig.group_of(coil.driver).map(|group| group.ohms)
    }

    /// The load with the coil at hand failed: no ohms for a dead short, endless ones for
    /// an output without current.
    pub(super) fn load(&self) -> f64 {
        self.near(&self.output.network)
    }

    /// A short has no ohms and an open endless ones; floats reckon with both as circuits do.
    fn near(&self, network: &Network) -> f64 {
        match network {
            Network::Coil(coil) => match self.failed {
                Some((failed, ohms)) if failed == *coil => ohms,
                _ => self.ohms(*coil).map_or(1.0, Ohms::to_f64),
            },
            Network::Node(Joint::Series, parts) => parts.iter().map(|part| self.near(part)).sum(),
            Network::Node(Joint::Parallel, parts) => {
                1.0 / parts.iter().map(|part| 1.0 / self.near(part)).sum::<f64>()
            }
        }
    }

    /// Each coil's power with so many volts across a network.
    fn spread(&self, network: &Network, volts: f64, powers: &mut Vec<(Coil, f64)>) {
        match network {
            Network::Coil(coil) => {
                let ohms = self.near(network);
                let passes = ohms > 0.0 && ohms < f64::INFINITY;
                powers.push((*coil, if passes { volts * volts / ohms } else { 0.0 }));
            }
            Network::Node(Joint::Parallel, parts) => {
                for part in parts {
                    self.spread(part, volts, powers);
                }
            }
            Network::Node(Joint::Series, parts) => {
                let load = self.near(network);
                // Without current no coil of the string has a voltage that drives any.
                let amperes = if load > 0.0 && load < f64::INFINITY { volts / load } else { 0.0 };
                for part in parts {
                    let volts = if amperes > 0.0 { amperes * self.near(part) } else { 0.0 };
                    self.spread(part, volts, powers);
                }
            }
        }
    }

    /// What a fault comes to, but for what needs exact fractions.
    pub(super) fn failed(&mut self, output: usize, coil: Coil, fault: Fault) -> Failed {
        let ohms = match fault {
            Fault::Open => f64::INFINITY,
            Fault::Shorted => 0.0,
        };
        self.failed = Some((coil, ohms));
        // A dead short takes the voltage down with it.
        let volts = if self.load() > 0.0 { 1.0 } else { 0.0 };
        let mut powers = core::mem::take(&mut self.powers);
        powers.clear();
        self.spread(&self.output.network, volts, &mut powers);
        let mut found = Failed {
            coil,
            output,
            after: After::NoFraction,
            verdict: None,
            hottest: None,
            silent: 0,
        };
        self.raised = false;
        for ((other, power), (_, before)) in powers.iter().zip(&self.healthy) {
            if *other == coil {
                continue;
            }
            if *power <= 0.0 {
                found.silent = found.silent.saturating_add(1);
                continue;
            }
            self.raised |= *power > before * (1.0 + super::ROUNDING);
            let hot = self.hot(*other, *power, *before);
            if found.hottest.is_none_or(|known| hot.times > known.times * (1.0 + super::ROUNDING)) {
                found.hottest = Some(hot);
            }
        }
        self.powers = powers;
        found
    }

    /// A surviving coil with its power at one volt, now and before.
    fn hot(&self, coil: Coil, power: f64, before: f64) -> Hot {
        let square = self.output.target_watts.map(|watts| watts * self.output.load.to_f64());
        let watts = square.map(|square| square * power);
        let rating = self.rig.group_of(coil.driver).and_then(|group| group.coil_watts());
        match watts.zip(rating) {
            Some((got, rating)) => Hot { coil, times: got / rating, of_rating: true, watts },
            None => Hot { coil, times: power / before, of_rating: false, watts },
        }
    }

    /// What the output carries afterwards, exactly.
    pub(super) fn exact(&self, coil: Coil, fault: Fault) -> After {
        self.after(&self.output.network, coil, fault)
    }

    fn after(&self, network: &Network, failed: Coil, fault: Fault) -> After {
        match network {
            Network::Coil(coil) if *coil == failed => match fault {
                Fault::Open => After::Open,
                Fault::Shorted => After::Short,
            },
            Network::Coil(coil) => self.ohms(*coil).map_or(After::NoFraction, After::Load),
            Network::Node(joint, parts) => {
                let parts = parts.iter().map(|part| self.after(part, failed, fault));
                parts.reduce(|a, b| joined(*joint, a, b)).unwrap_or(After::NoFraction)
            }
        }
    }
}

/// Two parts joined: an open ends a string, a short bridges what stands beside it, and
/// either leaves the other part alone where it does not.
fn joined(joint: Joint, a: After, b: After) -> After {
    let (ends, vanishes) = match joint {
        Joint::Series => (After::Open, After::Short),
        Joint::Parallel => (After::Short, After::Open),
    };
    match (a, b) {
        (one, _) | (_, one) if one == ends => ends,
        (one, other) | (other, one) if one == vanishes => other,
        (After::Load(a), After::Load(b)) => match joint {
            Joint::Series => a.series(b),
            Joint::Parallel => a.parallel(b),
        }
        .map_or(After::NoFraction, After::Load),
        _ => After::NoFraction,
    }
}
