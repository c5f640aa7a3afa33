//! Help in plain words.

use super::Sheet;
use super::tag::{Tag, What, el, fixed, line, press, row, text};
use super::words::cautions::{self, Caution};
use super::words::{help, page as say};
use yew::prelude::*;

/// The room.
pub fn room(Sheet { act, .. }: Sheet) -> Html {
    let heading = Tag::new("h2")
        .with(&["id", "class", "tabindex"], vec![fixed("room"), fixed("tab"), fixed("-1")])
        .kids(vec![text(say::HELP)]);
    let back = press(act, "quiet", None, What::Back, vec![text(say::chosen::BACK)]);
    let mut kids = vec![el("div", "chosen-top", vec![heading, back])];
    for (title, paragraphs) in help::ALL {
        kids.push(line("h3", "", title));
        for paragraph in *paragraphs {
            kids.push(line("p", "", paragraph));
        }
    }
    kids.push(line("h3", "", help::CAUTIONS));
    let mut list = Vec::new();
    for caution in Caution::ALL {
        list.push(line("li", "", cautions::text(caution)));
    }
    kids.push(el("ul", "facts", list));
    kids.push(line("p", "", cautions::SCOPE));
    row(kids)
}
