//! `cargo xtask check`: everything that can be seen without running the project.

use crate::run;
use crate::say::{self, Done};
use crate::{module, tidy, tools};

/// Format, lints for host and wasm, docs, tidy.
pub(crate) fn run() -> Done {
    tools::wasm_target()?;
    say::step("tidy", tidy::run)?;
    say::step("the lock file fits the manifests", || {
        let mut cargo = run::cargo();
        cargo.args(["metadata", "--locked", "--format-version", "1"]);
        let _json = run::read(&mut cargo, "type `cargo check` and commit Cargo.lock")?;
        Ok(())
    })?;
    say::step("format", || {
        run::show(
            run::cargo().args(["fmt", "--all", "--", "--check"]),
            "type `cargo fmt --all`",
        )
    })?;
    let lints = "read the lint's message above; allow it only with a reason beside it";
    say::step("lints for the host", || {
        run::show(
            run::cargo()
                .args(["clippy", "--workspace", "--all-targets"])
                .args(DENY),
            lints,
        )
    })?;
    say::step("lints of the page for wasm", || {
        run::show(
            wasm_clippy()
                .args(["-p", "coilwright-web", "--all-targets"])
                .args(DENY),
            lints,
        )
    })?;
    say::step("lints of the module for wasm", || {
        run::show(
            wasm_clippy()
                .args(["-p", module::PACKAGE, "--lib", "--features", "js"])
                .args(DENY),
            lints,
        )
    })?;
    say::step("docs", || {
        run::show(
            run::cargo()
                .args([
                    "doc",
                    "--workspace",
                    "--no-deps",
                    "--document-private-items",
                ])
                .env("RUSTDOCFLAGS", "-D warnings"),
            "read rustdoc's message above",
        )
    })?;
    println!("\nEverything checked is in order.");
    Ok(())
}

const DENY: [&str; 3] = ["--", "-D", "warnings"];

fn wasm_clippy() -> std::process::Command {
    let mut cargo = run::cargo();
    cargo.args(["clippy", "--target", tools::WASM, "--target-dir"]);
    cargo.arg(run::root().join("target-wasm"));
    cargo
}
