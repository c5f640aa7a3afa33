//! `cargo xtask bench`: the benches live beside the tests that cross crates.

use crate::say::{self, Done};
use crate::{build, module, run, tools};

/// Builds the module, then runs the benches of the package `proof`, with `rest` as
/// their arguments.
pub(crate) fn run(rest: &[String]) -> Done {
    tools::wasm_target()?;
    tools::node()?;
    // Times differ from run to run; the instructions that it counts do not.
    tools::packages(&[tools::VALGRIND])?;
    // What is measured in wasm is what ships, and of these very sources.
    module::build(&build::dist_module())?;
    say::step("benches", || {
        run::show(
            run::cargo()
                .args(["run", "--release", "-p", "proof", "--bin", "bench", "--"])
                .args(rest)
                .env("COILWRIGHT_MODULE", build::dist_module()),
            "read what the benches printed above",
        )
    })
}
