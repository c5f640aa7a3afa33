//! A picture as a list of marks, and the one writer that makes it SVG.

mod file;
mod name;
mod role;

use core::fmt::Write;
pub use file::Look;
pub(crate) use name::{fitted, width as name_width};
pub use role::Role;

/// A place: units from the left, units from the top.
pub type Point = (i32, i32);

/// Which end of a text stands at its x.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// It begins there.
    Start,
    /// Its middle is there.
    Middle,
    /// It ends there.
    End,
}

/// One thing drawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A straight line.
    Line(Role, Point, Point),
    /// A fixed shape in relative path commands, begun at a point.
    Shape(Role, Point, &'static str),
    /// An upright rectangle: left top corner, width, height, radius of its corners.
    Rect(Role, Point, i32, i32, i32),
    /// Straight pieces from place to place.
    Path(Role, Vec<Point>),
    /// What follows up to the end is of one run, by its number counted from 0; a run that is
    /// none of the plan's has none.
    Run(Role, Option<usize>),
    /// The end of a run.
    End,
    /// Text on one line: where its anchor and base line are, and the size in units.
    Text(Role, Point, Anchor, i32, String),
    /// What a person calls something: its anchor and base line, the size, as it is shown, and
    /// in full.
    Name(Point, Anchor, i32, [String; 2]),
}

// What draws, draws by calls: marks put together in place take several times as much.

#[inline(never)]
pub(crate) fn draw_line(to: &mut Vec<Mark>, role: Role, from: Point, end: Point) {
    to.push(Mark::Line(role, from, end));
}

#[inline(never)]
pub(crate) fn draw_shape(to: &mut Vec<Mark>, role: Role, at: Point, shape: &'static str) {
    to.push(Mark::Shape(role, at, shape));
}

#[inline(never)]
pub(crate) fn draw_rect(
    to: &mut Vec<Mark>,
    role: Role,
    corner: Point,
    wide: i32,
    tall: i32,
    radius: i32,
) {
    to.push(Mark::Rect(role, corner, wide, tall, radius));
}

#[inline(never)]
pub(crate) fn draw_text(
    to: &mut Vec<Mark>,
    role: Role,
    at: Point,
    anchor: Anchor,
    size: i32,
    text: String,
) {
    to.push(Mark::Text(role, at, anchor, size, text));
}

/// Draws a name, shortened to so many units; nothing where there is none.
pub(crate) fn draw_name(
    to: &mut Vec<Mark>,
    at: Point,
    anchor: Anchor,
    size: i32,
    name: &str,
    room: i32,
) {
    if !name.is_empty() {
        to.push(Mark::Name(at, anchor, size, [fitted(name, size, room), name.to_owned()]));
    }
}

/// A picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scene {
    /// Width in units.
    pub width: i32,
    /// Height in units.
    pub height: i32,
    /// What it begins at, from the left and from the top: more than nothing where it is a part.
    pub left: i32,
    /// See [`Self::left`].
    pub top: i32,
    /// How many units make one CSS pixel: 1, but for thumbnails, which are finer.
    pub fine: i32,
    /// What is drawn, the lowest first.
    pub marks: Vec<Mark>,
}

impl Scene {
    /// An empty picture whose unit is a pixel.
    pub(crate) const fn new() -> Self {
        Self { width: 0, height: 0, left: 0, top: 0, fine: 1, marks: Vec::new() }
    }

    /// The whole picture as an `<svg>` element of its natural size, in parts of the root font. With a label it is an
    /// image of that name, without one it is hidden from assistive technology.
    #[must_use]
    pub fn svg(&self, class: &str, label: Option<&str>) -> String {
        let mut to = self.opened(class, label);
        // The page's sheets draw it.
        self.write_marks(&mut to, |_, _| "");
        to.push_str("</svg>");
        to
    }

