//! What can be wrong with a plan as it was built, and how likely each is before anything
//! is read.

use super::built::{Built, Posts};
use super::otherwise::Other;
use crate::network::Coil;
use crate::wiring::{Plan, Post, Run, Sign, Stage, Terminal};

/// Something that may be wrong. Drivers, runs and groups are counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Nothing is.
    Nothing,
    /// A run is missing or broken.
    Missing {
        /// The run.
        run: u16,
    },
    /// One end of a run is on a wrong terminal.
    WrongEnd {
        /// The run.
        run: u16,
        /// Whether it is the end that the run starts from, nearer to what feeds it.
        start: bool,
        /// Where that end is.
        on: Terminal,
    },
    /// There is a run too many.
    Extra {
        /// From here.
        from: Terminal,
        /// To here.
        to: Terminal,
    },
    /// Coils are joined otherwise than planned: which of [`super::Diagnosis::others`].
    Otherwise(u16),
    /// A joint of a run is loose or corroded.
    Loose {
        /// The run.
        run: u16,
    },
    /// Strands, or a squashed cable, join the + and the − of a pair of terminals.
    Strand {
        /// The pair.
        post: Post,
    },
    /// The leads, the probes or their contact add more than they should.
    Leads,
    /// The meter shows too little or too much.
    Meter,
    /// A driver has other coils than stated: their ohms over those stated, as a fraction.
    OtherDriver {
        /// The driver.
        driver: u8,
        /// Numerator and denominator.
        times: (u8, u8),
    },
    /// All drivers of a group have.
    OtherGroup {
        /// The group.
        group: u8,
        /// Numerator and denominator.
        times: (u8, u8),
    },
    /// A coil is open.
    CoilOpen(Coil),
    /// A coil is shorted from end to end.
    CoilShort(Coil),
    /// Some turns of a coil are shorted.
    Turns(Coil),
    /// A driver or a coil is joined the wrong way round.
    Reversed,
    /// Two cables are exchanged: the runs that they begin with.
    Crossed {
        /// One of them.
        a: u16,
        /// The other.
        b: u16,
    },
    /// The amplifier is still connected.
    Amplifier,
    /// A capacitor lies in the way of an output.
    Capacitor {
        /// The run behind which it is.
        run: u16,
    },
}

/// A kind of fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "as the faults")]
pub enum Kind {
    Nothing,
    Missing,
    WrongEnd,
    Extra,
    Otherwise,
    Loose,
    Strand,
    Leads,
    Meter,
    OtherDriver,
    OtherGroup,
    CoilOpen,
    CoilShort,
    Turns,
    Reversed,
    Crossed,
    Amplifier,
    Capacitor,
}

/// Weights before anything is read, as parts of all faults together; what is sound weighs
/// as much as all of them. Common practice, no source.
///
/// | what | weight |
/// |---|--:|
/// | a jumper missing 12, on the wrong end 6, extra 6, parts joined in series for parallel or the reverse 6 | 30 |
/// | a joint loose or corroded 10, strands that touch 5 | 15 |
/// | leads or contact 10, the meter 5 | 15 |
/// | another coil value: one driver 4, all of a group 4 | 8 |
/// | a coil open | 6 |
/// | a coil shorted 1, some of its turns 1 | 2 |
/// | a driver or a coil reversed | 20 |
/// | cables exchanged 2, the amplifier still connected 1, a capacitor in the way 1 | 4 |
pub const WEIGHTS: [(Kind, f64); 18] = [
    (Kind::Nothing, 25.0),
    (Kind::Missing, 12.0),
    (Kind::WrongEnd, 6.0),
    (Kind::Extra, 6.0),
    (Kind::Otherwise, 6.0),
    (Kind::Loose, 10.0),
    (Kind::Strand, 5.0),
    (Kind::Leads, 10.0),
    (Kind::Meter, 5.0),
    (Kind::OtherDriver, 4.0),
    (Kind::OtherGroup, 4.0),
    (Kind::CoilOpen, 6.0),
    (Kind::CoilShort, 1.0),
    (Kind::Turns, 1.0),
    (Kind::Reversed, 20.0),
    (Kind::Crossed, 2.0),
    (Kind::Amplifier, 1.0),
    (Kind::Capacitor, 1.0),
];

