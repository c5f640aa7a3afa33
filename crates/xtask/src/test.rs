//! `cargo xtask test`: every test of the project, part by part.

use crate::args::Part;
use crate::bind::Profile;
use crate::run;
use crate::say::{self, Doing, Done, Failure};
use crate::{build, module, single, site, tally, tools};
use std::path::PathBuf;
use std::process::Command;
use std::time::Instant;
use tally::Tally;

const READ: &str = "read the test's own message above";

/// Runs one part, or all of them, and sums up.
pub(crate) fn run(only: Option<Part>) -> Done {
    let mut absent = Vec::new();
    let parts: Vec<Part> = match only {
        Some(part) => vec![part],
        None => {
            let (there, not): (Vec<Part>, Vec<Part>) =
                Part::ALL.into_iter().partition(|part| exists(*part));
            absent = not;
            there
        }
    };
    if let Some(part) = parts.iter().find(|part| !exists(**part)) {
        return Err(Failure::new(
            format!("the project has no part `{}` yet, so it has no tests", part.name()),
            "run another part, or all of them: `cargo xtask test`",
        ));
    }
    // Before anything runs: a missing program should not cost an hour first.
    prepare(&parts)?;
    let mut outcomes = Vec::new();
    for part in parts {
        println!("\n==> tests: {}", part.name());
        let start = Instant::now();
        let mut tally = Tally::default();
        let mut done = test(part, &mut tally);
        if done.is_ok() && tally.passed == 0 {
            done = Err(Failure::new("not one test ran", "look for the tests of this part"));
        }
        if let Err(failure) = &done {
            eprintln!("{failure}");
        }
        outcomes.push(Outcome {
            part,
            passed: done.is_ok(),
            seconds: start.elapsed().as_secs_f64(),
            tally,
        });
    }
    for part in absent {
        println!("\nnot run, because it does not exist yet: {}", part.name());
    }
    print!("\n{}", summary(&outcomes));
    let failed: Vec<&str> = outcomes
        .iter()
        .filter(|outcome| !outcome.passed)
        .map(|outcome| outcome.part.name())
        .collect();
    if failed.is_empty() {
        return Ok(());
    }
    Err(Failure::new(
        format!("tests failed in: {}", failed.join(", ")),
        format!("`cargo xtask test --only {}` runs that part alone", failed[0]),
    ))
}

/// How one part went.
#[derive(Debug)]
struct Outcome {
    part: Part,
    passed: bool,
    seconds: f64,
    tally: Tally,
}

/// Every runner's own lines, part by part, then the sum of all.
fn summary(outcomes: &[Outcome]) -> String {
    let mut text = String::new();
    let mut sum = Tally::default();
    for outcome in outcomes {
        let verdict = if outcome.passed { "ok" } else { "FAILED" };
        text.push_str(&format!(
            "{:<8} {verdict:<6} {:>6.1} s\n",
            outcome.part.name(),
            outcome.seconds
        ));
        for line in &outcome.tally.lines {
            text.push_str(&format!("{line}\n"));
        }
        sum.passed += outcome.tally.passed;
        sum.failed += outcome.tally.failed;
        sum.ignored += outcome.tally.ignored;
        // A part can fail without a failed test: when it does not compile.
        if !outcome.passed && outcome.tally.failed == 0 {
            sum.failed += 1;
        }
    }
    text.push_str(&format!("{} passed, {} failed", sum.passed, sum.failed));
    if sum.ignored > 0 {
        text.push_str(&format!(", {} skipped", sum.ignored));
    }
    text.push('\n');
    text
}

fn exists(part: Part) -> bool {
    match part {
        Part::Drawing => run::root().join("crates/drawing/Cargo.toml").is_file(),
        _ => true,
    }
}

