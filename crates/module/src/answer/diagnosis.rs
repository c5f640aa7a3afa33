//! What readings say is wrong with a plan as it was built, as the contract shows it.

use super::readings::ReadingPoint;
use super::shape::{self, Described, Named, Shape, Shaped, Word, named, objects, spelled};
use super::wiring::{Terminal, from_one};
use super::{CONTRACT_VERSION, Problem};
use crate::planned::Planned;
use crate::reader::Entry;
use coilwright_solver::meter::{self, Agreement, Fault, Fit, Kind, Known, Other, Question, Read};
use coilwright_solver::network::Coil;
use coilwright_solver::problem::Problem as FoundProblem;
use coilwright_solver::wiring::Terminal as FoundTerminal;
use coilwright_words::english::{finding, wiring::Told};
use serde::Serialize;

named! {
    /// An easy cause that is asked about before anything is measured again.
    Question: AmplifierOff, MeterRight, Cool;
    /// How well an explanation fits what was read.
    Fit: Well, Roughly, Not;
}

spelled! {
    /// What may be wrong.
    Kind as "FaultKind":
        Self::Nothing => "nothing",
        Self::Missing => "missing",
        Self::WrongEnd => "wrong_end",
        Self::Extra => "extra",
        Self::Otherwise => "otherwise",
        Self::Loose => "loose",
        Self::Strand => "strand",
        Self::Leads => "leads",
        Self::Meter => "meter",
        Self::OtherDriver => "other_driver",
        Self::OtherGroup => "other_group",
        Self::CoilOpen => "coil_open",
        Self::CoilShort => "coil_short",
        Self::Turns => "turns",
        Self::Reversed => "reversed",
        Self::Crossed => "crossed",
        Self::Amplifier => "amplifier",
        Self::Capacitor => "capacitor";
}

objects! {
    /// What readings say is wrong, or what stood in the way: a hint where to look, no proof.
    Diagnosis {
        /// The version of this contract.
        contract_version: u32,
        /// The key of the configuration in its canonical writing; null with any problem.
        key: Option<String>,
        /// Whether each reading is what a sound rig reads, entry by entry as given; null for an answer to a question.
        agreements: Vec<Option<Word<Agreement>>>,
        /// Easy causes that are still to be asked about.
        questions: Vec<QuestionAsked>,
        /// What may be wrong, the likeliest first, at most eight; none where nothing reads wrong before the first check.
        explanations: Vec<Explanation>,
        /// The reading that tells most for its effort; null where one explanation is left, or no reading tells those apart that are.
        next: Option<ReadingPoint>,
        /// Whether ohms cannot tell what is left: sound, or a coil the wrong way round. Then polarity is checked.
        polarity: bool,
        /// How likely what was built is sound, or sound but for a coil the wrong way round, of all that may be: 0 to 1; null with any problem. Below a half, readings that would be right and yet speak against it are doubtful.
        sound: Option<f64>,
        /// Everything wrong with the request, the key and the readings; empty when it was answered.
        problems: Vec<Problem>,
    }
    /// An easy cause to ask about.
    QuestionAsked {
        /// Which.
        question: Word<Question>,
        /// The question in English; it is well answered by yes.
        text: String,
    }
    /// Faults that no reading tells apart.
    Explanation {
        /// How likely one of them is, of all that may be, by weights that are common practice: 0 to 1.
        share: f64,
        /// How well it fits.
        fit: Word<Fit>,
        /// The faults, the likeliest first.
        faults: Vec<FoundFault>,
    }
    /// Something that may be wrong.
    FoundFault {
        /// What it is.
        kind: Word<Kind>,
        /// The same in English.
        text: String,
        /// The run that it is in, counted from 1, or the first of two exchanged cables; else null.
        run: Option<u32>,
        /// Of a run: its ends. Of a wrong end: where it is, then where it belongs. Of what touches: both. Of exchanged cables: the pairs that they are meant for. Else empty.
        terminals: Vec<Terminal>,
        /// The coil that it is in; else null.
        coil: Option<String>,
        /// The driver that it is in, counted from 1; else null.
        driver: Option<u32>,
        /// The driver group that has other coils, counted from 1; else null.
        group: Option<u32>,
        /// Of other coils: their ohms over those stated; else null.
        times: Option<f64>,
        /// Of coils that are joined otherwise: how, on their output; else null.
        network: Option<String>,
    }
}

