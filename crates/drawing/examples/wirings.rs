//! Writes drawings as wired to look at, and prints what they measure:
//! `cargo run --example wirings -- FOLDER`.

use coilwright_drawing::wired::{Labels, crossings, look, wired};
use coilwright_solver::answer::one;
use coilwright_solver::bounds::Field;
use coilwright_solver::rig::{
    AmplifierDraft, BridgeDraft, BuildDraft, ChannelDraft, Cups, Draft, Fed, GroupDraft, TakesDraft,
};
use coilwright_solver::wiring::Plan;
use std::error::Error;
use std::time::Instant;

/// Drivers one after the other, each with its two coils joined by a sign.
fn duals(from: u32, to: u32, join: &str, inside: &str) -> String {
    let each = (from..=to).map(|n| format!("({n}a{inside}{n}b)"));
    each.collect::<Vec<_>>().join(join)
}

fn singles(from: u32, to: u32, join: &str) -> String {
    (from..=to).map(|n| format!("{n}a")).collect::<Vec<_>>().join(join)
}

/// A name, drivers with so many coils on channels with so many pairs, the box, and what is wired.
type Case = (&'static str, [u32; 3], BuildDraft, String);

fn cases() -> Vec<Case> {
    let cups = |cups| BuildDraft { cups, ..BuildDraft::default() };
    let wide = TakesDraft { conductors: Some(4), ..TakesDraft::default() };
    let tab = TakesDraft { push_on: true, ..TakesDraft::default() };
    let four = |first: u32| format!("({})", duals(first, first + 3, "||", "+"));
    let sixteen = format!("1:{}", [1, 5, 9, 13].map(four).join("+"));
    vec![
        ("2 in parallel", [2, 1, 1], cups(Cups::None), "1:1a||2a".into()),
        ("2 in parallel, one cup", [2, 1, 1], cups(Cups::One), "1:1a||2a".into()),
        ("2 tied, two cups", [2, 1, 2], cups(Cups::Driver), "1:1a||2a".into()),
        ("2 bridged in series", [2, 1, 2], cups(Cups::None), "1+2:1a+2a".into()),
        ("2 duals mixed", [2, 2, 1], cups(Cups::None), format!("1:{}", duals(1, 2, "||", "+"))),
        ("2 duals across, a cup a coil", [2, 2, 1], cups(Cups::Coil), "1:(1a||2a)+(1b||2b)".into()),
        ("2 channels", [2, 2, 1], cups(Cups::Driver), "1:1a+1b;2:2a+2b".into()),
        (
            "3 push-on",
            [3, 1, 1],
            BuildDraft { takes: [tab; 3], ..cups(Cups::None) },
            "1:1a||2a||3a".into(),
        ),
        ("4 in series, one cup", [4, 1, 1], cups(Cups::One), format!("1:{}", singles(1, 4, "+"))),
        (
            "4 in parallel, push-on",
            [4, 1, 1],
            BuildDraft { takes: [tab; 3], ..cups(Cups::One) },
            format!("1:{}", singles(1, 4, "||")),
        ),
        (
            "4 duals, a star",
            [4, 2, 1],
            BuildDraft { fed: Fed::Star, takes: [wide; 3], ..cups(Cups::One) },
            format!("1:{}", duals(1, 4, "||", "+")),
        ),
        (
            "4 duals bridged",
            [4, 2, 2],
            cups(Cups::Driver),
            format!("1+2:{}", duals(1, 4, "||", "+")),
        ),
        (
            "8 in parallel, one cup",
            [8, 1, 1],
            cups(Cups::One),
            format!("1:{}", singles(1, 8, "||")),
        ),
        (
            "8 duals mixed, cups",
            [8, 2, 1],
            cups(Cups::Driver),
            format!("1:{}", duals(1, 8, "||", "+")),
        ),
        ("8 quads", [8, 4, 1], cups(Cups::None), {
            let one = |n: u32| format!("(({n}a+{n}b)||({n}c+{n}d))");
            format!("1:{}", (1..=8).map(one).collect::<Vec<_>>().join("||"))
        }),
        ("16 duals mixed, one cup", [16, 2, 1], cups(Cups::One), sixteen.clone()),
        ("16 duals bridged", [16, 2, 1], cups(Cups::None), sixteen.replace("1:", "1+2:")),
    ]
}

fn plan([count, coils, pairs]: [u32; 3], build: &BuildDraft, key: &str) -> Option<(Plan, Labels)> {
    let ohms = Field::CoilOhms.ohms_text("4").ok();
    let group = GroupDraft { count: Some(count), coils: Some(coils), ohms, ..Default::default() };
    let channel = ChannelDraft { terminal_pairs: Some(pairs), ..ChannelDraft::default() };
    let bridge = BridgeDraft { channels: Some([1, 2]), ..BridgeDraft::default() };
    let amplifier =
        AmplifierDraft { count: Some(1), channels: vec![channel; 2], bridges: vec![bridge] };
    let rig = Draft { groups: vec![group], amplifier: Some(amplifier) }.check(Vec::new()).ok()?;
    let configuration = one(&rig, key).ok()?;
    let plan = Plan::of(&rig, &build.check(&rig).ok()?, &configuration).ok()?;
    let numbered = |name: &str, count: usize| (1..=count).map(|n| format!("{name} {n}")).collect();
    let outputs = configuration.outputs.iter().map(|output| match output.channels.as_slice() {
        [one] => format!("channel {one}"),
        _ => "channels 1+2 bridged".to_owned(),
    });
    let labels = Labels {
        drivers: numbered("driver", 16),
        cups: numbered("cup", plan.cups.len()),
        outputs: outputs.collect(),
        bridged: configuration
            .outputs
            .iter()
            .map(|output| match output.channels.as_slice() {
                [_] => Vec::new(),
                all => all.iter().map(|n| format!("channel {n}")).collect(),
            })
            .collect(),
        marked: ["two of these,", "as the maker marks"].map(str::to_owned).to_vec(),
        legend: ["striped: +", "plain: −", "thin: in between"].map(str::to_owned),
        ..Labels::default()
    };
    Some((plan, labels))
}

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).ok_or("where to?")?;
    println!("| drawing | runs | crossings | size | bytes | drawn |");
    for (number, (name, rig, build, key)) in cases().into_iter().enumerate() {
        let Some((plan, labels)) = plan(rig, &build, &key) else {
            println!("no plan: {name}");
            continue;
        };
        let scene = wired(&plan, &labels, &[]).map_err(|_| "no way")?;
        let mut least = f64::MAX;
        for _ in 0..10 {
            let start = Instant::now();
            let _ = wired(&plan, &labels, &[]);
            least = least.min(start.elapsed().as_secs_f64() * 1e3);
        }
        let crossed = crossings(&plan).map_err(|_| "no way")?.after;
        let text = scene.file(look, name, "To look at.");
        println!(
            "| {name} | {} | {crossed} | {} × {} | {} | {least:.3} ms |",
            plan.runs.len(),
            scene.width,
            scene.height,
            text.len()
        );
        std::fs::write(format!("{folder}/{number:02}.svg"), text)?;
    }
    Ok(())
}
