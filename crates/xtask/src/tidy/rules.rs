//! The rules, each with its reason. A rule takes a file and says what is wrong.

use super::File;

/// Longest files by the ends of their names: beyond it one holds more than one concept.
const LONGEST: [(&str, usize); 2] = [(".rs", 400), (".css", 300)];

/// Longer files, each with its reason.
const LONGER: [(&str, &str); 0] = [];

/// Which of our packages each may depend on. Anything else points back or sideways.
const MAY_USE: [(&str, &[&str]); 8] = [
    ("crates/solver", &[]),
    ("crates/words", &["solver"]),
    ("crates/drawing", &["solver"]),
    ("crates/module", &["solver", "words", "drawing"]),
    ("web", &["solver", "words", "drawing", "module"]),
    ("tests", &["solver", "words", "drawing", "module", "web"]),
    ("crates/xtask", &[]),
    ("crates/runner", &[]),
];

/// All that is wrong with a file.
pub(crate) fn broken(file: &File) -> Vec<String> {
    let Ok(text) = std::str::from_utf8(&file.content) else {
        if is_picture(&file.path) {
            return Vec::new();
        }
        return vec![format!("{}: is neither UTF-8 nor a picture", file.path)];
    };
    if is_picture(&file.path) {
        return Vec::new();
    }
    let mut wrong = Vec::new();
    let mut say = |line: Option<usize>, what: &str| {
        let at = line.map_or_else(String::new, |line| format!(":{}", line + 1));
        wrong.push(format!("{}{at}: {what}", file.path));
    };
    if !text.is_empty() && (!text.ends_with('\n') || text.ends_with("\n\n")) {
        say(None, "should end with one line end");
    }
    if text.contains('\r') {
        say(None, "has line ends of another system (only LF)");
    }
    let longest = LONGEST.iter().find(|(end, _)| file.path.ends_with(end));
    if let Some((_, longest)) = longest {
        let lines = text.lines().count();
        if lines > *longest && !LONGER.iter().any(|(path, _)| *path == file.path) {
            say(None, &format!("has {lines} lines, more than {longest}: split it by concept"));
        }
    }
    if is_manifest(&file.path) && !inherits_lints(text) {
        say(None, "does not inherit the workspace's lints ([lints] workspace = true)");
    }
    if must_forbid_unsafe(&file.path) && !text.contains("#![forbid(unsafe_code)]") {
        say(None, "does not forbid unsafe code");
    }
    for (number, line) in text.lines().enumerate() {
        for (holds, what) in LINE_RULES {
            if holds(&file.path, line) {
                say(Some(number), what);
            }
        }
    }
    wrong
}