    /// The element's beginning.
    fn opened(&self, class: &str, label: Option<&str>) -> String {
        let mut to = String::with_capacity(64 * (self.marks.len() + 4));
        let fine = self.fine.max(1);
        to.push_str("<svg class=\"");
        escape(&mut to, class);
        match label {
            Some(label) => {
                to.push_str("\" role=\"img\" aria-label=\"");
                escape(&mut to, label);
            }
            None => to.push_str("\" aria-hidden=\"true"),
        }
        to.push_str("\" viewBox=\"");
        number(&mut to, self.left);
        numbers(&mut to, "", &[self.top, self.width, self.height]);
        size(&mut to, "width", (self.width + fine - 1) / fine);
        size(&mut to, "height", (self.height + fine - 1) / fine);
        to.push_str("\">");
        to
    }

    /// Parts of one picture side by side, the first at the left, as one element like that of
    /// [`Self::svg`].
    #[must_use]
    pub fn beside(parts: &[Self], apart: i32, class: &str, label: &str) -> String {
        let mut around = Self::new();
        let mut inner = String::new();
        for part in parts {
            if around.width > 0 {
                around.width += apart;
            }
            inner.push_str("<svg x=\"");
            number(&mut inner, around.width);
            attribute(&mut inner, "width", part.width);
            attribute(&mut inner, "height", part.height);
            inner.push_str("\" viewBox=\"");
            number(&mut inner, part.left);
            numbers(&mut inner, "", &[part.top, part.width, part.height]);
            inner.push_str("\">");
            part.write_marks(&mut inner, |_, _| "");
            inner.push_str("</svg>");
            around.width += part.width;
            around.height = around.height.max(part.height);
        }
        let mut to = around.opened(class, Some(label));
        to.push_str(&inner);
        to.push_str("</svg>");
        to
    }

    fn write_marks(&self, to: &mut String, look: Look) {
        // Lines and shapes of one role in a row become one path.
        let mut open = None;
        let mut run = None;
        for mark in &self.marks {
            match mark {
                Mark::Run(role, _) => run = Some(*role),
                Mark::End => run = None,
                _ => {}
            }
            let look = |role| look(role, run);
            let path = match mark {
                Mark::Line(role, ..) | Mark::Shape(role, ..) => Some(*role),
                _ => None,
            };
            if open != path {
                if open.is_some() {
                    to.push_str("\"/>");
                }
                if let Some(role) = path {
                    element(to, "path", role, look(role));
                    to.push_str("\" d=\"");
                }
                open = path;
            }
            write_mark(to, mark, look);
        }
        if open.is_some() {
            to.push_str("\"/>");
        }
    }
}

fn write_mark(to: &mut String, mark: &Mark, look: impl Fn(Role) -> &'static str) {
    match mark {
        Mark::Line(_, from, end) => {
            numbers(to, "M", &[from.0, from.1]);
            if from.1 == end.1 {
                numbers(to, "H", &[end.0]);
            } else if from.0 == end.0 {
                numbers(to, "V", &[end.1]);
            } else {
                numbers(to, "L", &[end.0, end.1]);
            }
        }
        Mark::Shape(_, at, shape) => {
            numbers(to, "M", &[at.0, at.1]);
            to.push_str(shape);
        }
        Mark::Rect(role, at, width, height, radius) => {
            element(to, "rect", *role, look(*role));
            attribute(to, "x", at.0);
            attribute(to, "y", at.1);
            attribute(to, "width", *width);
            attribute(to, "height", *height);
            if *radius > 0 {
                attribute(to, "rx", *radius);
            }
            to.push_str("\"/>");
        }
        Mark::Path(role, places) => {
            element(to, "path", *role, look(*role));
            to.push_str("\" d=\"");
            for (i, (x, y)) in places.iter().enumerate() {
                numbers(to, if i == 0 { "M" } else { "L" }, &[*x, *y]);
            }
            to.push_str("\"/>");
        }
        Mark::Run(role, number) => {
            element(to, "g", *role, look(*role));
            if let Some(number) = number {
                attribute(to, "data-run", i32::try_from(*number).unwrap_or(0));
            }
            to.push_str("\">");
        }
        Mark::End => to.push_str("</g>"),
        Mark::Text(role, at, anchor, size, text) => {
            open_text(to, (*role, look(*role)), *at, *anchor, *size);
            to.push_str("\">");
            escape(to, text);
            to.push_str("</text>");
        }
        Mark::Name(at, anchor, size, [shown, full]) => {
            open_text(to, (Role::Name, look(Role::Name)), *at, *anchor, *size);
            // It runs as its own letters do, whatever is around it.
            to.push_str("\" unicode-bidi=\"plaintext\">");
            if shown != full {
                to.push_str("<title>");
                escape(to, full);
                to.push_str("</title>");
            }
            escape(to, shown);
            to.push_str("</text>");
        }
    }
}

