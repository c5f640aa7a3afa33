//! Reads a schematic back from its marks alone, as a person does: where wires touch they
//! are one, a label belongs to the coil it stands at, and so does a +.
//!
//! It shares no code with what draws; voltages come from one linear system of the nodes.

use crate::scene::check::Area;
use crate::scene::{Anchor, Mark, Point, Role, Scene};
use coilwright_solver::network::{Coil, Network};

/// What the picture shows: nodes are numbers.
#[derive(Debug)]
pub(super) struct Drawn {
    nodes: usize,
    /// Each coil with the nodes at its + and at its other end.
    pub(super) coils: Vec<(Coil, usize, usize)>,
    /// The nodes of the positive and the negative terminal of each output.
    pub(super) outputs: Vec<(usize, usize)>,
}

pub(super) fn is_wire(role: Role) -> bool {
    matches!(role, Role::Wire | Role::WirePlus | Role::WireMinus)
}

/// Rectangles of a role.
pub(super) fn areas(scene: &Scene, of: Role) -> Vec<Area> {
    let mut areas = Vec::new();
    for mark in &scene.marks {
        if let Mark::Rect(role, at, wide, tall, _) = mark
            && *role == of
        {
            areas.push((at.0, at.1, at.0 + wide, at.1 + tall));
        }
    }
    areas
}

/// Where the shapes of a role are.
fn shapes(scene: &Scene, of: Role) -> Vec<(Point, &'static str)> {
    let mut shapes = Vec::new();
    for mark in &scene.marks {
        if let Mark::Shape(role, at, shape) = mark
            && *role == of
        {
            shapes.push((*at, *shape));
        }
    }
    shapes
}

/// The windings of every coil with both ends, walked along the arcs of its path.
pub(super) fn bodies(scene: &Scene) -> Vec<(Area, Point, Point)> {
    let mut bodies = Vec::new();
    for (at, shape) in shapes(scene, Role::Coil) {
        let (mut end, mut bulge) = (at, (0, 0));
        for arc in shape.split('a').skip(1) {
            let numbers: Vec<f64> = arc.split(' ').map(|n| n.parse().unwrap()).collect();
            let [rx, ry, _, _, clockwise, x, y] = numbers[..] else { panic!("{arc}") };
            end = (end.0 + x as i32, end.1 + y as i32);
            // Half of an ellipse; SVG turns clockwise with the flag set (SVG 2, 9.3.8).
            assert!(x == 2.0 * rx && y == 0.0 || y == 2.0 * ry && x == 0.0, "{arc}");
            assert!(y == 0.0 && clockwise == 1.0 || x == 0.0 && clockwise == 0.0, "{arc}");
            bulge = if y == 0.0 { (0, ry as i32) } else { (rx as i32, 0) };
        }
        assert_ne!(at, end);
        bodies.push(((at.0 - bulge.0, at.1 - bulge.1, end.0, end.1), at, end));
    }
    bodies
}

/// Whether a mark is a coil whose + is at its right end.
pub(super) fn leads_back(mark: &Mark, scene: &Scene) -> bool {
    let Mark::Shape(Role::Coil, at, _) = mark else { return false };
    let ends = bodies(scene).into_iter().find(|(_, from, _)| from == at);
    ends.is_some_and(|(_, from, to)| {
        let plus = nearest(&shapes(scene, Role::CoilPlus), middle(from, to));
        from.1 == to.1 && far(plus, to) < far(plus, from)
    })
}

fn middle(a: Point, b: Point) -> Point {
    ((a.0 + b.0) / 2, (a.1 + b.1) / 2)
}

fn far(a: Point, b: Point) -> i32 {
    (a.0 - b.0).pow(2) + (a.1 - b.1).pow(2)
}

fn nearest(of: &[(Point, &str)], to: Point) -> Point {
    of.iter().map(|(at, _)| *at).min_by_key(|at| far(*at, to)).expect("a mark of this role")
}

