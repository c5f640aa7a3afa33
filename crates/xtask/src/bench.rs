//! `cargo xtask bench`: the benches live beside the tests that cross crates.

use crate::bind::Profile;
use crate::say::{self, Doing, Done};
use crate::{build, module, run, site, tools};

const READ: &str = "read what the benches printed above";

/// Measures the solver and the page; `page` that alone; `sim` what is said of
/// faults; anything else is for the solver's.
pub(crate) fn run(rest: &[String]) -> Done {
    if let [only, options @ ..] = rest
        && only == "sim"
    {
        return sim(options);
    }
    tools::wasm_target()?;
    tools::node()?;
    tools::npm_packages()?;
    match rest {
        [] => {
            // Either may miss a bound; the other's figures are wanted all the same.
            let solver = solver(rest);
            if let Err(failure) = &solver {
                eprintln!("{failure}");
            }
            page().and(solver)
        }
        [only] if only == "page" => page(),
        _ => solver(rest),
    }
}

/// Builds the module, then runs the benches of the package `proof`, with `rest` as
/// their arguments.
fn solver(rest: &[String]) -> Done {
    // Times differ from run to run; the instructions that it counts do not.
    tools::packages(&[tools::VALGRIND])?;
    // What is measured in wasm is what ships, and of these very sources.
    module::build(&build::dist_module())?;
    say::step("benches of the solver", || {
        run::show(
            run::cargo()
                .args(["run", "--release", "-p", "proof", "--bin", "bench", "--"])
                .args(rest)
                .env("COILWRIGHT_MODULE", build::dist_module()),
            READ,
        )
    })
}

/// Holds what the module says of readings to a bench that is not its own.
fn sim(options: &[String]) -> Done {
    say::step("faults on a bench", || {
        let asked = ["run", "--release", "-p", "proof", "--bin", "sim", "--"];
        run::show(run::cargo().args(asked).args(options), READ)
    })
}

/// Builds the page and an empty one, and visits both with a browser.
fn page() -> Done {
    tools::packages(&[tools::CHROMIUM, tools::CHROMEDRIVER])?;
    let visit = build::run()?;
    let empty = run::root().join("target-wasm/empty-page");
    if empty.exists() {
        std::fs::remove_dir_all(&empty).doing("empty target-wasm/empty-page")?;
    }
    build::write(&empty, &site::build_empty(Profile::Small)?)?;
    build::write(&empty, &build::example_headers())?;
    say::step("benches of the page", || {
        run::show(
            run::cargo()
                .args(["run", "-p", "proof", "--features", "browser", "--bin", "visit"])
                .env("COILWRIGHT_DIST", build::dist())
                .env("COILWRIGHT_EMPTY_PAGE", &empty)
                .env("COILWRIGHT_FIRST_VISIT", visit.first.join("\n"))
                .env("COILWRIGHT_LATER", visit.later.join("\n")),
            READ,
        )
    })
}
