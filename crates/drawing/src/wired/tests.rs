//! Laws of the drawing as wired, over a spread of rigs and boxes, and snapshots.

use super::*;
use crate::scene::Point;
use crate::scene::check::{Area, enters, overlap, problems, texts};
use coilwright_solver::answer::{Configuration, one};
use coilwright_solver::bounds::Field;
use coilwright_solver::rig::{
    AmplifierDraft, Build, BuildDraft, ChannelDraft, Cups, Draft, Fed, GroupDraft, TakesDraft,
};
use std::path::Path;
use std::sync::LazyLock;

mod named;
mod near;
mod seen;
mod suspected;
mod table;

/// A plan, and what it is of.
struct Made {
    rig: Rig,
    build: Build,
    configuration: Configuration,
    plan: Plan,
}

fn plan(of: [u32; 3], build: &BuildDraft, key: &str) -> Option<Plan> {
    made(of, build, key).map(|made| made.plan)
}

/// A plan of so many drivers with so many coils, on channels with so many pairs.
fn made([count, coils, pairs]: [u32; 3], build: &BuildDraft, key: &str) -> Option<Made> {
    let ohms = Field::CoilOhms.ohms_text("4").ok();
    let group = GroupDraft { count: Some(count), coils: Some(coils), ohms, ..Default::default() };
    let channel = ChannelDraft { terminal_pairs: Some(pairs), ..ChannelDraft::default() };
    let amplifier =
        AmplifierDraft { count: Some(1), channels: vec![channel; 2], bridges: Vec::new() };
    let rig = Draft { groups: vec![group], amplifier: Some(amplifier) }.check(Vec::new()).unwrap();
    let build = build.check(&rig).unwrap();
    let configuration = one(&rig, key).unwrap();
    let plan = Plan::of(&rig, &build, &configuration).ok()?;
    Some(Made { rig, build, configuration, plan })
}

fn labels(plan: &Plan) -> Labels {
    let named = |name: &str, count: usize| (1..=count).map(|n| format!("{name} {n}")).collect();
    Labels {
        drivers: named("driver", 16),
        names: Vec::new(),
        cups: named("cup", plan.cups.len()),
        outputs: named("channel", plan.pairs.len()),
        legend: ["striped: +", "plain: −", "thin: in between"].map(str::to_owned),
        ..Labels::default()
    }
}

/// Drivers one after the other, each joined inside by a sign.
fn drivers(count: u32, join: &str, inside: &str) -> String {
    let one = |n: u32| format!("({n}a{inside}{n}b)");
    format!("1:{}", (1..=count).map(one).collect::<Vec<_>>().join(join))
}

/// Rigs from one coil to thirty-two, in every box that takes them.
static SPREAD: LazyLock<Vec<(String, Made)>> = LazyLock::new(made_spread);

fn spread() -> impl Iterator<Item = (&'static String, &'static Plan)> {
    SPREAD.iter().map(|(name, made)| (name, &made.plan))
}

fn made_spread() -> Vec<(String, Made)> {
    let quads = |join: &str| {
        let one = |n: u32| format!("(({n}a+{n}b)||({n}c+{n}d))");
        format!("1:{}", (1..=8).map(one).collect::<Vec<_>>().join(join))
    };
    let four = |first: u32| {
        let one = |n: u32| format!("({n}a+{n}b)");
        format!("({})", (first..first + 4).map(one).collect::<Vec<_>>().join("||"))
    };
    let sixteen = format!("1:{}", [1, 5, 9, 13].map(four).join("+"));
    let rigs: [([u32; 3], String); 14] = [
        ([1, 1, 1], "1:1a".into()),
        ([2, 1, 1], "1:1a||2a".into()),
        ([2, 1, 2], "1:1a+2a".into()),
        ([2, 1, 2], "1:1a||2a".into()),
        ([2, 2, 1], drivers(2, "||", "+")),
        ([2, 2, 2], drivers(2, "||", "||").replace(['(', ')'], "")),
        ([2, 2, 1], "1:(1a||2a)+(1b||2b)".into()),
        ([3, 2, 1], drivers(3, "+", "||")),
        ([4, 2, 2], drivers(4, "||", "+")),
        ([4, 1, 1], "1:1a||2a;2:3a||4a".into()),
        ([2, 2, 1], "1:1a+1b;2:2a+2b".into()),
        ([8, 4, 1], quads("||")),
        ([8, 4, 2], quads("+")),
        ([16, 2, 1], sixteen),
    ];
    let tab = TakesDraft { push_on: true, ..TakesDraft::default() };
    let wide = TakesDraft { conductors: Some(4), ..TakesDraft::default() };
    let mut plans = Vec::new();
    for (rig, key) in &rigs {
        for cups in [Cups::None, Cups::One, Cups::Group(None), Cups::Driver, Cups::Coil] {
            for fed in [Fed::Chain, Fed::Star] {
                for takes in [[TakesDraft::default(); 3], [wide; 3], [tab; 3]] {
                    let build = BuildDraft { cups, fed, takes, ..BuildDraft::default() };
                    if let Some(made) = made(*rig, &build, key) {
                        plans.push((format!("{key} {cups:?} {fed:?} {takes:?}"), made));
                    }
                }
            }
        }
    }
    assert!(plans.len() > 250, "{}", plans.len());
    plans
}

