//! `cargo xtask test`: every test of the project, part by part.
//!
//! What is tested is built first, and tests run as soon as what they need is there: on two
//! processors two jobs at once, printed as if they had come one after the other.

mod driver;
pub(crate) mod lanes;
mod native;

use crate::args::{Built, Part};
use crate::bind::Profile;
use crate::run;
use crate::say::{Doing, Done, Failure};
use crate::{build, module, single, site, tally, tools};
use driver::Driver;
use lanes::{Job, Paper, Went};
use std::path::PathBuf;
use std::process::Command;
use std::sync::{Mutex, PoisonError};
use std::time::Instant;
use tally::Tally;

const READ: &str = "read the test's own message above";

/// How many jobs run at once. Compilers and tests use two processors each while they can.
const AT_ONCE: usize = 2;

/// The examples in the documentation, which belong to no part.
const EXAMPLES: &str = "examples";

/// Runs one part, or all of them, and sums up.
pub(crate) fn run(only: Option<Part>) -> Done {
    let start = Instant::now();
    let parts: Vec<Part> = only.map_or_else(|| Part::ALL.to_vec(), |part| vec![part]);
    // Before anything runs: a missing program should not cost an hour first.
    install(&parts)?;
    let told: Mutex<Vec<(&'static str, Tally)>> = Mutex::default();
    let binaries: Mutex<Vec<native::Binary>> = Mutex::default();
    let went = lanes::run(jobs(&parts, &binaries, &told), AT_ONCE);
    let mut told = told.into_inner().unwrap_or_else(PoisonError::into_inner);
    let outcomes: Vec<Outcome> = went
        .into_iter()
        .map(|went| {
            let at = told.iter().position(|(name, _)| *name == went.name);
            Outcome { tally: at.map(|at| told.swap_remove(at).1), went }
        })
        .collect();
    print!("\n{}", summary(&outcomes));
    println!("{:.1} s from beginning to end", start.elapsed().as_secs_f64());
    let failed: Vec<&str> = outcomes
        .iter()
        .filter(|outcome| outcome.went.done.is_err())
        .map(|outcome| outcome.went.name)
        .collect();
    if failed.is_empty() {
        return Ok(());
    }
    let part = parts.iter().find(|part| failed.contains(&part.name()));
    let hint = part.map_or_else(
        || "see what is said of it above".to_owned(),
        |part| format!("`cargo xtask test --only {}` runs that part alone", part.name()),
    );
    Err(Failure::new(format!("failed: {}", failed.join(", ")), hint))
}

/// What is to be built for the parts and then done, in the order in which it is printed and,
/// as far as each has what it needs, begun.
fn jobs<'a>(
    parts: &'a [Part],
    binaries: &'a Mutex<Vec<native::Binary>>,
    told: &'a Mutex<Vec<(&'static str, Tally)>>,
) -> Vec<Job<'a>> {
    let any = |wanted: &[Part]| wanted.iter().any(|part| parts.contains(part));
    let mut jobs = vec![Job {
        name: NATIVE,
        needs: Vec::new(),
        alone: None,
        work: Box::new(move |paper| {
            let built = native::build(parts, paper)?;
            binaries.lock().unwrap_or_else(PoisonError::into_inner).extend(built);
            Ok(())
        }),
    }];
    let needed: Vec<Built> = Built::ALL
        .into_iter()
        // The site comes with the module.
        .filter(|built| {
            any(built.needed_by()) && !(*built == Built::Module && any(&[Part::Browser]))
        })
        .collect();
    let site = |job: &str| {
        needed.contains(&Built::Site).then_some(Built::Site.name()).filter(|site| *site != job)
    };
    for built in needed.iter().copied() {
        let after_the_site = built == Built::SingleFile;
        jobs.push(Job {
            name: built.name(),
            needs: site(built.name()).into_iter().filter(|_| after_the_site).collect(),
            alone: Some("target-wasm"),
            work: Box::new(move |paper| prepare(built, paper)),
        });
    }
    for part in parts {
        let built = needed.iter().filter(|built| built.needed_by().contains(part));
        let module = (*part == Part::Module).then(|| site(part.name())).flatten();
        jobs.push(Job {
            name: part.name(),
            needs: std::iter::once(NATIVE)
                .chain(module)
                .chain(built.map(|built| built.name()))
                .collect(),
            alone: None,
            work: Box::new(move |paper| {
                counted(part.name(), told, |tally| {
                    let all = binaries.lock().unwrap_or_else(PoisonError::into_inner).clone();
                    test(*part, &all, paper, tally)
                })
            }),
        });
    }
    jobs.push(Job {
        name: EXAMPLES,
        needs: vec![NATIVE],
        alone: None,
        work: Box::new(move |paper| {
            let Some(mut examples) = native::examples(parts)? else { return Ok(()) };
            counted(EXAMPLES, told, |tally| tally::count(&mut examples, READ, paper, tally))
        }),
    });
    jobs
}

