//! Laws of drawings whose drivers are called something.

use super::*;
use crate::scene::{check, fitted, name_width};

/// What people may call drivers: short, wide, of other scripts, and what looks like markup.
const NAMES: [&str; 5] = [
    "Rear doors",
    "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW",
    "",
    "\u{5d3}\u{5dc}\u{5ea} \u{1f50a}\u{1f50a}",
    "<img src=x onerror=alert(1)>\"'&]]>",
];

fn named(plan: &Plan, first: usize) -> Labels {
    let names = NAMES.iter().cycle().skip(first).take(16).map(ToString::to_string);
    Labels { names: names.collect(), ..labels(plan) }
}

#[test]
fn names_have_room_and_nothing_runs_over_them() {
    for (number, (name, plan)) in spread().enumerate() {
        let scene = wired(plan, &named(plan, number), &[]).unwrap();
        assert_eq!(problems(&scene), Vec::<String>::new(), "{name}");
        let bodies = rects(&scene, &[Role::Body]);
        let mut texts = texts(&scene);
        texts.retain(|(role, ..)| *role == Role::Name);
        let due = bodies.len() - (0..bodies.len()).filter(|i| (i + number) % 5 == 2).count();
        assert_eq!(texts.len(), due, "{name}");
        for (_, area, shown) in &texts {
            let within = |body: &Area| {
                body.0 <= area.0 && body.1 <= area.1 && area.2 <= body.2 && area.3 <= body.3
            };
            assert!(bodies.iter().any(within), "{name}: {shown} in no driver");
            for taken in rects(&scene, &[Role::Tab, Role::Badge, Role::Splice]) {
                assert!(!overlap(*area, taken), "{name}: {shown} under a mark");
            }
        }
        let bodies = rects(&scene, &[Role::Body, Role::Post]);
        for (run, way) in ways(&scene) {
            let inside = pieces(&way).any(|piece| bodies.iter().any(|body| enters(piece, *body)));
            assert!(!inside, "{name}: run {run} enters a body");
        }
    }
}

/// A name changes heights and widths, and no run.
#[test]
fn without_names_a_drawing_is_what_it_was_before_there_were_any() {
    for (name, plan) in spread().step_by(7) {
        let blank = Labels { names: vec![String::new(); 16], ..labels(plan) };
        let plain = wired(plan, &labels(plan), &[]).unwrap();
        assert_eq!(wired(plan, &blank, &[]).unwrap(), plain, "{name}");
        let named = wired(plan, &named(plan, 0), &[]).unwrap();
        assert_eq!(ways(&named).len(), ways(&plain).len(), "{name}");
    }
}

#[test]
fn a_name_too_wide_for_its_driver_is_shortened_and_told_in_full() {
    let plan = plan([2, 2, 1], &BuildDraft::default(), &drivers(2, "||", "+")).unwrap();
    let long = "Rear doors, both sides, behind the grilles";
    let names = vec!["Rear doors".to_owned(), long.to_owned()];
    let drawn = wired(&plan, &Labels { names, ..labels(&plan) }, &[]).unwrap();
    let svg = drawn.file(look, "plan", "");
    let file = roxmltree::Document::parse(&svg).unwrap();
    let texts = file.descendants().filter(|node| node.attribute("class") == Some("d-name"));
    let found: Vec<Vec<&str>> = texts
        .map(|node| {
            let parts = node.descendants().filter(roxmltree::Node::is_text);
            parts.filter_map(|part| part.text()).collect()
        })
        .collect();
    assert_eq!(found, [vec!["Rear doors"], vec![long, &*fitted(long, 12, 140)]]);
    assert!(name_width(&fitted(long, 12, 140), 12) <= 140);
}

#[test]
fn rings_keep_off_names() {
    for (name, made) in SPREAD.iter().step_by(31) {
        for run in 0..made.plan.runs.len().min(4) {
            let fault = [Fault::Missing { run: u16::try_from(run).unwrap() }];
            let suspects = Suspects { rig: &made.rig, faults: &fault };
            let labels = named(&made.plan, run);
            let scene = suspected(&made.plan, &labels, &[], suspects).unwrap();
            let rings = rects(&scene, &[Role::Suspect]);
            assert_eq!(rings.len(), 1, "{name}");
            for (role, area, text) in check::texts(&scene) {
                let on = role == Role::Name && overlap(area, rings[0]);
                assert!(!on, "{name}: a ring on {text}");
            }
        }
    }
}
