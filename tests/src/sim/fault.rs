//! What goes wrong, and what it does to what is built.

use super::built::{Built, What, Wire};
use super::plan::{Plan, Run, driver_of};
use std::collections::BTreeMap;

/// Where the resistance of a bad joint is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum At {
    /// At the first end of the run.
    From,
    /// At the second.
    To,
    /// Along it: broken strands, a corroded splice.
    Along,
}

/// One thing wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// Sound.
    Nothing,
    /// A run left out or broken.
    Missing(usize),
    /// An end of a run on another terminal: the run, which end, and the terminal.
    WrongEnd(usize, usize, String),
    /// A wire too many between two terminals, since an act.
    Extra(String, String, usize),
    /// The runs of another network, which is written in ASCII.
    Otherwise(String, Vec<Run>),
    /// A joint of a run with so many ohms.
    Loose(usize, At, f64),
    /// A strand of the wire on the first terminal touches the second, since an act.
    Strand(String, String, usize),
    /// A coil is open.
    CoilOpen(String),
    /// A coil is shorted, with so many ohms left.
    CoilShort(String, f64),
    /// A coil with shorted turns: what is left of its ohms.
    Turns(String, f64),
    /// A driver with coils of other ohms: those stated by so much, and of another kind.
    OtherDriver(usize, f64, f64),
    /// All drivers of a group likewise.
    OtherGroup(usize, f64, f64),
    /// Some coil the wrong way round inside: ohms are the same.
    Reversed(usize),
    /// The leads have got so many ohms more.
    Leads(f64),
    /// The meter shows so much of what is there.
    Meter(f64),
    /// Conductors of two cables exchanged: which runs for which.
    Crossed(Vec<(usize, usize)>),
}

impl Fault {
    /// As `diagnose` names its kind.
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Nothing => "nothing",
            Self::Missing(_) => "missing",
            Self::WrongEnd(..) => "wrong_end",
            Self::Extra(..) => "extra",
            Self::Otherwise(..) => "otherwise",
            Self::Loose(..) => "loose",
            Self::Strand(..) => "strand",
            Self::CoilOpen(_) => "coil_open",
            Self::CoilShort(..) => "coil_short",
            Self::Turns(..) => "turns",
            Self::OtherDriver(..) => "other_driver",
            Self::OtherGroup(..) => "other_group",
            Self::Reversed(_) => "reversed",
            Self::Leads(_) => "leads",
            Self::Meter(_) => "meter",
            Self::Crossed(_) => "crossed",
        }
    }

    /// The plan built of these coils with this wrong.
    pub fn built(&self, plan: &Plan, coils: &BTreeMap<String, f64>, leads: f64) -> Built {
        let mut built = Built::sound(plan, coils, leads);
        let wire = |what, from: &str, to: &str, act| Wire {
            what,
            stage: String::new(),
            ends: [from.to_owned(), to.to_owned()],
            ohms: 0.0,
            joints: [0.0; 2],
            act,
        };
        match self {
            Self::Nothing | Self::Reversed(_) => {}
            Self::Missing(run) => built.wires.retain(|wire| wire.what != What::Run(*run)),
            Self::WrongEnd(run, end, at) => change(&mut built, *run, |wire| {
                wire.ends[*end].clone_from(at);
            }),
            Self::Extra(from, to, act) => {
                built.wires.push(wire(What::Extra, from, to, *act));
            }
            Self::Strand(from, to, act) => {
                built.wires.push(wire(What::Strand, from, to, *act));
            }
            Self::Otherwise(_, runs) => {
                let mut other = plan.clone();
                other.runs.clone_from(runs);
                built.wires = Built::sound(&other, coils, leads).wires;
            }
            Self::Loose(run, at, ohms) => change(&mut built, *run, |wire| match at {
                At::From => wire.joints[0] += ohms,
                At::To => wire.joints[1] += ohms,
                At::Along => wire.ohms += ohms,
            }),
            Self::CoilOpen(coil) => {
                built.coils.insert(coil.clone(), None);
            }
            Self::CoilShort(coil, left) => {
                built.coils.insert(coil.clone(), Some(*left));
            }
            Self::Turns(coil, left) => {
                built.coils.insert(coil.clone(), coils.get(coil).map(|ohms| ohms * left));
            }
            Self::OtherDriver(driver, times, kind) => {
                others(&mut built, plan, times * kind, |coil| coil.driver == *driver);
            }
            Self::OtherGroup(group, times, kind) => {
                others(&mut built, plan, times * kind, |coil| coil.group == *group);
            }
            Self::Leads(more) => built.leads_more = *more,
            Self::Meter(gain) => built.gain = *gain,
            Self::Crossed(pairs) => {
                for (one, two) in pairs {
                    let end = |run| plan.run(run).map(|run| run.to.clone()).unwrap_or_default();
                    let (of_one, of_two) = (end(*one), end(*two));
                    change(&mut built, *one, |wire| wire.ends[1].clone_from(&of_two));
                    change(&mut built, *two, |wire| wire.ends[1].clone_from(&of_one));
                }
            }
        }
        built
    }
}

fn change(built: &mut Built, run: usize, how: impl Fn(&mut Wire)) {
    built.wires.iter_mut().filter(|wire| wire.what == What::Run(run)).for_each(how);
}

/// Coils of another kind: what is printed on them by so much.
fn others(built: &mut Built, plan: &Plan, times: f64, which: impl Fn(&super::plan::Coil) -> bool) {
    for coil in plan.coils.iter().filter(|coil| which(coil)) {
        built.coils.insert(coil.name.clone(), Some(coil.ohms * times));
    }
}

/// The runs of another plan of the same coils in the same box, each placed with the act that
/// does the like in this one: what joins a driver's coils with that driver's, the rest stage by
/// stage.
pub fn in_acts_of(plan: &Plan, other: &Plan) -> Vec<Run> {
    let place = |run: &Run| {
        let driver = driver_of(&run.from);
        let like = |own: &&Run| {
            own.stage == run.stage && (run.stage != "coils" || driver_of(&own.from) == driver)
        };
        let later = |own: &&Run| order(&own.stage) > order(&run.stage);
        let at_last = plan.runs.iter().filter(like).map(|own| own.act).max();
        at_last
            .or_else(|| plan.runs.iter().filter(later).map(|own| own.act).min())
            .or_else(|| plan.runs.iter().map(|own| own.act).max())
            .unwrap_or(0)
    };
    other.runs.iter().map(|run| Run { act: place(run), ..run.clone() }).collect()
}

fn order(stage: &str) -> usize {
    ["coils", "drivers", "cups", "outside", "cable"]
        .iter()
        .position(|name| *name == stage)
        .unwrap_or(4)
}
