//! Notices that a source file has changed, by looking at all of them now and then.

use crate::run;
use crate::site;
use std::path::Path;

/// What the page is made of, relative to the workspace.
const SOURCES: [&str; 8] = [
    "index.html",
    "Cargo.toml",
    "Cargo.lock",
    "web",
    "crates/solver",
    "crates/words",
    "crates/drawing",
    "crates/module",
];

/// A number that changes when any source changes, comes or goes.
pub(crate) fn stamp() -> u64 {
    let root = run::root();
    let mut seen = Vec::new();
    for source in SOURCES {
        look(&root.join(source), &mut seen);
    }
    site::fingerprint(&seen)
}

fn look(path: &Path, seen: &mut Vec<u8>) {
    // A file that vanishes between the listing and the look is simply not there.
    let Ok(about) = std::fs::metadata(path) else {
        return;
    };
    if about.is_dir() {
        let mut entries: Vec<_> = std::fs::read_dir(path)
            .into_iter()
            .flatten()
            .flatten()
            .map(|entry| entry.path())
            .collect();
        entries.sort();
        for entry in &entries {
            look(entry, seen);
        }
        return;
    }
    let when = about
        .modified()
        .ok()
        .and_then(|time| time.duration_since(std::time::UNIX_EPOCH).ok())
        .map_or(0, |since| since.as_nanos());
    seen.extend_from_slice(path.as_os_str().as_encoded_bytes());
    seen.extend_from_slice(&when.to_le_bytes());
    seen.extend_from_slice(&about.len().to_le_bytes());
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stamp_of(path: &Path) -> u64 {
        let mut seen = Vec::new();
        look(path, &mut seen);
        site::fingerprint(&seen)
    }

    #[test]
    fn a_change_a_new_file_and_a_lost_file_are_all_noticed() {
        let folder = std::env::temp_dir().join(format!("coilwright-watch-{}", std::process::id()));
        std::fs::create_dir_all(folder.join("deep")).unwrap();
        let empty = stamp_of(&folder);
        std::fs::write(folder.join("deep/a.rs"), "a").unwrap();
        let one = stamp_of(&folder);
        assert_ne!(empty, one);
        assert_eq!(one, stamp_of(&folder));
        std::fs::write(folder.join("deep/a.rs"), "ab").unwrap();
        assert_ne!(one, stamp_of(&folder));
        std::fs::remove_file(folder.join("deep/a.rs")).unwrap();
        assert_eq!(empty, stamp_of(&folder));
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn the_real_sources_are_seen() {
        let mut seen = Vec::new();
        look(&run::root().join("web"), &mut seen);
        let seen = String::from_utf8_lossy(&seen);
        assert!(seen.contains("boot.js") && seen.contains("lib.rs"));
    }
}
