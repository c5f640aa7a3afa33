//! Laws of a drawing as far as a step is about it.

use super::*;
use std::collections::BTreeSet;

/// Whether a place lies in what a part shows.
fn shows(part: &Scene, (x, y): Point) -> bool {
    (part.left..=part.left + part.width).contains(&x)
        && (part.top..=part.top + part.height).contains(&y)
}

/// The parts of a drawing that are each of a step, with the runs that it places.
fn parts(plan: &Plan) -> impl Iterator<Item = (Scene, Scene, Vec<usize>)> {
    let placing = plan.steps.iter().map(|step| step.runs(plan)).filter(|runs| !runs.is_empty());
    placing.map(|runs| {
        let whole = wired(plan, &labels(plan), &runs).unwrap();
        let part = near(&whole, plan, &labels(plan), &runs, &[]).unwrap();
        (whole, part, runs)
    })
}

/// The labels of what runs join: drivers, cups, outputs.
fn joined(plan: &Plan, runs: &[usize]) -> BTreeSet<String> {
    let ends = runs.iter().flat_map(|run| [plan.runs[*run].from, plan.runs[*run].to]);
    let label = |post| match post {
        Post::Coil(coil) => Some(format!("driver {}", coil.driver + 1)),
        Post::CupInside(cup) | Post::CupOutside(cup) => Some(format!("cup {}", cup + 1)),
        Post::Amplifier { output, .. } => Some(format!("channel {}", output + 1)),
        Post::Splice(_) => None,
    };
    ends.filter_map(|end| label(end.post)).collect()
}

#[test]
fn a_part_shows_its_runs_from_end_to_end_and_what_they_join() {
    let mut smaller = 0;
    for (name, plan) in spread() {
        for (whole, part, runs) in parts(plan) {
            let name = format!("{name}: {runs:?}");
            let ways = ways(&whole);
            for run in &runs {
                assert!(ways[*run].1.iter().all(|place| shows(&part, *place)), "{name}");
            }
            let bodies = rects(&whole, &[Role::Body, Role::Post]);
            for label in joined(plan, &runs) {
                let (_, at, _) =
                    texts(&whole).into_iter().find(|(_, _, text)| *text == label).unwrap();
                let (left, top, right, bottom) =
                    *bodies.iter().find(|body| overlap(**body, at)).unwrap();
                let all = shows(&part, (left, top)) && shows(&part, (right, bottom));
                assert!(all, "{name}: {label} is cut");
            }
            // Nothing else is drawn than in the whole, and nothing beside it is shown.
            assert_eq!(part.marks, whole.marks, "{name}");
            assert!(part.left >= 0 && part.left + part.width <= whole.width, "{name}");
            assert!(part.top >= 0 && part.top + part.height <= whole.height, "{name}");
            smaller += usize::from(part.width * part.height < whole.width * whole.height);
        }
    }
    assert!(smaller > 2000, "{smaller} parts are smaller");
}

#[test]
fn what_is_read_is_shown_without_a_run() {
    let (_, plan) = spread().last().unwrap();
    let whole = wired(plan, &labels(plan), &[]).unwrap();
    assert_eq!(
        near(&whole, plan, &labels(plan), &[], &[]).unwrap(),
        whole,
        "nothing in particular"
    );
    let first = plan.runs.iter().find(|run| matches!(run.to.post, Post::Coil(_))).unwrap().to;
    let part = near(&whole, plan, &labels(plan), &[], &[first]).unwrap();
    let bodies = rects(&whole, &[Role::Body]);
    let shown = |body: &&Area| shows(&part, (body.0, body.1)) && shows(&part, (body.2, body.3));
    assert_eq!(bodies.iter().filter(shown).count(), 1, "its own driver");
}

#[test]
fn a_part_is_cut_out_where_it_stands_in_the_whole() {
    let plan = plan([2, 2, 1], &BuildDraft::default(), &drivers(2, "||", "+")).unwrap();
    let whole = wired(&plan, &labels(&plan), &[1]).unwrap();
    let part = near(&whole, &plan, &labels(&plan), &[1], &[]).unwrap();
    assert!(part.left > 0 && part.top > 0, "{} {}", part.left, part.top);
    let frame = format!("viewBox=\"{} {} {} {}\"", part.left, part.top, part.width, part.height);
    assert!(part.svg("part", None).contains(&frame), "{frame}");
}
