//! The ways of runs through their lanes, where they hop, and where their numbers stand.

use super::lane::{CLAMP, Item, Lane, NAME, Pin};
use crate::scene::{Area, Point, overlap};
use coilwright_solver::short::insertion_sort;

/// From a terminal squarely out, and from there aside to the height of the way; where many do,
/// those that go farther aside do so nearer to it.
const OUT: [i32; 2] = [9, 8];
const LITTLE: [i32; 2] = [13, 8];
const FAR: [i32; 2] = [6, 16];
/// How far aside is little.
const ASIDE: i32 = 12;
/// Half of a hop, and as much ground as there is round it.
pub(super) const HOP: i32 = 6;
const ROUND: i32 = 5;
/// Half the height of a number, and the ground that it keeps to what is not its own.
pub(super) const HALF: i32 = 7;
const KEEP: i32 = 4;
/// So often those that found no room choose first.
const TURNS: usize = 4;

/// A run as it is drawn.
#[derive(Debug)]
pub(super) struct Way {
    pub(super) run: usize,
    /// From its first end to its other end, or to its splice.
    pub(super) places: Vec<Point>,
    /// Where it crosses another run: the middles of its hops.
    pub(super) hops: Vec<Point>,
    /// The middle of its number.
    pub(super) number: Point,
    pub(super) spliced: bool,
}

/// How wide the number of a run is.
pub(super) const fn wide(run: usize) -> i32 {
    if run < 9 { 16 } else { 20 }
}

/// All ways, by lanes; tells of every lane whether all numbers have room.
pub(super) fn ways(lanes: &[Lane]) -> (Vec<Way>, Vec<bool>) {
    let mut all = Vec::new();
    let mut roomy = Vec::new();
    for lane in lanes {
        let mut ways = Vec::new();
        for item in &lane.items {
            for (pin, other) in item.runs() {
                ways.push(Way {
                    run: pin.run,
                    places: places(lane, item, pin, other),
                    hops: Vec::new(),
                    number: (0, 0),
                    spliced: item.splice.is_some(),
                });
            }
        }
        let bars = bars(lane);
        hop(&mut ways, &bars);
        roomy.push(number(&mut ways, &bars));
        all.append(&mut ways);
    }
    (all, roomy)
}

fn places(lane: &Lane, item: &Item, pin: &Pin, other: Option<&Pin>) -> Vec<Point> {
    let mut places = Vec::new();
    // From the terminal out to the height of the way.
    let out = |pin: &Pin| {
        let (x, into) = if pin.right { (lane.right, -1) } else { (lane.left, 1) };
        let mut out = vec![(x, pin.axis)];
        if pin.y != pin.axis {
            let [stub, fan] = match (pin.broad, (pin.y - pin.axis).abs() <= ASIDE) {
                (false, _) => OUT,
                (true, true) => LITTLE,
                (true, false) => FAR,
            };
            out.push((x + into * stub, pin.axis));
            out.push((x + into * (stub + fan), pin.y));
        }
        out
    };
    places.append(&mut out(pin));
    match other {
        Some(other) if other.y == pin.y => {}
        Some(other) => places.extend([(item.x, pin.y), (item.x, other.y)]),
        None => places.push((item.x, pin.y)),
    }
    if let Some(other) = other {
        places.extend(out(other).into_iter().rev());
    }
    places
}

/// The straight pieces of a way.
pub(super) fn pieces(places: &[Point]) -> impl Iterator<Item = (Point, Point)> {
    places.iter().copied().zip(places.iter().copied().skip(1))
}

/// The bars of splices: how far from the left, from where to where down.
fn bars(lane: &Lane) -> Vec<(i32, (i32, i32))> {
    let spliced = lane.items.iter().filter(|item| item.splice.is_some());
    spliced.map(|item| (item.x, item.span())).collect()
}

/// A way across hops over every way down, and over every bar.
fn hop(ways: &mut [Way], bars: &[(i32, (i32, i32))]) {
    let mut downs = bars.to_vec();
    for (a, b) in ways.iter().flat_map(|way| pieces(&way.places)) {
        if a.0 == b.0 {
            downs.push((a.0, (a.1.min(b.1), a.1.max(b.1))));
        }
    }
    for way in ways {
        for (a, b) in pieces(&way.places).filter(|(a, b)| a.1 == b.1) {
            for (x, (top, bottom)) in &downs {
                let across = a.0.min(b.0) < *x && *x < a.0.max(b.0);
                if across && *top < a.1 && a.1 < *bottom {
                    way.hops.push((*x, a.1));
                }
            }
        }
    }
}

