//! How often what the module names first is what is wrong, on a bench that is not its own.
//!
//! `sim` draws faults of every kind, 100 that are noticed of each, for each of what may be
//! known of the coils, and as many sound rigs; it prints a table. Options:
//!
//! | option | means |
//! |---|---|
//! | `--faults N` | so many noticed faults of each kind (100) |
//! | `--sound N` | so many sound rigs for each of what is known (1000) |
//! | `--seed N` | another seed (1) |
//! | `--known nominal` | that alone; `measured` or `read` likewise |
//! | `--kind turns` | faults of that kind alone |
//! | `--threads N` | so many at a time (1) |
//! | `--misses` | then every miss and every false alarm, a JSON line each |
//! | `--bound N` | instead: of N silent faults of each kind, how many anybody could doubt |
//! | `--every N` | with that: the fault not known for one in N of them alone (1) |
//! | `--replay FILE:LINE` | the job of such a line again, reading by reading |
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a measurement stops at the first surprise"
)]

mod bounds;
mod kept;
mod options;
mod replay;
mod table;
mod threads;

use std::process::ExitCode;

fn main() -> ExitCode {
    match options::Options::read(std::env::args().skip(1)) {
        Ok(options) => match (&options.replay, options.bound) {
            (Some(line), _) => replay::line(line),
            (None, Some(many)) => {
                bounds::print(&options, many);
                ExitCode::SUCCESS
            }
            (None, None) => {
                table::print(&options);
                ExitCode::SUCCESS
            }
        },
        Err(reason) => {
            eprintln!("{reason}");
            ExitCode::FAILURE
        }
    }
}
