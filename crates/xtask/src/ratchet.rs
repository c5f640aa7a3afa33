//! What the last landing came to, and whether it grew since: `docs/ratchet.txt`.
//!
//! A line is `group: name = figure unit`. What is counted may grow by half a percent, a
//! time over another of the same run by what such times differ by from run to run.

use crate::run;
use crate::say::{Doing, Done, Failure, note};
use std::path::PathBuf;

/// Where the figures stand, from the root.
const FILE: &str = "docs/ratchet.txt";

/// By how much a figure may grow: the unit that says so, and the share.
const TIMES: (&str, f64) = ("times", 0.15);
const COUNTED: f64 = 0.005;

/// A figure of the file, or one that was measured.
#[derive(Debug, Clone, PartialEq)]
struct Figure {
    /// `group: name`.
    name: String,
    value: f64,
    unit: String,
}

impl Figure {
    /// `None` where a line is none.
    fn read(line: &str) -> Option<Self> {
        let (name, rest) = line.split_once(" = ")?;
        let (value, unit) = rest.split_once(' ')?;
        let value = value.parse().ok().filter(|value: &f64| value.is_finite())?;
        let whole = name.contains(": ") && !unit.trim().is_empty();
        whole.then(|| Self { name: name.to_owned(), value, unit: unit.to_owned() })
    }

    fn written(&self) -> String {
        format!("{} = {} {}", self.name, self.value, self.unit)
    }

    fn may_grow(&self) -> f64 {
        if self.unit == TIMES.0 { TIMES.1 } else { COUNTED }
    }

    /// Whether it is larger than it may be, and not by what floats lose.
    fn grew_beside(&self, last: &Self) -> bool {
        self.value - last.value > last.value * last.may_grow() * (1.0 + 1e-9)
    }

    fn is_of(&self, group: &str) -> bool {
        self.name.split_once(": ").is_some_and(|(of, _)| of == group)
    }
}

/// Reads lines; empty ones and those that begin with `#` are no figures.
///
/// # Errors
/// A line that is none, or a name that stands twice.
fn figures(text: &str) -> Result<Vec<Figure>, String> {
    let mut all: Vec<Figure> = Vec::new();
    for line in text.lines().filter(|line| !line.is_empty() && !line.starts_with('#')) {
        let figure = Figure::read(line).ok_or_else(|| format!("`{line}` is no figure"))?;
        if all.iter().any(|other| other.name == figure.name) {
            return Err(format!("`{}` stands twice", figure.name));
        }
        all.push(figure);
    }
    Ok(all)
}

/// What is wrong with figures of a group beside those of the last landing: one that grew,
/// one of another unit, one that nobody noted, one that was noted and is not measured.
fn wrong(noted: &[Figure], measured: &[Figure], group: &str) -> Vec<String> {
    let mut wrong = Vec::new();
    for now in measured {
        let Some(last) = noted.iter().find(|last| last.name == now.name) else {
            wrong.push(format!("{}: {} {}, and never noted", now.name, now.value, now.unit));
            continue;
        };
        if last.unit != now.unit {
            wrong.push(format!("{}: in {}, noted in {}", now.name, now.unit, last.unit));
        } else if now.grew_beside(last) {
            let by = 100.0 * (now.value / last.value - 1.0);
            wrong.push(format!(
                "{}: grew from {} to {} {}, by {by:.1} % (at most {:.1} %)",
                now.name,
                last.value,
                now.value,
                now.unit,
                100.0 * last.may_grow(),
            ));
        }
    }
    let lost = noted.iter().filter(|last| last.is_of(group));
    let lost = lost.filter(|last| !measured.iter().any(|now| now.name == last.name));
    wrong.extend(lost.map(|last| format!("{}: noted, and not measured", last.name)));
    wrong
}

/// The file with the figures of a group in place of those that stood there.
fn rewritten(text: &str, noted: &[Figure], measured: &[Figure], group: &str) -> String {
    let said = text.lines().take_while(|line| line.is_empty() || line.starts_with('#'));
    let mut lines: Vec<String> = said.map(str::to_owned).collect();
    let mut all: Vec<&Figure> =
        noted.iter().filter(|last| !last.is_of(group)).chain(measured).collect();
    // Groups in order; within one as it is measured.
    all.sort_by_key(|figure| figure.name.split_once(": ").map(|(group, _)| group));
    lines.extend(all.into_iter().map(Figure::written));
    lines.join("\n") + "\n"
}

fn path() -> PathBuf {
    run::root().join(FILE)
}

