//! Whether what is named is what is wrong, or alike to it at every point within reach.

use super::ask;
use super::built::Built;
use super::fault::{At, Fault, in_acts_of};
use super::plan::{Plan, Point, driver_of, terminal, whole};
use super::rigs::{Known, Rig};
use serde_json::Value;

/// Two readings are alike within the larger of these, in ohms and as a share.
const ALIKE: fn(f64) -> f64 = |ohms| (0.08 * ohms).max(0.15);
/// Two readings of a meter of ±1 % ± 2 counts may be the same within this.
const NEAR: fn(f64) -> f64 = |ohms| 2.0 * (0.01 * ohms + 0.2);

/// How what is named stands to what is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Named {
    /// It is what is wrong: its kind and its place.
    Itself,
    /// It has the same effect at every point within reach.
    Alike,
    /// It is something else, and at every point within reach the bands of the meter's error
    /// overlap: with this meter nobody could be sure.
    Near,
    /// It is something else.
    Other,
}

/// How the first explanation of an answer stands to what is wrong, with everything placed that
/// an act has by then.
pub fn first(rig: &Rig, truth: &Fault, answer: &Value, act: usize) -> Named {
    of(rig, truth, &answer["explanations"][0], act)
}

/// How one explanation does.
pub fn of(rig: &Rig, truth: &Fault, explanation: &Value, act: usize) -> Named {
    let faults: Vec<&Value> = explanation["faults"].as_array().into_iter().flatten().collect();
    if faults.iter().any(|fault| itself(rig, truth, fault)) {
        return Named::Itself;
    }
    let points = within_reach(rig, act);
    let wrong = truth.built(&rig.plan, &rig.coils, rig.leads);
    let same = |fault: &Fault, within| {
        let built = fault.built(&rig.plan, &rig.coils, rig.leads);
        alike(rig, &wrong, &built, &points, matches!(fault, Fault::Otherwise(..)), within)
    };
    let named: Vec<Fault> = faults.iter().flat_map(|fault| meant(rig, truth, fault)).collect();
    if named.iter().any(|fault| same(fault, ALIKE)) {
        Named::Alike
    } else if named.iter().any(|fault| same(fault, NEAR)) {
        Named::Near
    } else {
        Named::Other
    }
}

/// Points that can be read with everything placed by an act, and nothing after it, and what was
/// read before. What a coil reads before it is joined is gone if it was not.
fn within_reach(rig: &Rig, act: usize) -> Vec<Point> {
    let plan = &rig.plan;
    let placed = |run: usize| plan.run(run).is_some_and(|run| run.act <= act);
    let reached = |point: &Point| match point.place.as_str() {
        "coil" | "basket" if rig.known != Known::Read => None,
        "step" | "coil" | "basket" => (point.act <= act).then(|| point.clone()),
        "along" | "open" | "joined" => {
            let run = point.name.rsplit('.').next()?.parse().ok()?;
            placed(run).then(|| Point { act: act.min(point.act), ..point.clone() })
        }
        _ => {
            let (plus, _) = point.probes.as_ref()?;
            let driver = driver_of(plus);
            let come = plan.runs.iter().filter(|run| run.act <= act);
            let touched = come.flat_map(|run| [&run.from, &run.to]);
            touched
                .into_iter()
                .any(|end| driver_of(end) == driver)
                .then(|| Point { act: act.min(point.act), ..point.clone() })
        }
    };
    plan.points.iter().filter_map(reached).collect()
}

/// Whether a fault of a kind that a point says it cannot exclude is one that it cannot: of some
/// drawn for the rig, one that is felt somewhere by then reads right at that very point.
pub fn cannot_exclude(rig: &Rig, point: &Point, some: &[Fault]) -> bool {
    let reach = within_reach(rig, point.act);
    let sound = Fault::Nothing.built(&rig.plan, &rig.coils, rig.leads);
    some.iter().any(|fault| {
        let built = fault.built(&rig.plan, &rig.coils, rig.leads);
        let right = match (built.felt(&rig.plan, point), point.band) {
            (Some(felt), Some((low, high))) => (low..=high).contains(&felt),
            (felt, band) => felt.is_some() == band.is_some(),
        };
        // What is the wrong way round is felt nowhere.
        let nowhere = matches!(fault, Fault::Reversed(_));
        right && (nowhere || !alike(rig, &sound, &built, &reach, false, ALIKE))
    })
}

