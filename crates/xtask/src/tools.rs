//! What must be on the machine: looked for, installed where that is allowed,
//! and otherwise named together with the line to type.

use crate::run;
use crate::say::{self, Done, Failure};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

pub(crate) const WASM: &str = "wasm32-unknown-unknown";

const WASM_HINT: &str = "\
type `rustup target add wasm32-unknown-unknown` where rustup can reach its server.
     Without rustup, on Debian 12: install rustc-web cargo-web rust-web-src lld-22, then call
     Debian's own cargo with RUSTC pointing at Debian's rustc and with
     RUSTC_BOOTSTRAP=1 CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER=wasm-ld-22
     CARGO_UNSTABLE_BUILD_STD=std,panic_abort in the environment";

/// Makes sure that Rust can compile for the browser.
pub(crate) fn wasm_target() -> Done {
    // Whoever builds the standard library along needs no installed target.
    if std::env::var_os("CARGO_UNSTABLE_BUILD_STD").is_some() || has_wasm_target() {
        return Ok(());
    }
    say::step("installing the Rust target wasm32-unknown-unknown", || {
        run::show(run::program("rustup").args(["target", "add", WASM]), WASM_HINT)?;
        if has_wasm_target() {
            return Ok(());
        }
        Err(Failure::new(
            "rustup installed the wasm target for another toolchain than the one in use",
            WASM_HINT,
        ))
    })
}

fn has_wasm_target() -> bool {
    let rustc = std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let mut command = std::process::Command::new(rustc);
    command.args(["--print", "target-libdir", "--target", WASM]);
    command.stderr(std::process::Stdio::null());
    let Ok(output) = command.output() else {
        return false;
    };
    let folder = String::from_utf8_lossy(&output.stdout);
    std::fs::read_dir(Path::new(folder.trim())).is_ok_and(|mut entries| entries.next().is_some())
}

const NODE_HINT: &str =
    "install Node 20.19, 22.12 or newer with npm, so that `node --version` answers";

/// Makes sure that Node is there and not too old.
pub(crate) fn node() -> Done {
    let version = run::read(run::program("node").arg("--version"), NODE_HINT)?;
    match numbers(&version) {
        // What the bundler asks for, through which a test takes the module.
        Some((20, 19..) | (22, 12..) | (23.., _)) => Ok(()),
        _ => Err(Failure::new(
            format!("Node is not one that the tools run on: {}", version.trim()),
            NODE_HINT,
        )),
    }
}

/// The first two numbers of `v20.19.2`.
fn numbers(version: &str) -> Option<(u32, u32)> {
    let mut numbers = version.trim().strip_prefix('v')?.split('.').map(|part| part.parse().ok());
    Some((numbers.next()??, numbers.next()??))
}

/// Makes sure that the npm packages of the lock file are in `node_modules`.
pub(crate) fn npm_packages() -> Done {
    npm_packages_in("")
}

/// The same of a folder that has a lock file of its own: what few runs want.
pub(crate) fn npm_packages_in(folder: &str) -> Done {
    // Whoever comes second finds them installed.
    static ONE: Mutex<()> = Mutex::new(());
    let _one = ONE.lock().unwrap_or_else(PoisonError::into_inner);
    let root = run::root().join(folder);
    let modified = |path: &str| std::fs::metadata(root.join(path)).and_then(|m| m.modified());
    let current = match (modified("package-lock.json"), modified("node_modules/.package-lock.json"))
    {
        (Ok(wanted), Ok(installed)) => installed >= wanted,
        _ => false,
    };
    if current {
        return Ok(());
    }
    say::step("installing npm packages from the lock file", || {
        let mut npm = run::program("npm");
        npm.current_dir(&root).args(["ci", "--ignore-scripts", "--no-audit", "--no-fund"]);
        run::show(&mut npm, "type `npm ci --ignore-scripts` where npm can reach its registry")
    })
}

/// The program that makes wasm smaller. What ships is never built without it: it would be
/// another wasm.
pub(crate) fn wasm_opt() -> Done<PathBuf> {
    npm_packages()?;
    in_npm_packages(run::root(), "node_modules/binaryen/bin/wasm-opt")
}

