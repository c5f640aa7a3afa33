use super::*;
use crate::scene::Point;
use crate::scene::check::{self, Area};
use proptest::prelude::*;

fn tick(upper: u32, lower: u32) -> String {
    match lower {
        1 => upper.to_string(),
        _ => format!("{upper}/{lower}"),
    }
}

fn rung(ohms: f64) -> Rung {
    Rung { ohms, to: ohms, even: true, low: false }
}

fn of<'a>(rungs: &'a [Rung], least: Option<f64>, rated: &'a [Stated<'a>]) -> Ladder<'a> {
    let least = least.map(|ohms| Stated { ohms, label: "at least" });
    Ladder { rungs, pitch: 56, least, rated, chosen: None, unit: "Ω", tick: &tick }
}

const fn is_rung(role: Role) -> bool {
    matches!(role, Role::Rung | Role::RungUneven | Role::RungLow | Role::RungLowUneven)
}

/// The three pieces of each leader, in the order of the rows.
fn leaders(scene: &Scene, chosen: Option<usize>) -> Vec<[Point; 4]> {
    let path = |role: Role| {
        let lines = check::lines(scene, |one| one == role);
        lines.chunks(3).map(|of| [of[0].0, of[1].0, of[2].0, of[2].1]).collect::<Vec<_>>()
    };
    let mut all = path(Role::Leader);
    if let (Some(at), [one]) = (chosen, &path(Role::LeaderChosen)[..]) {
        all.insert(at, *one);
    }
    all
}

/// Laws of every ladder.
fn is_neat(ladder_of: &Ladder<'_>) {
    let scene = ladder(ladder_of);
    assert_eq!(check::problems(&scene), Vec::<String>::new());
    let texts: Vec<(Role, Area, &str)> = check::texts(&scene);
    for line in check::lines(&scene, |role| role == Role::Pointer) {
        for (role, area, text) in &texts {
            let own = matches!(role, Role::RatedLabel | Role::LeastLabel);
            assert!(own || !check::enters(line, *area), "{line:?} through {text}");
        }
    }
    let rows = leaders(&scene, ladder_of.chosen);
    assert_eq!(rows.len(), ladder_of.rungs.len());
    for (i, leader) in rows.iter().enumerate() {
        let middle = i32::try_from(i).unwrap() * ladder_of.pitch + ladder_of.pitch / 2;
        assert_eq!(leader[3], (scene.width, middle), "row {i}");
    }
    for pair in rows.windows(2) {
        // Both turn at the same two places; above there, they are above each other.
        assert_eq!((pair[0][1].0, pair[0][2].0), (pair[1][1].0, pair[1][2].0));
        for at in 0..4 {
            assert!(pair[0][at].1 <= pair[1][at].1, "{pair:?} cross");
        }
    }
}

#[test]
fn heights_are_logarithms() {
    // 8, 4, 2 and 1 ohm are an octave from each other, 2.83 half way between two.
    let rungs = [8.0, 4.0, 8.0_f64.sqrt(), 2.0, 1.0].map(rung);
    let scene = ladder(&of(&rungs, None, &[]));
    let y: Vec<i32> = check::lines(&scene, is_rung).iter().map(|(from, _)| from.1).collect();
    let octave = f64::from(y[4] - y[0]) / 3.0;
    for (at, octaves) in y.iter().zip([0.0, 1.0, 1.5, 2.0, 3.0]) {
        let due = f64::from(y[0]) + octaves * octave;
        assert!((f64::from(*at) - due).abs() <= 1.0, "{y:?}");
    }
}

#[test]
fn a_rung_says_by_its_form_what_it_is() {
    let mut rungs = [8.0, 4.0, 2.0, 1.0, 0.5].map(rung);
    (rungs[1].even, rungs[3].low) = (false, true);
    (rungs[4].even, rungs[4].low) = (false, true);
    let ladder_of = Ladder { chosen: Some(0), ..of(&rungs, Some(1.5), &[]) };
    let scene = ladder(&ladder_of);
    let length = |role| {
        let lines = check::lines(&scene, |one| one == role);
        assert_eq!(lines.len(), if role == Role::Rung { 2 } else { 1 }, "{role:?}");
        lines[0].1.0 - lines[0].0.0
    };
    let whole = length(Role::Rung);
    assert_eq!(length(Role::RungLow), whole);
    assert_eq!(length(Role::RungChosen), whole);
    assert!(length(Role::RungUneven) < whole && length(Role::RungLowUneven) < whole);
    // The chosen one over all rungs.
    let at = |role| {
        let of_role = |mark: &Mark| matches!(mark, Mark::Line(one, ..) if *one == role);
        scene.marks.iter().rposition(of_role)
    };
    assert!(at(Role::RungChosen) > at(Role::RungLowUneven));
}

