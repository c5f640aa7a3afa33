//! What the looks of runs mean, below the drawing: part of it, so that it comes along on
//! paper and in a file, in whatever colours the runs have there.

use super::Labels;
use super::bodies::MARGIN;
use crate::scene::{Anchor, Mark, Role, Scene, draw_line, draw_text, text_width};
use coilwright_solver::wiring::{Plan, Role as Of};

/// Size of the words, the height of a line, how long a sample is, and what is between.
const SIZE: i32 = 12;
const LINE: i32 = 20;
const SAMPLE: i32 = 30;
const APART: i32 = 14;

/// Draws what is there of runs, in lines as wide as the drawing.
pub(super) fn draw(scene: &mut Scene, plan: &Plan, labels: &Labels) {
    let (mut x, mut y) = (MARGIN, scene.height + LINE / 2);
    for ((of, role), text) in [
        (Of::Positive, Role::RunPlus),
        (Of::Negative, Role::RunMinus),
        (Of::Between, Role::RunBetween),
    ]
    .into_iter()
    .zip(&labels.legend)
    {
        if text.is_empty() || !plan.runs.iter().any(|run| run.role == of) {
            continue;
        }
        let wide = SAMPLE + 6 + text_width(text, SIZE);
        if x > MARGIN && x + wide + MARGIN > scene.width {
            (x, y) = (MARGIN, y + LINE);
        }
        let to = &mut scene.marks;
        to.push(Mark::Run(role, None));
        draw_line(to, Role::Conductor, (x, y), (x + SAMPLE, y));
        if of == Of::Positive {
            draw_line(to, Role::Tracer, (x, y), (x + SAMPLE, y));
        }
        to.push(Mark::End);
        let at = (x + SAMPLE + 6, y + 4);
        draw_text(to, Role::LegendLabel, at, Anchor::Start, SIZE, text.clone());
        x += wide + APART;
        scene.height = y + LINE / 2 + 2;
    }
}
