//! Chance that repeats: a stream of numbers from a seed and a name (SplitMix64; constants of
//! Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014).

/// A stream of numbers.
#[derive(Clone, Debug)]
pub struct Dice(u64);

impl Dice {
    /// The stream of a seed and a name: other names, other numbers.
    pub fn of(seed: u64, name: &str) -> Self {
        // FNV-1a over the name, so that every reading has its own noise in whatever order.
        let mixed = name.bytes().fold(0xcbf2_9ce4_8422_2325_u64 ^ seed, |hash, byte| {
            (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
        });
        let mut dice = Self(mixed);
        dice.next();
        dice
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number from 0 to below 1.
    #[allow(clippy::cast_precision_loss, reason = "53 bits are what a float holds")]
    pub fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A number between two.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// A number between two, each doubling as likely as the next.
    pub fn doubling(&mut self, low: f64, high: f64) -> f64 {
        low * libm::pow(high / low, self.unit())
    }

    /// A whole number below `many`, which is not 0.
    #[allow(clippy::cast_possible_truncation, reason = "lists are short")]
    pub fn below(&mut self, many: usize) -> usize {
        (self.next() % many as u64) as usize
    }

    /// Whether something happens that does so in `share` of all cases.
    pub fn chance(&mut self, share: f64) -> bool {
        self.unit() < share
    }

    /// One of a list.
    pub fn pick<T: Clone>(&mut self, list: &[T]) -> Option<T> {
        if list.is_empty() { None } else { list.get(self.below(list.len())).cloned() }
    }
}
