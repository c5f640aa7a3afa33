//! What was typed.

use proof::sim::draw::{FURTHER, PRINCIPAL};
use proof::sim::rigs::Known;

/// What to measure.
#[derive(Debug)]
pub(crate) struct Options {
    pub(crate) faults: usize,
    pub(crate) sound: usize,
    pub(crate) seed: u64,
    pub(crate) known: Vec<Known>,
    pub(crate) kinds: Vec<&'static str>,
    pub(crate) threads: usize,
    pub(crate) misses: bool,
    pub(crate) replay: Option<String>,
    pub(crate) bound: Option<usize>,
    pub(crate) every: usize,
}

impl Options {
    /// Whether everything is measured, with as many cases as without any option.
    pub(crate) fn is_whole(&self) -> bool {
        self.known == Known::ALL
            && self.kinds.iter().eq(PRINCIPAL.iter().chain(&FURTHER))
            && self.faults >= 100
            && self.sound >= 1000
    }

    pub(crate) fn read(mut words: impl Iterator<Item = String>) -> Result<Self, String> {
        let mut options = Self {
            faults: 100,
            sound: 1000,
            seed: 1,
            known: Known::ALL.to_vec(),
            kinds: PRINCIPAL.into_iter().chain(FURTHER).collect(),
            threads: 1,
            misses: false,
            replay: None,
            bound: None,
            every: 1,
        };
        while let Some(word) = words.next() {
            if word == "--misses" {
                options.misses = true;
                continue;
            }
            let value = words.next().ok_or_else(|| format!("{word} needs a value"))?;
            let refused = || format!("{word} does not take `{value}`");
            match word.as_str() {
                "--faults" => options.faults = value.parse().map_err(|_| refused())?,
                "--sound" => options.sound = value.parse().map_err(|_| refused())?,
                "--seed" => options.seed = value.parse().map_err(|_| refused())?,
                "--threads" => options.threads = value.parse().map_err(|_| refused())?,
                "--bound" => options.bound = Some(value.parse().map_err(|_| refused())?),
                "--every" => options.every = value.parse().map_err(|_| refused())?,
                "--replay" => options.replay = Some(value.clone()),
                "--known" => {
                    options.known.retain(|known| known.name() == value);
                    options.known.first().ok_or_else(refused)?;
                }
                "--kind" => {
                    options.kinds.retain(|kind| *kind == value);
                    options.kinds.first().ok_or_else(refused)?;
                }
                _ => return Err(format!("there is no option `{word}`")),
            }
        }
        Ok(options)
    }
}
