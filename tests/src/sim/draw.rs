//! A fault of a kind, drawn for a rig.

use super::ask;
use super::built::Built;
use super::dice::Dice;
use super::fault::{At, Fault, in_acts_of};
use super::plan::{Coil, Run, driver_of};
use super::rigs::Rig;
use crate::tree::Tree;
use std::collections::BTreeSet;

/// Twelve kinds, each drawn as often.
pub const PRINCIPAL: [&str; 12] = [
    "missing",
    "wrong_end",
    "extra",
    "otherwise",
    "loose",
    "strand",
    "coil_open",
    "coil_short",
    "turns",
    "other_driver",
    "other_group",
    "reversed",
];

/// Further ones, told of beside them.
pub const FURTHER: [&str; 4] = ["leads", "meter", "crossed", "tied_run"];

/// What changes nothing by more than this, in ohms, at any point is no fault: a wire beside a
/// joint that is there anyway.
const NO_FAULT: f64 = 0.05;

/// A fault of a kind; nothing where this rig cannot have it, or the one drawn is none.
pub fn fault(kind: &str, rig: &Rig, dice: &mut Dice) -> Option<Fault> {
    let fault = drawn(kind, rig, dice)?;
    let wiring = ["wrong_end", "extra", "strand", "otherwise", "crossed"].contains(&kind);
    (!wiring || changes(rig, &fault)).then_some(fault)
}

fn drawn(kind: &str, rig: &Rig, dice: &mut Dice) -> Option<Fault> {
    let plan = &rig.plan;
    let used = used(rig);
    let coil = |dice: &mut Dice| dice.pick(&used.iter().cloned().collect::<Vec<_>>());
    let times = |ohms: f64, dice: &mut Dice| {
        let sold = |times: &f64| (1.0..=8.0).contains(&(ohms * times));
        let possible: Vec<f64> = [0.25, 0.5, 2.0, 4.0].into_iter().filter(sold).collect();
        // Half or twice is what is taken for another far more often than a quarter or four times.
        let near: Vec<f64> =
            possible.iter().copied().filter(|times| (0.5..=2.0).contains(times)).collect();
        if dice.chance(0.7) { dice.pick(&near) } else { dice.pick(&possible) }
    };
    // The other version of the same driver, or another driver altogether.
    let of_kind = |coil: &Coil, dice: &mut Dice| {
        let own = rig.coils.get(&coil.name).map_or(1.0, |ohms| ohms / coil.ohms);
        if dice.chance(0.5) { own * dice.between(0.96, 1.04) } else { dice.between(0.7, 1.05) }
    };
    Some(match kind {
        "nothing" => Fault::Nothing,
        "missing" => Fault::Missing(dice.pick(&plan.runs)?.number),
        "wrong_end" => wrong_end(rig, dice)?,
        "extra" => {
            let all = plan.terminals();
            let from = dice.pick(&all)?;
            let to = dice.pick(&near(&from, &all))?;
            let touches = |run: &&Run| {
                [&run.from, &run.to].into_iter().any(|end| driver_of(end) == driver_of(&from))
            };
            let runs: Vec<usize> = plan.runs.iter().filter(touches).map(|run| run.act).collect();
            Fault::Extra(from, to, dice.pick(&runs)?)
        }
        "otherwise" => otherwise(rig, dice)?,
        "loose" => {
            let run = dice.pick(&plan.runs)?;
            // What is meant for the amplifier is on no terminal yet.
            let from = if run.from.starts_with("amp") { At::Along } else { At::From };
            let at = dice.pick(&[from, At::To, At::To, At::Along])?;
            Fault::Loose(run.number, at, dice.doubling(0.5, 30.0))
        }
        "strand" => {
            let run = dice.pick(&plan.runs)?;
            let from = dice.pick(&[run.from, run.to])?;
            Fault::Strand(from.clone(), dice.pick(&beside(rig, &from))?, run.act)
        }
        "coil_open" => Fault::CoilOpen(coil(dice)?),
        "coil_short" => Fault::CoilShort(coil(dice)?, dice.between(0.0, 0.1)),
        "turns" => Fault::Turns(coil(dice)?, dice.between(0.3, 0.8)),
        "other_driver" => {
            let coil = plan.coil(&coil(dice)?)?.clone();
            Fault::OtherDriver(coil.driver, times(coil.ohms, dice)?, of_kind(&coil, dice))
        }
        "other_group" => {
            let coil = plan.coil(&coil(dice)?)?.clone();
            let of_group = plan.coils.iter().filter(|other| other.group == coil.group);
            let drivers: BTreeSet<usize> = of_group.map(|other| other.driver).collect();
            if drivers.len() < 2 {
                return None;
            }
            Fault::OtherGroup(coil.group, times(coil.ohms, dice)?, of_kind(&coil, dice))
        }
        "reversed" => Fault::Reversed(plan.coil(&coil(dice)?)?.driver),
        "leads" => Fault::Leads(dice.doubling(0.5, 5.0)),
        "meter" => {
            let low = dice.chance(0.5);
            Fault::Meter(if low { dice.between(0.4, 0.75) } else { dice.between(1.3, 2.0) })
        }
        "crossed" => crossed(rig, dice)?,
        "tied_run" => {
            let second = |run: &&Run| run.stage == "cable" && run.from.starts_with("amp1.2");
            let run = plan.runs.iter().find(second)?;
            Fault::Missing(run.number - usize::from(dice.chance(0.5)) * 2)
        }
        _ => return None,
    })
}

/// Coils that some run comes to.
fn used(rig: &Rig) -> BTreeSet<String> {
    let ends = rig.plan.runs.iter().flat_map(|run| [&run.from, &run.to]);
    ends.filter(|end| driver_of(end).is_some())
        .map(|end| end.trim_end_matches(['+', '-']).to_owned())
        .collect()
}