/// Installs what the parts need, and builds what they test.
fn prepare(parts: &[Part]) -> Done {
    let any = |wanted: &[Part]| wanted.iter().any(|part| parts.contains(part));
    if any(&[Part::Tools]) {
        tools::node()?;
    }
    if any(&[Part::Module, Part::Web, Part::Browser]) {
        tools::packages(&[tools::CHROMIUM, tools::CHROMEDRIVER])?;
    }
    if any(&[Part::Spice]) {
        tools::packages(&[tools::NGSPICE])?;
    }
    if any(&[Part::Web]) {
        tools::wasm_target()?;
    }
    if any(&[Part::Module, Part::Proof, Part::Browser]) {
        tools::wasm_target()?;
        tools::node()?;
        tools::npm_packages()?;
    }
    if any(&[Part::Browser]) {
        build::run()?;
        single::run()?;
        build_trapped()?;
    } else if any(&[Part::Module]) {
        module::build(&build::dist_module())?;
    }
    if any(&[Part::Proof]) {
        for profile in [Profile::Quick, Profile::Small] {
            module::build_to_compare(profile, &compared(profile))?;
        }
    }
    Ok(())
}

/// Builds the page that a certain rig stops.
fn build_trapped() -> Done {
    let folder = trapped();
    if folder.exists() {
        std::fs::remove_dir_all(&folder).doing("empty the folder of the page that stops")?;
    }
    build::write(&folder, &site::build_trapped()?)?;
    build::write(&folder, &build::example_headers())
}

fn trapped() -> PathBuf {
    run::root().join("target-wasm/trapped")
}

/// Where the module lies that is compared with native answers: once with overflow
/// checks everywhere and little optimised, once as it ships.
fn compared(profile: Profile) -> PathBuf {
    run::root().join(match profile {
        Profile::Quick => "target-wasm/compared-quick",
        Profile::Small => "target-wasm/compared-small",
    })
}

fn test(part: Part, tally: &mut Tally) -> Done {
    match part {
        Part::Tools => native("xtask", tally),
        Part::Solver => native("coilwright-solver", tally),
        Part::Words => native("coilwright-words", tally),
        Part::Drawing => native("coilwright-drawing", tally),
        Part::Module => {
            native(module::PACKAGE, tally)?;
            under_node(tally)
        }
        Part::Web => {
            native("coilwright-web", tally)?;
            components(tally)
        }
        Part::Proof => proof(tally),
        Part::Browser => {
            let mut cargo = cargo_test("proof");
            tally::count(cargo.args(["--features", "browser", "--test", "browser"]), READ, tally)
        }
        Part::Spice => tally::count(cargo_test("proof").args(["--test", "spice"]), READ, tally),
    }
}

fn cargo_test(package: &str) -> Command {
    let mut cargo = run::cargo();
    // One run tells all that fails.
    cargo.args(["test", "--no-fail-fast", "-p", package]);
    with_what_was_built(&mut cargo);
    cargo
}

/// Where the tests find what they test.
fn with_what_was_built(command: &mut Command) {
    command.env("COILWRIGHT_DIST", build::dist());
    command.env("COILWRIGHT_SINGLE_FILE", single::folder());
    command.env("COILWRIGHT_TRAPPED", trapped());
    command.env("COILWRIGHT_MODULE", build::dist_module());
    command.env("COILWRIGHT_COMPARED_QUICK", compared(Profile::Quick));
    command.env("COILWRIGHT_COMPARED_SMALL", compared(Profile::Small));
}

fn native(package: &str, tally: &mut Tally) -> Done {
    tally::count(&mut cargo_test(package), READ, tally)
}

/// The module as its users have it.
fn under_node(tally: &mut Tally) -> Done {
    let folder = run::root().join("tests/node");
    let mut files: Vec<PathBuf> = std::fs::read_dir(&folder)
        .doing("read tests/node")?
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| path.to_string_lossy().ends_with(".test.mjs"))
        .collect();
    files.sort();
    if files.is_empty() {
        return Err(Failure::new(
            "tests/node holds no *.test.mjs",
            "the tests of the module under Node belong there",
        ));
    }
    let mut node = run::program("node");
    node.args(["--test", "--test-reporter=spec"]).args(files);
    with_what_was_built(&mut node);
    tally::count(&mut node, READ, tally)
}

