//! What a tab keeps of the page: everything that a link holds, and which rig it is.
//!
//! ```text
//! draft  = link [ "&mine=" id "~" time "~" name ]
//! ```
//! What a draft belongs to stands at its end as one more part, so that a page that does not
//! know it opens the link all the same.

use crate::link::escape::{escaped, unescaped};
use crate::link::{self, Opened};
use crate::rooms::rigs::Mine;

/// Before what a draft belongs to.
const MINE: &str = "&mine=";

/// The text of a draft of what a link holds.
#[must_use]
pub fn draft(link: &str, mine: &Mine) -> String {
    let mut text = link.to_owned();
    if *mine != Mine::default() {
        text.push_str(MINE);
        if let Some((id, at)) = &mine.of {
            text.push_str(&escaped(id, b""));
            text.push('~');
            text.push_str(&at.to_string());
        } else {
            text.push('~');
        }
        text.push('~');
        text.push_str(&escaped(&mine.name, b""));
    }
    text
}

/// Opens a draft; what it belongs to is left out where that cannot be read.
#[must_use]
pub fn open_draft(text: &str) -> Option<(Opened, Mine)> {
    let (link, mine) = match text.split_once(MINE) {
        Some((link, mine)) => (link, read_mine(mine).unwrap_or_default()),
        None => (text, Mine::default()),
    };
    Some((link::open(link)?, mine))
}

fn read_mine(text: &str) -> Option<Mine> {
    let mut parts = text.split('~');
    let (id, at, name) = (parts.next()?, parts.next()?, parts.next()?);
    let of = if id.is_empty() { None } else { Some((unescaped(id)?, at.parse().ok()?)) };
    Some(Mine { name: unescaped(name)?, of })
}
