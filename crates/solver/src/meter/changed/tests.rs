use super::super::built::{Posts, Winding};
use super::super::reading;
use super::super::settings::Settings;
use super::super::{Job, catalogue, last_check, points};
use crate::answer::one;
use crate::bounds::Field;
use crate::rig::{AmplifierDraft, BuildDraft, ChannelDraft, Cups, Draft, GroupDraft};
use crate::wiring::Plan;

/// Rigs whose faults cut, join and take apart in every way: chains, cups, tied pairs, a driver
/// that faces in, and quads nested as deep as they go.
const RIGS: [(u32, u32, &str, Cups, u32, bool); 7] = [
    (1, 1, "1:1a", Cups::None, 1, false),
    (2, 1, "1:1a||2a", Cups::One, 1, false),
    (2, 2, "1:(1a+1b)||(2a+2b)", Cups::Driver, 2, true),
    (2, 2, "1:(1a||1b)+(2a||2b)", Cups::One, 1, false),
    (3, 1, "1:1a||(2a+3a)", Cups::None, 1, false),
    (2, 2, "1:1a+((1b+2a)||2b)", Cups::Coil, 1, false),
    (2, 4, "1:((((1a+1b)||1c)+1d)||2a)+2b+(2c||2d)", Cups::None, 1, true),
];

/// What is changed in a circuit that was solved reads as the circuit solved anew.
#[test]
fn a_change_reads_as_the_circuit_solved_anew() {
    let mut compared = 0;
    for (count, coils, key, cups, pairs, facing_in) in RIGS {
        let group = GroupDraft {
            count: Some(count),
            coils: Some(coils),
            ohms: Field::CoilOhms.ohms_text("4").ok(),
            ..GroupDraft::default()
        };
        let channel = ChannelDraft { terminal_pairs: Some(pairs), ..ChannelDraft::default() };
        let amplifier = AmplifierDraft { channels: vec![channel], ..AmplifierDraft::default() };
        let rig = Draft { groups: vec![group], amplifier: Some(amplifier) };
        let rig = rig.check(Vec::new()).unwrap();
        let mounted_reversed = if facing_in { vec![1] } else { Vec::new() };
        let build = BuildDraft { cups, mounted_reversed, ..BuildDraft::default() };
        let build = build.check(&rig).unwrap();
        let configuration = one(&rig, key).unwrap();
        let plan = Plan::of(&rig, &build, &configuration).unwrap();
        let job = Job { rig: &rig, build: &build, configuration: &configuration, plan: &plan };
        let (faults, others) = catalogue(&job).unwrap();
        let windings = Winding::all(&rig, &plan, &[]).unwrap();
        let posts = Posts::of(&rig, &plan, &windings);
        let mut all = points(&plan);
        let last = last_check(&plan).unwrap();
        for step in 0..last {
            points::closer(&plan, step, &mut all);
        }
        let mut settings =
            Settings::of(&posts, all.iter().map(|point| (*point, point.act))).unwrap();
        for (fault, _) in &faults {
            for variant in fault.variants(&posts, &others) {
                let numbers = 0..all.len();
                let ohms = settings.ohms(&posts, &variant.built, numbers.clone()).unwrap();
                let betweens = settings.between(&posts, &variant.built, numbers).unwrap();
                assert_eq!((ohms.len(), betweens.len()), (all.len(), all.len()));
                for ((point, ohms), between) in all.iter().zip(ohms).zip(betweens) {
                    let anew = reading::read(&posts, &variant.built, point).unwrap();
                    let name = format!("{key}: {fault:?} at {}", point.name());
                    near(anew.ohms, ohms, &name);
                    near(anew.ohms, between.ohms, &name);
                    near(
                        anew.squares,
                        between.squares,
                        &format!("{name} squares {anew:?} {between:?}"),
                    );
                    near(
                        anew.unsure,
                        between.unsure,
                        &format!("{name} unsure {anew:?} {between:?}"),
                    );
                    for (one, other) in anew.groups.into_iter().zip(between.groups) {
                        near(one, other, &name);
                    }
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 50_000, "{compared}");
}

fn near(anew: f64, changed: f64, name: &str) {
    let same = anew == changed || (anew - changed).abs() < 1e-9 * anew.abs().max(1.0);
    assert!(same, "{name}: {anew} anew, {changed} changed");
}
