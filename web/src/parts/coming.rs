//! What stands in the place of a part of the page that is not there yet.

use crate::later::Later;
use crate::pen::{Pen, What};
use crate::words::page::room as words;

/// Its heading (`spec`), what is the matter, and the way to ask for it once more.
pub fn coming(pen: &mut Pen, spec: &'static str) {
    let missing = pen.state.page.later == Later::Missing;
    pen.open("div.coming");
    // Nothing of it is what comes in its place.
    pen.key("coming".to_owned());
    pen.line(spec, if missing { words::MISSING } else { words::COMING });
    pen.line("p|role=status", if missing { words::WHY_MISSING } else { words::WHY_COMING });
    if missing {
        pen.press("act", What::Bring);
        pen.text(words::AGAIN);
        pen.close();
    }
    pen.close();
}
