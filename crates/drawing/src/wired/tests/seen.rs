//! Laws of what a drawing shows, read from its marks alone: which terminals each run joins is
//! told by the names and signs that stand there, not by what laid it out.

use super::table::{Entry, table};
use super::*;
use coilwright_solver::wiring::{Role as Of, Sign};

/// Half of the widest conductor.
const HALF: i32 = 2;

/// What is read from a drawing.
struct Seen {
    runs: Vec<(usize, Vec<Point>)>,
    /// Terminals by what stands there, with their middles.
    tabs: Vec<(String, Point)>,
    dots: Vec<Point>,
    /// Middles of hops, each with the run that hops.
    hops: Vec<(usize, Point)>,
    /// Numbers, each with the run whose group it is in, as it reads, and what it covers.
    numbers: Vec<(usize, String, Area)>,
    bodies: Vec<Area>,
    bars: Vec<Area>,
    clamps: Vec<Area>,
}

fn middle(area: &Area) -> Point {
    ((area.0 + area.2) / 2, (area.1 + area.3) / 2)
}

fn within((x, y): Point, area: &Area) -> bool {
    (area.0..=area.2).contains(&x) && (area.1..=area.3).contains(&y)
}

fn wider(area: Area, by: i32) -> Area {
    (area.0 - by, area.1 - by, area.2 + by, area.3 + by)
}

/// What a straight piece covers.
fn covers((a, b): (Point, Point)) -> Area {
    wider((a.0.min(b.0), a.1.min(b.1), a.0.max(b.0), a.1.max(b.1)), HALF)
}

impl Seen {
    fn of(scene: &Scene) -> Self {
        let bodies = rects(scene, &[Role::Body, Role::Post]);
        let (mut dots, mut hops, mut numbers) = (Vec::new(), Vec::new(), Vec::new());
        let mut run = None;
        for (i, mark) in scene.marks.iter().enumerate() {
            match mark {
                Mark::Run(_, number) => run = *number,
                Mark::End => run = None,
                Mark::Shape(Role::Dot, (x, y), _) => dots.push((x + 4, *y)),
                // The arc of a hop is 12 wide, and straight for 4 before and after it.
                Mark::Shape(Role::Gap, (x, y), _) => hops.push((run.unwrap(), (x + 6, *y))),
                Mark::Shape(Role::Conductor, (x, y), _) => {
                    assert!(hops.contains(&(run.unwrap(), (x + 10, *y))), "a hop without ground");
                }
                Mark::Rect(Role::Badge, ..) => {
                    let Some(Mark::Text(.., text)) = scene.marks.get(i + 1) else {
                        panic!("blank")
                    };
                    let area = rects(scene, &[Role::Badge])[numbers.len()];
                    numbers.push((run.unwrap(), text.clone(), area));
                }
                _ => {}
            }
        }
        let tabs = rects(scene, &[Role::Tab]);
        let tabs = tabs.iter().map(|tab| named(scene, &bodies, middle(tab))).collect();
        Self {
            runs: ways(scene),
            tabs,
            dots,
            hops,
            numbers,
            bars: rects(scene, &[Role::Splice]),
            clamps: rects(scene, &[Role::Clamp]),
            bodies,
        }
    }

    fn tab(&self, at: Point) -> Option<&str> {
        self.tabs.iter().find(|(_, tab)| *tab == at).map(|(name, _)| name.as_str())
    }
}

/// What a terminal is called by what stands on its body and level with it.
fn named(scene: &Scene, bodies: &[Area], at: Point) -> (String, Point) {
    let body = bodies.iter().find(|body| within(at, body)).expect("a terminal on no body");
    let own = || texts(scene).into_iter().filter(|(_, area, _)| within(middle(area), body));
    let of = |wanted: Role| move |(role, ..): &(Role, Area, &str)| *role == wanted;
    let label = own().find(of(Role::BodyLabel)).unwrap().2;
    let mut level = own().filter(of(Role::Sign));
    let sign = level.find(|(_, area, _)| (middle(area).1 - at.1).abs() <= 4).unwrap().2;
    // Its coil is named below a + and above a −.
    let below = |area: &Area| (middle(area).1 - at.1) * if sign == "+" { 1 } else { -1 };
    let coils = own().filter(of(Role::CoilName)).filter(|(_, area, _)| below(area) > 0);
    let coil = coils.min_by_key(|(_, area, _)| below(area)).map_or("", |(.., name)| name);
    let side = match (label.starts_with("cup"), at.0 == body.0) {
        (true, true) => " outside",
        (true, false) => " inside",
        _ => "",
    };
    (format!("{label}{side} {coil}{sign}"), at)
}

