//! What was typed after `cargo xtask`.

use lexopt::{
    Arg::{Long, Short, Value},
    Error, Parser, ValueExt,
};
use std::fmt::Display;
use std::str::FromStr;

/// Printed for `help` and after anything that cannot be understood.
pub(crate) const USAGE: &str = "\
cargo xtask serve [--port N] [--open]   build the page, serve it on 127.0.0.1, rebuild and reload on change
cargo xtask build [--single-file]       write dist/ (the site) and dist/module/ (the JavaScript module), or
                                        the page as one file: dist/single-file/coilwright.html
cargo xtask test [--only PART]          run every test, or one part:
                                        tools, solver, words, module, drawing, web, proof, browser, spice
cargo xtask test --build WHAT           build what tests are about, and run none: site, single-file,
                                        trapped-page, built-module, compared, components
cargo xtask campaign [--seed N] [--calls N] [--minutes N]
                                        call the module 300,000 times with what nobody would give it, and
                                        see that it never throws and answers afterwards as before; then
                                        compare in full for 10 minutes what every test compares a share of
cargo xtask check [--note]              format, lints for host and wasm, docs, tidy; then build what ships,
                                        and see that no file grew beside docs/ratchet.txt, or note it there
cargo xtask bench [page | search | sim] measure the solver and the page, or the page alone, against
                                        their bounds and docs/ratchet.txt (--note: note it there); look
                                        for the slowest request; or draw faults and see how often they
                                        are named first";

/// One thing to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Command {
    /// Print the usage.
    Help,
    /// Serve the page while working on it.
    Serve {
        /// The port asked for; any free one near the usual when absent.
        port: Option<u16>,
        /// Open a browser on it.
        open: bool,
    },
    /// Write `dist/`.
    Build {
        /// The page as one file, in place of the site and the module.
        single_file: bool,
    },
    /// Run tests.
    Test {
        /// Everything when absent.
        only: Option<Part>,
    },
    /// Build one thing that tests are about, and run none.
    BuildForTests(Built),
    /// Look without running, and build what ships.
    Check {
        /// Write what it weighs as what it may weigh.
        note: bool,
    },
    /// Ask the module what nobody would ask it, many times, and compare in full.
    Campaign {
        /// Where the numbers that it draws begin; from the clock when absent.
        seed: Option<u32>,
        /// How many calls of the module.
        calls: Option<u32>,
        /// How long the proofs compare afterwards.
        minutes: Option<u32>,
    },
    /// Measure.
    Bench {
        /// For the benches.
        rest: Vec<String>,
    },
}

/// A part of the tests that can be run alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Part {
    Tools,
    Solver,
    Words,
    Module,
    Drawing,
    Web,
    Proof,
    Browser,
    Spice,
}

impl Part {
    /// Every part, in the order in which a full run takes them: quick ones while things are
    /// still built, then the longest.
    pub(crate) const ALL: [Self; 9] = [
        Self::Tools,
        Self::Solver,
        Self::Words,
        Self::Drawing,
        Self::Spice,
        Self::Browser,
        Self::Module,
        Self::Proof,
        Self::Web,
    ];

    /// As typed.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Tools => "tools",
            Self::Solver => "solver",
            Self::Words => "words",
            Self::Module => "module",
            Self::Drawing => "drawing",
            Self::Web => "web",
            Self::Proof => "proof",
            Self::Browser => "browser",
            Self::Spice => "spice",
        }
    }
}

/// What is built because tests are about it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Built {
    /// The page and the module, as they ship.
    Site,
    /// The page as one file.
    SingleFile,
    /// The page with a rig that stops it.
    Trapped,
    /// The module alone, where the page is not wanted.
    Module,
    /// The module that is compared with native answers, with every check and made small.
    Compared,
    /// The page's components with their tests, and what runs them.
    Components,
}

impl Built {
    /// All, in the order in which they are built: first what most waits for.
    pub(crate) const ALL: [Self; 6] = [
        Self::Site,
        Self::SingleFile,
        Self::Trapped,
        Self::Module,
        Self::Compared,
        Self::Components,
    ];

    /// As printed, and typed.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Site => "site",
            Self::SingleFile => "single-file",
            Self::Trapped => "trapped-page",
            Self::Module => "built-module",
            Self::Compared => "compared",
            Self::Components => "components",
        }
    }

    /// The parts that test it.
    pub(crate) fn needed_by(self) -> &'static [Part] {
        match self {
            Self::Site | Self::SingleFile | Self::Trapped => &[Part::Browser],
            Self::Module => &[Part::Module],
            Self::Compared => &[Part::Proof],
            Self::Components => &[Part::Web],
        }
    }
}

/// Reads the arguments after `cargo xtask`.
///
/// # Errors
/// A sentence that says what was not understood.
pub(crate) fn parse(words: impl Iterator<Item = String>) -> Result<Command, String> {
    command(&mut Parser::from_args(words)).map_err(|error| match error {
        Error::MissingValue { option: Some(option) } => format!("{option} needs a value"),
        Error::UnexpectedOption(option) => format!("`{option}` is not understood here"),
        Error::UnexpectedArgument(word) => {
            format!("`{}` is not understood here", word.to_string_lossy())
        }
        Error::UnexpectedValue { option, value } => {
            format!("`{option}={}` is not understood here", value.to_string_lossy())
        }
        other => other.to_string(),
    })
}