/// Gives every run's number a place on its own way, where nothing else is; tells whether
/// there is one for all.
fn number(ways: &mut [Way], bars: &[(i32, (i32, i32))]) -> bool {
    // What no number lies on, with the run whose own it may lie on.
    let mut taken: Vec<(Option<usize>, Area)> = Vec::new();
    for way in ways.iter() {
        for (a, b) in pieces(&way.places) {
            let (left, right) = (a.0.min(b.0), a.0.max(b.0));
            taken.push((Some(way.run), (left - 2, a.1.min(b.1) - 2, right + 2, a.1.max(b.1) + 2)));
        }
        if let ([(x, y), ..], Some((u, v))) = (way.places.as_slice(), way.places.last()) {
            taken.push((None, (x - 8, y - 8, x + 8, y + 8)));
            taken.push((None, (u - 8, v - 8, u + 8, v + 8)));
        }
        for (x, y) in &way.hops {
            taken.push((None, (x - HOP - 2, y - HOP - 2, x + HOP + 2, y + 2)));
        }
    }
    for (x, (top, bottom)) in bars {
        taken.push((None, (x - CLAMP, top - CLAMP, x + CLAMP, bottom + CLAMP)));
        // Its name, which gives way to that of another to either side.
        taken.push((None, (x - NAME, bottom + CLAMP, x + NAME, bottom + NAME + 4)));
    }
    let fixed = taken.len();
    let mut order: Vec<usize> = (0..ways.len()).collect();
    for _ in 0..TURNS {
        taken.truncate(fixed);
        let mut crowded = None;
        for (turn, number) in order.iter().enumerate() {
            let Some(way) = ways.get_mut(*number) else { continue };
            let found = free(way, &taken);
            way.number = found.unwrap_or_else(|| middle(&way.places));
            if found.is_none() {
                crowded = crowded.or(Some(turn));
            }
            taken.push((None, around(way.number, way.run, 0)));
        }
        // What found no room chooses first.
        let Some(turn) = crowded else { return true };
        let first = order.remove(turn);
        order.insert(0, first);
    }
    false
}

/// What a number takes with ground round it.
const fn around((x, y): Point, run: usize, more: i32) -> Area {
    let half = wide(run) / 2 + more;
    (x - half, y - HALF - more, x + half, y + HALF + more)
}

/// Where the number of a run has room: the ways down first, since least passes there.
fn free(way: &Way, taken: &[(Option<usize>, Area)]) -> Option<Point> {
    let is_free = |at: Point| {
        let room = around(at, way.run, KEEP - 2);
        taken.iter().all(|(of, area)| *of == Some(way.run) || !overlap(*area, room))
    };
    let down = pieces(&way.places).filter(|(a, b)| a.0 == b.0);
    let across = pieces(&way.places).filter(|(a, b)| a.1 == b.1);
    down.chain(across).find_map(|(a, b)| along(a, b, wide(way.run), &is_free))
}

/// The place nearest to the middle of a piece that is free, and off its ends.
fn along(a: Point, b: Point, wide: i32, free: &impl Fn(Point) -> bool) -> Option<Point> {
    let middle = ((a.0 + b.0) / 2, (a.1 + b.1) / 2);
    let (long, half) =
        if a.0 == b.0 { ((a.1 - b.1).abs(), HALF) } else { ((a.0 - b.0).abs(), wide / 2) };
    let far = long / 2 - half - KEEP;
    for step in (0..=far).step_by(2) {
        for by in [step, -step] {
            let at = if a.0 == b.0 { (middle.0, middle.1 + by) } else { (middle.0 + by, middle.1) };
            if free(at) {
                return Some(at);
            }
        }
    }
    None
}

fn middle(places: &[Point]) -> Point {
    places.get(places.len() / 2).copied().unwrap_or_default()
}

/// The pieces of a way with its hops left out.
pub(super) fn stretches(way: &Way) -> Vec<Vec<Point>> {
    let mut all = Vec::new();
    let mut now: Vec<Point> = way.places.first().copied().into_iter().collect();
    for (a, b) in pieces(&way.places) {
        let mut over: Vec<i32> = way
            .hops
            .iter()
            .filter(|hop| hop.1 == a.1 && hop.1 == b.1 && (hop.0 > a.0) == (hop.0 < b.0))
            .map(|hop| hop.0)
            .collect();
        let into = if a.0 < b.0 { 1 } else { -1 };
        insertion_sort(&mut over, |a, b| (into * a).cmp(&(into * b)));
        for x in over {
            now.push((x - into * (HOP + 1), a.1));
            all.push(core::mem::take(&mut now));
            now.push((x + into * (HOP + 1), a.1));
        }
        now.push(b);
    }
    all.push(now);
    all
}

/// What a hop takes.
pub(super) const fn hop_area((x, y): Point) -> Area {
    (x - HOP - ROUND, y - HOP - ROUND, x + HOP + ROUND, y + 2)
}
