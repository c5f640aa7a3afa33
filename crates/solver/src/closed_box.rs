//! What one reading at the cup of a closed box tells of what is in it.
//!
//! A reading is what the leads read touching, the direct-current resistance between the
//! probes, and what the meter is off by. The resistance follows from the nominal load as
//! that of a coil from its nominal impedance ([`crate::meter`]), since the coils of a box
//! are alike and joined evenly: load = Z·ℓ/w, with ℓ coils in each of w paths.
//!
//! What comes out is a hint, never a proof: ohms do not show what a crossover hides, nor a
//! reversed coil, nor a rating. Whether a load is possible is decided by the ends of every
//! range; how likely it is, by weights that are common practice.

mod likely;

use crate::count::index;
use crate::judge::{Figures, Verdict};
use crate::meter::{LEADS, LEADS_DECIDE, LEADS_READ, METER, OF_NOMINAL, Reading};
use crate::ohms::{Ohms, Ratio};
use crate::outputs::{Outlet, Outputs};
use crate::rig::Amplifier;
use crate::short;
use core::cmp::Ordering;
pub use likely::{HARDLY, Likely};

/// The most fillings that are told of one load, the likeliest first.
pub const MOST_FILLINGS: usize = 4;

/// How many like drivers a closed box has, and how usual that is beside the others
/// (common practice, no source; so are the tables that follow). Every count from one to
/// eight is there: one that is left out could be what makes the lowest load.
const DRIVERS: [(u32, f64); 8] =
    [(1, 50.0), (2, 30.0), (3, 5.0), (4, 10.0), (5, 0.3), (6, 3.0), (7, 0.1), (8, 2.0)];
/// How many coils a driver has.
const COILS: [(u32, f64); 2] = [(1, 60.0), (2, 40.0)];
/// Nominal ohms of a coil as a fraction, and how usual they are of a single coil and of
/// each of two.
const OHMS: [(u128, u128, [f64; 2]); 10] = [
    (7, 10, [0.1, 3.0]),
    (1, 1, [1.0, 8.0]),
    (7, 5, [0.1, 3.0]),
    (3, 2, [0.3, 2.0]),
    (2, 1, [10.0, 35.0]),
    (3, 1, [4.0, 2.0]),
    (4, 1, [50.0, 42.0]),
    (6, 1, [6.0, 1.0]),
    (8, 1, [25.0, 3.5]),
    (16, 1, [3.5, 0.5]),
];
/// How usual so many coils in a path are, from one coil on; the last stands for more.
const IN_PATH: [f64; 5] = [4.0, 3.0, 1.0, 1.0, 0.2];
/// Least loads that amplifiers usually state, as fractions, falling.
const LEAST: [(u128, u128); 5] = [(8, 1), (4, 1), (2, 1), (1, 1), (1, 2)];
/// The likeliest resistance of a coil over its nominal impedance.
const LIKELIEST: f64 = 0.85;
/// How usual the ends of what it may be are beside that: hardly a sheet tells, so that what is
/// sold most stays before what is rare (common practice, no source).
const AT_ENDS: f64 = 0.5;
/// A range is looked at in so many places.
const PLACES: u32 = 9;
/// How likely at least, beside its nominal load, what the ranges just allow.
const LEAST_DENSITY: f64 = 1e-3;
/// From so many ohms to a count on, a reading tells little of a few ohms.
const COARSE: f64 = 0.5;
/// Ranges that touch but for rounding do touch.
const TOUCH: f64 = 1e-9;

/// What a closed box may hold: like drivers, joined evenly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Filling {
    /// How many drivers.
    pub drivers: u32,
    /// Coils on each.
    pub coils: u32,
    /// Nominal impedance of one coil.
    pub ohms: Ohms,
    /// Coils in each path, one after the other.
    pub in_path: u32,
    /// Paths side by side.
    pub paths: u32,
    /// How likely, of everything that is possible: 0 to 1.
    pub likely: f64,
}

/// A nominal load that the reading allows.
#[derive(Clone, Debug, PartialEq)]
pub struct Possible {
    /// The load.
    pub load: Ohms,
    /// How likely, of all that are possible: 0 to 1.
    pub likely: f64,
    /// What may make it, the likeliest first, at most [`MOST_FILLINGS`].
    pub fillings: Vec<Filling>,
}

/// What a reading amounts to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hint {
    /// The loads that are told.
    Loads,
    /// At so few ohms nothing can be said before the leads are read touching.
    LeadsFirst,
    /// Nothing is joined, a joint is broken, or a capacitor is in the way.
    Open,
    /// It may be a short: no more than the leads alone read.
    Short,
    /// The steps of the reading are too coarse for so few ohms.
    Coarse,
    /// Less than the leads alone read: one of both is wrong.
    BelowLeads,
    /// No usual drivers read so much.
    Unusual,
}

impl Hint {
    /// The name in the contract.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Loads => "loads",
            Self::LeadsFirst => "leads_first",
            Self::Open => "open",
            Self::Short => "short",
            Self::Coarse => "coarse",
            Self::BelowLeads => "below_leads",
            Self::Unusual => "unusual",
        }
    }
}

