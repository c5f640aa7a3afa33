//! The work behind an answer, step by step.

use super::combine::{Combining, Strands};
use super::plan::{Plan, Planning};
use super::ranking::Ranking;
use super::strands;
use super::writing::Writing;
use super::{Answer, Progress, Request, Step};
use crate::bounds::{MOST_CONFIGURATIONS, MOST_WORK};
use crate::listing::{Listing, Stock, Stopped};
use crate::problem::{Code, Detail, Path, Problem};
use core::cell::OnceCell;

/// A request being answered.
#[derive(Clone, Debug)]
pub struct Configurations {
    pub(super) request: Request,
    pub(super) plan: Plan,
    pub(super) listings: Vec<Listing>,
    pub(super) strands: Strands,
    pub(super) combining: Combining,
    /// Entries by number, in rank order.
    pub(super) ranked: Vec<u32>,
    pub(super) groups: OnceCell<Vec<u32>>,
    pub(super) answer: Answer,
    stage: Stage,
    work: u64,
}

#[derive(Clone, Debug)]
enum Stage {
    /// What there is without filters is counted.
    Counting(Box<Planning>),
    /// Drivers are dealt to outputs.
    Planning(Box<Planning>),
    /// The networks of each portion are listed.
    Listing,
    /// They are judged on each kind of output they may hang on; whether the last of
    /// these pairs is begun.
    Judging(Vec<(usize, usize)>, bool),
    /// Outputs are combined.
    Combining,
    /// The combinations are ranked.
    Ranking(Ranking),
    /// The first of the list are written.
    Writing(Writing),
    Done,
}

impl Configurations {
    /// Starts on a request; the work is done by [`Configurations::step`].
    #[must_use]
    pub fn new(request: Request) -> Self {
        let counting = Planning::before_filters(&request.rig);
        Self {
            request,
            plan: Plan::default(),
            listings: Vec::new(),
            strands: Strands::default(),
            combining: Combining::default(),
            ranked: Vec::new(),
            groups: OnceCell::new(),
            answer: Answer::default(),
            stage: Stage::Counting(Box::new(counting)),
            work: 0,
        }
    }

    /// Works for about `budget` counted steps (at least one), then tells how far it is.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::*, bounds::Field, rig::{Draft, GroupDraft}};
    /// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// let request = Request { rig, joined_only: true, even_only: true, limit: 200 };
    /// let mut configurations = Configurations::new(request);
    /// let answer = loop {
    ///     if let Step::Done(answer) = configurations.step(10) {
    ///         break answer;
    ///     }
    /// };
    /// let keys: Vec<String> = answer.configurations.iter().map(Configuration::key).collect();
    /// assert_eq!(keys, ["1a+2a", "1a||2a"]);
    /// ```
    pub fn step(&mut self, budget: u64) -> Step {
        let budget = budget.max(1);
        let stage = core::mem::replace(&mut self.stage, Stage::Done);
        match self.advance(stage, budget) {
            Ok(stage) => self.stage = stage,
            Err(stopped) => self.stop(stopped),
        }
        match self.stage {
            Stage::Done => Step::Done(Box::new(self.answer.clone())),
            _ => Step::More(self.progress()),
        }
    }

    fn advance(&mut self, stage: Stage, budget: u64) -> Result<Stage, Stopped> {
        match stage {
            Stage::Counting(counting) => self.count(counting, budget),
            Stage::Planning(planning) => self.plan(planning, budget),
            Stage::Listing => self.list(budget),
            Stage::Judging(pairs, begun) => Ok(self.judge(pairs, begun, budget)),
            Stage::Combining => self.combine(budget),
            Stage::Ranking(mut ranking) => {
                if !ranking.step(&self.combining.entries, budget) {
                    return Ok(Stage::Ranking(ranking));
                }
                (self.answer.loads, self.ranked) = ranking.finish();
                self.number();
                self.answer.total = Some(self.combining.total);
                Ok(Stage::Writing(Writing::default()))
            }
            Stage::Writing(mut writing) => {
                let limit = usize::try_from(self.request.limit).unwrap_or(usize::MAX);
                let mut list = core::mem::take(&mut self.answer.configurations);
                let more = writing.step(self, limit, &mut list, budget);
                self.answer.configurations = list;
                Ok(if more { Stage::Writing(writing) } else { Stage::Done })
            }
            Stage::Done => Ok(Stage::Done),
        }
    }

