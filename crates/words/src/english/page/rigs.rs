//! Rigs that are kept by name.

use super::super::counts::counted;
use super::super::names::within;

/// Over the room.
pub const HEADING: &str = "Saved rigs";
/// The way to it: short, for the bar of a small screen.
pub const TURN: &str = "Rigs";
/// The name of the rig at hand.
pub const NAME: &str = "name of this rig";
/// What is kept, and where.
pub const ABOUT: &str = "A rig is kept with everything entered for it: drivers, amplifier, box, the configuration chosen, steps done and readings. It stays on this device, in this browser, and goes nowhere else.";
/// Keeps the rig at hand.
pub const KEEP: &str = "Keep this rig";
/// Keeps it in its place, once it is kept.
pub const KEEP_AGAIN: &str = "Keep the changes";
/// Keeps it beside the one it was opened from.
pub const KEEP_BESIDE: &str = "Keep as another";
/// That the rig at hand is as it was kept.
pub const AS_KEPT: &str = "kept as it stands";
/// That it was changed since it was kept.
pub const CHANGED: &str = "changed since it was kept";
/// While nothing is kept.
pub const NONE: &str = "No rig is kept on this device.";
/// Opens a rig.
pub const OPEN: &str = "Open";
/// Keeps one twice.
pub const DOUBLE: &str = "Duplicate";
/// Deletes one.
pub const DELETE: &str = "Delete";
/// Saves one as a file.
pub const SAVE: &str = "Save as a file";
/// Saves the rig at hand as a file.
pub const SAVE_THIS: &str = "Save this rig as a file";
/// Saves all as a file.
pub const SAVE_ALL: &str = "Save all as a file";
/// Takes the rigs of a file.
pub const TAKE: &str = "Take rigs from a file";
/// What a file is good for.
pub const FILES: &str = "A file (JSON) takes rigs to another device or browser, and is the copy to have should this browser lose its own.";
/// What a link is good for.
pub const LINK: &str = "A link holds the rig at hand whole, and opens it on any device. It needs nothing kept anywhere.";
/// The same where the page has no address of its own, in some frames.
pub const LINK_BARE: &str = "This page has no address of its own here. What is copied is the end of one: put it after the address of any page of Coilwright.";
/// The same where the address is that of a file.
pub const LINK_TO_FILE: &str =
    "A link holds the rig at hand whole, and opens it where this file lies at the same place.";
/// Copies it.
pub const COPY_LINK: &str = "Copy link";
/// That it is copied.
pub const LINK_COPIED: &str = "The link is copied.";
/// Gives it to another program of the device.
pub const SHARE_LINK: &str = "Share";
/// The field it stands in where it could not be copied.
pub const LINK_FIELD: &str = "link to this rig";
/// Beside that field.
pub const LINK_NOT_COPIED: &str =
    "This browser did not let the page copy. The link is selected here: copy it by hand.";
/// The rig at hand, in the list.
pub const AT_HAND: &str = "at hand now";
/// An entry that cannot be read.
pub const DAMAGED: &str = "Damaged entry";
/// What is wrong with it.
pub const DAMAGED_ABOUT: &str = "What the browser kept here cannot be read any more.";
/// A rig that is not finished.
pub const UNFINISHED: &str = "not finished yet";
/// What a rig without drivers or a name is called.
pub const UNNAMED: &str = "Rig";

/// The browser has promised to keep them.
pub const LASTING: &str =
    "This browser has promised to keep them until you delete them or clear its data.";
/// It has not.
pub const NOT_LASTING: &str = "This browser may clear them when it runs short of space, or after weeks without a visit: save a file to be sure.";

/// Storage is kept from the page.
pub const REFUSED: &str = "This browser keeps its storage from the page, so no rig can be kept here. The link holds the rig, and so does a file: copy the one or save the other below.";
/// There is no space left.
pub const FULL: &str = "This browser's storage for the page is full, so nothing was kept. Delete a rig first, or save this one as a file; its link holds it too.";
/// The storage is a later version's.
pub const NEWER: &str = "The rigs on this device were kept by a later version of the page, so this one leaves them alone. Reload the page to get that version.";
/// It is gone.
pub const MISSING: &str = "This rig is not there any more: it was deleted in another tab.";
/// The file is too large.
pub const FILE_TOO_LARGE: &str =
    "The file is larger than 1 MB, which no file of rigs is. Nothing was taken.";
/// The file could not be read.
pub const FILE_UNREAD: &str = "The file could not be read. Nothing was taken.";
/// Before what is wrong with a file.
pub const FILE_WRONG: &str = "The file does not hold rigs as they should be. Nothing was taken.";

/// As many are kept as can be.
#[must_use]
pub fn too_many(most: usize) -> String {
    format!("No more than {most} rigs can be kept, so nothing was added. Delete some first.")
}

/// The file is no JSON, from a line and a place in it on.
///
/// # Example
/// ```
/// use coilwright_words::english::page::rigs::not_json;
/// assert_eq!(not_json(Some((3, 7))), "The file is not JSON from line 3, character 7 on. Nothing was taken.");
/// ```
#[must_use]
pub fn not_json(place: Option<(u32, u32)>) -> String {
    match place {
        Some((line, place)) => format!(
            "The file is not JSON from line {line}, character {place} on. Nothing was taken."
        ),
        None => "The file is not JSON. Nothing was taken.".to_owned(),
    }
}

/// How many problems there are beyond those told.
#[must_use]
pub fn more_problems(count: usize) -> String {
    format!("and {count} more")
}

/// The rig is kept.
#[must_use]
pub fn kept(name: &str) -> String {
    format!("Kept as “{}”.", within(name))
}

/// Another tab kept its own meanwhile.
#[must_use]
pub fn beside(name: &str) -> String {
    format!(
        "Another tab changed this rig since you opened it, so yours is kept beside it as “{}”.",
        within(name)
    )
}

/// There is a copy.
#[must_use]
pub fn doubled(name: &str) -> String {
    format!("There is a copy now: “{}”.", within(name))
}

/// Rigs were taken from a file.
#[must_use]
pub fn taken(count: usize) -> String {
    let count = u128::try_from(count).unwrap_or(u128::MAX);
    format!("{} taken from the file.", counted(count, "rig", "rigs"))
}

/// A rig was deleted.
#[must_use]
pub fn deleted(name: &str) -> String {
    format!("“{}” is deleted.", within(name))
}

/// When one was kept.
#[must_use]
pub fn when(when: &str) -> String {
    format!("kept {when}")
}

/// A button that is about one rig, for who cannot see which.
#[must_use]
pub fn about(button: &str, name: &str) -> String {
    format!("{button}: {}", within(name))
}
