//! The loads of an answer, each stored once and known by its number.
//!
//! There can be as many of them as configurations, and an exact one takes 32 bytes: what has
//! a load holds its number. Nearly every one is stored in 16.

use crate::defect::Defect;
use crate::interner::Interner;
use crate::ohms::Ratio;

/// Loads by number, in the order of meeting: two are equal where their numbers are.
#[derive(Clone, Debug, Default)]
pub(crate) struct Loads(Interner);

impl Loads {
    /// How many there are.
    pub(crate) fn len(&self) -> u32 {
        self.0.len()
    }

    /// The number of a load, which stays.
    pub(crate) fn number(&mut self, load: Ratio) -> u32 {
        load.in_few_words(|words| self.0.number(words).0)
    }

    /// The load with a number that was given here.
    pub(crate) fn get(&self, number: u32) -> Result<Ratio, Defect> {
        self.0.row(number).and_then(Ratio::of_words).ok_or(Defect::Loads)
    }

    /// No more loads will be met.
    pub(crate) fn close(&mut self) {
        self.0.let_go();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_loads_have_one_number_however_long_their_fractions_are() {
        let long = u128::from(u64::MAX);
        let parts = [1, 2, 3, long - 1, long, long + 1, long * 3, u128::MAX - 1, u128::MAX];
        let mut loads = Loads::default();
        let mut met: Vec<Ratio> = Vec::new();
        for _ in 0..2 {
            for (num, den) in parts.iter().flat_map(|num| parts.map(|den| (*num, den))) {
                let load = Ratio::new(num, den).unwrap();
                let known = met.iter().position(|one| *one == load).unwrap_or(met.len());
                if known == met.len() {
                    met.push(load);
                }
                assert_eq!(loads.number(load) as usize, known, "{load}");
            }
        }
        loads.close();
        for (number, load) in (0_u32..).zip(&met) {
            assert_eq!(loads.get(number), Ok(*load));
        }
        for number in [loads.len(), u32::MAX] {
            assert_eq!(loads.get(number), Err(Defect::Loads));
        }
        assert_eq!(loads.len() as usize, met.len());
    }
}