/// Whether two builds read alike at every point. What is joined otherwise has no runs to read
/// along, and no cables of its own.
fn alike(
    rig: &Rig,
    one: &Built,
    two: &Built,
    points: &[Point],
    joined_otherwise: bool,
    within: fn(f64) -> f64,
) -> bool {
    let counts = |point: &&Point| {
        !joined_otherwise || !["along", "open", "joined"].contains(&point.place.as_str())
    };
    points.iter().filter(counts).all(|point| {
        match (one.felt(&rig.plan, point), two.felt(&rig.plan, point)) {
            (None, None) => true,
            (Some(one), Some(two)) => (one - two).abs() <= within(one.max(two)),
            _ => false,
        }
    })
}

/// Whether a named fault is the true one by its kind and its place.
fn itself(rig: &Rig, truth: &Fault, named: &Value) -> bool {
    if named["kind"] != truth.kind() {
        return false;
    }
    let ends = || -> Vec<String> {
        named["terminals"].as_array().into_iter().flatten().filter_map(terminal).collect()
    };
    let between = |a: &String, b: &String| {
        let ends = ends();
        ends.contains(a) && ends.contains(b)
    };
    match truth {
        Fault::Nothing | Fault::Reversed(_) | Fault::Leads(_) | Fault::Meter(_) => true,
        Fault::Missing(run) | Fault::Loose(run, ..) => whole(&named["run"]) == Some(*run),
        Fault::WrongEnd(run, _, at) => {
            whole(&named["run"]) == Some(*run) && ends().first() == Some(at)
        }
        Fault::Extra(a, b, _) | Fault::Strand(a, b, _) => between(a, b),
        Fault::Otherwise(key, _) => named["network"]
            .as_str()
            .and_then(|network| other(rig, network))
            .is_some_and(|plan| plan.key == *key),
        Fault::CoilOpen(coil) | Fault::CoilShort(coil, _) | Fault::Turns(coil, _) => {
            named["coil"] == coil.as_str()
        }
        Fault::OtherDriver(driver, times, _) => {
            whole(&named["driver"]) == Some(*driver) && named["times"].as_f64() == Some(*times)
        }
        Fault::OtherGroup(group, times, _) => {
            whole(&named["group"]) == Some(*group) && named["times"].as_f64() == Some(*times)
        }
        // Which is exchanged for which is told by the pairs; any crossing of them is right.
        Fault::Crossed(_) => true,
    }
}

/// The plan of the same coils joined otherwise.
fn other(rig: &Rig, network: &str) -> Option<Plan> {
    let ascii = network.replace(" + ", "+").replace(" ∥ ", "||");
    let key = match rig.plan.key.split_once(':') {
        Some((output, _)) if !ascii.contains(':') => format!("{output}:{ascii}"),
        _ => ascii,
    };
    ask::plan(&rig.request, &key)
}