/// Other coils than stated: half and twice are frequent, a quarter and four times are not.
const VALUES: [((u8, u8), f64); 4] = [((1, 2), 4.0), ((2, 1), 4.0), ((1, 4), 1.0), ((4, 1), 1.0)];

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
    /// Its kind.
    #[must_use]
    pub const fn kind(&self) -> Kind {
        match self {
            Self::Nothing => Kind::Nothing,
            Self::Missing { .. } => Kind::Missing,
            Self::WrongEnd { .. } => Kind::WrongEnd,
            Self::Extra { .. } => Kind::Extra,
            Self::Otherwise(_) => Kind::Otherwise,
            Self::Loose { .. } => Kind::Loose,
            Self::Strand { .. } => Kind::Strand,
            Self::Leads => Kind::Leads,
            Self::Meter => Kind::Meter,
            Self::OtherDriver { .. } => Kind::OtherDriver,
            Self::OtherGroup { .. } => Kind::OtherGroup,
            Self::CoilOpen(_) => Kind::CoilOpen,
            Self::CoilShort(_) => Kind::CoilShort,
            Self::Turns(_) => Kind::Turns,
            Self::Reversed => Kind::Reversed,
            Self::Crossed { .. } => Kind::Crossed,
            Self::Amplifier => Kind::Amplifier,
            Self::Capacitor { .. } => Kind::Capacitor,
        }
    }

    /// The runs of a plan with this fault in it, with the number of the run that each is
    /// or is in place of: what is probably built. [`Fault::Otherwise`] is another plan.
    pub(super) fn wires(&self, built: &mut Built) {
        let index = |run: u16| usize::from(run);
        match *self {
            Self::Missing { run } | Self::Capacitor { run } => {
                built.wires.retain(|wire| wire.run != index(run));
            }
            Self::WrongEnd { run, start, on } => {
                for wire in built.wires.iter_mut().filter(|wire| wire.run == index(run)) {
                    *(if start { &mut wire.from } else { &mut wire.to }) = on;
                }
            }
            Self::Crossed { a, b } => {
                // The far ends of + and −, which are two runs of a cable, change places.
                let of = |run: u16| {
                    built
                        .wires
                        .iter()
                        .find(|wire| wire.run == index(run))
                        .map(|wire| wire.from.post)
                };
                let (Some(a), Some(b)) = (of(a), of(b)) else { return };
                for wire in &mut built.wires {
                    if wire.from.post == a {
                        wire.from.post = b;
                    } else if wire.from.post == b {
                        wire.from.post = a;
                    }
                }
            }
            _ => {}
        }
    }

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
        let coils = |wanted: &dyn Fn(Coil, usize) -> bool, times: (u8, u8)| {
            let factor = f64::from(times.0) / f64::from(times.1);
            let of = posts.coils.iter().filter(|of| wanted(of.coil, of.group));
            of.map(|of| (of.coil, factor)).collect::<Vec<_>>()
        };
        match *self {
            Self::Otherwise(at) => {
                if let Some(other) = others.get(usize::from(at)) {
                    one.built = Built { other: true, ..Built::sound(&other.plan) };
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

/// Every fault that may be in a plan, with its weight: the weight of its kind shared
/// among all of it.
pub(super) fn faults(posts: &Posts<'_>, others: &[Other]) -> Vec<(Fault, f64)> {
    let mut found: Vec<(Fault, f64)> = Vec::new();
    let plan = posts.plan;
    let mut add = |fault: Fault, part: f64| found.push((fault, part));
    add(Fault::Nothing, 1.0);
    add(Fault::Reversed, 1.0);
    add(Fault::Leads, 1.0);
    add(Fault::Meter, 1.0);
    add(Fault::Amplifier, 1.0);
    for (run, of) in (0_u16..).zip(&plan.runs) {
        add(Fault::Missing { run }, 1.0);
        add(Fault::Loose { run }, 1.0);
        wrong_ends(posts, run, of, &mut add);
        if of.stage == Stage::Cable && of.from.sign == Sign::Plus {
            add(Fault::Capacitor { run }, 1.0);
            // Several runs may be meant for one terminal.
            let first = plan.runs.iter().position(|one| one.from == of.from);
            if first == Some(usize::from(run)) {
                add(Fault::Strand { post: of.from.post }, 1.0);
            }
            for (other, further) in (0_u16..).zip(&plan.runs) {
                if other > run
                    && further.stage == Stage::Cable
                    && further.from.sign == Sign::Plus
                    && further.from.post != of.from.post
                {
                    add(Fault::Crossed { a: run, b: other }, 1.0);
                }
            }
        }
    }
    for cup in 0..u8::try_from(plan.cups.len()).unwrap_or(u8::MAX) {
        add(Fault::Strand { post: Post::CupInside(cup) }, 1.0);
    }
    for (at, other) in (0_u16..).zip(others) {
        add(Fault::Otherwise(at), other.weight);
    }
    let mut last = None;
    let mut groups: Vec<usize> = Vec::new();
    for winding in &posts.coils {
        let coil = winding.coil;
        add(Fault::CoilOpen(coil), 1.0);
        add(Fault::CoilShort(coil), 1.0);
        add(Fault::Turns(coil), 1.0);
        add(Fault::Strand { post: Post::Coil(coil) }, 1.0);
        if last.replace(coil.driver) != Some(coil.driver) {
            for (times, part) in VALUES {
                add(Fault::OtherDriver { driver: coil.driver, times }, part);
            }
        }
        if !groups.contains(&winding.group) {
            groups.push(winding.group);
            for (times, part) in VALUES {
                let group = u8::try_from(winding.group).unwrap_or(0);
                add(Fault::OtherGroup { group, times }, part);
            }
        }
    }
    extras(posts, &mut add);
    for (kind, weight) in WEIGHTS {
        let of_kind = |(fault, _): &&(Fault, f64)| fault.kind() == kind;
        let sum: f64 = found.iter().filter(of_kind).map(|(_, part)| part).sum();
        for (_, part) in found.iter_mut().filter(|(fault, _)| fault.kind() == kind) {
            *part *= weight / sum;
        }
    }
    found
}

/// The set of a terminal, by its number: inside and outside of a cup are one.
fn set_of(plan: &Plan, terminal: Terminal) -> Option<usize> {
    plan.joined.iter().position(|set| set.terminals.contains(&terminal))
}

/// Ends of a run on a terminal beside the right one: the other sign of the pair, or the
/// same or the other sign of another coil of the driver.
fn wrong_ends(posts: &Posts<'_>, run: u16, of: &Run, add: &mut dyn FnMut(Fault, f64)) {
    let plan = posts.plan;
    for (start, end, far) in [(true, of.from, of.to), (false, of.to, of.from)] {
        let beside: Vec<Terminal> = match end.post {
            Post::Coil(coil) => posts
                .coils
                .iter()
                .filter(|other| other.coil.driver == coil.driver)
                .flat_map(|other| super::points::ends(other.coil))
                .collect(),
            Post::CupInside(_) | Post::CupOutside(_) => {
                vec![Terminal { sign: end.sign.other(), ..end }]
            }
            Post::Amplifier { .. } | Post::Splice(_) => Vec::new(),
        };
        let here = set_of(plan, end);
        for on in beside {
            if on != far && on != end && set_of(plan, on) != here {
                add(Fault::WrongEnd { run, start, on }, 1.0);
            }
        }
    }
}

/// Runs too many: within a driver, or between neighbouring ones, once for any two sets.
fn extras(posts: &Posts<'_>, add: &mut dyn FnMut(Fault, f64)) {
    let mut known: Vec<(usize, usize)> = Vec::new();
    for a in &posts.coils {
        for b in &posts.coils {
            let apart = b.coil.driver.checked_sub(a.coil.driver);
            if b.coil < a.coil || !matches!(apart, Some(0 | 1)) {
                continue;
            }
            for from in super::points::ends(a.coil) {
                for to in super::points::ends(b.coil) {
                    let (Some(one), Some(other)) =
                        (set_of(posts.plan, from), set_of(posts.plan, to))
                    else {
                        continue;
                    };
                    let pair = (one.min(other), one.max(other));
                    if one != other && !known.contains(&pair) {
                        known.push(pair);
                        add(Fault::Extra { from, to }, 1.0);
                    }
                }
            }
        }
    }
}
