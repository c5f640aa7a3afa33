//! The text of a rig that is kept, and which rig the fields belong to.
//!
//! ```text
//! record = "1" LF time LF name LF link      time in milliseconds since 1970
//! ```
//! A name holds no line feed.

use crate::question::form::longest;
use coilwright_solver::bounds::Field;
use coilwright_words::english::names;

/// The version that is written.
const VERSION: &str = "1";
/// The longest name, in characters: that of the contract.
pub const LONGEST: usize = longest(Field::RigName);

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

    /// Reads the text; `None` where it is damaged. Whether its link opens is not asked here.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let mut lines = text.split('\n');
        let version = lines.next()?;
        let (at, name, link) = (lines.next()?, lines.next()?, lines.next()?);
        let whole = version == VERSION && lines.next().is_none() && name == named(name);
        // A link that holds no drivers is one of which the rest is missing.
        if !whole || !link.contains("&drivers=") {
            return None;
        }
        Some(Self { at: at.parse().ok()?, name: name.to_owned(), link: link.to_owned() })
    }
}

/// A name as it can be kept: without blanks around it, control characters or what turns
/// the text around it, and no longer than the contract has it.
fn named(name: &str) -> String {
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