/// The same of a terminal of the plan; nothing of a splice.
fn planned(terminal: Terminal) -> Option<String> {
    let sign = if terminal.sign == Sign::Plus { "+" } else { "−" };
    Some(match terminal.post {
        Post::Amplifier { output, .. } => format!("channel {} {sign}", output + 1),
        Post::CupOutside(cup) => format!("cup {} outside {sign}", cup + 1),
        Post::CupInside(cup) => format!("cup {} inside {sign}", cup + 1),
        Post::Coil(coil) => format!("driver {} {coil}{sign}", coil.driver + 1),
        Post::Splice(_) => return None,
    })
}

/// Every drawing of the table and of the spread.
fn all() -> Vec<(Entry, Scene)> {
    let spread = spread().map(|(name, plan)| Entry {
        name: name.clone(),
        plan: plan.clone(),
        labels: labels(plan),
        crossed: u32::MAX,
    });
    let drawn = |entry: Entry| {
        let scene = wired(&entry.plan, &entry.labels, &[]).unwrap();
        (entry, scene)
    };
    table().into_iter().chain(spread).map(drawn).collect()
}

static ALL: LazyLock<Vec<(Entry, Scene)>> = LazyLock::new(all);

fn each(check: impl Fn(&Entry, &Scene, &Seen)) {
    assert!(ALL.len() > 330, "{}", ALL.len());
    for (entry, scene) in ALL.iter() {
        check(entry, scene, &Seen::of(scene));
    }
}

#[test]
fn every_run_ends_squarely_on_the_axes_of_the_terminals_that_it_joins() {
    each(|Entry { name, plan, .. }, _, seen| {
        assert_eq!(seen.runs.len(), plan.runs.len(), "{name}");
        for ((number, way), run) in seen.runs.iter().zip(&plan.runs) {
            let name = format!("{name}: run {}", number + 1);
            let ends = [(way[0], way[1]), (way[way.len() - 1], way[way.len() - 2])];
            let mut found = Vec::new();
            for (end, before) in ends {
                assert!(end.1 == before.1 && end.0 != before.0, "{name}: {end:?} aslant");
                match seen.tab(end) {
                    Some(tab) => found.push(tab.to_owned()),
                    None => {
                        let on =
                            |bar: &&Area| end.0 == middle(bar).0 && within(end, &wider(**bar, 1));
                        assert!(seen.bars.iter().any(|bar| on(&bar)), "{name}: {end:?} nowhere");
                        assert!(seen.clamps.iter().any(|one| within(end, one)), "{name}: {end:?}");
                    }
                }
            }
            let mut want: Vec<String> =
                [run.from, run.to].into_iter().filter_map(planned).collect();
            want.sort();
            found.sort();
            assert_eq!(found, want, "{name}");
        }
    });
}

#[test]
fn every_joint_has_a_dot_and_nothing_else_has() {
    each(|Entry { name, .. }, _, seen| {
        let ends = || seen.runs.iter().flat_map(|(_, way)| [way[0], way[way.len() - 1]]);
        let mut want: Vec<Point> = ends().filter(|end| seen.tab(*end).is_none()).collect();
        for (_, tab) in &seen.tabs {
            if ends().filter(|end| end == tab).count() > 1 {
                want.push(*tab);
            }
        }
        let mut dots = seen.dots.clone();
        dots.sort_unstable();
        want.sort_unstable();
        assert_eq!(dots, want, "{name}");
    });
}

/// Where conductors touch, as seen from the middle of one of them.
fn touching(one: (Point, Point), other: (Point, Point)) -> Vec<Point> {
    if !overlap(wider(covers(one), HALF + 1), covers(other)) {
        return Vec::new();
    }
    let ((a, b), long) = (one, (one.0.0 - one.1.0).abs().max((one.0.1 - one.1.1).abs()).max(1));
    let along = |step| (a.0 + (b.0 - a.0) * step / long, a.1 + (b.1 - a.1) * step / long);
    let touches = |at: &Point| enters(other, wider((at.0, at.1, at.0, at.1), 2 * HALF + 1));
    (0..=long).map(along).filter(touches).collect()
}

