//! What the tool says while it works, and how it fails.

use std::fmt;
use std::time::Instant;

/// A step that did not work: the reason, and what to try.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Failure {
    reason: String,
    hint: String,
}

impl Failure {
    pub(crate) fn new(reason: impl Into<String>, hint: impl Into<String>) -> Self {
        Self { reason: reason.into(), hint: hint.into() }
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "failed: {}\ntry: {}", self.reason, self.hint)
    }
}

/// What every step of the tool returns.
pub(crate) type Done<T = ()> = Result<T, Failure>;

/// Gives an input or output error the words that it lacks: what was being done.
pub(crate) trait Doing<T> {
    fn doing(self, what: impl fmt::Display) -> Done<T>;
}

impl<T> Doing<T> for std::io::Result<T> {
    fn doing(self, what: impl fmt::Display) -> Done<T> {
        self.map_err(|error| {
            Failure::new(
                format!("could not {what}: {error}"),
                "look at the permissions, the free space and the path above",
            )
        })
    }
}

/// Announces a step, runs it, and says how long it took.
pub(crate) fn step<T>(what: &str, work: impl FnOnce() -> Done<T>) -> Done<T> {
    println!("==> {what}");
    let start = Instant::now();
    let done = work()?;
    println!("    done in {:.1} s", start.elapsed().as_secs_f64());
    Ok(done)
}

/// A line under the current step.
pub(crate) fn note(text: impl fmt::Display) {
    println!("    {text}");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_failure_says_why_and_what_to_try() {
        let failure = Failure::new("no room left", "empty the attic");
        assert_eq!(failure.to_string(), "failed: no room left\ntry: empty the attic");
    }

    #[test]
    fn an_io_error_says_what_was_being_done() {
        let missing = std::fs::read("no/such/file").doing("read the attic");
        let failure = missing.unwrap_err().to_string();
        assert!(failure.starts_with("failed: could not read the attic: "), "{failure}");
    }
}
