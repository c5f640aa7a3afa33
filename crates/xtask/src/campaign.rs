//! `cargo xtask campaign`: more than every run of the tests has time for.
//!
//! First the module as it ships is called with what nobody would give it. What is drawn and
//! what is asked of the answers lies with the tests under Node, which make a few thousand
//! such calls each time: `tests/node/hostile.mjs`. Then the proofs compare in full and draw
//! anew what they compare a fixed share of each time (`tests/src/campaign.rs`), round after
//! round. Whatever fails is kept beside its test, and every run of the tests tries it first.

use crate::say::{self, Done};
use crate::{build, module, run, test, tools};
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

/// How long the proofs compare where nobody says.
const MINUTES: u32 = 10;

/// Builds the module and calls it so often; then so many minutes of the proofs. Both draw
/// from a seed.
pub(crate) fn run(seed: Option<u32>, calls: Option<u32>, minutes: Option<u32>) -> Done {
    tools::wasm_target()?;
    tools::node()?;
    tools::npm_packages()?;
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    let of_now = since.map_or(1, |since| since.subsec_nanos());
    let seed = seed.unwrap_or(of_now);
    module::build(&build::dist_module())?;
    let mut node = run::program("node");
    node.arg("tests/node/campaign.mjs").env("COILWRIGHT_MODULE", build::dist_module());
    node.arg(format!("--seed={seed}"));
    node.args(calls.map(|number| format!("--calls={number}")));
    say::step("calling the module", || run::show(&mut node, &again(seed)))?;
    let minutes = minutes.unwrap_or(MINUTES);
    if minutes > 0 { compare(seed, minutes) } else { Ok(()) }
}

fn again(seed: u32) -> String {
    format!("the same seed draws the same: `cargo xtask campaign --seed {seed}`")
}

/// Rounds of the proofs, each with a seed of its own, until the time is over.
fn compare(first: u32, minutes: u32) -> Done {
    tools::packages(&[tools::NGSPICE])?;
    test::build_one(crate::args::Built::Compared)?;
    let start = Instant::now();
    let lasts = Duration::from_secs(60 * u64::from(minutes));
    let mut seed = first;
    let mut rounds = 0;
    while rounds == 0 || start.elapsed() < lasts {
        say::step(&format!("comparing in full, seed {seed}"), || {
            let mut cargo = run::cargo();
            cargo.args(["test", "--no-fail-fast", "-p", "proof", "--test", "all"]);
            cargo.env("COILWRIGHT_CAMPAIGN", seed.to_string());
            test::with_what_was_built(&mut cargo);
            run::show(&mut cargo, &again(seed))
        })?;
        seed = seed.wrapping_add(1);
        rounds += 1;
    }
    say::note(format!(
        "{rounds} rounds, seeds {first} to {}: nothing differs",
        seed.wrapping_sub(1)
    ));
    Ok(())
}
