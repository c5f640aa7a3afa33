//! Check points: every place of a plan where a reading is foretold.
//!
//! A point belongs to an act: what lies between its probes is what is placed by then.
//! At most acts that take a reading there is one; once something reads wrong, others
//! are looked at more closely at the same act, in place or with a joint lifted.

use crate::network::Coil;
use crate::wiring::{Act, Plan, Post, Sign, Stage, Terminal};

/// What is read at an act.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// What the act itself reads: the leads, or between the terminals of its check.
    Step,
    /// A coil alone, before it is joined to anything.
    Coil(Coil),
    /// From each terminal of a driver, counted from 0, to its basket and to the plate of
    /// its cup: open.
    Basket(u8),
    /// In place, from where current goes into one coil to where it comes out of another,
    /// which may be the same.
    Across(Coil, Coil),
    /// A run in place, from end to end.
    Along(u16),
    /// The cable that begins with a run, its far ends lifted and apart: open.
    CableOpen(u16),
    /// The same with its far ends held together.
    CableJoined(u16),
    /// A coil with one of its ends lifted.
    Lifted(Coil),
    /// A driver with its own coils joined, lifted from everything else.
    Apart(u8),
    /// With the power off and nothing landed, from one pair of an output, counted from 0, to
    /// the other, + to + or − to −: no more than the leads where they are tied inside.
    Tied(u8, Sign),
}

impl Place {
    /// Whether what is read there tells faults of the wiring apart: a coil that touches its
    /// basket is the driver's own, pairs that are not tied are the amplifier's, and neither is
    /// one of those that a diagnosis knows.
    #[must_use]
    pub const fn tells_faults(self) -> bool {
        !matches!(self, Self::Basket(_) | Self::Tied(..))
    }
}

/// A place at an act, counted from 0. Points are in the order of the work.
///
/// # Example
/// ```
/// use coilwright_solver::meter::{Place, Point};
/// let point = Point::named("13.across.1a-2b").unwrap();
/// assert_eq!(point.act, 12);
/// assert_eq!(point.name(), "13.across.1a-2b");
/// assert_eq!(Point::named("2").unwrap(), Point { act: 1, place: Place::Step });
/// assert_eq!(Point::named("2.behind.1a"), None);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Point {
    /// The act, counted from 0.
    pub act: u16,
    /// What is read.
    pub place: Place,
}

/// What a reading costs beside one at hand (common practice, no source): outside the box,
/// inside it, with a joint lifted.
pub const EFFORTS: [u8; 3] = [1, 10, 30];
const OUTSIDE: u8 = EFFORTS[0];
const INSIDE: u8 = EFFORTS[1];
const LIFTED: u8 = EFFORTS[2];