/// The page's components in a headless browser.
fn components(tally: &mut Tally) -> Done {
    say::step("building the runner of wasm tests", || {
        run::show(run::cargo().args(["build", "-p", "runner"]), READ)
    })?;
    // It lies where this program lies.
    let runner = std::env::current_exe()
        .doing("find this program")?
        .with_file_name(format!("runner{}", std::env::consts::EXE_SUFFIX));
    let mut cargo = cargo_test("coilwright-web");
    cargo.args([
        "--target",
        tools::WASM,
        "--test",
        "components",
        "--profile",
        "quick",
        "--target-dir",
    ]);
    cargo.arg(run::root().join("target-wasm"));
    cargo.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER", runner);
    cargo.env("CHROMEDRIVER", "chromedriver");
    cargo.env("WASM_BINDGEN_TEST_ONLY_WEB", "1");
    cargo.env("WASM_BINDGEN_TEST_TIMEOUT", "120");
    tally::count(
        &mut cargo,
        "see web/webdriver.json for the browser's flags, and the message above",
        tally,
    )
}

/// What crosses crates, except the two parts that have a name of their own.
fn proof(tally: &mut Tally) -> Done {
    let metadata = run::read(
        run::cargo().args(["metadata", "--no-deps", "--format-version", "1"]),
        "`cargo metadata` must work in the workspace",
    )?;
    let arguments = proof_arguments(&metadata)
        .ok_or_else(|| Failure::new("the package proof has no tests", "look into tests/"))?;
    tally::count(cargo_test("proof").args(arguments), READ, tally)
}

/// What to put after `cargo test -p proof` for all but the browser and spice.
fn proof_arguments(metadata: &str) -> Option<Vec<String>> {
    let metadata: serde_json::Value = serde_json::from_str(metadata).ok()?;
    let packages = metadata["packages"].as_array()?;
    let proof = packages.iter().find(|package| package["name"] == "proof")?;
    let mut arguments = Vec::new();
    for target in proof["targets"].as_array()? {
        match (target["kind"][0].as_str()?, target["name"].as_str()?) {
            ("lib", _) => arguments.push("--lib".to_owned()),
            ("test", "browser" | "spice") => {}
            ("test", name) => arguments.extend(["--test".to_owned(), name.to_owned()]),
            _ => {}
        }
    }
    (!arguments.is_empty()).then_some(arguments)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_browser_and_spice_are_not_run_twice() {
        let metadata = r#"{"packages":[{"name":"other","targets":[]},{"name":"proof","targets":[
            {"kind":["lib"],"name":"proof"},{"kind":["test"],"name":"browser"},
            {"kind":["test"],"name":"counting"},{"kind":["bin"],"name":"bench"},
            {"kind":["test"],"name":"spice"}]}]}"#;
        let arguments = proof_arguments(metadata).unwrap();
        assert_eq!(arguments, ["--lib", "--test", "counting"]);
        assert_eq!(proof_arguments(r#"{"packages":[]}"#), None);
    }

    #[test]
    fn a_part_that_did_not_compile_counts_as_a_failure() {
        let outcome = |part, passed, lines: &[&str]| {
            let mut tally = Tally::default();
            lines.iter().for_each(|line| tally.add(line));
            Outcome { part, passed, seconds: 1.0, tally }
        };
        let line = "test result: ok. 3 passed; 0 failed; 1 ignored; 0 measured";
        let text =
            summary(&[outcome(Part::Solver, true, &[line]), outcome(Part::Words, false, &[])]);
        assert!(text.contains(line), "{text}");
        assert!(text.contains("words    FAILED"), "{text}");
        assert!(text.ends_with("\n3 passed, 1 failed, 1 skipped\n"), "{text}");
    }
}