    fn progress(&self) -> Progress {
        let portions = u64::try_from(self.plan.portions.len()).unwrap_or(0);
        match &self.stage {
            Stage::Counting(_) | Stage::Planning(_) => Progress { done: 0, of: 0 },
            Stage::Listing => {
                // Shapes are counted portion by portion; those not yet planned count as one.
                let met = |listing: &Listing| u64::try_from(listing.classes().len()).unwrap_or(0);
                let done: u64 = self.listings.iter().map(met).sum();
                let known: u64 = self.listings.iter().map(|listing| listing.expected).sum();
                let ahead = u64::try_from(self.listings.len()).unwrap_or(0);
                let of = known.saturating_add(portions.saturating_sub(ahead));
                Progress { done: done.saturating_sub(1), of }
            }
            _ => {
                let of = self.listings.iter().map(|listing| listing.expected).sum();
                Progress { done: of, of }
            }
        }
    }

    fn count(&mut self, mut counting: Box<Planning>, budget: u64) -> Result<Stage, Stopped> {
        let mut left = budget;
        let done = counting.step(&self.request.rig, &mut left);
        self.spend(budget.saturating_sub(left))?;
        match done {
            Ok(false) => return Ok(Stage::Counting(counting)),
            Ok(true) => self.answer.before_filters = counting.total(),
            // Too many to list is no problem of the request's own.
            Err(_) => {}
        }
        Ok(Stage::Planning(Box::new(Planning::of(&self.request))))
    }

    fn plan(&mut self, mut planning: Box<Planning>, budget: u64) -> Result<Stage, Stopped> {
        let mut left = budget;
        let done = planning.step(&self.request.rig, &mut left)?;
        self.spend(budget.saturating_sub(left))?;
        if !done {
            return Ok(Stage::Planning(planning));
        }
        self.plan = planning.into_plan();
        Ok(Stage::Listing)
    }

    fn list(&mut self, budget: u64) -> Result<Stage, Stopped> {
        let mut left = budget;
        loop {
            if let Some(listing) = self.listings.last_mut() {
                let before = left;
                let done = listing.step(&mut left)?;
                self.work = self.work.saturating_add(before.saturating_sub(left));
                if !done {
                    return self.within_bounds().map(|()| Stage::Listing);
                }
            }
            let Some(portion) = self.plan.portions.get(self.listings.len()) else { break };
            let stock = Stock::of(&self.request.rig, *portion);
            let (joined, even) = (self.request.joined_only, self.request.even_only);
            // What one portion comes to is the whole only where there is but one.
            let alone = self.plan.deals.len() == 1;
            let listing = Listing::new(stock, joined, even)
                .map_err(|stopped| Stopped { exact: stopped.exact.filter(|_| alone), ..stopped })?;
            left = left.saturating_sub(listing.work());
            self.work = self.work.saturating_add(listing.work());
            self.listings.push(listing);
            self.within_bounds()?;
        }
        // Every kind of output that each portion hangs on somewhere.
        let kinds = self.plan.outputs.kinds();
        let mut met = vec![false; self.plan.portions.len().saturating_mul(kinds)];
        for deal in 0..self.plan.deals.len() {
            let places = self.plan.way(deal).unwrap_or(&[]);
            let portions = self.plan.portions_of(deal).unwrap_or(&[]);
            for (place, portion) in places.iter().zip(portions) {
                let at = (*portion as usize).saturating_mul(kinds).saturating_add(place.kind);
                if let Some(met) = met.get_mut(at) {
                    *met = true;
                }
            }
        }
        let mut pairs = Vec::new();
        let mut met = met.iter();
        for portion in 0..self.plan.portions.len() {
            for kind in 0..kinds {
                if met.next() == Some(&true) {
                    pairs.push((portion, kind));
                }
            }
        }
        Ok(Stage::Judging(pairs, false))
    }

