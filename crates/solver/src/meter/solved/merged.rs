//! Terminals that wire makes one, by number.

use super::super::built::Posts;
use super::super::setting::Setting;
use super::Resistor;
use crate::defect::Defect;
use crate::wiring::{Post, Sign, Stage, Terminal};

/// The numbers of two terminals that touch, where both are there.
pub(super) fn touch(
    posts: &Posts<'_>,
    pair: [Terminal; 2],
    at_amplifier: &[(Terminal, usize)],
    runs: usize,
) -> Result<Option<[usize; 2]>, Defect> {
    let [a, b] = pair.map(|terminal| match terminal.post {
        Post::Amplifier { .. } => {
            Ok(at_amplifier.iter().find(|(at, _)| *at == terminal).map(|(_, number)| *number))
        }
        _ => posts.number(terminal, 0, runs).map(Some),
    });
    Ok(a?.zip(b?).map(|(a, b)| [a, b]))
}

/// Ends of runs that are held together while they are read.
pub(super) fn hold(above: &mut [usize], ends: &[(Terminal, usize)], setting: &Setting) {
    let Some(check) = setting.held.filter(|check| check.stage == Stage::Cable) else { return };
    for probe in [check.plus, check.minus] {
        let mut first = None;
        for (terminal, number) in ends {
            let meant = match (terminal.post, probe.post) {
                (
                    Post::Amplifier { output, pair },
                    Post::Amplifier { output: read, pair: first },
                ) => output == read && (pair == first || check.tied),
                _ => false,
            };
            if meant && terminal.sign == probe.sign {
                match first {
                    None => first = Some(*number),
                    Some(first) => join(above, first, *number),
                }
            }
        }
    }
}

/// The amplifier over the ends of its cables, which it ties by their marks.
pub(super) fn across_amplifier(
    above: &mut [usize],
    ends: &[(Terminal, usize)],
    ohms: f64,
    resistors: &mut Vec<Resistor>,
) {
    let mut outputs: Vec<(u8, [Option<usize>; 2])> = Vec::new();
    for (terminal, number) in ends {
        let Post::Amplifier { output, .. } = terminal.post else { continue };
        if !outputs.iter().any(|(known, _)| *known == output) {
            outputs.push((output, [None; 2]));
        }
        let side = usize::from(terminal.sign == Sign::Minus);
        let of = outputs.iter_mut().find(|(known, _)| *known == output);
        if let Some(slot) = of.and_then(|(_, sides)| sides.get_mut(side)) {
            match *slot {
                None => *slot = Some(*number),
                Some(first) => join(above, first, *number),
            }
        }
    }
    for (_, sides) in outputs {
        if let [Some(plus), Some(minus)] = sides {
            resistors.push(Resistor::unsure([plus, minus], ohms));
        }
    }
}

/// The root of what a place is joined to; what is joined to nothing is its own.
pub(super) fn top(above: &mut [usize], mut at: usize) -> usize {
    while let Some(next) = above.get(at).copied()
        && next != at
    {
        let Some(far) = above.get(next).copied() else { return next };
        if let Some(slot) = above.get_mut(at) {
            *slot = far;
        }
        at = next;
    }
    at
}

pub(super) fn join(above: &mut [usize], a: usize, b: usize) {
    let (a, b) = (top(above, a), top(above, b));
    if let Some(slot) = above.get_mut(a) {
        *slot = b;
    }
}
