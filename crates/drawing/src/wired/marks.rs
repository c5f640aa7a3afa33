//! The drawing of a routed plan, from the ground up.

use super::Drawn;
use super::bodies::{Bodies, Body, CUP, MARGIN, NAME_EDGE, NAMED, SIZE, Tab};
use super::lane::{HALF, Item, Lane, NAME, Pin};
use super::suspects::{Place, places, ring, rings, round_bodies, round_parts};
use crate::scene::{Anchor, Mark, Point, Role, Scene, draw_name, draw_rect, draw_shape, draw_text};
use coilwright_solver::wiring::{Post, Role as Of, Sign};

/// A loudspeaker (IEC 60617, from memory): a frame and a cone.
const CONE: &str = "m-12-7h7v14h-7zm7 0 10-8v30l-10-8";

/// A dot, begun at its left.
const DOT: &str = "a4 4 0 1 0 8 0a4 4 0 1 0-8 0z";

pub(super) fn scene(drawn: &Drawn<'_>, bodies: &Bodies, lanes: &[Lane]) -> Scene {
    let places = places(drawn);
    let mut scene = Scene::new();
    let [amplifier, cups, drivers, right] = bodies.lefts;
    (scene.width, scene.height) = (right + MARGIN, bodies.height);
    let to = &mut scene.marks;
    if !drawn.plan.cups.is_empty() {
        let left = cups + CUP / 2;
        let tall = bodies.height - MARGIN;
        draw_rect(to, Role::Box, (left, MARGIN / 2), right + MARGIN / 2 - left, tall, 6);
    }
    round_bodies(to, &places, bodies);
    for body in &bodies.outputs {
        frame(to, Role::Post, body, amplifier, bodies.amplifier);
    }
    for body in &bodies.cups {
        frame(to, Role::Post, body, cups, CUP);
    }
    for body in &bodies.drivers {
        frame(to, Role::Body, body, drivers, bodies.driver);
        let at = (drivers + bodies.driver / 2, body.top + 32);
        let room = bodies.driver - 2 * NAME_EDGE;
        draw_name(to, at, Anchor::Middle, NAMED, &body.name, room);
        let middle = (body.top + body.bottom) / 2 + 8;
        draw_shape(to, Role::Cone, (drivers + bodies.driver - 18, middle), CONE);
    }
    round_parts(to, &places, bodies);
    for lane in lanes {
        for item in &lane.items {
            splice(to, lane, item);
            for pin in &item.pins {
                if is_first(item, pin) && places.contains(&Place::Run(pin.run)) {
                    to.push(Mark::Path(Role::SuspectRun, way(lane, item, pin)));
                }
            }
        }
    }
    // What is lit lies over the others.
    for over in [false, true] {
        for lane in lanes {
            for item in &lane.items {
                for pin in &item.pins {
                    let is_lit = drawn.lit.contains(&pin.run);
                    if is_first(item, pin) && is_lit == over {
                        run(to, drawn, lane, item, pin);
                    }
                }
            }
        }
    }
    for body in &bodies.outputs {
        tabs(to, drawn, bodies, body, bodies.amplifier);
    }
    for body in &bodies.cups {
        tabs(to, drawn, bodies, body, CUP);
    }
    for body in &bodies.drivers {
        tabs(to, drawn, bodies, body, bodies.driver);
        names(to, bodies, body, drivers);
    }
    rings(&mut scene, &places, bodies);
    scene
}

/// Whether an end is the first of its run.
fn is_first(item: &Item, pin: &Pin) -> bool {
    item.pins.iter().find(|one| one.run == pin.run).map(|one| (one.y, one.right))
        == Some((pin.y, pin.right))
}

fn frame(to: &mut Vec<Mark>, role: Role, body: &Body, left: i32, wide: i32) {
    draw_rect(to, role, (left, body.top), wide, body.bottom - body.top, 4);
    let at = (left + wide / 2, body.top + 16);
    draw_text(to, Role::BodyLabel, at, Anchor::Middle, SIZE, body.label.clone());
}

