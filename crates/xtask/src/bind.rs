//! From Rust to a pair of files that a browser can load: compile, bind, shrink.

use crate::run;
use crate::say::{Doing, Done, Failure};
use crate::{slim, split, tools};
use std::path::{Path, PathBuf};
use std::process::Command;
use wasm_bindgen_cli_support::Bindgen;

/// How much work goes into the result.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Profile {
    /// Soon ready: while working on the page.
    Quick,
    /// Small: what visitors download.
    Small,
}

impl Profile {
    fn name(self) -> &'static str {
        match self {
            Self::Quick => "quick",
            Self::Small => "wasm",
        }
    }
}

/// How a page takes the JavaScript that goes with a wasm.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Use {
    /// As a module, which is a file of its own.
    Module,
    /// Among other scripts of the page, under a name of its own.
    Inline,
}

/// One thing to compile for the browser.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Source {
    /// The package.
    pub(crate) package: &'static str,
    /// What follows `-p package` on cargo's command line.
    pub(crate) cargo: &'static [&'static str],
    /// What follows that after `--crate-type`, when the package is a library.
    pub(crate) library: bool,
    /// The name of the `.wasm` that cargo leaves.
    pub(crate) artefact: &'static str,
    /// The name of the resulting files: `NAME.js` and `NAME_bg.wasm`.
    pub(crate) name: &'static str,
    /// Whether what ships of it is cut in two: `NAME_later.wasm` is loaded into the other.
    pub(crate) split: bool,
}

impl Source {
    /// Whether it is cut in two.
    pub(crate) fn is_split(self, profile: Profile) -> bool {
        self.split && profile == Profile::Small
    }
}

/// Compiles for the wasm target.
///
/// It has a target folder of its own, so that it never waits for, or is thrown
/// away by, whatever an editor does in the other one.
pub(crate) fn compile(source: Source, profile: Profile) -> Done<PathBuf> {
    if profile == Profile::Small && slim::possible() {
        let mut cargo = cargo(source, profile, slim::FLAGS);
        match run::show(slim::along(&mut cargo), slim::HINT) {
            Ok(()) => return compiled(source, profile),
            Err(failure) => slim::without(&failure),
        }
    }
    run::show(
        &mut cargo(source, profile, ""),
        "read the compiler's message above; if it speaks of a missing `core` or `std`, \
         type `rustup target add wasm32-unknown-unknown`",
    )?;
    compiled(source, profile)
}

/// The command that compiles for the wasm target, with more flags for rustc.
fn cargo(source: Source, profile: Profile, flags: &str) -> Command {
    let mut cargo = run::cargo();
    // `rustc` with a crate type, rather than a `cdylib` in the manifest: the
    // page uses the same library and would link that file again for nothing.
    cargo.arg(if source.library { "rustc" } else { "build" });
    cargo.args(["-p", source.package]).args(source.cargo);
    cargo.args(["--target", tools::WASM, "--profile", profile.name()]);
    cargo.arg("--target-dir").arg(folder());
    if source.library {
        cargo.args(["--crate-type", "cdylib"]);
    }
    if source.is_split(profile) {
        cargo.args(["--features", "split"]);
    }
    if profile == Profile::Small {
        let mut flags = format!("{} {flags}", without_machine_paths());
        if source.is_split(profile) {
            // Where which function is spoken of: what is cut moves.
            flags.push_str(" -Clink-args=--emit-relocs");
        }
        cargo.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS", flags.trim_end());
    }
    cargo
}

fn folder() -> PathBuf {
    run::root().join("target-wasm")
}

/// The file that a compilation has left.
fn compiled(source: Source, profile: Profile) -> Done<PathBuf> {
    let wasm = folder().join(tools::WASM).join(profile.name()).join(source.artefact);
    if wasm.is_file() {
        return Ok(wasm);
    }
    Err(Failure::new(
        format!("cargo left no {}", source.artefact),
        "compare the names in the package's Cargo.toml with those in crates/xtask",
    ))
}

/// Panic messages carry the path of their source file. A visitor has no use for
/// the folders of the machine that built the page, and two machines should
/// build the same bytes.
fn without_machine_paths() -> String {
    let home = std::env::var_os("CARGO_HOME").map(PathBuf::from).or_else(|| {
        let home = std::env::var_os("HOME").or_else(|| std::env::var_os("USERPROFILE"))?;
        Some(Path::new(&home).join(".cargo"))
    });
    let mut flags = format!("--remap-path-prefix={}=.", run::root().display());
    if let Some(home) = home {
        // Each registry has a folder named after its host.
        let sources = home.join("registry").join("src");
        let registries = std::fs::read_dir(&sources).into_iter().flatten().flatten();
        for registry in registries {
            flags.push_str(&format!(" --remap-path-prefix={}=crates", registry.path().display()));
        }
    }
    flags
}

/// Writes the JavaScript that goes with a compiled wasm, and the wasm as that
/// JavaScript wants it, into `folder`, which it empties first; beside it what is cut out.
pub(crate) fn bind(
    wasm: &Path,
    source: Source,
    profile: Profile,
    for_use: Use,
    folder: &Path,
) -> Done {
    let name = source.name;
    if folder.exists() {
        std::fs::remove_dir_all(folder).doing(format!("empty {}", folder.display()))?;
    }
    std::fs::create_dir_all(folder).doing(format!("make {}", folder.display()))?;
    let split = source.is_split(profile);
    let wasm = if split { &split::cut(wasm, name, folder)? } else { wasm };
    let mut bindgen = Bindgen::new();
    bindgen.input_path(wasm).out_name(name).typescript(false);
    // What is cut out asks for the table and the globals by the names that the linker gave.
    bindgen.keep_lld_exports(split);
    if profile == Profile::Small {
        bindgen.remove_name_section(true);
        bindgen.remove_producers_section(true);
    }
    let shaped = match for_use {
        Use::Module => bindgen.web(true),
        Use::Inline => bindgen.no_modules(true),
    };
    let bound = shaped.and_then(|bindgen| bindgen.generate(folder));
    bound.map_err(|error| {
        Failure::new(
            format!("wasm-bindgen could not read {}: {error:#}", wasm.display()),
            "every wasm-bindgen part must be of the version pinned in Cargo.toml: `cargo tree -i wasm-bindgen`",
        )
    })
}

/// How it is made small. Measured: flattened first and gone over twice, half a percent less
/// than once.
const SMALL: [&str; 4] = ["--flatten", "--rereloop", "-Oz", "-Oz"];

/// Shrinks a wasm in place with `wasm-opt`.
pub(crate) fn shrink(wasm: &Path) -> Done {
    let tool = tools::wasm_opt()?;
    let small = wasm.with_extension("small");
    // The file itself says which features it may use. Never --all-features:
    // browsers refuse what wasm-opt then writes.
    run::show(
        run::program("node").arg(&tool).args(SMALL).arg(wasm).arg("-o").arg(&small),
        "delete node_modules and type `npm ci --ignore-scripts`",
    )?;
    std::fs::rename(&small, wasm).doing(format!("replace {}", wasm.display()))
}
