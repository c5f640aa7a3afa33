//! Golden sentences for jobs that installers know.

use super::*;
use crate::english::cautions;
use coilwright_solver::answer::one;
use coilwright_solver::bounds::Field;
use coilwright_solver::meter::{Known, foretell};
use coilwright_solver::rig::{
    AmplifierDraft, BridgeDraft, ChannelDraft, Cups, Draft, Fed, GroupDraft, JoinedAt, PointDraft,
    Takes,
};

/// Drivers with coils of 2 Ω, 500 W each.
fn drivers(count: u32, coils: u32, unused: u32) -> GroupDraft {
    GroupDraft {
        count: Some(count),
        coils: Some(coils),
        unused: Some(unused),
        ohms: Field::CoilOhms.ohms_text("2").ok(),
        watts: Field::Watts.watts(500.0).ok(),
        ..GroupDraft::default()
    }
}

/// Channels of 1000 W into 1 Ω, least load 1 Ω.
fn amplifier(count: u32, channels: usize, pairs: u32, bridges: &[[u32; 2]]) -> AmplifierDraft {
    let point = PointDraft {
        ohms: Field::PointOhms.ohms_text("1").ok(),
        watts: Field::PointWatts.watts(1000.0).ok(),
    };
    let channel = ChannelDraft {
        least: Field::ChannelLeast.ohms_text("1").ok(),
        rated: vec![point],
        terminal_pairs: Some(pairs),
    };
    let bridge = |pair: &[u32; 2]| BridgeDraft { channels: Some(*pair), ..BridgeDraft::default() };
    AmplifierDraft {
        count: Some(count),
        channels: vec![channel; channels],
        bridges: bridges.iter().map(bridge).collect(),
    }
}

fn told<T>(
    group: GroupDraft,
    amplifier: AmplifierDraft,
    build: &Build,
    key: &str,
    look: impl Fn(Wording<'_>) -> T,
) -> T {
    told_where_possible(group, amplifier, build, key, look).unwrap()
}

/// The same; nothing where the box does not take the configuration.
fn told_where_possible<T>(
    group: GroupDraft,
    amplifier: AmplifierDraft,
    build: &Build,
    key: &str,
    look: impl FnOnce(Wording<'_>) -> T,
) -> Option<T> {
    let rig = Draft { groups: vec![group], amplifier: Some(amplifier) }.check(Vec::new()).unwrap();
    let configuration = one(&rig, key).unwrap();
    let plan = Plan::of(&rig, build, &configuration).ok()?;
    let foretold = foretell(&rig, &plan, &Known::default()).unwrap();
    let (configuration, plan, foretold) = (&configuration, &plan, foretold.as_slice());
    Some(look(Wording { rig: &rig, build, configuration, plan, foretold, names: &[] }))
}

fn cups(cups: Cups) -> Build {
    Build { cups, ..Build::default() }
}

const MONO: (u32, usize, u32) = (1, 1, 1);

fn plain((count, channels, pairs): (u32, usize, u32)) -> AmplifierDraft {
    amplifier(count, channels, pairs, &[])
}

#[test]
fn a_run_is_one_line() {
    let dual = |wording: Wording<'_>| {
        (wording.run(0), wording.run(2), wording.run(4), wording.run(6), wording.run(99))
    };
    let found = told(drivers(2, 2, 0), plain(MONO), &cups(Cups::One), "1:(1a+1b)||(2a+2b)", dual);
    // 2 Ω with 500 W: the root of 250 is 15.8 A, half of it in each driver.
    let want = [
        "Run 1: 1a − to 1b +, between parts in series, 0.1 m, 7.91 A",
        "Run 3: 1a + to 2a +, positive, 0.5 m, 7.91 A",
        "Run 5: cup + (inside) to 1a +, positive, 0.5 m, 15.8 A",
        "Run 7: amplifier + to cup +, positive, 2 m, 15.8 A",
        "",
    ];
    assert_eq!((&*found.0, &*found.1, &*found.2, &*found.3, &*found.4), want.into());
}

#[test]
fn terminals_are_named_as_they_are_marked() {
    let all = |wording: Wording<'_>| {
        let mut names = Vec::new();
        for run in &wording.plan.runs {
            for end in [run.from, run.to] {
                let name = wording.terminal(end);
                if !names.contains(&name) {
                    names.push(name);
                }
            }
        }
        names.join("; ")
    };
    let one_coil = Takes { conductors: 1, largest_mm2: None };
    let few = Build { takes: [one_coil; 3], ..Build::default() };
    let cases = [
        (
            drivers(1, 1, 0),
            plain(MONO),
            cups(Cups::One),
            "1:1a",
            "cup +, inside; driver 1 +; cup −, inside; driver 1 −; amplifier +; cup +; amplifier −; cup −",
        ),
        (
            drivers(2, 1, 0),
            plain((1, 1, 2)),
            Build::default(),
            "1:1a||2a",
            "amplifier +, first pair; driver 1 +; amplifier −, first pair; driver 1 −; amplifier +, second pair; driver 2 +; amplifier −, second pair; driver 2 −",
        ),
        (
            drivers(2, 1, 0),
            plain((1, 2, 1)),
            Build::default(),
            "1:1a;2:2a",
            "channel 1 +; driver 1 +; channel 1 −; driver 1 −; channel 2 +; driver 2 +; channel 2 −; driver 2 −",
        ),
        (
            drivers(2, 1, 0),
            plain((2, 1, 1)),
            Build::default(),
            "1:1a;2:2a",
            "amplifier 1 +; driver 1 +; amplifier 1 −; driver 1 −; amplifier 2 +; driver 2 +; amplifier 2 −; driver 2 −",
        ),
        (
            drivers(1, 1, 0),
            amplifier(1, 2, 1, &[[1, 2]]),
            Build::default(),
            "1+2:1a",
            "channels 1+2 bridged +; driver 1 +; channels 1+2 bridged −; driver 1 −",
        ),
        (
            drivers(2, 1, 0),
            plain(MONO),
            few,
            "1:1a||2a",
            "splice 1; driver 1 +; splice 2; driver 1 −; driver 2 +; driver 2 −; amplifier +; amplifier −",
        ),
    ];
    for (group, amplifier, build, key, want) in cases {
        assert_eq!(told(group, amplifier, &build, key, all), want, "{key}");
    }
}

