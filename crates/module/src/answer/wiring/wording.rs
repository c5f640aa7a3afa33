//! From a plan to what the contract shows of it: everything is counted from 1.

use super::{
    Act, CONTRACT_VERSION, Cup, Ends, Foretold, Imbalance, Joined, Parts, Run, Step, Terminal,
    WireOfStage, Wiring, Word,
};
use crate::planned::Planned;
use coilwright_drawing::wired;
use coilwright_solver::meter;
use coilwright_solver::wiring::{
    Act as FoundAct, Site, Step as FoundStep, Terminal as FoundTerminal,
};
use coilwright_solver::wiring::{Parts as FoundParts, Post, Run as FoundRun};
use coilwright_words::english::page::wire::{LOOKS, MARKED};
use coilwright_words::english::wiring::{Said, Wording};

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
            steps: (1..).zip(&plan.steps).map(|(number, of)| step(number, *of, &wording)).collect(),
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
        bridged: wording.bridged_labels(),
        marked: MARKED.map(str::to_owned).into(),
        legend: LOOKS.map(str::to_owned),
    };
    let scene = wired::wired(wording.plan, &labels, &[]).ok()?;
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

fn step(number: u32, found: FoundStep, wording: &Wording<'_>) -> Step {
    let at = usize::try_from(number.saturating_sub(1)).unwrap_or(usize::MAX);
    let said = wording.step(at);
    let acts = found.acts().filter_map(|at| {
        let number = u32::try_from(at).ok()?.checked_add(1)?;
        Some(act(number, *wording.plan.acts.get(at)?, wording, wording.act(at)))
    });
    Step {
        number,
        stage: Word(found.site),
        driver: match found.site {
            Site::Driver(driver) => Some(from_one(driver)),
            _ => None,
        },
        runs: found
            .runs(wording.plan)
            .into_iter()
            .filter_map(|run| u32::try_from(run).ok()?.checked_add(1))
            .collect(),
        text: said.text(),
        title: said.title,
        caution: said.caution,
        acts: acts.collect(),
    }
}

fn act(number: u32, found: FoundAct, wording: &Wording<'_>, said: Said) -> Act {
    let placed = found.run().and_then(|run| wording.plan.runs.get(run));
    let mut act = Act {
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
        FoundAct::Join { run } | FoundAct::Lay { run } | FoundAct::Land { run } => {
            act.run = Some(u32::from(run) + 1);
        }
        FoundAct::Coils { driver } | FoundAct::Polarity { driver } => {
            act.driver = Some(from_one(driver));
        }
        FoundAct::Insulate { coil } => {
            act.driver = Some(from_one(coil.driver));
            act.coil = Some(coil.to_string());
        }
        FoundAct::Check(check) => {
            act.stage = Some(Word(check.stage));
            act.probes = Some(vec![check.plus.into(), check.minus.into()]);
            act.ends = Some(u32::from(check.ends));
        }
        FoundAct::Leads | FoundAct::PowerOff | FoundAct::PowerOn => {}
    }
    let at = usize::try_from(number.saturating_sub(1)).unwrap_or(usize::MAX);
    act.foretold = wording.foretold_at(at).map(Into::into);
    act
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