#[test]
fn every_crossing_has_one_hop_and_runs_touch_elsewhere_at_a_terminal_of_both_alone() {
    let mut crossings = 0;
    for (Entry { name, .. }, scene) in ALL.iter() {
        let seen = Seen::of(scene);
        let mut want: Vec<(usize, Point)> = Vec::new();
        for (number, way) in &seen.runs {
            let across = |x: i32, top: i32, bottom: i32| {
                pieces(way).filter(move |(a, b)| {
                    let (left, right) = (a.0.min(b.0), a.0.max(b.0));
                    a.1 == b.1 && left < x && x < right && top < a.1 && a.1 < bottom
                })
            };
            for bar in &seen.bars {
                let x = middle(bar).0;
                want.extend(across(x, bar.1, bar.3).map(|(a, _)| (*number, (x, a.1))));
            }
            for (_, along) in seen.runs.iter().filter(|(other, _)| other != number) {
                for (a, b) in pieces(along).filter(|(a, b)| a.0 == b.0) {
                    let level = across(a.0, a.1.min(b.1), a.1.max(b.1));
                    want.extend(level.map(|(c, _)| (*number, (a.0, c.1))));
                }
            }
        }
        for (i, (number, way)) in seen.runs.iter().enumerate() {
            for (other, along) in seen.runs.iter().skip(i + 1) {
                let ends = [along[0], along[along.len() - 1]];
                let shared: Vec<Point> = [way[0], way[way.len() - 1]]
                    .into_iter()
                    .filter(|end| ends.contains(end))
                    .collect();
                for at in pieces(way).flat_map(|a| pieces(along).flat_map(move |b| touching(a, b)))
                {
                    // They fan out of a terminal up and down.
                    let joined =
                        shared.iter().any(|(x, y)| within(at, &(x - 23, y - 26, x + 23, y + 38)));
                    let hopped = seen.hops.iter().any(|(_, hop)| {
                        within(at, &wider((hop.0, hop.1, hop.0, hop.1), 2 * HALF + 1))
                    });
                    // What goes into a splice from both sides.
                    let clamped = seen.clamps.iter().any(|one| within(at, &wider(*one, 2)));
                    let fine = joined || hopped || clamped;
                    assert!(fine, "{name}: runs {} and {} touch at {at:?}", number + 1, other + 1);
                }
            }
        }
        let mut hops = seen.hops.clone();
        hops.sort_unstable();
        want.sort_unstable();
        assert_eq!(hops, want, "{name}");
        crossings += hops.len();
    }
    assert!(crossings > 1000, "{crossings}");
}

/// As counted on the drawings before runs hopped, the way these were drawn then.
#[test]
fn runs_cross_no_more_often_than_they_did() {
    for Entry { name, plan, crossed, .. } in table() {
        let found = crossings(&plan).unwrap();
        assert!(found.after <= crossed, "{name}: {found:?}");
    }
}

#[test]
fn a_number_stands_on_a_straight_piece_of_its_own_run_and_on_nothing_else() {
    each(|Entry { name, plan, .. }, scene, seen| {
        assert_eq!(seen.numbers.len(), plan.runs.len(), "{name}");
        for (number, text, area) in &seen.numbers {
            let name = format!("{name}: number {text}");
            assert_eq!(*text, (number + 1).to_string(), "{name}");
            let at = middle(area);
            let way = &seen.runs[*number].1;
            // A bend or an end is off what it covers.
            // Where it goes level on both sides there is none.
            let bent = |three: &&[Point]| three[0].1 != three[1].1 || three[1].1 != three[2].1;
            let bends = way.windows(3).filter(bent).map(|three| three[1]);
            let bends = bends.chain([way[0], way[way.len() - 1]]);
            let bends = bends.filter(|place| overlap(wider(*area, 3), covers((*place, *place))));
            let own = pieces(way).any(|piece| enters(piece, wider((at.0, at.1, at.0, at.1), 1)));
            assert!(own, "{name} is off its run");
            assert_eq!(bends.count(), 0, "{name} stands on a bend: {area:?} {way:?}");
            for (other, along) in seen.runs.iter().filter(|(other, _)| other != number) {
                let on = pieces(along).any(|piece| enters(piece, wider(*area, HALF + 1)));
                assert!(!on, "{name} stands on run {}", other + 1);
            }
            let hops = seen.hops.iter().map(|(_, (x, y))| (x - 8, y - 8, x + 8, y + 2));
            let others = seen.numbers.iter().filter(|(other, ..)| other != number);
            let taken = others.map(|(.., area)| *area).chain(hops).chain(seen.bodies.clone());
            let parts = rects(scene, &[Role::Tab, Role::Splice, Role::Clamp, Role::Cap]);
            for one in taken.chain(parts) {
                assert!(!overlap(*area, one), "{name} lies on {one:?}");
            }
        }
    });
}

