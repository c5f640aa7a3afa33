//! Which configurations share the power alike, driver by driver and coil by coil.
//!
//! Networks of one class have coils that get alike, but not drivers: which of the coils are
//! one driver's is for the dealing to say. So all dealings are walked once more, when
//! groups are first asked for.

use super::combine::next_choice;
use super::working::Configurations;
use crate::listing::contents::Contents;
use crate::names::Names;
use crate::network::dealing::Dealt;
use crate::short;
use crate::work::Steps;

/// How the networks of each strand share, by number: equal on outputs of one kind exactly
/// where load and shares are.
struct Sharing {
    /// Where those of each strand begin.
    first: Vec<u32>,
    /// One for each network of a strand, or one for all.
    numbers: Vec<u32>,
}

impl Sharing {
    /// Of a strand's networks: one for each, or one for all.
    fn of(&self, strand: u32) -> &[u32] {
        let at = |number: usize| self.first.get(number).map_or(0, |first| *first as usize);
        let strand = strand as usize;
        self.numbers.get(at(strand)..at(strand.saturating_add(1))).unwrap_or(&[])
    }
}

impl Configurations {
    /// The group of each configuration in rank order: how many stand before the first of
    /// the group.
    pub(super) fn find_groups(&self) -> Vec<u32> {
        let sharing = self.sharing();
        let mut names = Names::default();
        let mut firsts: Vec<u32> = Vec::new();
        let mut groups: Vec<u32> = Vec::new();
        let mut row: Vec<u64> = Vec::new();
        for entry in self.ranked.iter().filter_map(|number| self.entry(*number)) {
            let strands = self.combining.strands_of(entry);
            let mut lengths = Vec::new();
            let mut likes = Vec::new();
            for (at, strand) in strands.iter().enumerate() {
                let count = self.strands.get(*strand).map_or(0, |strand| strand.count as usize);
                lengths.push(count);
                likes.push((0..at).rev().find(|earlier| strands.get(*earlier) == Some(strand)));
            }
            let all_alike = strands.iter().all(|strand| sharing.of(*strand).len() == 1);
            let mut chosen = vec![0; strands.len()];
            let mut group = 0;
            for written in 0..entry.count {
                if written == 0 || !all_alike {
                    row.clear();
                    for (strand, choice) in strands.iter().zip(&chosen) {
                        let numbers = sharing.of(*strand);
                        let own = numbers.get(*choice).or(numbers.first());
                        row.push(own.map_or(u64::MAX, |number| u64::from(*number)));
                    }
                    short::sort(&mut row, u64::cmp);
                    let (name, new) = names.number(&row);
                    if new {
                        firsts.push(u32::try_from(groups.len()).unwrap_or(u32::MAX));
                    }
                    group = firsts.get(name as usize).copied().unwrap_or(u32::MAX);
                    next_choice(&mut chosen, &lengths, &likes);
                }
                groups.push(group);
            }
        }
        groups
    }

    fn sharing(&self) -> Sharing {
        let all = &self.strands.all;
        let mut used = vec![false; all.len()];
        for number in &self.combining.arena {
            if let Some(used) = used.get_mut(*number as usize) {
                *used = true;
            }
        }
        let mut sharing = Sharing { first: vec![0], numbers: Vec::new() };
        let (mut shares, mut rows) = (Names::default(), Names::default());
        // The networks of a class that are joined at the driver and those that are not
        // stand in neighbouring strands, and are met in one walk.
        let mut apart: Option<(u32, Vec<u32>)> = None;
        for (number, strand) in (0_u32..).zip(all) {
            let of_twin = apart.take().filter(|(twin, _)| *twin == number);
            let mut numbers = of_twin.map_or_else(Vec::new, |(_, numbers)| numbers);
            let next = number.saturating_add(1);
            let is_used = |number: u32| used.get(number as usize) == Some(&true);
            if numbers.is_empty() && (is_used(number) || is_used(next)) {
                let [joined, others] = self.walked(number, &mut shares, &mut rows);
                let both = if strand.joined { (joined, others) } else { (others, joined) };
                numbers = both.0;
                apart = Some((next, both.1)).filter(|_| strand.joined);
                if apart.as_ref().is_some_and(|(twin, _)| !self.same_class(number, *twin)) {
                    apart = None;
                }
            }
            sharing.numbers.append(&mut numbers);
            let end = u32::try_from(sharing.numbers.len()).unwrap_or(u32::MAX);
            sharing.first.push(end);
        }
        sharing
    }

    /// Whether two strands are of one class on one kind of output.
    fn same_class(&self, one: u32, other: u32) -> bool {
        let of = |number| {
            let class = self.strands.get(number).map(|strand| strand.class);
            (class, self.strands.place(number))
        };
        of(one) == of(other)
    }

    /// How the networks of a strand's class share, those joined at the driver and the
    /// others: one number where all do alike.
    fn walked(&self, number: u32, shares: &mut Names, rows: &mut Names) -> [Vec<u32>; 2] {
        let mut found = [Vec::new(), Vec::new()];
        let (Some(strand), Some((portion, kind))) =
            (self.strands.get(number), self.strands.place(number))
        else {
            return found;
        };
        let Some(listing) = self.listings.get(portion) else { return found };
        let mut dealings = listing.dealings(strand.class as usize);
        let mut contents = None;
        let mut row: Vec<u64> = Vec::new();
        let mut unbounded = Steps::unbounded();
        loop {
            let (dealt, joined) = dealings.next_of_any(listing, &mut unbounded);
            if dealt != Dealt::Found {
                return found;
            }
            if contents.is_none() {
                contents = Contents::of(listing, &dealings, shares);
            }
            let Some(contents) = &contents else { return found };
            row.clear();
            row.push(kind as u64);
            row.extend(strand.load.words());
            contents.write(&dealings, &mut row);
            let name = rows.number(&row).0;
            if strand.even {
                // Every coil of a kind gets alike, so every driver of it does.
                return [vec![name], vec![name]];
            }
            let [all, others] = &mut found;
            if joined { all.push(name) } else { others.push(name) }
        }
    }
}
