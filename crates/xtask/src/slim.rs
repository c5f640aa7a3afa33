//! What ships, with the standard library compiled along for size.
//!
//! The ready-made standard library is compiled for speed, and formats a message for
//! every way to panic that nobody of the page's visitors reads: after a trap the
//! page says the same words whatever the reason. Compiling it along takes its source
//! (rustup's component `rust-src`) and options that a stable compiler hides. Where
//! either is not to be had, everything is built as ever, and is a tenth larger.

use crate::run;
use crate::say::{self, Failure};
use crate::tools;
use std::ffi::OsString;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::OnceLock;

/// For rustc: a panic is a trap at once; no source places, no texts of `Debug`.
pub(crate) const FLAGS: &str = "-Zunstable-options -Cpanic=immediate-abort \
                                -Zlocation-detail=none -Zfmt-debug=none";

/// For cargo: what to compile along, and how.
const ALONG: [&str; 2] = ["-Zbuild-std=std,panic_abort", "-Zbuild-std-features=optimize_for_size"];

/// The variable that lets a stable compiler take such options.
const ALLOW: &str = "RUSTC_BOOTSTRAP";

/// What to type so that it works the next time.
pub(crate) const HINT: &str = "type `rustup component add rust-src` and then \
     `cargo xtask build`, both where servers can be reached";

/// Why it cannot be done, once that is known; settled at the first question.
static POSSIBLE: OnceLock<bool> = OnceLock::new();
/// That it was tried and did not work.
static FAILED: OnceLock<()> = OnceLock::new();

/// Whether to try. Installs the source where it is missing; says why not, once.
pub(crate) fn possible() -> bool {
    FAILED.get().is_none()
        && *POSSIBLE.get_or_init(|| {
            // Whoever builds the standard library in a way of their own means that way.
            if std::env::var_os("CARGO_UNSTABLE_BUILD_STD").is_some() {
                return false;
            }
            let reason = if !takes_the_flags() {
                "this compiler does not know the options for it (Rust 1.95 does)"
            } else if !has_source() {
                "its source is missing and could not be installed"
            } else {
                return true;
            };
            larger(reason);
            false
        })
}

/// Adds to a cargo command what compiles the standard library along.
pub(crate) fn along(cargo: &mut Command) -> &mut Command {
    allow(cargo.args(ALONG))
}

/// Gives it up for this run of the tool.
pub(crate) fn without(failure: &Failure) {
    eprintln!("{failure}");
    larger("it did not compile; what follows is built with the ready-made one");
    FAILED.get_or_init(|| ());
}

fn larger(reason: &str) {
    say::note(format!(
        "the standard library is not compiled along for size, so the wasm is a tenth larger:\n    \
         {reason};\n    to have it small, {HINT}"
    ));
}

fn allow(command: &mut Command) -> &mut Command {
    if std::env::var_os(ALLOW).is_none() {
        command.env(ALLOW, "1");
    }
    command
}

fn rustc() -> Command {
    Command::new(std::env::var_os("RUSTC").unwrap_or_else(|| OsString::from("rustc")))
}

/// Asks the compiler for something that needs no source, with the flags.
fn takes_the_flags() -> bool {
    let mut command = rustc();
    command.args(FLAGS.split_whitespace()).args(["--target", tools::WASM, "--print", "cfg"]);
    command.stdout(Stdio::null()).stderr(Stdio::null());
    allow(&mut command).status().is_ok_and(|status| status.success())
}

fn has_source() -> bool {
    source_is_there()
        || say::step("installing the source of the standard library", || {
            run::show(run::program("rustup").args(["component", "add", "rust-src"]), HINT)
        })
        .is_ok_and(|()| source_is_there())
}

fn source_is_there() -> bool {
    let Ok(output) = rustc().args(["--print", "sysroot"]).stderr(Stdio::null()).output() else {
        return false;
    };
    let sysroot = String::from_utf8_lossy(&output.stdout);
    // cargo wants to know the versions of what the standard library uses.
    Path::new(sysroot.trim()).join("lib/rustlib/src/rust/library/Cargo.lock").is_file()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_command_that_compiles_it_along_reads_as_one_would_type_it() {
        let mut command = Command::new("cargo");
        command.arg("build");
        assert_eq!(
            run::written(along(&mut command)),
            "cargo build -Zbuild-std=std,panic_abort -Zbuild-std-features=optimize_for_size"
        );
    }

    #[test]
    fn every_flag_stands_alone() {
        // They pass through a variable that cargo splits at spaces.
        for flag in FLAGS.split(' ') {
            assert!(flag.starts_with("-Z") || flag.starts_with("-C"), "{flag}");
        }
    }
}
