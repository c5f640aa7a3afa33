//! Files of rigs: JSON in the terms of the contract, as other programs read it too.

mod json;
mod taken;
mod written;

use crate::rooms::rigs::Record;
pub use taken::read;
pub use written::write;

/// The field in which a file is chosen.
pub const FILE_FIELD: &str = "rigs-file";
/// The largest file that is written and read, in bytes: many times what a rig takes that
/// holds as much as it can.
pub const LARGEST: u32 = 1_000_000;

/// Writes rigs into as few files as may be read again.
#[must_use]
pub fn files(records: &[Record]) -> Vec<String> {
    let text = write(records);
    if records.len() < 2 || text.len() <= LARGEST as usize {
        return vec![text];
    }
    let (first, second) = records.split_at(records.len() / 2);
    let mut all = files(first);
    all.append(&mut files(second));
    all
}

/// What a file of one rig is called: its name in letters, digits and hyphens.
///
/// # Example
/// ```
/// use coilwright_web::file::name;
/// assert_eq!(name("Float, rear"), "float-rear.json");
/// assert_eq!(name("../Ω"), "rig.json");
/// ```
#[must_use]
pub fn name(of: &str) -> String {
    let mut name = String::new();
    for c in of.chars() {
        if c.is_ascii_alphanumeric() {
            name.push(c.to_ascii_lowercase());
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
    }
    let plain = name.trim_end_matches('-');
    let plain = if plain.is_empty() { "rig" } else { plain };
    let mut file = String::from(plain);
    file.push_str(".json");
    file
}

#[cfg(test)]
mod tests;
