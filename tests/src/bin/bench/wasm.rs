//! Measuring in wasm: the module that ships, under Node.

use crate::cases::Case;
use serde_json::Value;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

pub(crate) struct Wasm {
    pub(crate) milliseconds: f64,
    pub(crate) megabytes: f64,
}

/// The module's folder: where the environment says, or where a build leaves it.
fn module() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folder = std::env::var_os("COILWRIGHT_MODULE")
        .map_or_else(|| here.join("../dist/module"), PathBuf::from);
    assert!(
        folder.join("coilwright.js").is_file(),
        "no module in {}: `cargo xtask build` leaves one",
        folder.display()
    );
    folder
}

/// Every case in a fresh instance.
pub(crate) fn measured(cases: &[Case]) -> Vec<Wasm> {
    let mut node = Command::new("node")
        .arg(Path::new(env!("CARGO_MANIFEST_DIR")).join("src/bin/bench/module.mjs"))
        .arg(module())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| panic!("node 20 or newer is needed: {error}"));
    let lines: Vec<String> = cases.iter().map(|case| case.json().to_string()).collect();
    let mut stdin = node.stdin.take().unwrap();
    let sent = stdin.write_all(lines.join("\n").as_bytes());
    drop(stdin);
    let output = node.wait_with_output().unwrap();
    assert!(output.status.success(), "node ended with {}", output.status);
    sent.unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    let figures = text.lines().map(|line| {
        let value: Value = serde_json::from_str(line).unwrap();
        Wasm {
            milliseconds: value["milliseconds"].as_f64().unwrap(),
            megabytes: value["bytes"].as_f64().unwrap() / f64::from(1 << 20),
        }
    });
    let figures: Vec<Wasm> = figures.collect();
    assert_eq!(figures.len(), cases.len());
    figures
}
