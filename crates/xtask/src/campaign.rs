//! `cargo xtask campaign`: the module as it ships, called with what nobody would give it.
//!
//! What is drawn and what is asked of the answers lies with the tests under Node, which run
//! a few thousand calls of it each time: `tests/node/hostile.mjs`.

use crate::say::{self, Done};
use crate::{build, module, run, tools};

/// Builds the module and calls it so often, with numbers drawn from a seed.
pub(crate) fn run(seed: Option<u32>, calls: Option<u32>) -> Done {
    tools::wasm_target()?;
    tools::node()?;
    tools::npm_packages()?;
    module::build(&build::dist_module())?;
    let mut node = run::program("node");
    node.arg("tests/node/campaign.mjs").env("COILWRIGHT_MODULE", build::dist_module());
    for (name, number) in [("--seed", seed), ("--calls", calls)] {
        node.args(number.map(|number| format!("{name}={number}")));
    }
    say::step("calling the module", || {
        run::show(&mut node, "the same seed makes the same calls: `cargo xtask campaign --seed N`")
    })
}
