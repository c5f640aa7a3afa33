//! The link, given away: copied, or passed to another program. Where nothing can be kept, or
//! no address is seen, it is the way to keep a rig.

use crate::host::{self, Host};
use crate::link;
use crate::pen::{Pen, What};
use crate::rooms::Room;
use crate::state::{Handed, State};
use crate::words::page::rigs as say;

/// The field that the link stands in where it could not be copied.
pub const FIELD: &str = "link-to-copy";

/// The link as it is given away: to the plan where that is looked at, else to the rig.
#[must_use]
pub fn link(host: &dyn Host, state: &State) -> String {
    host::whole(
        host,
        &if state.page.room == Room::Wire {
            link::write(&state.saved())
        } else {
            state.link_to_keep()
        },
    )
}

/// What the link is good for.
pub fn about(pen: &mut Pen) {
    let words = if pen.host().page().is_none() {
        say::LINK_BARE
    } else if pen.host().page().is_some_and(|page| page.starts_with("file:")) {
        say::LINK_TO_FILE
    } else {
        say::LINK
    };
    pen.line("p.hints", words);
}

/// Copies it; and where the browser can, passes it on.
pub fn buttons(pen: &mut Pen) {
    pen.press("quiet", What::Hand { on: false });
    pen.text(say::COPY_LINK);
    pen.close();
    if pen.host().shares(&link(pen.host(), pen.state)) {
        pen.press("quiet", What::Hand { on: true });
        pen.text(say::SHARE_LINK);
        pen.close();
    } else {
        pen.nothing();
    }
}

/// What came of it.
pub fn outcome(pen: &mut Pen) {
    let handed = pen.state.page.handed;
    pen.open("div.handed");
    pen.open("div|role=status");
    match handed {
        Handed::No => {}
        Handed::Copied => pen.line("p.note", say::LINK_COPIED),
        Handed::Shown => pen.line("p.note note-stale", say::LINK_NOT_COPIED),
    }
    pen.close();
    if handed == Handed::Shown {
        pen.open("span.blank blank-wide");
        pen.open("span.blank-line");
        pen.open("input|type=text|readonly|autocomplete=off|spellcheck=false");
        pen.fixed("id", FIELD);
        pen.holds(&link(pen.host(), pen.state));
        pen.close();
        pen.close();
        pen.open("label");
        pen.fixed("for", FIELD);
        pen.text(say::LINK_FIELD);
        pen.close();
        pen.close();
    } else {
        pen.nothing();
    }
    pen.close();
}