/// Begins a text, its last attribute open.
fn open_text(to: &mut String, (role, look): (Role, &str), at: Point, anchor: Anchor, size: i32) {
    element(to, "text", role, look);
    attribute(to, "x", at.0);
    attribute(to, "y", at.1);
    attribute(to, "font-size", size);
    match anchor {
        Anchor::Start => {}
        Anchor::Middle => to.push_str("\" text-anchor=\"middle"),
        Anchor::End => to.push_str("\" text-anchor=\"end"),
    }
}

/// Begins an element, its last attribute open.
fn element(to: &mut String, name: &str, role: Role, look: &str) {
    to.push('<');
    to.push_str(name);
    to.push_str(" class=\"");
    to.push_str(role.class());
    attributes(to, look);
}

/// Writes `name:value;name:value` as attributes, the last one open.
fn attributes(to: &mut String, all: &str) {
    for (name, value) in all.split(';').filter_map(|one| one.split_once(':')) {
        to.push_str("\" ");
        to.push_str(name);
        to.push_str("=\"");
        to.push_str(value);
    }
}

/// Closes the attribute before it and leaves its own open.
fn attribute(to: &mut String, name: &str, value: i32) {
    to.push_str("\" ");
    to.push_str(name);
    to.push_str("=\"");
    number(to, value);
}

/// A size on the page: in parts of the root's font, so that a picture grows with the text.
fn size(to: &mut String, name: &str, pixels: i32) {
    attribute(to, name, pixels / 16);
    // A sixteenth is 625 ten-thousandths; writing to a String cannot fail.
    let _ = write!(to, ".{:04}rem", pixels % 16 * 625);
}

fn numbers(to: &mut String, command: &str, values: &[i32]) {
    to.push_str(command);
    for (i, value) in values.iter().enumerate() {
        if i > 0 || command.is_empty() {
            to.push(' ');
        }
        number(to, *value);
    }
}

fn number(to: &mut String, value: i32) {
    // Writing to a String cannot fail.
    let _ = write!(to, "{value}");
}

/// Writes text as XML 1.0 has it (section 2.2 names the letters there are, section 2.4 those
/// that stand for something else): a letter that it does not have is replaced.
fn escape(to: &mut String, text: &str) {
    for letter in text.chars() {
        match letter {
            '\t' | '\n' | '\r' => to.push(' '),
            '\0'..'\u{20}' | '\u{fffe}' | '\u{ffff}' => to.push('\u{fffd}'),
            '&' => to.push_str("&amp;"),
            '<' => to.push_str("&lt;"),
            '>' => to.push_str("&gt;"),
            '"' => to.push_str("&quot;"),
            '\'' => to.push_str("&#39;"),
            other => to.push(other),
        }
    }
}

/// Left, top, right, bottom.
pub(crate) type Area = (i32, i32, i32, i32);

/// About what a text covers: 0.62 of its size for a letter's width, 1.2 for its height.
pub(crate) fn area(at: Point, anchor: Anchor, size: i32, text: &str) -> Area {
    covered(at, anchor, size, text_width(text, size))
}

/// What a text so wide covers.
pub(crate) const fn covered(at: Point, anchor: Anchor, size: i32, wide: i32) -> Area {
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

/// About how wide a text is: most letters of most faces are narrower.
pub(crate) fn text_width(text: &str, size: i32) -> i32 {
    let letters = i32::try_from(text.chars().count()).unwrap_or(0);
    (letters * size * 62 + 99) / 100
}

#[cfg(test)]
pub(crate) mod check;
#[cfg(test)]
mod tests;
