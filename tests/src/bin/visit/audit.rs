//! What Lighthouse, a general auditor of web pages, says of a first visit with a phone.

use super::figures::Figure;
use super::host::Host;
use std::path::Path;
use std::process::{Command, Stdio};

/// How often it is asked.
const TIMES: usize = 5;

/// What it gives marks for, in the order in which `audit.mjs` tells them, and the fewest that
/// will do.
const MARKS: [(&str, f64); 4] =
    [("performance", 95.0), ("accessibility", 100.0), ("best practices", 100.0), ("SEO", 100.0)];

/// Lets it open each site, and keeps its marks.
///
/// # Panics
/// When it does not run, or tells anything but marks.
pub(crate) fn measure(sites: &[Host], figures: &mut Vec<Figure>) {
    // From hosts of its own: it asks for files that no visitor asks for.
    let own = sites.iter().map(|host| Host::start(host.folder.clone()));
    let runs: Vec<_> = own.map(|host| marks(&host.origin())).collect();
    for (at, (what, least)) in MARKS.into_iter().enumerate() {
        let samples = runs.iter().map(|of| of.iter().map(|marks| marks[at]).collect()).collect();
        let name = format!("Lighthouse on a phone, {what}");
        figures.push(Figure::of(name, "points", samples).at_least(least));
    }
}

/// Its marks for a page, each time.
fn marks(address: &str) -> Vec<[f64; MARKS.len()]> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("audit");
    let mut node = Command::new("node");
    node.current_dir(folder).args(["audit.mjs", address, &TIMES.to_string()]);
    let told = node.stderr(Stdio::inherit()).output().expect("node runs");
    assert!(told.status.success(), "the audit did not end well: see the lines above");
    let text = String::from_utf8_lossy(&told.stdout);
    let marks: Vec<_> = text.lines().filter_map(line).collect();
    assert_eq!(marks.len(), TIMES, "these are no marks: {text}");
    marks
}

/// A line of marks.
fn line(text: &str) -> Option<[f64; MARKS.len()]> {
    let marks: Result<Vec<f64>, _> = text.split_whitespace().map(str::parse).collect();
    marks.ok()?.try_into().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_holds_a_mark_for_each() {
        assert_eq!(line("99 100 100 96"), Some([99.0, 100.0, 100.0, 96.0]));
        assert_eq!(line("99 100 100"), None);
        assert_eq!(line("NaN of it 1 2"), None);
    }
}
