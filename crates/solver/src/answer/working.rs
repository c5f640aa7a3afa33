//! The work behind an answer, step by step.

use super::alike::Groups;
use super::allotment::Allotting;
use super::listed::Listed;
use super::ranking::Ranking;
use super::tiers;
use super::writing::Writing;
use super::{Answer, LoadTally, Progress, Request, Step};
use crate::bounds::{MOST_CONFIGURATIONS, MOST_WORK};
use crate::count::{index, wide};
use crate::defect::Defect;
use crate::listing::count::Counter;
use crate::listing::{Listing, Stock, Stopped};
use crate::problem::{Code, Detail, Path, Stop};
use crate::work::{Steps, steps};
use core::cell::OnceCell;

/// A request being answered.
#[derive(Clone, Debug)]
pub struct Configurations {
    pub(super) listed: Listed,
    pub(super) groups: OnceCell<Groups>,
    /// What should not have happened while the finished list was looked at.
    pub(super) defect: OnceCell<Defect>,
    /// What is answered, but for its loads: they can be as many as configurations.
    pub(super) answer: Answer,
    stage: Stage,
    /// The plan that is counted or made.
    allotting: Allotting,
    /// Counts the networks of the portion that is listed next.
    counter: Counter,
    /// Portions and kinds of output whose tiers are still to be judged, the next one
    /// last, and whether that one is begun.
    ahead: Vec<(usize, usize)>,
    begun: bool,
    /// The pairs met so far, portion by portion, and in how many deals they were looked for.
    met: Vec<bool>,
    gathered: usize,
    ranking: Ranking,
    writing: Writing,
    work: u64,
}

/// Work is done in portions of so many counted steps, whoever asks for how much: so where
/// it ends does not depend on how it is sliced.
const QUANTUM: u64 = 1_000;

