//! From a plan to what the contract shows of it: everything is counted from 1.

use super::{
    CONTRACT_VERSION, Cup, Ends, Foretold, Imbalance, Joined, Parts, Run, Step, Terminal,
    WireOfStage, Wiring, Word,
};
use crate::planned::Planned;
use coilwright_drawing::wired;
use coilwright_solver::meter;
use coilwright_solver::wiring::{Parts as FoundParts, Post, Run as FoundRun};
use coilwright_solver::wiring::{Step as FoundStep, Terminal as FoundTerminal};
use coilwright_words::english::wiring::{Step as Said, Wording};

impl Wiring {
    /// How a configuration is wired.
    pub(crate) fn of(planned: &Planned) -> Self {
        let wording = planned.wording();
        let plan = wording.plan;
        let cups = (1..).zip(&plan.cups).map(|(number, coils)| Cup {
            number,
            coils: coils.iter().map(ToString::to_string).collect(),
        });
        let joined = plan.joined.iter().map(|set| Joined {
            role: Word(set.role),
            output: from_one(set.output),
            terminals: set.terminals.iter().map(|terminal| (*terminal).into()).collect(),
        });
        let steps = (1..).zip(&plan.steps).enumerate();
        Self {
            contract_version: CONTRACT_VERSION,
            key: Some(wording.configuration.key()),
            joined_at_amplifier: plan.joined_at_amplifier,
            star_refused: plan.star_refused,
            imbalance: plan.imbalance.map(|found| Imbalance {
                ratio: found.ratio,
                decibels: found.decibels,
                least_driver: from_one(found.least),
            }),
            cups: cups.collect(),
            joined: joined.collect(),
            runs: (1..).zip(&plan.runs).map(|(number, found)| run(number, found)).collect(),
            steps: steps
                .map(|(at, (number, found))| step(number, *found, &wording, wording.step(at)))
                .collect(),
            parts: Some(parts(&plan.parts)),
            drawing: drawing(&wording),
            problems: Vec::new(),
        }
    }
}

/// The plan as a picture, a file of its own; none where a run has no way.
fn drawing(wording: &Wording<'_>) -> Option<String> {
    let labels = wired::Labels {
        drivers: wording.driver_labels(),
        names: wording.driver_names(),
        cups: wording.cup_labels(),
        outputs: wording.output_labels(),
    };
    let scene = wired::wired(wording.plan, &labels, None).ok()?;
    Some(scene.file(wired::look, &wording.drawing_title(), &wording.drawing_description()))
}

pub(in crate::answer) fn from_one(number: u8) -> u32 {
    u32::from(number) + 1
}

impl From<FoundTerminal> for Terminal {
    fn from(found: FoundTerminal) -> Self {
        let (number, pair, coil) = match found.post {
            Post::Amplifier { output, pair } => (output, Some(from_one(pair)), None),
            Post::CupOutside(number) | Post::CupInside(number) | Post::Splice(number) => {
                (number, None, None)
            }
            Post::Coil(coil) => (coil.driver, None, Some(coil.to_string())),
        };
        let marked = !matches!(found.post, Post::Splice(_));
        Self {
            at: Word(found.post),
            number: from_one(number),
            pair,
            coil,
            sign: marked.then_some(Word(found.sign)),
        }
    }
}

impl From<meter::Foretold> for Foretold {
    fn from(found: meter::Foretold) -> Self {
        let meter::Foretold { nominal, expected, low, high } = found;
        Self { nominal, expected, low, high }
    }
}

fn run(number: u32, found: &FoundRun) -> Run {
    Run {
        number,
        from: found.from.into(),
        to: found.to.into(),
        role: Word(found.role),
        stage: Word(found.stage),
        output: from_one(found.output),
        metres: found.metres,
        amps: found.amps,
        most_amps: found.most_amps,
    }
}

fn step(number: u32, found: FoundStep, wording: &Wording<'_>, said: Said) -> Step {
    let placed = found.run().and_then(|run| wording.plan.runs.get(run));
    let mut step = Step {
        number,
        kind: Word(found),
        run: None,
        driver: None,
        coil: None,
        stage: placed.map(|run| Word(run.stage)),
        probes: None,
        ends: None,
        foretold: None,
        title: said.title,
        text: said.text,
        caution: said.caution,
    };
    match found {
        FoundStep::Join { run } | FoundStep::Lay { run } | FoundStep::Land { run } => {
            step.run = Some(u32::from(run) + 1);
        }
        FoundStep::Coils { driver } | FoundStep::Polarity { driver } => {
            step.driver = Some(from_one(driver));
        }
        FoundStep::Insulate { coil } => {
            step.driver = Some(from_one(coil.driver));
            step.coil = Some(coil.to_string());
        }
        FoundStep::Check(check) => {
            step.stage = Some(Word(check.stage));
            step.probes = Some(vec![check.plus.into(), check.minus.into()]);
            step.ends = Some(u32::from(check.ends));
        }
        FoundStep::Leads | FoundStep::PowerOff | FoundStep::PowerOn => {}
    }
    let at = usize::try_from(number.saturating_sub(1)).unwrap_or(usize::MAX);
    step.foretold = wording.foretold.get(at).copied().flatten().map(Into::into);
    step
}

fn parts(found: &FoundParts) -> Parts {
    let wire = found.lots.iter().map(|lot| WireOfStage {
        stage: Word(lot.stage),
        runs: lot.runs,
        metres: lot.metres,
        amps: lot.amps,
    });
    let [driver, cup, amplifier] = found.ends;
    Parts {
        wire: wire.collect(),
        cups: found.cups,
        splices: found.splices.clone(),
        ends: Ends { driver, cup, amplifier },
        caps: found.caps,
    }
}
