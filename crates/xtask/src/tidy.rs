//! Rules that no compiler knows, over every file that git tracks.

use crate::run;
use crate::say::{Done, Failure};

mod page;
mod rules;

/// A tracked file.
#[derive(Debug, Clone, PartialEq, Eq)]
struct File {
    /// Relative to the workspace, with forward slashes.
    path: String,
    content: Vec<u8>,
}

/// Looks at every tracked file and reports all that is wrong with any.
pub(crate) fn run() -> Done {
    let files = tracked()?;
    let mut wrong: Vec<String> = files.iter().flat_map(rules::broken).collect();
    wrong.extend(page::broken(&files));
    wrong.extend(rules::dependencies_that_point_back(&files));
    if wrong.is_empty() {
        return Ok(());
    }
    Err(Failure::new(
        format!("not tidy:\n  {}", wrong.join("\n  ")),
        "each line says what is wrong; the rules and their reasons are in crates/xtask/src/tidy/",
    ))
}

/// The files of the next commit: what git tracks, as it lies in the folder.
fn tracked() -> Done<Vec<File>> {
    let hint = "tidy needs a git checkout and git itself";
    let list = run::read(run::program("git").args(["ls-files", "-z"]), hint)?;
    let mut files = Vec::new();
    for path in list.split('\0').filter(|path| !path.is_empty()) {
        // A file that is deleted but not yet committed is no longer there to judge.
        if let Ok(content) = std::fs::read(run::root().join(path)) {
            let path = path.to_owned();
            files.push(File { path, content });
        }
    }
    if files.is_empty() {
        return Err(Failure::new("git tracks nothing here", hint));
    }
    Ok(files)
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_project_is_tidy() {
        if let Err(failure) = super::run() {
            panic!("{failure}");
        }
    }
}
