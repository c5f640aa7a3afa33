//! The ways in which a fault may show.

use super::built::{Built, Differs, Posts};
use super::faults::Fault;
use super::otherwise::Other;
use crate::network::Coil;
use crate::wiring::{Post, Sign, Terminal};

/// One way in which a fault may show: as built, and what else it does to a reading.
#[derive(Clone, Debug)]
pub(super) struct Variant {
    pub(super) weight: f64,
    pub(super) built: Built,
    /// What the leads read, from least to most, where it is not as usual.
    pub(super) leads: Option<[f64; 2]>,
    /// The meter shows so many times what is there.
    pub(super) shows: f64,
    /// The standard deviation of the logarithm of what the fault leaves unsure: a joint's
    /// resistance, a coil's, the meter's factor.
    pub(super) spread: f64,
    /// What tells this way from the others: ohms, or a factor.
    pub(super) value: Option<f64>,
}

impl Fault {
    /// The ways in which it may show.
    pub(super) fn variants(&self, posts: &Posts<'_>, others: &[Other]) -> Vec<Variant> {
        let mut one = Variant {
            weight: 1.0,
            built: Built::sound(posts.plan),
            leads: None,
            shows: 1.0,
            spread: 0.0,
            value: None,
        };
        self.wires(&mut one.built);
        one.built.differs = self.differs(posts);
        let coils = |wanted: &dyn Fn(Coil, usize) -> bool, times: (u8, u8)| {
            let factor = f64::from(times.0) / f64::from(times.1);
            let of = posts.coils.iter().filter(|of| wanted(of.coil, of.group));
            of.map(|of| (of.coil, factor)).collect::<Vec<_>>()
        };
        match *self {
            Self::Otherwise(at) => {
                if let Some(other) = others.get(usize::from(at)) {
                    one.built =
                        Built { other: true, differs: Differs::Much, ..Built::sound(&other.plan) };
                }
            }
            Self::Extra { from, to } => one.built.touching = Some((from, to)),
            Self::Strand { post } => {
                let on = |sign| Terminal { post, sign };
                one.built.touching = Some((on(Sign::Plus), on(Sign::Minus)));
            }
            Self::Loose { run } => {
                // A joint may add anything from a third of an ohm to dozens.
                return over(&one, 0.25, [0.4, 0.8, 1.6, 3.2, 6.4, 12.8, 25.6], |one, ohms| {
                    one.built.loose = Some((usize::from(run), ohms));
                });
            }
            Self::Amplifier => {
                return over(&one, 0.6, [0.5, 2.0, 8.0, 32.0], |one, ohms| {
                    one.built.amplifier = Some(ohms);
                });
            }
            Self::Leads => one.leads = Some([0.6, 3.0]),
            Self::Meter => {
                return over(&one, 0.08, [0.7, 0.83, 1.2, 1.4], |one, factor| one.shows = factor);
            }
            Self::OtherDriver { driver, times } => {
                one.built.factors = coils(&|coil, _| coil.driver == driver, times);
            }
            Self::OtherGroup { group, times } => {
                one.built.factors = coils(&|_, of| of == usize::from(group), times);
            }
            Self::CoilOpen(coil) => one.built.open = Some(coil),
            Self::CoilShort(coil) => one.built.factors = vec![(coil, 0.02)],
            Self::Turns(coil) => {
                return over(&one, 0.1, [0.4, 0.55, 0.75], |one, factor| {
                    one.built.factors = vec![(coil, factor)];
                    one.built.unsure = Some(coil);
                });
            }
            _ => {}
        }
        vec![one]
    }

    fn differs(&self, posts: &Posts<'_>) -> Differs {
        match *self {
            Self::Missing { run }
            | Self::Capacitor { run }
            | Self::Loose { run }
            | Self::WrongEnd { run, .. } => {
                let run = usize::from(run);
                let of = posts.plan.runs.get(run);
                let ends = of.into_iter().flat_map(|run| [run.from.post, run.to.post]);
                // What is held together or read at the amplifier depends on its runs.
                if ends.into_iter().any(|post| matches!(post, Post::Amplifier { .. })) {
                    Differs::Much
                } else {
                    Differs::Run(run)
                }
            }
            Self::Otherwise(_)
            | Self::Crossed { .. }
            | Self::Amplifier
            | Self::OtherGroup { .. } => Differs::Much,
            _ => Differs::Nothing,
        }
    }
}

/// The same for several values, each with a spread of its own.
fn over<const N: usize>(
    one: &Variant,
    spread: f64,
    values: [f64; N],
    set: impl Fn(&mut Variant, f64),
) -> Vec<Variant> {
    let mut all = Vec::with_capacity(N);
    for value in values {
        let weight = 1.0 / f64::from(u8::try_from(N).unwrap_or(1));
        let mut next = Variant { spread, weight, value: Some(value), ..one.clone() };
        set(&mut next, value);
        all.push(next);
    }
    all
}
