//! What a meter should read at the check points of a plan.
//!
//! A reading is what the leads read with their probes touching, and the direct-current
//! resistance between the probes. The resistance of a coil follows from its nominal
//! impedance: makers choose the one for the other. Coils that were measured tell it
//! themselves.

use crate::given::ohms;
use crate::network::Coil;
use crate::rig::Rig;
use crate::wiring::circuit::Circuit;
use crate::wiring::{Check, Post, Run, Sign, Stage, Step, Terminal};

/// Direct-current resistance of a sound coil over its nominal impedance, from least to
/// most (common practice, no source).
pub const OF_NOMINAL: [f64; 2] = [0.7, 1.05];
/// Of a coil that was measured over what was read, from least to most: a meter is off by
/// a few counts, and copper by 0.39 % for each kelvin (common practice, no source).
pub const OF_MEASURED: [f64; 2] = [0.96, 1.04];
/// What leads and probes add in ohms, from least to most, before they are read touching
/// (common practice, no source).
pub const LEADS: [f64; 2] = [0.0, 0.5];

/// What should be read at a check point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foretold {
    /// Between the probes by nominal impedances, without leads, in ohms.
    pub nominal: f64,
    /// What is likely read, leads included, in ohms.
    pub expected: f64,
    /// The least that a sound rig reads, in ohms.
    pub low: f64,
    /// The most, in ohms.
    pub high: f64,
}

/// What is read at each step that takes a reading; `None` at the others, and where the
/// probes have nothing between them.
#[must_use]
pub(crate) fn foretell(rig: &Rig, runs: &[Run], steps: &[Step]) -> Vec<Option<Foretold>> {
    let mut placed: Vec<&Run> = Vec::new();
    let mut foretold = Vec::with_capacity(steps.len());
    for step in steps {
        match step {
            Step::Join { .. } | Step::Lay { .. } => {
                placed.extend(step.run().and_then(|run| runs.get(run)));
            }
            _ => {}
        }
        foretold.push(match step {
            Step::Leads => {
                let [low, high] = LEADS;
                Some(Foretold { nominal: 0.0, expected: (low + high) / 2.0, low, high })
            }
            Step::Check(check) => at(rig, &placed, check),
            _ => None,
        });
    }
    foretold
}

fn at(rig: &Rig, placed: &[&Run], check: &Check) -> Option<Foretold> {
    let joined: Vec<&Run> = placed.iter().copied().filter(|run| counts(run, check)).collect();
    let one =
        |terminal| *reached(&[terminal], &joined, check, false).iter().min().unwrap_or(&terminal);
    let [plus, minus] = [check.plus, check.minus].map(one);
    let coils: Vec<(Coil, [Terminal; 2])> =
        reached(&[check.plus, check.minus], &joined, check, true)
            .into_iter()
            .filter_map(|terminal| match (terminal.post, terminal.sign) {
                (Post::Coil(coil), Sign::Plus) => Some((coil, ends(coil).map(one))),
                _ => None,
            })
            .collect();
    let between = |ohms: &dyn Fn(Coil) -> f64| {
        let mut circuit = Circuit::default();
        for (coil, [plus, minus]) in &coils {
            circuit.join(*plus, *minus, 1.0 / ohms(*coil));
        }
        circuit.resistance(plus, minus)
    };
    let nominal = between(&|coil| ohms(rig, coil))?;
    let scaled = |place: usize| {
        between(&|coil| {
            let of = |range: &[f64; 2]| range.get(place).copied().unwrap_or(1.0);
            match measured(rig, coil) {
                Some(ohms) => ohms * of(&OF_MEASURED),
                None => ohms(rig, coil) * of(&OF_NOMINAL),
            }
        })
    };
    let [least, most] = LEADS;
    let (low, high) = (scaled(0)?, scaled(1)?);
    Some(Foretold {
        nominal,
        expected: (low + high + least + most) / 2.0,
        low: low + least,
        high: high + most,
    })
}

/// Whether a run that is placed can carry the current of a reading. Of the cables, whose
/// ends at the amplifier hang free, only those that the probes are on.
fn counts(run: &Run, check: &Check) -> bool {
    if run.stage != Stage::Cable {
        return true;
    }
    check.stage == Stage::Cable
        && [check.plus, check.minus].iter().any(|probe| match (probe.post, run.from.post) {
            (Post::Amplifier { output, pair }, Post::Amplifier { output: on, pair: at }) => {
                output == on && (pair == at || check.tied) && probe.sign == run.from.sign
            }
            _ => false,
        })
}

