//! Laws of what may be wrong: over the plans of the spread and the faults of each.

use super::*;
use coilwright_solver::meter::{Fault, Job, Kind, Other, as_built, catalogue};
use coilwright_solver::network::Coil;
use coilwright_solver::wiring::{Run, Sign, Terminal};

/// A plan with everything that may be wrong with it.
struct Case {
    name: &'static str,
    made: &'static Made,
    faults: Vec<Fault>,
    others: Vec<Other>,
}

/// All of the spread take long without optimisation: then every seventeenth plan, and the fewer
/// of its faults the larger it is.
static CASES: LazyLock<Vec<Case>> = LazyLock::new(|| {
    let quick = cfg!(debug_assertions);
    let plans = if quick { 17 } else { 1 };
    let mut cases = Vec::new();
    for (number, (name, made)) in SPREAD.iter().enumerate().step_by(plans) {
        let Made { rig, build, configuration, plan } = made;
        let (faults, others) = catalogue(&Job { rig, build, configuration, plan }).unwrap();
        let every = if quick { 1 + plan.runs.len() / 8 } else { 1 };
        let some = faults.into_iter().skip(number % every).step_by(every);
        let faults = some.map(|(fault, _)| fault).collect();
        cases.push(Case { name, made, faults, others });
    }
    let looked: usize = cases.iter().map(|case| case.faults.len()).sum();
    println!("{looked} faults");
    assert!(looked > 1000, "{looked}");
    cases
});

fn marked(made: &Made, faults: &[Fault]) -> Scene {
    let suspects = Suspects { rig: &made.rig, faults };
    suspected(&made.plan, &labels(&made.plan), &[], suspects).unwrap()
}

fn as_it_is(made: &Made, fault: &Fault, others: &[Other]) -> Scene {
    built(&made.plan, &labels(&made.plan), &[], &made.rig, fault, others).unwrap()
}

/// The middles of the rings.
fn middles(scene: &Scene) -> Vec<Point> {
    let middle = |(left, top, right, bottom): &Area| ((left + right) / 2, (top + bottom) / 2);
    rects(scene, &[Role::Suspect]).iter().map(middle).collect()
}

/// What a ring lies on that it must not lie on.
fn covered(scene: &Scene) -> Vec<String> {
    let mut wrong = problems(scene);
    let rings = rects(scene, &[Role::Suspect]);
    let mut taken = rects(scene, &[Role::Badge, Role::Tab, Role::Cap, Role::Splice, Role::Clamp]);
    // A + and a − take up to 0.84 of their size (DejaVu Sans), and are 0.62 wide by the area.
    let other = |(role, area, _): (Role, Area, &str)| match role {
        Role::SuspectSign => None,
        Role::Sign => Some((area.0 - 3, area.1, area.2 + 3, area.3)),
        _ => Some(area),
    };
    taken.extend(texts(scene).into_iter().filter_map(other));
    for mark in &scene.marks {
        match mark {
            Mark::Shape(Role::Cone, (x, y), _) => taken.push((x - 12, y - 15, x + 10, y + 15)),
            Mark::Shape(Role::Dot, (x, y), _) => taken.push((*x, y - 4, x + 8, y + 4)),
            _ => {}
        }
    }
    for (i, ring) in rings.iter().enumerate() {
        for one in taken.iter().chain(rings.iter().skip(i + 1)) {
            if overlap(*ring, *one) {
                wrong.push(format!("{ring:?} lies on {one:?}"));
            }
        }
    }
    wrong
}

/// A plan without suspects: its drawing, ways and bodies.
struct Planned<'a> {
    plan: &'a Plan,
    plain: Scene,
    ways: Vec<(usize, Vec<Point>)>,
    bodies: Bodies,
}

impl<'a> Planned<'a> {
    fn of(plan: &'a Plan) -> Self {
        let plain = wired(plan, &labels(plan), &[]).unwrap();
        let bodies = route(plan, plan, &labels(plan)).unwrap().bodies;
        Self { plan, ways: ways(&plain), plain, bodies }
    }

    /// The middle of a terminal; of a splice, none.
    fn place_of(&self, terminal: Terminal) -> Option<Point> {
        let bodies = &self.bodies;
        let tab = bodies.tabs.iter().find(|tab| tab.terminal == terminal)?;
        let x = match terminal.post {
            Post::Amplifier { .. } => bodies.lefts[0] + bodies.amplifier,
            Post::CupOutside(_) => bodies.lefts[1],
            Post::CupInside(_) => bodies.lefts[1] + 72,
            _ => bodies.lefts[2],
        };
        Some((x, tab.axis))
    }
}

/// How far a place is from the nearest piece of a way.
fn off(way: &[Point], (x, y): Point) -> i32 {
    let beyond = |at: i32, a: i32, b: i32| (a.min(b) - at).max(at - a.max(b)).max(0);
    let far = |(a, b): (Point, Point)| beyond(x, a.0, b.0).max(beyond(y, a.1, b.1));
    pieces(way).map(far).min().unwrap()
}

