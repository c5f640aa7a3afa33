//! The tests that run on this machine: compiled all at once, so that no crate is compiled
//! twice for the features of one package and of another, and then run part by part.

use super::lanes::Paper;
use crate::args::Part;
use crate::run;
use crate::say::{Done, Failure};
use serde_json::Value;
use std::path::PathBuf;
use std::process::Command;

/// What every failure of a compiler leaves to do.
pub(super) const COMPILER: &str = "read the compiler's message above";

/// Where all that crosses crates is proved.
const PROOF: &str = "proof";

/// A test binary.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Binary {
    package: String,
    target: String,
    program: PathBuf,
    /// The folder of its package, in which tests run.
    folder: PathBuf,
}

/// The package whose tests make up a part, and which of them: `None` stands for its own
/// binary or library.
fn holds(part: Part, package: &str, test: Option<&str>) -> bool {
    match part {
        Part::Tools => package == "xtask",
        Part::Solver => package == "coilwright-solver",
        Part::Words => package == "coilwright-words",
        Part::Drawing => package == "coilwright-drawing",
        Part::Module => package == crate::module::PACKAGE,
        // Its other test is for a browser: `components`.
        Part::Web => package == "coilwright-web" && test.is_none(),
        Part::Proof => package == PROOF && !matches!(test, Some("browser" | "spice")),
        Part::Browser => package == PROOF && test == Some("browser"),
        Part::Spice => package == PROOF && test == Some("spice"),
    }
}

/// What follows `cargo test` so that the tests of some parts are compiled, with which
/// packages these are; the tool's own apart, which the rest must not compile anew.
fn arguments(metadata: &str, parts: &[Part]) -> Option<Vec<String>> {
    let metadata: Value = serde_json::from_str(metadata).ok()?;
    let mut packages = Vec::new();
    let mut targets = Vec::new();
    for package in metadata["packages"].as_array()? {
        let name = package["name"].as_str()?;
        let mut any = false;
        for target in package["targets"].as_array()? {
            let (kind, of) = (target["kind"][0].as_str()?, target["name"].as_str()?);
            let test = (kind == "test").then_some(of);
            if !matches!(kind, "lib" | "test") || !parts.iter().any(|part| holds(*part, name, test))
            {
                continue;
            }
            any = true;
            match test {
                Some(test) => targets.extend(["--test".to_owned(), test.to_owned()]),
                None if targets.contains(&"--lib".to_owned()) => {}
                None => targets.push("--lib".to_owned()),
            }
        }
        if any {
            packages.extend(["-p".to_owned(), name.to_owned()]);
            if name == PROOF && parts.contains(&Part::Browser) {
                packages.extend(["--features".to_owned(), format!("{PROOF}/browser")]);
            }
        }
    }
    (!targets.is_empty()).then(|| [packages, targets].concat())
}

/// What the workspace is made of, as cargo tells it.
fn metadata() -> Done<String> {
    run::read(
        run::cargo().args(["metadata", "--no-deps", "--format-version", "1"]),
        "`cargo metadata` must work in the workspace",
    )
}

/// Compiles the tests of the parts.
pub(super) fn build(parts: &[Part], paper: &Paper) -> Done<Vec<Binary>> {
    let mut binaries = Vec::new();
    if parts.contains(&Part::Tools) {
        compile(&["-p".to_owned(), "xtask".to_owned()], paper, &mut binaries)?;
    }
    if let Some(arguments) = arguments(&metadata()?, parts) {
        compile(&arguments, paper, &mut binaries)?;
    }
    Ok(binaries)
}

fn compile(arguments: &[String], paper: &Paper, into: &mut Vec<Binary>) -> Done {
    let mut cargo = run::cargo();
    cargo.args(["test", "--no-run", "--message-format=json-render-diagnostics"]);
    paper.run(cargo.args(arguments), COMPILER, |line| {
        into.extend(binary(line));
        false
    })
}

/// The test binary that a line of cargo's is about.
fn binary(line: &str) -> Option<Binary> {
    let told: Value = serde_json::from_str(line).ok()?;
    if told["reason"] != "compiler-artifact" || told["profile"]["test"] != true {
        return None;
    }
    let program = PathBuf::from(told["executable"].as_str()?);
    let folder = PathBuf::from(told["manifest_path"].as_str()?).parent()?.to_path_buf();
    let target = &told["target"];
    let name = target["name"].as_str()?;
    // `path+file:///…/crates/solver#coilwright-solver@0.1.0`, without the name where the
    // folder is called so.
    let (_, id) = told["package_id"].as_str()?.rsplit_once('#')?;
    let package = match id.split_once('@') {
        Some((package, _)) => package.to_owned(),
        None => folder.file_name()?.to_str()?.to_owned(),
    };
    let is_test = target["kind"][0] == "test";
    let target = if is_test { name.to_owned() } else { String::new() };
    Some(Binary { package, target, program, folder })
}

