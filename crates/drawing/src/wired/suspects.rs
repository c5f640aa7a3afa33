//! Where something may be wrong: what lies round the place, and the ring beside it.

use super::Drawn;
use super::bodies::{Bodies, SIZE};
use super::ground::{Ground, RING, ROOM, room};
use super::lane::is_right;
use crate::scene::{Anchor, Area, Mark, Point, Role, Scene, draw_rect, draw_text, text_width};
use coilwright_solver::meter::Fault;
use coilwright_solver::network::Coil;
use coilwright_solver::wiring::{Post, Sign, Stage, Terminal};

/// A place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    /// Along a run.
    Run(usize),
    /// The number of a run.
    Number(usize),
    /// A terminal, or a pair of them.
    Terminals(Terminal, Terminal),
    /// Where a run comes to a splice.
    Splice(usize),
    Coil(Coil),
    Driver(u8),
    Output(u8),
}

/// The places of what may be wrong, each once.
pub(super) fn places(drawn: &Drawn<'_>) -> Vec<Place> {
    let mut all: Vec<Place> = Vec::new();
    let Some(suspects) = drawn.suspects else { return all };
    let mut add = |place: Place| {
        if !all.contains(&place) {
            all.push(place);
        }
    };
    let plan = drawn.plan;
    let end = |run: u16, start: bool| {
        let of = plan.runs.get(usize::from(run))?;
        let terminal = if start { of.from } else { of.to };
        Some(match terminal.post {
            Post::Splice(_) => Place::Splice(usize::from(run)),
            _ => Place::Terminals(terminal, terminal),
        })
    };
    for fault in suspects.faults {
        match *fault {
            Fault::Missing { run } | Fault::Capacitor { run } => {
                add(Place::Run(usize::from(run)));
                add(Place::Number(usize::from(run)));
            }
            Fault::Loose { run } => {
                add(Place::Run(usize::from(run)));
                [true, false].into_iter().filter_map(|start| end(run, start)).for_each(&mut add);
            }
            Fault::WrongEnd { run, start, .. } => {
                add(Place::Run(usize::from(run)));
                end(run, start).into_iter().for_each(&mut add);
            }
            Fault::Extra { .. } if drawn.has_extra() => add(Place::Run(drawn.numbered)),
            Fault::Extra { from, to } => {
                add(Place::Terminals(from, from));
                add(Place::Terminals(to, to));
            }
            Fault::Strand { a, b } => add(Place::Terminals(a, b)),
            Fault::CoilOpen(coil) | Fault::CoilShort(coil) | Fault::Turns(coil) => {
                add(Place::Coil(coil));
            }
            Fault::OtherDriver { driver, .. } => add(Place::Driver(driver)),
            Fault::OtherGroup { group, .. } => {
                for driver in 0..u8::try_from(suspects.rig.drivers()).unwrap_or(u8::MAX) {
                    if suspects.rig.group_number_of(driver) == Some(usize::from(group)) {
                        add(Place::Driver(driver));
                    }
                }
            }
            Fault::Crossed { a, b } => {
                // Both conductors of either cable, and one ring for each cable.
                for begins in [a, b] {
                    let post = plan.runs.get(usize::from(begins)).map(|run| run.from.post);
                    for (number, run) in plan.runs.iter().enumerate() {
                        if run.stage == Stage::Cable && Some(run.from.post) == post {
                            add(Place::Run(number));
                        }
                    }
                    add(Place::Number(usize::from(begins)));
                }
            }
            Fault::Amplifier => {
                (0_u8..).zip(&plan.pairs).for_each(|(output, _)| add(Place::Output(output)));
            }
            Fault::Nothing
            | Fault::Otherwise(_)
            | Fault::Leads
            | Fault::Meter
            | Fault::Reversed => {}
        }
    }
    all
}

