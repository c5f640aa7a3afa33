//! Nothing in the solver that is looked up, counted or divided goes on with a number of its own
//! when that fails: a wrong number is worse than a stop.

use std::path::Path;

/// Lines that may say a number, each with what it means.
const MEANT: [(&str, &str, &str); 3] = [
    ("rig/draft.rs", "draft.unused.unwrap_or(0)", "no coil is left out where none is said to be"),
    ("rig/draft.rs", "draft.count.unwrap_or(1)", "an amplifier is one where no count is said"),
    ("rig/draft.rs", "channel.terminal_pairs.unwrap_or(1)", "a channel has a pair of terminals"),
];

/// What a line goes on with where something fails, if that is a value of its own.
fn silent(line: &str) -> Option<&str> {
    let code = line.split("//").next().unwrap();
    if code.contains("unwrap_or_default") {
        return Some("unwrap_or_default");
    }
    let (_, after) = code.split_once("unwrap_or(")?;
    let mut depth = 1;
    let end = after.find(|c| {
        depth += i32::from(c == '(') - i32::from(c == ')');
        depth == 0
    });
    let value = after[..end.unwrap_or(after.len())].trim();
    let number = value.trim_start_matches('-').starts_with(|c: char| c.is_ascii_digit());
    let named = ["MAX", "MIN", "ONE", "INFINITY", "NONE", "ZERO", "EPSILON"];
    let named = named.iter().any(|name| value.split("::").last() == Some(name));
    let empty = ["&[]", "&mut []", "\"\"", "true", "false", "()"].contains(&value);
    (number || named || empty).then_some(value)
}

fn look(folder: &Path, root: &Path, lines: &mut usize, found: &mut Vec<(String, String)>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.strip_prefix(root).unwrap().to_str().unwrap().to_owned();
        if path.is_dir() {
            look(&path, root, lines, found);
        } else if !name.ends_with("tests.rs") && name.ends_with(".rs") {
            let text = std::fs::read_to_string(&path).unwrap();
            let code = text.split("#[cfg(test)]\nmod tests {").next().unwrap();
            for line in code.lines() {
                *lines += 1;
                if silent(line).is_some() {
                    found.push((name.clone(), line.trim().to_owned()));
                }
            }
        }
    }
}

#[test]
fn the_solver_makes_up_no_number() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../crates/solver/src");
    let (mut lines, mut found) = (0, Vec::new());
    look(&root, &root, &mut lines, &mut found);
    assert!(lines > 10_000, "{lines} lines read");
    for (file, meant, why) in MEANT {
        let before = found.len();
        found.retain(|(name, line)| name != file || !line.contains(meant));
        assert!(found.len() < before, "{file}: `{meant}` is no more, so it need not mean {why}");
    }
    assert!(found.is_empty(), "{} lines make up a value: {found:#?}", found.len());
}

#[test]
fn what_is_made_up_is_seen() {
    for line in [
        "let end = self.ends.get(at).copied().unwrap_or(0);",
        "u64::try_from(n).unwrap_or(u64::MAX)",
        "a.checked_div(b).unwrap_or(0.0) * 2",
        "list.get(..i).unwrap_or(&[])",
        "list.get_mut(..i).unwrap_or(&mut [])",
        "found.unwrap_or_default()",
        "Ratio::of_words(row).unwrap_or(Ratio::ONE)",
        "placed.get(run).copied().unwrap_or(false)",
    ] {
        assert!(silent(line).is_some(), "{line}");
    }
    for line in ["known.unwrap_or(nominal * LIKELY)", "// unwrap_or(0)", "x.unwrap_or_else(|| 0)"] {
        assert_eq!(silent(line), None, "{line}");
    }
}