/// A file of the npm packages, once they are installed.
fn in_npm_packages(root: PathBuf, path: &str) -> Done<PathBuf> {
    let file = root.join(path);
    if file.is_file() {
        return Ok(file);
    }
    Err(Failure::new(
        format!("npm's packages are installed, but without {path}"),
        "delete node_modules and type `npm ci --ignore-scripts`",
    ))
}

/// A program from the system's packages.
pub(crate) struct Packaged {
    pub(crate) program: &'static str,
    pub(crate) package: &'static str,
}

pub(crate) const CHROMIUM: Packaged = Packaged { program: "chromium", package: "chromium" };
pub(crate) const CHROMEDRIVER: Packaged =
    Packaged { program: "chromedriver", package: "chromium-driver" };
pub(crate) const NGSPICE: Packaged = Packaged { program: "ngspice", package: "ngspice" };
pub(crate) const VALGRIND: Packaged = Packaged { program: "valgrind", package: "valgrind" };

/// Makes sure that these programs are there; as root with apt-get it installs them.
pub(crate) fn packages(wanted: &[Packaged]) -> Done {
    let missing = || -> Vec<&Packaged> {
        wanted.iter().filter(|packaged| !run::exists(packaged.program)).collect()
    };
    let absent = missing();
    if absent.is_empty() {
        return Ok(());
    }
    let names: Vec<&str> = absent.iter().map(|packaged| packaged.package).collect();
    let names = names.join(" ");
    let hint = format!(
        "as root on Debian or Ubuntu: apt-get update && apt-get install -y --no-install-recommends {names}\n     \
         elsewhere: install what gives the programs {}",
        absent.iter().map(|packaged| packaged.program).collect::<Vec<_>>().join(", ")
    );
    if !is_root() || !run::exists("apt-get") {
        let reason = format!("missing: {names} (installing needs root and apt-get)");
        return Err(Failure::new(reason, hint));
    }
    say::step(&format!("installing {names} with apt-get"), || {
        let apt = || {
            let mut command = run::program("apt-get");
            command.env("DEBIAN_FRONTEND", "noninteractive");
            command.stdin(std::process::Stdio::null());
            command
        };
        run::show(apt().args(["update", "-q"]), &hint)?;
        run::show(
            apt().args(["install", "-y", "-q", "--no-install-recommends"]).args(names.split(' ')),
            &hint,
        )?;
        if missing().is_empty() {
            return Ok(());
        }
        Err(Failure::new(
            "apt-get installed the packages, but their programs do not answer",
            hint.clone(),
        ))
    })
}

#[cfg(target_os = "linux")]
fn is_root() -> bool {
    use std::os::unix::fs::MetadataExt;
    std::fs::metadata("/proc/self").is_ok_and(|me| me.uid() == 0)
}

#[cfg(not(target_os = "linux"))]
fn is_root() -> bool {
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_version_of_node() {
        assert_eq!(numbers("v20.11.1\n"), Some((20, 11)));
        assert_eq!(numbers("v9.0.0"), Some((9, 0)));
        assert_eq!(numbers("v20"), None);
        assert_eq!(numbers("twenty"), None);
    }

    #[test]
    fn a_program_that_npm_has_not_brought_is_a_failure() {
        let root = std::env::temp_dir().join(format!("coilwright-npm-{}", std::process::id()));
        std::fs::create_dir_all(root.join("node_modules/a")).unwrap();
        std::fs::write(root.join("node_modules/a/run"), "").unwrap();
        let found = in_npm_packages(root.clone(), "node_modules/a/run").unwrap();
        assert_eq!(found, root.join("node_modules/a/run"));
        let failure = in_npm_packages(root.clone(), "node_modules/b/run").unwrap_err().to_string();
        assert!(failure.contains("without node_modules/b/run"), "{failure}");
        assert!(failure.contains("try: delete node_modules and type `npm ci"), "{failure}");
        std::fs::remove_dir_all(root).unwrap();
    }
}
