//! The ways in which a fault may show.

use super::built::{Built, Differs, Posts, Touching, Unsure};
use super::faults::Fault;
use super::model::LIKELY_OF_NOMINAL;
use super::otherwise::Other;
use super::points;
use crate::count::tally;
use crate::given;
use crate::network::Coil;
use crate::short;
use crate::wiring::{Plan, Post, Sign, Terminal};

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
    /// Of exchanged cables: which conductors are, where it is not both.
    pub(super) only: Option<Sign>,
}

/// How far the direct-current resistance of another driver may be from the likely one of its
/// label, and of the other version of the same driver from its own (common practice, no
/// source).
const OF_KINDS: [f64; 2] = [0.115, 0.03];

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
            only: None,
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
            Self::Extra { from, to } => {
                return touching(&one, [from, to], &came_with_driver(posts.plan, [from, to]));
            }
            Self::Strand { a, b } => {
                return touching(&one, [a, b], &came_with_wire(posts.plan, [a, b]));
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
                let of = coils(&|coil, _| coil.driver == driver, times);
                return of_kinds(posts, &one, &of, Unsure::Driver(driver));
            }
            Self::OtherGroup { group, times } => {
                let group = usize::from(group);
                let of = coils(&|_, of| of == group, times);
                return of_kinds(posts, &one, &of, Unsure::Group(group));
            }
            Self::Crossed { a, b } => return crossed(posts.plan, &one, a, b),
            Self::CoilOpen(coil) => one.built.open = Some(coil),
            Self::CoilShort(coil) => one.built.factors = vec![(coil, 0.02)],
            Self::Turns(coil) => {
                return over(&one, 0.1, [0.33, 0.45, 0.6, 0.77], |one, factor| {
                    one.built.factors = vec![(coil, factor)];
                    one.built.unsure = Unsure::Coil(coil);
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

/// Both conductors of two cables exchanged, which is what the wires of `one` are, or one of
/// each.
fn crossed(plan: &Plan, one: &Variant, a: u16, b: u16) -> Vec<Variant> {
    let post = |run: u16| plan.runs.get(usize::from(run)).map(|run| run.from.post);
    let alone = |sign: Sign| {
        let mut built = one.built.clone();
        for (wire, run) in built.wires.iter_mut().zip(&plan.runs) {
            let own = if run.from.sign == sign { wire.from } else { run.from };
            wire.from = own;
        }
        Variant { weight: 0.25, built, only: Some(sign), ..one.clone() }
    };
    let both = Variant { weight: 0.5, ..one.clone() };
    // Of two cables to one pair of terminals nothing is exchanged.
    if post(a) == post(b) {
        return vec![both];
    }
    vec![both, alone(Sign::Plus), alone(Sign::Minus)]
}

/// Other coils than stated, of another driver altogether and of another version of the same.
fn of_kinds(
    posts: &Posts<'_>,
    one: &Variant,
    coils: &[(Coil, f64)],
    unsure: Unsure,
) -> Vec<Variant> {
    let [any, own] = OF_KINDS;
    let likely = |(coil, times): &(Coil, f64)| {
        let of = posts.coils.iter().find(|winding| winding.coil == *coil);
        let likely = LIKELY_OF_NOMINAL * given::ohms(posts.rig, *coil);
        (*coil, of.map_or(1.0, |of| times * likely / of.ohms))
    };
    let way = |factors: Vec<(Coil, f64)>, spread: f64| Variant {
        weight: 0.5,
        built: Built { factors, unsure, ..one.built.clone() },
        spread,
        ..one.clone()
    };
    vec![way(coils.iter().map(likely).collect(), any), way(coils.to_vec(), own)]
}

/// When what touches came: the terminal whose wire it is of, and the first act at which
/// it is there.
type Came = (Option<Terminal>, u16);

/// A wire too many comes with some run at a driver of its ends.
fn came_with_driver(plan: &Plan, ends: [Terminal; 2]) -> Vec<Came> {
    let of = ends.map(|end| end.post.driver());
    let mut steps: Vec<u16> = Vec::new();
    for (number, run) in plan.runs.iter().enumerate() {
        let mut own = [run.from, run.to].into_iter().filter_map(|end| end.post.driver());
        if own.any(|driver| of.contains(&Some(driver))) {
            steps.extend(points::there(plan, number));
        }
    }
    short::insertion_sort(&mut steps, u16::cmp);
    steps.dedup();
    steps.into_iter().map(|step| (None, step)).collect()
}

/// A strand comes with the wire that it is of.
fn came_with_wire(plan: &Plan, ends: [Terminal; 2]) -> Vec<Came> {
    let there = |terminal: Terminal| {
        let on = move |end: Terminal| end.sign == terminal.sign && same(end.post, terminal.post);
        let runs = plan.runs.iter().enumerate();
        let runs = runs.filter(move |(_, run)| on(run.from) || on(run.to));
        runs.filter_map(|(number, _)| points::there(plan, number))
    };
    let mut all: Vec<Came> = Vec::new();
    let [a, b] = ends;
    for (of, other) in [(a, b), (b, a)] {
        // Free ends are there once both are laid.
        let free = matches!(of.post, Post::Amplifier { .. });
        let least = Some(other).filter(|_| free).and_then(|other| there(other).min());
        for step in there(of) {
            let came = (Some(of), least.map_or(step, |least| step.max(least)));
            if !all.contains(&came) {
                all.push(came);
            }
        }
    }
    all
}

/// Inside and outside of a cup are one.
fn same(a: Post, b: Post) -> bool {
    match (a, b) {
        (Post::CupInside(a) | Post::CupOutside(a), Post::CupInside(b) | Post::CupOutside(b)) => {
            a == b
        }
        (a, b) => a == b,
    }
}

/// Terminals that touch, by when that came.
fn touching(one: &Variant, pair: [Terminal; 2], came: &[Came]) -> Vec<Variant> {
    let weight = 1.0 / f64::from(tally(came.iter()).max(1));
    let touching = |(of, since): &Came| Variant {
        weight,
        built: Built {
            touching: Some(Touching { pair, of: *of, since: *since }),
            ..one.built.clone()
        },
        ..one.clone()
    };
    came.iter().map(touching).collect()
}

/// Leaves of what touches one of those that no reading tells apart: `now` are the steps at
/// which anything is read. What would only touch later is left out.
pub(super) fn felt(variants: Vec<Variant>, now: &[u16]) -> Vec<Variant> {
    let mut left: Vec<Variant> = Vec::new();
    for mut variant in variants {
        if let Some(touching) = &mut variant.built.touching {
            let first = now.iter().filter(|now| **now >= touching.since).min();
            let Some(first) = first else { continue };
            touching.since = *first;
            let known = left.iter_mut().find(|one| one.built.touching == variant.built.touching);
            if let Some(known) = known {
                known.weight += variant.weight;
                continue;
            }
        }
        left.push(variant);
    }
    left
}

/// The same for several values, each with a spread of its own.
fn over<const N: usize>(
    one: &Variant,
    spread: f64,
    values: [f64; N],
    set: impl Fn(&mut Variant, f64),
) -> Vec<Variant> {
    let mut all = Vec::with_capacity(N);
    let weight = 1.0 / f64::from(tally(values.iter()));
    for value in values {
        let mut next = Variant { spread, weight, value: Some(value), ..one.clone() };
        set(&mut next, value);
        all.push(next);
    }
    all
}
