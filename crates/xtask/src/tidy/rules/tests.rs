//! Each rule on a bad sample, which it must refuse, and on a good one beside it.

use super::*;

fn file(path: &str, content: &str) -> File {
    File { path: path.to_owned(), content: content.as_bytes().to_vec() }
}

/// `bad` breaks exactly one rule, the one whose message holds `reason`; `good` none.
#[track_caller]
fn case(path: &str, bad: &str, reason: &str, good: &str) {
    let wrong = broken(&file(path, bad));
    assert_eq!(wrong.len(), 1, "{wrong:?}");
    assert!(wrong[0].contains(reason), "{wrong:?}");
    assert!(wrong[0].starts_with(path), "{wrong:?}");
    assert_eq!(broken(&file(path, good)), Vec::<String>::new());
}

#[test]
fn line_ends() {
    case("a.md", "one", "one line end", "one\n");
    case("a.md", "one\n\n", "one line end", "");
    case("a.md", "one\r\ntwo\n", "only LF", "one\ntwo\n");
}

#[test]
fn long_files() {
    for (path, line, longest) in [("web/src/a.rs", "//\n", 400), ("web/src/a.css", "a {}\n", 300)] {
        let long = line.repeat(longest + 1);
        case(path, &long, &format!("has {} lines", longest + 1), &line.repeat(longest));
        assert_eq!(broken(&file("a.md", &long)), Vec::<String>::new());
    }
}

#[test]
fn machine_paths() {
    for path in MACHINE_PATHS {
        case("a.md", &format!("see {path}x\n"), "path of some machine", "see network/x\n");
    }
    // A folder of the project's own may be called as one of a machine is.
    let own = format!("see rooms{}x\n", MACHINE_PATHS[2]);
    assert_eq!(broken(&file("a.md", &own)), Vec::<String>::new());
}

#[test]
fn registry_hosts() {
    for host in REGISTRIES {
        case("a.toml", &format!("url = \"{host}\"\n"), "registry's host", "url = \"\"\n");
    }
}

#[test]
fn lock_files() {
    case(
        "package-lock.json",
        "\"resolved\": \"x\"\n",
        "where a package comes from",
        "\"integrity\": \"x\"\n",
    );
    case(
        "Cargo.lock",
        "source = \"git+https://example.org/a\"\n",
        "elsewhere than crates.io",
        "source = \"registry+https://github.com/rust-lang/crates.io-index\"\n",
    );
}

#[test]
fn unfinished_work() {
    for word in UNFINISHED {
        case("a.rs", &format!("// {word}: later\n"), "unfinished", "// MASTODON\n");
    }
}

#[test]
fn marks_of_trade() {
    case("a.md", "Marigold\u{ae}\n", "mark of trade", "Marigold\n");
}

#[test]
fn style_attributes() {
    for bad in [
        "<p style=\"color: red\">\n",
        "<p style={css}>\n",
        "write(\"<g style=\\\"x\\\">\");\n",
        "e.setAttribute(\"style\", x)\n",
        "<style>\n",
    ] {
        case("web/src/a.rs", bad, "use a class", "<p class=\"styled\">\n");
    }
    assert_eq!(broken(&file("a.md", "<p style=\"\">\n")), Vec::<String>::new());
    let saved = file("crates/drawing/src/scene/file.rs", "to.push_str(\"<style>\");\n");
    assert_eq!(broken(&saved), Vec::<String>::new(), "a saved drawing brings its style along");
    let stylesheet = "<link rel=\"stylesheet\" href=\"a.css\">\n";
    assert_eq!(broken(&file("index.html", stylesheet)), Vec::<String>::new());
}

#[test]
fn lints_are_inherited() {
    case(
        "crates/x/Cargo.toml",
        "[lints.rust]\n",
        "inherit the workspace's lints",
        "[lints]\nworkspace = true\n",
    );
}

#[test]
fn unsafe_is_forbidden_where_nothing_needs_it() {
    case("crates/words/src/lib.rs", "//! Words.\n", "forbid unsafe", "#![forbid(unsafe_code)]\n");
}

#[test]
fn files_that_are_no_text() {
    let picture = |path: &str| File { path: path.to_owned(), content: vec![0xff, 0xd8] };
    assert_eq!(broken(&picture("a.png")), Vec::<String>::new());
    assert!(broken(&picture("a.dat"))[0].contains("neither UTF-8"));
}

#[test]
fn dependencies_point_one_way() {
    let wrong = |path: &str, text: &str| dependencies_that_point_back(&[file(path, text)]);
    let ours = "coilwright-solver.workspace = true\n";
    assert_eq!(wrong("crates/words/Cargo.toml", ours), Vec::<String>::new());
    let own_name = "name = \"coilwright-words\"\n";
    assert_eq!(wrong("crates/words/Cargo.toml", own_name), Vec::<String>::new());
    for (path, text, expected) in [
        ("crates/solver/Cargo.toml", "coilwright-words = {}\n", "must not depend on words"),
        ("crates/words/Cargo.toml", "[dependencies.coilwright-drawing]\n", "on drawing"),
        ("crates/module/Cargo.toml", "coilwright-web.workspace = true\n", "on web"),
        ("crates/new/Cargo.toml", "", "MAY_USE does not know"),
    ] {
        let wrong = wrong(path, text);
        assert_eq!(wrong.len(), 1, "{wrong:?}");
        assert!(wrong[0].contains(expected), "{wrong:?}");
    }
}
