//! The work behind an answer, step by step.

use super::ranking::{self, Entry, Ranking};
use super::{Answer, Configuration, Progress, Request, Step};
use crate::bounds::{MOST_CONFIGURATIONS, MOST_WORK};
use crate::listing::{Dealings, Listing, Stock, Stopped, count};
use crate::network::{Coil, Network, canonical::canonical, dealing::Dealt};
use crate::ohms::{Ohms, Ratio};
use crate::outputs::{self, Place};
use crate::problem::{Code, Detail, Path, Problem};
use crate::rig::Rig;

/// A request being answered.
#[derive(Clone, Debug)]
pub struct Configurations {
    request: Request,
    places: Vec<Place>,
    answer: Answer,
    stage: Stage,
    expected: u64,
}

#[derive(Clone, Debug)]
enum Stage {
    Listing(Box<Listing>),
    Judging(Box<Listing>, Ranking),
    Writing(Box<Listing>, Writing),
    Done,
}

/// What is left to write: entries in rank order.
#[derive(Clone, Debug)]
struct Writing {
    entries: Vec<Entry>,
    at: usize,
    dealings: Option<Dealings>,
}

impl Configurations {
    /// Starts on a request; the work is done by [`Configurations::step`].
    #[must_use]
    pub fn new(request: Request) -> Self {
        let places = outputs::single(request.rig.amplifier());
        let stock = Stock::of_rig(&request.rig);
        let ways = u128::try_from(places.len()).unwrap_or(1);
        let before = count::networks(&stock, false)
            .and_then(|n| n.checked_mul(ways))
            .filter(|n| *n <= u128::from(MOST_CONFIGURATIONS))
            .and_then(|n| u64::try_from(n).ok());
        let answer = Answer { before_filters: before, ..Answer::default() };
        let mut this = Self { request, places, answer, stage: Stage::Done, expected: 0 };
        match Listing::new(stock, this.request.joined_only, this.request.even_only) {
            Ok(listing) => {
                this.expected = listing.expected;
                this.stage = Stage::Listing(Box::new(listing));
            }
            Err(stopped) => this.stop(stopped),
        }
        this
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
        match core::mem::replace(&mut self.stage, Stage::Done) {
            Stage::Listing(mut listing) => match listing.step(budget.max(1)) {
                Ok(false) => self.stage = Stage::Listing(listing),
                Ok(true) => self.tally(listing),
                Err(stopped) => self.stop(stopped),
            },
            Stage::Judging(listing, mut ranking) => {
                if ranking.step(&listing, &self.places, &self.request.rig, budget.max(1)) {
                    let (loads, entries) = ranking.finish();
                    self.answer.loads = loads;
                    let writing = Writing { entries, at: 0, dealings: None };
                    self.stage = Stage::Writing(listing, writing);
                } else {
                    self.stage = Stage::Judging(listing, ranking);
                }
            }
            Stage::Writing(listing, mut writing) => {
                if self.write(&listing, &mut writing, budget.max(1)) {
                    self.stage = Stage::Writing(listing, writing);
                }
            }
            Stage::Done => {}
        }
        match &self.stage {
            Stage::Done => Step::Done(Box::new(self.answer.clone())),
            Stage::Listing(listing) => {
                // The shape at work is not yet done.
                let met = u64::try_from(listing.classes().len()).unwrap_or(0);
                Step::More(Progress { done: met.saturating_sub(1), of: self.expected })
            }
            Stage::Judging(..) | Stage::Writing(..) => {
                Step::More(Progress { done: self.expected, of: self.expected })
            }
        }
    }

    fn stop(&mut self, stopped: Stopped) {
        let ways = u128::try_from(self.places.len()).unwrap_or(1);
        self.answer.total_exact = stopped.exact.and_then(|n| n.checked_mul(ways));
        let found = self.answer.total_exact;
        let detail = match stopped.code {
            Code::TooMany => Detail::Most { most: MOST_CONFIGURATIONS, found },
            Code::TooMuchWork => Detail::Most { most: MOST_WORK, found: None },
            _ => Detail::None,
        };
        self.answer.problems.push(Problem::new(Path::root(), stopped.code, detail));
        self.stage = Stage::Done;
    }

