//! The drawing of a routed plan, from the ground up.

use super::bodies::{Bodies, Body, CUP, MARGIN, NAME_EDGE, NAMED, SIZE, Tab};
use super::lane::{CLAMP, Item, Lane, NAME};
use super::suspects::{Place, places, ring, rings, round_bodies, round_parts};
use super::way::{HALF, HOP, Way, pieces, stretches, wide};
use super::{Drawn, Labels, Routed, bridged, legend};
use crate::scene::{
    Anchor, Mark, Point, Role, Scene, area, draw_name, draw_rect, draw_shape, draw_text, overlap,
};
use coilwright_solver::short::insertion_sort;
use coilwright_solver::wiring::{Post, Role as Of, Sign};

/// A loudspeaker (IEC 60617, from memory): a frame and a cone.
const CONE: &str = "m-12-7h7v14h-7zm7 0 10-8v30l-10-8";

/// A dot, begun at its left.
const DOT: &str = "a4 4 0 1 0 8 0a4 4 0 1 0-8 0z";

/// A hop, begun where its run goes on, and the ground under it, begun where it rises.
const OVER: &str = "h4a6 6 0 0 1 12 0h4";
const GAP: &str = "a6 6 0 0 1 12 0";

pub(super) fn scene(drawn: &Drawn<'_>, labels: &Labels, routed: &Routed) -> Scene {
    let Routed { bodies, lanes, ways } = routed;
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
    for (number, body) in bodies.outputs.iter().enumerate() {
        frame(to, Role::Post, body, amplifier, bodies.amplifier);
        let axes: Vec<i32> =
            body.tabs.iter().filter_map(|tab| bodies.tabs.get(*tab)).map(|tab| tab.axis).collect();
        let [left, ..] = bodies.lefts;
        bridged::channels(to, labels, number, (left, bodies.amplifier, body.bottom), &axes);
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
            splice(to, lane, item, ways);
        }
    }
    for way in ways {
        if places.contains(&Place::Run(way.run)) {
            to.push(Mark::Path(Role::SuspectRun, way.places.clone()));
        }
    }
    // What is lit lies over the others, and hops over all.
    for draw in [run, hops] {
        for over in [false, true] {
            for way in ways {
                if drawn.lit.contains(&way.run) == over {
                    draw(to, drawn, way);
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
    legend::draw(&mut scene, drawn.plan, labels);
    scene
}

fn frame(to: &mut Vec<Mark>, role: Role, body: &Body, left: i32, wide: i32) {
    draw_rect(to, role, (left, body.top), wide, body.bottom - body.top, 4);
    let at = (left + wide / 2, body.top + 16);
    draw_text(to, Role::BodyLabel, at, Anchor::Middle, SIZE, body.label.clone());
}

/// A splice: clamps where runs go in, one with each other by a bar.
fn splice(to: &mut Vec<Mark>, lane: &Lane, item: &Item, ways: &[Way]) {
    let Some(number) = item.splice else { return };
    let (top, bottom) = item.span();
    draw_rect(to, Role::Splice, (item.x - 3, top), 6, bottom - top, 0);
    let mut heights: Vec<i32> = item.pins.iter().map(|pin| pin.y).collect();
    insertion_sort(&mut heights, Ord::cmp);
    // Those that lie close share one.
    let mut clamp = (top, top);
    for y in heights {
        if y - clamp.1 > 2 * CLAMP {
            draw_clamp(to, item.x, clamp);
            clamp.0 = y;
        }
        clamp.1 = y;
    }
    draw_clamp(to, item.x, clamp);
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
    // As built a run may go where the name would stand: then it stands above.
    let mut y = bottom + NAME - 2;
    let area = area((x, y), anchor, SIZE, &name);
    let covers = |(a, b): (Point, Point)| {
        overlap(area, (a.0.min(b.0) - 2, a.1.min(b.1) - 2, a.0.max(b.0) + 2, a.1.max(b.1) + 2))
    };
    if ways.iter().flat_map(|way| pieces(&way.places)).any(covers) {
        y = top - CLAMP - 5;
    }
    draw_text(to, Role::SpliceLabel, (x, y), anchor, SIZE, name);
}

fn draw_clamp(to: &mut Vec<Mark>, x: i32, (top, bottom): (i32, i32)) {
    let corner = (x - CLAMP, top - CLAMP);
    draw_rect(to, Role::Clamp, corner, 2 * CLAMP, bottom - top + 2 * CLAMP, 3);
}

/// Begins what is of a run; tells its role, and whether it is lit.
fn begin(to: &mut Vec<Mark>, drawn: &Drawn<'_>, run: usize) -> (Of, bool) {
    let of = drawn.plan.runs.get(run).map_or(Of::Between, |run| run.role);
    let lit = drawn.lit.contains(&run);
    let missing = drawn.missing == Some(run);
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
        Some(run).filter(|run| *run < drawn.numbered),
    ));
    (of, lit)
}

/// What a run is drawn with: its conductor, and what is positive a stripe along it.
fn layers(drawn: &Drawn<'_>, of: Of, run: usize) -> &'static [Role] {
    let striped = of == Of::Positive && drawn.missing != Some(run);
    if striped { &[Role::Conductor, Role::Tracer] } else { &[Role::Conductor] }
}

fn run(to: &mut Vec<Mark>, drawn: &Drawn<'_>, way: &Way) {
    let (of, lit) = begin(to, drawn, way.run);
    to.push(Mark::Path(Role::Hit, way.places.clone()));
    if lit {
        to.push(Mark::Path(Role::Halo, way.places.clone()));
    }
    for role in layers(drawn, of, way.run) {
        for stretch in stretches(way) {
            to.push(Mark::Path(*role, stretch));
        }
    }
    if way.spliced
        && let Some((x, y)) = way.places.last()
    {
        // What comes to a splice has a dot there; what passes over it has none.
        draw_shape(to, Role::Dot, (x - 4, *y), DOT);
    }
    let (x, y) = way.number;
    if way.run < drawn.numbered {
        let number = (way.run + 1).to_string();
        let wide = wide(way.run);
        draw_rect(to, Role::Badge, (x - wide / 2, y - HALF), wide, 2 * HALF, 4);
        draw_text(to, Role::BadgeLabel, (x, y + 5), Anchor::Middle, 12, number);
    }
    to.push(Mark::End);
    if way.run >= drawn.numbered && drawn.numbered > 0 {
        // A run too many: in place of a number.
        ring(to, (x, y));
    }
}

/// Where a run hops over others: with ground either side.
fn hops(to: &mut Vec<Mark>, drawn: &Drawn<'_>, way: &Way) {
    if way.hops.is_empty() {
        return;
    }
    let (of, _) = begin(to, drawn, way.run);
    for (x, y) in &way.hops {
        draw_shape(to, Role::Gap, (x - HOP, *y), GAP);
    }
    for role in layers(drawn, of, way.run) {
        for (x, y) in &way.hops {
            draw_shape(to, *role, (x - HOP - 4, *y), OVER);
        }
    }
    to.push(Mark::End);
}

/// The terminals of a body with their signs.
fn tabs(to: &mut Vec<Mark>, drawn: &Drawn<'_>, bodies: &Bodies, body: &Body, wide: i32) {
    for tab in body.tabs.iter().filter_map(|tab| bodies.tabs.get(*tab)) {
        let at_left = super::lane::is_right(tab.terminal.post);
        let x = bodies.x(tab.terminal.post);
        let middle = tab.axis;
        draw_rect(to, Role::Tab, (x - 6, middle - 6), 12, 12, 6);
        if tab.runs.len() > 1 {
            // Several runs share it.
            draw_shape(to, Role::Dot, (x - 4, middle), DOT);
        }
        if matches!(tab.terminal.post, Post::Coil(coil) if drawn.plan.open.contains(&coil)) {
            draw_rect(to, Role::Cap, (x - 10, middle - 3), 6, 6, 1);
        }
        let sign = if tab.terminal.sign == Sign::Plus { "+" } else { "−" };
        // A cup's sign stands once, between its sides.
        let (x, anchor) = match tab.terminal.post {
            Post::CupInside(_) => continue,
            Post::CupOutside(_) => (x + wide / 2, Anchor::Middle),
            _ if at_left => (x + 10, Anchor::Start),
            _ => (x - 10, Anchor::End),
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
            let at = (left + 28, (plus.axis + minus.axis) / 2 + 5);
            draw_text(to, Role::CoilName, at, Anchor::Start, SIZE + 1, coil.to_string());
        }
    }
}
