//! What stands in the way.

use crate::parts::blank::{id_of, message};
use crate::pen::{Pen, What};
use crate::question::trouble::Trouble;
use crate::words::page as say;

/// What is wrong with a list as a whole, beside it.
pub fn at_path(pen: &mut Pen, path: &str) {
    pen.open("");
    for trouble in &pen.state.question.read.troubles {
        if trouble.path == path && !trouble.is_missing() {
            pen.open("p.trouble|tabindex=-1");
            pen.made("id", id_of(path));
            pen.said(message(trouble));
            pen.close();
        }
    }
    pen.close();
}

/// Everything in the way of an answer, each a tap from its field.
pub fn list(pen: &mut Pen) {
    pen.open("");
    let troubles = &pen.state.question.read.troubles;
    part(pen, troubles, say::PUT_RIGHT, "div.troubles troubles-wrong", false);
    part(pen, troubles, say::STILL_NEEDED, "div.troubles troubles-missing", true);
    pen.close();
}

/// What is wrong with the box, each a tap from its field.
pub fn of_box(pen: &mut Pen) {
    let troubles = &pen.state.question.read.box_troubles;
    part(pen, troubles, say::PUT_RIGHT, "div.troubles troubles-wrong", false);
}

fn part(
    pen: &mut Pen,
    troubles: &[Trouble],
    title: &'static str,
    spec: &'static str,
    missing: bool,
) {
    if !troubles.iter().any(|trouble| trouble.is_missing() == missing) {
        return pen.nothing();
    }
    pen.open(spec);
    pen.line("h3", title);
    pen.open("ul");
    for trouble in troubles {
        if trouble.is_missing() == missing {
            pen.open("li");
            pen.press("to-field", What::GoTo(id_of(&trouble.path)));
            pen.said(message(trouble));
            pen.close();
            pen.close();
        }
    }
    pen.close();
    pen.close();
}