/// The tests that run on this machine, compiled.
const NATIVE: &str = "native tests";

/// Keeps what was counted, whatever came of it.
fn counted(
    name: &'static str,
    told: &Mutex<Vec<(&'static str, Tally)>>,
    work: impl FnOnce(&mut Tally) -> Done,
) -> Done {
    let mut tally = Tally::default();
    let mut done = work(&mut tally);
    if done.is_ok() && tally.passed == 0 {
        done = Err(Failure::new("not one test ran", "look for the tests of this part"));
    }
    told.lock().unwrap_or_else(PoisonError::into_inner).push((name, tally));
    done
}

/// How one job went, and what it counted if it runs tests.
#[derive(Debug)]
struct Outcome {
    went: Went,
    tally: Option<Tally>,
}

/// The time of everything, every runner's own lines, part by part, then the sum of all.
fn summary(outcomes: &[Outcome]) -> String {
    let mut text = String::new();
    let mut sum = Tally::default();
    let mut seconds = 0.0;
    for Outcome { went, tally } in outcomes {
        let verdict = if went.done.is_ok() { "ok" } else { "FAILED" };
        text.push_str(&format!("{:<14} {verdict:<6} {:>6.1} s\n", went.name, went.seconds));
        seconds += went.seconds;
        let failed = tally.as_ref().map_or(0, |tally| tally.failed);
        if let Some(tally) = tally {
            for line in &tally.lines {
                text.push_str(&format!("{line}\n"));
            }
            sum.passed += tally.passed;
            sum.failed += tally.failed;
            sum.ignored += tally.ignored;
        }
        // A job can fail without a failed test: when something does not compile.
        if went.done.is_err() && failed == 0 {
            sum.failed += 1;
        }
    }
    text.push_str(&format!("{} passed, {} failed", sum.passed, sum.failed));
    if sum.ignored > 0 {
        text.push_str(&format!(", {} skipped", sum.ignored));
    }
    text.push_str(&format!("\n{seconds:.1} s of all jobs, {AT_ONCE} at once\n"));
    text
}

/// Installs what the parts need.
fn install(parts: &[Part]) -> Done {
    let any = |wanted: &[Part]| wanted.iter().any(|part| parts.contains(part));
    if any(&[Part::Tools]) {
        tools::node()?;
        tools::npm_packages()?;
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
    Ok(())
}

/// Builds something that tests are about, in a process of its own: what it prints can wait
/// for its turn then.
fn prepare(built: Built, paper: &Paper) -> Done {
    let mut this = Command::new(std::env::current_exe().doing("find this program")?);
    paper.run(this.args(["test", "--build", built.name()]), native::COMPILER, |_| true)
}

/// Builds one thing that tests are about.
pub(crate) fn build_one(built: Built) -> Done {
    match built {
        Built::Site => build::run().map(drop),
        Built::SingleFile => single::run(),
        Built::Module => module::build(&build::dist_module()),
        Built::Trapped => build_trapped(),
        Built::Compared => {
            for profile in [Profile::Quick, Profile::Small] {
                module::build_to_compare(profile, &compared(profile))?;
            }
            Ok(())
        }
        Built::Components => {
            run::show(run::cargo().args(["build", "-p", "runner"]), native::COMPILER)?;
            run::show(components()?.arg("--no-run"), native::COMPILER)
        }
    }
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

fn test(part: Part, binaries: &[native::Binary], paper: &Paper, tally: &mut Tally) -> Done {
    let mut commands = native::commands(part, binaries);
    if commands.is_empty() {
        return Err(native::none(part));
    }
    let driver = if part == Part::Browser { Some(Driver::start()?) } else { None };
    let mut failed = Ok(());
    // One run tells all that fails.
    for command in &mut commands {
        with_what_was_built(command);
        if let Some(driver) = &driver {
            command.env("COILWRIGHT_DRIVER", driver.address());
            command.env("COILWRIGHT_RECORDS", driver.records());
        }
        paper.say(format!("     Running {}", run::written(command)));
        failed = failed.and(tally::count(command, READ, paper, tally));
    }
    match part {
        Part::Module => failed.and(under_node(paper, tally)),
        Part::Web => failed.and(in_a_browser(paper, tally)),
        _ => failed,
    }
}

/// Where the tests find what they test.
pub(crate) fn with_what_was_built(command: &mut Command) {
    command.env("COILWRIGHT_DIST", build::dist());
    command.env("COILWRIGHT_SINGLE_FILE", single::folder());
    command.env("COILWRIGHT_TRAPPED", trapped());
    command.env("COILWRIGHT_MODULE", build::dist_module());
    command.env("COILWRIGHT_COMPARED_QUICK", compared(Profile::Quick));
    command.env("COILWRIGHT_COMPARED_SMALL", compared(Profile::Small));
}

/// The module as its users have it.
fn under_node(paper: &Paper, tally: &mut Tally) -> Done {
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
    tally::count(&mut node, READ, paper, tally)
}

/// The command that compiles the page's components with their tests, and runs them.
fn components() -> Done<Command> {
    // It lies where this program lies.
    let runner = std::env::current_exe()
        .doing("find this program")?
        .with_file_name(format!("runner{}", std::env::consts::EXE_SUFFIX));
    let mut cargo = run::cargo();
    cargo.args(["test", "--no-fail-fast", "-p", "coilwright-web", "--target", tools::WASM]);
    cargo.args(["--test", "components", "--profile", "quick", "--target-dir"]);
    cargo.arg(run::root().join("target-wasm"));
    cargo.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER", runner);
    cargo.env("CHROMEDRIVER", "chromedriver");
    cargo.env("WASM_BINDGEN_TEST_ONLY_WEB", "1");
    cargo.env("WASM_BINDGEN_TEST_TIMEOUT", "120");
    Ok(cargo)
}

/// The page's components in a headless browser.
fn in_a_browser(paper: &Paper, tally: &mut Tally) -> Done {
    let hint = "see web/webdriver.json for the browser's flags, and the message above";
    tally::count(&mut components()?, hint, paper, tally)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_that_did_not_compile_counts_as_a_failure() {
        let outcome = |name, ok, lines: Option<&[&str]>| {
            let tally = lines.map(|lines| {
                let mut tally = Tally::default();
                lines.iter().for_each(|line| tally.add(line));
                tally
            });
            let done = if ok { Ok(()) } else { Err(Failure::new("x", "y")) };
            Outcome { went: Went { name, done, seconds: 1.0 }, tally }
        };
        let line = "test result: ok. 3 passed; 0 failed; 1 ignored; 0 measured";
        let text = summary(&[
            outcome("site", true, None),
            outcome("solver", true, Some(&[line])),
            outcome("words", false, Some(&[])),
        ]);
        assert!(text.contains(line), "{text}");
        assert!(text.contains("site           ok        1.0 s\n"), "{text}");
        assert!(text.contains("words          FAILED"), "{text}");
        assert!(text.contains("\n3 passed, 1 failed, 1 skipped\n3.0 s of all jobs"), "{text}");
    }

    #[test]
    fn nothing_waits_for_what_is_never_done() {
        for parts in [&Part::ALL[..], &[Part::Proof], &[Part::Module], &[Part::Browser]] {
            let (binaries, told) = (Mutex::default(), Mutex::default());
            let jobs = jobs(parts, &binaries, &told);
            let names: Vec<&str> = jobs.iter().map(|job| job.name).collect();
            for job in &jobs {
                assert!(job.needs.iter().all(|need| names.contains(need)), "{}", job.name);
            }
            // Cyclic needs would stop all: what is needed comes earlier.
            for (at, job) in jobs.iter().enumerate() {
                assert!(job.needs.iter().all(|need| names[..at].contains(need)), "{}", job.name);
            }
        }
    }
}
