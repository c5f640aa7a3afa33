//! The labels at the left of the axis.

use super::scale::Scale;
use super::{ABOVE, BELOW, LINE, SIZE, Stated};
use crate::scene::{Anchor, Mark, Role, draw_line, draw_shape, draw_text};

/// A label, where it should stand and where it does.
#[derive(Clone, Copy, Debug)]
pub(super) struct Label<'a> {
    pub(super) text: &'a str,
    role: Role,
    /// The height of what it names.
    at: i32,
    /// The height of its own middle.
    y: i32,
    /// An arrow, where what it names lies beyond an end of the axis.
    beyond: Option<&'static str>,
}

impl<'a> Label<'a> {
    pub(super) fn of(stated: &Stated<'a>, role: Role, scale: &Scale) -> Self {
        let (at, beyond) = if scale.is_above(stated.ohms) {
            (0, Some(ABOVE))
        } else if scale.is_below(stated.ohms) {
            (scale.height, Some(BELOW))
        } else {
            (scale.y(stated.ohms), None)
        };
        Self { text: stated.label, role, at, y: at, beyond }
    }

    /// Whether what it names lies beyond an end of the axis.
    pub(super) const fn is_beyond(&self) -> bool {
        self.beyond.is_some()
    }

    /// The label, which ends at `end`, and what leads from `point` to the axis.
    pub(super) fn draw(
        &self,
        (end, point): (i32, i32),
        ticks: &[(i32, String)],
        axis: i32,
        to: &mut Vec<Mark>,
    ) {
        let place = (end, self.y + 4);
        draw_text(to, self.role, place, Anchor::End, SIZE, self.text.to_owned());
        if let Some(arrow) = self.beyond {
            draw_shape(to, Role::Arrow, (end + 8, self.y), arrow);
            return;
        }
        draw_line(to, Role::Pointer, (point, self.y), (point + 10, self.at));
        // On to the axis where no number stands in the way.
        if ticks.iter().all(|(y, _)| (y - self.at).abs() > 8) {
            draw_line(to, Role::Pointer, (point + 10, self.at), (axis - 7, self.at));
        }
    }
}

/// Pushes labels apart until none overlaps, and drops the last where there is no room.
pub(super) fn spread<'a>(mut labels: Vec<Label<'a>>, scale: &Scale) -> Vec<Label<'a>> {
    labels.retain(|label| !label.text.is_empty());
    let (highest, lowest) = (LINE / 2, scale.height - LINE / 2);
    let room = (lowest - highest) / LINE + 1;
    labels.truncate(usize::try_from(room).unwrap_or(0));
    // By height; few enough for the plainest sort.
    for end in 1..labels.len() {
        let mut at = end;
        while at > 0 && labels[at - 1].at > labels[at].at {
            labels.swap(at - 1, at);
            at -= 1;
        }
    }
    let mut free = highest;
    for label in &mut labels {
        label.y = label.y.max(free);
        free = label.y + LINE;
    }
    let mut free = lowest;
    for label in labels.iter_mut().rev() {
        label.y = label.y.min(free);
        free = label.y - LINE;
    }
    labels
}
