//! What the looks of runs mean: part of the drawing, so that it comes along on paper and in a
//! file, in whatever colours the runs have there. It stands where the drawing leaves a corner
//! free, else below.

use super::Labels;
use super::bodies::MARGIN;
use super::ground::Ground;
use crate::scene::{Anchor, Mark, Point, Role, Scene, draw_line, draw_text, text_width};
use coilwright_solver::wiring::{Plan, Role as Of};

/// Size of the words, the height of a line, how long a sample is, and what is between.
const SIZE: i32 = 12;
const LINE: i32 = 20;
const SAMPLE: i32 = 30;
const APART: i32 = 14;

/// From sample to words, and what is kept free around all of it.
const BEFORE: i32 = 6;
const AROUND: i32 = 8;

/// Draws what is there of runs: one below the other at the left edge, or in lines below all.
pub(super) fn draw(scene: &mut Scene, plan: &Plan, labels: &Labels) {
    let looks = [
        (Of::Positive, Role::RunPlus),
        (Of::Negative, Role::RunMinus),
        (Of::Between, Role::RunBetween),
    ];
    let mut there = Vec::new();
    for ((of, role), text) in looks.into_iter().zip(&labels.legend) {
        if !text.is_empty() && plan.runs.iter().any(|run| run.role == of) {
            there.push((role, text, SAMPLE + BEFORE + text_width(text, SIZE)));
        }
    }
    let widest = there.iter().map(|(.., wide)| *wide).max().unwrap_or(0);
    let lines = i32::try_from(there.len()).unwrap_or(0);
    if let Some(top) = free(scene, (widest, lines * LINE)) {
        let mut y = top + LINE / 2;
        for (role, text, _) in there {
            look(scene, (MARGIN, y), role, text);
            y += LINE;
        }
        return;
    }
    let (mut x, mut y) = (MARGIN, scene.height + LINE / 2);
    for (role, text, wide) in there {
        if x > MARGIN && x + wide + MARGIN > scene.width {
            (x, y) = (MARGIN, y + LINE);
        }
        look(scene, (x, y), role, text);
        x += wide + APART;
        scene.height = y + LINE / 2 + 2;
    }
}

/// The top of the first room of this size at the left edge.
fn free(scene: &Scene, (wide, tall): Point) -> Option<i32> {
    let ground = Ground::of(scene);
    let fits = |top: &i32| {
        let area = (MARGIN, top - AROUND, MARGIN + wide + AROUND, top + tall + AROUND);
        ground.is_free(area)
    };
    (AROUND..=scene.height - tall - AROUND).step_by(4).find(fits)
}

fn look(scene: &mut Scene, (x, y): Point, role: Role, text: &str) {
    let to = &mut scene.marks;
    to.push(Mark::Run(role, None));
    draw_line(to, Role::Conductor, (x, y), (x + SAMPLE, y));
    if role == Role::RunPlus {
        draw_line(to, Role::Tracer, (x, y), (x + SAMPLE, y));
    }
    to.push(Mark::End);
    let at = (x + SAMPLE + BEFORE, y + 4);
    draw_text(to, Role::LegendLabel, at, Anchor::Start, SIZE, text.to_owned());
}
