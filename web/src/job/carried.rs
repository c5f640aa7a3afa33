//! What was read and done belongs to the thing that it was read of or done to: a coil, a pair
//! of terminals with what lies behind them, a run. It outlives every other plan in which that
//! thing is, waits while it is in none, and comes back when it is again.

use super::Wired;
use super::begun::{Begun, Origin};
use super::work::Work;
use crate::parts::plan::wording_of;
use coilwright_solver::meter::{Place, Point};
use coilwright_solver::network::Coil;
use coilwright_solver::wiring::{Act, Check, Plan, Terminal};
use std::rc::Rc;

/// What an act is about, in whatever plan.
#[derive(Clone, Debug, PartialEq)]
enum Thing {
    Leads,
    Coils(u8),
    Polarity(u8),
    Insulated(Coil),
    Joined(Ends),
    Laid(Ends),
    Landed(Ends),
    /// With what is read there by nominal impedances, in thousandths of an ohm: behind the same
    /// terminals may lie something else.
    Checked(Check, Option<i64>),
    /// Power off, or on: of all that is wired.
    Power(bool, Vec<Ends>),
}

type Ends = [Terminal; 2];

/// What is looked at more closely, in whatever plan.
#[derive(Clone, Debug, PartialEq)]
enum Spot {
    Place(Place),
    Along(Ends),
    CableOpen(Ends),
    CableJoined(Ends),
}

/// What waits for its thing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Aside {
    reads: Vec<Waiting>,
    done: Vec<Done>,
    /// What was at hand.
    at: Option<Thing>,
}

/// A reading that waits.
#[derive(Clone, Debug, PartialEq)]
struct Waiting {
    thing: Thing,
    spot: Spot,
    text: String,
    /// Where it was read, in words.
    said: String,
    /// Where it was read last: the point of a plan.
    of: (Rc<Origin>, Point),
}

/// What was done to something that waits.
#[derive(Clone, Debug, PartialEq)]
struct Done {
    thing: Thing,
    /// The act of a plan that it was last.
    of: (Rc<Origin>, u16),
}

impl Aside {
    /// The readings that wait: where each was read, and what.
    pub fn readings(&self) -> impl Iterator<Item = (&str, &str)> {
        self.reads.iter().map(|one| (one.said.as_str(), one.text.as_str()))
    }

    /// What waits, plan by plan, to be kept.
    #[must_use]
    pub fn begun(&self) -> Vec<Begun> {
        let mut all: Vec<Begun> = Vec::new();
        for one in &self.reads {
            work_of(&mut all, &one.of.0).note(one.of.1, &one.text);
        }
        for one in &self.done {
            work_of(&mut all, &one.of.0).tick(one.of.1, true);
        }
        all
    }
}

/// The work of an origin, among others.
fn work_of<'a>(all: &'a mut Vec<Begun>, origin: &Rc<Origin>) -> &'a mut Work {
    let at = all.iter().position(|one| one.origin == *origin).unwrap_or_else(|| {
        all.push(Begun { origin: Rc::clone(origin), work: Work::default() });
        all.len() - 1
    });
    &mut all[at].work
}

/// A plan as things.
struct Things<'a> {
    plan: &'a Plan,
    all: Vec<Thing>,
}

impl<'a> Things<'a> {
    fn of(wired: &'a Wired) -> Option<Self> {
        let plan = wired.plan.as_ref().ok()?;
        let every = || plan.runs.iter().map(|run| [run.from, run.to]).collect();
        let ends = |act: &Act| {
            let run = plan.runs.get(act.run()?)?;
            Some([run.from, run.to])
        };
        let nominal = |at: usize| {
            let foretold = wired.foretold.get(at).copied().flatten()?;
            #[expect(clippy::cast_possible_truncation, reason = "ohms of a rig are few")]
            Some((foretold.nominal * 1e3).round() as i64)
        };
        let thing = |(at, act): (usize, &Act)| {
            Some(match act {
                Act::Leads => Thing::Leads,
                Act::Coils { driver } => Thing::Coils(*driver),
                Act::Polarity { driver } => Thing::Polarity(*driver),
                Act::Insulate { coil } => Thing::Insulated(*coil),
                Act::Join { .. } => Thing::Joined(ends(act)?),
                Act::Lay { .. } => Thing::Laid(ends(act)?),
                Act::Land { .. } => Thing::Landed(ends(act)?),
                Act::Check(check) => Thing::Checked(*check, nominal(at)),
                Act::PowerOff => Thing::Power(false, every()),
                Act::PowerOn => Thing::Power(true, every()),
            })
        };
        let all: Option<Vec<Thing>> = plan.acts.iter().enumerate().map(thing).collect();
        Some(Self { plan, all: all? })
    }

