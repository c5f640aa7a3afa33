//! The terminals of the channels that are bridged in an output. Which two of them are its
//! pair is marked by its maker (common practice, no source): all stand there, pale, beside
//! the pair that the runs end on, with words that say so.

use super::Labels;
use crate::scene::{Anchor, Mark, Role, draw_rect, draw_text, text_width};

/// Size of what stands there, and the height of a line.
const SIZE: i32 = 12;
const LINE: i32 = 16;
/// Between terminals of a channel, and before the signs of the pair.
const APART: i32 = 28;
const PAIR: i32 = 26;

/// What the words say of an output.
fn of(labels: &Labels, output: usize) -> (&[String], &[String]) {
    let channels = labels.bridged.get(output).map_or(&[][..], Vec::as_slice);
    (channels, if channels.is_empty() { &[] } else { &labels.marked })
}

/// How wide an output must be for them, and how much taller.
pub(super) fn room(labels: &Labels, output: usize) -> (i32, i32) {
    let (channels, lines) = of(labels, output);
    let mut wide = 0;
    for channel in channels {
        wide = wide.max(text_width(channel, SIZE) + 2 * APART + PAIR + 16);
    }
    for line in lines {
        wide = wide.max(text_width(line, SIZE) + 16);
    }
    (wide, LINE * i32::try_from(lines.len()).unwrap_or(0))
}

/// Draws them into an output, of its left edge and width, above its lower edge, level with
/// the terminals in use.
pub(super) fn channels(
    to: &mut Vec<Mark>,
    labels: &Labels,
    output: usize,
    (left, wide, bottom): (i32, i32, i32),
    axes: &[i32],
) {
    let (channels, lines) = of(labels, output);
    for (channel, y) in channels.iter().zip(axes.iter().copied()) {
        let mut say = |x, text: &str| {
            draw_text(to, Role::PaleLabel, (x, y + 4), Anchor::Start, SIZE, text.to_owned());
        };
        say(left + 8, channel);
        let mut x = left + wide - PAIR - 2 * APART;
        for sign in ["+", "−"] {
            say(x + 10, sign);
            x += APART;
        }
        for _ in 0..2 {
            x -= APART;
            draw_rect(to, Role::TabPale, (x - 1, y - 4), 8, 8, 4);
        }
    }
    for (up, line) in (1..).zip(lines.iter().rev()) {
        let at = (left + 8, bottom + 8 - LINE * up);
        draw_text(to, Role::PaleLabel, at, Anchor::Start, SIZE, line.clone());
    }
}
