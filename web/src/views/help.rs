//! Help in plain words.

use super::pen::Pen;
use super::top;
use super::words::cautions::{self, Caution};
use super::words::{help, page as say};

/// The room.
pub fn room(pen: &mut Pen) {
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