fn splice(to: &mut Vec<Mark>, lane: &Lane, item: &Item) {
    let Some(number) = item.splice else { return };
    let (top, bottom) = item.span();
    draw_rect(to, Role::Splice, (item.x - 4, top - 5), 8, bottom - top + 10, 4);
    let mut name = String::from("S");
    name.push_str(&(number + 1).to_string());
    // Names on tracks side by side keep clear of each other.
    let (mut x, mut anchor) = (item.x, Anchor::Middle);
    for other in lane.items.iter().filter(|other| other.splice.is_some()) {
        let (apart, lower) = (other.x - item.x, other.span().1 - bottom);
        if apart != 0 && apart.abs() < 2 * SIZE && lower.abs() < SIZE + 4 {
            x = item.x + 8 * apart.signum();
            anchor = if apart > 0 { Anchor::End } else { Anchor::Start };
        }
    }
    draw_text(to, Role::SpliceLabel, (x, bottom + NAME - 2), anchor, SIZE, name);
}

/// The places of a run from its first end to its other end, or to its splice.
fn way(lane: &Lane, item: &Item, pin: &Pin) -> Vec<Point> {
    let edge = |pin: &Pin| if pin.right { lane.right } else { lane.left };
    let mut places = vec![(edge(pin), item.height(pin)), (item.x, item.height(pin))];
    let other =
        item.pins.iter().find(|one| one.run == pin.run && (one.y, one.right) != (pin.y, pin.right));
    if let Some(other) = other {
        if item.is_straight() {
            places.pop();
        } else {
            places.push((item.x, item.height(other)));
        }
        places.push((edge(other), item.height(other)));
    }
    places
}

/// All places of some runs.
pub(super) fn ways(lanes: &[Lane], runs: &[usize]) -> Vec<Point> {
    let mut ways = Vec::new();
    for (lane, item) in
        lanes.iter().flat_map(|lane| lane.items.iter().map(move |item| (lane, item)))
    {
        for pin in item.pins.iter().filter(|pin| runs.contains(&pin.run)) {
            ways.append(&mut way(lane, item, pin));
        }
    }
    ways
}

fn run(to: &mut Vec<Mark>, drawn: &Drawn<'_>, lane: &Lane, item: &Item, pin: &Pin) {
    let of = drawn.plan.runs.get(pin.run).map_or(Of::Between, |run| run.role);
    let lit = drawn.lit.contains(&pin.run);
    let missing = drawn.missing == Some(pin.run);
    let numbered = pin.run < drawn.numbered;
    to.push(Mark::Run(
        match (of, lit) {
            (_, false) if missing => Role::RunMissing,
            (_, true) if missing => Role::RunMissingLit,
            (Of::Positive, false) => Role::RunPlus,
            (Of::Negative, false) => Role::RunMinus,
            (Of::Between, false) => Role::RunBetween,
            (Of::Positive, true) => Role::RunPlusLit,
            (Of::Negative, true) => Role::RunMinusLit,
            (Of::Between, true) => Role::RunBetweenLit,
        },
        Some(pin.run).filter(|_| numbered),
    ));
    let places = way(lane, item, pin);
    let mut layer = |role| to.push(Mark::Path(role, places.clone()));
    layer(Role::Hit);
    if lit {
        layer(Role::Halo);
    }
    layer(Role::Conductor);
    if of != Of::Negative && !missing {
        layer(Role::Tracer);
    }
    if item.splice.is_some() {
        // What comes to a splice has a dot there; what passes over it has none.
        draw_shape(to, Role::Dot, (item.x - 4, pin.y), DOT);
    }
    let (x, y) = badge(lane, item, pin);
    if numbered {
        let number = (pin.run + 1).to_string();
        let wide = if number.len() > 1 { 20 } else { 16 };
        draw_rect(to, Role::Badge, (x - wide / 2, y - HALF + 1), wide, 2 * HALF - 2, 4);
        draw_text(to, Role::BadgeLabel, (x, y + 5), Anchor::Middle, 12, number);
    }
    to.push(Mark::End);
    if !numbered && drawn.numbered > 0 {
        // A run too many: in place of a number.
        ring(to, (x, y));
    }
}

