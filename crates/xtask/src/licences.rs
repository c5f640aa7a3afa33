//! `licences.txt`: the texts under which other people's code is in our wasm.

use crate::run;
use crate::say::{Doing, Done, Failure};
use crate::tools;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

const HINT: &str = "`cargo tree` and `cargo metadata` must work in the workspace";

/// A crate that ends in the wasm.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Part {
    name: String,
    licence: String,
    authors: String,
    texts: Vec<String>,
}

/// The texts for all that a package of ours brings along in the browser.
///
/// `arguments` are the package's name and what else tells cargo what is built.
///
/// # Errors
/// When a crate brings no licence text and is not offered under MIT.
pub(crate) fn text(arguments: &[&str]) -> Done<String> {
    // The tree knows what is compiled for the browser; where it lies, only the metadata.
    let tree = run::read(
        run::cargo()
            .args(["tree", "--target", tools::WASM, "--prefix", "none"])
            .args(["--edges", "normal,no-proc-macro", "--format", "{p}", "-p"])
            .args(arguments),
        HINT,
    )?;
    let metadata = run::read(
        run::cargo().args(["metadata", "--format-version", "1", "--filter-platform", tools::WASM]),
        HINT,
    )?;
    let metadata: serde_json::Value = serde_json::from_str(&metadata)
        .map_err(|error| Failure::new(format!("cargo metadata is no JSON: {error}"), HINT))?;
    let mut packages = BTreeMap::new();
    for package in metadata["packages"].as_array().into_iter().flatten() {
        // Ours have no source: they come from the workspace.
        if package["source"].is_string() {
            let key = format!("{} v{}", word(&package["name"]), word(&package["version"]));
            packages.insert(key, package);
        }
    }
    let mut parts: BTreeMap<String, Part> = BTreeMap::new();
    for line in tree.lines() {
        let key: Vec<&str> = line.split(' ').take(2).collect();
        let key = key.join(" ");
        let Some(package) = packages.get(&key) else {
            continue;
        };
        let manifest = PathBuf::from(word(&package["manifest_path"]));
        let licence = word(&package["license"]);
        let texts = match manifest.parent() {
            Some(folder) => licence_files(folder),
            None => Vec::new(),
        };
        if texts.is_empty() && !licence.contains("MIT") {
            return Err(Failure::new(
                format!("{key} brings no licence text (it says: `{licence}`)"),
                "find out under which terms it may be passed on before it goes into dist/",
            ));
        }
        let authors = package["authors"].as_array().into_iter().flatten();
        let part = Part {
            name: key.clone(),
            licence,
            authors: authors.map(word).collect::<Vec<_>>().join(", "),
            texts,
        };
        parts.insert(key, part);
    }
    let ours =
        std::fs::read_to_string(run::root().join("LICENSE-MIT")).doing("read LICENSE-MIT")?;
    let (_, permission) = ours
        .split_once("Permission is")
        .ok_or_else(|| Failure::new("LICENSE-MIT is not the MIT licence", "restore it"))?;
    Ok(written(&parts.into_values().collect::<Vec<_>>(), &format!("Permission is{permission}")))
}

fn word(value: &serde_json::Value) -> String {
    value.as_str().unwrap_or_default().to_owned()
}

/// The licence files of a crate. Where MIT is one of several to choose from,
/// it is our choice, and its text alone is enough.
fn licence_files(folder: &Path) -> Vec<String> {
    let mut names: Vec<PathBuf> = std::fs::read_dir(folder)
        .into_iter()
        .flatten()
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| path.is_file() && is_licence(path))
        .collect();
    names.sort();
    let is_mit = |path: &PathBuf| path.to_string_lossy().to_uppercase().ends_with("LICENSE-MIT");
    if let Some(mit) = names.iter().find(|path| is_mit(path)) {
        names = vec![mit.clone()];
    }
    names.iter().filter_map(|path| std::fs::read_to_string(path).ok()).collect()
}

