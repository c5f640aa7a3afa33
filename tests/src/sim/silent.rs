//! Silent faults, and how many of them could be doubted.

use super::bound::{Doubts, verdict};
use super::rigs::Known;
use super::session::held;
use super::tally::Case;

/// Counted by normal distributions over all sound rigs, over those that read right, by the
/// better score over either, and the sum of the latter's powers.
#[derive(Clone, Copy, Debug, Default)]
pub struct Could {
    /// Cases.
    pub of: usize,
    /// Of these, doubted by the module.
    pub doubted: usize,
    /// By normal distributions: over all sound rigs, over those that read right.
    pub normal: [usize; 2],
    /// By the better score likewise.
    pub better: [usize; 2],
    /// Sum of powers of the better score.
    pub power: f64,
}

impl Could {
    fn count(&mut self, doubted: bool, found: &Doubts) {
        self.of += 1;
        self.doubted += usize::from(doubted);
        for (counts, doubt) in [(&mut self.normal, found.normal), (&mut self.better, found.better)]
        {
            counts[0] += usize::from(doubt.all);
            counts[1] += usize::from(doubt.right);
        }
        self.power += found.better.power;
    }

    fn add(&mut self, other: &Self) {
        self.of += other.of;
        self.doubted += other.doubted;
        for at in 0..2 {
            self.normal[at] += other.normal[at];
            self.better[at] += other.better[at];
        }
        self.power += other.power;
    }
}

/// What came of the silent faults of a kind.
#[derive(Clone, Copy, Debug, Default)]
pub struct Silent {
    /// Faults drawn.
    pub drawn: usize,
    /// With the fault known.
    pub known: Could,
    /// With it not known.
    pub unknown: Could,
    /// Silent cases of which some point, judged alone, does not read right.
    pub beside: usize,
    /// The least share of sound rigs that read right, over the cases.
    pub least_right: Option<f64>,
    /// Silent faults that could not be drawn again.
    pub lost: usize,
}

impl Silent {
    /// Adds another.
    pub fn add(&mut self, other: &Self) {
        self.drawn += other.drawn;
        self.known.add(&other.known);
        self.unknown.add(&other.unknown);
        self.beside += other.beside;
        self.lost += other.lost;
        if let Some(least) = other.least_right {
            self.least_right = Some(self.least_right.map_or(least, |own| own.min(least)));
        }
    }
}

/// So many silent faults of a kind, or those of eight times as many drawn; the fault not known
/// for one in `every` of them, as that takes long.
pub fn silent(seed: u64, known: Known, kind: &str, wanted: usize, every: usize) -> Silent {
    let mut found = Silent::default();
    for index in 0..8 * wanted as u64 {
        if found.known.of == wanted {
            break;
        }
        let case = Case { seed, known, kind, index };
        let Some((rig, fault)) = case.drawn() else { break };
        found.drawn += 1;
        let held = held(&rig, &fault);
        if held.wrong {
            continue;
        }
        let both = found.known.of.is_multiple_of(every.max(1));
        let Some(verdict) = verdict(&rig, &fault, &held, both) else {
            found.lost += 1;
            continue;
        };
        found.known.count(held.doubted, &verdict.known);
        if let Some(unknown) = &verdict.unknown {
            found.unknown.count(held.doubted, unknown);
        }
        found.beside += usize::from(!verdict.right);
        let least = verdict.sound_right;
        found.least_right = Some(found.least_right.map_or(least, |own| own.min(least)));
    }
    found
}
