//! A plan as its JSON tells it: terminals by name, runs with the act that places each, and
//! the points where a meter is held to it.

use serde_json::Value;
use std::collections::BTreeMap;

/// Copper of 20 °C, Ω·mm²/m (IEC 60028).
const COPPER: f64 = 1.0 / 58.0;
/// The conductor of a box that states none, mm².
const CONDUCTOR: f64 = 2.5;

/// A coil that exists, joined or not.
#[derive(Clone, Debug)]
pub struct Coil {
    /// `1a`.
    pub name: String,
    /// Its driver, counted from 1.
    pub driver: usize,
    /// Its group, counted from 1.
    pub group: usize,
    /// As labelled.
    pub ohms: f64,
}

/// A run of a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Counted from 1.
    pub number: usize,
    /// One end; of a cable the end nearer the amplifier.
    pub from: String,
    /// The other.
    pub to: String,
    /// `coils`, `drivers`, `cups`, `outside` or `cable`.
    pub stage: String,
    /// Of its copper.
    pub ohms: f64,
    /// The act that places it.
    pub act: usize,
}

/// A point where a meter is held to the plan.
#[derive(Clone, Debug)]
pub struct Point {
    /// Its name.
    pub name: String,
    /// What is placed by then.
    pub act: usize,
    /// `step`, `coil`, `basket`, `across`, `along`, `open`, `joined`, `lifted` or `apart`.
    pub place: String,
    /// Where the probes go; nowhere where they touch each other or a basket.
    pub probes: Option<(String, String)>,
    /// Cables held together by hand.
    pub ends: u64,
    /// What counts as right.
    pub band: Option<(f64, f64)>,
    /// Kinds of faults that it says it cannot exclude.
    pub cannot_exclude: Vec<String>,
}

/// A plan.
#[derive(Clone, Debug)]
pub struct Plan {
    /// As the module writes it.
    pub key: String,
    /// Every coil of the request.
    pub coils: Vec<Coil>,
    /// In order.
    pub runs: Vec<Run>,
    /// In order.
    pub points: Vec<Point>,
    ends: BTreeMap<usize, u64>,
}

impl Plan {
    /// From a request and what `wiring` and `readings` answer to it; nothing where either has
    /// a problem.
    pub fn of(request: &Value, wiring: &Value, readings: &Value) -> Option<Self> {
        let key = wiring["key"].as_str()?.to_owned();
        let steps = wiring["steps"].as_array()?.iter();
        let acts = steps.map(|step| step["acts"].as_array()).collect::<Option<Vec<_>>>()?;
        let mut placed = BTreeMap::new();
        let mut ends = BTreeMap::new();
        for act in acts.into_iter().flatten() {
            let number = whole(&act["number"])?;
            match act["kind"].as_str()? {
                "join" | "lay" => {
                    placed.insert(whole(&act["run"])?, number);
                }
                "check" => {
                    ends.insert(number, act["ends"].as_u64().unwrap_or(1));
                }
                _ => {}
            }
        }
        let area = request["box"]["conductor_mm2"].as_f64().unwrap_or(CONDUCTOR);
        let runs = wiring["runs"].as_array()?.iter().map(|run| {
            let number = whole(&run["number"])?;
            Some(Run {
                number,
                from: terminal(&run["from"])?,
                to: terminal(&run["to"])?,
                stage: run["stage"].as_str()?.to_owned(),
                ohms: COPPER * run["metres"].as_f64()? / area,
                act: *placed.get(&number)?,
            })
        });
        let runs = runs.collect::<Option<_>>()?;
        let mut plan = Self { key, coils: coils(request)?, runs, points: Vec::new(), ends };
        let points = readings["points"].as_array()?;
        plan.points = points.iter().map(|point| plan.point(point)).collect::<Option<_>>()?;
        (!plan.points.is_empty()).then_some(plan)
    }

    /// A point from its JSON.
    pub fn point(&self, point: &Value) -> Option<Point> {
        let probes = match point["probes"].as_array() {
            Some(two) => Some((terminal(two.first()?)?, terminal(two.get(1)?)?)),
            None => None,
        };
        let act = whole(&point["act"])?;
        let band = point["foretold"]["low"].as_f64().zip(point["foretold"]["high"].as_f64());
        let named = point["cannot_exclude"].as_array().into_iter().flatten();
        let kind = |fault: &Value| fault.as_str().or(fault["kind"].as_str()).map(str::to_owned);
        Some(Point {
            name: point["point"].as_str()?.to_owned(),
            act,
            place: point["place"].as_str()?.to_owned(),
            probes,
            ends: self.ends.get(&act).copied().unwrap_or(1),
            band,
            cannot_exclude: named.filter_map(kind).collect(),
        })
    }

    /// A run by its number.
    pub fn run(&self, number: usize) -> Option<&Run> {
        self.runs.iter().find(|run| run.number == number)
    }

    /// A coil by its name.
    pub fn coil(&self, name: &str) -> Option<&Coil> {
        self.coils.iter().find(|coil| coil.name == name)
    }

    /// How many drivers.
    pub fn drivers(&self) -> usize {
        self.coils.iter().map(|coil| coil.driver).max().unwrap_or(0)
    }

    /// Points that a person reads in the order of the work: the probes touching only where the
    /// leads are read, coils and baskets only where coils are.
    pub fn prescribed(&self, leads: bool, coils: bool) -> Vec<Point> {
        let wanted = |point: &&Point| match point.place.as_str() {
            "step" => point.probes.is_some() || leads,
            "coil" | "basket" => coils,
            _ => false,
        };
        self.points.iter().filter(wanted).cloned().collect()
    }

    /// Every terminal of a coil, `1a+` and so on.
    pub fn terminals(&self) -> Vec<String> {
        let ends = |coil: &Coil| ["+", "-"].map(|sign| format!("{}{sign}", coil.name));
        self.coils.iter().flat_map(ends).collect()
    }
}

/// Every coil of a request, named as the contract names them.
fn coils(request: &Value) -> Option<Vec<Coil>> {
    let mut coils = Vec::new();
    let mut driver = 0;
    for (group, drivers) in request["drivers"].as_array()?.iter().enumerate() {
        for _ in 0..drivers["count"].as_u64()? {
            driver += 1;
            for letter in ('a'..='d').take(whole(&drivers["coils"])?) {
                let name = format!("{driver}{letter}");
                let ohms = drivers["ohms"].as_f64()?;
                coils.push(Coil { name, driver, group: group + 1, ohms });
            }
        }
    }
    Some(coils)
}

/// The name of a terminal: `1a+`, `cup1+` inside and outside (one stud), `amp1.2+` for what is
/// meant for the second pair of output 1, `splice3`.
pub fn terminal(json: &Value) -> Option<String> {
    let number = json["number"].as_u64()?;
    let sign = json["sign"].as_str().unwrap_or_default();
    Some(match json["at"].as_str()? {
        "coil" => format!("{}{sign}", json["coil"].as_str()?),
        "amplifier" => format!("amp{number}.{}{sign}", json["pair"].as_u64().unwrap_or(1)),
        "cup" | "cup_inside" => format!("cup{number}{sign}"),
        other => format!("{other}{number}{sign}"),
    })
}

/// The driver of a terminal that is a coil's.
pub fn driver_of(terminal: &str) -> Option<usize> {
    let digits = terminal.find(|letter: char| !letter.is_ascii_digit())?;
    terminal.get(..digits)?.parse().ok()
}

pub(super) fn whole(value: &Value) -> Option<usize> {
    usize::try_from(value.as_u64()?).ok()
}