fn is_licence(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default().to_string_lossy().to_uppercase();
    ["LICENSE", "LICENCE", "COPYING", "COPYRIGHT", "NOTICE", "UNLICENSE"]
        .iter()
        .any(|start| name.starts_with(start))
}

/// Each distinct text once, under the names of all the crates that it covers.
fn written(parts: &[Part], mit: &str) -> String {
    let mut by_text: BTreeMap<&str, Vec<&Part>> = BTreeMap::new();
    let mut without: Vec<&Part> = Vec::new();
    for part in parts {
        for text in &part.texts {
            by_text.entry(text.trim()).or_default().push(part);
        }
        if part.texts.is_empty() {
            without.push(part);
        }
    }
    let mut groups: Vec<(Vec<&Part>, &str)> =
        by_text.into_iter().map(|(text, parts)| (parts, text)).collect();
    groups.sort_by(|(one, _), (two, _)| name_of(one).cmp(name_of(two)));
    let mut all = String::from(
        "Coilwright is MIT OR Apache-2.0. Its wasm holds parts of these crates, and of Rust's\n\
         standard library (MIT OR Apache-2.0, The Rust Project Contributors).\n",
    );
    let rule = "-".repeat(80);
    for (parts, text) in &groups {
        all.push_str(&format!("\n{rule}\n{}\n{rule}\n\n{text}\n", named(parts)));
    }
    if !without.is_empty() {
        all.push_str(&format!("\n{rule}\n"));
        for part in without {
            let (name, licence, authors) = (&part.name, &part.licence, &part.authors);
            all.push_str(&format!("{name} ({licence}), copyright of {authors}\n"));
        }
        all.push_str(&format!(
            "These crates bring no text of their own; they are used under MIT:\n{rule}\n\n{mit}"
        ));
    }
    all
}

fn name_of<'a>(parts: &[&'a Part]) -> &'a str {
    parts.first().map_or("", |part| part.name.as_str())
}

fn named(parts: &[&Part]) -> String {
    let lines: Vec<String> =
        parts.iter().map(|part| format!("{} ({})", part.name, part.licence)).collect();
    lines.join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(name: &str, texts: &[&str]) -> Part {
        Part {
            name: format!("{name} v1.0.0"),
            licence: "MIT".to_owned(),
            authors: "A. Grower".to_owned(),
            texts: texts.iter().map(|text| (*text).to_owned()).collect(),
        }
    }

    #[test]
    fn a_text_that_two_crates_share_stands_once() {
        let parts = [
            part("ash", &["do as you like\n"]),
            part("birch", &["ask first"]),
            part("cedar", &["do as you like"]),
            part("dogwood", &[]),
        ];
        let all = written(&parts, "go ahead\n");
        assert_eq!(all.matches("do as you like").count(), 1);
        assert!(all.contains("ash v1.0.0 (MIT)\ncedar v1.0.0 (MIT)\n---"), "{all}");
        assert!(all.contains("ask first"));
        assert!(all.contains("dogwood v1.0.0 (MIT), copyright of A. Grower\n"), "{all}");
        assert!(all.ends_with("go ahead\n"), "{all}");
    }

    #[test]
    fn what_is_a_licence_file() {
        for (name, expected) in
            [("LICENSE-MIT", true), ("license.md", true), ("COPYING", true), ("README.md", false)]
        {
            assert_eq!(is_licence(Path::new(name)), expected, "{name}");
        }
    }

    #[test]
    fn the_page_has_parts_and_tools_are_not_among_them() {
        let all = text(&["coilwright-web"]).unwrap();
        assert!(all.contains("\nyew v0."), "{all}");
        assert!(!all.contains("\nsyn v"), "a macro's crate is not in the wasm");
        assert!(!all.contains("\nwasm-bindgen-cli-support v"));
        assert!(!all.contains("\ncoilwright-"));
    }
}
