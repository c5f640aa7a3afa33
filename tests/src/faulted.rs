//! A plan as somebody built it, with something wrong: resistors between terminals, from
//! the steps, the runs and what the fault says alone.

use crate::tree::Leaf;
use crate::wired::{Bench, end};
use coilwright_solver::meter::{Fault, Other, Place, Point};
use coilwright_solver::wiring::{Act, Plan, Post, Run, Sign, Stage, Terminal};
use nalgebra::{DMatrix, DVector};

/// What an open coil or joint has, and what a short has, in ohms.
pub const OPEN: f64 = 1e9;
/// See [`OPEN`].
pub const SHORT: f64 = 1e-3;

/// Resistors between nodes; the + probe is on node 1, the − probe on node 0.
#[derive(Clone, Debug, Default)]
pub struct Deck {
    /// How many nodes.
    pub nodes: usize,
    /// Each with its two nodes and its ohms.
    pub resistors: Vec<(usize, usize, f64)>,
}

impl Deck {
    /// What a meter without leads finds between the probes: the voltage for one ampere.
    pub fn ohms(&self) -> f64 {
        let mut conductance = DMatrix::<f64>::zeros(self.nodes, self.nodes);
        let leak = 1.0 / OPEN;
        for node in 0..self.nodes {
            conductance[(node, node)] += leak * 1e-3;
        }
        for &(a, b, ohms) in &self.resistors {
            let siemens = ohms.recip();
            for (a, b) in [(a, b), (b, a)] {
                conductance[(a, a)] += siemens;
                conductance[(a, b)] -= siemens;
            }
        }
        // Node 0 is the ground.
        let inner = conductance.remove_row(0).remove_column(0);
        let mut amps = DVector::<f64>::zeros(self.nodes - 1);
        amps[0] = 1.0;
        inner.lu().solve(&amps).expect("every node leaks")[0]
    }
}

/// The end of a run at the amplifier, which hangs free: each run has its own.
fn free(run: usize, terminal: Terminal) -> Terminal {
    match terminal.post {
        // Whatever it is meant for: exchanged cables have exchanged that.
        Post::Amplifier { .. } => {
            Terminal { post: Post::Amplifier { output: 0, pair: 100 + run as u8 }, ..terminal }
        }
        _ => terminal,
    }
}

/// The runs as they were made.
fn made(plan: &Plan, fault: &Fault, only: Option<Sign>, others: &[Other]) -> Vec<(usize, Run)> {
    let mut runs: Vec<(usize, Run)> = plan.runs.iter().cloned().enumerate().collect();
    match *fault {
        Fault::Missing { run } | Fault::Capacitor { run } => {
            runs.retain(|(number, _)| *number != usize::from(run));
        }
        Fault::WrongEnd { run, start, on } => {
            let (_, run) = &mut runs[usize::from(run)];
            *(if start { &mut run.from } else { &mut run.to }) = on;
        }
        Fault::Otherwise(at) => {
            runs = others[usize::from(at)].plan.runs.iter().cloned().enumerate().collect();
        }
        Fault::Crossed { a, b } => {
            let [a, b] = [a, b].map(|run| plan.runs[usize::from(run)].from.post);
            let exchanged = |run: &Run| only.is_none_or(|sign| run.from.sign == sign);
            for (_, run) in runs.iter_mut().filter(|(_, run)| exchanged(run)) {
                run.from.post = match run.from.post {
                    post if post == a => b,
                    post if post == b => a,
                    post => post,
                };
            }
        }
        _ => {}
    }
    runs
}

/// How a fault shows.
#[derive(Clone, Copy, Debug)]
pub struct Way {
    /// What a loose joint or the amplifier has in ohms, or the factor on a coil.
    pub value: f64,
    /// Of what touches: the terminal whose wire it is, and the step from which on.
    pub came: Option<(Option<Terminal>, u16)>,
    /// Of exchanged cables: which conductors are, where it is not both.
    pub only: Option<Sign>,
}

impl From<f64> for Way {
    fn from(value: f64) -> Self {
        Self { value, came: None, only: None }
    }
}

