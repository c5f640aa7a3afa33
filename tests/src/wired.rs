//! Plans of wiring as somebody with wire in the hand sees them: terminals and pieces of
//! wire, and nothing of the network that they are to make.

use crate::nodal::Circuit;
use crate::rigs::{Drivers, Filters, list_on};
use crate::tree::{Leaf, Tree};
use coilwright_solver::answer::Configuration;
use coilwright_solver::meter::{Foretold, Job, Known, foretell};
use coilwright_solver::rig::{AmplifierDraft, Build, BuildDraft, Cups, Fed, Rig, TakesDraft};
use coilwright_solver::wiring::{Plan, Post, Run, Sign, Terminal};
use std::collections::BTreeMap;

/// Terminals that are one, and how many conductors each holds.
#[derive(Clone, Debug, Default)]
pub struct Bench {
    places: Vec<Terminal>,
    above: Vec<usize>,
    conductors: BTreeMap<Terminal, u32>,
}

impl Bench {
    fn place(&mut self, terminal: Terminal) -> usize {
        if let Some(place) = self.places.iter().position(|one| *one == terminal) {
            return place;
        }
        self.places.push(terminal);
        self.above.push(self.places.len() - 1);
        self.places.len() - 1
    }

    fn top(&mut self, terminal: Terminal) -> usize {
        let mut place = self.place(terminal);
        while self.above[place] != place {
            place = self.above[place];
        }
        place
    }

    /// A number that all terminals share that are one.
    pub fn place_of(&mut self, terminal: Terminal) -> usize {
        self.top(terminal)
    }

    /// Makes two terminals one, by whatever means.
    pub fn tie(&mut self, a: Terminal, b: Terminal) {
        let (a, b) = (self.top(a), self.top(b));
        self.above[a] = b;
    }

    /// Puts an end of a conductor on a terminal.
    pub fn hold(&mut self, terminal: Terminal) {
        *self.conductors.entry(terminal).or_default() += 1;
    }

    /// Joins two terminals by a conductor.
    pub fn join(&mut self, a: Terminal, b: Terminal) {
        self.hold(a);
        self.hold(b);
        self.tie(a, b);
    }

    /// Whether two terminals are one.
    pub fn is_one(&mut self, a: Terminal, b: Terminal) -> bool {
        self.top(a) == self.top(b)
    }

    /// How many conductors each terminal holds.
    pub fn held(&self) -> &BTreeMap<Terminal, u32> {
        &self.conductors
    }

    /// What the hardware makes one: both sides of every cup, tied pairs of every output.
    pub fn tie_hardware(&mut self, plan: &Plan) {
        for sign in [Sign::Plus, Sign::Minus] {
            let on = |post| Terminal { post, sign };
            for cup in 0..plan.cups.len() as u8 {
                self.tie(on(Post::CupInside(cup)), on(Post::CupOutside(cup)));
            }
            self.tie_pairs(plan, sign);
        }
    }

    /// The tied pairs of every output alone.
    pub fn tie_pairs(&mut self, plan: &Plan, sign: Sign) {
        for (output, pairs) in (0_u8..).zip(&plan.pairs) {
            for pair in 1..*pairs {
                let on = |pair| Terminal { post: Post::Amplifier { output, pair }, sign };
                self.tie(on(0), on(pair));
            }
        }
    }
}

/// A terminal of an output's first pair.
pub fn of_amplifier(output: u8, sign: Sign) -> Terminal {
    Terminal { post: Post::Amplifier { output, pair: 0 }, sign }
}

/// Which coils an output drives: those that wire leads to. Coils left out are on none.
fn reached(bench: &mut Bench, leaves: &[Leaf], output: u8) -> Vec<Leaf> {
    // From the output outwards, coil by coil.
    let mut reached: Vec<Leaf> = Vec::new();
    let mut front = vec![of_amplifier(output, Sign::Plus), of_amplifier(output, Sign::Minus)];
    while let Some(at) = front.pop() {
        for leaf in leaves {
            let ends = [Sign::Plus, Sign::Minus].map(|sign| end(*leaf, sign));
            if !reached.contains(leaf) && ends.iter().any(|one| bench.is_one(*one, at)) {
                reached.push(*leaf);
                front.extend(ends);
            }
        }
    }
    reached.sort_unstable();
    reached
}

/// A terminal of a coil.
pub fn end(leaf: Leaf, sign: Sign) -> Terminal {
    let coil = coilwright_solver::network::Coil { driver: leaf.driver, coil: leaf.coil };
    Terminal { post: Post::Coil(coil), sign }
}