/// Whether a point lies on a line, its ends included.
fn on(at: Point, (a, b): (Point, Point)) -> bool {
    (a.0.min(b.0)..=a.0.max(b.0)).contains(&at.0) && (a.1.min(b.1)..=a.1.max(b.1)).contains(&at.1)
}

/// Whether two level or upright lines have a stretch in common.
pub(super) fn on_one_another(a: (Point, Point), b: (Point, Point)) -> bool {
    let common = |a: (i32, i32), b: (i32, i32)| {
        a.0.max(a.1).min(b.0.max(b.1)) - a.0.min(a.1).max(b.0.min(b.1))
    };
    let across = common((a.0.0, a.1.0), (b.0.0, b.1.0));
    let down = common((a.0.1, a.1.1), (b.0.1, b.1.1));
    across >= 0 && down >= 0 && (across > 0 || down > 0)
}

/// Whether two lines cross where neither ends.
pub(super) fn crosses(a: (Point, Point), b: (Point, Point)) -> bool {
    let ((level, upright), ok) = if a.0.1 == a.1.1 { ((a, b), true) } else { ((b, a), true) };
    let at = (upright.0.0, level.0.1);
    ok && on(at, level) && on(at, upright) && ![a.0, a.1, b.0, b.1].contains(&at)
}

/// Whether some of a line, more than an end, lies within an area or on its edge.
pub(super) fn lies_in(line: (Point, Point), area: Area) -> bool {
    let clip =
        |a: i32, b: i32, least: i32, most: i32| (a.min(b).max(least), a.max(b).min(most - 1));
    let x = clip(line.0.0, line.1.0, area.0, area.2);
    let y = clip(line.0.1, line.1.1, area.1, area.3);
    x.0 <= x.1 && y.0 <= y.1 && (x.0 < x.1 || y.0 < y.1)
}

/// Reads a schematic.
pub(super) fn read(scene: &Scene) -> Drawn {
    let wires = crate::scene::check::lines(scene, is_wire);
    let bodies = bodies(scene);
    let terminals = shapes(scene, Role::Terminal);
    // Everything that has a place: ends of wires, of coils, terminals.
    let mut places: Vec<Point> = Vec::new();
    let ends = wires.iter().flat_map(|(a, b)| [*a, *b]);
    let coil_ends = bodies.iter().flat_map(|(_, a, b)| [*a, *b]);
    for at in ends.chain(coil_ends).chain(terminals.iter().map(|(at, _)| *at)) {
        if !places.contains(&at) {
            places.push(at);
        }
    }
    // Places on one wire are one node.
    let mut node: Vec<usize> = (0..places.len()).collect();
    for wire in &wires {
        let on_it: Vec<usize> = (0..places.len()).filter(|i| on(places[*i], *wire)).collect();
        let to = node[on_it[0]];
        for i in on_it {
            let from = node[i];
            node.iter_mut().filter(|one| **one == from).for_each(|one| *one = to);
        }
    }
    let of = |at: Point| node[places.iter().position(|one| *one == at).expect("a place")];

    // A dot stands where three or more ways meet, and nowhere else.
    let dots: Vec<Point> = shapes(scene, Role::Dot).into_iter().map(|(at, _)| at).collect();
    for at in &places {
        let meet = wires.iter().filter(|wire| on(*at, **wire));
        let ways: usize = meet.map(|(a, b)| if at == a || at == b { 1 } else { 2 }).sum();
        let count = dots.iter().filter(|dot| *dot == at).count();
        assert_eq!(count, usize::from(ways > 2), "dots at {at:?}, where {ways} ways meet");
        assert!(ways > 0, "a loose end at {at:?}");
    }
    assert!(dots.iter().all(|dot| places.contains(dot)), "a dot off the wires");

    let plus = shapes(scene, Role::CoilPlus);
    assert_eq!(plus.len(), bodies.len(), "a + for every coil");
    let mut names: Vec<(Point, &str)> = Vec::new();
    let mut terminal_names: Vec<(Point, &str)> = Vec::new();
    for mark in &scene.marks {
        if let Mark::Text(role, at, anchor, size, text) = mark {
            let (left, top, right, bottom) = crate::scene::area(*at, *anchor, *size, text);
            let place = middle((left, top), (right, bottom));
            match role {
                Role::CoilLabel => names.push((place, text)),
                Role::TerminalLabel => {
                    assert_eq!(*anchor, Anchor::Middle);
                    terminal_names.push((place, text));
                }
                other => panic!("a text of role {other:?} in a schematic"),
            }
        }
    }
    assert_eq!(names.len(), bodies.len(), "a label for every coil");
    let coils = bodies
        .iter()
        .map(|(_, a, b)| {
            let middle = middle(*a, *b);
            let name = nearest(&names, middle);
            let text = names.iter().find(|(at, _)| *at == name).unwrap().1;
            let Ok(Network::Coil(coil)) = text.parse() else { panic!("{text} is no coil") };
            let plus = nearest(&plus, middle);
            assert_ne!(far(plus, *a), far(plus, *b), "the + of {text} stands at neither end");
            let (from, to) = if far(plus, *a) < far(plus, *b) { (*a, *b) } else { (*b, *a) };
            (coil, of(from), of(to))
        })
        .collect();
    // Terminals stand in pairs, each at its own name.
    let frames = areas(scene, Role::Output);
    assert_eq!(terminals.len(), 2 * frames.len());
    assert_eq!(terminal_names.len(), terminals.len());
    let outputs = frames
        .iter()
        .map(|frame| {
            let own: Vec<Point> = terminals
                .iter()
                .map(|(at, _)| *at)
                .filter(|at| at.0 == frame.2 && (frame.1..frame.3).contains(&at.1))
                .collect();
            let [upper, lower] = own[..] else { panic!("{own:?} in one frame") };
            for at in [upper, lower] {
                assert!((nearest(&terminal_names, at).1 - at.1).abs() < 5, "name at {at:?}");
            }
            if upper.1 < lower.1 { (of(upper), of(lower)) } else { (of(lower), of(upper)) }
        })
        .collect();
    Drawn { nodes: places.len(), coils, outputs }
}

