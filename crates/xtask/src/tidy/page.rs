//! The rules of the page's own sources: rooms know no other room, and what is around the
//! page is known to its host alone.

use super::File;

/// Where rooms are: each a file of this folder, and a folder of the same name.
const ROOMS: &str = "web/src/rooms/";

/// What lies around the page, as browsers name it.
const AROUND: [&str; 8] = [
    "gloo_dialogs",
    "gloo_history",
    "gloo_net",
    "gloo_storage",
    "gloo_utils",
    "js_sys::global",
    "localStorage",
    "sessionStorage",
];

/// All that is wrong between the files of the page.
pub(crate) fn broken(files: &[File]) -> Vec<String> {
    let rooms: Vec<&str> = rooms(files);
    let mut wrong = Vec::new();
    for file in files.iter().filter(|file| is_of_the_page(&file.path)) {
        let text = String::from_utf8_lossy(&file.content);
        let code = code(&text);
        for other in others_named(&file.path, &code, &rooms) {
            wrong.push(format!(
                "{}: names the room {other}: a room is given what it needs (web/src/rooms.rs)",
                file.path
            ));
        }
        for (line, name) in around_named(&file.path, &code) {
            wrong.push(format!(
                "{}:{line}: names {name}: what is around the page is its host's (web/src/host.rs)",
                file.path
            ));
        }
    }
    wrong
}

fn is_of_the_page(path: &str) -> bool {
    path.starts_with("web/src/") && path.ends_with(".rs")
}

fn rooms(files: &[File]) -> Vec<&str> {
    let mut rooms: Vec<&str> = files
        .iter()
        .filter_map(|file| file.path.strip_prefix(ROOMS)?.split(['/', '.']).next())
        .collect();
    rooms.dedup();
    rooms
}

/// What a compiler reads: lines without what follows `//`.
fn code(text: &str) -> String {
    let before = |line: &str| line.split("//").next().unwrap_or_default().to_owned() + "\n";
    text.lines().map(before).collect()
}

/// Other rooms that a file of a room names. What its tests do beside the room is theirs.
fn others_named<'a>(path: &str, code: &str, rooms: &[&'a str]) -> Vec<&'a str> {
    let Some(own) = path.strip_prefix(ROOMS).and_then(|rest| rest.split(['/', '.']).next()) else {
        return Vec::new();
    };
    if path.ends_with("/tests.rs") {
        return Vec::new();
    }
    let mut named = Vec::new();
    for start in ["rooms::", "super::"] {
        for (at, _) in code.match_indices(start) {
            let after = code.get(at + start.len()..).unwrap_or_default();
            named.extend(firsts(after).into_iter().filter(|name| *name != own));
        }
    }
    rooms.iter().copied().filter(|room| named.contains(room)).collect()
}

/// The first names of a path, of which braces hold several.
fn firsts(path: &str) -> Vec<&str> {
    let Some(group) = path.strip_prefix('{') else {
        return word(path).into_iter().collect();
    };
    let (mut depth, mut start, mut parts) = (0_usize, 0, Vec::new());
    for (at, letter) in group.char_indices() {
        match letter {
            '{' => depth += 1,
            '}' if depth > 0 => depth -= 1,
            '}' | ',' if depth == 0 => {
                parts.extend(group.get(start..at).and_then(|part| word(part.trim_start())));
                start = at + 1;
                if letter == '}' {
                    break;
                }
            }
            _ => {}
        }
    }
    parts
}

/// The name that a text begins with.
fn word(text: &str) -> Option<&str> {
    let end = text.find(|letter| !is_of_a_name(letter)).unwrap_or(text.len());
    text.get(..end).filter(|word| !word.is_empty())
}

fn is_of_a_name(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '_'
}

/// What of the browser's own a file names, each with its line. The host may, and what
/// starts the page: `main.rs`, `lib.rs`, and `start` of `shell.rs`.
fn around_named(path: &str, code: &str) -> Vec<(usize, String)> {
    let host = path == "web/src/host.rs" || path.starts_with("web/src/host/");
    if host || matches!(path, "web/src/main.rs" | "web/src/lib.rs") {
        return Vec::new();
    }
    let (mut named, mut starting) = (Vec::new(), false);
    for (number, line) in code.lines().enumerate() {
        starting |= path == "web/src/shell.rs" && line == "pub fn start() {";
        if starting {
            starting = line != "}";
            continue;
        }
        let around = AROUND.iter().find(|name| holds(line, name)).map(|name| (*name).to_owned());
        let global = ["window", "document"].into_iter().find(|name| {
            holds(line, &format!("{name}()")) || line.contains("web_sys::") && holds(line, name)
        });
        let global = global.map(|name| format!("{name}()"));
        named.extend(around.or(global).map(|name| (number + 1, name)));
    }
    named
}