/// What lies round whole bodies, under them.
pub(super) fn round_bodies(to: &mut Vec<Mark>, places: &[Place], bodies: &Bodies) {
    for place in places {
        let (body, left, wide) = match *place {
            Place::Driver(driver) => {
                (bodies.drivers.get(usize::from(driver)), bodies.lefts[2], bodies.driver)
            }
            Place::Output(output) => {
                (bodies.outputs.get(usize::from(output)), bodies.lefts[0], bodies.amplifier)
            }
            _ => continue,
        };
        if let Some(body) = body {
            round(to, (left, body.top, left + wide, body.bottom), 7);
        }
    }
}

fn round(to: &mut Vec<Mark>, (left, top, right, bottom): Area, radius: i32) {
    let corner = (left - 3, top - 3);
    draw_rect(to, Role::SuspectPlace, corner, right - left + 6, bottom - top + 6, radius);
}

/// What lies round terminals and names, under runs.
pub(super) fn round_parts(to: &mut Vec<Mark>, places: &[Place], bodies: &Bodies) {
    for place in places {
        match *place {
            Place::Terminals(first, last) => {
                if let Some((x, top, bottom)) = pair(bodies, first, last) {
                    round(to, (x - 5, top, x + 5, bottom), 8);
                }
            }
            Place::Coil(coil) => {
                if let Some((at, wide)) = name(bodies, coil) {
                    round(to, (at.0, at.1 - 6, at.0 + wide, at.1 + 6), 4);
                }
            }
            _ => {}
        }
    }
}

/// How far from the left two terminals of one post stand, the top of the upper one and
/// the bottom of the lower one.
fn pair(bodies: &Bodies, first: Terminal, last: Terminal) -> Option<(i32, i32, i32)> {
    let (upper, lower) = (bodies.tab_of(first)?.axis, bodies.tab_of(last)?.axis);
    Some((bodies.x(first.post), upper - 6, lower + 6))
}

/// The left middle of a coil's name, and how wide it is.
fn name(bodies: &Bodies, coil: Coil) -> Option<(Point, i32)> {
    let on = |sign| Terminal { post: Post::Coil(coil), sign };
    let upper = bodies.tab_of(on(Sign::Plus))?.axis;
    let lower = bodies.tab_of(on(Sign::Minus))?.axis;
    let wide = text_width(&coil.to_string(), SIZE + 1);
    Some(((bodies.lefts[2] + 28, (upper + lower) / 2), wide))
}

pub(super) fn ring(to: &mut Vec<Mark>, (x, y): Point) {
    draw_rect(to, Role::Suspect, (x - RING, y - RING), 2 * RING, 2 * RING, RING);
    draw_text(to, Role::SuspectSign, (x, y + 5), Anchor::Middle, 14, "?".to_owned());
}

/// A ring beside every place, where it covers nothing.
pub(super) fn rings(scene: &mut Scene, places: &[Place], bodies: &Bodies) {
    if places.is_empty() {
        return;
    }
    let mut ground = Ground::of(scene);
    for place in places {
        let (wanted, own) = match *place {
            Place::Run(_) => continue,
            Place::Number(run) => (ground.number(run), Some(run)),
            Place::Splice(run) => (ground.dot(run), Some(run)),
            Place::Terminals(first, last) => {
                let into = if is_right(first.post) { 16 } else { -16 };
                let at = pair(bodies, first, last);
                (at.map(|(x, top, bottom)| (x + into, (top + bottom) / 2)), None)
            }
            Place::Coil(coil) => {
                (name(bodies, coil).map(|(at, wide)| (at.0 + wide + ROOM + 2, at.1)), None)
            }
            Place::Driver(driver) => {
                let body = bodies.drivers.get(usize::from(driver));
                let left = bodies.lefts[2] + bodies.driver - 42;
                (body.map(|body| (left, (body.top + body.bottom) / 2 + 8)), None)
            }
            Place::Output(output) => {
                let body = bodies.outputs.get(usize::from(output));
                let left = bodies.lefts[0] + bodies.amplifier / 2;
                (body.map(|body| (left, (body.top + body.bottom) / 2 + 8)), None)
            }
        };
        if let Some(at) = wanted.and_then(|wanted| ground.free(wanted, own)) {
            ring(&mut scene.marks, at);
            ground.taken.push(room(at));
        }
    }
}