impl Drawn {
    /// The voltage of every node with one ampere through an output.
    pub(super) fn volts(
        &self,
        (plus, minus): (usize, usize),
        ohms: &dyn Fn(Coil) -> f64,
    ) -> Vec<f64> {
        let n = self.nodes;
        let mut rows = vec![vec![0.0; n + 1]; n];
        for (coil, a, b) in &self.coils {
            let siemens = 1.0 / ohms(*coil);
            for (from, to) in [(*a, *b), (*b, *a)] {
                rows[from][from] += siemens;
                rows[from][to] -= siemens;
            }
        }
        rows[plus][n] = 1.0;
        // The negative terminal, and whatever no coil touches, is at zero.
        for (i, row) in rows.iter_mut().enumerate() {
            if i == minus || row[i] == 0.0 {
                row.fill(0.0);
                row[i] = 1.0;
            }
        }
        // Other outputs float: hold each at one node that nothing else holds.
        for output in &self.outputs {
            if output.1 != minus {
                rows[output.1].fill(0.0);
                rows[output.1][output.1] = 1.0;
            }
        }
        solved(rows)
    }
}

/// Elimination with the greatest pivot.
fn solved(mut rows: Vec<Vec<f64>>) -> Vec<f64> {
    let n = rows.len();
    for column in 0..n {
        let best = (column..n)
            .max_by(|a, b| rows[*a][column].abs().total_cmp(&rows[*b][column].abs()))
            .unwrap();
        rows.swap(column, best);
        let pivot = rows[column].clone();
        assert!(pivot[column].abs() > 1e-12, "a node hangs in the air");
        for (i, row) in rows.iter_mut().enumerate() {
            let factor = row[column] / pivot[column];
            if i != column && factor != 0.0 {
                for (value, of_pivot) in row.iter_mut().zip(&pivot) {
                    *value -= factor * of_pivot;
                }
            }
        }
    }
    (0..n).map(|i| rows[i][n] / rows[i][i]).collect()
}