/// What lies between the probes at a point. They touch each other where it is `None`.
pub fn deck(
    plan: &Plan,
    coils: &[(Leaf, f64)],
    fault: &Fault,
    way: impl Into<Way>,
    others: &[Other],
    point: &Point,
) -> Option<Deck> {
    let Way { value, came, only } = way.into();
    let step = usize::from(point.act);
    let check = match plan.acts[step] {
        Act::Check(check) => Some(check),
        Act::Leads => return None,
        _ => None,
    };
    let mut bench = Bench::default();
    let mut loose: Vec<(Terminal, Terminal, f64)> = Vec::new();
    let mut ends: Vec<(Terminal, usize)> = Vec::new();
    for cup in 0..plan.cups.len() as u8 {
        for sign in [Sign::Plus, Sign::Minus] {
            let on = |post| Terminal { post, sign };
            bench.tie(on(Post::CupInside(cup)), on(Post::CupOutside(cup)));
        }
    }
    let other = matches!(fault, Fault::Otherwise(_));
    for (number, run) in made(plan, fault, only, others) {
        let there = match (other, check) {
            _ if matches!(point.place, Place::Coil(_)) => false,
            (true, Some(check)) => run.stage <= check.stage,
            (true, None) => false,
            (false, _) => plan.acts[..step].iter().any(|step| {
                matches!(step, Act::Join { run } | Act::Lay { run } if usize::from(*run) == number)
            }),
        };
        if !there {
            continue;
        }
        let off = |terminal: Terminal| match (point.place, terminal.post) {
            (Place::Lifted(coil), Post::Coil(on)) => coil == on && terminal.sign == Sign::Plus,
            (Place::Apart(driver), Post::Coil(on)) => {
                on.driver == driver && run.stage != Stage::Coils
            }
            (Place::CableOpen(_) | Place::CableJoined(_), Post::Amplifier { .. }) => false,
            (Place::CableOpen(_) | Place::CableJoined(_), _) => run.stage == Stage::Cable,
            _ => false,
        };
        let [from, to] = [run.from, run.to].map(|terminal| free(number, terminal));
        if run.from != from {
            ends.push((run.from, number));
        }
        if off(run.from) || off(run.to) {
            continue;
        }
        match fault {
            Fault::Loose { run } if usize::from(*run) == number => loose.push((from, to, value)),
            _ => bench.tie(from, to),
        }
    }
    // What is held together by hand.
    let at_amplifier = |wanted: &dyn Fn(Terminal) -> bool| -> Vec<Terminal> {
        let wanted = ends.iter().filter(|(terminal, _)| wanted(*terminal));
        wanted.map(|(terminal, number)| free(*number, *terminal)).collect()
    };
    let together = |bench: &mut Bench, list: &[Terminal]| {
        for pair in list.windows(2) {
            bench.tie(pair[0], pair[1]);
        }
    };
    let same = |a: Terminal, b: Terminal, tied: bool| match (a.post, b.post) {
        (Post::Amplifier { output: a, pair: p }, Post::Amplifier { output: b, pair: q }) => {
            a == b && (tied || p == q)
        }
        _ => false,
    };
    // As the step says it: where one end is planned on each side, none is held.
    if let Some(check) = check.filter(|check| point.place == Place::Step && check.ends > 1) {
        for probe in [check.plus, check.minus] {
            let list = at_amplifier(&|one| one.sign == probe.sign && same(one, probe, check.tied));
            together(&mut bench, &list);
        }
    }
    if let Place::CableJoined(run) = point.place {
        let of = plan.runs[usize::from(run)].from;
        let list = at_amplifier(&|one| same(one, of, false));
        together(&mut bench, &list);
    }
    match *fault {
        Fault::Extra { from: a, to: b } | Fault::Strand { a, b } => {
            let (of, since) = came.unwrap_or_default();
            // A wire leaves with the terminal that everything is lifted from, a strand with
            // its own.
            let stays = match point.place {
                Place::Coil(_) => false,
                Place::Lifted(coil) => {
                    let lifted = Terminal { post: Post::Coil(coil), sign: Sign::Plus };
                    of.map_or(a != lifted && b != lifted, |of| of != lifted)
                }
                _ => true,
            };
            let ends = [a, b].map(|end| match end.post {
                Post::Amplifier { .. } => at_amplifier(&|one| one == end).first().copied(),
                _ => Some(end),
            });
            if let ([Some(a), Some(b)], true) = (ends, stays && since <= point.act) {
                loose.push((a, b, SHORT));
            }
        }
        Fault::Amplifier => {
            let mut outputs: Vec<Terminal> = Vec::new();
            for (terminal, _) in &ends {
                if !outputs.iter().any(|known| same(*known, *terminal, true)) {
                    outputs.push(*terminal);
                }
            }
            for output in outputs {
                let [plus, minus] = [Sign::Plus, Sign::Minus]
                    .map(|sign| at_amplifier(&|one| one.sign == sign && same(one, output, true)));
                together(&mut bench, &plus);
                together(&mut bench, &minus);
                if let (Some(plus), Some(minus)) = (plus.first(), minus.first()) {
                    loose.push((*plus, *minus, value));
                }
            }
        }
        _ => {}
    }
    let factor = |leaf: &Leaf| match *fault {
        Fault::OtherDriver { driver, times } if driver == leaf.driver => {
            f64::from(times.0) / f64::from(times.1)
        }
        Fault::Turns(coil) if (coil.driver, coil.coil) == (leaf.driver, leaf.coil) => value,
        _ => 1.0,
    };
    for (leaf, ohms) in coils {
        let this = |coil: coilwright_solver::network::Coil| {
            (coil.driver, coil.coil) == (leaf.driver, leaf.coil)
        };
        let ohms = match *fault {
            Fault::CoilOpen(coil) if this(coil) => OPEN,
            Fault::CoilShort(coil) if this(coil) => 0.02 * ohms,
            _ => ohms * factor(leaf),
        };
        loose.push((end(*leaf, Sign::Plus), end(*leaf, Sign::Minus), ohms));
    }
    // Where the probes are.
    let [plus, minus] = match point.place {
        Place::Along(run) => {
            let number = usize::from(run);
            let run = &plan.runs[number];
            let own = |terminal: Terminal| match terminal.post {
                Post::Amplifier { .. } if other => {
                    at_amplifier(&|one| one == terminal).first().copied()
                }
                // Of exchanged cables another end is meant for the terminal.
                Post::Amplifier { .. }
                    if ends.iter().any(|(on, of)| *of == number && *on != terminal) =>
                {
                    at_amplifier(&|one| one == terminal).first().copied()
                }
                _ => Some(free(number, terminal)),
            };
            [own(run.from), own(run.to)]
        }
        Place::Basket(_) => return Some(open()),
        // The amplifier ties them inside.
        Place::Tied(..) => return Some(Deck { nodes: 2, resistors: vec![(1, 0, 1e-9)] }),
        _ => point.probes(plan)?.map(|probe| match probe.post {
            Post::Amplifier { .. } => {
                let own = at_amplifier(&|one| one == probe);
                // What is held together with an end that is missing.
                let tied = check.is_some_and(|check| check.tied && check.ends > 1);
                let held = |one: Terminal| {
                    tied && point.place == Place::Step
                        && one.sign == probe.sign
                        && same(one, probe, true)
                };
                own.first().copied().or_else(|| at_amplifier(&held).first().copied())
            }
            _ => Some(probe),
        }),
    };
    let (Some(plus), Some(minus)) = (plus, minus) else { return Some(open()) };
    let mut nodes = vec![bench.place_of(minus)];
    if bench.is_one(plus, minus) {
        return Some(Deck { nodes: 2, resistors: vec![(1, 0, 1e-9)] });
    }
    nodes.push(bench.place_of(plus));
    let mut deck = Deck::default();
    for (a, b, ohms) in loose {
        let [a, b] = [a, b].map(|one| {
            let place = bench.place_of(one);
            nodes.iter().position(|node| *node == place).unwrap_or_else(|| {
                nodes.push(place);
                nodes.len() - 1
            })
        });
        if a != b {
            deck.resistors.push((a, b, ohms));
        }
    }
    deck.nodes = nodes.len();
    Some(deck)
}

fn open() -> Deck {
    Deck { nodes: 2, resistors: vec![(1, 0, OPEN)] }
}