impl Point {
    /// A point by its name: the act counted from 1, and what is looked at more closely.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        let (act, place) = name.split_once('.').unwrap_or((name, ""));
        let act = number(act)?;
        if place.is_empty() && !name.contains('.') {
            return Some(Self { act, place: Place::Step });
        }
        let (kind, of) = place.split_once('.')?;
        let place = match kind {
            "coil" => Place::Coil(coil(of)?),
            "lifted" => Place::Lifted(coil(of)?),
            "basket" => Place::Basket(u8::try_from(number(of)?).ok()?),
            "apart" => Place::Apart(u8::try_from(number(of)?).ok()?),
            "plus" => Place::Tied(u8::try_from(number(of)?).ok()?, Sign::Plus),
            "minus" => Place::Tied(u8::try_from(number(of)?).ok()?, Sign::Minus),
            "along" => Place::Along(number(of)?),
            "open" => Place::CableOpen(number(of)?),
            "joined" => Place::CableJoined(number(of)?),
            "across" => match of.split_once('-') {
                Some((into, out)) => Place::Across(coil(into)?, coil(out)?),
                None => Place::Across(coil(of)?, coil(of)?),
            },
            _ => return None,
        };
        Some(Self { act, place })
    }

    /// Its name, in links and in the contract.
    #[must_use]
    pub fn name(&self) -> String {
        let mut name = u32::from(self.act).saturating_add(1).to_string();
        let mut add = |kind: &str, of: String| {
            for part in [".", kind, ".", &of] {
                name.push_str(part);
            }
        };
        let counted = |number: u16| u32::from(number).saturating_add(1).to_string();
        match self.place {
            Place::Step => {}
            Place::Coil(coil) => add("coil", coil.to_string()),
            Place::Lifted(coil) => add("lifted", coil.to_string()),
            Place::Basket(driver) => add("basket", counted(driver.into())),
            Place::Apart(driver) => add("apart", counted(driver.into())),
            Place::Tied(output, Sign::Plus) => add("plus", counted(output.into())),
            Place::Tied(output, Sign::Minus) => add("minus", counted(output.into())),
            Place::Along(run) => add("along", counted(run)),
            Place::CableOpen(run) => add("open", counted(run)),
            Place::CableJoined(run) => add("joined", counted(run)),
            Place::Across(into, out) => {
                let mut of = into.to_string();
                if into != out {
                    of.push('-');
                    of.push_str(&out.to_string());
                }
                add("across", of);
            }
        }
        name
    }

    /// What it costs, as one of [`EFFORTS`].
    #[must_use]
    pub fn effort(&self, plan: &Plan) -> u8 {
        let of_stage = |stage| match stage {
            Stage::Coils | Stage::Drivers => INSIDE,
            Stage::Cups | Stage::Outside | Stage::Cable => OUTSIDE,
        };
        match self.place {
            Place::Step => match plan.acts.get(usize::from(self.act)) {
                Some(Act::Check(check)) => of_stage(check.stage),
                _ => OUTSIDE,
            },
            Place::Along(run) => match plan.runs.get(usize::from(run)).map(|run| run.stage) {
                Some(Stage::Outside | Stage::Cable) => OUTSIDE,
                _ => INSIDE,
            },
            Place::Tied(..) => OUTSIDE,
            Place::Coil(_) | Place::Basket(_) | Place::Across(..) => INSIDE,
            Place::CableOpen(_) | Place::CableJoined(_) | Place::Lifted(_) | Place::Apart(_) => {
                LIFTED
            }
        }
    }

    /// Whether a point is one of a plan.
    #[must_use]
    pub fn is_of(&self, plan: &Plan) -> bool {
        let mut all = at_act(plan, self.act);
        if matches!(plan.acts.get(usize::from(self.act)), Some(Act::Check(_))) {
            closer(plan, self.act, &mut all);
        }
        all.contains(self)
    }

    /// Where the + probe and the − probe go; `None` where they touch each other, or go
    /// from terminal to terminal.
    #[must_use]
    pub fn probes(&self, plan: &Plan) -> Option<[Terminal; 2]> {
        match self.place {
            Place::Step => match plan.acts.get(usize::from(self.act)) {
                Some(Act::Check(check)) => Some([check.plus, check.minus]),
                _ => None,
            },
            Place::Coil(coil) | Place::Lifted(coil) => Some(ends(coil)),
            Place::Basket(_) => None,
            Place::Across(into, out) => {
                Some([end(plan, into, Sign::Plus), end(plan, out, Sign::Minus)])
            }
            Place::Along(run) => {
                let run = plan.runs.get(usize::from(run))?;
                Some([run.from, run.to])
            }
            Place::CableOpen(run) | Place::CableJoined(run) => {
                let plus = plan.runs.get(usize::from(run))?.from;
                Some([plus, Terminal { sign: Sign::Minus, ..plus }])
            }
            Place::Apart(driver) => driver_ends(plan, driver),
            Place::Tied(output, sign) => {
                Some([0, 1].map(|pair| Terminal { post: Post::Amplifier { output, pair }, sign }))
            }
        }
    }
}

/// Every point of a plan, in the order of the work; the closer ones stand behind the last
/// check, where everything is placed and nothing is landed.
#[must_use]
pub fn points(plan: &Plan) -> Vec<Point> {
    let mut points = Vec::new();
    for (act, _) in (0_u16..).zip(&plan.acts) {
        points.append(&mut at_act(plan, act));
        if last_check(plan) == Some(act) {
            closer(plan, act, &mut points);
        }
    }
    points
}

/// The last act that takes a reading, counted from 0.
#[must_use]
pub fn last_check(plan: &Plan) -> Option<u16> {
    let last = plan.acts.iter().rposition(|act| matches!(act, Act::Check(_)));
    last.and_then(|act| u16::try_from(act).ok())
}

/// Where the last check reads: all that is wired, at the free end of its cable.
#[must_use]
pub fn closing(plan: &Plan) -> Option<Point> {
    Some(Point { act: last_check(plan)?, place: Place::Step })
}

/// The probes touching each other.
#[must_use]
pub fn touching(plan: &Plan) -> Option<Point> {
    let act = plan.acts.iter().position(|act| *act == Act::Leads)?;
    Some(Point { act: u16::try_from(act).ok()?, place: Place::Step })
}

/// What an act reads by itself.
#[must_use]
pub fn at_act(plan: &Plan, act: u16) -> Vec<Point> {
    let mut points = Vec::new();
    let mut add = |place| points.push(Point { act, place });
    match plan.acts.get(usize::from(act)) {
        Some(Act::Leads | Act::Check(_)) => add(Place::Step),
        Some(Act::Coils { driver }) => {
            for coil in coils(plan).into_iter().filter(|coil| coil.driver == *driver) {
                add(Place::Coil(coil));
            }
            add(Place::Basket(*driver));
        }
        Some(Act::PowerOff) => {
            for (output, pairs) in (0_u8..).zip(&plan.pairs) {
                if *pairs > 1 {
                    add(Place::Tied(output, Sign::Plus));
                    add(Place::Tied(output, Sign::Minus));
                }
            }
        }
        _ => {}
    }
    points
}