    fn run(&self, number: u16) -> Option<Ends> {
        let run = self.plan.runs.get(usize::from(number))?;
        Some([run.from, run.to])
    }

    fn number(&self, ends: &Ends) -> Option<u16> {
        let at = self.plan.runs.iter().position(|run| [run.from, run.to] == *ends)?;
        u16::try_from(at).ok()
    }

    /// A point of this plan, in whatever plan.
    fn told(&self, point: Point) -> Option<(Thing, Spot)> {
        let thing = self.all.get(usize::from(point.act))?.clone();
        let spot = match point.place {
            Place::Along(run) => Spot::Along(self.run(run)?),
            Place::CableOpen(run) => Spot::CableOpen(self.run(run)?),
            Place::CableJoined(run) => Spot::CableJoined(self.run(run)?),
            place => Spot::Place(place),
        };
        Some((thing, spot))
    }

    /// The point of this plan at a thing, where there is one.
    fn point(&self, thing: &Thing, spot: &Spot) -> Option<Point> {
        let place = match spot {
            Spot::Along(ends) => Place::Along(self.number(ends)?),
            Spot::CableOpen(ends) => Place::CableOpen(self.number(ends)?),
            Spot::CableJoined(ends) => Place::CableJoined(self.number(ends)?),
            Spot::Place(place) => *place,
        };
        let point = Point { act: self.act(thing)?, place };
        point.is_of(self.plan).then_some(point)
    }

    fn act(&self, thing: &Thing) -> Option<u16> {
        u16::try_from(self.all.iter().position(|one| one == thing)?).ok()
    }
}

impl Aside {
    /// Puts what was read and done of a plan aside, thing by thing.
    pub(super) fn take_in(&mut self, work: &mut Work, before: &Wired) {
        let Some(things) = Things::of(before) else { return };
        let wording = wording_of(before);
        // What was said against the meter was said of that plan.
        let Work { at, read, done, asked, .. } = core::mem::take(work);
        work.asked = asked;
        // Whoever went nowhere since is still where the plan before was left.
        if at > 0 || self.at.is_none() {
            self.at = things.all.get(usize::from(at)).cloned();
        }
        for (point, text) in read {
            let Some((thing, spot)) = things.told(point) else { continue };
            let said = wording.map_or_else(String::new, |wording| wording.point(&point).0);
            // What is read anew of a thing is what holds of it.
            self.reads.retain(|one| (&one.thing, &one.spot) != (&thing, &spot));
            let of = (Rc::clone(&before.origin), point);
            self.reads.push(Waiting { thing, spot, text, said, of });
        }
        for act in done {
            if let Some(thing) = things.all.get(usize::from(act))
                && !self.done.iter().any(|one| one.thing == *thing)
            {
                let of = (Rc::clone(&before.origin), act);
                self.done.push(Done { thing: thing.clone(), of });
            }
        }
    }

    /// Gives back what waits for a thing that is in a plan.
    pub(super) fn give_back(&mut self, work: &mut Work, now: &Wired) {
        let Some(things) = Things::of(now) else { return };
        let waiting = core::mem::take(self);
        match waiting.at.as_ref().and_then(|thing| things.act(thing)) {
            Some(act) => work.at = act,
            None => self.at = waiting.at,
        }
        for one in waiting.reads {
            match things.point(&one.thing, &one.spot) {
                // What stands there already is what holds.
                Some(point) if work.reading(point).is_empty() => work.note(point, &one.text),
                Some(_) => {}
                None => self.reads.push(one),
            }
        }
        for one in waiting.done {
            match things.act(&one.thing) {
                Some(act) => work.tick(act, true),
                None => self.done.push(one),
            }
        }
    }
}