type LineRule = (fn(&str, &str) -> bool, &'static str);

const LINE_RULES: [LineRule; 7] = [
    (
        |_, line| MACHINE_PATHS.iter().any(|path| has_path(line, path)),
        "holds a path of some machine",
    ),
    (
        |_, line| REGISTRIES.iter().any(|host| line.contains(host)),
        "names a registry's host: each machine knows its own",
    ),
    (
        |path, line| path.ends_with("package-lock.json") && line.contains("\"resolved\""),
        "says where a package comes from (omit-lockfile-registry-resolved in .npmrc)",
    ),
    (
        |path, line| path == "Cargo.lock" && is_foreign_source(line),
        "takes a crate from elsewhere than crates.io",
    ),
    (
        |_, line| UNFINISHED.iter().any(|word| has_word(line, word)),
        "is unfinished: do it, or open an issue",
    ),
    (
        |_, line| line.contains(['\u{2122}', '\u{ae}']),
        "holds a mark of trade: everything in here is made up",
    ),
    (
        |path, line| is_shown(path) && has_style(line),
        "styles an element in place, which the content policy blocks: use a class",
    ),
];

// Written in halves, so that this file passes its own rules.
const MACHINE_PATHS: [&str; 6] = [
    concat!("/ro", "ot/"),
    concat!("/ho", "me/"),
    concat!("/wo", "rk/"),
    concat!("/Use", "rs/"),
    concat!(":\\Use", "rs\\"),
    concat!("/t", "mp/"),
];
const REGISTRIES: [&str; 5] = [
    concat!("registry.np", "mjs"),
    concat!("index.cra", "tes.io"),
    concat!("static.cra", "tes.io"),
    concat!("deb.deb", "ian.org"),
    concat!("archive.ubu", "ntu.com"),
];
const UNFINISHED: [&str; 3] = [concat!("TO", "DO"), concat!("FIX", "ME"), concat!("X", "XX")];

/// Cargo writes this one source for every crate of the public registry.
fn is_foreign_source(line: &str) -> bool {
    line.strip_prefix("source = ").is_some_and(|source| {
        source.trim() != concat!("\"registry+https://github.com/rust-lang/cra", "tes.io-index\"")
    })
}

/// Whether a path of a machine stands there, and not the end of one of the project's own.
fn has_path(line: &str, path: &str) -> bool {
    line.match_indices(path).any(|(at, _)| {
        let before = line.get(..at).and_then(|start| start.chars().next_back());
        path.starts_with(':')
            || !before.is_some_and(|letter| letter.is_alphanumeric() || "._-".contains(letter))
    })
}

fn has_word(line: &str, word: &str) -> bool {
    line.split(|letter: char| !letter.is_alphanumeric() && letter != '_').any(|part| part == word)
}

/// `style` as an attribute: in a template, in a picture, or set by a script.
fn has_style(line: &str) -> bool {
    let attribute = line.match_indices("style=").any(|(at, found)| {
        let before = line.get(..at).and_then(|start| start.chars().next_back());
        let after = line.get(at + found.len()..).and_then(|end| end.chars().next());
        before.is_none_or(|letter| letter.is_whitespace() || letter == '"' || letter == '\'')
            && after.is_some_and(|letter| matches!(letter, '"' | '\'' | '{' | '\\'))
    });
    attribute || line.contains("<style") || line.contains("\"style\"") || line.contains("cssText")
}

fn is_picture(path: &str) -> bool {
    path.ends_with(".png") || path.ends_with(".ico")
}

fn is_manifest(path: &str) -> bool {
    path.ends_with("/Cargo.toml")
}

/// What ends on a page.
/// What the page shows. A drawing that is saved is a file of its own, under no policy of
/// the page's, and brings its style along.
fn is_shown(path: &str) -> bool {
    let saved = ["crates/drawing/src/scene/file.rs", "crates/drawing/src/wired/snapshots/"];
    if saved.iter().any(|saved| path.starts_with(saved)) {
        return false;
    }
    path.starts_with("web/") || path.starts_with("crates/drawing/") || path == "index.html"
}

fn must_forbid_unsafe(path: &str) -> bool {
    ["solver", "words", "drawing"].iter().any(|room| path == format!("crates/{room}/src/lib.rs"))
}

fn inherits_lints(manifest: &str) -> bool {
    let mut lines = manifest.lines().map(str::trim);
    lines.any(|line| line == "[lints]") && lines.next() == Some("workspace = true")
}

/// Dependencies between our packages that do not point the one way.
pub(crate) fn dependencies_that_point_back(files: &[File]) -> Vec<String> {
    let mut wrong = Vec::new();
    for manifest in files {
        // That of the workspace is in no folder.
        let Some(folder) = manifest.path.strip_suffix("/Cargo.toml") else {
            continue;
        };
        let Some((_, allowed)) = MAY_USE.iter().find(|(name, _)| *name == folder) else {
            wrong.push(format!("{folder}: is a package that MAY_USE does not know"));
            continue;
        };
        let text = String::from_utf8_lossy(&manifest.content);
        for line in text.lines() {
            // Both `coilwright-x.workspace = true` and `[dependencies.coilwright-x]`.
            let Some((before, after)) = line.split_once("coilwright-") else {
                continue;
            };
            let name: String = after.chars().take_while(char::is_ascii_lowercase).collect();
            let is_dependency = before.is_empty() || before.ends_with("dependencies.");
            if is_dependency && !allowed.contains(&name.as_str()) {
                wrong.push(format!("{folder}: must not depend on {name}"));
            }
        }
    }
    wrong
}

#[cfg(test)]
mod tests;
