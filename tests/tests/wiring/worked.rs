//! How much work a diagnosis is, at the bounds of what can be asked.

use coilwright_solver::answer::one;
use coilwright_solver::bounds::Field;
use coilwright_solver::meter::{self, Diagnosing, Job, Known, Place, Point, Read, Reading};
use coilwright_solver::rig::{AmplifierDraft, BuildDraft, ChannelDraft, Cups, Draft, GroupDraft};
use coilwright_solver::wiring::{Act, Plan};

/// At most so many counted steps are a diagnosis: less than a second natively and two in
/// wasm.
const MOST: u64 = 40_000_000;
/// At most so many are one piece of it, which a slice may be longer by.
const PIECE: u64 = 150_000;

/// Coils nested as deep as they go.
fn nested(coils: &[String]) -> String {
    let mut key = coils[0].clone();
    for (at, coil) in coils.iter().enumerate().skip(1) {
        key = if at % 2 == 1 { format!("({key}+{coil})") } else { format!("({key}||{coil})") };
    }
    key[1..key.len() - 1].to_owned()
}

fn in_series_by_driver(coils: &[String], each: usize) -> String {
    let own: Vec<String> = coils.chunks(each).map(|own| format!("({})", own.join("+"))).collect();
    own.join("||")
}

/// As many coils as a rig may have, in the boxes that take the most runs and checks: what a
/// diagnosis costs with the last check alone, right and wrong, and with every check read.
#[test]
fn every_diagnosis_ends_within_its_bound() {
    let rows = [
        (8, 4, Cups::None, 1, 0),
        (8, 4, Cups::None, 1, 2),
        (16, 2, Cups::Driver, 8, 1),
        (16, 2, Cups::Driver, 8, 2),
        (8, 4, Cups::Coil, 8, 0),
        (8, 4, Cups::Coil, 8, 1),
    ];
    for (count, each, cups, pairs, way) in rows {
        let letters = |driver: u32| (0..each).map(move |coil| (driver, b'a' + coil as u8));
        let coils = (1..=count).flat_map(letters);
        let coils: Vec<String> =
            coils.map(|(driver, letter)| format!("{driver}{}", char::from(letter))).collect();
        let key = match way {
            0 => nested(&coils),
            1 => coils.join("||"),
            _ => in_series_by_driver(&coils, each as usize),
        };
        let group = GroupDraft {
            count: Some(count),
            coils: Some(each),
            ohms: Field::CoilOhms.ohms_text("4").ok(),
            ..GroupDraft::default()
        };
        let channel = ChannelDraft { terminal_pairs: Some(pairs), ..ChannelDraft::default() };
        let amplifier = AmplifierDraft { channels: vec![channel], ..AmplifierDraft::default() };
        let rig = Draft { groups: vec![group], amplifier: Some(amplifier) };
        let rig = rig.check(Vec::new()).unwrap();
        let build = BuildDraft { cups, ..BuildDraft::default() }.check(&rig).unwrap();
        let configuration = one(&rig, &format!("1:{key}")).unwrap();
        let plan = Plan::of(&rig, &build, &configuration).unwrap();
        let job = Job { rig: &rig, build: &build, configuration: &configuration, plan: &plan };
        let last = meter::last_check(&plan).unwrap();
        for (times, all) in [(1.0, false), (1.5, false), (1.0, true)] {
            let touching = Point { act: 0, place: Place::Step };
            let mut reads =
                vec![Read { point: touching, reading: Reading::Ohms { ohms: 0.2, count: 0.1 } }];
            for step in 0..=last {
                let point = Point { act: step, place: Place::Step };
                let is_check = matches!(plan.acts[usize::from(step)], Act::Check(_));
                if step == last || (all && is_check) {
                    let foretold = meter::foretold(&rig, &plan, &Known::default(), &[point])
                        .unwrap()[0]
                        .unwrap();
                    let ohms = foretold.nominal * 0.875 * if step == last { times } else { 1.0 };
                    let ohms = ((ohms + 0.2) * 10.0).round() / 10.0;
                    reads.push(Read { point, reading: Reading::Ohms { ohms, count: 0.1 } });
                }
            }
            let mut diagnosing = Diagnosing::new(&job, &reads, &[]);
            let mut longest = 0;
            loop {
                let before = diagnosing.spent();
                let found = diagnosing.step(1);
                longest = longest.max(diagnosing.spent() - before);
                if found.is_some() {
                    break;
                }
            }
            let name = format!("{count} times {each}, {cups:?}, {way}, {} readings", reads.len());
            println!("{name}: {} steps, {longest} at most in a piece", diagnosing.spent());
            assert!(diagnosing.spent() <= MOST, "{name}: {} steps", diagnosing.spent());
            assert!(longest <= PIECE, "{name}: {longest} steps in a piece");
        }
    }
}
