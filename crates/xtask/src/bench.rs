//! `cargo xtask bench`: the benches live beside the tests that cross crates.

use crate::run;
use crate::say::{self, Done};

/// Runs the benches of the package `proof`, with `rest` as their arguments.
pub(crate) fn run(rest: &[String]) -> Done {
    say::step("benches", || {
        run::show(
            run::cargo()
                .args(["run", "--release", "-p", "proof", "--bin", "bench", "--"])
                .args(rest),
            "read what the benches printed above",
        )
    })
}