/// What may be in a closed box.
#[derive(Clone, Debug, PartialEq)]
pub struct ClosedBox {
    /// What the reading amounts to.
    pub hint: Hint,
    /// Every nominal load that it allows, the likeliest first.
    pub loads: Vec<Possible>,
    /// The lowest of them, which an amplifier is chosen by; `None` where none can be
    /// counted on.
    pub lowest: Option<Ohms>,
    /// The highest usual least load of an amplifier that is no higher; `None` where none is.
    pub least: Option<Ohms>,
}

/// What an amplifier's outputs of one kind make of the lowest load.
#[derive(Clone, Debug, PartialEq)]
pub struct Hangs {
    /// The outputs.
    pub places: Vec<Outlet>,
    /// What they may drive and give.
    pub figures: Figures,
    /// Whether the box may hang there, be it the lowest load that it may be.
    pub verdict: Verdict,
}

/// What may be in a closed box, from what a meter showed at its cup and what the leads
/// read touching, where that is known.
///
/// # Example
/// ```
/// use coilwright_solver::closed_box::{Hint, closed_box};
/// use coilwright_solver::meter::Reading;
/// let found = closed_box(Reading::Ohms { ohms: 3.2, count: 0.1 }, Some(0.2));
/// assert_eq!(found.hint, Hint::Loads);
/// assert_eq!(found.loads[0].load.to_string(), "4");
/// assert!(found.lowest.is_some_and(|lowest| lowest <= found.loads[0].load));
/// // It may be as low as 8/3 Ω, so that it takes an amplifier stable at 2 Ω.
/// assert_eq!(found.least.map(|least| least.to_string()).as_deref(), Some("2"));
/// ```
#[must_use]
pub fn closed_box(reading: Reading, leads: Option<f64>) -> ClosedBox {
    let only = |hint| ClosedBox { hint, loads: Vec::new(), lowest: None, least: None };
    let Reading::Ohms { ohms, count } = reading else { return only(Hint::Open) };
    if !ohms.is_finite() {
        return only(Hint::Open);
    }
    let (ohms, count) = (ohms.max(0.0), if count.is_finite() { count.abs() } else { 0.0 });
    let leads = leads.filter(|leads| leads.is_finite());
    if leads.is_none() && ohms < LEADS_DECIDE {
        return only(Hint::LeadsFirst);
    }
    let seen = Seen::of(ohms, count, leads);
    let loads = seen.loads();
    let [low, high] = seen.box_alone();
    let hint = if high < 0.0 {
        Hint::BelowLeads
    } else if low <= 0.0 && count >= COARSE {
        Hint::Coarse
    } else if low <= 0.0 {
        Hint::Short
    } else if loads.is_empty() {
        Hint::Unusual
    } else {
        Hint::Loads
    };
    let lowest = loads.iter().map(|one| one.load).min().filter(|_| hint == Hint::Loads);
    let least = lowest.and_then(|lowest| {
        let all = LEAST.iter().filter_map(|(over, under)| Ratio::new(*over, *under));
        all.map(Ohms::new).find(|least| *least <= lowest)
    });
    ClosedBox { hint, loads, lowest, least }
}

/// Whether a box that may be as low as this may hang on each kind of output.
///
/// # Example
/// ```
/// use coilwright_solver::bounds::Field;
/// use coilwright_solver::closed_box::hangs;
/// use coilwright_solver::judge::Verdict;
/// use coilwright_solver::rig::{Amplifier, Channel};
/// let ohms = |text| Field::ChannelLeast.ohms_text(text).unwrap();
/// let channel = Channel { least: Some(ohms("2")), rated: Vec::new(), terminal_pairs: 1 };
/// let amplifier = Amplifier { count: 1, channels: vec![channel], bridges: Vec::new() };
/// assert_eq!(hangs(&amplifier, ohms("3"))[0].verdict, Verdict::Fits);
/// assert_eq!(hangs(&amplifier, ohms("3/2"))[0].verdict, Verdict::TooLow);
/// ```
#[must_use]
pub fn hangs(amplifier: &Amplifier, lowest: Ohms) -> Vec<Hangs> {
    let outputs = Outputs::of(Some(amplifier));
    let mut all = Vec::new();
    for kind in 0..outputs.kinds() {
        let places: Vec<Outlet> =
            outputs.places().filter(|place| place.kind == kind).cloned().collect();
        if let (Some(figures), false) = (outputs.figures(kind), places.is_empty()) {
            all.push(Hangs { places, verdict: figures.verdict(lowest), figures: figures.clone() });
        }
    }
    all
}

/// What was seen: the ranges of what is at the probes and of what the leads add.
struct Seen {
    probes: [f64; 2],
    leads: [f64; 2],
}