#[test]
fn labels_are_those_of_the_drawing() {
    let labels = |wording: Wording<'_>| {
        [wording.driver_labels(), wording.cup_labels(), wording.output_labels()]
            .map(|all| all.join(", "))
    };
    let two = drivers(2, 1, 0);
    let bridged = amplifier(1, 4, 1, &[[1, 2], [3, 4]]);
    let mono = told(two.clone(), plain(MONO), &cups(Cups::One), "1:1a||2a", labels);
    assert_eq!(mono, ["driver 1, driver 2", "cup", "amplifier"]);
    let apart = told(two.clone(), plain((1, 2, 1)), &cups(Cups::Driver), "1:1a;2:2a", labels);
    assert_eq!(apart, ["driver 1, driver 2", "cup 1, cup 2", "channel 1, channel 2"]);
    let over = |wording: Wording<'_>| wording.bridged_labels().concat().join(", ");
    let none = told(two.clone(), plain((1, 2, 1)), &cups(Cups::Driver), "1:1a;2:2a", over);
    assert_eq!(none, "");
    let all = told(two.clone(), bridged.clone(), &Build::default(), "1+2:1a;3+4:2a", over);
    assert_eq!(all, "channel 1, channel 2, channel 3, channel 4");
    let bridges = told(two, bridged, &Build::default(), "1+2:1a;3+4:2a", labels);
    assert_eq!(bridges[2], "channels 1+2 bridged, channels 3+4 bridged");
    let several =
        told(drivers(4, 1, 0), plain((2, 2, 1)), &Build::default(), "1:1a;2:2a;3:3a;4:4a", labels);
    assert_eq!(
        several[2],
        "amplifier 1, channel 1, amplifier 1, channel 2, amplifier 2, channel 1, amplifier 2, channel 2"
    );
}

