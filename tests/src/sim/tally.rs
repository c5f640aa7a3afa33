//! Many jobs, counted.

use super::dice::Dice;
use super::draw::fault;
use super::fault::Fault;
use super::judge::{Named, cannot_exclude};
use super::plan::Point;
use super::rigs::{Known, Rig, rig};
use super::session::{Outcome, job};
use serde_json::{Value, json};

/// A job that can be done again.
#[derive(Clone, Copy, Debug)]
pub struct Case<'a> {
    /// Of the whole run.
    pub seed: u64,
    /// What is known of the coils.
    pub known: Known,
    /// The kind of fault.
    pub kind: &'a str,
    /// Counted from 0 within them.
    pub index: u64,
}

impl Case<'_> {
    /// The rig of the case and what is wrong with it; nothing where forty rigs in a row cannot
    /// have such a fault.
    pub fn drawn(&self) -> Option<(Rig, Fault)> {
        let name = format!("{} {} {}", self.known.name(), self.kind, self.index);
        let mut dice = Dice::of(self.seed, &name);
        (0..40).find_map(|_| {
            let rig = rig(dice.below(usize::MAX) as u64, self.known);
            let fault = fault(self.kind, &rig, &mut dice)?;
            Some((rig, fault))
        })
    }

    /// The case as a line: what whoever mends the solver needs to see it again.
    pub fn line(&self, rig: &Rig, fault: &Fault, outcome: &Outcome) -> Value {
        let first = &outcome.answer["explanations"][0];
        json!({
            "seed": self.seed,
            "known": self.known.name(),
            "kind": self.kind,
            "index": self.index,
            "request": rig.request,
            "key": rig.key,
            "fault": format!("{fault:?}"),
            "coils": rig.coils,
            "leads": rig.leads,
            "noticed": outcome.noticed,
            "stands": format!("{:?}", outcome.named),
            "entries": outcome.entries,
            "named": first["faults"],
            "share": first["share"],
            "fit": first["fit"],
            "next": outcome.answer["next"]["point"],
        })
    }
}

/// What came of the jobs of a kind.
#[derive(Clone, Debug, Default)]
pub struct Tally {
    /// Faults drawn.
    pub drawn: usize,
    /// Of these, with a prescribed reading that does not agree.
    pub noticed: usize,
    /// Of these, with the true fault itself among the first explanation.
    pub itself: usize,
    /// With one alike to it instead.
    pub alike: usize,
    /// With one instead that this meter cannot tell from it for sure: not counted as named.
    pub near: usize,
    /// Readings taken for them.
    pub readings: usize,
    /// Drawn faults of which every prescribed reading is right.
    pub silent: usize,
    /// Of these, doubted.
    pub doubted: usize,
    /// Of the silent ones, those whose kind some prescribed point says it cannot exclude.
    pub not_excluded: usize,
    /// Noticed, and something else is named.
    pub misses: Vec<Value>,
}

impl Tally {
    /// Share of the noticed that is named first.
    #[allow(clippy::cast_precision_loss, reason = "counts are small")]
    pub fn share(&self) -> f64 {
        (self.itself + self.alike) as f64 / self.noticed.max(1) as f64
    }

    /// Adds another.
    pub fn add(&mut self, other: &Self) {
        self.drawn += other.drawn;
        self.noticed += other.noticed;
        self.itself += other.itself;
        self.alike += other.alike;
        self.near += other.near;
        self.readings += other.readings;
        self.silent += other.silent;
        self.doubted += other.doubted;
        self.not_excluded += other.not_excluded;
        self.misses.extend(other.misses.iter().cloned());
    }
}

/// Faults of a kind until so many are noticed, or eight times as many are drawn. What is
/// reversed is never noticed: so many are drawn, and each counts as if it were.
pub fn kind(seed: u64, known: Known, kind: &str, wanted: usize) -> Tally {
    let mut tally = Tally::default();
    for index in 0..8 * wanted as u64 {
        if tally.noticed == wanted {
            break;
        }
        let case = Case { seed, known, kind, index };
        let Some((rig, fault)) = case.drawn() else { break };
        count(&mut tally, &case, &rig, &fault);
    }
    tally
}

fn count(tally: &mut Tally, case: &Case<'_>, rig: &Rig, fault: &Fault) {
    let outcome = job(rig, fault);
    let reversed = matches!(fault, Fault::Reversed(_));
    tally.drawn += 1;
    if !outcome.wrong {
        tally.silent += 1;
        tally.doubted += usize::from(outcome.doubted);
        let prescribed = rig.plan.prescribed(rig.leads_read, rig.known == Known::Read);
        let kind = fault.kind();
        let says = |point: &Point| point.cannot_exclude.iter().any(|named| named == kind);
        tally.not_excluded += usize::from(prescribed.iter().any(says));
    }
    if outcome.noticed.is_none() && !reversed {
        return;
    }
    tally.noticed += 1;
    tally.readings += outcome.readings;
    tally.near += usize::from(outcome.named == Named::Near);
    match outcome.named {
        Named::Itself => tally.itself += 1,
        Named::Alike => tally.alike += 1,
        Named::Near | Named::Other => tally.misses.push(case.line(rig, fault, &outcome)),
    }
}

/// What came of sound rigs.
#[derive(Clone, Debug, Default)]
pub struct Sound {
    /// Rigs.
    pub rigs: usize,
    /// With a prescribed reading that is called wrong.
    pub wrong: usize,
    /// With one that is doubted, and none that is called wrong.
    pub doubted: usize,
    /// Kinds that prescribed points say they cannot exclude.
    pub named: usize,
    /// Of these, those of which a drawn fault reads right there.
    pub indeed: usize,
    /// `sound` of each, where it is told.
    pub sound: Vec<f64>,
    /// Those called wrong or doubted.
    pub alarms: Vec<Value>,
}

/// Sound rigs.
pub fn sound(seed: u64, known: Known, many: usize) -> Sound {
    let mut found = Sound::default();
    for index in 0..many as u64 {
        let case = Case { seed, known, kind: "nothing", index };
        let Some((rig, fault)) = case.drawn() else { break };
        let outcome = job(&rig, &fault);
        weigh(&mut found, &rig);
        found.rigs += 1;
        found.wrong += usize::from(outcome.wrong);
        found.doubted += usize::from(outcome.doubted && !outcome.wrong);
        found.sound.extend(outcome.sound);
        if outcome.wrong || outcome.doubted {
            found.alarms.push(case.line(&rig, &fault, &outcome));
        }
    }
    found
}

/// Holds what the prescribed points say they cannot exclude to faults drawn for the rig.
fn weigh(found: &mut Sound, rig: &Rig) {
    for point in rig.plan.prescribed(rig.leads_read, rig.known == Known::Read) {
        for kind in &point.cannot_exclude {
            let mut dice = Dice::of(rig.seed, &format!("{} {kind}", point.name));
            let some: Vec<Fault> = (0..60).filter_map(|_| fault(kind, rig, &mut dice)).collect();
            found.named += 1;
            found.indeed += usize::from(cannot_exclude(rig, &point, &some));
        }
    }
}
