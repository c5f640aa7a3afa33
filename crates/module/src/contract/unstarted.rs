//! What the functions answer as long as no wasm can.

use crate::answer::{Answer, ClosedBox, Diagnosis, Readings, Wiring};
use coilwright_solver::problem::{Code, Detail, Path, Problem};
use core::fmt::Write;
use serde::Serialize;

/// The script `coilwright_unstarted.js`: by the name of each function what gives its answer
/// before the module is loaded, a new one each time.
///
/// # Example
/// ```
/// let script = coilwright_module::contract::unstarted();
/// assert!(script.contains("\n  closed_box: () => ({\"contract_version\":1,"));
/// ```
#[must_use]
pub fn unstarted() -> String {
    let found = [Problem::new(Path::root(), Code::NotStarted, Detail::None)];
    let mut script = HEAD.to_owned();
    // By their names, as an export list is read.
    entry(&mut script, "closed_box", &ClosedBox::of_problems(&found));
    entry(&mut script, "configurations", &Answer::of_problems(&found));
    entry(&mut script, "diagnose", &Diagnosis::of_problems(&found));
    // A list that was opened too early stays so: it was never asked.
    let page = text(&Answer::of_problems(&found));
    let _ = writeln!(script, "  open: () => ({{ page: () => ({page}), close() {{}} }}),");
    entry(&mut script, "readings", &Readings::of_problems(&found));
    entry(&mut script, "wiring", &Wiring::of_problems(&found));
    script.push_str("};\n");
    script
}

const HEAD: &str = "\
// What each function answers before the module is loaded. Written by the project; do not edit.
export const unstarted = {
";

fn entry(script: &mut String, name: &str, answer: &impl Serialize) {
    // Writing to a String never fails.
    let _ = writeln!(script, "  {name}: () => ({}),", text(answer));
}

fn text(answer: &impl Serialize) -> String {
    // No structure of an answer can fail to be written.
    serde_json::to_string(answer).unwrap_or_default()
}
