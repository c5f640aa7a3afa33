//! A request being answered, a slice at a time, and the second question that the page
//! asks by itself: where nothing is even, what uneven configurations are there?

use coilwright_solver::answer::{Answer, Configurations, Progress, Request, Step};

/// A request and its answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answered {
    /// The request.
    pub request: Request,
    /// Its answer.
    pub answer: Answer,
    /// Where only even configurations were asked for and there are none: the uneven ones.
    pub uneven: Option<Answer>,
}

impl Answered {
    /// The answer whose configurations are shown.
    #[must_use]
    pub fn shown(&self) -> &Answer {
        self.uneven.as_ref().unwrap_or(&self.answer)
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

    /// Works for about `budget` counted steps.
    ///
    /// # Errors
    /// How far it is, while there is more to do.
    pub fn step(&mut self, budget: u64) -> Result<Answered, Progress> {
        let answer = match self.configurations.step(budget) {
            Step::More(progress) => return Err(progress),
            Step::Done(answer) => *answer,
        };
        if let Some(first) = self.first.take() {
            return Ok(Answered {
                request: self.request.clone(),
                answer: first,
                uneven: Some(answer),
            });
        }
        if self.request.even_only && answer.total == Some(0) && answer.problems.is_empty() {
            let uneven = Request { even_only: false, ..self.request.clone() };
            self.configurations = Configurations::new(uneven);
            self.first = Some(answer);
            return Err(Progress { done: 0, of: 0 });
        }
        Ok(Answered { request: self.request.clone(), answer, uneven: None })
    }
}
