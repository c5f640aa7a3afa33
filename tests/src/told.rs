//! What a bench tells: printed as it comes, and kept in the document that it is figures of,
//! with the commit that it measured.

use std::fmt::Display;
use std::path::Path;
use std::process::Command;

/// The documents that benches keep their figures in: in which, and between which marks.
pub const SOLVER: (&str, &str) = ("figures.md", "solver");
/// Of plans.
pub const PLANS: (&str, &str) = ("figures.md", "plans");
/// Of finding faults.
pub const FINDING: (&str, &str) = ("finding.md", "finding");
/// Of the order of readings.
pub const POLICY: (&str, &str) = ("finding.md", "policy");
/// Of a visit to the page.
pub const PAGE: (&str, &str) = ("figures.md", "page");
/// Of faults on a bench that is not the model's own.
pub const SIM: (&str, &str) = ("finding.md", "sim");

/// The file that holds what was counted, for whoever compares it with the last landing.
const COUNTED: &str = "COILWRIGHT_COUNTED";

/// Leaves what was counted, `name = figure unit` a line, where the environment asks for it.
///
/// # Panics
/// Where that file cannot be written.
pub fn counted(lines: &str) {
    if let Some(file) = std::env::var_os(COUNTED) {
        std::fs::write(file, lines).unwrap();
    }
}

/// What a bench told so far.
#[derive(Debug, Default)]
pub struct Told(String);

impl Told {
    /// Tells a line.
    pub fn line(&mut self, line: impl Display) {
        println!("{line}");
        self.0.push_str(&format!("{line}\n"));
    }

    /// Keeps all of it in a document, between the marks of a bench.
    ///
    /// # Panics
    /// Where the document cannot be written, or has no such marks.
    pub fn keep(self, (document, bench): (&str, &str)) {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs").join(document);
        let text = std::fs::read_to_string(&path).unwrap();
        let told = format!("Measured at {}.\n\n{}", commit(), self.0.trim());
        std::fs::write(&path, replaced(&text, bench, &told).unwrap()).unwrap();
        println!("\nKept in docs/{document}.");
    }
}

/// What is measured: the commit, its day, and whether something was changed since.
fn commit() -> String {
    let git = |arguments: &[&str]| {
        let output = Command::new("git").args(arguments).output().unwrap();
        assert!(output.status.success(), "git {arguments:?}");
        String::from_utf8(output.stdout).unwrap().trim().to_owned()
    };
    let mut commit = git(&["log", "-1", "--format=%h of %cs"]);
    // What benches write themselves changes nothing that they measure.
    if !git(&["status", "--porcelain", "--untracked-files=no", "--", ":/", ":!/docs"]).is_empty() {
        commit.push_str(", with changes");
    }
    commit
}

/// A document with what stands between the marks of a bench replaced.
fn replaced(document: &str, bench: &str, told: &str) -> Result<String, String> {
    let mark = format!("<!-- bench: {bench} -->\n");
    let missing = || format!("there is no {}", mark.trim());
    let (before, rest) = document.split_once(&mark).ok_or_else(missing)?;
    let end = "<!-- end of bench -->\n";
    let (_, after) = rest.split_once(end).ok_or_else(|| format!("{bench} has no end"))?;
    Ok(format!("{before}{mark}\n{told}\n\n{end}{after}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_told_stands_between_its_marks_alone() {
        let page = "one\n<!-- bench: plans -->\nold\n<!-- end of bench -->\ntwo\n";
        let want = "one\n<!-- bench: plans -->\n\nnew\n\n<!-- end of bench -->\ntwo\n";
        assert_eq!(replaced(page, "plans", "new").unwrap(), want);
        assert_eq!(replaced(want, "plans", "new").unwrap(), want);
    }

    #[test]
    fn a_bench_without_marks_is_told() {
        assert!(replaced("", "plans", "new").is_err());
        assert!(replaced("<!-- bench: plans -->\n", "plans", "new").is_err());
    }

    /// Each bench finds its marks in the documents as they are.
    #[test]
    fn documents_have_the_marks() {
        for (document, bench) in [SOLVER, PLANS, FINDING, POLICY, PAGE, SIM] {
            let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs").join(document);
            let text = std::fs::read_to_string(path).unwrap();
            assert!(replaced(&text, bench, "").is_ok(), "{bench} in {document}");
        }
    }
}
