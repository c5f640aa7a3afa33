//! A job again, reading by reading.

use proof::sim::fault::Fault;
use proof::sim::plan::Point;
use proof::sim::rigs::Known;
use proof::sim::tally::Case;
use proof::sim::{ask, session};
use serde_json::Value;
use std::process::ExitCode;

/// `FILE:LINE`, counted from 1.
pub(crate) fn line(at: &str) -> ExitCode {
    let Some((file, number)) = at.rsplit_once(':') else {
        eprintln!("--replay takes FILE:LINE");
        return ExitCode::FAILURE;
    };
    let text = std::fs::read_to_string(file).expect("the file of misses");
    let number: usize = number.parse().expect("a line");
    let line = text.lines().nth(number - 1).expect("that line");
    let line: Value = serde_json::from_str(line).expect("a miss");
    let known = Known::ALL.into_iter().find(|known| known.name() == line["known"]).unwrap();
    let case = Case {
        seed: line["seed"].as_u64().unwrap(),
        known,
        kind: line["kind"].as_str().unwrap(),
        index: line["index"].as_u64().unwrap(),
    };
    let (rig, fault) = case.drawn().expect("a case that was drawn");
    let outcome = session::job(&rig, &fault);
    println!("{}\n{}\n{fault:?}", rig.request, rig.key);
    for run in &rig.plan.runs {
        println!("  run {} {} – {} at act {}", run.number, run.from, run.to, run.act);
    }
    let sound = Fault::Nothing.built(&rig.plan, &rig.coils, rig.leads);
    let built = fault.built(&rig.plan, &rig.coils, rig.leads);
    let mut entries: Vec<Value> = Vec::new();
    for entry in &outcome.entries {
        entries.push(entry.clone());
        let answer = ask::diagnose(&rig.request, &rig.key, &entries);
        let point = || -> Option<Point> {
            let name = entry["point"].as_str()?;
            rig.plan.points.iter().find(|point| point.name == name).cloned()
        };
        let felt =
            point().map(|point| (sound.felt(&rig.plan, &point), built.felt(&rig.plan, &point)));
        println!("{entry}   sound, built: {felt:?}");
        for explanation in answer["explanations"].as_array().into_iter().flatten().take(3) {
            let texts = explanation["faults"].as_array().into_iter().flatten();
            let texts: Vec<_> = texts.filter_map(|fault| fault["text"].as_str()).collect();
            println!("    {:.3} {} {texts:?}", explanation["share"], explanation["fit"]);
        }
    }
    println!("{:?} after {} readings", outcome.named, outcome.readings);
    ExitCode::SUCCESS
}
