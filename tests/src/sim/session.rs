//! An installer at work: every prescribed reading in the order of the acts, and what is asked
//! for next from the first that does not agree.

use super::ask;
use super::built::Built;
use super::dice::Dice;
use super::fault::Fault;
use super::judge::{Named, first};
use super::meter::{Shown, show, touched};
use super::plan::Point;
use super::rigs::{Known, Rig};
use serde_json::{Value, json};

/// Readings that are taken to find a fault, at most.
const PATIENCE: usize = 12;

/// What came of it.
#[derive(Clone, Debug)]
pub struct Outcome {
    /// The prescribed point that first did not agree, and how.
    pub noticed: Option<(String, String)>,
    /// Whether some prescribed reading reads wrong, whatever was found by then.
    pub wrong: bool,
    /// Whether some prescribed reading is right with doubt.
    pub doubted: bool,
    /// Readings taken after the first that did not agree.
    pub readings: usize,
    /// Everything that was told to the module.
    pub entries: Vec<Value>,
    /// Its last answer.
    pub answer: Value,
    /// How the first explanation of it stands to what is wrong.
    pub named: Named,
    /// `sound` of the answer to all prescribed readings, where it has one.
    pub sound: Option<f64>,
}

/// Every prescribed reading at once, and what is said of it: as [`job`], without finding out.
#[derive(Clone, Debug)]
pub struct Held {
    /// Readings, that of the probes touching among them where it was wanted.
    pub entries: Vec<Value>,
    /// Whether some reading is wrong.
    pub wrong: bool,
    /// Whether some reading is right with doubt.
    pub doubted: bool,
}

/// Holds a rig with something wrong to its prescribed readings.
pub fn held(rig: &Rig, fault: &Fault) -> Held {
    let built = fault.built(&rig.plan, &rig.coils, rig.leads);
    let bench = Bench { rig, fault, built };
    let prescribed = rig.plan.prescribed(rig.leads_read, rig.known == Known::Read);
    let (entries, answer) = whole_job(&bench, &prescribed, &[]);
    let (wrong, doubted) = said(&answer);
    Held { entries, wrong, doubted }
}

/// Whether some reading is wrong, and whether some is doubted.
fn said(answer: &Value) -> (bool, bool) {
    let told = agreements(answer);
    let wrong = told.iter().any(|agreement| !agrees(agreement) && agreement != "doubtful");
    (wrong, told.iter().any(|agreement| agreement == "doubtful"))
}

/// What of a point reads right, in ohms, after these readings: as the module says of it alone.
/// Nothing where it says that not even this reading is.
pub fn right(rig: &Rig, before: &[Value], point: &Point, within: f64) -> Option<[f64; 2]> {
    let is = |tenths: i64| {
        #[allow(clippy::cast_precision_loss, reason = "a meter's tenths")]
        let reads = tenths as f64 / 10.0;
        let mut entries = before.to_vec();
        entries.push(json!({"point": point.name, "reads": reads}));
        !said(&ask::diagnose(&rig.request, &rig.key, &entries)).0
    };
    #[allow(clippy::cast_possible_truncation, reason = "a meter's tenths")]
    let within = (within * 10.0).round() as i64;
    if !is(within) {
        return None;
    }
    // The last that is right on the way to one that is not.
    let last = |mut wrong: i64| {
        let mut right = within;
        while right.abs_diff(wrong) > 1 {
            let middle = i64::midpoint(right, wrong);
            if is(middle) { right = middle } else { wrong = middle }
        }
        right
    };
    let ends = [last(-1), last(2 * within + 50)];
    #[allow(clippy::cast_precision_loss, reason = "a meter's tenths")]
    Some(ends.map(|tenths| tenths as f64 / 10.0))
}

/// A bench with a rig on it.
struct Bench<'a> {
    rig: &'a Rig,
    fault: &'a Fault,
    built: Built,
}

impl Bench<'_> {
    fn reading(&self, point: &Point) -> Value {
        let felt = self.built.felt(&self.rig.plan, point);
        let shown = if point.probes.is_none() && point.place == "step" {
            felt.map_or(Shown::Open, touched)
        } else {
            show(felt, &mut Dice::of(self.rig.seed, &point.name))
        };
        json!({"point": point.name, "reads": shown.json()})
    }

    fn ask(&self, entries: &[Value]) -> Value {
        ask::diagnose(&self.rig.request, &self.rig.key, entries)
    }

    /// Whether an easy cause is out of question.
    fn easy(&self, question: &str) -> bool {
        let meter = matches!(self.fault, Fault::Meter(_) | Fault::Leads(_));
        question != "meter_right" || !meter
    }
}

