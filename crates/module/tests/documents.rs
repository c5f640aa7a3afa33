//! The documents of the repository: tables that are written from the contract are as it is
//! now, and every way from one document to another leads there.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may stop at the first surprise")]

use coilwright_module::contract::filled;
use std::collections::BTreeSet;
use std::path::{Component, Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn read(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// The documents by their paths from the root.
fn documents() -> Vec<String> {
    let mut found: Vec<String> = ["README.md", "DEVELOPERS.md"].map(str::to_owned).into();
    for entry in std::fs::read_dir(root().join("docs")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        if Path::new(&name).extension().is_some_and(|end| end == "md") {
            found.push(format!("docs/{name}"));
        }
    }
    found
}

#[test]
fn the_tables_of_the_contract_are_as_it_is_now() {
    let text = read("docs/contract.md");
    let now = filled(&text).unwrap();
    let lines = text.lines().zip(now.lines());
    let other = lines.enumerate().find(|(_, (there, now))| there != now);
    assert!(
        text == now,
        "docs/contract.md is not as the contract is now, first in {other:?}: type \
         `cargo run -p coilwright-module --features json --bin contract -- --tables docs/contract.md`"
    );
}

/// What a heading is found by, as pages of repositories make it: small letters, no marks,
/// dashes for blanks (common practice, no source).
fn anchor(heading: &str) -> String {
    let kept = heading.chars().filter(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_'));
    kept.map(|c| if c == ' ' { '-' } else { c }).collect::<String>().to_lowercase()
}

/// Lines that are no part of a block of code.
fn prose(text: &str) -> impl Iterator<Item = &str> {
    let mut code = false;
    text.lines().filter(move |line| {
        let fence = line.trim_start().starts_with("```");
        code ^= fence;
        !code && !fence
    })
}

fn anchors(text: &str) -> BTreeSet<String> {
    let headings = prose(text).filter(|line| line.starts_with('#'));
    headings.map(|line| anchor(line.trim_start_matches('#').trim())).collect()
}

/// Where the links of a document go.
fn links(text: &str) -> Vec<&str> {
    let ends = prose(text).flat_map(|line| line.split("](").skip(1));
    ends.filter_map(|rest| rest.split(')').next()).collect()
}

/// A path without `..`.
fn plain(path: &Path) -> String {
    let mut parts: Vec<String> = Vec::new();
    for part in path.components() {
        match part {
            Component::ParentDir => drop(parts.pop()),
            part => parts.push(part.as_os_str().to_str().unwrap().to_owned()),
        }
    }
    parts.join("/")
}

/// What is wrong with the links of a document.
fn astray(document: &str, text: &str) -> Vec<String> {
    let mut wrong = Vec::new();
    for link in links(text).into_iter().filter(|link| !link.starts_with("https://")) {
        let (file, part) = link.split_once('#').unwrap_or((link, ""));
        let beside = Path::new(document).parent().unwrap();
        let path = if file.is_empty() { document.to_owned() } else { plain(&beside.join(file)) };
        if !root().join(&path).is_file() {
            wrong.push(format!("{document}: {link}: there is no {path}"));
        } else if !part.is_empty() && !anchors(&read(&path)).contains(part) {
            wrong.push(format!("{document}: {link}: {path} has no such heading"));
        }
    }
    wrong
}

#[test]
fn every_link_leads_somewhere() {
    let wrong: Vec<String> =
        documents().iter().flat_map(|path| astray(path, &read(path))).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn a_link_that_leads_nowhere_is_told() {
    let text = "[a](../README.md) [b](none.md)\n[c](../README.md#none)\n```\n[d](none)\n```\n";
    let want = [
        "docs/a.md: none.md: there is no docs/none.md",
        "docs/a.md: ../README.md#none: README.md has no such heading",
    ];
    assert_eq!(astray("docs/a.md", text), want);
}

/// Whoever reads one document can reach every other.
#[test]
fn no_document_stands_alone() {
    let all = documents();
    let mut reached = vec!["README.md".to_owned()];
    let mut at = 0;
    while let Some(path) = reached.get(at).cloned() {
        at += 1;
        let text = read(&path);
        for link in links(&text) {
            let file = link.split('#').next().unwrap_or_default();
            let to = plain(&Path::new(&path).parent().unwrap().join(file));
            if all.contains(&to) && !reached.contains(&to) {
                reached.push(to);
            }
        }
    }
    let lonely: Vec<_> = all.iter().filter(|path| !reached.contains(path)).collect();
    assert!(lonely.is_empty(), "{lonely:?}");
}