    fn spend(&mut self, steps: u64) -> Result<(), Stopped> {
        self.work = self.work.saturating_add(steps);
        self.within_bounds()
    }

    fn within_bounds(&self) -> Result<(), Stopped> {
        if self.work > MOST_WORK { Err(Code::TooMuchWork.into()) } else { Ok(()) }
    }

    /// Judges the last of the pairs of portion and kind of output until none is left.
    fn judge(&mut self, mut pairs: Vec<(usize, usize)>, mut begun: bool, budget: u64) -> Stage {
        // Judging one class takes about as long as so many counted steps.
        const EACH: u64 = 10;
        let mut most = usize::try_from(budget.div_ceil(EACH)).unwrap_or(usize::MAX);
        let known = self.request.rig.every_rating_known();
        while let Some(pair) = pairs.last() {
            let (portion, kind) = *pair;
            let (Some(listing), Some(figures)) =
                (self.listings.get(portion), self.plan.outputs.figures(kind))
            else {
                pairs.pop();
                continue;
            };
            if !begun {
                self.strands.begin(portion, kind);
            }
            let from = self.strands.newest().last().map_or(0, |last| last.next_class());
            self.strands.all.extend(strands::judge(listing, figures, known, from, most));
            let now = self.strands.newest().last().map_or(0, |last| last.next_class());
            most = most.saturating_sub(now.saturating_sub(from));
            begun = now < listing.classes().len();
            if begun {
                return Stage::Judging(pairs, true);
            }
            pairs.pop();
            if most == 0 {
                return Stage::Judging(pairs, false);
            }
        }
        Stage::Combining
    }

    fn combine(&mut self, budget: u64) -> Result<Stage, Stopped> {
        let mut left = budget;
        let (rig, even) = (&self.request.rig, self.request.even_only);
        let done = self.combining.step(&self.plan, &self.strands, rig, even, &mut left)?;
        self.work = self.work.saturating_add(budget.saturating_sub(left));
        self.within_bounds()?;
        if !done {
            return Ok(Stage::Combining);
        }
        let loads = self.combining.loads();
        Ok(Stage::Ranking(Ranking::new(loads, &self.combining.entries)))
    }

    /// Tells each entry how many configurations stand before it.
    fn number(&mut self) {
        let mut before = 0_u32;
        for number in &self.ranked {
            let at = usize::try_from(*number).unwrap_or(usize::MAX);
            if let Some(entry) = self.combining.entries.get_mut(at) {
                entry.before = before;
                before = before.saturating_add(entry.count);
            }
        }
    }

    pub(super) fn is_done(&self) -> bool {
        matches!(self.stage, Stage::Done)
    }

    fn stop(&mut self, stopped: Stopped) {
        let detail = match stopped.code {
            Code::TooMany => Detail::Most { most: MOST_CONFIGURATIONS, found: stopped.exact },
            Code::TooMuchWork => Detail::Most { most: MOST_WORK, found: None },
            _ => Detail::None,
        };
        self.answer.total_exact = stopped.exact;
        self.answer.problems.push(Problem::new(Path::root(), stopped.code, detail));
        self.stage = Stage::Done;
    }
}

/// Answers a request in one go.
#[must_use]
pub fn answer(request: Request) -> Answer {
    let mut configurations = Configurations::new(request);
    loop {
        if let Step::Done(answer) = configurations.step(u64::MAX) {
            return *answer;
        }
    }
}
