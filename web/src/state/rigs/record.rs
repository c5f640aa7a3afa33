//! The text of a rig that is kept, and of a draft with the rig it belongs to.
//!
//! ```text
//! record = "1" LF time LF name LF link      time in milliseconds since 1970
//! draft  = link [ "&mine=" id "~" time "~" name ]
//! ```
//! A name holds no line feed. What a draft belongs to stands at its end as one more part,
//! so that a page that does not know it opens the link all the same.

use super::super::link::{self, Opened, escaped, unescaped};
use super::{LONGEST, Previous};
use coilwright_words::english::names;

/// The version that is written.
const VERSION: &str = "1";
/// Before what a draft belongs to.
const MINE: &str = "&mine=";

/// A rig as it is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Record {
    /// When it was kept, in milliseconds since 1970. Whoever opened it knows by that
    /// whether it was kept anew since.
    pub at: u64,
    /// Its name.
    pub name: String,
    /// What it holds, as a link.
    pub link: String,
}

/// The rig that the fields belong to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Mine {
    /// Its name, as typed so far.
    pub name: String,
    /// By what it is found and when it was kept, where it is kept.
    pub of: Option<(String, u64)>,
}

impl Record {
    /// As text.
    #[must_use]
    pub fn written(&self) -> String {
        let Self { at, name, link } = self;
        [VERSION, &at.to_string(), name, link].join("\n")
    }

    /// Reads the text; `None` where it is damaged.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let mut lines = text.split('\n');
        let version = lines.next()?;
        let (at, name, link) = (lines.next()?, lines.next()?, lines.next()?);
        let whole = version == VERSION && lines.next().is_none() && name == named(name);
        // A link that holds no drivers is one of which the rest is missing.
        let opened = link::open(link).filter(|opened| opened.left_out.is_empty());
        if !whole || opened.is_none() || !link.contains("&drivers=") {
            return None;
        }
        Some(Self { at: at.parse().ok()?, name: name.to_owned(), link: link.to_owned() })
    }
}

/// A name as it can be kept: without blanks around it, control characters or what turns
/// the text around it, and no longer than the contract has it.
pub(super) fn named(name: &str) -> String {
    let plain: String = name.chars().filter(|c| !c.is_control()).collect();
    let cut: String = names::plain(&plain).chars().take(LONGEST).collect();
    cut.trim_end().to_owned()
}

impl Mine {
    /// Its name as it can be kept.
    #[must_use]
    pub fn named(&self) -> String {
        named(&self.name)
    }
}

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

impl Previous {
    /// The text of a draft of it.
    #[must_use]
    pub fn written(&self) -> String {
        draft(&link::write(&self.saved), &self.mine)
    }

    /// Opens such a text.
    #[must_use]
    pub fn open(text: &str) -> Option<Self> {
        let (opened, mine) = open_draft(text)?;
        Some(Self { saved: opened.saved, mine })
    }
}