/// Holds what was measured of a group, a figure a line, to the last landing; with `note`
/// writes it there instead. `command` is what notes it.
///
/// # Errors
/// When a figure grew, was never noted, or was noted and is not there.
pub(crate) fn hold(group: &str, measured: &str, note_it: bool, command: &str) -> Done {
    let hint = format!("make it smaller, or note on purpose what it is now: `{command}`");
    let file = std::fs::read_to_string(path()).doing(format!("read {FILE}"))?;
    let noted = figures(&file).map_err(|why| Failure::new(format!("{FILE}: {why}"), "mend it"))?;
    let measured = figures(measured).map_err(|why| {
        Failure::new(format!("what was measured makes no sense: {why}"), "look at the bench")
    })?;
    if note_it {
        let text = rewritten(&file, &noted, &measured, group);
        std::fs::write(path(), text).doing(format!("write {FILE}"))?;
        note(format_args!("{} figures of {group} noted in {FILE}", measured.len()));
        return Ok(());
    }
    let wrong = wrong(&noted, &measured, group);
    if wrong.is_empty() {
        for now in &measured {
            let last = noted.iter().find(|last| last.name == now.name);
            if let Some(last) = last.filter(|last| now.value < last.value * (1.0 - last.may_grow()))
            {
                note(format_args!(
                    "{}: from {} down to {} {}",
                    now.name, last.value, now.value, now.unit
                ));
            }
        }
        note(format_args!("{} figures of {group} have not grown", measured.len()));
        return Ok(());
    }
    Err(Failure::new(format!("beside {FILE}:\n  {}", wrong.join("\n  ")), hint))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Vec<Figure> {
        figures(text).unwrap()
    }

    fn wrongs(noted: &str, measured: &str) -> Vec<String> {
        wrong(&read(noted), &read(measured), "size")
    }

    #[test]
    fn what_is_counted_may_grow_by_half_a_percent() {
        let noted = "size: page = 1000 bytes";
        for fine in ["size: page = 1000 bytes", "size: page = 1005 bytes", "size: page = 1 bytes"] {
            assert_eq!(wrongs(noted, fine), [""; 0], "{fine}");
        }
        assert_eq!(
            wrongs(noted, "size: page = 1006 bytes"),
            ["size: page: grew from 1000 to 1006 bytes, by 0.6 % (at most 0.5 %)"]
        );
    }

    #[test]
    fn a_time_over_another_may_grow_by_more() {
        let noted = "size: key = 2 times";
        assert_eq!(wrongs(noted, "size: key = 2.29 times"), [""; 0]);
        assert_eq!(
            wrongs(noted, "size: key = 2.4 times"),
            ["size: key: grew from 2 to 2.4 times, by 20.0 % (at most 15.0 %)"]
        );
    }

    #[test]
    fn nothing_grows_out_of_nothing() {
        assert_eq!(wrongs("size: a = 0 nodes", "size: a = 0 nodes"), [""; 0]);
        assert_eq!(wrongs("size: a = 0 nodes", "size: a = 1 nodes").len(), 1);
    }

    #[test]
    fn a_name_that_is_missing_on_either_side_is_wrong() {
        assert_eq!(wrongs("size: a = 1 bytes", ""), ["size: a: noted, and not measured"]);
        assert_eq!(wrongs("", "size: a = 1 bytes"), ["size: a: 1 bytes, and never noted"]);
        // Of another group nothing was measured.
        assert_eq!(wrongs("page: a = 1 nodes", ""), [""; 0]);
    }

    #[test]
    fn another_unit_is_another_figure() {
        let wrong = wrongs("size: a = 1000 bytes", "size: a = 1 kilobytes");
        assert_eq!(wrong, ["size: a: in kilobytes, noted in bytes"]);
    }

    #[test]
    fn a_line_that_is_no_figure_is_refused() {
        for line in
            ["size: a", "size: a = many bytes", "size: a = 1", "a = 1 bytes", "size: a = NaN bytes"]
        {
            assert!(figures(line).unwrap_err().contains("is no figure"), "{line}");
        }
        let twice = "size: a = 1 bytes\nsize: a = 2 bytes";
        assert!(figures(twice).unwrap_err().contains("stands twice"));
        assert_eq!(read("# said\n\nsize: a = 1 bytes\n").len(), 1);
    }

    #[test]
    fn noting_writes_one_group_and_leaves_the_others() {
        let file = "# said\n\npage: k = 3 nodes\nsize: a = 1 bytes\nsize: gone = 1 bytes\n";
        let measured = "size: b = 7 bytes\nsize: a = 2 bytes";
        let text = rewritten(file, &read(file), &read(measured), "size");
        let want = "# said\n\npage: k = 3 nodes\nsize: b = 7 bytes\nsize: a = 2 bytes\n";
        assert_eq!(text, want);
        assert_eq!(wrong(&read(&text), &read(measured), "size"), [""; 0]);
    }

    /// The file as it is can be read, and knows every group.
    #[test]
    fn the_file_holds_every_group() {
        let noted = read(&std::fs::read_to_string(path()).unwrap());
        for group in ["page", "size", "solver"] {
            assert!(noted.iter().any(|figure| figure.is_of(group)), "{group}");
        }
    }
}
