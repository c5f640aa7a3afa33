//! `cargo xtask check`: everything that can be seen without running the project, and what
//! ships weighs.

use crate::run;
use crate::say::{self, Done, Failure};
use crate::{build, figures, module, ratchet, single, tidy, tools};
use std::process::Command;

const LINTS: &str = "read the lint's message above; allow it only with a reason beside it";

/// What writes the present bytes as those that may be.
const NOTE: &str = "cargo xtask check --note";

/// Format, lints for host and wasm, docs, tidy, bytes. Goes on after a failure, so that
/// one run tells all. With `note` the bytes are noted instead of held to what was.
pub(crate) fn run(note: bool) -> Done {
    tools::wasm_target()?;
    let mut wrong = Vec::new();
    let mut check = |what: &'static str, work: &dyn Fn() -> Done| {
        if let Err(failure) = say::step(what, work) {
            eprintln!("{failure}");
            wrong.push(what);
        }
    };
    check("tidy", &tidy::run);
    check("the lock file fits the manifests", &lock_file);
    check("format", &|| {
        run::show(run::cargo().args(["fmt", "--all", "--", "--check"]), "type `cargo fmt --all`")
    });
    check("lints for the host", &|| {
        let mut cargo = run::cargo();
        clippy(cargo.args([
            "clippy",
            "--workspace",
            "--all-targets",
            "--features",
            "proof/browser,coilwright-web/trap",
        ]))
    });
    check("lints of the page for wasm", &|| {
        clippy(wasm_clippy().args(["-p", "coilwright-web"]).args([
            "--lib",
            "--bins",
            "--test",
            "components",
        ]))
    });
    check("lints of the module for wasm", &|| {
        let lint = |features| {
            let package = ["-p", module::PACKAGE, "--lib", "--features", features];
            clippy(wasm_clippy().args(package))
        };
        lint("js,json")?;
        lint("plain")
    });
    check("docs", &|| {
        run::show(
            run::cargo()
                .args(["doc", "--workspace", "--no-deps", "--document-private-items"])
                .args(["--features", "coilwright-module/js,coilwright-module/json"])
                .env("RUSTDOCFLAGS", "-D warnings"),
            "read rustdoc's message above",
        )
    });
    check("bytes of what ships", &|| {
        let visit = build::run()?;
        single::run()?;
        ratchet::hold("size", &figures::counted(&visit.weighed)?, note, NOTE)
    });
    if wrong.is_empty() {
        println!("\nEverything checked is in order.");
        return Ok(());
    }
    Err(Failure::new(
        format!("not in order: {}", wrong.join(", ")),
        "see the messages above, each with what to try",
    ))
}

fn lock_file() -> Done {
    let mut cargo = run::cargo();
    cargo.args(["metadata", "--locked", "--format-version", "1"]);
    let _json = run::read(&mut cargo, "type `cargo check` and commit Cargo.lock")?;
    Ok(())
}

fn clippy(command: &mut Command) -> Done {
    run::show(command.args(["--", "-D", "warnings"]), LINTS)
}

fn wasm_clippy() -> Command {
    let mut cargo = run::cargo();
    cargo.args(["clippy", "--target", tools::WASM, "--target-dir"]);
    cargo.arg(run::root().join("target-wasm"));
    cargo
}
