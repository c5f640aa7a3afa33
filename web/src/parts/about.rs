//! What a rig is, in a line, and what it is kept as.

use crate::question::form::Form;
use crate::question::read;
use crate::rooms::rigs::Mine;
use crate::rooms::rigs::record::LONGEST;
use crate::words::page::rigs as say;
use crate::words::rig as rig_words;

/// What a rig is, in a line.
#[must_use]
pub fn about(form: &Form) -> Option<String> {
    read::read(form).request.map(|request| rig_words::summary(&request.rig))
}

/// The same, or that it is not finished.
#[must_use]
pub fn about_or_not(form: &Form) -> String {
    about(form).unwrap_or_else(|| say::UNFINISHED.to_owned())
}

/// What a rig is kept as: its name, or in a line what it is.
#[must_use]
pub fn name_of(mine: &Mine, form: &Form) -> String {
    let named = mine.named();
    if !named.is_empty() {
        return named;
    }
    let about = about(form).unwrap_or_else(|| say::UNNAMED.to_owned());
    let cut: String = about.chars().take(LONGEST).collect();
    cut.trim_end().to_owned()
}