fn agreements(answer: &Value) -> Vec<String> {
    let list = answer["agreements"].as_array().into_iter().flatten();
    list.map(|agreement| agreement.as_str().unwrap_or_default().to_owned()).collect()
}

fn agrees(agreement: &str) -> bool {
    // Empty is that of an answer; tenths are never too coarse.
    matches!(agreement, "right" | "coarse" | "")
}

/// The job on a rig with something wrong.
pub fn job(rig: &Rig, fault: &Fault) -> Outcome {
    let built = fault.built(&rig.plan, &rig.coils, rig.leads);
    let bench = Bench { rig, fault, built };
    let prescribed = rig.plan.prescribed(rig.leads_read, rig.known == Known::Read);
    let mut entries = Vec::new();
    let mut answer = Value::Null;
    let mut noticed = None;
    let mut at = 0;
    for point in &prescribed {
        entries.push(bench.reading(point));
        answer = bench.ask(&entries);
        if agreements(&answer).iter().any(|agreement| agreement == "leads_first") {
            // No verdict before the probes were touched: so they are.
            entries.insert(0, bench.reading(&rig.plan.points[0]));
            answer = bench.ask(&entries);
        }
        at = point.act;
        let first_wrong = agreements(&answer).into_iter().find(|agreement| !agrees(agreement));
        if let Some(agreement) = first_wrong {
            noticed = Some((point.name.clone(), agreement));
            break;
        }
    }
    let (_, whole) = whole_job(&bench, &prescribed, &entries);
    let before = entries.len();
    let mut readings = 0;
    if noticed.is_some() {
        readings = find(&bench, &mut entries, &mut answer, &mut at);
    }
    debug_assert!(entries.len() >= before);
    let (wrong, doubted) = said(&whole);
    Outcome {
        noticed,
        wrong,
        doubted,
        readings,
        named: named(rig, fault, &answer, at),
        entries,
        answer,
        sound: whole["sound"].as_f64(),
    }
}

/// Every prescribed reading, and the answer to all.
fn whole_job(bench: &Bench<'_>, prescribed: &[Point], so_far: &[Value]) -> (Vec<Value>, Value) {
    let mut entries = so_far.to_vec();
    for point in prescribed {
        if !entries.iter().any(|entry| entry["point"] == point.name.as_str()) {
            entries.push(bench.reading(point));
        }
    }
    let answer = bench.ask(&entries);
    if agreements(&answer).iter().all(|agreement| agreement != "leads_first") {
        return (entries, answer);
    }
    entries.insert(0, bench.reading(&bench.rig.plan.points[0]));
    let answer = bench.ask(&entries);
    (entries, answer)
}

/// Answers what is asked and reads what is wanted next, until nothing is.
fn find(bench: &Bench<'_>, entries: &mut Vec<Value>, answer: &mut Value, at: &mut usize) -> usize {
    let mut readings = 0;
    loop {
        let asked: Vec<Value> = answer["questions"].as_array().cloned().unwrap_or_default();
        if !asked.is_empty() {
            entries.extend(asked.iter().map(|question| {
                let name = question["question"].as_str().unwrap_or_default();
                json!({"question": name, "answer": bench.easy(name)})
            }));
            *answer = bench.ask(entries);
        }
        let Some(point) = bench.rig.plan.point(&answer["next"]) else { return readings };
        if readings == PATIENCE {
            return readings;
        }
        *at = (*at).max(point.act);
        entries.push(bench.reading(&point));
        readings += 1;
        *answer = bench.ask(entries);
    }
}

/// A coil the wrong way round reads right everywhere: it is named where the answer says that
/// ohms do not tell it, or names it beside what is sound.
fn named(rig: &Rig, fault: &Fault, answer: &Value, at: usize) -> Named {
    if matches!(fault, Fault::Reversed(_)) && answer["polarity"] == true {
        return Named::Itself;
    }
    first(rig, fault, answer, at)
}