/// Whether a line holds a name, and not as the end of a longer one.
fn holds(line: &str, name: &str) -> bool {
    line.match_indices(name).any(|(at, _)| {
        let before = line.get(..at).and_then(|start| start.chars().next_back());
        let after = line.get(at + name.len()..).and_then(|end| end.chars().next());
        let ends = name.ends_with(')') || !after.is_some_and(is_of_a_name);
        !before.is_some_and(is_of_a_name) && ends
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(path: &str, text: &str) -> File {
        File { path: path.to_owned(), content: text.as_bytes().to_vec() }
    }

    /// What is wrong with a file beside the files of two rooms.
    fn wrong(path: &str, text: &str) -> Vec<String> {
        let rooms =
            ["web/src/rooms/list.rs", "web/src/rooms/list/view.rs", "web/src/rooms/help.rs"];
        let mut files: Vec<File> = rooms.iter().map(|room| file(room, "")).collect();
        files.push(file(path, text));
        broken(&files)
    }

    #[test]
    fn a_room_that_names_another_is_found() {
        for text in [
            "use crate::rooms::list::state::PAGE;\n",
            "use crate::rooms::{Given, list};\n",
            "use crate::{pen, rooms::{Given, help::{view, state}, list::state}};\n",
            "use crate::rooms::{\n    Given,\n    list::view,\n};\n",
            "use super::super::list;\n",
            "fn f() { super::super::super::list::view() }\n",
        ] {
            let wrong = wrong("web/src/rooms/help/view.rs", text);
            assert_eq!(wrong.len(), 1, "{text}: {wrong:?}");
            assert!(wrong[0].contains("help/view.rs: names the room list"), "{wrong:?}");
        }
        assert_eq!(wrong("web/src/rooms/help.rs", "use super::list;\n").len(), 1);
    }

    #[test]
    fn what_a_room_may_name() {
        for (path, text) in [
            ("web/src/rooms/help/view.rs", "use crate::rooms::{Given, Wish};\nuse super::state;\n"),
            ("web/src/rooms/help/view.rs", "use crate::rooms::help::state::{list, Told};\n"),
            ("web/src/rooms/help/view.rs", "use crate::rooms::{Given, help::{list}};\n"),
            ("web/src/rooms/help/view.rs", "// as crate::rooms::list does\nuse crate::listing;\n"),
            ("web/src/rooms/help/tests.rs", "use crate::rooms::list::state::PAGE;\n"),
            ("web/src/shell/page.rs", "use crate::rooms::{help, list};\n"),
        ] {
            assert_eq!(wrong(path, text), Vec::<String>::new(), "{path}: {text}");
        }
    }

    #[test]
    fn what_reaches_around_the_page_is_found() {
        for text in [
            "let w = web_sys::window();\n",
            "use web_sys::{Element, window};\n",
            "let w = window()?;\n",
            "let d = gloo::utils::document();\n",
            "use gloo_storage::LocalStorage;\n",
            "gloo_utils::document_element()\n",
            "js_sys::Reflect::get(&js_sys::global(), &name)\n",
        ] {
            let found = wrong("web/src/parts/a.rs", &format!("//! One.\n{text}"));
            assert_eq!(found.len(), 1, "{text}: {found:?}");
            assert!(found[0].starts_with("web/src/parts/a.rs:2: names "), "{found:?}");
        }
        let other = "pub fn start() {\n    window();\n}\n\nfn other() {\n    window();\n}\n";
        let found = wrong("web/src/shell.rs", other);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].starts_with("web/src/shell.rs:6: "), "{found:?}");
    }

    #[test]
    fn what_may_reach_around_the_page_does() {
        for (path, text) in [
            ("web/src/host/browser.rs", "web_sys::window()\n"),
            ("web/src/host.rs", "web_sys::window()\n"),
            ("web/src/main.rs", "web_sys::window()\n"),
            ("web/src/shell.rs", "pub fn start() {\n    web_sys::window();\n}\n"),
            ("web/src/parts/a.rs", "// web_sys::window()\nlet a = owner_document();\n"),
            ("web/src/parts/a.rs", "use gloo_timers::callback::Timeout;\nlet window = 3;\n"),
            ("web/tests/a.rs", "web_sys::window()\n"),
        ] {
            assert_eq!(wrong(path, text), Vec::<String>::new(), "{path}: {text}");
        }
    }
}
