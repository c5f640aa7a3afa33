//! `cargo xtask campaign`: the same comparisons as in every run of the tests, but all of
//! them, and with what is drawn drawn anew. What fails there is kept beside its test, in a
//! file that every run goes through first.

use std::io::Write;
use std::path::Path;

/// Where the numbers of a campaign begin; `None` in an ordinary run, which draws the same
/// each time.
#[must_use]
pub fn seed() -> Option<u64> {
    std::env::var("COILWRIGHT_CAMPAIGN").ok()?.parse().ok()
}

/// How many times as many cases of a law a campaign tries.
pub const TIMES: u32 = 10;

/// So many in an ordinary run, or so many in a campaign.
#[must_use]
pub fn so_many(ordinary: usize, in_full: usize) -> usize {
    if seed().is_some() { in_full } else { ordinary }
}

/// Whether this pair of cases, counted from 0 on either side, is compared: every pair in a
/// campaign, else every other one, so that each case of either side has its turn.
#[must_use]
pub fn compared(one: usize, other: usize) -> bool {
    seed().is_some() || (one + other).is_multiple_of(2)
}

/// Keeps what failed in a campaign, a line each, in a file beside the tests.
pub fn keep(file: &Path, failed: &str) {
    if seed().is_none() {
        return;
    }
    let open = std::fs::OpenOptions::new().append(true).create(true).open(file);
    let kept = open.and_then(|mut file| writeln!(file, "{failed}"));
    match kept {
        Ok(()) => eprintln!("kept in {}", file.display()),
        Err(error) => eprintln!("not kept in {}: {error}", file.display()),
    }
}

/// What was kept, first of all that is compared.
#[must_use]
pub fn kept(file: &Path) -> Vec<String> {
    let text = std::fs::read_to_string(file).unwrap_or_default();
    text.lines().filter(|line| !line.is_empty()).map(str::to_owned).collect()
}
