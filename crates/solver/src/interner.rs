//! Numbers for what is met again: rows of words, each distinct row once.
//!
//! One table for everything, since the library's maps are copied for every type they
//! hold. Numbers are given in the order of meeting, so nothing depends on the hashing.

use crate::count::at_most;
use crate::short;

/// Rows of words that were met, numbered from 0.
#[derive(Clone, Debug, Default)]
pub(crate) struct Interner {
    words: Vec<u64>,
    /// Where the words of each row end.
    ends: Vec<u32>,
    /// For each place of the table a row's number + 1, or 0; at most half are taken.
    places: Vec<u32>,
}

impl Interner {
    /// A table with room for so many rows: none of them makes it grow.
    pub(crate) fn with_room(rows: usize) -> Self {
        let places = rows.saturating_add(1).saturating_mul(2).next_power_of_two();
        Self { places: vec![0; places], ..Self::default() }
    }

    /// How many rows were met.
    pub(crate) fn len(&self) -> u32 {
        at_most(self.ends.len())
    }

    /// The number of a row, and whether it is a new one.
    #[inline(never)]
    pub(crate) fn number(&mut self, row: &[u64]) -> (u32, bool) {
        if self.places.len() <= self.ends.len().saturating_mul(2) {
            self.grow();
        }
        let place = self.place(row);
        match self.places.get_mut(place) {
            Some(0) => {}
            Some(taken) => return (taken.saturating_sub(1), false),
            None => return (u32::MAX, false),
        }
        short::extend(&mut self.words, row);
        short::room(&mut self.ends);
        self.ends.push(at_most(self.words.len()));
        let number = self.len();
        if let Some(slot) = self.places.get_mut(place) {
            *slot = number;
        }
        (number.saturating_sub(1), true)
    }

    /// Forgets what only numbering needs: whatever is numbered after this is taken as new.
    pub(crate) fn let_go(&mut self) {
        self.places = Vec::new();
    }

    /// The words of a row by its number.
    pub(crate) fn row(&self, number: u32) -> Option<&[u64]> {
        let at = number as usize;
        let first = match at.checked_sub(1) {
            Some(before) => *self.ends.get(before)?,
            None => 0,
        };
        self.words.get(first as usize..*self.ends.get(at)? as usize)
    }

    /// Where a row stands in the table, or would stand.
    fn place(&self, row: &[u64]) -> usize {
        let mut hash = 0_u64;
        for word in row {
            // Knuth's multiplier, 2⁶⁴ over the golden ratio (from memory).
            hash = (hash.rotate_left(26) ^ word).wrapping_mul(0x9E37_79B9_7F4A_7C15);
        }
        // The table is as long as a power of two.
        let last = self.places.len().saturating_sub(1);
        let mut place = (hash >> 32) as usize & last;
        loop {
            match self.places.get(place) {
                Some(taken) if *taken > 0 && self.row(taken.saturating_sub(1)) != Some(row) => {
                    place = place.wrapping_add(1) & last;
                }
                _ => return place,
            }
        }
    }

    fn grow(&mut self) {
        let length = self.places.len().saturating_mul(2).max(16);
        self.places.clear();
        self.places.resize(length, 0);
        for number in 0..self.len() {
            let place = self.row(number).map(|row| self.place(row));
            if let Some(slot) = place.and_then(|place| self.places.get_mut(place)) {
                *slot = number.saturating_add(1);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn equal_rows_have_one_number_in_the_order_of_meeting() {
        let mut names = Interner::default();
        let mut known: BTreeMap<Vec<u64>, u32> = BTreeMap::new();
        for i in 0..20_000_u64 {
            // Rows of none to three words, many of them met before.
            let n = i * i % 4_001;
            let row: Vec<u64> = (0..n % 4).map(|k| (n << 32) + k).collect();
            let next = known.len() as u32;
            let new = !known.contains_key(&row);
            let want = *known.entry(row.clone()).or_insert(next);
            assert_eq!(names.number(&row), (want, new), "{row:?}");
        }
        assert_eq!(names.len(), known.len() as u32);
    }
}
