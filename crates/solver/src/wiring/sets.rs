//! The joined sets: which terminals become one.

use super::amps::Amps;
use super::laid::Laid;
use super::{Joined, Post, Role, Sign, Terminal};
use crate::network::{Coil, Joint};
use crate::rig::Build;
use crate::short;

/// A terminal of a set.
#[derive(Clone, Copy, Debug)]
pub(super) struct Member {
    pub(super) terminal: Terminal,
    /// Which end of its network it is: where current goes in, or where it comes out.
    pub(super) end: Sign,
    /// The pair of the amplifier that feeds it, counted from 0.
    pub(super) half: u8,
    /// The current that goes in or comes out there; filled in by `currents`.
    pub(super) amps: Amps,
}

/// Terminals to be joined.
#[derive(Clone, Debug)]
pub(super) struct Set {
    pub(super) role: Role,
    pub(super) output: u8,
    /// Where its current comes from or goes to: pairs of the amplifier, or a cup's inside.
    pub(super) sources: Vec<Terminal>,
    /// The others, in the order of the column.
    pub(super) members: Vec<Member>,
}

impl Set {
    fn new(role: Role, output: u8) -> Self {
        Self { role, output, sources: Vec::new(), members: Vec::new() }
    }

    pub(super) fn told(self) -> Joined {
        let members = self.members.into_iter().map(|member| member.terminal);
        let terminals = self.sources.into_iter().chain(members).collect();
        Joined { role: self.role, output: self.output, terminals }
    }
}

/// Adds the sets of one output, whose terminal pairs feed a part of it each.
pub(super) fn lay(build: &Build, number: u8, laid: &Laid, halves: u8, sets: &mut Vec<Set>) {
    let mut layer = Layer { build, output: number, half: 0, sets };
    let plus = layer.set(Role::Positive);
    let minus = layer.set(Role::Negative);
    for (set, sign) in [(plus, Sign::Plus), (minus, Sign::Minus)] {
        for pair in 0..halves {
            let post = Post::Amplifier { output: number, pair };
            layer.source(set, Terminal { post, sign });
        }
    }
    match laid {
        Laid::Node(Joint::Parallel, parts) if halves > 1 => {
            // As many parts on each pair of terminals, where that comes out even.
            let half_of = |at: usize| at.saturating_mul(halves.into()).checked_div(parts.len());
            for half in 0..halves {
                layer.half = half;
                let own = |at: usize| half_of(at) == Some(half.into());
                for (_, part) in parts.iter().enumerate().filter(|(at, _)| own(*at)) {
                    layer.lay(part, plus, minus);
                }
            }
        }
        _ => layer.lay(laid, plus, minus),
    }
    for set in layer.sets.iter_mut() {
        short::insertion_sort(&mut set.members, |a, b| a.terminal.cmp(&b.terminal));
    }
}

struct Layer<'a> {
    build: &'a Build,
    output: u8,
    half: u8,
    sets: &'a mut Vec<Set>,
}

impl Layer<'_> {
    fn set(&mut self, role: Role) -> usize {
        self.sets.push(Set::new(role, self.output));
        self.sets.len().saturating_sub(1)
    }

    fn source(&mut self, set: usize, terminal: Terminal) {
        if let Some(set) = self.sets.get_mut(set) {
            set.sources.push(terminal);
        }
    }

    /// Both ends of something between two sets.
    fn ends(&mut self, post: Post, turned: bool, plus: usize, minus: usize) {
        for (set, end) in [(plus, Sign::Plus), (minus, Sign::Minus)] {
            let sign = if turned { end.other() } else { end };
            let terminal = Terminal { post, sign };
            if let Some(set) = self.sets.get_mut(set) {
                set.members.push(Member { terminal, end, half: self.half, amps: Amps::default() });
            }
        }
    }

    fn coil(&mut self, coil: Coil, plus: usize, minus: usize) {
        let turned = self.build.mounted_reversed.contains(&coil.driver);
        self.ends(Post::Coil(coil), turned, plus, minus);
    }

    fn lay(&mut self, laid: &Laid, plus: usize, minus: usize) {
        match laid {
            Laid::Coil(coil) => self.coil(*coil, plus, minus),
            Laid::Cup(cup, network) => {
                self.ends(Post::CupOutside(*cup), false, plus, minus);
                let mut inner = [plus, minus];
                for (set, sign) in inner.iter_mut().zip([Sign::Plus, Sign::Minus]) {
                    let role = self.sets.get(*set).map_or(Role::Between, |set| set.role);
                    *set = self.set(role);
                    self.source(*set, Terminal { post: Post::CupInside(*cup), sign });
                }
                let [plus, minus] = inner;
                // Behind a cup nothing is told by the amplifier's pairs.
                self.lay(&Laid::of(network), plus, minus);
            }
            Laid::Node(joint, parts) => {
                let mut from = plus;
                for (at, part) in parts.iter().enumerate() {
                    let to = self.next(*joint, from, minus, at, parts.len());
                    let (a, b) = if *joint == Joint::Series { (from, to) } else { (plus, minus) };
                    self.lay(part, a, b);
                    from = to;
                }
            }
        }
    }

    /// The set after a part: a new one within a series node, the last one at its end.
    fn next(&mut self, joint: Joint, from: usize, last: usize, at: usize, of: usize) -> usize {
        match joint {
            Joint::Parallel => from,
            Joint::Series if at.saturating_add(1) == of => last,
            Joint::Series => self.set(Role::Between),
        }
    }
}