/// What a named fault can mean: with a size that is not named, several sizes, that of the true
/// one among them.
fn meant(rig: &Rig, truth: &Fault, named: &Value) -> Vec<Fault> {
    let plan = &rig.plan;
    let run = whole(&named["run"]);
    let coil = named["coil"].as_str().map(str::to_owned);
    let ends: Vec<String> =
        named["terminals"].as_array().into_iter().flatten().filter_map(terminal).collect();
    let two = || Some((ends.first()?.clone(), ends.get(1)?.clone()));
    let since = |terminal: &str| {
        let comes = plan.runs.iter().filter(|run| run.from == terminal || run.to == terminal);
        comes.map(|run| run.act).min()
    };
    let of_truth = match truth {
        Fault::Loose(_, _, ohms) | Fault::Leads(ohms) => Some(*ohms),
        Fault::Turns(_, left) => Some(*left),
        Fault::OtherDriver(_, _, kind) | Fault::OtherGroup(_, _, kind) => Some(*kind),
        Fault::Meter(gain) => Some(*gain),
        _ => None,
    };
    let sizes = |some: &[f64]| some.iter().copied().chain(of_truth).collect::<Vec<_>>();
    match named["kind"].as_str().unwrap_or_default() {
        "nothing" | "reversed" => vec![Fault::Nothing],
        "missing" | "capacitor" => run.map(Fault::Missing).into_iter().collect(),
        "loose" => {
            let ohms = sizes(&[0.5, 0.7, 1.0, 1.4, 2.0, 2.8, 4.0, 5.6, 8.0, 11.0, 16.0, 23.0]);
            let at = [At::From, At::To, At::Along];
            let every = run.into_iter().flat_map(|run| at.map(|at| (run, at)));
            every
                .flat_map(|(run, at)| ohms.iter().map(move |ohms| Fault::Loose(run, at, *ohms)))
                .collect()
        }
        "wrong_end" => wrong_ends(plan, run, &ends),
        "extra" => {
            // It may have been placed with any run.
            let mut acts: Vec<usize> = plan.runs.iter().map(|run| run.act).collect();
            acts.dedup();
            let all = two().into_iter();
            all.flat_map(|(a, b)| {
                acts.iter().map(move |act| Fault::Extra(a.clone(), b.clone(), *act))
            })
            .collect()
        }
        "strand" => {
            let both = two().into_iter().flat_map(|(a, b)| [(a.clone(), b.clone()), (b, a)]);
            both.filter_map(|(a, b)| Some(Fault::Strand(a.clone(), b, since(&a)?))).collect()
        }
        "otherwise" => named["network"]
            .as_str()
            .and_then(|network| other(rig, network))
            .map(|plan| Fault::Otherwise(plan.key.clone(), in_acts_of(&rig.plan, &plan)))
            .into_iter()
            .collect(),
        "coil_open" => coil.map(Fault::CoilOpen).into_iter().collect(),
        "coil_short" => coil.map(|coil| Fault::CoilShort(coil, 0.0)).into_iter().collect(),
        "turns" => {
            let left = sizes(&[0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8]);
            let coils = coil.into_iter();
            coils
                .flat_map(|coil| left.iter().map(move |l| Fault::Turns(coil.clone(), *l)))
                .collect()
        }
        "other_driver" | "other_group" => {
            let times = named["times"].as_f64().unwrap_or(1.0);
            let kinds = sizes(&[0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 1.0, 1.05]);
            let driver = whole(&named["driver"]);
            let group = whole(&named["group"]);
            let every = kinds.into_iter().filter_map(|kind| match (driver, group) {
                (Some(driver), _) => Some(Fault::OtherDriver(driver, times, kind)),
                (None, Some(group)) => Some(Fault::OtherGroup(group, times, kind)),
                _ => None,
            });
            every.collect()
        }
        "leads" => sizes(&[0.5, 1.0, 2.0, 4.0]).into_iter().map(Fault::Leads).collect(),
        "meter" => sizes(&[0.5, 0.7, 1.4, 2.0]).into_iter().map(Fault::Meter).collect(),
        _ => Vec::new(),
    }
}

/// A run with an end where it does not belong: which end is told by where it belongs.
fn wrong_ends(plan: &Plan, run: Option<usize>, ends: &[String]) -> Vec<Fault> {
    let Some((run, (is, belongs))) = run.zip(ends.first().zip(ends.get(1))) else {
        return Vec::new();
    };
    let Some(planned) = plan.run(run) else { return Vec::new() };
    let which = [&planned.from, &planned.to];
    let ends = (0..2).filter(|end| which.get(*end) == Some(&belongs));
    ends.map(|end| Fault::WrongEnd(run, end, is.clone())).collect()
}