/// Adds what can be looked at more closely at an act.
pub(super) fn closer(plan: &Plan, act: u16, points: &mut Vec<Point>) {
    let placed = placed(plan, act);
    let is_placed = |run: usize| placed.get(run) == Some(&true);
    let mut add = |place| points.push(Point { act, place });
    let touched = |coil: Coil| {
        let on = |terminal: Terminal| terminal.post == Post::Coil(coil);
        plan.runs
            .iter()
            .enumerate()
            .any(|(number, run)| is_placed(number) && (on(run.from) || on(run.to)))
    };
    let coils = coils(plan);
    for coil in coils.iter().filter(|coil| touched(**coil)) {
        add(Place::Across(*coil, *coil));
    }
    for (into, out) in &plan.spans {
        if touched(*into) && touched(*out) {
            add(Place::Across(*into, *out));
        }
    }
    for (number, run) in plan.runs.iter().enumerate().filter(|(number, _)| is_placed(*number)) {
        let Ok(at) = u16::try_from(number) else { continue };
        add(Place::Along(at));
        if run.stage == Stage::Cable && run.from.sign == Sign::Plus {
            add(Place::CableOpen(at));
            add(Place::CableJoined(at));
        }
    }
    for coil in coils.iter().filter(|coil| touched(**coil)) {
        add(Place::Lifted(*coil));
    }
    let mut last = None;
    for coil in &coils {
        if last.replace(coil.driver) != Some(coil.driver)
            && touched(*coil)
            && driver_ends(plan, coil.driver).is_some()
        {
            add(Place::Apart(coil.driver));
        }
    }
}

/// Which runs are placed before an act.
pub(super) fn placed(plan: &Plan, act: u16) -> Vec<bool> {
    let mut placed = vec![false; plan.runs.len()];
    for act in plan.acts.iter().take(usize::from(act)) {
        if let (Act::Join { .. } | Act::Lay { .. }, Some(run)) = (act, act.run())
            && let Some(placed) = placed.get_mut(run)
        {
            *placed = true;
        }
    }
    placed
}

/// The first act after which a run is there, counted from 0.
pub(super) fn there(plan: &Plan, run: usize) -> Option<u16> {
    let places =
        |act: &Act| matches!(act, Act::Join { .. } | Act::Lay { .. }) && act.run() == Some(run);
    let at = plan.acts.iter().position(places)?;
    u16::try_from(at.checked_add(1)?).ok()
}

/// The coils in use, rising.
pub(super) fn coils(plan: &Plan) -> Vec<Coil> {
    let mut coils = Vec::new();
    for terminal in plan.joined.iter().flat_map(|set| &set.terminals) {
        if let (Post::Coil(coil), Sign::Plus) = (terminal.post, terminal.sign) {
            coils.push(coil);
        }
    }
    crate::short::insertion_sort(&mut coils, Coil::cmp);
    coils
}

/// Both ends of a driver whose coils are joined to each other, where an act reads them.
fn driver_ends(plan: &Plan, driver: u8) -> Option<[Terminal; 2]> {
    plan.acts.iter().find_map(|act| match act {
        Act::Check(check) if check.stage == Stage::Coils => match check.plus.post {
            Post::Coil(coil) if coil.driver == driver => Some([check.plus, check.minus]),
            _ => None,
        },
        _ => None,
    })
}

/// Where current goes into a coil (+) or comes out of it (−): the other mark on a driver
/// that faces in.
fn end(plan: &Plan, coil: Coil, sign: Sign) -> Terminal {
    let turned = plan.mounted_reversed.contains(&coil.driver);
    Terminal { post: Post::Coil(coil), sign: if turned { sign.other() } else { sign } }
}

/// Both terminals of a coil.
pub(super) fn ends(coil: Coil) -> [Terminal; 2] {
    Post::Coil(coil).ends()
}

/// A number counted from 1 as one counted from 0.
fn number(text: &str) -> Option<u16> {
    if text.is_empty() || !text.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    text.parse::<u16>().ok()?.checked_sub(1)
}

/// A coil by its name, such as `12b`.
fn coil(text: &str) -> Option<Coil> {
    let letter = text.bytes().next_back()?;
    let driver = number(text.get(..text.len().checked_sub(1)?)?)?;
    let coil = letter.checked_sub(b'a').filter(|coil| *coil < 4)?;
    Some(Coil { driver: u8::try_from(driver).ok()?, coil })
}