/// Where a ring is looked for: ways that it lies at, terminals that it stands beside.
fn wanted(planned: &Planned<'_>, fault: &Fault) -> Vec<Vec<Point>> {
    let Planned { plan, plain, ways, .. } = planned;
    let way = |run: u16| ways[usize::from(run)].1.clone();
    let end = |run: u16, start: bool| {
        let of: &Run = &plan.runs[usize::from(run)];
        let terminal = if start { of.from } else { of.to };
        planned.place_of(terminal).map_or_else(|| way(run), |at| vec![at, at])
    };
    let body = |area: Area| vec![(area.0, area.1), (area.2, area.3)];
    let coil = |coil: Coil| {
        let name = coil.to_string();
        body(texts(plain).into_iter().find(|(_, _, text)| *text == name).unwrap().1)
    };
    let drivers = || rects(plain, &[Role::Body]);
    match *fault {
        Fault::Missing { run } | Fault::Capacitor { run } => vec![way(run)],
        Fault::Loose { run } => vec![end(run, true), end(run, false)],
        Fault::WrongEnd { run, start, .. } => vec![end(run, start)],
        Fault::Extra { from, to } => {
            let at = |one| vec![planned.place_of(one).unwrap(); 2];
            vec![at(from), at(to)]
        }
        Fault::Strand { a, b } => vec![[a, b].map(|one| planned.place_of(one).unwrap()).to_vec()],
        Fault::CoilOpen(one) | Fault::CoilShort(one) | Fault::Turns(one) => vec![coil(one)],
        Fault::OtherDriver { driver, .. } => vec![body(drivers()[usize::from(driver)])],
        // The rigs of the spread have one group.
        Fault::OtherGroup { .. } => drivers().into_iter().map(body).collect(),
        Fault::Crossed { a, b } => vec![way(a), way(b)],
        Fault::Amplifier => {
            let outputs = rects(plain, &[Role::Post]).into_iter();
            outputs.take(plan.pairs.len()).map(body).collect()
        }
        _ => Vec::new(),
    }
}

#[test]
fn every_suspect_has_its_ring_beside_its_place_and_no_ring_covers_anything() {
    let mut farthest = 0;
    for Case { name, made, faults, .. } in CASES.iter() {
        let planned = Planned::of(&made.plan);
        for fault in faults {
            let scene = marked(made, &[*fault]);
            assert_eq!(covered(&scene), Vec::<String>::new(), "{name}: {fault:?}");
            assert_eq!(ways(&scene), planned.ways, "{name}: {fault:?}");
            let places = wanted(&planned, fault);
            let rings = middles(&scene);
            assert_eq!(rings.len(), places.len(), "{name}: {fault:?}");
            for place in &places {
                let near = rings.iter().map(|ring| off(place, *ring)).min().unwrap();
                farthest = farthest.max(near);
                assert!(near <= 64, "{name}: {fault:?} is {near} off");
            }
        }
    }
    println!("at most {farthest} off");
}

/// An explanation may hold several alike: every joint of a chain, every coil.
#[test]
fn several_suspects_have_a_ring_each_and_none_covers_another() {
    for Case { name, made, faults, .. } in CASES.iter() {
        let planned = Planned::of(&made.plan);
        for kind in [Kind::Missing, Kind::Loose, Kind::CoilOpen, Kind::WrongEnd, Kind::Strand] {
            let alike = faults.iter().filter(|fault| fault.kind() == kind);
            let alike: Vec<Fault> = alike.copied().take(6).collect();
            let scene = marked(made, &alike);
            assert_eq!(covered(&scene), Vec::<String>::new(), "{name}: {alike:?}");
            let mut places: Vec<Vec<Point>> = Vec::new();
            for place in alike.iter().flat_map(|fault| wanted(&planned, fault)) {
                if !places.contains(&place) {
                    places.push(place);
                }
            }
            assert_eq!(middles(&scene).len(), places.len(), "{name}: {alike:?}");
        }
    }
}

/// The ways of the runs that are none of those planned.
fn unnumbered(scene: &Scene) -> Vec<Vec<Point>> {
    let none = |(run, way): (Option<usize>, _)| run.is_none().then_some(way);
    conductors(scene).into_iter().filter_map(none).collect()
}