    /// All networks are listed: each way to use the amplifier takes them all.
    fn tally(&mut self, listing: Box<Listing>) {
        let ways = u64::try_from(self.places.len()).unwrap_or(1);
        let total = listing.found().saturating_mul(ways);
        if total > MOST_CONFIGURATIONS {
            let exact = Some(u128::from(listing.found()));
            self.stop(Stopped { code: Code::TooMany, exact });
            return;
        }
        self.answer.total = Some(total);
        self.stage = Stage::Judging(listing, Ranking::default());
    }

    /// Writes configurations; `true` while there are more to write.
    fn write(&mut self, listing: &Listing, writing: &mut Writing, budget: u64) -> bool {
        // Writing one takes about as long as so many counted steps.
        const EACH: u64 = 100;
        let limit = usize::try_from(self.request.limit).unwrap_or(usize::MAX);
        let mut left = budget;
        while left > 0 {
            if self.answer.configurations.len() >= limit {
                return false;
            }
            let Some(entry) = writing.entries.get(writing.at).copied() else { return false };
            let dealings = writing.dealings.get_or_insert_with(|| listing.dealings(entry.class()));
            match dealings.next(listing, entry.joined, &mut left) {
                Dealt::Found => {
                    let network = dealings.network(listing);
                    let configuration =
                        network.and_then(|network| self.configuration(listing, entry, &network));
                    self.answer.configurations.extend(configuration);
                    left = left.saturating_sub(EACH);
                }
                Dealt::Pending => {}
                Dealt::End | Dealt::TooMuch => {
                    writing.dealings = None;
                    writing.at = writing.at.saturating_add(1);
                    left = left.saturating_sub(1);
                }
            }
        }
        true
    }

    fn configuration(
        &self,
        listing: &Listing,
        entry: Entry,
        network: &Network,
    ) -> Option<Configuration> {
        let class = listing.classes().get(entry.class())?;
        let place = self.places.get(entry.place())?;
        let groups = self.request.rig.groups();
        let network = canonical(network, groups).unwrap_or_else(|| network.clone());
        let shares = Shares::of(&network, &self.request.rig);
        let mut driver_shares = vec![0.0; usize::try_from(self.request.rig.drivers()).ok()?];
        for (coil, share) in &shares.of_coils {
            if let Some(sum) = driver_shares.get_mut(usize::from(coil.driver)) {
                *sum += share;
            }
        }
        let output = ranking::output(class, place, shares.usable, network);
        let rank = u32::try_from(self.answer.configurations.len()).ok()?.checked_add(1)?;
        Some(Configuration {
            rank,
            verdict: output.verdict,
            even: class.even,
            joined_at_driver: entry.joined,
            driver_shares,
            coil_shares: shares.of_coils.into_iter().map(|(_, share)| share).collect(),
            runs: class.runs,
            outputs: vec![output],
        })
    }
}

/// Each coil's share of the power of its output, and the most total power before the
/// first of them passes its rating: exactly, and rounded once, where the fractions fit.
struct Shares {
    of_coils: Vec<(Coil, f64)>,
    usable: Option<f64>,
}

impl Shares {
    fn of(network: &Network, rig: &Rig) -> Self {
        let ohms = |coil: Coil| {
            rig.group_of(coil.driver).map_or(Ohms::new(Ratio::ONE), |group| group.ohms)
        };
        let rating = |coil: Coil| {
            rig.group_of(coil.driver).map_or(Ratio::ONE, |group| rig.coil_rating(group))
        };
        let exact = network.shares(&ohms);
        let usable = exact.as_ref().and_then(|shares| {
            let usable = |(coil, share): &(Coil, Ratio)| rating(*coil).over(*share);
            shares.iter().map(usable).collect::<Option<Vec<_>>>()?.into_iter().min()
        });
        let mut of_coils = match exact {
            Some(shares) => {
                shares.into_iter().map(|(coil, share)| (coil, share.to_f64())).collect()
            }
            None => network.shares_near(&|coil| ohms(coil).to_f64()),
        };
        let near = || {
            let usable = |(coil, share): &(Coil, f64)| rating(*coil).to_f64() / share;
            of_coils.iter().map(usable).fold(f64::INFINITY, f64::min)
        };
        let usable = usable.map_or_else(near, Ratio::to_f64);
        of_coils.sort_by_key(|(coil, _)| *coil);
        Self { of_coils, usable: rig.every_rating_known().then_some(usable) }
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