/// The conductor of every run from end to end, over its hops, with its number.
fn conductors(scene: &Scene) -> Vec<(Option<usize>, Vec<Point>)> {
    let mut all = Vec::new();
    let (mut run, mut way) = (None, Vec::new());
    for mark in &scene.marks {
        match mark {
            Mark::Run(_, number) => run = *number,
            Mark::Path(Role::Conductor, places) => way.extend(places),
            Mark::End if !way.is_empty() => all.push((run, core::mem::take(&mut way))),
            _ => {}
        }
    }
    all
}

/// The conductors of the runs that have numbers, in their order.
fn ways(scene: &Scene) -> Vec<(usize, Vec<Point>)> {
    let numbered = |(run, way): (Option<usize>, _)| Some((run?, way));
    let mut ways: Vec<_> = conductors(scene).into_iter().filter_map(numbered).collect();
    ways.sort_by_key(|(number, _)| *number);
    ways
}

fn rects(scene: &Scene, wanted: &[Role]) -> Vec<Area> {
    let area = |mark: &Mark| match mark {
        Mark::Rect(role, at, wide, tall, _) if wanted.contains(role) => {
            Some((at.0, at.1, at.0 + wide, at.1 + tall))
        }
        _ => None,
    };
    scene.marks.iter().filter_map(area).collect()
}

fn pieces(way: &[Point]) -> impl Iterator<Item = (Point, Point)> {
    way.iter().copied().zip(way.iter().skip(1).copied())
}

/// A way without what is one with others at its terminals.
fn bare(way: &[Point]) -> Vec<Point> {
    let mut way = way.to_vec();
    for _ in 0..2 {
        if let [a, b, ..] = way[..] {
            way[0].0 += 14.min((b.0 - a.0).abs()) * (b.0 - a.0).signum();
        }
        way.reverse();
    }
    way
}

/// Whether two upright or level pieces lie on each other for more than a point.
fn lie_on(((a, b), (c, d)): (Point, Point), ((e, f), (g, h)): (Point, Point)) -> bool {
    let along = |a: i32, c: i32, e: i32, g: i32| a.min(c).max(e.min(g)) < a.max(c).min(e.max(g));
    (a == c && e == g && a == e && along(b, d, f, h))
        || (b == d && f == h && b == f && along(a, c, e, g))
}

#[test]
fn every_run_has_a_way_and_the_frame_holds_everything() {
    for (name, plan) in spread() {
        let scene = wired(plan, &labels(plan), &[]).unwrap();
        let numbers: Vec<usize> = ways(&scene).iter().map(|(number, _)| *number).collect();
        assert_eq!(numbers, (0..plan.runs.len()).collect::<Vec<_>>(), "{name}");
        assert_eq!(problems(&scene), Vec::<String>::new(), "{name}");
    }
}

#[test]
fn no_run_crosses_a_body_and_no_two_lie_on_each_other() {
    for (name, plan) in spread() {
        let scene = wired(plan, &labels(plan), &[]).unwrap();
        let ways = ways(&scene);
        let bodies = rects(&scene, &[Role::Body, Role::Post]);
        for (number, way) in &ways {
            for piece in pieces(way) {
                let inside = bodies.iter().any(|body| enters(piece, *body));
                assert!(!inside, "{name}: run {number} enters a body");
            }
        }
        for (i, (number, way)) in ways.iter().enumerate() {
            for (other, along) in ways.iter().skip(i + 1) {
                for piece in pieces(&bare(way)) {
                    let on = pieces(&bare(along)).any(|other| lie_on(piece, other));
                    assert!(!on, "{name}: run {number} lies on run {other}");
                }
            }
        }
    }
}

#[test]
fn every_terminal_has_its_sign() {
    for (name, plan) in spread() {
        let scene = wired(plan, &labels(plan), &[]).unwrap();
        let tabs = rects(&scene, &[Role::Tab]);
        // A cup has one sign for both of its sides.
        let sided = plan.cups.len() * 2;
        let signs = texts(&scene).iter().filter(|(role, ..)| *role == Role::Sign).count();
        assert_eq!(signs + sided, tabs.len(), "{name}");
    }
}

