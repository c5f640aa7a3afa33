//! Something that may be wrong with a plan as it was built, as the contract shows it.

use super::shape::{self, Described, Named, Shape, Shaped, Word, objects, spelled};
use super::wiring::{Terminal, from_one};
use coilwright_solver::meter::{Fault, Kind, Other};
use coilwright_solver::network::Coil;
use coilwright_solver::wiring::Terminal as FoundTerminal;
use coilwright_words::english::wiring::Wording;
use serde::Serialize;

spelled! {
    /// What may be wrong.
    Kind as "FaultKind":
        Self::Nothing => "nothing",
        Self::Missing => "missing",
        Self::WrongEnd => "wrong_end",
        Self::Extra => "extra",
        Self::Otherwise => "otherwise",
        Self::Loose => "loose",
        Self::Strand => "strand",
        Self::Leads => "leads",
        Self::Meter => "meter",
        Self::OtherDriver => "other_driver",
        Self::OtherGroup => "other_group",
        Self::CoilOpen => "coil_open",
        Self::CoilShort => "coil_short",
        Self::Turns => "turns",
        Self::Reversed => "reversed",
        Self::Crossed => "crossed",
        Self::Amplifier => "amplifier",
        Self::Capacitor => "capacitor";
}

objects! {
    /// Something that may be wrong.
    FoundFault {
        /// What it is.
        kind: Word<Kind>,
        /// The same in English.
        text: String,
        /// The run that it is in, counted from 1, or the first of two exchanged cables; else null.
        run: Option<u32>,
        /// Of a run: its ends. Of a wrong end: where it is, then where it belongs. Of what touches: both. Of exchanged cables: the pairs that they are meant for. Else empty.
        terminals: Vec<Terminal>,
        /// The coil that it is in; else null.
        coil: Option<String>,
        /// The driver that it is in, counted from 1; else null.
        driver: Option<u32>,
        /// The driver group that has other coils, counted from 1; else null.
        group: Option<u32>,
        /// Of other coils: their ohms over those stated; else null.
        times: Option<f64>,
        /// Of coils that are joined otherwise: how, on their output; else null.
        network: Option<String>,
    }
}

pub(super) fn of_fault(wording: &Wording<'_>, fault: &Fault, others: &[Other]) -> FoundFault {
    let mut found = FoundFault {
        kind: Word(fault.kind()),
        text: wording.fault(fault, others),
        run: None,
        terminals: Vec::new(),
        coil: None,
        driver: None,
        group: None,
        times: None,
        network: None,
    };
    let run = |run: u16| wording.plan.runs.get(usize::from(run));
    let factor = |(over, under): (u8, u8)| Some(f64::from(over) / f64::from(under));
    let mut terminals: Vec<FoundTerminal> = Vec::new();
    match *fault {
        Fault::Missing { run: at } | Fault::Loose { run: at } | Fault::Capacitor { run: at } => {
            found.run = Some(u32::from(at) + 1);
            terminals.extend(run(at).into_iter().flat_map(|run| [run.from, run.to]));
        }
        Fault::WrongEnd { run: at, start, on } => {
            found.run = Some(u32::from(at) + 1);
            terminals.push(on);
            terminals.extend(run(at).map(|run| if start { run.from } else { run.to }));
        }
        Fault::Extra { from, to } => terminals.extend([from, to]),
        Fault::Strand { a, b } => terminals.extend([a, b]),
        Fault::Crossed { a, b } => {
            found.run = Some(u32::from(a) + 1);
            let cables = [run(a), run(b)].into_iter().flatten();
            terminals.extend(cables.flat_map(|run| run.from.post.ends()));
        }
        Fault::CoilOpen(Coil { driver, .. })
        | Fault::CoilShort(Coil { driver, .. })
        | Fault::Turns(Coil { driver, .. }) => found.driver = Some(from_one(driver)),
        Fault::OtherDriver { driver, times } => {
            found.driver = Some(from_one(driver));
            found.times = factor(times);
        }
        Fault::OtherGroup { group, times } => {
            found.group = Some(from_one(group));
            found.times = factor(times);
        }
        Fault::Otherwise(at) => {
            found.network = others.get(usize::from(at)).map(|other| other.network.to_string());
        }
        Fault::Nothing | Fault::Leads | Fault::Meter | Fault::Reversed | Fault::Amplifier => {}
    }
    if let Fault::CoilOpen(coil) | Fault::CoilShort(coil) | Fault::Turns(coil) = fault {
        found.coil = Some(coil.to_string());
    }
    found.terminals = terminals.into_iter().map(Into::into).collect();
    found
}
