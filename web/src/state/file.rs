//! Files of rigs: JSON in the terms of the contract, as other programs read it too.

mod json;
mod taken;
mod written;

pub use taken::read;
pub use written::write;

/// The field in which a file is chosen.
pub const FILE_FIELD: &str = "rigs-file";
/// The largest file that is read, in bytes.
pub const LARGEST: u32 = 1_000_000;

/// What a file of one rig is called: its name in letters, digits and hyphens.
///
/// # Example
/// ```
/// use coilwright_web::state::file::name;
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