/// What feeds a set stands no lower than the first of what it feeds, so that a chain in
/// the order of the column is the shortest: every other order of up to five is longer.
#[test]
fn a_chain_is_the_shortest_by_the_positions_of_the_drawing() {
    fn orders(left: &[i32]) -> Vec<Vec<i32>> {
        if left.is_empty() {
            return vec![Vec::new()];
        }
        let mut all = Vec::new();
        for (i, first) in left.iter().enumerate() {
            let mut rest = left.to_vec();
            rest.remove(i);
            all.extend(orders(&rest).into_iter().map(|mut order| {
                order.insert(0, *first);
                order
            }));
        }
        all
    }
    let length =
        |order: &[i32]| -> i32 { order.windows(2).map(|two| (two[0] - two[1]).abs()).sum() };
    let mut tried = 0;
    for (name, plan) in spread() {
        let bodies = route(plan, plan, &labels(plan)).unwrap().bodies;
        let height = |terminal| {
            let tab = bodies.tabs.iter().find(|tab| tab.terminal == terminal).unwrap();
            tab.axis
        };
        let spliced = |run: &coilwright_solver::wiring::Run| {
            [run.from, run.to].iter().any(|one| matches!(one.post, Post::Splice(_)))
        };
        if plan.pairs.iter().any(|pairs| *pairs > 1) || plan.runs.iter().any(spliced) {
            continue;
        }
        for set in plan.joined.iter().filter(|set| (3..=5).contains(&set.terminals.len())) {
            let own: Vec<i32> = set.terminals.iter().map(|one| height(*one)).collect();
            let fed = matches!(set.terminals[0].post, Post::Amplifier { .. } | Post::CupInside(_));
            let chained =
                plan.runs.windows(1).filter(|run| set.terminals.contains(&run[0].from)).all(
                    |run| plan.runs.iter().filter(|other| other.from == run[0].from).count() == 1,
                );
            if !chained {
                continue;
            }
            let shortest = orders(&own)
                .iter()
                .filter(|order| !fed || order[0] == own[0])
                .map(|order| length(order))
                .min();
            assert_eq!(Some(length(&own)), shortest, "{name}: {own:?}");
            tried += 1;
        }
    }
    assert!(tried > 50, "{tried}");
}

#[test]
fn the_order_of_tracks_never_crosses_more_than_the_order_of_the_runs() {
    let (mut before, mut after) = (0, 0);
    for (name, plan) in spread() {
        let found = crossings(plan).unwrap();
        assert!(found.after <= found.before, "{name}: {found:?}");
        // As counted on the drawing itself.
        let scene = wired(plan, &labels(plan), &[]).unwrap();
        let ways = ways(&scene);
        let mut seen = 0;
        for (i, (_, way)) in ways.iter().enumerate() {
            for (_, other) in ways.iter().skip(i + 1) {
                for ((a, b), (c, d)) in pieces(way) {
                    for ((e, f), (g, h)) in pieces(other) {
                        let across = |a: i32, c: i32, e: i32| a.min(c) < e && e < a.max(c);
                        seen += u32::from(a == c && f == h && across(b, d, f) && across(e, g, a));
                        seen += u32::from(e == g && b == d && across(f, h, b) && across(a, c, e));
                    }
                }
            }
        }
        if !scene.marks.iter().any(|mark| matches!(mark, Mark::Rect(Role::Splice, ..))) {
            assert_eq!(seen, found.after, "{name}");
        }
        before += found.before;
        after += found.after;
    }
    assert!(after * 3 < before, "{after} of {before}");
}

/// On paper no driver is cut in two, and nothing is lost between two parts.
#[test]
fn parts_of_a_tall_drawing_are_cut_between_drivers() {
    for (name, plan) in spread() {
        let whole = wired(plan, &labels(plan), &[]).unwrap();
        let parts = parts(&whole, 900);
        let mut top = 0;
        for part in &parts {
            assert_eq!(part.top, top, "{name}");
            assert!(part.height <= 900 && part.height > 0, "{name}");
            top += part.height;
            let cut = |body: &Area| body.1 < top && top < body.3;
            assert!(!rects(&whole, &[Role::Body]).iter().any(cut), "{name} at {top}");
        }
        assert_eq!(top, whole.height, "{name}");
    }
}

/// Opened and looked at when it changes; `COILWRIGHT_SNAPSHOT=1` writes it anew.
#[test]
fn a_drawing_is_as_it_was_looked_at() {
    let tab = TakesDraft { push_on: true, ..TakesDraft::default() };
    let build = BuildDraft { cups: Cups::None, takes: [tab; 3], ..BuildDraft::default() };
    let plan = plan([3, 1, 1], &build, "1:1a||2a||3a").unwrap();
    looked_at(&wired(&plan, &labels(&plan), &[1]).unwrap(), "tabs");
}

fn looked_at(scene: &Scene, name: &str) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/wired/snapshots");
    let drawn = scene.file(look, name, "Looked at.");
    let file = folder.join(format!("{name}.svg"));
    if std::env::var_os("COILWRIGHT_SNAPSHOT").is_some() {
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(&file, &drawn).unwrap();
    }
    assert_eq!(drawn, std::fs::read_to_string(&file).unwrap(), "{name}");
}