/// Terminals of the same driver, and half as often of a neighbouring one.
fn near(of: &str, all: &[String]) -> Vec<String> {
    let Some(driver) = driver_of(of) else { return Vec::new() };
    let mut found = Vec::new();
    for terminal in all.iter().filter(|terminal| *terminal != of) {
        match driver_of(terminal) {
            Some(same) if same == driver => found.extend([terminal.clone(), terminal.clone()]),
            Some(next) if next.abs_diff(driver) == 1 => found.push(terminal.clone()),
            _ => {}
        }
    }
    found
}

fn wrong_end(rig: &Rig, dice: &mut Dice) -> Option<Fault> {
    let run = dice.pick(&rig.plan.runs)?;
    let end = dice.below(2);
    let right = if end == 0 { &run.from } else { &run.to };
    let other = if end == 0 { &run.to } else { &run.from };
    let at = if right.starts_with("cup") {
        let sign = if right.ends_with('+') { '-' } else { '+' };
        format!("{}{sign}", right.trim_end_matches(['+', '-']))
    } else {
        dice.pick(&near(right, &rig.plan.terminals()))?
    };
    (at != *other).then_some(Fault::WrongEnd(run.number, end, at))
}

/// What a strand can reach from a terminal: others of the same driver, the other side of the
/// same cup, the other conductor of the same cable.
fn beside(rig: &Rig, from: &str) -> Vec<String> {
    if driver_of(from).is_some() {
        let same = |terminal: &String| driver_of(terminal) == driver_of(from) && terminal != from;
        return rig.plan.terminals().into_iter().filter(same).collect();
    }
    let sign = if from.ends_with('+') { '-' } else { '+' };
    let other = format!("{}{sign}", from.trim_end_matches(['+', '-']));
    let exists = rig.plan.runs.iter().any(|run| run.from == other || run.to == other);
    if exists { vec![other] } else { Vec::new() }
}

/// The cables of two tied pairs, or the conductors of two, exchanged at the amplifier's end.
fn crossed(rig: &Rig, dice: &mut Dice) -> Option<Fault> {
    let cable = |end: &str| {
        let run = rig.plan.runs.iter().find(|run| run.from == end)?;
        Some(run.number)
    };
    let [plus, minus, second_plus, second_minus] =
        [cable("amp1.1+")?, cable("amp1.1-")?, cable("amp1.2+")?, cable("amp1.2-")?];
    Some(Fault::Crossed(if dice.chance(0.5) {
        vec![(plus, second_plus), (minus, second_minus)]
    } else {
        vec![(plus, second_plus)]
    }))
}

/// The network with one node of the other kind, or with two coils exchanged, as the module
/// itself would wire it.
fn otherwise(rig: &Rig, dice: &mut Dice) -> Option<Fault> {
    let (output, network) = rig.plan.key.split_once(':').unwrap_or(("", &rig.plan.key));
    let tree = Tree::read(network);
    let changed = if dice.chance(0.7) {
        let nodes = nodes(&tree);
        if nodes == 0 {
            return None;
        }
        turned(&tree, &mut dice.below(nodes))
    } else {
        let leaves = tree.leaves();
        let (one, two) = (dice.pick(&leaves)?, dice.pick(&leaves)?);
        tree.renamed(&|leaf| match leaf {
            leaf if leaf == one => two,
            leaf if leaf == two => one,
            leaf => leaf,
        })
    };
    let network = merged(&changed).ascii();
    let key = if output.is_empty() { network } else { format!("{output}:{network}") };
    let other = ask::plan(&rig.request, &key)?;
    (other.key != rig.plan.key)
        .then(|| Fault::Otherwise(other.key.clone(), in_acts_of(&rig.plan, &other)))
}

fn nodes(tree: &Tree) -> usize {
    let own = usize::from(!tree.parts().is_empty());
    own + tree.parts().iter().map(nodes).sum::<usize>()
}

/// The tree with its node number `left` turned into the other kind.
fn turned(tree: &Tree, left: &mut usize) -> Tree {
    if tree.parts().is_empty() {
        return tree.clone();
    }
    let this = *left == 0;
    *left = left.wrapping_sub(1);
    let parts: Vec<Tree> = tree.parts().iter().map(|part| turned(part, left)).collect();
    match (tree, this) {
        (Tree::Series(_), false) | (Tree::Parallel(_), true) => Tree::Series(parts),
        _ => Tree::Parallel(parts),
    }
}

/// Nodes of one kind made one.
fn merged(tree: &Tree) -> Tree {
    let parts = || tree.parts().iter().map(merged);
    match tree {
        Tree::Leaf(leaf) => Tree::Leaf(*leaf),
        Tree::Series(_) => Tree::Series(
            parts()
                .flat_map(|part| match part {
                    Tree::Series(inner) => inner,
                    part => vec![part],
                })
                .collect(),
        ),
        Tree::Parallel(_) => Tree::Parallel(
            parts()
                .flat_map(|part| match part {
                    Tree::Parallel(inner) => inner,
                    part => vec![part],
                })
                .collect(),
        ),
    }
}

/// Whether a fault changes anything at any point.
pub fn changes(rig: &Rig, fault: &Fault) -> bool {
    let sound = Built::sound(&rig.plan, &rig.coils, rig.leads);
    let built = fault.built(&rig.plan, &rig.coils, rig.leads);
    rig.plan.points.iter().any(|point| {
        match (sound.felt(&rig.plan, point), built.felt(&rig.plan, point)) {
            (Some(right), Some(felt)) => (right - felt).abs() > NO_FAULT,
            (None, None) => false,
            _ => true,
        }
    })
}
