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
    /// The plan that is counted or made.
    planning: Planning,
    /// Portions and kinds of output whose strands are still to be judged, the next one
    /// last, and whether that one is begun.
    ahead: Vec<(usize, usize)>,
    begun: bool,
    ranking: Ranking,
    writing: Writing,
    work: u64,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    /// What there is without filters is counted.
    Counting,
    /// Drivers are dealt to outputs.
    Planning,
    /// The networks of each portion are listed.
    Listing,
    /// They are judged on each kind of output they may hang on.
    Judging,
    /// Outputs are combined.
    Combining,
    /// The combinations are ranked.
    Ranking,
    /// The first of the list are written.
    Writing,
    Done,
}

impl Configurations {
    /// Starts on a request; the work is done by [`Configurations::step`].
    #[must_use]
    pub fn new(request: Request) -> Self {
        let planning = Planning::before_filters(&request.rig);
        Self {
            request,
            plan: Plan::default(),
            listings: Vec::new(),
            strands: Strands::default(),
            combining: Combining::default(),
            ranked: Vec::new(),
            groups: OnceCell::new(),
            answer: Answer::default(),
            stage: Stage::Counting,
            planning,
            ahead: Vec::new(),
            begun: false,
            ranking: Ranking::default(),
            writing: Writing::default(),
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
        self.work_on(budget);
        match self.stage {
            Stage::Done => Step::Done(Box::new(self.answer.clone())),
            _ => Step::More(self.progress()),
        }
    }

    /// Works to the end; the answer stays here, since its loads can be many.
    pub fn finish(&mut self) -> &Answer {
        while !self.is_done() {
            self.work_on(u64::MAX);
        }
        &self.answer
    }

    fn work_on(&mut self, budget: u64) {
        #[cfg(feature = "trap")]
        crate::trap::spring(&self.request.rig);
        if let Err(stopped) = self.advance(budget.max(1)) {
            self.stop(stopped);
        }
    }

    fn advance(&mut self, budget: u64) -> Result<(), Stopped> {
        match self.stage {
            Stage::Counting => self.count(budget),
            Stage::Planning => self.plan(budget),
            Stage::Listing => self.list(budget),
            Stage::Judging => {
                self.judge(budget);
                Ok(())
            }
            Stage::Combining => self.combine(budget),
            Stage::Ranking => {
                if self.ranking.step(&self.combining.entries, &self.answer.loads, budget) {
                    self.ranked = self.ranking.finish();
                    self.number();
                    self.answer.total = Some(self.combining.total);
                    self.stage = Stage::Writing;
                }
                Ok(())
            }
            Stage::Writing => {
                let limit = usize::try_from(self.request.limit).unwrap_or(usize::MAX);
                let mut list = core::mem::take(&mut self.answer.configurations);
                let mut writing = core::mem::take(&mut self.writing);
                if writing.step(self, limit, &mut list, budget) {
                    self.writing = writing;
                } else {
                    self.stage = Stage::Done;
                }
                self.answer.configurations = list;
                Ok(())
            }
            Stage::Done => Ok(()),
        }
    }

    fn progress(&self) -> Progress {
        let portions = u64::try_from(self.plan.portions.len()).unwrap_or(0);
        match self.stage {
            Stage::Counting | Stage::Planning => Progress { done: 0, of: 0 },
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

    fn count(&mut self, budget: u64) -> Result<(), Stopped> {
        let mut left = budget;
        let done = self.planning.step(&self.request.rig, &mut left);
        self.spend(budget.saturating_sub(left))?;
        match done {
            Ok(false) => return Ok(()),
            Ok(true) => self.answer.before_filters = self.planning.total(),
            // Too many to list is no problem of the request's own.
            Err(_) => {}
        }
        self.planning = Planning::of(&self.request);
        self.stage = Stage::Planning;
        Ok(())
    }

    fn plan(&mut self, budget: u64) -> Result<(), Stopped> {
        let mut left = budget;
        let done = self.planning.step(&self.request.rig, &mut left)?;
        self.spend(budget.saturating_sub(left))?;
        if done {
            self.plan = self.planning.take_plan();
            self.stage = Stage::Listing;
        }
        Ok(())
    }

    fn list(&mut self, budget: u64) -> Result<(), Stopped> {
        let mut left = budget;
        loop {
            if let Some(listing) = self.listings.last_mut() {
                let before = left;
                let done = listing.step(&mut left)?;
                self.work = self.work.saturating_add(before.saturating_sub(left));
                if !done {
                    return self.within_bounds();
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
        let mut met = met.iter();
        for portion in 0..self.plan.portions.len() {
            for kind in 0..kinds {
                if met.next() == Some(&true) {
                    self.ahead.push((portion, kind));
                }
            }
        }
        self.stage = Stage::Judging;
        Ok(())
    }

    fn spend(&mut self, steps: u64) -> Result<(), Stopped> {
        self.work = self.work.saturating_add(steps);
        self.within_bounds()
    }

    fn within_bounds(&self) -> Result<(), Stopped> {
        if self.work > MOST_WORK { Err(Code::TooMuchWork.into()) } else { Ok(()) }
    }

    /// Judges the last of the pairs of portion and kind of output until none is left.
    fn judge(&mut self, budget: u64) {
        // Judging one class takes about as long as so many counted steps.
        const EACH: u64 = 10;
        let mut most = usize::try_from(budget.div_ceil(EACH)).unwrap_or(usize::MAX);
        while let Some((portion, kind)) = self.ahead.last().copied() {
            if most == 0 {
                return;
            }
            if let (Some(listing), Some(figures)) =
                (self.listings.get(portion), self.plan.outputs.figures(kind))
            {
                if !self.begun {
                    self.strands.begin(portion, kind);
                }
                let from = self.strands.judged();
                strands::judge(listing, figures, from, most, &mut self.strands.all);
                let now = self.strands.judged();
                most = most.saturating_sub(now.saturating_sub(from));
                self.begun = now < listing.classes().len();
                if self.begun {
                    return;
                }
            }
            self.ahead.pop();
        }
        self.stage = Stage::Combining;
    }

    fn combine(&mut self, budget: u64) -> Result<(), Stopped> {
        let mut left = budget;
        let (rig, even) = (&self.request.rig, self.request.even_only);
        let done = self.combining.step(&self.plan, &self.strands, rig, even, &mut left)?;
        self.work = self.work.saturating_add(budget.saturating_sub(left));
        self.within_bounds()?;
        if done {
            self.answer.loads = self.combining.loads();
            self.ranking = Ranking::new(&self.combining.entries);
            self.stage = Stage::Ranking;
        }
        Ok(())
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
        self.stage == Stage::Done
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
