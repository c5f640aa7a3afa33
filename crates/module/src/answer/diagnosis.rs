//! What readings say is wrong with a plan as it was built, as the contract shows it.

use super::fault::{FoundFault, of_fault};
use super::readings::ReadingPoint;
use super::shape::{self, Described, Named, Shape, Shaped, Word, named, objects};
use super::{CONTRACT_VERSION, Problem};
use crate::planned::Planned;
use crate::reader::Entry;
use coilwright_solver::defect::Defect;
use coilwright_solver::meter::{self, Agreement, Fit, Known, Point, Question, Read};
use coilwright_solver::problem::Problem as FoundProblem;
use coilwright_words::english::finding;
use serde::Serialize;

named! {
    /// An easy cause that is asked about before anything is measured again.
    Question: AmplifierOff, MeterRight, Cool;
    /// How well an explanation fits what was read.
    Fit: Well, Roughly, Not;
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
        let found = Self::found(planned, entries);
        found.unwrap_or_else(|defect| Self::of_problems(&[defect.into()]))
    }

    fn found(planned: &Planned, entries: &[Entry]) -> Result<Self, Defect> {
        let wording = planned.wording();
        let mut reads: Vec<Read> = Vec::new();
        let mut answers: Vec<(Question, bool)> = Vec::new();
        for entry in entries {
            match *entry {
                Entry::Read(read) => reads.push(read),
                Entry::Answer(question, answer) => answers.push((question, answer)),
            }
        }
        let found = meter::diagnose(&wording.job(), &reads, &answers);
        if let Some(defect) = found.defect {
            return Err(defect);
        }
        let mut agreements = found.agreements.iter().copied().map(Word);
        let next = |point: &Point| {
            let known = Known::of(&wording.job(), &reads)?;
            let foretold = meter::foretold(wording.rig, wording.plan, &known, &[*point])?.pop();
            let open = meter::left_open(&wording.job(), &known, &[*point], &found.others)?.pop();
            // One point was asked about.
            let (foretold, open) = foretold.zip(open).ok_or(Defect::Table)?;
            Ok(ReadingPoint::of(&wording, point, foretold, &open, &found.others))
        };
        let next = found.next.as_ref().map(next).transpose()?;
        let explanations = found.explanations.iter().map(|one| Explanation {
            share: one.share,
            fit: Word(one.fit),
            faults: one
                .faults
                .iter()
                .map(|fault| of_fault(&wording, fault, &found.others))
                .collect(),
        });
        Ok(Self {
            key: Some(wording.configuration.key()),
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
        })
    }
}
