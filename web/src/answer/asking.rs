//! A request being answered, a slice at a time, and the questions that the page asks by
//! itself: where nothing is even, what uneven configurations are there? Where nothing
//! fits, what would?

use coilwright_solver::answer::{
    Answer, Configuration, Configurations, Grouping, Progress, Request, Row, Step, View, Wanted,
};
use coilwright_solver::defect::Defect;
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

    /// Where the solver found itself wrong on the list, so that some of it is not told.
    #[must_use]
    pub fn defect(&self) -> Option<Defect> {
        self.list.defect()
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
    /// The answer, while its groups are still to be found.
    answer: Option<Answer>,
    grouping: Grouping,
}

impl Question {
    /// Begins on a request.
    #[must_use]
    pub fn new(request: Request) -> Self {
        Self {
            configurations: Configurations::new(request.clone()),
            request,
            first: None,
            answer: None,
            grouping: Grouping::default(),
        }
    }

    /// Works for about `budget` counted steps. The answer is given once, when it is known
    /// which rows stand for which where they do, so that the list is there at once.
    ///
    /// # Errors
    /// How far it is, while there is more to do.
    pub fn step(&mut self, budget: u64) -> Result<Answered, Progress> {
        let filtered = self.request.joined_only && self.request.even_only && self.first.is_none();
        if self.answer.is_none() {
            let answer = match self.configurations.step(budget) {
                Step::More(listed) if filtered => return Err(listed),
                Step::More(listed) => return Err(a_quarter(listed)),
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
            self.answer = Some(answer);
            if !filtered {
                return Err(the_rest(self.grouping.progress(&self.configurations)));
            }
        }
        if !filtered && !self.configurations.find_groups(&mut self.grouping, budget) {
            return Err(the_rest(self.grouping.progress(&self.configurations)));
        }
        let answer = self.answer.take().unwrap_or_default();
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

/// Of a list with groups, listing is about a quarter of the work.
fn a_quarter(listed: Progress) -> Progress {
    Progress { of: listed.of.saturating_mul(4), ..listed }
}

/// And finding the groups is the rest.
fn the_rest(found: Progress) -> Progress {
    let done = found.done.saturating_mul(3).saturating_add(found.of);
    Progress { done, of: found.of.saturating_mul(4) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coilwright_solver::bounds::Field;
    use coilwright_solver::rig::{Draft, GroupDraft};

    /// Three dual drivers with both filters off: 202 configurations, many of them alike.
    fn three() -> Request {
        let group = GroupDraft {
            count: Some(3),
            coils: Some(2),
            ohms: Field::CoilOhms.ohms_text("4").ok(),
            ..GroupDraft::default()
        };
        let rig = Draft { groups: vec![group], amplifier: None }.check(Vec::new()).unwrap();
        Request { rig, joined_only: false, even_only: false, limit: 1 }
    }

    #[test]
    fn groups_are_found_in_slices_before_the_answer_is_given() {
        let mut question = Question::new(three());
        let (mut before, mut slices) = (0, 0);
        let answered = loop {
            match question.step(100) {
                Ok(answered) => break answered,
                Err(Progress { done, of }) => {
                    let percent = (done * 100).checked_div(of).unwrap_or(0);
                    assert!((before..=100).contains(&percent), "{percent} % after {before} %");
                    before = percent;
                    slices += u32::from(question.answer.is_some());
                }
            }
        };
        assert!(slices > 10, "{slices} slices for the groups");
        assert!(before > 90, "{before} %");
        let mut grouping = Grouping::default();
        assert!(answered.list.find_groups(&mut grouping, 1), "nothing is left to be found");
        assert_eq!(grouping.work(), 0);
        let view = answered.view(&Wanted { gathered: true, ..Wanted::default() });
        assert!(view.rows > 10 && view.rows < answered.shown().total.unwrap());
    }
}