/// Where the number of a run stands: where least passes, on its way down; of a straight
/// run and of one to a splice, on its way across.
fn badge(lane: &Lane, item: &Item, pin: &Pin) -> Point {
    if item.splice.is_some() {
        let x = if pin.right { lane.right - 20 } else { lane.left + 20 };
        // Numbers at one terminal make room for each other, as they do as built.
        let mut y = pin.y;
        let spliced = lane.items.iter().filter(|item| item.splice.is_some());
        for other in spliced.flat_map(|item| &item.pins) {
            let apart = pin.y - other.y;
            if other.right == pin.right && apart.abs() < 2 * HALF - 2 {
                y += 4 * apart.signum();
            }
        }
        return (x, y);
    }
    let (top, bottom) = item.span();
    let upright = bottom - top > 2 * HALF;
    let (from, end) = match (item.is_straight(), upright) {
        (true, _) => (lane.left + 18, lane.right - 18),
        (false, true) => (top + HALF, bottom - HALF),
        (false, false) => return (item.x, (top + bottom) / 2),
    };
    let place = |at: i32| if upright { (item.x, at) } else { (at, bottom) };
    let middle = if upright { (top + bottom) / 2 } else { item.x };
    // Not far from the middle of its own way there is room, if there is any.
    let mut best = (near(lane, item, place(middle)), middle);
    for step in (0..=60).step_by(4) {
        for at in [middle + step, middle - step] {
            if best.0 > 0 && (from..=end).contains(&at) {
                let found = near(lane, item, place(at));
                if found < best.0 {
                    best = (found, at);
                }
            }
        }
    }
    place(best.1)
}

/// How much of other runs lies under a number: ways across, and more so ways down, which
/// have numbers of their own.
fn near(lane: &Lane, item: &Item, (x, y): Point) -> i32 {
    let mut sum = 0;
    for other in lane.items.iter().filter(|other| !core::ptr::eq(*other, item)) {
        let (top, bottom) = other.span();
        if (other.x - x).abs() < 20 && top - HALF < y + HALF && y - HALF < bottom + HALF {
            sum += 8;
        }
        for end in &other.pins {
            let (from, to) = if end.right { (other.x, lane.right) } else { (lane.left, other.x) };
            let (from, to) = if other.is_straight() { (lane.left, lane.right) } else { (from, to) };
            if from < x + 10 && x - 10 < to {
                sum += (HALF + 3 - (other.height(end) - y).abs()).max(0);
            }
        }
    }
    sum
}

/// The terminals of a body with their signs.
fn tabs(to: &mut Vec<Mark>, drawn: &Drawn<'_>, bodies: &Bodies, body: &Body, wide: i32) {
    for tab in body.tabs.iter().filter_map(|tab| bodies.tabs.get(*tab)) {
        let at_left = super::lane::is_right(tab.terminal.post);
        let x = bodies.x(tab.terminal.post);
        let (middle, tall) = tab.upright();
        draw_rect(to, Role::Tab, (x - 5, middle - tall / 2), 10, tall, 5);
        if matches!(tab.terminal.post, Post::Coil(coil) if drawn.plan.open.contains(&coil)) {
            draw_rect(to, Role::Cap, (x - 9, middle - 3), 6, 6, 1);
        }
        let sign = if tab.terminal.sign == Sign::Plus { "+" } else { "−" };
        // A cup's sign stands once, between its sides.
        let (x, anchor) = match tab.terminal.post {
            Post::CupInside(_) => continue,
            Post::CupOutside(_) => (x + wide / 2, Anchor::Middle),
            _ if at_left => (x + 9, Anchor::Start),
            _ => (x - 9, Anchor::End),
        };
        draw_text(to, Role::Sign, (x, middle + 5), anchor, SIZE + 2, sign.to_owned());
    }
}

/// The names of a driver's coils, each between its terminals.
fn names(to: &mut Vec<Mark>, bodies: &Bodies, body: &Body, left: i32) {
    for pair in body.tabs.chunks(2) {
        let own: Vec<&Tab> = pair.iter().filter_map(|tab| bodies.tabs.get(*tab)).collect();
        let [plus, minus] = own.as_slice() else { continue };
        if let Post::Coil(coil) = plus.terminal.post {
            let middle = |tab: &Tab| tab.upright().0;
            let at = (left + 28, (middle(plus) + middle(minus)) / 2 + 5);
            draw_text(to, Role::CoilName, at, Anchor::Start, SIZE + 1, coil.to_string());
        }
    }
}