/// The terminals that wire leads to from some, and through coils as well where asked:
/// both sides of a cup are one, as are tied pairs that are held together.
fn reached(from: &[Terminal], joined: &[&Run], check: &Check, coils: bool) -> Vec<Terminal> {
    let mut reached: Vec<Terminal> = Vec::new();
    let mut front = from.to_vec();
    while let Some(at) = front.pop() {
        if reached.contains(&at) {
            continue;
        }
        reached.push(at);
        match at.post {
            Post::CupInside(cup) => front.push(Terminal { post: Post::CupOutside(cup), ..at }),
            Post::CupOutside(cup) => front.push(Terminal { post: Post::CupInside(cup), ..at }),
            Post::Amplifier { output, .. } if check.tied => {
                for pair in 0..2 {
                    front.push(Terminal { post: Post::Amplifier { output, pair }, ..at });
                }
            }
            Post::Coil(coil) if coils => front.extend(ends(coil)),
            _ => {}
        }
        for run in joined {
            if run.from == at {
                front.push(run.to);
            } else if run.to == at {
                front.push(run.from);
            }
        }
    }
    reached
}

fn ends(coil: Coil) -> [Terminal; 2] {
    [Sign::Plus, Sign::Minus].map(|sign| Terminal { post: Post::Coil(coil), sign })
}

/// What a coil was measured to have.
fn measured(rig: &Rig, coil: Coil) -> Option<f64> {
    let number = rig.group_number_of(coil.driver)?;
    let group = rig.groups().get(number)?;
    let before: u32 = rig.groups().iter().take(number).map(|group| group.count).sum();
    let driver = u32::from(coil.driver).checked_sub(before)?;
    let place = driver.checked_mul(group.coils_on_each())?.checked_add(coil.coil.into())?;
    group.dc_ohms.as_ref()?.get(usize::try_from(place).ok()?).copied()
}

/// What a meter showed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reading {
    /// So many ohms.
    Ohms {
        /// The figure.
        ohms: f64,
        /// One count of its last place.
        count: f64,
    },
    /// More than it can show: nothing is joined.
    Open,
}

/// Whether a reading is right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Agreement {
    /// It is what a sound rig reads.
    Right,
    /// It is lower than any sound rig reads.
    TooLow,
    /// It is higher than any sound rig reads.
    TooHigh,
    /// Nothing is joined where something should be.
    Open,
    /// At so few ohms nothing can be said before the leads are read.
    LeadsFirst,
}

/// Below so many ohms leads may hide what is wrong.
pub(crate) const LEADS_DECIDE: f64 = 1.5;
/// How well leads that were read are known, in ohms.
pub(crate) const LEADS_READ: f64 = 0.05;
/// A meter is off by a part of what it shows and by so many counts (common practice, no
/// source).
pub(crate) const METER: (f64, f64) = (0.01, 2.0);

impl Foretold {
    /// Whether a reading is right, with what the leads read where that is known.
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::meter::{Agreement, Foretold, Reading};
    /// let pair = Foretold { nominal: 1.0, expected: 1.1, low: 0.7, high: 1.6 };
    /// let read = |ohms| Reading::Ohms { ohms, count: 0.1 };
    /// assert_eq!(pair.judge(read(1.1), Some(0.2)), Agreement::Right);
    /// assert_eq!(pair.judge(read(2.1), Some(0.2)), Agreement::TooHigh);
    /// assert_eq!(pair.judge(read(2.1), None), Agreement::LeadsFirst);
    /// ```
    #[must_use]
    pub fn judge(&self, reading: Reading, leads: Option<f64>) -> Agreement {
        let Reading::Ohms { ohms, count } = reading else { return Agreement::Open };
        let (low, high) = self.with_leads(leads);
        if leads.is_none() && self.nominal > 0.0 && self.expected < LEADS_DECIDE {
            return Agreement::LeadsFirst;
        }
        let off = ohms * METER.0 + count * METER.1;
        if ohms + off < low {
            Agreement::TooLow
        } else if ohms - off > high {
            Agreement::TooHigh
        } else {
            Agreement::Right
        }
    }

    /// From the least to the most that is right, with what the leads read where that is
    /// known.
    #[must_use]
    pub fn with_leads(&self, leads: Option<f64>) -> (f64, f64) {
        let [least, most] = LEADS;
        match leads.filter(|_| self.nominal > 0.0) {
            Some(leads) => {
                (self.low - least + leads - LEADS_READ, self.high - most + leads + LEADS_READ)
            }
            None => (self.low, self.high),
        }
    }
}
