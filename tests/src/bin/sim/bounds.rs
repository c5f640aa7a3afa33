//! How many silent faults anybody could doubt, by kinds and by what is known of the coils.

use crate::options::Options;
use crate::threads::shared_out;
use proof::sim::draw::PRINCIPAL;
use proof::sim::rigs::Known;
use proof::sim::silent::{Could, Silent, silent};
use std::time::Instant;

pub(crate) fn print(options: &Options, many: usize) {
    let since = Instant::now();
    let done = measured(options, many, since);
    println!(
        "of silent faults, how many could be doubted with one sound rig in a hundred doubted;\n\
         N: scores of normal distributions, B: the better of these and of mean chances, a: \
         threshold over\nall sound rigs, r: over those that read right everywhere; power: of B \
         over draws of the fault"
    );
    let half = format!(
        "{:>6} {:>7} {:>4} {:>4} {:>4} {:>4} {:>6}",
        "cases", "doubted", "N.a", "N.r", "B.a", "B.r", "power"
    );
    println!("{:<9} {:<13} {:>5} | fault known", "", "", "");
    println!("{:<9} {:<13} {:>5} | {half} | {half} (fault not known)", "coils", "kind", "drawn");
    for known in &options.known {
        let mut sum = Silent::default();
        for (of, kind, found) in &done {
            if of == known {
                println!("{}", row(*known, kind, found));
                sum.add(found);
            }
        }
        println!("{}", row(*known, "all of them", &sum));
        println!(
            "{:<9} silent but not right at some point alone: {}; at least {:.3} of sound rigs read right; \
             not drawn again: {}\n",
            known.name(),
            sum.beside,
            sum.least_right.unwrap_or(f64::NAN),
            sum.lost,
        );
    }
    println!("seed {}, {:.0} s", options.seed, since.elapsed().as_secs_f64());
}

fn row(known: Known, kind: &str, found: &Silent) -> String {
    let (one, two) = (half(&found.known), half(&found.unknown));
    format!("{:<9} {kind:<13} {:>5} | {one} | {two}", known.name(), found.drawn)
}

#[allow(clippy::cast_precision_loss, reason = "counts are small")]
fn half(could: &Could) -> String {
    format!(
        "{:>6} {:>7} {:>4} {:>4} {:>4} {:>4} {:>5.1}%",
        could.of,
        could.doubted,
        could.normal[0],
        could.normal[1],
        could.better[0],
        could.better[1],
        100.0 * could.power / could.of.max(1) as f64,
    )
}

/// Every kind that ohms can tell, in order, however many work on it.
fn measured(options: &Options, many: usize, since: Instant) -> Vec<(Known, &'static str, Silent)> {
    let told = |kind: &&'static str| PRINCIPAL.contains(kind) && *kind != "reversed";
    let kinds: Vec<&'static str> = options.kinds.iter().copied().filter(told).collect();
    let wanted = options.known.iter().flat_map(|known| kinds.iter().map(|kind| (*known, *kind)));
    shared_out(wanted.collect(), options.threads, |(known, kind)| {
        let found = silent(options.seed, known, kind, many, options.every);
        // It takes long: each kind is told as it is done, whatever comes of the rest.
        eprintln!("{} ({:.0} s)", row(known, kind, &found), since.elapsed().as_secs_f64());
        (known, kind, found)
    })
}
