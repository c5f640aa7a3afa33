//! What every picture must keep, whatever it shows. Tests alone use it.

pub(crate) use super::{Area, overlap};
use super::{Mark, Point, Role, Scene, area, covered, name_width};

/// Every text with its area and role.
pub(crate) fn texts(scene: &Scene) -> Vec<(Role, Area, &str)> {
    let mut texts = Vec::new();
    for mark in &scene.marks {
        if let Mark::Text(role, at, anchor, size, text) = mark {
            texts.push((*role, area(*at, *anchor, *size, text), text.as_str()));
        } else if let Mark::Name(at, anchor, size, [shown, _]) = mark {
            let wide = name_width(shown, *size);
            texts.push((Role::Name, covered(*at, *anchor, *size, wide), shown.as_str()));
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
            Mark::Text(_, _, _, size, _) | Mark::Name(_, _, size, _) => {
                if *size < 12 * scene.fine {
                    wrong.push(format!("too small to read: {mark:?}"));
                }
                Vec::new()
            }
        };
        if !corners.into_iter().all(inside) {
            wrong.push(format!("outside {} by {}: {mark:?}", scene.width, scene.height));
        }
    }
    let texts = texts(scene);
    for (_, (left, top, right, bottom), one) in &texts {
        if !inside((*left, *top)) || !inside((*right, *bottom)) {
            wrong.push(format!("outside {} by {}: {one}", scene.width, scene.height));
        }
    }
    for (i, (_, a, one)) in texts.iter().enumerate() {
        for (_, b, other) in texts.iter().skip(i + 1) {
            if overlap(*a, *b) {
                wrong.push(format!("{one} lies on {other}: {a:?} {b:?}"));
            }
        }
    }
    wrong
}