fn command(words: &mut Parser) -> Result<Command, Error> {
    let first = match words.next()? {
        None | Some(Short('h') | Long("help")) => return Ok(Command::Help),
        Some(Value(first)) => first.string()?,
        Some(other) => return Err(other.unexpected()),
    };
    match first.as_str() {
        "help" => Ok(Command::Help),
        "serve" => {
            let (mut port, mut open) = (None, false);
            while let Some(word) = words.next()? {
                match word {
                    Long("port") if port.is_none() => {
                        port = Some(number(words, "--port", u16::MAX)?)
                    }
                    Long("open") => open = true,
                    other => return Err(other.unexpected()),
                }
            }
            Ok(Command::Serve { port, open })
        }
        "build" => {
            let mut single_file = false;
            while let Some(word) = words.next()? {
                match word {
                    Long("single-file") => single_file = true,
                    other => return Err(other.unexpected()),
                }
            }
            Ok(Command::Build { single_file })
        }
        "test" => {
            let (mut only, mut built) = (None, None);
            while let Some(word) = words.next()? {
                match word {
                    Long("only") if only.is_none() => {
                        only = Some(one(words, ["--only", "part"], &Part::ALL, Part::name)?)
                    }
                    Long("build") if built.is_none() => {
                        built = Some(one(
                            words,
                            ["--build", "thing to build"],
                            &Built::ALL,
                            Built::name,
                        )?);
                    }
                    other => return Err(other.unexpected()),
                }
            }
            Ok(built.map_or(Command::Test { only }, Command::BuildForTests))
        }
        "campaign" => {
            let (mut seed, mut calls, mut minutes) = (None, None, None);
            while let Some(word) = words.next()? {
                match word {
                    Long("seed") if seed.is_none() => {
                        seed = Some(number(words, "--seed", u32::MAX)?)
                    }
                    Long("calls") if calls.is_none() => {
                        calls = Some(number(words, "--calls", u32::MAX)?)
                    }
                    Long("minutes") if minutes.is_none() => {
                        minutes = Some(number(words, "--minutes", u32::MAX)?)
                    }
                    other => return Err(other.unexpected()),
                }
            }
            Ok(Command::Campaign { seed, calls, minutes })
        }
        "check" => {
            let mut note = false;
            while let Some(word) = words.next()? {
                match word {
                    Long("note") => note = true,
                    other => return Err(other.unexpected()),
                }
            }
            Ok(Command::Check { note })
        }
        "bench" => {
            let rest: Result<Vec<String>, Error> =
                words.raw_args()?.map(ValueExt::string).collect();
            Ok(Command::Bench { rest: rest? })
        }
        other => Err(format!("there is no command `{other}`").into()),
    }
}

/// The value of an option, where it is the name of one of some.
fn one<T: Copy>(
    words: &mut Parser,
    [name, what]: [&str; 2],
    all: &[T],
    named: fn(T) -> &'static str,
) -> Result<T, Error> {
    let text = words.value()?.string()?;
    let found = all.iter().copied().find(|one| named(*one) == text);
    found.ok_or_else(|| format!("{name} does not know a {what} `{text}`").into())
}

/// The value of an option, where it is a whole number up to the most that fits.
fn number<N: FromStr + Display>(words: &mut Parser, name: &str, most: N) -> Result<N, Error> {
    let text = words.value()?.string()?;
    text.parse().map_err(|_| format!("{name} takes a number up to {most}, not `{text}`").into())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(line: &str) -> Result<Command, String> {
        parse(line.split_whitespace().map(str::to_owned))
    }

    #[test]
    fn what_is_understood() {
        let serve = |port, open| Ok(Command::Serve { port, open });
        for (line, expected) in [
            ("", Ok(Command::Help)),
            ("--help", Ok(Command::Help)),
            ("serve", serve(None, false)),
            ("serve --open --port 90", serve(Some(90), true)),
            ("serve --port=0", serve(Some(0), false)),
            ("build", Ok(Command::Build { single_file: false })),
            ("build --single-file", Ok(Command::Build { single_file: true })),
            ("test", Ok(Command::Test { only: None })),
            ("test --build trapped-page", Ok(Command::BuildForTests(Built::Trapped))),
            ("test --only spice", Ok(Command::Test { only: Some(Part::Spice) })),
            ("check", Ok(Command::Check { note: false })),
            ("check --note", Ok(Command::Check { note: true })),
            ("campaign", Ok(Command::Campaign { seed: None, calls: None, minutes: None })),
            (
                "campaign --seed 7 --calls=3000 --minutes 60",
                Ok(Command::Campaign { seed: Some(7), calls: Some(3_000), minutes: Some(60) }),
            ),
            ("bench --quick", Ok(Command::Bench { rest: vec!["--quick".to_owned()] })),
        ] {
            assert_eq!(read(line), expected, "{line}");
        }
    }

    #[test]
    fn what_is_refused() {
        for (line, part_of_the_reason) in [
            ("frobnicate", "no command `frobnicate`"),
            ("serve --port", "--port needs a value"),
            ("serve --port 70000", "not `70000`"),
            ("serve now", "`now` is not understood"),
            ("campaign --calls -1", "--calls takes a number up to 4294967295, not `-1`"),
            ("serve --open=yes", "`--open=yes` is not understood"),
            ("serve --port 1 --port 2", "`--port` is not understood"),
            ("build --fast", "`--fast` is not understood"),
            ("--fast", "`--fast` is not understood"),
            ("check everything", "`everything` is not understood"),
            ("test --only everything", "a part `everything`"),
            ("test --build castles", "a thing to build `castles`"),
        ] {
            let reason = read(line).unwrap_err();
            assert!(reason.contains(part_of_the_reason), "{line}: {reason}");
        }
    }

    #[test]
    fn every_part_and_every_build_is_in_the_usage() {
        let builds = Built::ALL.map(Built::name);
        for name in Part::ALL.map(Part::name).iter().chain(&builds) {
            assert!(USAGE.contains(name), "{name}");
        }
    }
}