/// Counting what there is without filters is given up after so many counted steps.
const MOST_COUNTING: u64 = MOST_WORK / 4;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    /// What there is without filters is counted.
    Counting,
    /// Drivers are dealt to outputs.
    Allotting,
    /// The networks of each portion are listed.
    Listing,
    /// The kinds of output that each portion hangs on are gathered.
    Gathering,
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
        let allotting = Allotting::before_filters(&request.rig);
        Self {
            listed: Listed::new(request),
            groups: OnceCell::new(),
            defect: OnceCell::new(),
            answer: Answer::default(),
            stage: Stage::Counting,
            allotting,
            counter: Counter::default(),
            ahead: Vec::new(),
            begun: false,
            met: Vec::new(),
            gathered: 0,
            ranking: Ranking::default(),
            writing: Writing::default(),
            work: 0,
        }
    }

    /// Counted steps spent so far. One takes about 20 ns natively.
    #[must_use]
    pub fn work(&self) -> u64 {
        self.work
    }

    /// Works for about `budget` counted steps (at least one), then tells how far it is.
    /// The answer is the same however the work is sliced.
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
            Stage::Done => {
                let loads = self.loads().collect();
                Step::Done(Box::new(Answer { loads, ..self.answer.clone() }))
            }
            _ => Step::More(self.progress()),
        }
    }

    /// Works to the end and answers all but the loads, which [`Configurations::loads`]
    /// tells one by one: there can be as many as configurations.
    pub fn finish(&mut self) -> &Answer {
        while !self.is_done() {
            self.work_on(u64::MAX);
        }
        &self.answer
    }

    /// Every distinct load of an output, rising; none before the list is done.
    pub fn loads(&self) -> impl Iterator<Item = LoadTally> + '_ {
        self.listed.combining.tallies.told(&self.listed.loads)
    }

    fn work_on(&mut self, budget: u64) {
        #[cfg(feature = "trap")]
        crate::trap::spring(&self.listed.request.rig);
        let mut budget = Steps::new(budget.max(1));
        while budget.any() && !self.is_done() {
            let mut quantum = Steps::new(QUANTUM);
            let advanced = self.advance(&mut quantum);
            // What ends a stage may cost nothing.
            let taken = quantum.taken().max(1);
            budget.take(taken);
            self.work = self.work.saturating_add(taken);
            // Rows are written of a list that is known: their number bounds that work.
            let listing = !matches!(self.stage, Stage::Writing | Stage::Done);
            let within = if self.work > MOST_WORK && listing {
                Err(Code::TooMuchWork.into())
            } else {
                Ok(())
            };
            if let Err(stopped) = advanced.and(within) {
                self.stop(stopped);
            }
        }
    }

    fn advance(&mut self, budget: &mut Steps) -> Result<(), Stopped> {
        match self.stage {
            Stage::Counting => self.count(budget)?,
            Stage::Allotting => self.allotment(budget)?,
            Stage::Listing => self.list(budget)?,
            Stage::Gathering => self.gather(budget)?,
            Stage::Judging => self.judge(budget)?,
            Stage::Combining => self.combine(budget)?,
            Stage::Ranking => {
                let entries = &mut self.listed.combining.entries;
                if self.ranking.step(
                    entries,
                    &self.listed.combining.tallies,
                    &mut self.listed.ranked,
                    budget,
                )? {
                    self.ranking = Ranking::default();
                    self.answer.total = Some(self.listed.combining.total);
                    self.stage = Stage::Writing;
                }
            }
            Stage::Writing => {
                let limit = index(self.listed.request.limit);
                let mut list = core::mem::take(&mut self.answer.configurations);
                let mut writing = core::mem::take(&mut self.writing);
                let more = writing.step(&self.listed, limit, &mut list, budget);
                self.writing = writing;
                self.answer.configurations = list;
                if !more? {
                    self.stage = Stage::Done;
                }
            }
            Stage::Done => {}
        }
        Ok(())
    }

    fn progress(&self) -> Progress {
        let portions = wide(self.listed.allotment.portions.len());
        match self.stage {
            Stage::Counting | Stage::Allotting => Progress { done: 0, of: 0 },
            Stage::Listing => {
                // Shapes are counted portion by portion; those not yet planned count as one.
                let met = |listing: &Listing| wide(listing.classes().len());
                let done: u64 = self.listed.listings.iter().map(met).sum();
                let known: u64 = self.listed.listings.iter().map(|listing| listing.expected).sum();
                let ahead = wide(self.listed.listings.len());
                let of = known.saturating_add(portions.saturating_sub(ahead));
                Progress { done: done.saturating_sub(1), of }
            }
            _ => {
                let of = self.listed.listings.iter().map(|listing| listing.expected).sum();
                Progress { done: of, of }
            }
        }
    }

    fn count(&mut self, budget: &mut Steps) -> Result<(), Defect> {
        match self.allotting.step(&self.listed.request.rig, budget) {
            Ok(false) if self.work < MOST_COUNTING => return Ok(()),
            Ok(true) => self.answer.before_filters = self.allotting.total(),
            Err(Stopped { stop: Stop::Defect(defect), .. }) => return Err(defect),
            // Too many to list is no problem of the request's own.
            Ok(false) | Err(_) => {}
        }
        self.allotting = Allotting::of(&self.listed.request);
        self.stage = Stage::Allotting;
        Ok(())
    }

    fn allotment(&mut self, budget: &mut Steps) -> Result<(), Stopped> {
        if self.allotting.step(&self.listed.request.rig, budget)? {
            self.listed.allotment = self.allotting.take_plan();
            self.stage = Stage::Listing;
        }
        Ok(())
    }

    fn list(&mut self, budget: &mut Steps) -> Result<(), Stopped> {
        // What one portion comes to is the whole only where there is but one.
        let alone = self.listed.allotment.deals.len() == 1;
        let told = |stopped: Stopped| Stopped { exact: stopped.exact.filter(|_| alone), ..stopped };
        while budget.any() {
            if let Some(listing) = self.listed.listings.last_mut()
                && !listing.step(&mut self.listed.loads, budget).map_err(told)?
            {
                return Ok(());
            }
            let Some(portion) = self.listed.allotment.portions.get(self.listed.listings.len())
            else {
                self.listed.loads.close();
                self.stage = Stage::Gathering;
                return Ok(());
            };
            let stock = Stock::of(&self.listed.request.rig, *portion);
            let (joined, even) = (self.listed.request.joined_only, self.listed.request.even_only);
            if !even
                && !Listing::is_counted(&mut self.counter, &stock, joined, budget).map_err(told)?
            {
                continue;
            }
            let listing = Listing::new(stock, joined, even, budget).map_err(told)?;
            self.listed.listings.push(listing);
        }
        Ok(())
    }

    /// Finds every kind of output that each portion hangs on somewhere.
    fn gather(&mut self, budget: &mut Steps) -> Result<(), Defect> {
        let kinds = self.listed.allotment.outputs.kinds();
        self.met.resize(self.listed.allotment.portions.len().saturating_mul(kinds), false);
        while budget.any() {
            let Some(portions) = self.listed.allotment.portions_of(self.gathered) else {
                budget.take(steps(self.met.len()).wrapping_div(8));
                let mut met = self.met.iter();
                for portion in 0..self.listed.allotment.portions.len() {
                    for kind in 0..kinds {
                        if met.next() == Some(&true) {
                            self.ahead.push((portion, kind));
                        }
                    }
                }
                self.met = Vec::new();
                self.stage = Stage::Judging;
                return Ok(());
            };
            let places = self.listed.allotment.way(self.gathered).ok_or(Defect::Deals)?;
            budget.take(steps(places.len()).wrapping_div(4).saturating_add(1));
            for (place, portion) in places.iter().zip(portions) {
                let at = (*portion as usize).saturating_mul(kinds).saturating_add(place.kind);
                if let Some(met) = self.met.get_mut(at) {
                    *met = true;
                }
            }
            self.gathered = self.gathered.saturating_add(1);
        }
        Ok(())
    }

    /// Judges the last of the pairs of portion and kind of output until none is left.
    fn judge(&mut self, budget: &mut Steps) -> Result<(), Defect> {
        // Judging one class takes about as long as so many counted steps.
        const EACH: u64 = 10;
        // So many at a time.
        const MOST: usize = 100;
        while budget.any() {
            let Some((portion, kind)) = self.ahead.last().copied() else {
                self.listed.combining.tallies.begin(self.listed.loads.len());
                self.stage = Stage::Combining;
                return Ok(());
            };
            budget.take(2);
            let Listed { listings, allotment, tiers, loads, .. } = &mut self.listed;
            let listing = listings.get(portion).ok_or(Defect::Deals)?;
            let figures = allotment.outputs.figures(kind).ok_or(Defect::Channels)?;
            if !self.begun {
                tiers.begin(portion, kind);
            }
            let from = tiers.judged();
            tiers::judge(listing, figures, loads, from, MOST, &mut tiers.all)?;
            let now = tiers.judged();
            budget.take(steps(now.saturating_sub(from)).saturating_mul(EACH));
            self.begun = now < listing.classes().len();
            if !self.begun {
                self.ahead.pop();
            }
        }
        Ok(())
    }

    fn combine(&mut self, budget: &mut Steps) -> Result<(), Stopped> {
        let even = self.listed.request.even_only;
        if self.listed.combining.step(
            &self.listed.allotment,
            &self.listed.tiers,
            &self.listed.loads,
            even,
            budget,
        )? {
            let loads = self.listed.combining.tallies.order(&self.listed.loads)?;
            budget.take(steps(loads).saturating_mul(2));
            self.ranking = Ranking::new(&self.listed.combining.entries);
            budget.take(steps(self.listed.combining.entries.len()).wrapping_div(8));
            self.listed.ranked.reserve_exact(self.listed.combining.entries.len());
            self.stage = Stage::Ranking;
        }
        Ok(())
    }

    pub(super) fn is_done(&self) -> bool {
        self.stage == Stage::Done
    }

    fn stop(&mut self, stopped: Stopped) {
        let mut problem = stopped.stop.problem(Path::root());
        match problem.code {
            Code::TooMany => {
                problem.detail = Detail::Most { most: MOST_CONFIGURATIONS, found: stopped.exact };
            }
            Code::TooMuchWork => problem.detail = Detail::Most { most: MOST_WORK, found: None },
            _ => {}
        }
        self.answer.total_exact = stopped.exact;
        self.answer.total = None;
        self.listed.combining.tallies.clear();
        self.answer.configurations.clear();
        self.answer.problems.push(problem);
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
