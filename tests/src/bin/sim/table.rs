//! Kinds by what is known of the coils.

use crate::kept;
use crate::options::Options;
use crate::threads::shared_out;
use proof::sim::draw::PRINCIPAL;
use proof::sim::rigs::Known;
use proof::sim::tally::{Sound, Tally, kind, sound};
use std::time::Instant;

/// What is measured at once.
pub(crate) enum Part {
    Kind(Known, &'static str, Tally),
    Sound(Known, Sound),
}

pub(crate) fn print(options: &Options) {
    let since = Instant::now();
    let done = measured(options);
    println!(
        "{:<9} {:<13} {:>6} {:>8} {:>7} {:>6} {:>5} {:>7} {:>9} {:>7} {:>8} {:>9}",
        "coils",
        "kind",
        "drawn",
        "noticed",
        "itself",
        "alike",
        "near",
        "first",
        "readings",
        "silent",
        "doubted",
        "not excl."
    );
    let mut misses = Vec::new();
    for known in &options.known {
        let mut principal = Tally::default();
        for part in &done {
            let Part::Kind(of, kind, tally) = part else { continue };
            if of == known {
                row(known.name(), kind, tally);
                misses.extend(tally.misses.iter());
                if PRINCIPAL.contains(kind) {
                    principal.add(tally);
                }
            }
        }
        row(known.name(), "twelve kinds", &principal);
        for part in &done {
            let Part::Sound(of, found) = part else { continue };
            if of == known {
                told(*known, found);
                misses.extend(found.alarms.iter());
            }
        }
        println!();
    }
    println!("seed {}, {:.0} s", options.seed, since.elapsed().as_secs_f64());
    kept::keep(options, &done);
    if options.misses {
        for miss in misses {
            println!("{miss}");
        }
    }
}

#[allow(clippy::cast_precision_loss, reason = "counts are small")]
fn row(known: &str, kind: &str, tally: &Tally) {
    println!(
        "{known:<9} {kind:<13} {:>6} {:>8} {:>7} {:>6} {:>5} {:>6.1}% {:>9.2} {:>7} {:>8} {:>9}",
        tally.drawn,
        tally.noticed,
        tally.itself,
        tally.alike,
        tally.near,
        100.0 * tally.share(),
        tally.readings as f64 / tally.noticed.max(1) as f64,
        tally.silent,
        tally.doubted,
        tally.not_excluded,
    );
}

fn told(known: Known, found: &Sound) {
    let mut sound = found.sound.clone();
    sound.sort_by(f64::total_cmp);
    let least = sound.get(sound.len() / 100);
    println!(
        "{:<9} {} sound rigs: {} called wrong, {} doubted; `sound` of all but the lowest 1 %: {}",
        known.name(),
        found.rigs,
        found.wrong,
        found.doubted,
        least.map_or("not told".to_owned(), |least| format!("at least {least:.2}")),
    );
    println!(
        "{:<9} {} kinds at points that cannot exclude them, {} of them indeed",
        known.name(),
        found.named,
        found.indeed,
    );
}

/// Everything asked for, in order, however many work on it.
fn measured(options: &Options) -> Vec<Part> {
    let mut wanted: Vec<(Known, Option<&'static str>)> = Vec::new();
    for known in &options.known {
        wanted.extend(
            options.kinds.iter().copied().map(Some).chain([None]).map(|kind| (*known, kind)),
        );
    }
    shared_out(wanted, options.threads, |(known, what)| match what {
        Some(name) => Part::Kind(known, name, kind(options.seed, known, name, options.faults)),
        None => Part::Sound(known, sound(options.seed, known, options.sound)),
    })
}
