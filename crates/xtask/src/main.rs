//! The project's only build tool. A flat match, one file per command.
//!
//! It builds, serves and runs; it knows nothing about loudspeakers. It leans on
//! few crates so that `serve` starts fast on a machine that has never built the
//! project: compression, the loading check and making scripts and styles short are
//! left to Node, which the project needs anyway.

mod args;
mod bench;
mod bind;
mod build;
mod campaign;
mod check;
mod figures;
mod glue;
mod http;
mod licences;
mod minify;
mod module;
mod offline;
mod pack;
mod ratchet;
mod run;
mod say;
mod serve;
mod single;
mod site;
mod slim;
mod split;
mod styles;
mod tally;
mod test;
mod tidy;
mod tools;
mod watch;

use args::Command;
use std::process::ExitCode;

fn main() -> ExitCode {
    let command = match args::parse(std::env::args().skip(1)) {
        Ok(command) => command,
        Err(problem) => {
            eprintln!("{problem}\n\n{}", args::USAGE);
            return ExitCode::from(2);
        }
    };
    let done = match command {
        Command::Help => {
            println!("{}", args::USAGE);
            Ok(())
        }
        Command::Serve { port, open } => serve::run(port, open),
        Command::Build { single_file: false } => {
            build::run().and_then(|visit| figures::keep(&visit.weighed))
        }
        Command::Build { single_file: true } => single::run().and_then(|()| figures::keep_single()),
        Command::Test { only } => test::run(only),
        Command::BuildForTests(built) => test::build_one(built),
        Command::Campaign { seed, calls, minutes } => campaign::run(seed, calls, minutes),
        Command::Check { note } => check::run(note),
        Command::Bench { rest } => bench::run(&rest),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            eprintln!("\n{failure}");
            ExitCode::FAILURE
        }
    }
}