#[test]
fn what_is_below_the_least_load_is_shaded() {
    let rungs = [8.0, 4.0, 2.0, 1.0].map(rung);
    let scene = ladder(&of(&rungs, Some(2.0), &[]));
    let y: Vec<i32> = check::lines(&scene, is_rung).iter().map(|(from, _)| from.1).collect();
    let shades: Vec<&Mark> =
        scene.marks.iter().filter(|mark| matches!(mark, Mark::Rect(Role::Shade, ..))).collect();
    let [Mark::Rect(_, at, wide, tall, _)] = shades[..] else { panic!("{shades:?}") };
    assert_eq!((at.1, at.1 + tall), (y[2], scene.height));
    let hatch = check::lines(&scene, |role| role == Role::Hatch);
    assert!(hatch.len() > 5);
    for (a, b) in hatch {
        for (x, y) in [a, b] {
            assert!((at.0..=at.0 + wide).contains(&x) && (at.1..=at.1 + tall).contains(&y));
        }
        assert_eq!(b.0 - a.0, a.1 - b.1, "at 45 degrees");
    }
    // Far below all rungs there is nothing to shade; far above them everything is.
    let shaded = |least| {
        let scene = ladder(&of(&rungs, Some(least), &[]));
        scene.marks.iter().find_map(|mark| match mark {
            Mark::Rect(Role::Shade, at, _, tall, _) => Some((at.1, at.1 + tall)),
            _ => None,
        })
    };
    assert_eq!(shaded(0.01), None);
    assert_eq!(shaded(500.0).map(|(_, bottom)| bottom), Some(scene.height));
    assert!(shaded(500.0).unwrap().0 < y[0]);
}

#[test]
fn points_far_from_all_rungs_are_left_out_at_the_edge() {
    let rungs = [8.0, 4.0, 2.0].map(rung);
    let rated = [
        Stated { ohms: 65.0, label: "20 W" },
        Stated { ohms: 63.0, label: "21 W" },
        Stated { ohms: 4.0, label: "500 W" },
        Stated { ohms: 0.2, label: "900 W" },
    ];
    let scene = ladder(&of(&rungs, None, &rated));
    let shapes = |of: Role| {
        let mut found = Vec::new();
        for mark in &scene.marks {
            if let Mark::Shape(role, at, shape) = mark
                && *role == of
            {
                found.push((at.1, *shape));
            }
        }
        found
    };
    // 63 is less than three octaves above 8, 65 is more; 0.2 is more below 2.
    assert_eq!(shapes(Role::Rated).len(), 2);
    let arrows = shapes(Role::Arrow);
    let [(upper, ABOVE), (lower, BELOW)] = arrows[..] else { panic!("{arrows:?}") };
    assert!(upper < 20 && lower > scene.height - 20);
    let order: Vec<&str> = check::texts(&scene)
        .into_iter()
        .filter(|(role, ..)| *role == Role::RatedLabel)
        .map(|(.., text)| text)
        .collect();
    assert_eq!(order, ["20 W", "21 W", "500 W", "900 W"]);
}

#[test]
fn ticks_are_doublings_and_finer_only_where_there_is_room() {
    let ticks = |loads: &[f64], pitch| {
        let rungs: Vec<Rung> = loads.iter().copied().map(rung).collect();
        let scene = ladder(&Ladder { pitch, ..of(&rungs, None, &[]) });
        let mut ticks: Vec<(i32, String)> = check::texts(&scene)
            .into_iter()
            .filter(|(role, ..)| *role == Role::TickLabel)
            .map(|(_, area, text)| (area.1, text.to_owned()))
            .collect();
        ticks.sort();
        ticks.into_iter().map(|(_, text)| text).collect::<Vec<_>>().join(" ")
    };
    assert_eq!(ticks(&[16.0, 8.0, 4.0, 2.0, 1.0, 0.5], 40), "16 8 4 2 1 1/2");
    assert_eq!(ticks(&[4.0, 2.0, 1.0], 60), "4 3 2 3/2 1");
    assert_eq!(ticks(&[64.0, 0.25], 44), "16 1");
}