#[test]
fn what_is_built_has_the_numbers_of_the_plan_and_ends_at_its_terminals() {
    for Case { name, made, faults, others } in CASES.iter() {
        for fault in faults {
            let scene = as_it_is(made, fault, others);
            let name = format!("{name}: {fault:?}");
            assert_eq!(covered(&scene), Vec::<String>::new(), "{name}");
            let planned = &made.plan.runs;
            let as_built = as_built(&made.plan, fault, others);
            let (numbered, more) = (ways(&scene), unnumbered(&scene));
            let numbers: Vec<usize> = numbered.iter().map(|(number, _)| *number).collect();
            let badges = rects(&scene, &[Role::Badge]).len();
            if let Fault::Otherwise(_) = fault {
                assert_eq!((numbers.len(), badges, more.len()), (0, 0, as_built.runs.len()));
                continue;
            }
            assert_eq!(numbers, (0..planned.len()).collect::<Vec<_>>(), "{name}");
            assert_eq!(badges, planned.len(), "{name}");
            let extra = as_built.runs.len().saturating_sub(planned.len());
            assert_eq!(more.len(), extra, "{name}");
            let missing: Vec<usize> = missing(&scene);
            match fault {
                Fault::Missing { run } => assert_eq!(missing, [usize::from(*run)], "{name}"),
                _ => assert_eq!(missing, [0_usize; 0], "{name}"),
            }
            // Each ends where the solver says that it does; what is missing, where planned.
            let mut runs: Vec<Run> = as_built.runs.clone();
            if let Fault::Missing { .. } | Fault::Capacitor { .. } = fault {
                runs.clone_from(planned);
            }
            let built = Plan { runs: runs.clone(), ..made.plan.clone() };
            let bodies = route(&built, &made.plan, &labels(&made.plan)).unwrap().bodies;
            let ways = numbered.into_iter().map(|(_, way)| way).chain(more);
            for (run, way) in runs.iter().zip(ways) {
                let ends = [way[0], way[way.len() - 1]];
                for terminal in [run.from, run.to] {
                    let Some(tab) = bodies.tab_of(terminal) else { continue };
                    let at = |end: &Point| *end == (bodies.x(terminal.post), tab.axis);
                    assert!(ends.iter().any(at), "{name}: {terminal:?} {ends:?}");
                }
            }
        }
    }
}

fn missing(scene: &Scene) -> Vec<usize> {
    let number = |mark: &Mark| match mark {
        Mark::Run(Role::RunMissing, number) => *number,
        _ => None,
    };
    let mut missing: Vec<usize> = scene.marks.iter().filter_map(number).collect();
    // What hops is told of twice.
    missing.dedup();
    missing
}

#[test]
fn what_is_built_is_drawn_as_cleanly_as_a_plan() {
    for Case { name, made, faults, others } in CASES.iter() {
        for fault in faults {
            let scene = as_it_is(made, fault, others);
            let bodies = rects(&scene, &[Role::Body, Role::Post]);
            let numbered = ways(&scene);
            let mut ways: Vec<Vec<Point>> = unnumbered(&scene);
            ways.extend(numbered.into_iter().map(|(_, way)| way));
            let bared: Vec<Vec<Point>> = ways.iter().map(|way| bare(way)).collect();
            for (i, way) in bared.iter().enumerate() {
                for piece in pieces(way) {
                    let inside = bodies.iter().any(|body| enters(piece, *body));
                    assert!(!inside, "{name}: {fault:?}: {piece:?} enters a body");
                    for other in bared.iter().skip(i + 1).flat_map(|other| pieces(other)) {
                        assert!(!lie_on(piece, other), "{name}: {fault:?}: {piece:?} {other:?}");
                    }
                }
            }
            let badges = rects(&scene, &[Role::Badge]);
            for (i, badge) in badges.iter().enumerate() {
                for other in badges.iter().skip(i + 1).chain(&bodies) {
                    assert!(!overlap(*badge, *other), "{name}: {fault:?}: {badge:?} {other:?}");
                }
            }
        }
    }
}

/// What is only asked about has no place, and what was joined otherwise is not in the plan.
#[test]
fn what_has_no_place_leaves_the_drawing_as_it_is() {
    for Case { name, made, .. } in CASES.iter() {
        let plain = wired(&made.plan, &labels(&made.plan), &[]).unwrap();
        let nowhere = [Fault::Nothing, Fault::Leads, Fault::Meter, Fault::Reversed];
        assert_eq!(marked(made, &nowhere), plain, "{name}");
        assert_eq!(marked(made, &[Fault::Otherwise(0)]), plain, "{name}");
        assert_eq!(as_it_is(made, &Fault::Meter, &[]), plain, "{name}");
    }
}

#[test]
fn suspects_are_as_they_were_looked_at() {
    let none = BuildDraft { cups: Cups::None, ..BuildDraft::default() };
    let made = made([2, 2, 1], &none, &drivers(2, "||", "+")).unwrap();
    let free = |sign| Terminal { post: Post::Amplifier { output: 0, pair: 0 }, sign };
    let faults = [
        Fault::Missing { run: 2 },
        Fault::Loose { run: 0 },
        Fault::CoilOpen(Coil { driver: 1, coil: 1 }),
        Fault::Strand { a: free(Sign::Plus), b: free(Sign::Minus) },
    ];
    looked_at(&marked(&made, &faults), "suspects");
}
