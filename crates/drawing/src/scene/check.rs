//! What every picture must keep, whatever it shows. Tests alone use it.

use super::{Anchor, Mark, Point, Role, Scene, text_width};

/// Left, top, right, bottom.
pub(crate) type Area = (i32, i32, i32, i32);

/// About what a text covers: 0.62 of its size for a letter's width, 1.2 for its height.
pub(crate) fn area(at: Point, anchor: Anchor, size: i32, text: &str) -> Area {
    let wide = text_width(text, size);
    let left = match anchor {
        Anchor::Start => at.0,
        Anchor::Middle => at.0 - wide / 2,
        Anchor::End => at.0 - wide,
    };
    (left, at.1 - size * 19 / 20, left + wide, at.1 + size / 4)
}

/// Whether two areas have more than an edge in common.
pub(crate) fn overlap(a: Area, b: Area) -> bool {
    a.0 < b.2 && b.0 < a.2 && a.1 < b.3 && b.1 < a.3
}

/// Every text with its area and role.
pub(crate) fn texts(scene: &Scene) -> Vec<(Role, Area, &str)> {
    let mut texts = Vec::new();
    for mark in &scene.marks {
        if let Mark::Text(role, at, anchor, size, text) = mark {
            texts.push((*role, area(*at, *anchor, *size, text), text.as_str()));
        }
    }
    texts
}

/// Every line of the roles that `of` accepts.
pub(crate) fn lines(scene: &Scene, of: impl Fn(Role) -> bool) -> Vec<(Point, Point)> {
    let mut lines = Vec::new();
    for mark in &scene.marks {
        if let Mark::Line(role, from, to) = mark
            && of(*role)
        {
            lines.push((*from, *to));
        }
    }
    lines
}

/// Whether a line enters an area: clipped to it by its parameter, something is left.
pub(crate) fn enters(line: (Point, Point), area: Area) -> bool {
    let ((x, y), (u, v)) = line;
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (start, step, least, most) in [(x, u - x, area.0, area.2), (y, v - y, area.1, area.3)] {
        let (start, step) = (f64::from(start), f64::from(step));
        let (least, most) = (f64::from(least), f64::from(most));
        if step == 0.0 {
            if start <= least || start >= most {
                return false;
            }
            continue;
        }
        let (a, b) = ((least - start) / step, (most - start) / step);
        from = from.max(a.min(b));
        to = to.min(a.max(b));
    }
    from + 1e-9 < to
}

/// What is wrong with any picture: marks outside, texts too small or on one another.
pub(crate) fn problems(scene: &Scene) -> Vec<String> {
    let mut wrong = Vec::new();
    let inside = |(x, y): Point| (0..=scene.width).contains(&x) && (0..=scene.height).contains(&y);
    for mark in &scene.marks {
        let corners = match mark {
            Mark::Line(_, from, to) => vec![*from, *to],
            Mark::Shape(_, at, _) => vec![*at],
            Mark::Path(_, places) => places.clone(),
            Mark::Run(..) | Mark::End => Vec::new(),
            Mark::Rect(_, at, wide, tall, _) => {
                if *wide < 0 || *tall < 0 {
                    wrong.push(format!("turned inside out: {mark:?}"));
                }
                vec![*at, (at.0 + wide, at.1 + tall)]
            }
            Mark::Text(_, at, anchor, size, text) => {
                if *size < 12 * scene.fine {
                    wrong.push(format!("too small to read: {mark:?}"));
                }
                let (left, top, right, bottom) = area(*at, *anchor, *size, text);
                vec![(left, top), (right, bottom)]
            }
        };
        if !corners.into_iter().all(inside) {
            wrong.push(format!("outside {} by {}: {mark:?}", scene.width, scene.height));
        }
    }
    let texts = texts(scene);
    for (i, (_, a, one)) in texts.iter().enumerate() {
        for (_, b, other) in texts.iter().skip(i + 1) {
            if overlap(*a, *b) {
                wrong.push(format!("{one} lies on {other}: {a:?} {b:?}"));
            }
        }
    }
    wrong
}