#[test]
fn bands_cover_their_loads() {
    let mut rungs = [8.0, 4.0, 1.0].map(rung);
    rungs[1].to = 2.0;
    let ladder_of = of(&rungs, None, &[]);
    let scene = ladder(&ladder_of);
    let y: Vec<i32> = check::lines(&scene, is_rung).iter().map(|(from, _)| from.1).collect();
    let band = scene.marks.iter().find_map(|mark| match mark {
        Mark::Rect(Role::Band, at, _, tall, _) => Some((at.1, at.1 + tall)),
        _ => None,
    });
    let octave = (y[1] - y[0]) / 3;
    let (top, bottom) = band.unwrap();
    assert!((top - y[0] - octave).abs() <= 1 && (bottom - y[1] + octave).abs() <= 1);
    is_neat(&ladder_of);
}

#[test]
fn gathering_leaves_no_load_out() {
    for loads in 0..70 {
        for most in 0..30 {
            let bands = gather(loads, most);
            assert_eq!(bands.len(), loads.min(most.max(1)));
            assert!(bands.iter().cloned().flatten().eq(0..loads), "{loads} {most}");
            let counts = bands.iter().map(ExactSizeIterator::len);
            let (least, greatest) = (counts.clone().min(), counts.max());
            assert!(greatest.unwrap_or(0) - least.unwrap_or(0) <= 1, "{loads} {most}");
        }
    }
}

#[test]
fn nothing_to_show_is_an_empty_picture() {
    assert_eq!(ladder(&of(&[], Some(2.0), &[])).marks, []);
    for odd in [f64::NAN, 0.0, -1.0, f64::INFINITY] {
        // Nonsense gives a picture or none, never a panic.
        let rungs = [rung(odd), rung(4.0)];
        assert_eq!(ladder(&of(&rungs, Some(odd), &[])).height, 112);
    }
    for pitch in [-9, 0, 1, 7, 20] {
        let rungs = [4.0, 2.0].map(rung);
        let scene = ladder(&Ladder { pitch, ..of(&rungs, Some(3.0), &[]) });
        assert_eq!(scene.height, 2 * pitch);
    }
}

proptest! {
    #[test]
    fn any_ladder_is_neat(
        octaves in prop::collection::vec(-6.0_f64..10.0, 1..60),
        bands in any::<u64>(),
        pitch in 44_i32..100,
        least in prop::option::of(-4.0_f64..7.0),
        rated in prop::collection::vec(-4.0_f64..7.0, 0..7),
        chosen in prop::option::of(0_usize..60),
    ) {
        let mut octaves = octaves;
        octaves.sort_by(|a, b| b.total_cmp(a));
        let ohms = |octaves: f64| octaves.exp2();
        let mut rungs: Vec<Rung> = octaves.iter().map(|one| rung(ohms(*one))).collect();
        for i in 0..rungs.len() {
            rungs[i].even = bands >> (i % 64) & 1 == 0;
            // A band reaches half way to the next rung.
            if bands >> ((i + 7) % 64) & 3 == 0 && i + 1 < rungs.len() {
                rungs[i].to = (rungs[i].ohms * rungs[i + 1].ohms).sqrt();
            }
        }
        let labels: Vec<String> = (0..rated.len()).map(|i| format!("{} W", 90 << i)).collect();
        let rated: Vec<Stated> = rated
            .iter()
            .zip(&labels)
            .map(|(one, label)| Stated { ohms: ohms(*one), label })
            .collect();
        let chosen = chosen.filter(|chosen| *chosen < rungs.len());
        is_neat(&Ladder { pitch, chosen, ..of(&rungs, least.map(ohms), &rated) });
    }
}
