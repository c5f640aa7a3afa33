//! How well and with how much effort a fault is found: a fixed sample of rigs with one
//! thing wrong, read by a meter that is as wrong as meters are.

use crate::draw::Draw;
use coilwright_solver::answer::Configuration;
use coilwright_solver::meter::{
    self, Agreement, Fault, Job, Kind, Other, Place, Point, Question, Read, Reading, WEIGHTS,
    catalogue, diagnose,
};
use coilwright_solver::rig::{Build, BuildDraft, Cups, Rig};
use coilwright_solver::wiring::Plan;
use proof::faulted::deck;
use proof::rigs::{Filters, Stated, drivers, list_on, request};
use proof::told::Told;
use proof::tree::Leaf;

/// A plan with everything that may be wrong with it.
pub(crate) struct Bench {
    pub(crate) rig: Rig,
    pub(crate) build: Build,
    pub(crate) configuration: Configuration,
    pub(crate) plan: Plan,
    pub(crate) faults: Vec<(Fault, f64)>,
    pub(crate) others: Vec<Other>,
}

impl Bench {
    pub(crate) fn job(&self) -> Job<'_> {
        Job {
            rig: &self.rig,
            build: &self.build,
            configuration: &self.configuration,
            plan: &self.plan,
        }
    }

    pub(crate) fn last(&self) -> Point {
        Point { act: meter::last_check(&self.plan).unwrap(), place: Place::Step }
    }
}

/// All even joined configurations of up to so many dual-coil drivers in the three boxes.
pub(crate) fn benches(most: u32) -> Vec<Bench> {
    let mut all = Vec::new();
    for count in 1..=most {
        for ohms in ["1", "2", "4"] {
            let kind = [drivers(count, 2, ohms)];
            for (cups, pairs) in [(Cups::None, 1), (Cups::One, 1), (Cups::Driver, 2)] {
                let mut amplifier = Stated { least: Some("1/4"), rated: &[] }.mono();
                amplifier.channels[0].terminal_pairs = Some(pairs);
                let rig = request(&kind, Some(amplifier.clone()), Filters::ON).rig;
                let list = list_on(&kind, Some(amplifier), Filters::ON).configurations;
                for configuration in list {
                    let draft = BuildDraft { cups, ..BuildDraft::default() };
                    let Ok(build) = draft.check(&rig) else { continue };
                    let Ok(plan) = Plan::of(&rig, &build, &configuration) else { continue };
                    let job = Job {
                        rig: &rig,
                        build: &build,
                        configuration: &configuration,
                        plan: &plan,
                    };
                    let (faults, others) = catalogue(&job).unwrap();
                    all.push(Bench {
                        rig: rig.clone(),
                        build: build.clone(),
                        configuration: configuration.clone(),
                        plan,
                        faults,
                        others,
                    });
                }
            }
        }
    }
    all
}

/// One rig as it is: what nobody sees but through the meter.
pub(crate) struct Truth<'a> {
    bench: &'a Bench,
    fault: Fault,
    value: f64,
    coils: Vec<(Leaf, f64)>,
    leads: f64,
    draw: Draw,
}

impl<'a> Truth<'a> {
    pub(crate) fn of(bench: &'a Bench, fault: Fault, mut draw: Draw) -> Self {
        let value = match fault.kind() {
            Kind::Loose => libm::exp(draw.from(libm::log(0.3), libm::log(30.0))),
            Kind::Amplifier => libm::exp(draw.from(libm::log(0.3), libm::log(50.0))),
            Kind::Turns => draw.from(0.35, 0.8),
            Kind::Meter => *draw.one_of(&[0.7, 0.8, 0.85, 1.2, 1.3, 1.45]),
            _ => 1.0,
        };
        let factor = draw.from(0.7, 1.05);
        let mut coils = Vec::new();
        let group = &bench.rig.groups()[0];
        for driver in 0..group.count as u8 {
            for coil in 0..group.coils as u8 {
                let own = draw.from(0.96, 1.04);
                coils.push((Leaf { driver, coil }, group.ohms.to_f64() * factor * own));
            }
        }
        let times = match fault {
            Fault::OtherGroup { times, .. } => times,
            _ => (1, 1),
        };
        if times != (1, 1) {
            for (_, ohms) in &mut coils {
                *ohms *= f64::from(times.0) / f64::from(times.1);
            }
        }
        let leads = match fault.kind() {
            Kind::Leads => draw.from(0.6, 3.0),
            _ => draw.from(0.0, 0.5),
        };
        Self { bench, fault, value, coils, leads, draw }
    }

    /// What the meter shows.
    pub(crate) fn read(&mut self, point: Point) -> Reading {
        let Self { bench, fault, value, coils, .. } = self;
        let deck = deck(&bench.plan, coils, fault, *value, &bench.others, &point);
        let ohms = deck.as_ref().map_or(0.0, proof::faulted::Deck::ohms);
        if ohms > 1e6 {
            return Reading::Open;
        }
        let touching = deck.is_none();
        let mut shown = ohms + self.leads + self.draw.from(-0.05, 0.05);
        if !touching {
            shown *= 1.0 + self.draw.from(-0.01, 0.01);
            shown += self.draw.from(-0.2, 0.2);
        }
        if self.fault.kind() == Kind::Meter {
            shown *= self.value;
        }
        Reading::Ohms { ohms: (shown.max(0.0) * 10.0).round() / 10.0, count: 0.1 }
    }

