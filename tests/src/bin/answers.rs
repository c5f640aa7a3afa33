//! Every answer to a thousand random requests, always the same ones, a line each: what two
//! states of the tree answer can be compared byte for byte. `answers FILE [COUNT]` writes them.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a measurement stops at the first surprise"
)]

use coilwright_module::reader;
use coilwright_module::value::Value as Plain;
use coilwright_module::{
    closed_box_json, configurations_json, diagnose_json, readings_json, wiring_json,
};
use coilwright_solver::answer::{Configuration, Configurations, Order, Request, Step, Wanted, one};
use coilwright_solver::failure;
use coilwright_solver::level::difference;
use coilwright_solver::nearest::Nearest;
use coilwright_words::english;
use proof::requests::requests;
use serde_json::Value;
use std::fs::File;
use std::io::{BufWriter, Write};

/// A fixed row of numbers from 0 to 1, spread as if by chance.
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> f64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        f64::from(u32::try_from(self.0 >> 40).unwrap()) / f64::from(1_u32 << 24)
    }

    fn below(&mut self, count: usize) -> usize {
        ((self.next() * count as f64) as usize).min(count - 1)
    }
}

/// Readings of the steps up to some check, and of a few points, some far off.
fn readings(points: &[Value], list: usize, chance: &mut Chance) -> String {
    const FACTORS: [f64; 6] = [0.0, 0.5, 0.75, 1.0, 1.6, 2.0];
    let mut all: Vec<String> = Vec::new();
    let mut read = |point: &Value, factor: f64| {
        let expected = point["foretold"]["expected"].as_f64().filter(|_| factor > 0.0);
        let reads = expected
            .map_or_else(|| r#""open""#.to_owned(), |expected| format!("{:.1}", expected * factor));
        all.push(format!(r#"{{"point": {}, "reads": {reads}}}"#, point["point"]));
    };
    let steps: Vec<&Value> = points.iter().filter(|one| one["place"] == "step").collect();
    let last = chance.below(steps.len());
    for step in steps.iter().take(last + 1).skip(usize::from(list == 2)) {
        read(step, if list == 1 { FACTORS[chance.below(6)] } else { 1.0 });
    }
    for _ in 0..2 {
        read(&points[chance.below(points.len())], FACTORS[chance.below(6)]);
    }
    for (number, question) in ["meter_right", "amplifier_off", "cool"].iter().enumerate() {
        if list == number {
            let answer = chance.next() < 0.5;
            all.push(format!(r#"{{"question": "{question}", "answer": {answer}}}"#));
        }
    }
    all.join(", ")
}

/// What the module answers of one configuration: plan, check points, diagnoses.
fn of_configuration(request: &Value, key: &Value, out: &mut impl Write, chance: &mut Chance) {
    let asked = format!("[{request}, {key}]");
    writeln!(out, "{}", wiring_json(&asked)).unwrap();
    let found = readings_json(&asked);
    writeln!(out, "{found}").unwrap();
    let found: Value = serde_json::from_str(&found).unwrap();
    let points = found["points"].as_array().unwrap();
    let coils = key.as_str().unwrap().bytes().filter(u8::is_ascii_lowercase).count();
    if points.is_empty() || coils > 10 {
        return;
    }
    for list in 0..3 {
        let readings = readings(points, list, chance);
        writeln!(out, "{}", diagnose_json(&format!("[{request}, {key}, [{readings}]]"))).unwrap();
    }
}

/// What the page asks of the solver beside the module: views of the list, one configuration
/// from its key, what a failed coil does, how much louder, what is nearest, in words.
fn of_page(request: Request, out: &mut impl Write) {
    let rig = request.rig.clone();
    let mut nearest = Nearest::new(&request);
    let found = loop {
        if let Some(found) = nearest.step(100_000) {
            break found;
        }
    };
    for found in &found {
        let change = english::nearest::change(&rig, &found.change);
        writeln!(out, "{change} {} {}", found.configuration.key(), found.load).unwrap();
    }
    let mut configurations = Configurations::new(request);
    while let Step::More(_) = configurations.step(50_000) {}
    let mut first: Option<Configuration> = None;
    for (order, gathered) in
        [(Order::Rank, true), (Order::Load, false), (Order::Power, true), (Order::Runs, false)]
    {
        let view = configurations.view(&Wanted { order, gathered, ..Wanted::default() });
        for row in configurations.rows(&view, 0, 20) {
            let own = &row.configuration;
            let said = english::ways::describe(&rig, &own.outputs);
            write!(out, "{} {} {} {} {said}", own.rank, own.key(), row.alike, row.group).unwrap();
            if let Some(worst) = failure::worst(&rig, own) {
                let opens = english::failure::opens(&rig, own, &worst);
                write!(out, " {opens} {}", english::failure::detail(&rig, own, &worst)).unwrap();
            }
            let before = first.get_or_insert_with(|| own.clone());
            if let Ok(louder) = difference((&rig, before), (&rig, own)) {
                write!(out, " {louder}").unwrap();
            }
            let alone = one(&rig, &own.key()).map(|one| (one.coil_shares, one.runs, one.even));
            writeln!(out, " {}", alone.is_ok_and(|alone| alone.0 == own.coil_shares)).unwrap();
        }
    }
}

fn main() {
    let mut arguments = std::env::args().skip(1);
    let path = arguments.next().expect("answers FILE [COUNT]");
    let count = arguments.next().map_or(1_000, |count| count.parse().expect("COUNT is a number"));
    let mut out = BufWriter::new(File::create(path).expect("the file can be written"));
    let mut chance = Chance(1);
    for request in requests(count) {
        let answer = configurations_json(&request.to_string());
        writeln!(out, "{answer}").unwrap();
        let answer: Value = serde_json::from_str(&answer).unwrap();
        let listed = answer["configurations"].as_array().unwrap();
        let middle = listed.get(listed.len() / 2).filter(|_| listed.len() > 2);
        let last = listed.last().filter(|_| listed.len() > 1);
        for one in listed.first().into_iter().chain(middle).chain(last) {
            of_configuration(&request, &one["key"], &mut out, &mut chance);
        }
        let plain: Plain = serde_json::from_str(&request.to_string()).unwrap();
        if let Ok(request) = reader::request(&plain) {
            of_page(request, &mut out);
        }
    }
    for hundredths in (0..2_000).step_by(7) {
        let reading = f64::from(hundredths) / 100.0;
        for leads in ["null", "0.13", "0.4"] {
            let asked = format!(r#"{{"reading": {reading}, "leads": {leads}, "step": 0.01}}"#);
            writeln!(out, "{}", closed_box_json(&asked)).unwrap();
        }
    }
    out.flush().unwrap();
}
