//! The rigs that drawings are looked at for, with how often runs crossed in them before they
//! were drawn with hops.

use super::*;
use coilwright_solver::rig::BridgeDraft;

/// Crossings as drawn before, by count, way and box.
const CROSSED: [[[u32; 4]; 5]; 4] = [
    [[0, 0, 0, 0], [2, 2, 2, 1], [2, 2, 2, 1], [0, 2, 0, 1], [0, 0, 0, 0]],
    [[0, 0, 0, 0], [6, 6, 6, 3], [3, 3, 4, 2], [4, 6, 4, 3], [0, 2, 0, 1]],
    [[0, 0, 0, 0], [14, 14, 14, 7], [11, 11, 12, 6], [12, 14, 12, 7], [0, 2, 0, 1]],
    [[0, 0, 0, 0], [30, 30, 30, 15], [27, 27, 28, 14], [28, 30, 28, 15], [0, 2, 0, 1]],
];

/// A drawing's plan, and what stands on it.
pub(super) struct Entry {
    pub(super) name: String,
    pub(super) plan: Plan,
    pub(super) labels: Labels,
    /// How often its runs crossed before.
    pub(super) crossed: u32,
}

/// Parts of a network: from one coil on to another, joined.
fn joined(from: u32, to: u32, join: &str, one: impl Fn(u32) -> String) -> String {
    (from..=to).map(one).collect::<Vec<_>>().join(join)
}

/// Coils on each driver, terminal pairs of each channel, and what is wired, by its name.
fn ways(count: u32) -> [(&'static str, [u32; 2], String); 5] {
    let single = |n: u32| format!("{n}a");
    let dual = |n: u32| format!("({n}a+{n}b)");
    let half = count / 2;
    let halves = |inner: &str, outer: &str, one: fn(u32) -> String| {
        let (first, last) = (joined(1, half, inner, one), joined(half + 1, count, inner, one));
        format!("({first}){outer}({last})")
    };
    let mixed = match count {
        2 => joined(1, 2, "||", dual),
        _ => halves("||", "+", |n| format!("({n}a+{n}b)")),
    };
    let bridged = match count {
        2 => joined(1, 2, "+", single),
        _ => halves("+", "||", |n| format!("{n}a")),
    };
    [
        ("series", [1, 1], format!("1:{}", joined(1, count, "+", single))),
        ("parallel", [1, 1], format!("1:{}", joined(1, count, "||", single))),
        ("mixed", [2, 1], format!("1:{mixed}")),
        ("tied", [1, 2], format!("1:{}", joined(1, count, "||", single))),
        ("bridged", [1, 2], format!("1+2:{bridged}")),
    ]
}

fn rig(count: u32, [coils, pairs]: [u32; 2]) -> Rig {
    let group = GroupDraft {
        count: Some(count / 2),
        coils: Some(coils),
        ohms: Field::CoilOhms.ohms_text("4").ok(),
        ..Default::default()
    };
    let channel = ChannelDraft { terminal_pairs: Some(pairs), ..ChannelDraft::default() };
    let bridge = BridgeDraft { channels: Some([1, 2]), ..BridgeDraft::default() };
    let amplifier =
        AmplifierDraft { count: Some(1), channels: vec![channel; 2], bridges: vec![bridge] };
    let draft = Draft { groups: vec![group.clone(), group], amplifier: Some(amplifier) };
    draft.check(Vec::new()).unwrap()
}

/// Two groups in no box, in one with one cup, and in one with a cup for each; and with tabs
/// that take one conductor each.
pub(super) fn table() -> Vec<Entry> {
    let mut table = Vec::new();
    let tab = TakesDraft { push_on: true, ..TakesDraft::default() };
    for (count, crossed) in [2, 4, 8, 16].into_iter().zip(CROSSED) {
        for ((way, of, key), crossed) in ways(count).into_iter().zip(crossed) {
            let boxes = [
                (Cups::None, TakesDraft::default()),
                (Cups::One, TakesDraft::default()),
                (Cups::Group(None), TakesDraft::default()),
                (Cups::One, tab),
            ];
            for ((cups, takes), crossed) in boxes.into_iter().zip(crossed) {
                let rig = rig(count, of);
                let draft = BuildDraft { cups, takes: [takes; 3], ..BuildDraft::default() };
                let build = draft.check(&rig).unwrap();
                let configuration = one(&rig, &key).unwrap();
                let name = format!("{count} {way} {cups:?} {}", takes.push_on);
                let plan = Plan::of(&rig, &build, &configuration).unwrap();
                let mut labels = labels(&plan);
                if way == "bridged" {
                    labels.bridged = vec![vec!["channel 1".to_owned(), "channel 2".to_owned()]];
                    labels.marked =
                        vec!["two of these four,".into(), "as their maker marks".into()];
                }
                table.push(Entry { name, plan, labels, crossed });
            }
        }
    }
    table
}
