//! The runs of each joined set: a chain (a daisy chain), a star, or a splice where terminals
//! take too few conductors for either.

use super::amps::Amps;
use super::sets::{Member, Set};
use super::{Post, Run, Sign, Stage, Terminal};
use crate::count::index;
use crate::rig::{Build, Fed};

/// All runs, set by set, and whether a star was asked for and could not be had.
pub(super) struct Grown {
    pub(super) runs: Vec<Run>,
    pub(super) star_refused: bool,
}

/// Grows the runs of every set.
pub(super) fn grow(build: &Build, sets: &[Set]) -> Grown {
    let mut grower =
        Grower { build, runs: Vec::new(), of_tree: Vec::new(), splices: 0, star_refused: false };
    for set in sets {
        let several = set.sources.len() > 1;
        for (half, source) in (0_u8..).zip(set.sources.iter().map(Some).chain([None])) {
            if source.is_none() && !set.sources.is_empty() {
                break;
            }
            let of_half = |member: &&Member| !several || member.half == half;
            let members: Vec<Member> = set.members.iter().filter(of_half).copied().collect();
            grower.tree(set, source.copied(), &members);
        }
    }
    Grown { runs: grower.runs, star_refused: grower.star_refused }
}

/// What a terminal is at: two of one body are close to each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Body {
    Driver(u8),
    Cup(u8),
    Amplifier,
    Splice,
}

fn body(terminal: Terminal) -> Body {
    match terminal.post {
        Post::Coil(coil) => Body::Driver(coil.driver),
        Post::CupInside(cup) | Post::CupOutside(cup) => Body::Cup(cup),
        Post::Amplifier { .. } => Body::Amplifier,
        Post::Splice(_) => Body::Splice,
    }
}

struct Grower<'a> {
    build: &'a Build,
    runs: Vec<Run>,
    /// Those of the tree at work.
    of_tree: Vec<Run>,
    splices: u8,
    star_refused: bool,
}

type Edge = (Terminal, Terminal);

