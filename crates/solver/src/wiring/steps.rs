//! Acts as an installer takes them together: what hands do in one go at one place is a step.

use super::{Act, Plan, Post, Run, Stage};
use core::ops::Range;

/// The stage of the work that a step belongs to, by where the hands are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Site {
    /// At one driver by itself, counted from 0.
    Driver(u8),
    /// Where drivers are joined to each other.
    Together,
    /// At the cups of the box, inside and outside.
    Box,
    /// Along the cable, its amplifier's end open.
    Cable,
    /// At the amplifier, its power off.
    Amplifier,
}

impl Site {
    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Driver(_) => "driver",
            Self::Together => "together",
            Self::Box => "box",
            Self::Cable => "cable",
            Self::Amplifier => "amplifier",
        }
    }
}

/// One step: acts that follow each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Step {
    /// Where the hands are.
    pub site: Site,
    /// Its first act, counted from 0.
    pub first: u16,
    /// How many acts it has: one at least.
    pub count: u16,
}

impl Step {
    /// Its acts, as places in [`Plan::acts`].
    #[must_use]
    pub fn acts(self) -> Range<usize> {
        let first = usize::from(self.first);
        first..first.saturating_add(usize::from(self.count))
    }

    /// The runs that it places, counted from 0: two at most, between the same two places.
    #[must_use]
    pub fn runs(self, plan: &Plan) -> Vec<usize> {
        let acts = plan.acts.get(self.acts());
        acts.into_iter().flatten().filter_map(|act| act.run()).collect()
    }
}

impl Plan {
    /// The step that an act belongs to, counted from 0.
    ///
    /// # Example
    /// ```
    /// # use coilwright_solver::{answer::one, bounds::Field, rig::*, wiring::Plan};
    /// # let two = GroupDraft { count: Some(2), coils: Some(1), ohms: Field::CoilOhms.ohms_text("2").ok(), ..Default::default() };
    /// # let rig = Draft { groups: vec![two], amplifier: None }.check(Vec::new()).unwrap();
    /// # let build = Build { cups: Cups::One, ..Build::default() };
    /// # let plan = Plan::of(&rig, &build, &one(&rig, "1a||2a").unwrap()).unwrap();
    /// // Leads, each driver, drivers together, the box, the cable, power off, landed, power on.
    /// assert_eq!(plan.steps.len(), 9);
    /// // + and − between the same two drivers, and the reading that closes them, are one step.
    /// assert_eq!(plan.steps[3].acts(), 5..8);
    /// assert_eq!(plan.steps[3].runs(&plan), [0, 1]);
    /// assert_eq!(plan.step_of(7), Some(3));
    /// ```
    #[must_use]
    pub fn step_of(&self, act: u16) -> Option<usize> {
        self.steps.iter().position(|step| step.acts().contains(&usize::from(act)))
    }
}

/// Takes acts together.
pub(super) fn steps(acts: &[Act], runs: &[Run]) -> Vec<Step> {
    let mut steps: Vec<Step> = Vec::new();
    // Leads are read where the work begins; without a driver there is none.
    let begins = acts.iter().find_map(|act| match act {
        Act::Coils { driver } => Some(*driver),
        _ => None,
    });
    let Some(mut driver) = begins else { return steps };
    for ((first, act), before) in
        (0_u16..).zip(acts).zip(core::iter::once(None).chain(acts.iter().map(Some)))
    {
        if let Act::Coils { driver: next } = act {
            driver = *next;
        }
        let grouped = Grouped { acts, runs };
        match steps.last_mut() {
            Some(step) if before.is_some_and(|before| grouped.goes_on(*step, *before, first)) => {
                step.count = step.count.saturating_add(1);
            }
            _ => steps.push(Step { site: grouped.site(*act, driver), first, count: 1 }),
        }
    }
    steps
}

/// What acts are told by.
struct Grouped<'a> {
    acts: &'a [Act],
    runs: &'a [Run],
}

impl Grouped<'_> {
    /// Where the hands are at an act, the last driver that was read being known.
    fn site(&self, act: Act, driver: u8) -> Site {
        let of = |stage| match stage {
            Stage::Coils => Site::Driver(driver),
            Stage::Drivers => Site::Together,
            Stage::Cups | Stage::Outside => Site::Box,
            Stage::Cable => Site::Cable,
        };
        match act {
            Act::Leads => Site::Driver(driver),
            Act::Coils { driver } | Act::Polarity { driver } => Site::Driver(driver),
            Act::Insulate { coil } => Site::Driver(coil.driver),
            Act::Join { .. } | Act::Lay { .. } => {
                of(self.run(act).map_or(Stage::Cable, |run| run.stage))
            }
            Act::Check(check) => of(check.stage),
            Act::PowerOff | Act::Land { .. } | Act::PowerOn => Site::Amplifier,
        }
    }

    fn run(&self, act: Act) -> Option<&Run> {
        self.runs.get(act.run()?)
    }

    /// Whether an act, by its number, goes on with a step whose last act was another.
    fn goes_on(&self, step: Step, before: Act, number: u16) -> bool {
        let Some(act) = self.acts.get(usize::from(number)).copied() else { return false };
        match (before, act) {
            (Act::Coils { driver: a }, Act::Polarity { driver: b }) => a == b,
            (Act::Polarity { driver }, Act::Insulate { coil }) => driver == coil.driver,
            (Act::Insulate { coil: a }, Act::Insulate { coil: b }) => a.driver == b.driver,
            // + and − between the same two places.
            (Act::Join { .. }, Act::Join { .. })
            | (Act::Lay { .. }, Act::Lay { .. })
            | (Act::Land { .. }, Act::Land { .. }) => {
                step.count < 2 && self.places(before) == self.places(act)
            }
            // What closes a stage by one reading is read by who placed the last of it.
            (Act::Join { .. } | Act::Lay { .. }, Act::Check(check)) => {
                let next = usize::from(number).saturating_add(1);
                let alone = !matches!(self.acts.get(next), Some(Act::Check(_)));
                alone && self.run(before).is_some_and(|run| run.stage == check.stage)
            }
            _ => false,
        }
    }

    /// Between which two places a run goes, in one order, and at which stage.
    fn places(&self, act: Act) -> Option<(Stage, Spot, Spot)> {
        let run = self.run(act)?;
        let [from, to] = [run.from, run.to].map(|terminal| Spot::of(terminal.post, run.stage));
        Some((run.stage, from.min(to), from.max(to)))
    }
}

/// One place, as hands know it: all coils of a driver are at one, but where its own are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Spot {
    Post(Post),
    Driver(u8),
}

impl Spot {
    fn of(post: Post, stage: Stage) -> Self {
        match (post, stage) {
            (Post::Coil(coil), Stage::Drivers | Stage::Cups | Stage::Outside | Stage::Cable) => {
                Self::Driver(coil.driver)
            }
            _ => Self::Post(post),
        }
    }
}
