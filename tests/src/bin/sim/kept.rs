//! What is kept in the document: kinds by what is known of the coils.

use crate::options::Options;
use crate::table::Part;
use proof::sim::draw::PRINCIPAL;
use proof::sim::rigs::Known;
use proof::sim::tally::Tally;
use proof::told::{SIM, Told};

/// Keeps the shares of a run of every kind, as large as one is unless asked otherwise.
/// Anything less is for whoever looks now.
pub(crate) fn keep(options: &Options, done: &[Part]) {
    if !options.is_whole() {
        return;
    }
    println!();
    let mut told = Told::default();
    told.line(format_args!(
        "{} noticed faults of each kind, seed {}.\n",
        options.faults, options.seed
    ));
    let mut head = "| kind |".to_owned();
    for known in &options.known {
        let name = match known {
            Known::Nominal => "by label",
            Known::Measured => "stated",
            Known::Read => "read",
        };
        head.push_str(&format!(" {name} |"));
    }
    told.line(head + " reads right throughout, of these doubted |");
    told.line(format!("|---|{}---|", "--:|".repeat(options.known.len())));
    let mut sums = vec![Tally::default(); options.known.len()];
    for kind in &options.kinds {
        let of: Vec<&Tally> = tallies(options, done, kind);
        if PRINCIPAL.contains(kind) {
            for (sum, tally) in sums.iter_mut().zip(&of) {
                sum.add(tally);
            }
        }
        told.line(row(&format!("`{kind}`"), &of));
        if PRINCIPAL.last() == Some(kind) {
            told.line(row("**all twelve**", &sums.iter().collect::<Vec<_>>()));
        }
    }
    told.line("");
    for part in done {
        if let Part::Sound(known, found) = part {
            told.line(format_args!(
                "Of {} sound rigs, coils {}: {} called wrong, {} doubted.",
                found.rigs,
                known.name(),
                found.wrong,
                found.doubted
            ));
        }
    }
    told.keep(SIM);
}

/// What came of a kind, for each of what is known.
fn tallies<'a>(options: &Options, done: &'a [Part], kind: &str) -> Vec<&'a Tally> {
    let of = |known| {
        done.iter().find_map(|part| match part {
            Part::Kind(of, name, tally) if *of == known && *name == kind => Some(tally),
            _ => None,
        })
    };
    options.known.iter().filter_map(|known| of(*known)).collect()
}

fn row(name: &str, tallies: &[&Tally]) -> String {
    let shares = tallies.iter().map(|tally| format!(" {:.1} % |", 100.0 * tally.share()));
    let silent = tallies.iter().map(|tally| format!("{}: {}", tally.silent, tally.doubted));
    let silent: Vec<String> = silent.collect();
    format!("| {name} |{} {} |", shares.collect::<String>(), silent.join(", "))
}