impl Grower<'_> {
    fn takes(&self, terminal: Terminal) -> usize {
        let [driver, cup, amplifier] = self.build.takes;
        let takes = match terminal.post {
            Post::Coil(_) => driver,
            Post::CupInside(_) | Post::CupOutside(_) => cup,
            Post::Amplifier { .. } => amplifier,
            Post::Splice(_) => return usize::MAX,
        };
        index(takes.conductors)
    }

    /// The runs of one tree: of a set, or of what one terminal pair feeds of it.
    fn tree(&mut self, set: &Set, source: Option<Terminal>, members: &[Member]) {
        let terminals: Vec<Terminal> = members.iter().map(|member| member.terminal).collect();
        let star = self.star(source, &terminals);
        let edges = match (self.build.fed, star) {
            (Fed::Star, Some(edges)) => edges,
            (fed, _) => match self.chain(source, &terminals) {
                Some(edges) => {
                    self.star_refused |= fed == Fed::Star;
                    edges
                }
                None => self.each(source, &terminals).unwrap_or_else(|| {
                    self.star_refused |= fed == Fed::Star;
                    self.splice(source, &terminals)
                }),
            },
        };
        let near = terminals.first().copied();
        let own = set.sources.is_empty()
            && terminals.iter().all(|terminal| Some(body(*terminal)) == near.map(body));
        for (from, to) in edges {
            let member = members.iter().find(|member| member.terminal == to);
            let amps = member.map_or(Amps::NONE, sunk);
            self.of_tree.push(Run {
                from,
                to,
                role: set.role,
                stage: stage(own, from, to),
                output: set.output,
                metres: self.metres(from, to, near),
                amps: amps.target,
                most_amps: amps.most,
            });
        }
        carry(&mut self.of_tree);
        self.runs.append(&mut self.of_tree);
    }

    /// One from the next in the order of the column; `None` where a terminal between two
    /// takes only one conductor.
    fn chain(&self, source: Option<Terminal>, terminals: &[Terminal]) -> Option<Vec<Edge>> {
        let order: Vec<Terminal> = source.into_iter().chain(terminals.iter().copied()).collect();
        let between = order.iter().skip(1).take(order.len().saturating_sub(2));
        if between.into_iter().any(|terminal| self.takes(*terminal) < 2) {
            return None;
        }
        Some(order.iter().zip(order.iter().skip(1)).map(|(a, b)| (*a, *b)).collect())
    }

    /// Every body from the same point, the terminals of one body from each other.
    fn star(&self, source: Option<Terminal>, terminals: &[Terminal]) -> Option<Vec<Edge>> {
        let centre = source.or_else(|| terminals.first().copied())?;
        let mut edges: Vec<Edge> = Vec::new();
        let mut before: Option<Terminal> = source;
        for terminal in terminals {
            match before {
                Some(before) if body(before) == body(*terminal) && Some(before) != source => {
                    edges.push((before, *terminal));
                }
                Some(_) => edges.push((centre, *terminal)),
                None => {}
            }
            before = Some(*terminal);
        }
        self.fit(&edges).then_some(edges)
    }

    /// Every terminal from the source, where it takes that many.
    fn each(&self, source: Option<Terminal>, terminals: &[Terminal]) -> Option<Vec<Edge>> {
        let source = source?;
        let edges: Vec<Edge> = terminals.iter().map(|terminal| (source, *terminal)).collect();
        self.fit(&edges).then_some(edges)
    }

    fn splice(&mut self, source: Option<Terminal>, terminals: &[Terminal]) -> Vec<Edge> {
        let splice = Terminal { post: Post::Splice(self.splices), sign: Sign::Plus };
        self.splices = self.splices.saturating_add(1);
        let fed = source.map(|source| (source, splice));
        fed.into_iter().chain(terminals.iter().map(|terminal| (splice, *terminal))).collect()
    }

    /// Whether no terminal gets more conductors than it takes.
    fn fit(&self, edges: &[Edge]) -> bool {
        let ends = || edges.iter().flat_map(|(from, to)| [*from, *to]);
        ends().all(|end| ends().filter(|other| *other == end).count() <= self.takes(end))
    }

    /// How long a run is. A splice lies at the first terminal that it serves.
    fn metres(&self, from: Terminal, to: Terminal, near: Option<Terminal>) -> f64 {
        let [coils, drivers, cup, cups, amplifier] = self.build.metres;
        let place = |terminal: Terminal| match (body(terminal), near) {
            (Body::Splice, Some(near)) => body(near),
            (body, _) => body,
        };
        match (place(from), place(to)) {
            (Body::Driver(a), Body::Driver(b)) if a != b => drivers * f64::from(a.abs_diff(b)),
            (Body::Cup(a), Body::Cup(b)) if a != b => cups * f64::from(a.abs_diff(b)),
            (Body::Amplifier, _) | (_, Body::Amplifier) => amplifier,
            (Body::Cup(_), Body::Driver(_)) | (Body::Driver(_), Body::Cup(_)) => cup,
            _ => coils,
        }
    }
}

/// Gives every run of a tree what flows on beyond its far end too, then tells sizes alone.
fn carry(runs: &mut [Run]) {
    let mut left = &mut *runs;
    while let Some((run, before)) = left.split_last_mut() {
        if let Some(feeding) = before.iter_mut().find(|other| other.to == run.from) {
            let sum = |a: Option<f64>, b: Option<f64>| a.zip(b).map(|(a, b)| a + b);
            feeding.amps = sum(feeding.amps, run.amps);
            feeding.most_amps = sum(feeding.most_amps, run.most_amps);
        }
        left = before;
    }
    for run in runs {
        run.amps = run.amps.map(f64::abs);
        run.most_amps = run.most_amps.map(f64::abs);
    }
}

/// What a member takes out of its set: less than nothing where current comes out of it.
fn sunk(member: &Member) -> Amps {
    member.amps.map(|amps| if member.end == Sign::Plus { amps } else { -amps })
}

fn stage(own: bool, from: Terminal, to: Terminal) -> Stage {
    let is = |found: fn(Post) -> bool| found(from.post) || found(to.post);
    if is(|post| matches!(post, Post::Amplifier { .. })) {
        Stage::Cable
    } else if is(|post| matches!(post, Post::CupOutside(_))) {
        Stage::Outside
    } else if is(|post| matches!(post, Post::CupInside(_))) {
        Stage::Cups
    } else if own || body(from) == body(to) {
        Stage::Coils
    } else {
        Stage::Drivers
    }
}