    /// Whether no reading tells a fault from what is true: it differs by less than 0.15 Ω or
    /// 8 % at every point, for some value that the fault may have.
    fn looks_like(&self, fault: &Fault) -> bool {
        let apart =
            |fault: &Fault| matches!(fault.kind(), Kind::Leads | Kind::Meter | Kind::OtherGroup);
        if apart(fault) || apart(&self.fault) {
            return false;
        }
        let bench = self.bench;
        let nominal = bench.rig.groups()[0].ohms.to_f64() * 0.875;
        let coils: Vec<(Leaf, f64)> = self.coils.iter().map(|(leaf, _)| (*leaf, nominal)).collect();
        let points = plain(&bench.plan);
        let ohms = |fault: &Fault, value: f64, point: &Point| {
            deck(&bench.plan, &coils, fault, value, &bench.others, point)
                .map_or(0.0, |deck| deck.ohms())
        };
        let ways = meter::shown(&bench.job(), fault, &bench.others, &points[0]).unwrap();
        ways.iter().any(|way| {
            points.iter().all(|point| {
                let a = ohms(&self.fault, self.value, point);
                let b = ohms(fault, way.value.unwrap_or(1.0), point);
                (a - b).abs() < f64::max(0.15, 0.08 * a.max(b))
            })
        })
    }

    /// The rig with its coils measured: each within four parts of a hundred of what a sound
    /// one would have had.
    fn measured(&mut self) -> Rig {
        let mut rig = self.bench.rig.clone();
        let mut ohms = Vec::new();
        for (leaf, coil) in &self.coils {
            let times = match self.fault {
                Fault::OtherDriver { driver, times } if driver == leaf.driver => times,
                _ => (1, 1),
            };
            ohms.push(coil * f64::from(times.0) / f64::from(times.1) * self.draw.from(0.96, 1.04));
        }
        rig = with_measured(&rig, ohms);
        rig
    }
}

fn with_measured(rig: &Rig, ohms: Vec<f64>) -> Rig {
    let group = &rig.groups()[0];
    let draft = coilwright_solver::rig::GroupDraft {
        count: Some(group.count),
        coils: Some(group.coils),
        ohms: Some(group.ohms),
        dc_ohms: Some(ohms),
        ..Default::default()
    };
    let amplifier = rig.amplifier().map(|amplifier| {
        let channel = &amplifier.channels[0];
        let mut stated = Stated { least: Some("1/4"), rated: &[] }.mono();
        stated.channels[0].terminal_pairs = Some(channel.terminal_pairs);
        stated
    });
    coilwright_solver::rig::Draft { groups: vec![draft], amplifier }.check(Vec::new()).unwrap()
}

/// How it went.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Score {
    cases: f64,
    first: f64,
    three: f64,
    readings: f64,
    effort: f64,
}

impl Score {
    fn add(&mut self, more: &Self) {
        self.cases += more.cases;
        self.first += more.first;
        self.three += more.three;
        self.readings += more.readings;
        self.effort += more.effort;
    }

    /// The effort of all readings.
    pub(crate) const fn effort(&self) -> f64 {
        self.effort
    }
}

/// In which way the next reading is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Policy {
    /// As the solver says.
    Chosen,
    /// In the order of the points.
    Plain,
}

pub(crate) fn find(
    truth: &mut Truth<'_>,
    measured: bool,
    zeroed: bool,
    policy: Policy,
    score: &mut Score,
) -> bool {
    let bench = truth.bench;
    let rig = if measured { truth.measured() } else { bench.rig.clone() };
    let job = Job { rig: &rig, ..bench.job() };
    if measured && meter::coils(&job, &[]).unwrap().iter().any(|(_, one)| *one != Agreement::Right)
    {
        // Named as soon as the coils are measured.
        let named = matches!(truth.fault.kind(), Kind::OtherDriver | Kind::OtherGroup);
        score.cases += 1.0;
        score.first += f64::from(u8::from(named));
        score.three += f64::from(u8::from(named));
        return named;
    }
    let answers = [
        (Question::AmplifierOff, truth.fault.kind() != Kind::Amplifier),
        (Question::MeterRight, !matches!(truth.fault.kind(), Kind::Leads | Kind::Meter)),
        (Question::Cool, true),
    ];
    let mut answered = false;
    let mut reads: Vec<Read> = Vec::new();
    let leads = Point { act: 0, place: Place::Step };
    if zeroed {
        reads.push(Read { point: leads, reading: truth.read(leads) });
    }
    let mut point = bench.last();
    let mut plain = plain(&bench.plan).into_iter().filter(|one| *one != bench.last());
    let mut taken = 0.0;
    let mut effort = 0.0;
    loop {
        let reading = truth.read(point);
        reads.push(Read { point, reading });
        taken += 1.0;
        effort += f64::from(point.effort(&bench.plan));
        let mut found = diagnose(&job, &reads, if answered { &answers } else { &[] });
        if !found.questions.is_empty() && !answered {
            // Asked in words before anything else is read.
            answered = true;
            found = diagnose(&job, &reads, &answers);
        }
        let next = match policy {
            Policy::Chosen => found.next,
            Policy::Plain if found.next.is_none() => None,
            Policy::Plain => plain.find(|one| reads.iter().all(|read| read.point != *one)),
        };
        if let Some(next) = next.filter(|_| reads.len() < 60) {
            point = next;
            continue;
        }
        let place = found.explanations.iter().position(|one| {
            one.faults.contains(&truth.fault)
                || one.faults.iter().any(|fault| truth.looks_like(fault))
        });
        score.cases += 1.0;
        score.first += f64::from(u8::from(place == Some(0)));
        score.three += f64::from(u8::from(place.is_some_and(|place| place < 3)));
        score.readings += taken;
        score.effort += effort;
        return place == Some(0);
    }
}

