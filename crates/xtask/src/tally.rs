//! Reads along while tests run, and counts.

use crate::say::Done;
use crate::test::lanes::Paper;
use std::process::Command;

/// What the runners said at their ends.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Tally {
    /// Their own summary lines, as printed.
    pub(crate) lines: Vec<String>,
    pub(crate) passed: u64,
    pub(crate) failed: u64,
    pub(crate) ignored: u64,
}

impl Tally {
    /// Takes a line of output into account if it is a runner's summary.
    pub(crate) fn add(&mut self, line: &str) {
        let line = line.trim_end();
        // Rust's and wasm-bindgen's: `test result: ok. 3 passed; 0 failed; 1 ignored; …`.
        if let Some(rest) = line.trim_start().strip_prefix("test result: ") {
            let counted = rest.split_once(". ").map_or(rest, |(_, counts)| counts);
            for count in counted.split(';') {
                let mut words = count.split_whitespace();
                if let (Some(Ok(number)), Some(what)) =
                    (words.next().map(str::parse::<u64>), words.next())
                {
                    self.count(what, number);
                }
            }
            self.lines.push(line.trim_start().to_owned());
            return;
        }
        // Node's: `ℹ pass 3`, a line for each count.
        if let Some(rest) = line.strip_prefix("ℹ ")
            && let Some((what, number)) = rest.split_once(' ')
            && let Ok(number) = number.parse::<u64>()
        {
            self.count(what, number);
            let always = matches!(what, "pass" | "fail");
            if always || (number > 0 && matches!(what, "cancelled" | "skipped" | "todo")) {
                self.lines.push(line.to_owned());
            }
        }
    }

    fn count(&mut self, what: &str, number: u64) {
        match what {
            "passed" | "pass" => self.passed += number,
            "failed" | "fail" | "cancelled" => self.failed += number,
            "ignored" | "skipped" | "todo" => self.ignored += number,
            _ => {}
        }
    }
}

/// Runs tests with all that they print on a paper, and counts what they say.
///
/// # Errors
/// When they cannot start or do not end with success.
pub(crate) fn count(command: &mut Command, hint: &str, paper: &Paper, tally: &mut Tally) -> Done {
    paper.run(command, hint, |line| {
        tally.add(line);
        true
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tally(lines: &[&str]) -> (u64, u64, u64, usize) {
        let mut tally = Tally::default();
        lines.iter().for_each(|line| tally.add(line));
        (tally.passed, tally.failed, tally.ignored, tally.lines.len())
    }

    #[test]
    fn the_lines_of_each_runner() {
        let rust = "test result: FAILED. 12 passed; 2 failed; 1 ignored; 0 measured; 4 filtered out; finished in 0.10s\n";
        assert_eq!(tally(&[rust]), (12, 2, 1, 1));
        let node =
            ["ℹ tests 9", "ℹ pass 6", "ℹ fail 1", "ℹ skipped 2", "ℹ todo 0", "ℹ duration_ms 5.2"];
        assert_eq!(tally(&node), (6, 1, 2, 3));
        assert_eq!(tally(&["running 3 tests", "test a ... ok"]), (0, 0, 0, 0));
        assert_eq!(tally(&[rust, rust]), (24, 4, 2, 2));
    }
}