impl Diagnosis {
    /// An answer that is nothing but problems.
    ///
    /// # Example
    /// ```
    /// use coilwright_module::answer::Diagnosis;
    /// use coilwright_solver::problem::{Code, Detail, Path, Problem};
    /// let problem = Problem::new(Path::root(), Code::NotAnObject, Detail::None);
    /// let diagnosis = Diagnosis::of_problems(&[problem]);
    /// assert_eq!((diagnosis.key, diagnosis.problems.len()), (None, 1));
    /// ```
    #[must_use]
    pub fn of_problems(problems: &[FoundProblem]) -> Self {
        Self {
            contract_version: CONTRACT_VERSION,
            key: None,
            agreements: Vec::new(),
            questions: Vec::new(),
            explanations: Vec::new(),
            next: None,
            polarity: false,
            sound: None,
            problems: problems.iter().map(Problem::from).collect(),
        }
    }

    /// What a list of readings and answers says of a plan.
    pub(crate) fn of(planned: &Planned, entries: &[Entry]) -> Self {
        let told = planned.told();
        let mut reads: Vec<Read> = Vec::new();
        let mut answers: Vec<(Question, bool)> = Vec::new();
        for entry in entries {
            match *entry {
                Entry::Read(read) => reads.push(read),
                Entry::Answer(question, answer) => answers.push((question, answer)),
            }
        }
        let found = meter::diagnose(&told.job(), &reads, &answers);
        let mut agreements = found.agreements.iter().copied().map(Word);
        let next = found.next.as_ref().map(|point| {
            let known = Known::of(&told.job(), &reads);
            let foretold = meter::foretold(told.rig, told.plan, &known, &[*point]);
            let open = meter::left_open(&told.job(), &known, &[*point], &found.others);
            let open = open.into_iter().next().unwrap_or_default();
            let foretold = foretold.into_iter().next().flatten();
            ReadingPoint::of(&told, point, foretold, &open, &found.others)
        });
        let explanations = found.explanations.iter().map(|one| Explanation {
            share: one.share,
            fit: Word(one.fit),
            faults: one.faults.iter().map(|fault| of_fault(&told, fault, &found.others)).collect(),
        });
        Self {
            key: Some(told.configuration.key()),
            agreements: entries
                .iter()
                .map(|entry| match entry {
                    Entry::Read(_) => agreements.next(),
                    Entry::Answer(..) => None,
                })
                .collect(),
            questions: found
                .questions
                .iter()
                .map(|question| QuestionAsked {
                    question: Word(*question),
                    text: finding::question(*question).to_owned(),
                })
                .collect(),
            explanations: explanations.collect(),
            next,
            polarity: found.polarity,
            sound: Some(found.sound),
            ..Self::of_problems(&[])
        }
    }
}

pub(super) fn of_fault(told: &Told<'_>, fault: &Fault, others: &[Other]) -> FoundFault {
    let mut found = FoundFault {
        kind: Word(fault.kind()),
        text: told.fault(fault, others),
        run: None,
        terminals: Vec::new(),
        coil: None,
        driver: None,
        group: None,
        times: None,
        network: None,
    };
    let run = |run: u16| told.plan.runs.get(usize::from(run));
    let factor = |(over, under): (u8, u8)| Some(f64::from(over) / f64::from(under));
    let mut terminals: Vec<FoundTerminal> = Vec::new();
    match *fault {
        Fault::Missing { run: at } | Fault::Loose { run: at } | Fault::Capacitor { run: at } => {
            found.run = Some(u32::from(at) + 1);
            terminals.extend(run(at).into_iter().flat_map(|run| [run.from, run.to]));
        }
        Fault::WrongEnd { run: at, start, on } => {
            found.run = Some(u32::from(at) + 1);
            terminals.push(on);
            terminals.extend(run(at).map(|run| if start { run.from } else { run.to }));
        }
        Fault::Extra { from, to } => terminals.extend([from, to]),
        Fault::Strand { a, b } => terminals.extend([a, b]),
        Fault::Crossed { a, b } => {
            found.run = Some(u32::from(a) + 1);
            let cables = [run(a), run(b)].into_iter().flatten();
            terminals.extend(cables.flat_map(|run| run.from.post.ends()));
        }
        Fault::CoilOpen(Coil { driver, .. })
        | Fault::CoilShort(Coil { driver, .. })
        | Fault::Turns(Coil { driver, .. }) => found.driver = Some(from_one(driver)),
        Fault::OtherDriver { driver, times } => {
            found.driver = Some(from_one(driver));
            found.times = factor(times);
        }
        Fault::OtherGroup { group, times } => {
            found.group = Some(from_one(group));
            found.times = factor(times);
        }
        Fault::Otherwise(at) => {
            found.network = others.get(usize::from(at)).map(|other| other.network.to_string());
        }
        Fault::Nothing | Fault::Leads | Fault::Meter | Fault::Reversed | Fault::Amplifier => {}
    }
    if let Fault::CoilOpen(coil) | Fault::CoilShort(coil) | Fault::Turns(coil) = fault {
        found.coil = Some(coil.to_string());
    }
    found.terminals = terminals.into_iter().map(Into::into).collect();
    found
}