#[test]
fn no_text_lies_on_another_or_under_a_run_and_no_run_goes_through_a_body() {
    each(|Entry { name, .. }, scene, seen| {
        assert_eq!(problems(scene), Vec::<String>::new(), "{name}");
        let all = texts(scene);
        for (number, way) in &seen.runs {
            for piece in pieces(way) {
                let body = seen.bodies.iter().any(|body| enters(piece, *body));
                assert!(!body, "{name}: run {} goes through a body", number + 1);
                for (role, area, text) in &all {
                    let own = *role == Role::BadgeLabel && *text == (number + 1).to_string();
                    assert!(own || !enters(piece, *area), "{name}: run {} on {text}", number + 1);
                }
            }
        }
    });
}

/// Between tracks, and between ways that go level past each other, is more ground than the
/// widest conductor takes twice.
#[test]
fn runs_side_by_side_are_told_apart() {
    each(|Entry { name, .. }, _, seen| {
        let all: Vec<(usize, (Point, Point))> = seen
            .runs
            .iter()
            .flat_map(|(run, way)| pieces(way).map(|piece| (*run, piece)))
            .collect();
        for (i, (run, one)) in all.iter().enumerate() {
            for (other, two) in all.iter().skip(i + 1).filter(|(other, _)| other != run) {
                let level = one.0.1 == one.1.1 && two.0.1 == two.1.1;
                let upright = one.0.0 == one.1.0 && two.0.0 == two.1.0;
                // On the axis of a terminal that both end on they are one.
                let end = |at: Point| seen.tab(at).is_some();
                let shared = [one.0, one.1].into_iter().filter(|at| end(*at));
                let joined = level
                    && one.0.1 == two.0.1
                    && shared.into_iter().any(|at| at == two.0 || at == two.1);
                // Into a splice they may come level from both sides.
                let clamped = |at: Point| seen.clamps.iter().any(|one| within(at, one));
                let joined = joined || [one.0, one.1].into_iter().any(clamped) && level;
                if (level || upright) && !joined {
                    let near = overlap(wider(covers(*one), 3), wider(covers(*two), 3));
                    assert!(!near, "{name}: runs {} and {} {one:?} {two:?}", run + 1, other + 1);
                }
            }
        }
    });
}

#[test]
fn what_runs_look_like_is_told_of_those_that_are_there() {
    each(|Entry { name, plan, labels, .. }, scene, _| {
        let told: Vec<String> = texts(scene)
            .into_iter()
            .filter(|(role, ..)| *role == Role::LegendLabel)
            .map(|(.., text)| text.to_owned())
            .collect();
        let roles = [Of::Positive, Of::Negative, Of::Between];
        let there = |of: &Of| plan.runs.iter().any(|run| run.role == *of);
        let want = roles.iter().zip(&labels.legend).filter(|(of, _)| there(of));
        let want: Vec<String> = want.map(|(_, text)| text.clone()).collect();
        assert_eq!(told, want, "{name}");
    });
}

/// All terminals of bridged channels stand there, pale, and no run ends on one of them.
#[test]
fn the_terminals_of_a_bridge_are_shown_and_the_pair_is_left_to_its_maker() {
    let mut bridges = 0;
    each(|Entry { name, labels, .. }, scene, _| {
        let pale = rects(scene, &[Role::TabPale]);
        assert_eq!(pale.len(), 2 * labels.bridged.iter().map(Vec::len).sum::<usize>(), "{name}");
        let bodies = rects(scene, &[Role::Post]);
        assert!(pale.iter().all(|one| within(middle(one), &bodies[0])), "{name}");
        for line in labels.bridged.iter().flatten().chain(&labels.marked) {
            assert!(texts(scene).iter().any(|(.., text)| text == line), "{name}: {line}");
        }
    });
    bridges += table().iter().filter(|entry| !entry.labels.bridged.is_empty()).count();
    assert_eq!(bridges, 16);
}