/// The check points in plain order, as far as everything built allows them.
fn plain(plan: &Plan) -> Vec<Point> {
    let last = meter::last_check(plan).unwrap();
    let closer = meter::points(plan)
        .into_iter()
        .filter(|point| point.act == last || matches!((point.act, point.place), (0, Place::Step)));
    closer.collect()
}

/// Prints the table over so many cases; the plain order over every fifth of them, since it
/// takes three times as many readings.
pub(crate) fn print(cases: usize, told: &mut Told) {
    let benches = benches(4);
    told.line("| coils | leads | order | first | in three | readings | effort |");
    told.line("|---|---|---|--:|--:|--:|--:|");
    let mut kinds = Vec::new();
    for (measured, zeroed) in [(true, true), (true, false), (false, true), (false, false)] {
        for (policy, stride) in [(Policy::Chosen, 1), (Policy::Plain, 5)] {
            let by_kind = sample(&benches, cases, stride, measured, zeroed, policy);
            let mut all = Score::default();
            for (_, score) in &by_kind {
                all.add(score);
            }
            row(measured, zeroed, policy, &all, told);
            if policy == Policy::Chosen && zeroed {
                kinds.push(by_kind);
            }
        }
    }
    told.line("\n| fault, leads read | first, measured | effort | first, nominal | effort |");
    told.line("|---|--:|--:|--:|--:|");
    if let [measured, nominal] = kinds.as_slice() {
        for ((kind, a), (_, b)) in measured.iter().zip(nominal) {
            let [(a, b), (c, d)] =
                [a, b].map(|one| (100.0 * one.first / one.cases, one.effort / one.cases));
            told.line(format_args!("| {kind:?} | {a:.1} % | {b:.0} | {c:.1} % | {d:.0} |"));
        }
    }
}

/// Kinds of fault in turn, on two cores.
fn sample(
    benches: &[Bench],
    cases: usize,
    stride: usize,
    measured: bool,
    zeroed: bool,
    policy: Policy,
) -> Vec<(Kind, Score)> {
    let kinds: Vec<Kind> =
        WEIGHTS.iter().map(|(kind, _)| *kind).filter(|kind| *kind != Kind::Nothing).collect();
    let half = |of: usize| {
        let mut by_kind: Vec<(Kind, Score)> =
            kinds.iter().map(|kind| (*kind, Score::default())).collect();
        for number in (0..cases).step_by(stride) {
            if number / stride % 2 != of {
                continue;
            }
            let mut draw = Draw::of(number as u64);
            let place = number / stride % kinds.len();
            let (kind, score) = &mut by_kind[place];
            let (bench, fault) = loop {
                let bench = draw.one_of(benches);
                let of: Vec<_> =
                    bench.faults.iter().filter(|(fault, _)| fault.kind() == *kind).collect();
                if !of.is_empty() {
                    break (bench, draw.one_of(&of).0);
                }
            };
            find(&mut Truth::of(bench, fault, draw), measured, zeroed, policy, score);
        }
        by_kind
    };
    std::thread::scope(|scope| {
        let other = scope.spawn(|| half(1));
        let mut all = half(0);
        for ((_, score), (_, more)) in all.iter_mut().zip(other.join().unwrap()) {
            score.add(&more);
        }
        all
    })
}

fn row(measured: bool, zeroed: bool, policy: Policy, score: &Score, told: &mut Told) {
    told.line(format_args!(
        "| {} | {} | {} | {:.1} % | {:.1} % | {:.1} | {:.1} |",
        if measured { "measured" } else { "nominal" },
        if zeroed { "read" } else { "not read" },
        if policy == Policy::Chosen { "chosen" } else { "plain" },
        100.0 * score.first / score.cases,
        100.0 * score.three / score.cases,
        score.readings / score.cases,
        score.effort / score.cases,
    ));
}
