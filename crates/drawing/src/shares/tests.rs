use super::*;
use crate::scene::check;

fn rows(fractions: &[&[f64]]) -> Vec<Row> {
    let coil = |fraction: &f64| Share {
        label: "1a".to_owned(),
        fraction: *fraction,
        figure: format!("{fraction:.2}"),
    };
    let row = |(i, coils): (usize, &&[f64])| Row {
        label: format!("Driver {}", i + 1),
        name: String::new(),
        coils: coils.iter().map(coil).collect(),
    };
    fractions.iter().enumerate().map(row).collect()
}

fn bars(scene: &Scene) -> Vec<(Role, i32, i32)> {
    let mut bars = Vec::new();
    for mark in &scene.marks {
        if let Mark::Rect(role @ (Role::Bar | Role::BarOver), at, wide, ..) = mark {
            bars.push((*role, at.0, *wide));
        }
    }
    bars
}

#[test]
fn a_bar_is_as_long_as_its_coil_gets_power() {
    for (fractions, over) in [
        (&[&[1.0, 0.5][..], &[0.25]][..], [false, false, false]),
        (&[&[1.0][..], &[2.0, 0.5]], [false, true, false]),
    ] {
        for room in [220, 328, 900] {
            let scene = shares(&rows(fractions), "all of its rating", room);
            assert_eq!(check::problems(&scene), Vec::<String>::new());
            assert!(scene.width <= room);
            let limit = check::lines(&scene, |role| role == Role::Limit)[0].0.0;
            let flat = fractions.iter().flat_map(|row| row.iter());
            for ((fraction, (role, left, wide)), over) in flat.zip(bars(&scene)).zip(over) {
                let due = f64::from(limit - left) * fraction;
                assert!((f64::from(wide) - due).abs() <= 1.5, "{fraction}: {wide} for {due}");
                assert_eq!(role == Role::BarOver, over, "{fraction}");
            }
            assert_eq!(bars(&scene).len(), 3);
        }
    }
}

#[test]
fn sixteen_drivers_and_odd_figures_stay_in_the_frame() {
    for fractions in [&[1.0, 1e-9][..], &[1e9, 1.0], &[f64::NAN, 0.0], &[f64::INFINITY]] {
        for room in [0, 150, 320, 2000] {
            let scene = shares(&rows(&[fractions; 16]), "all", room);
            assert_eq!(check::problems(&scene), Vec::<String>::new(), "{fractions:?} {room}");
        }
    }
    assert_eq!(check::problems(&shares(&[], "", 300)), Vec::<String>::new());
}
