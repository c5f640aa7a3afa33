//! Measuring natively: each case in a process of its own, so that its memory is its own.

use crate::cases::{Case, cases};
use coilwright_solver::answer::answer;
use std::hint::black_box;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Output};
use std::time::Instant;

/// The word that starts a process which runs one case.
pub(crate) const CHILD: &str = "run-one-case";

/// How often a case is timed.
const TIMES: u32 = 7;

pub(crate) struct Native {
    pub(crate) milliseconds: f64,
    pub(crate) megabytes: f64,
    pub(crate) configurations: u64,
}

/// Milliseconds of a request, the least of several runs, and how many configurations
/// its answer counts.
pub(crate) fn timed(case: &Case, times: u32) -> (f64, u64) {
    let request = case.request();
    let mut least = f64::INFINITY;
    let mut configurations = 0;
    for _ in 0..times {
        let request = request.clone();
        let start = Instant::now();
        let answer = black_box(answer(black_box(request)));
        least = least.min(start.elapsed().as_secs_f64() * 1e3);
        configurations = answer.total.unwrap_or(0);
    }
    (least, configurations)
}

/// A loop that is the same everywhere, in milliseconds: what times are compared with.
pub(crate) fn fixed_loop() -> f64 {
    let run = || {
        let start = Instant::now();
        let mut state = black_box(0x9E37_79B9_7F4A_7C15_u64);
        for _ in 0..100_000_000_u32 {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
        }
        black_box(state);
        start.elapsed().as_secs_f64() * 1e3
    };
    (0..3).map(|_| run()).fold(f64::INFINITY, f64::min)
}

/// The process that runs one case so many times and prints what it came to.
pub(crate) fn child(case: &str, times: &str) -> ExitCode {
    let index: usize = case.parse().unwrap();
    let (milliseconds, configurations) = timed(&cases()[index], times.parse().unwrap());
    println!("{milliseconds} {configurations} {}", most_memory());
    ExitCode::SUCCESS
}

/// The most kilobytes this process has ever held.
fn most_memory() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let number = line.and_then(|line| line.split_whitespace().next());
    number.map_or_else(
        || panic!("memory is read from /proc/self/status, which only Linux has"),
        |kilobytes| kilobytes.parse().unwrap(),
    )
}

fn myself() -> PathBuf {
    std::env::current_exe().expect("a running program has a file")
}

/// This program again, built natively with the very profile of what ships in wasm: how
/// much slower wasm is is asked of equal optimisation.
pub(crate) fn as_it_ships() -> PathBuf {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let built = Command::new(cargo)
        .current_dir(&root)
        .args(["build", "--quiet", "--profile", "wasm", "-p", "proof", "--bin", "bench"])
        .args(["--target-dir", "target"])
        .status();
    assert!(built.is_ok_and(|status| status.success()), "the bench did not build as it ships");
    root.join("target/wasm/bench")
}

fn finished(command: &mut Command) -> Output {
    let output = command.output().unwrap_or_else(|error| {
        let program = command.get_program().to_string_lossy().into_owned();
        panic!("{program} could not be started ({error}); `valgrind` is a Debian package")
    });
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "a case ended with {}: {complaint}", output.status);
    output
}

/// Runs a case in a process of its own: milliseconds, configurations, kilobytes.
fn of_child(program: &Path, index: usize, times: u32) -> (f64, u64, u64) {
    let output =
        finished(Command::new(program).args([CHILD, &index.to_string(), &times.to_string()]));
    let text = String::from_utf8(output.stdout).unwrap();
    let words: Vec<&str> = text.split_whitespace().collect();
    let [milliseconds, configurations, kilobytes] = words[..] else {
        panic!("a case printed {text}");
    };
    (milliseconds.parse().unwrap(), configurations.parse().unwrap(), kilobytes.parse().unwrap())
}

/// Milliseconds of a case in this or another build of the bench.
pub(crate) fn milliseconds(program: &Path, index: usize) -> f64 {
    of_child(program, index, TIMES).0
}

pub(crate) fn native(index: usize) -> Native {
    let program = myself();
    let (_, _, before) = of_child(&program, index, 0);
    let (_, _, after) = of_child(&program, index, 1);
    let (milliseconds, configurations, _) = of_child(&program, index, TIMES);
    Native { milliseconds, configurations, megabytes: after.saturating_sub(before) as f64 / 1024.0 }
}

/// Instructions of one run of a case, without those of starting and ending.
pub(crate) fn instructions(index: usize) -> u64 {
    let counted = |times: u32| {
        let output = finished(
            Command::new("valgrind")
                .args(["--tool=callgrind", "--callgrind-out-file=/dev/null"])
                .arg(myself())
                .args([CHILD, &index.to_string(), &times.to_string()]),
        );
        let text = String::from_utf8_lossy(&output.stderr).into_owned();
        let line = text.lines().find_map(|line| line.split_once("Collected :"));
        let (_, number) = line.unwrap_or_else(|| panic!("valgrind counted nothing: {text}"));
        number.trim().parse::<u64>().unwrap()
    };
    counted(1) - counted(0)
}
