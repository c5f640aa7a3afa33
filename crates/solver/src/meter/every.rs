//! Every fault that may be in a plan.

use super::built::Posts;
use super::faults::Fault;
use super::otherwise::Other;
use super::points;
use super::weights::{FARTHER, NEARER, VALUES, WEIGHTS};
use crate::defect::Defect;
use crate::wiring::{Plan, Post, Run, Sign, Stage, Terminal};

/// With more coils than this a wire too many is named by the sets of terminals that it joins.
const EACH: usize = 8;

/// Every fault that may be in a plan, with its weight: the weight of its kind shared
/// among all of it.
pub(super) fn faults(posts: &Posts<'_>, others: &[Other]) -> Result<Vec<(Fault, f64)>, Defect> {
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
                let [a, b] = of.from.post.ends();
                add(Fault::Strand { a, b }, 1.0);
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
    for (cup, _) in (0_u8..).zip(&plan.cups) {
        let [a, b] = Post::CupInside(cup).ends();
        add(Fault::Strand { a, b }, 1.0);
    }
    for (at, other) in (0_u16..).zip(others) {
        add(Fault::Otherwise(at), other.weight);
    }
    let mut last = None;
    let mut groups: Vec<usize> = Vec::new();
    for winding in posts.coils {
        let coil = winding.coil;
        add(Fault::CoilOpen(coil), 1.0);
        add(Fault::CoilShort(coil), 1.0);
        add(Fault::Turns(coil), 1.0);
        if last.replace(coil.driver) != Some(coil.driver) {
            for (times, part) in VALUES {
                add(Fault::OtherDriver { driver: coil.driver, times }, part);
            }
        }
        if !groups.contains(&winding.group) {
            groups.push(winding.group);
            for (times, part) in VALUES {
                let group = u8::try_from(winding.group).map_err(|_| Defect::Numbers)?;
                add(Fault::OtherGroup { group, times }, part);
            }
        }
    }
    touching(posts, &mut add);
    for (kind, weight) in WEIGHTS {
        let of_kind = |(fault, _): &&(Fault, f64)| fault.kind() == kind;
        let sum: f64 = found.iter().filter(of_kind).map(|(_, part)| part).sum();
        for (_, part) in found.iter_mut().filter(|(fault, _)| fault.kind() == kind) {
            *part *= weight / sum;
        }
    }
    Ok(found)
}

/// The set of a terminal, by its number: inside and outside of a cup are one.
fn set_of(plan: &Plan, terminal: Terminal) -> Option<usize> {
    plan.joined.iter().position(|set| set.terminals.contains(&terminal))
}

/// Ends of a run on a terminal beside the right one: the other sign of the pair, another of
/// the driver, or one of a neighbouring driver, which is half as frequent.
fn wrong_ends(posts: &Posts<'_>, run: u16, of: &Run, add: &mut dyn FnMut(Fault, f64)) {
    let plan = posts.plan;
    for (start, end, far) in [(true, of.from, of.to), (false, of.to, of.from)] {
        let beside: Vec<Terminal> = match end.post {
            Post::Coil(coil) => posts
                .coils
                .iter()
                .filter(|other| other.coil.driver.abs_diff(coil.driver) <= 1)
                .flat_map(|other| points::ends(other.coil))
                .collect(),
            Post::CupInside(_) | Post::CupOutside(_) => {
                vec![Terminal { sign: end.sign.other(), ..end }]
            }
            Post::Amplifier { .. } | Post::Splice(_) => Vec::new(),
        };
        let here = set_of(plan, end);
        for on in beside {
            if on != far && on != end && set_of(plan, on) != here {
                let part = if on.post.driver() == end.post.driver() { NEARER } else { FARTHER };
                add(Fault::WrongEnd { run, start, on }, part);
            }
        }
    }
}

/// Runs too many, and strands: within a driver, and runs between neighbouring ones, which
/// are half as frequent. With many drivers a run stands for all between any two sets of
/// terminals, which differ only with a joint lifted.
fn touching(posts: &Posts<'_>, add: &mut dyn FnMut(Fault, f64)) {
    let mut known: Vec<(usize, usize)> = Vec::new();
    let many = posts.coils.len() > EACH;
    let all: Vec<Terminal> =
        posts.coils.iter().flat_map(|winding| points::ends(winding.coil)).collect();
    for (at, a) in all.iter().enumerate() {
        for b in all.iter().skip(at).skip(1) {
            let (Some(one), Some(other)) = (a.post.driver(), b.post.driver()) else { continue };
            let apart = other.saturating_sub(one);
            let sets = (set_of(posts.plan, *a), set_of(posts.plan, *b));
            let (Some(one), Some(other)) = sets else { continue };
            if one == other || apart > 1 {
                continue;
            }
            if apart == 0 {
                add(Fault::Strand { a: *a, b: *b }, 1.0);
            }
            let pair = (one.min(other), one.max(other));
            if !many || !known.contains(&pair) {
                known.push(pair);
                let part = if apart == 0 { NEARER } else { FARTHER };
                add(Fault::Extra { from: *a, to: *b }, part);
            }
        }
    }
}
