//! No two modules of a crate come to need each other, but for a parent and its children.

use proof::circles::{Circle, Crate};
use std::path::Path;

/// Crates whose circles are not yet undone. One that has none any more is taken off the list.
const NOT_YET: [&str; 1] = ["crates/xtask"];

/// Where a folder holds all of one thing: a room of the page, what it remembers and what it
/// shows. There files are held to one direction, and not folders.
const BY_FILE: [&str; 1] = ["web"];

fn folder(of: &str) -> Crate {
    Crate::of(&Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(of).join("src"))
}

#[test]
fn files_know_each_other_in_one_direction() {
    let crates =
        ["crates/solver", "crates/words", "crates/drawing", "crates/module", "crates/xtask", "web"];
    let mut modules = 0;
    let mut found = String::new();
    for name in crates {
        let of = folder(name);
        modules += of.len();
        let by_file = BY_FILE.contains(&name);
        let circles = if by_file { of.file_circles() } else { of.circles() };
        if NOT_YET.contains(&name) {
            assert!(!circles.is_empty(), "{name} has no circle: it is no longer for the list");
            continue;
        }
        for Circle { within, members, knows } in circles {
            found +=
                &format!("{name}, {within}: {}\n  {}\n", members.join(", "), knows.join("\n  "));
        }
    }
    assert!(modules > 250, "{modules} modules read");
    assert!(found.is_empty(), "circles:\n{found}");
}

fn circles(files: &[(&str, &str)]) -> Vec<Vec<String>> {
    let mut of = Crate::default();
    for (name, text) in files {
        let module = name.split("::").filter(|name| !name.is_empty()).map(str::to_owned);
        of.add(module.collect(), text);
    }
    of.circles().into_iter().map(|circle| circle.members).collect()
}

/// Every way in which one file can need another, there and back.
#[test]
fn circles_are_found_however_a_path_is_written() {
    let there = "use crate::b::B; pub struct A;";
    for back in [
        "use crate::a::A;",
        "use super::a::A;",
        "use super::{a, c::C};",
        "use super::a as other;",
        "pub(crate) use crate::{a::A};",
        "fn f() { let _ = crate::a::A; }",
        "fn f() -> Vec<super::a::A> { vec![super::a::A] }",
        "fn f() { println!(\"{}\", super::a::A); }",
        "use super::c; fn f() { c::handed(); }",
        "use crate::c::A;",
    ] {
        let handing = "pub use super::a::{A, handed};";
        let files = [("", ""), ("a", there), ("b", back), ("c", handing)];
        let found = circles(&files);
        assert_eq!(found.len(), 1, "{back}: {found:?}");
        assert!(found[0].starts_with(&["a".to_owned(), "b".to_owned()]), "{back}: {found:?}");
    }
    // By what is below them too.
    let found = circles(&[
        ("a", ""),
        ("a::x", "use crate::b;"),
        ("b::y", "use crate::a::z;"),
        ("b", ""),
        ("a::z", ""),
    ]);
    assert_eq!(found, [["a", "b"]]);
}

#[test]
fn parents_children_and_tests_make_no_circle() {
    let a = "mod x; use x::X; pub struct A;";
    let inside = "use super::A; use crate::a::A as B;";
    assert!(circles(&[("", "mod a; use a::A;"), ("a", a), ("a::x", inside)]).is_empty());
    // One direction, however often.
    let b = "use crate::a::A; use super::a; // crate::b\nconst TEXT: &str = \"crate::c::C\";";
    assert!(circles(&[("a", a), ("b", b), ("c", "use crate::b;")]).is_empty());
    let tested =
        "use crate::b; #[cfg(test)] mod tests { use crate::c; } #[cfg(test)] use crate::c;";
    let files = [("a", tested), ("b", ""), ("c", "use crate::a;"), ("b::tests", "use crate::a;")];
    assert!(circles(&files).is_empty());
}

/// Files of a folder may be above and below another's; no file comes back to itself.
#[test]
fn a_folder_may_be_known_both_ways_where_its_files_are_not() {
    let files = |back: &str| {
        let mut of = Crate::default();
        for (name, text) in [
            ("room", ""),
            ("room::view", "use crate::pen::Pen;"),
            ("room::state", back),
            ("pen", "use crate::room::state::State; pub struct Pen;"),
        ] {
            of.add(name.split("::").map(str::to_owned).collect(), text);
        }
        (of.circles().len(), of.file_circles().len())
    };
    assert_eq!(files("pub struct State;"), (1, 0));
    assert_eq!(files("use crate::pen::Pen; pub struct State;"), (1, 1));
}
