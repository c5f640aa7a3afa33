//! `cargo xtask bench`: the benches live beside the tests that cross crates. What they
//! count is held to the last landing (`ratchet.rs`).

use crate::bind::Profile;
use crate::say::{self, Doing, Done};
use crate::{build, module, pack, ratchet, run, site, tools};
use std::path::PathBuf;
use std::process::Command;

const READ: &str = "read what the benches printed above";

/// What notes the present figures instead of holding them to what was.
const NOTE: &str = "--note";

/// Measures the solver and the page; `page` that alone; `sim` what is said of
/// faults; anything else is for the solver's.
pub(crate) fn run(rest: &[String]) -> Done {
    let note = rest.iter().any(|word| word == NOTE);
    let rest: Vec<String> = rest.iter().filter(|word| *word != NOTE).cloned().collect();
    if let [only, options @ ..] = &rest[..]
        && only == "sim"
    {
        return sim(options);
    }
    tools::wasm_target()?;
    tools::node()?;
    tools::npm_packages()?;
    match &rest[..] {
        [] => {
            // Either may miss a bound; the other's figures are wanted all the same.
            let solver = solver(&[], note);
            if let Err(failure) = &solver {
                eprintln!("{failure}");
            }
            page(note).and(solver)
        }
        [only] if only == "page" => page(note),
        rest => solver(rest, note),
    }
}

/// Runs a bench, and holds what it counted to the last landing, whether or not it is within
/// its bounds. One that counts nothing leaves no file.
fn counted(group: &str, bench: &mut Command, note: bool, noting: &str) -> Done {
    let folder = run::root().join("target-wasm/counted");
    let file: PathBuf = folder.join(format!("{group}.txt"));
    std::fs::create_dir_all(&folder).doing("make target-wasm/counted")?;
    if file.exists() {
        std::fs::remove_file(&file).doing("remove what was counted last")?;
    }
    let ran = run::show(bench.env("COILWRIGHT_COUNTED", &file), READ);
    if !file.exists() {
        return ran;
    }
    let text = std::fs::read_to_string(&file).doing("read what was counted")?;
    let held = ratchet::hold(group, &text, note, noting);
    if let (Err(failure), Err(_)) = (&held, &ran) {
        eprintln!("{failure}");
    }
    ran.and(held)
}

/// Builds the module, then runs the benches of the package `proof`, with `rest` as
/// their arguments.
fn solver(rest: &[String], note: bool) -> Done {
    // Times differ from run to run; the instructions that it counts do not.
    tools::packages(&[tools::VALGRIND])?;
    // What is measured in wasm is what ships, and of these very sources.
    module::build(&build::dist_module())?;
    say::step("benches of the solver", || {
        let mut bench = run::cargo();
        bench
            .args(["run", "--release", "-p", "proof", "--bin", "bench", "--"])
            .args(rest)
            .env("COILWRIGHT_MODULE", build::dist_module());
        counted("solver", &mut bench, note, "cargo xtask bench --note")
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
fn page(note: bool) -> Done {
    tools::packages(&[tools::CHROMIUM, tools::CHROMEDRIVER])?;
    tools::npm_packages_in("tests/audit")?;
    let visit = build::run()?;
    let empty = run::root().join("target-wasm/empty-page");
    if empty.exists() {
        std::fs::remove_dir_all(&empty).doing("empty target-wasm/empty-page")?;
    }
    let files = site::build_empty(Profile::Small)?;
    build::write(&empty, &files)?;
    build::write(&empty, &build::example_headers())?;
    // Sent as small as the page is.
    pack::pack(&empty, &files.into_keys().collect::<Vec<_>>(), true)?;
    say::step("benches of the page", || {
        let mut bench = run::cargo();
        bench
            .args(["run", "-p", "proof", "--features", "browser", "--bin", "visit"])
            .env("COILWRIGHT_DIST", build::dist())
            .env("COILWRIGHT_EMPTY_PAGE", &empty)
            .env("COILWRIGHT_FIRST_VISIT", visit.first.join("\n"))
            .env("COILWRIGHT_LATER", visit.later.join("\n"));
        counted("page", &mut bench, note, "cargo xtask bench page --note")
    })
}