#[test]
fn notes_say_what_is_not_seen_in_the_steps() {
    let notes = |wording: Wording<'_>| wording.notes();
    let tied =
        told(drivers(2, 2, 0), plain((1, 1, 2)), &cups(Cups::Driver), "1:(1a+1b)||(2a+2b)", notes);
    assert_eq!(
        tied,
        [
            "What is in parallel is joined at the tied terminal pairs of the amplifier rather than at the box, which is equal; the reading with the power off decides whether they are tied.",
            "The resistance of the wire feeds all drivers alike.",
        ]
    );
    // The imbalance itself is held against nodal analysis in the solver's own tests.
    let chain = told(
        drivers(8, 1, 0),
        plain(MONO),
        &Build { mounted_reversed: vec![1, 2], ..Build::default() },
        "1:1a||2a||3a||4a||5a||6a||7a||8a",
        |wording| (wording.notes(), wording.plan.imbalance.unwrap()),
    );
    let (decibels, least) = (chain.1.decibels, chain.1.least);
    assert!(decibels > 0.1 && least == 7, "{decibels} {least}");
    let shown = MARKS.short((decibels * 100.0).round() / 100.0);
    assert_eq!(
        chain.0,
        [
            format!("The resistance of the wire feeds the drivers unequally: driver 8 gets least, {shown} dB below the one that gets most. A star or a larger conductor makes that less."),
            "Driver 2 and driver 3 are mounted facing in on purpose: + and − are exchanged there, and the cone moves the other way.".to_owned(),
        ]
    );
    let short = told(
        drivers(2, 1, 0),
        plain(MONO),
        &Build { metres: [0.1; 5], ..Build::default() },
        "1:1a||2a",
        notes,
    );
    assert_eq!(
        short,
        [
            "The resistance of the wire feeds the drivers unequally, but by less than 0.1 dB, which is small: driver 2 gets least."
        ]
    );
    let star = Build { fed: Fed::Star, ..Build::default() };
    let refused = told(drivers(4, 1, 0), plain(MONO), &star, "1:1a||2a||3a||4a", notes);
    assert_eq!(
        refused.first().map(String::as_str),
        Some(
            "A star was asked for, but some terminal takes too few conductors for it: what hangs there is fed in another way."
        )
    );
    let open = told(drivers(1, 2, 1), plain(MONO), &Build::default(), "1:1a", notes);
    assert_eq!(
        open,
        ["Coil 1b is left out on purpose: every end is insulated by itself, never shorted."]
    );
}

#[test]
fn parts_are_what_is_to_be_bought() {
    let parts = |wording: Wording<'_>| wording.parts();
    let dual = told(drivers(2, 2, 0), plain(MONO), &cups(Cups::One), "1:(1a+1b)||(2a+2b)", parts);
    assert_eq!(
        dual,
        [
            "Wire between coils of a driver: 2 runs, 0.2 m in all, up to 7.91 A, 2.5 mm²",
            "Wire between drivers: 2 runs, 1 m in all, up to 7.91 A, 2.5 mm²",
            "Wire from cups to drivers: 2 runs, 1 m in all, up to 15.8 A, 2.5 mm²",
            "Wire to the amplifier: 2 runs, 4 m in all, up to 15.8 A, 2.5 mm²",
            "1 terminal cup",
            "Conductor ends: 10 at drivers, 4 at cups and 2 at the amplifier",
        ]
    );
    let one_each = Takes { conductors: 1, largest_mm2: Some(4.0) };
    let few = Build { takes: [one_each, Takes::USUAL, Takes::USUAL], ..Build::default() };
    // Too low for the amplifier, so that no current is known.
    let spliced = told(drivers(4, 1, 0), plain(MONO), &few, "1:1a||2a||3a||4a", parts);
    assert_eq!(
        spliced,
        [
            "Wire between drivers: 8 runs, 6.2 m in all, 2.5 mm²",
            "Wire to the amplifier: 2 runs, 4 m in all, 2.5 mm²",
            "2 splices for 5 conductors each",
            "Conductor ends: 8 at drivers and 2 at the amplifier",
            "A terminal of a driver takes up to 4 mm²",
        ]
    );
    let open = told(drivers(1, 2, 1), plain(MONO), &Build::default(), "1:1a", parts);
    assert_eq!(open.last().map(String::as_str), Some("2 insulating caps for coils left out"));
}

