//! A request being answered, a slice at a time, and the questions that the page asks by
//! itself: where nothing is even, what uneven configurations are there? Where nothing
//! fits, what would?

use coilwright_solver::answer::{
    Answer, Configuration, Configurations, Progress, Request, Row, Step, View, Wanted,
};
use std::rc::Rc;

/// A request and its answer.
#[derive(Clone, Debug)]
pub struct Answered {
    /// The request.
    pub request: Request,
    /// Its answer; of the configurations only the first.
    pub answer: Answer,
    /// Where only even configurations were asked for and there are none: the uneven ones.
    pub uneven: Option<Answer>,
    /// The list behind the answer that is shown.
    list: Rc<Configurations>,
}

impl Answered {
    /// The answer whose configurations are shown.
    #[must_use]
    pub fn shown(&self) -> &Answer {
        self.uneven.as_ref().unwrap_or(&self.answer)
    }

    /// The configuration ranked first.
    #[must_use]
    pub fn first(&self) -> Option<&Configuration> {
        self.shown().configurations.first()
    }

    /// The list as wanted; nothing is written yet.
    #[must_use]
    pub fn view(&self, wanted: &Wanted) -> View {
        self.list.view(wanted)
    }

    /// Some rows of it.
    #[must_use]
    pub fn rows(&self, view: &View, from: u64, count: u32) -> Vec<Row> {
        self.list.rows(view, from, count)
    }

    /// Whether both filters hold for the configurations that are shown.
    #[must_use]
    pub fn is_filtered(&self) -> bool {
        self.request.joined_only && self.request.even_only && self.uneven.is_none()
    }

    /// Whether there is an amplifier that could judge, and nothing listed fits it. The
    /// first of the list fits if any does.
    #[must_use]
    pub fn none_fits(&self) -> bool {
        self.first().is_some_and(|first| first.verdict.is_low())
    }
}

/// An answer under way.
#[derive(Debug)]
pub struct Question {
    request: Request,
    configurations: Configurations,
    first: Option<Answer>,
}

impl Question {
    /// Begins on a request.
    #[must_use]
    pub fn new(request: Request) -> Self {
        Self { configurations: Configurations::new(request.clone()), request, first: None }
    }

    /// Works for about `budget` counted steps. The answer is given once.
    ///
    /// # Errors
    /// How far it is, while there is more to do.
    pub fn step(&mut self, budget: u64) -> Result<Answered, Progress> {
        let answer = match self.configurations.step(budget) {
            Step::More(progress) => return Err(progress),
            Step::Done(answer) => *answer,
        };
        if self.first.is_none()
            && self.request.even_only
            && answer.total == Some(0)
            && answer.problems.is_empty()
        {
            let uneven = Request { even_only: false, ..self.request.clone() };
            self.configurations = Configurations::new(uneven);
            self.first = Some(answer);
            return Err(Progress { done: 0, of: 0 });
        }
        let (answer, uneven) = match self.first.take() {
            Some(first) => (first, Some(answer)),
            None => (answer, None),
        };
        let empty = Configurations::new(self.request.clone());
        let list = Rc::new(core::mem::replace(&mut self.configurations, empty));
        Ok(Answered { request: self.request.clone(), answer, uneven, list })
    }

    /// Works to the end.
    #[cfg(test)]
    pub(crate) fn answer(request: Request) -> Rc<Answered> {
        let mut question = Self::new(request);
        loop {
            if let Ok(answered) = question.step(u64::MAX) {
                return Rc::new(answered);
            }
        }
    }
}
