//! The nearest changes of a rig that would make something fit.
//!
//! Nothing is assumed to help: every change is made, solved with the filters of the
//! request, and kept only if the best configuration fits.

mod changed;

use crate::answer::{Answer, Configuration, Configurations, Request, Step};
use crate::ohms::Ohms;
pub use changed::{changes, with};

/// A change to a rig.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Change {
    /// Drivers of one group in another coil version, of the same rating.
    Coils {
        /// The group, counted from 0.
        group: usize,
        /// Coils on each of its drivers.
        coils: u32,
        /// Nominal impedance of one coil.
        ohms: Ohms,
    },
    /// Another number of drivers in one group.
    Count {
        /// The group, counted from 0.
        group: usize,
        /// Drivers in it.
        count: u32,
    },
    /// Two channels bridged, if the maker names them as a bridge: that is assumed, and
    /// its least load and power are derived from the channels.
    Bridge {
        /// The channels, counted from 1, the lower first.
        channels: [u32; 2],
    },
    /// An amplifier whose channels are safe down to this load, with the same rated points.
    LeastLoad {
        /// The least load.
        ohms: Ohms,
    },
}

impl Change {
    /// Changes of one kind answer the same question: which coils, how many drivers,
    /// which bridge, which amplifier.
    const fn kind(self) -> u8 {
        match self {
            Self::Coils { .. } => 0,
            Self::Count { .. } => 1,
            Self::Bridge { .. } => 2,
            Self::LeastLoad { .. } => 3,
        }
    }
}

/// A change that makes something fit.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The change.
    pub change: Change,
    /// The best configuration of the rig so changed.
    pub configuration: Configuration,
    /// The lowest load on any of its outputs.
    pub load: Ohms,
}

/// The most finds of one kind.
const MOST_OF_A_KIND: usize = 2;
/// The most counted steps for one change, and for all of them.
const MOST_FOR_ONE: u64 = 2_000_000;
const MOST_FOR_ALL: u64 = 12_000_000;
/// The most loads that are tried as the least load of another amplifier.
const MOST_LEAST_LOADS: usize = 4;

/// The search for changes, step by step.
#[derive(Clone, Debug)]
pub struct Nearest {
    request: Request,
    /// The change at hand, none for the rig as it is; how it is solved, and how many
    /// steps that took.
    solving: Option<(Option<Change>, Box<Configurations>, u64)>,
    /// What to try after it, the next one last.
    ahead: Vec<Change>,
    found: Vec<Found>,
    spent: u64,
}

impl Nearest {
    /// Starts on a request of which nothing fits. Of a request of which something fits,
    /// or whose rig has no amplifier, nothing is found.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::*, bounds::Field, rig::*};
    /// use coilwright_solver::nearest::{Change, Nearest};
    /// # let ohms = |text| Field::CoilOhms.ohms_text(text).ok();
    /// # let one = GroupDraft { count: Some(1), coils: Some(2), ohms: ohms("1"), ..Default::default() };
    /// # let channel = ChannelDraft { least: ohms("4"), ..Default::default() };
    /// # let amplifier = Some(AmplifierDraft { channels: vec![channel], ..Default::default() });
    /// # let rig = Draft { groups: vec![one], amplifier }.check(Vec::new()).unwrap();
    /// // One dual 1 Ω driver makes 2 Ω at most; the amplifier is safe down to 4 Ω.
    /// let request = Request { rig, joined_only: true, even_only: true, limit: 200 };
    /// let mut nearest = Nearest::new(&request);
    /// let found = loop {
    ///     if let Some(found) = nearest.step(10_000) {
    ///         break found;
    ///     }
    /// };
    /// let dual_two = found.iter().find(|f| matches!(f.change, Change::Coils { coils: 2, .. }));
    /// assert_eq!(dual_two.unwrap().configuration.key(), "1:1a+1b");
    /// ```
    #[must_use]
    pub fn new(request: &Request) -> Self {
        let request = Request { limit: 1, ..request.clone() };
        let start = request.rig.amplifier().is_some();
        let base = Box::new(Configurations::new(request.clone()));
        Self {
            request,
            solving: start.then_some((None, base, 0)),
            ahead: Vec::new(),
            found: Vec::new(),
            spent: 0,
        }
    }

    /// Works for about `budget` counted steps. When all is tried it gives what it found:
    /// at most two changes of a kind and one least load, in the order of trying. Further
    /// steps give the same again.
    pub fn step(&mut self, budget: u64) -> Option<Vec<Found>> {
        // Small slices, so that what is counted is about what was done.
        const SLICE: u64 = 5_000;
        let mut left = budget.max(1);
        while left > 0 {
            let Some((change, mut solving, steps)) = self.solving.take().or_else(|| self.next())
            else {
                return Some(self.found.clone());
            };
            let slice = SLICE.min(left);
            left = left.saturating_sub(slice);
            self.spent = self.spent.saturating_add(slice);
            let steps = steps.saturating_add(slice);
            match solving.step(slice) {
                Step::Done(answer) => self.take(change, &answer),
                Step::More(_) if steps >= MOST_FOR_ONE => {}
                Step::More(_) => self.solving = Some((change, solving, steps)),
            }
        }
        None
    }

    /// The next change that is still wanted.
    fn next(&mut self) -> Option<(Option<Change>, Box<Configurations>, u64)> {
        while self.spent < MOST_FOR_ALL {
            let change = self.ahead.pop()?;
            let most = if change.kind() == 3 { 1 } else { MOST_OF_A_KIND };
            let alike = |found: &&Found| found.change.kind() == change.kind();
            if self.found.iter().filter(alike).count() >= most {
                continue;
            }
            if let Some(rig) = with(&self.request.rig, &change) {
                let request = Request { rig, ..self.request.clone() };
                return Some((Some(change), Box::new(Configurations::new(request)), 0));
            }
        }
        None
    }

    /// Takes in what a change, or the rig as it is, came to.
    fn take(&mut self, change: Option<Change>, answer: &Answer) {
        let best = answer.configurations.first();
        let Some(change) = change else {
            // What fits, is not stated or cannot be listed is not helped here.
            let wrong = best.is_none_or(|best| best.verdict.is_low());
            if wrong && answer.problems.is_empty() {
                self.plan(answer);
            }
            return;
        };
        let Some(best) = best.filter(|best| best.verdict.fits()) else { return };
        let Some(load) = best.outputs.iter().map(|output| output.load).min() else { return };
        self.found.push(Found { change, configuration: best.clone(), load });
    }

    /// Everything to try: another amplifier, then the rig's own changes, nearest first.
    fn plan(&mut self, answer: &Answer) {
        let mut loads: Vec<Ohms> = answer.loads.iter().map(|tally| tally.load).collect();
        loads.reverse();
        loads.truncate(MOST_LEAST_LOADS);
        self.ahead = loads.into_iter().map(|ohms| Change::LeastLoad { ohms }).collect();
        self.ahead.extend(changes(&self.request.rig));
        self.ahead.reverse();
    }
}