#[test]
fn the_text_to_copy_is_complete() {
    let text = told(drivers(1, 2, 1), plain(MONO), &Build::default(), "1:1a", |wording| {
        let text = wording.text();
        let (_, mut rest) = text.split_once("\nSteps\n").unwrap();
        // Heading by heading, and act by act under it: all of them, in their order.
        let mut acts = 0;
        for (at, of) in wording.plan.steps.iter().enumerate() {
            let mut lines = vec![format!("{}. {}", at + 1, wording.step(at).title)];
            for act in of.acts() {
                let said = wording.act(act);
                lines.push(format!("   - {}", said.text));
                lines.extend(said.caution.map(|caution| format!("     Caution: {caution}")));
                acts += 1;
            }
            for line in lines {
                let Some(left) = rest.strip_prefix(&format!("{line}\n")) else {
                    panic!("{line}, where there is {rest}")
                };
                rest = left;
            }
        }
        assert_eq!((acts, rest), (wording.plan.acts.len(), ""));
        text
    });
    let head = "Rig: 1 × dual 2 Ω, 500 W each; least load 1 Ω\nAmplifier: 1a, 2 Ω\nCoil 1b is left out on purpose: every end is insulated by itself, never shorted.\nNever below the amplifier's least load.\nThe makers' manuals and local codes come first. If in doubt, ask a qualified installer.\n\nParts\n- Wire to the amplifier: 2 runs, 4 m in all, up to 15.8 A, 2.5 mm²\n";
    assert!(text.starts_with(head), "{text}");
    let bridged = told(
        drivers(2, 1, 0),
        amplifier(1, 2, 1, &[[1, 2]]),
        &Build::default(),
        "1+2:1a+2a",
        |wording| wording.text(),
    );
    assert!(
        bridged.contains(&format!("\nChannels 1+2 bridged: 1a + 2a, 4 Ω\n{}\n", ways::SAME_SIGNAL))
    );
    let split =
        told(drivers(1, 2, 0), plain((1, 2, 1)), &Build::default(), "1:1a;2:1b", |wording| {
            wording.text()
        });
    assert!(split.contains(&ways::split(0)), "{split}");
}

/// What the step on power says of the caution is not said in it again.
#[test]
fn the_caution_on_power_is_the_page_s_own() {
    assert!(cautions::text(Caution::PowerOff).ends_with(acts::BATTERIES));
    let last = cautions::text(Caution::LandedLast);
    assert_eq!(last.split('.').next(), acts::PLUG_LAST.split('.').next());
}

mod names_said;
mod steps_said;
mod taken_together;

/// Reviewed by eye.
#[test]
fn a_drawing_is_called_what_it_shows_and_describes_it() {
    let of = |group, outputs: (u32, usize, u32), build: &Build, key: &str| {
        let (count, channels, pairs) = outputs;
        let say = |wording: Wording<'_>| [wording.drawing_title(), wording.drawing_description()];
        told(group, amplifier(count, channels, pairs, &[]), build, key, say)
    };
    let reading = "each with its number. A positive run has a stripe, a negative one is plain, one \
                   between parts in series is thin, and every terminal has its sign. Runs that \
                   hop over each other do not touch. The steps tell each run in words.";
    assert_eq!(
        of(drivers(2, 2, 0), MONO, &cups(Cups::Driver), "1:(1a+1b)||(2a+2b)"),
        [
            "As wired: (1a + 1b) ∥ (2a + 2b)".to_owned(),
            format!("2 drivers, 2 terminal cups, amplifier at 2 Ω; 10 runs of wire, {reading}")
        ]
    );
    assert_eq!(
        of(drivers(2, 1, 0), (1, 2, 1), &Build::default(), "1:1a;2:2a"),
        [
            "As wired: channel 1: 1a; channel 2: 2a".to_owned(),
            format!("2 drivers, channel 1 at 2 Ω, channel 2 at 2 Ω; 4 runs of wire, {reading}")
        ]
    );
}
