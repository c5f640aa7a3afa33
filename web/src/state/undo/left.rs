//! What was left behind, and its text.

use super::Erased;
use crate::link::escape::{escaped, unescaped};

/// What was left behind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Left {
    /// The page as it stood.
    Page(Erased, String),
    /// A rig that was kept.
    Rig(Erased, Shelved),
}

/// What stood in the place of a rig that is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shelved {
    /// By what it is found.
    pub id: String,
    /// What was kept there; none where nothing was.
    pub text: Option<String>,
    /// When the page knew it to be kept.
    pub at: u64,
}

impl Left {
    /// What was erased.
    #[must_use]
    pub const fn erased(&self) -> Erased {
        let (Self::Page(erased, _) | Self::Rig(erased, _)) = self;
        *erased
    }

    pub(super) fn written(&self) -> String {
        let mut text = String::from(letter(self.erased()));
        text.push(' ');
        match self {
            Self::Page(_, draft) => text.push_str(draft),
            Self::Rig(_, Shelved { id, text: kept, at }) => {
                text.push_str(&escaped(id, b""));
                text.push(' ');
                text.push_str(&at.to_string());
                if let Some(kept) = kept {
                    text.push(' ');
                    text.push_str(&escaped(kept, b""));
                }
            }
        }
        text
    }

    pub(super) fn read(line: &str) -> Option<Self> {
        // What an earlier version of the page kept: the rig that was there before.
        if line.starts_with("v=") {
            return Some(Self::Page(Erased::Rig, line.to_owned()));
        }
        let (of, rest) = line.split_once(' ')?;
        let erased = *LETTERED.iter().find(|erased| letter(**erased) == of)?;
        if !matches!(erased, Erased::Deleted | Erased::Kept) {
            return Some(Self::Page(erased, rest.to_owned()));
        }
        let mut parts = rest.split(' ');
        let id = unescaped(parts.next()?)?;
        let at = parts.next()?.parse().ok()?;
        let text = match parts.next() {
            Some(text) => Some(unescaped(text)?),
            None => None,
        };
        Some(Self::Rig(erased, Shelved { id, text, at }))
    }
}

const LETTERED: [Erased; 15] = [
    Erased::Value,
    Erased::Reading,
    Erased::Box,
    Erased::Drivers,
    Erased::Amplifier,
    Erased::Bridge,
    Erased::Point,
    Erased::Work,
    Erased::Search,
    Erased::Ticks,
    Erased::Compared,
    Erased::Change,
    Erased::Rig,
    Erased::Deleted,
    Erased::Kept,
];

/// What stands for it in the storage.
const fn letter(erased: Erased) -> &'static str {
    match erased {
        Erased::Value => "v",
        Erased::Reading => "r",
        Erased::Box => "b",
        Erased::Drivers => "d",
        Erased::Amplifier => "a",
        Erased::Bridge => "g",
        Erased::Point => "p",
        Erased::Work => "w",
        Erased::Search => "s",
        Erased::Ticks => "t",
        Erased::Compared => "c",
        Erased::Change => "n",
        Erased::Rig => "o",
        Erased::Deleted => "x",
        Erased::Kept => "k",
    }
}
