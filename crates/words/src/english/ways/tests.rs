use super::*;
use coilwright_solver::answer::{Request, answer};
use coilwright_solver::bounds::Field;
use coilwright_solver::rig::{AmplifierDraft, BridgeDraft, ChannelDraft, Draft, GroupDraft};

fn rig(groups: &[(u32, u32)], count: u32, channels: usize, bridges: &[[u32; 2]]) -> Rig {
    let group = |(count, coils): &(u32, u32)| GroupDraft {
        count: Some(*count),
        coils: Some(*coils),
        ohms: Field::CoilOhms.ohms_text("4").ok(),
        ..GroupDraft::default()
    };
    let channel =
        ChannelDraft { least: Field::ChannelLeast.ohms_text("2").ok(), ..ChannelDraft::default() };
    let bridge = |pair: &[u32; 2]| BridgeDraft { channels: Some(*pair), ..BridgeDraft::default() };
    let amplifier = AmplifierDraft {
        count: Some(count),
        channels: vec![channel; channels],
        bridges: bridges.iter().map(bridge).collect(),
    };
    let groups = groups.iter().map(group).collect();
    Draft { groups, amplifier: Some(amplifier) }.check(Vec::new()).unwrap()
}

#[track_caller]
fn says(rig: &Rig, want: &[(&str, &str)]) {
    let request = Request { rig: rig.clone(), joined_only: false, even_only: false, limit: 1_000 };
    let found = answer(request);
    for (key, words) in want {
        let configuration = found.configurations.iter().find(|one| one.key() == *key);
        let configuration = configuration.unwrap_or_else(|| panic!("{key} is not listed"));
        assert_eq!(describe(rig, &configuration.outputs), *words, "{key}");
    }
}

#[test]
fn every_way_is_said_in_words() {
    says(
        &rig(&[(2, 1)], 1, 4, &[[1, 2], [3, 4]]),
        &[
            (
                "1+2:1a+2a",
                "channels 1 and 2 bridged, two drivers in series on it; channels 3 and 4 idle",
            ),
            ("1+2:1a;3+4:2a", "bridges 1+2 and 3+4, one driver on each"),
            ("1:1a||2a", "channel 1, two drivers in parallel on it; channels 2 to 4 idle"),
        ],
    );
    says(
        &rig(&[(1, 2)], 1, 2, &[]),
        &[("1:1a", "channels 1 and 2, one coil of driver 1 on each")]
            .map(|(_, words)| ("1:1a;2:1b", words)),
    );
    says(
        &rig(&[(3, 1)], 2, 1, &[]),
        &[
            (
                "1:1a+2a;2:3a",
                "amplifier 1, two drivers in series on it; amplifier 2, one driver on it",
            ),
            (
                "1:1a+(2a||3a)",
                "amplifier 1, three drivers in series-parallel on it; the others idle",
            ),
        ],
    );
    says(
        &rig(&[(2, 2)], 1, 1, &[]),
        &[
            ("1:1a+1b+2a+2b", "two drivers in series (coils of each in series)"),
            ("1:(1a||1b)+(2a||2b)", "two drivers in series (coils of each in parallel)"),
            ("1:(1a+2a)||(1b+2b)", "two drivers, coil by coil"),
        ],
    );
}