impl Seen {
    fn of(ohms: f64, count: f64, leads: Option<f64>) -> Self {
        let off = ohms * METER.0 + count * METER.1;
        let leads = match leads {
            Some(leads) => [(leads - LEADS_READ).max(0.0), leads.max(0.0) + LEADS_READ],
            None => LEADS,
        };
        Self { probes: [ohms - off, ohms + off], leads }
    }

    /// From the least to the most that the box reads without leads.
    fn box_alone(&self) -> [f64; 2] {
        let ([low, high], [least, most]) = (self.probes, self.leads);
        [low - most, high - least]
    }

    /// Whether a nominal load can read so.
    fn allows(&self, nominal: f64) -> bool {
        let ([low, high], [least, most]) = (self.box_alone(), OF_NOMINAL);
        low <= nominal * most + TOUCH && nominal * least <= high + TOUCH
    }

    /// How well a nominal load reads so, beside others.
    fn density(&self, nominal: f64) -> f64 {
        let mut sum = 0.0;
        for probes in places(self.probes) {
            for leads in places(self.leads) {
                sum += of_nominal((probes - leads) / nominal);
            }
        }
        let mean = sum / f64::from(PLACES * PLACES);
        mean.max(LEAST_DENSITY) / nominal
    }

    /// Every load that is possible, the likeliest first.
    fn loads(&self) -> Vec<Possible> {
        let mut loads: Vec<Possible> = Vec::new();
        for mut filling in fillings() {
            let Some(load) = filling.load() else { continue };
            if !self.allows(load.to_f64()) {
                continue;
            }
            filling.likely *= self.density(load.to_f64());
            match loads.iter_mut().find(|known| known.load == load) {
                Some(known) => {
                    known.likely += filling.likely;
                    known.fillings.push(filling);
                }
                None => {
                    let likely = filling.likely;
                    loads.push(Possible { load, likely, fillings: vec![filling] });
                }
            }
        }
        let whole: f64 = loads.iter().map(|one| one.likely).sum();
        for one in &mut loads {
            one.likely /= whole;
            for filling in &mut one.fillings {
                filling.likely /= whole;
            }
            short::insertion_sort(&mut one.fillings, |a, b| falling(a.likely, b.likely));
            one.fillings.truncate(MOST_FILLINGS);
        }
        // Of equals the lower load comes first: it is the one to reckon with.
        short::insertion_sort(&mut loads, |a, b| {
            falling(a.likely, b.likely).then_with(|| a.load.cmp(&b.load))
        });
        loads
    }
}

impl Filling {
    /// Its nominal load; `None` where the fraction does not fit.
    #[must_use]
    pub fn load(&self) -> Option<Ohms> {
        let joined = Ratio::new(self.in_path.into(), self.paths.into())?;
        self.ohms.ratio().times(joined).map(Ohms::new)
    }
}

fn falling(a: f64, b: f64) -> Ordering {
    b.total_cmp(&a)
}

/// A range in even steps, both ends among them.
fn places([from, to]: [f64; 2]) -> impl Iterator<Item = f64> {
    let step = (to - from) / f64::from(PLACES - 1);
    (0..PLACES).map(move |place| from + step * f64::from(place))
}

/// How usual it is that a resistance is this part of the nominal load: most at the
/// likeliest part, less at the ends, never beyond.
fn of_nominal(part: f64) -> f64 {
    let [least, most] = OF_NOMINAL;
    let rising = (part - least) / (LIKELIEST - least);
    let sinking = (most - part) / (most - LIKELIEST);
    let between = rising.min(sinking);
    if between < 0.0 { 0.0 } else { AT_ENDS + (1.0 - AT_ENDS) * between }
}

/// Everything that a closed box usually holds, with how usual it is.
fn fillings() -> Vec<Filling> {
    let mut all = Vec::new();
    for (drivers, of_drivers) in DRIVERS {
        for (coils, of_coils) in COILS {
            let count = drivers.saturating_mul(coils);
            let joinings = joinings(count);
            let of_joinings: f64 = joinings.iter().map(|(_, _, usual)| usual).sum();
            for (over, under, [single, dual]) in OHMS {
                let Some(ohms) = Ratio::new(over, under).map(Ohms::new) else { continue };
                let of_ohms = if coils == 1 { single } else { dual };
                for (in_path, paths, usual) in &joinings {
                    all.push(Filling {
                        drivers,
                        coils,
                        ohms,
                        in_path: *in_path,
                        paths: *paths,
                        likely: of_drivers * of_coils * of_ohms * usual / of_joinings,
                    });
                }
            }
        }
    }
    all
}

/// The even joinings of so many coils: coils in each path, paths, how usual.
fn joinings(coils: u32) -> Vec<(u32, u32, f64)> {
    let mut all = Vec::new();
    for in_path in 1..=coils {
        if coils.checked_rem(in_path) == Some(0)
            && let Some(paths) = coils.checked_div(in_path)
        {
            let place = index(in_path);
            let [.., longer] = IN_PATH;
            let usual = IN_PATH.get(place.saturating_sub(1)).map_or(longer, |usual| *usual);
            all.push((in_path, paths, usual));
        }
    }
    all
}

#[cfg(test)]
mod tests;