/// The circuit of an output from terminals and runs alone; node 1 is its +, node 0 its −.
pub fn circuit(plan: &Plan, leaves: &[Leaf], output: u8) -> Circuit {
    let mut bench = Bench::default();
    bench.tie_hardware(plan);
    for run in &plan.runs {
        bench.tie(run.from, run.to);
    }
    let mut nodes: Vec<usize> =
        [Sign::Minus, Sign::Plus].map(|sign| bench.top(of_amplifier(output, sign))).into();
    assert_ne!(nodes[0], nodes[1], "the output is shorted");
    let mut circuit = Circuit { nodes: 2, coils: Vec::new() };
    for leaf in reached(&mut bench, leaves, output) {
        let [plus, minus] = [Sign::Plus, Sign::Minus].map(|sign| {
            let top = bench.top(end(leaf, sign));
            nodes.iter().position(|node| *node == top).unwrap_or_else(|| {
                nodes.push(top);
                nodes.len() - 1
            })
        });
        circuit.coils.push((leaf, plus, minus));
    }
    circuit.nodes = nodes.len();
    circuit
}

/// One plan with what it is of.
#[derive(Clone, Debug)]
pub struct Case {
    /// The drivers.
    pub drivers: Vec<Drivers>,
    /// The rig.
    pub rig: Rig,
    /// The box.
    pub build: Build,
    /// The configuration.
    pub configuration: Configuration,
    /// Its plan.
    pub plan: Plan,
}

impl Case {
    /// What it is, in a line.
    pub fn name(&self) -> String {
        format!("{} in {:?}", self.configuration.key(), self.build)
    }

    /// What a diagnosis is of.
    pub const fn job(&self) -> Job<'_> {
        let Self { rig, build, configuration, plan, .. } = self;
        Job { rig, build, configuration, plan }
    }

    /// What the meter should read at each step.
    pub fn foretold(&self) -> Vec<Option<Foretold>> {
        foretell(&self.rig, &self.plan, &Known::default()).unwrap()
    }

    /// The network of an output, read from the key alone.
    pub fn tree(&self, output: usize) -> Tree {
        let key = self.configuration.key();
        let part = key.split(';').nth(output).unwrap();
        Tree::read(part.split_once(':').map_or(part, |(_, network)| network))
    }
}

/// Boxes to try: every choice of cups, chains and stars, terminals that take more or less,
/// a driver that faces in.
pub fn boxes() -> Vec<BuildDraft> {
    let tab = TakesDraft { push_on: true, ..TakesDraft::default() };
    let four = TakesDraft { conductors: Some(4), ..TakesDraft::default() };
    let mut all = Vec::new();
    for cups in [Cups::None, Cups::One, Cups::Group(None), Cups::Driver, Cups::Coil] {
        for (fed, takes) in [
            (Fed::Chain, [TakesDraft::default(); 3]),
            (Fed::Star, [four; 3]),
            (Fed::Chain, [tab; 3]),
            (Fed::Star, [tab, four, four]),
        ] {
            let mounted_reversed = if fed == Fed::Star { vec![1] } else { Vec::new() };
            all.push(BuildDraft { cups, fed, takes, mounted_reversed, ..BuildDraft::default() });
        }
        let two = Some(2).filter(|_| cups == Cups::Group(None));
        if two.is_some() {
            all.push(BuildDraft { cups, cup_count: two, ..BuildDraft::default() });
        }
    }
    all
}

/// The plans of configurations of a rig in all boxes that take them, some of each.
pub fn plans(drivers: &[Drivers], amplifier: Option<AmplifierDraft>, of_each: usize) -> Vec<Case> {
    let request = crate::rigs::request(drivers, amplifier.clone(), Filters::OFF);
    let rig = request.rig;
    let all = list_on(drivers, amplifier, Filters::OFF).configurations;
    let stride = all.len().div_ceil(of_each).max(1);
    let mut cases = Vec::new();
    for configuration in all.into_iter().step_by(stride) {
        for draft in boxes() {
            let Ok(mut build) = draft.check(&rig) else { continue };
            // One cup never serves several outputs: there each coil has one.
            let one_for_all = matches!(build.cups, Cups::One | Cups::Group(None));
            if one_for_all && Plan::of(&rig, &build, &configuration).is_err() {
                build.cups = Cups::Coil;
            }
            if let Ok(plan) = Plan::of(&rig, &build, &configuration) {
                let (drivers, rig) = (drivers.to_vec(), rig.clone());
                let configuration = configuration.clone();
                cases.push(Case { drivers, rig, build, configuration, plan });
            }
        }
    }
    cases
}

/// A terminal as one writes it: `amp 1 +`, `cup 1 in −`, `2a +`.
pub fn written(terminal: Terminal) -> String {
    let sign = if terminal.sign == Sign::Plus { "+" } else { "−" };
    match terminal.post {
        Post::Amplifier { output, pair } => format!("amp {}.{} {sign}", output + 1, pair + 1),
        Post::CupInside(cup) => format!("cup {} in {sign}", cup + 1),
        Post::CupOutside(cup) => format!("cup {} out {sign}", cup + 1),
        Post::Splice(splice) => format!("splice {}", splice + 1),
        Post::Coil(coil) => format!("{coil} {sign}"),
    }
}

/// A run as one writes it.
pub fn run(run: &Run) -> String {
    format!("{} to {}", written(run.from), written(run.to))
}
