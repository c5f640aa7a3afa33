//! Where on a drawing there is room for a ring.

use super::way::{HOP, hop_area};
use crate::scene::{Area, Mark, Point, Role, Scene, area, covered, name_width, overlap};

/// Half of a ring, and of the ground that it needs.
pub(super) const RING: i32 = 9;
pub(super) const ROOM: i32 = 10;
/// No farther from its place than this a ring is looked room for.
const FAR: i32 = 120;
/// As much worse as so many units squared: on another run, on an edge, off its own run.
const ON_RUN: i32 = 700;
const ON_EDGE: i32 = 300;
const OFF_RUN: i32 = 500;

/// The ground that a ring takes.
pub(super) const fn room((x, y): Point) -> Area {
    (x - ROOM, y - ROOM, x + ROOM, y + ROOM)
}

/// What is drawn already.
pub(super) struct Ground {
    size: Point,
    /// What must not be covered.
    pub(super) taken: Vec<Area>,
    /// Outlines, which a ring does not stand on if it can be helped.
    frames: Vec<Area>,
    /// Straight pieces of runs.
    runs: Vec<(Option<usize>, Area)>,
    numbers: Vec<(Option<usize>, Point)>,
    dots: Vec<(Option<usize>, Point)>,
}

impl Ground {
    pub(super) fn of(scene: &Scene) -> Self {
        let mut ground = Self {
            size: (scene.width, scene.height),
            taken: Vec::new(),
            frames: Vec::new(),
            runs: Vec::new(),
            numbers: Vec::new(),
            dots: Vec::new(),
        };
        let mut run = None;
        for mark in &scene.marks {
            match mark {
                Mark::Run(_, number) => run = *number,
                Mark::Rect(Role::Box | Role::Body | Role::Post, at, wide, tall, _) => {
                    ground.frames.push((at.0, at.1, at.0 + wide, at.1 + tall));
                }
                Mark::Rect(Role::SuspectPlace, ..) => {}
                Mark::Rect(role, at, wide, tall, _) => {
                    ground.taken.push((at.0, at.1, at.0 + wide, at.1 + tall));
                    if *role == Role::Badge {
                        ground.numbers.push((run, (at.0 + wide / 2, at.1 + tall / 2)));
                    }
                }
                Mark::Text(role, at, anchor, size, text) => {
                    // A + and a − are broader than letters.
                    let more = if *role == Role::Sign { 4 } else { 0 };
                    let of = area(*at, *anchor, *size, text);
                    ground.taken.push((of.0 - more, of.1, of.2 + more, of.3));
                }
                Mark::Name(at, anchor, size, [shown, _]) => {
                    let wide = name_width(shown, *size);
                    ground.taken.push(covered(*at, *anchor, *size, wide));
                }
                Mark::Shape(Role::Dot, at, _) => {
                    ground.taken.push((at.0, at.1 - 4, at.0 + 8, at.1 + 4));
                    ground.dots.push((run, (at.0 + 4, at.1)));
                }
                // The ground under a hop tells where it is.
                Mark::Shape(Role::Gap, at, _) => {
                    ground.runs.push((run, hop_area((at.0 + HOP, at.1))));
                }
                // What a look of runs means.
                Mark::Line(Role::Conductor, a, b) => {
                    ground.taken.push((a.0, a.1 - 4, b.0, b.1 + 4));
                }
                Mark::Shape(Role::Conductor | Role::Tracer, ..) => {}
                // The sign of a loudspeaker.
                Mark::Shape(_, at, _) => {
                    ground.taken.push((at.0 - 12, at.1 - 15, at.0 + 10, at.1 + 15));
                }
                Mark::Path(Role::Conductor, way) => {
                    for (a, b) in way.iter().zip(way.iter().skip(1)) {
                        let (left, right) = (a.0.min(b.0), a.0.max(b.0));
                        let (top, bottom) = (a.1.min(b.1), a.1.max(b.1));
                        ground.runs.push((run, (left - 2, top - 2, right + 2, bottom + 2)));
                    }
                }
                Mark::End => run = None,
                Mark::Path(..) | Mark::Line(..) => {}
            }
        }
        ground
    }

    pub(super) fn number(&self, run: usize) -> Option<Point> {
        self.numbers.iter().find(|(of, _)| *of == Some(run)).map(|(_, at)| *at)
    }

    pub(super) fn dot(&self, run: usize) -> Option<Point> {
        self.dots.iter().find(|(of, _)| *of == Some(run)).map(|(_, at)| *at)
    }

    /// Whether nothing at all stands there.
    pub(super) fn is_free(&self, area: Area) -> bool {
        let runs = self.runs.iter().map(|(_, piece)| piece);
        !self.taken.iter().chain(&self.frames).chain(runs).any(|of| overlap(*of, area))
    }

    /// Where there is room for a ring nearest to a place; with a run, best on that.
    pub(super) fn free(&self, (x, y): Point, own: Option<usize>) -> Option<Point> {
        let mut best: Option<(i32, Point)> = None;
        for reach in (0..=FAR).step_by(2) {
            if best.is_some_and(|(cost, _)| cost <= reach * reach) {
                break;
            }
            for down in (-reach..=reach).step_by(2) {
                let step = if down.abs() == reach { 2 } else { 2 * reach };
                for right in (-reach..=reach).step_by(usize::try_from(step.max(1)).unwrap_or(1)) {
                    let at = (x + right, y + down);
                    // What stands beside a terminal stands level with it.
                    let steep = if own.is_some() { 2 } else { 6 };
                    let far = right * right + steep * down * down;
                    if best.is_none_or(|(cost, _)| far < cost)
                        && let Some(more) = self.cost(room(at), own)
                        && best.is_none_or(|(cost, _)| far + more < cost)
                    {
                        best = Some((far + more, at));
                    }
                }
            }
        }
        best.map(|(_, at)| at)
    }

    /// What it costs that a ring stands there; nothing tells that it must not.
    fn cost(&self, ring: Area, own: Option<usize>) -> Option<i32> {
        let outside = ring.0 < 0 || ring.1 < 0 || ring.2 > self.size.0 || ring.3 > self.size.1;
        if outside || self.taken.iter().any(|area| overlap(*area, ring)) {
            return None;
        }
        let mut cost = if own.is_some() { OFF_RUN } else { 0 };
        for (run, piece) in &self.runs {
            if overlap(*piece, ring) {
                if own.is_some() && *run == own {
                    cost -= OFF_RUN;
                } else {
                    cost += ON_RUN;
                }
            }
        }
        for frame in &self.frames {
            let within =
                frame.0 <= ring.0 && frame.1 <= ring.1 && ring.2 <= frame.2 && ring.3 <= frame.3;
            if !within && overlap(*frame, ring) {
                cost += ON_EDGE;
            }
        }
        Some(cost.max(0))
    }
}
