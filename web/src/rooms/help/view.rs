//! Help in plain words.

use crate::state::State;
use crate::words::page::room;
use crate::pen::Pen;
use crate::parts::top::top;
use crate::words::cautions::{self, Caution};
use crate::words::{help, page as say};

/// The class of the page.
pub const PAGE: &str = "page page-help";
/// What leads past the fields, and where.
pub const SKIP: (&str, &str) = (room::TO_HELP, "room");

/// The title of the window.
#[must_use]
pub fn title(_state: &State) -> String {
    room::title(say::HELP, &[])
}

/// The room.
pub fn show(pen: &mut Pen) {
    pen.room("section.sheet wide-room help", "help", 0, room);
}

fn room(pen: &mut Pen) {
    pen.open("");
    top(pen, "h2.tab|id=room|tabindex=-1", say::HELP, "quiet");
    for (title, paragraphs) in help::ALL {
        pen.line("h3", title);
        for paragraph in *paragraphs {
            pen.line("p", paragraph);
        }
    }
    pen.line("h3", help::CAUTIONS);
    pen.open("ul.facts");
    for caution in Caution::ALL {
        pen.line("li", cautions::text(caution));
    }
    pen.close();
    pen.line("p", cautions::SCOPE);
    pen.close();
}
