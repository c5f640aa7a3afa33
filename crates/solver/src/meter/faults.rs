//! What can be wrong with a plan as it was built, and how likely each is before anything
//! is read.

use super::built::Built;
use crate::network::Coil;
use crate::wiring::Terminal;

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
    /// Strands of the wire on one terminal, or a squashed cable, touch another.
    Strand {
        /// One of them.
        a: Terminal,
        /// The other.
        b: Terminal,
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

    /// Whether nothing is wrong that ohms can tell.
    pub(super) const fn is_sound(&self) -> bool {
        matches!(self, Self::Nothing | Self::Reversed)
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
}