/// The commands that run the tests of a part, each as cargo would.
pub(super) fn commands(part: Part, binaries: &[Binary]) -> Vec<Command> {
    let of_part = binaries.iter().filter(|binary| {
        let test = Some(binary.target.as_str()).filter(|target| !target.is_empty());
        holds(part, &binary.package, test)
    });
    of_part
        .map(|binary| {
            let mut command = Command::new(&binary.program);
            command.current_dir(&binary.folder).env("CARGO_MANIFEST_DIR", &binary.folder);
            command
        })
        .collect()
}

/// The command that runs the examples in the documentation of the parts' packages, compiled
/// with the very crates that their tests were.
pub(super) fn examples(parts: &[Part]) -> Done<Option<Command>> {
    let Some(arguments) = arguments(&metadata()?, parts) else { return Ok(None) };
    if !arguments.contains(&"--lib".to_owned()) {
        return Ok(None);
    }
    let mut cargo = run::cargo();
    cargo.args(["test", "--no-fail-fast", "--doc"]);
    let mut arguments = arguments.into_iter();
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--lib" => {}
            "--test" => drop(arguments.next()),
            _ => drop(cargo.arg(argument)),
        }
    }
    Ok(Some(cargo))
}

/// That no test of a part was compiled, which would be no success.
pub(super) fn none(part: Part) -> Failure {
    Failure::new(
        format!("no test binary of the part {} was compiled", part.name()),
        "look for its package in `holds` of crates/xtask/src/test/native.rs",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    const METADATA: &str = r#"{"packages":[{"name":"other","targets":[{"kind":["lib"],"name":"other"}]},
        {"name":"xtask","targets":[{"kind":["bin"],"name":"xtask"}]},
        {"name":"coilwright-web","targets":[{"kind":["lib"],"name":"coilwright_web"},
            {"kind":["test"],"name":"components"}]},
        {"name":"proof","targets":[{"kind":["lib"],"name":"proof"},{"kind":["test"],"name":"browser"},
            {"kind":["test"],"name":"all"},{"kind":["bin"],"name":"bench"},
            {"kind":["test"],"name":"spice"}]}]}"#;

    #[test]
    fn every_part_has_its_own_tests_and_no_other() {
        for (parts, wanted) in [
            (&[Part::Proof][..], "-p proof --lib --test all"),
            (&[Part::Browser], "-p proof --features proof/browser --test browser"),
            (&[Part::Spice], "-p proof --test spice"),
            (&[Part::Web], "-p coilwright-web --lib"),
            (
                &Part::ALL,
                "-p coilwright-web -p proof --features proof/browser \
                 --lib --test browser --test all --test spice",
            ),
        ] {
            assert_eq!(arguments(METADATA, parts).unwrap().join(" "), wanted);
        }
        assert_eq!(arguments(METADATA, &[Part::Tools]), None, "compiled apart");
        assert_eq!(arguments(r#"{"packages":[]}"#, &Part::ALL), None);
    }

    #[test]
    fn each_binary_runs_once_in_the_folder_of_its_package() {
        let line = |package: &str, kind: &str, name: &str| {
            let manifest = std::env::temp_dir().join("proof").join("Cargo.toml");
            serde_json::json!({
                "reason": "compiler-artifact", "package_id": package, "manifest_path": manifest,
                "target": { "kind": [kind], "name": name }, "profile": { "test": true },
                "executable": format!("/{name}"),
            })
            .to_string()
        };
        let lines = [
            line("path+file:///a/proof#0.1.0", "test", "all"),
            line("path+file:///a/tests#proof@0.1.0", "lib", "proof"),
            line("path+file:///a/tests#proof@0.1.0", "test", "browser"),
            "{\"reason\":\"build-finished\"}".to_owned(),
            "Compiling".to_owned(),
        ];
        let binaries: Vec<Binary> = lines.iter().filter_map(|line| binary(line)).collect();
        assert_eq!(binaries.len(), 3);
        let programs = |part| -> Vec<String> {
            let commands = commands(part, &binaries);
            commands.iter().map(|one| one.get_program().to_string_lossy().into_owned()).collect()
        };
        assert_eq!(programs(Part::Proof), ["/all", "/proof"]);
        assert_eq!(programs(Part::Browser), ["/browser"]);
        assert!(programs(Part::Spice).is_empty() && programs(Part::Tools).is_empty());
        let folder = std::env::temp_dir().join("proof");
        assert_eq!(commands(Part::Browser, &binaries)[0].get_current_dir(), Some(&*folder));
    }
}
