//! Positive fractions in lowest terms, every operation checked.

use core::cmp::Ordering;
use core::fmt;
use core::num::NonZeroU64;

/// A positive fraction in lowest terms.
///
/// # Example
/// ```
/// use coilwright_solver::ohms::Ratio;
/// let half = Ratio::new(2, 4).unwrap();
/// assert_eq!((half.numerator(), half.denominator()), (1, 2));
/// assert_eq!(half.to_string(), "1/2");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Ratio {
    num: u128,
    den: u128,
}

impl Ratio {
    /// One.
    pub const ONE: Self = Self { num: 1, den: 1 };

    /// `num / den`, reduced. `None` if either is zero: no quantity here is ever zero.
    #[must_use]
    pub fn new(num: u128, den: u128) -> Option<Self> {
        if num == 0 || den == 0 {
            return None;
        }
        if let (Ok(num), Ok(den)) = (u64::try_from(num), u64::try_from(den)) {
            return Some(Self::of_small(num, den));
        }
        let common = gcd(num, den);
        Some(Self { num: num.checked_div(common)?, den: den.checked_div(common)? })
    }

    /// Nearly every value fits 64 bits, where division is one instruction, not a call.
    fn of_small(num: u64, den: u64) -> Self {
        // Numbers above zero have a divisor above zero.
        let common = NonZeroU64::MIN.saturating_add(gcd64(num, den).saturating_sub(1));
        Self { num: u128::from(num / common), den: u128::from(den / common) }
    }

    /// So many parts of which so many are one.
    pub(crate) fn of_parts(parts: NonZeroU64, one: NonZeroU64) -> Self {
        Self::of_small(parts.get(), one.get())
    }

    /// Both parts, if products of them fit 64 bits.
    fn halves(self) -> Option<(u64, u64)> {
        let (num, den) = self.in_64_bits()?;
        ((num | den) >> 32 == 0).then_some((num, den))
    }

    #[expect(clippy::cast_possible_truncation, reason = "the bits cut off are seen to be zero")]
    fn in_64_bits(self) -> Option<(u64, u64)> {
        ((self.num | self.den) >> 64 == 0).then_some((self.num as u64, self.den as u64))
    }

    /// A whole number; `None` for zero.
    #[must_use]
    pub fn whole(n: u128) -> Option<Self> {
        Self::new(n, 1)
    }

    /// The upper part in lowest terms.
    #[must_use]
    pub fn numerator(self) -> u128 {
        self.num
    }

    /// The lower part in lowest terms.
    #[must_use]
    pub fn denominator(self) -> u128 {
        self.den
    }

    /// Both parts in words, to be numbered.
    pub(crate) fn words(self) -> [u64; 4] {
        let (n, d) = (self.num, self.den);
        [n as u64, (n >> 64) as u64, d as u64, (d >> 64) as u64]
    }

    /// The same, in half as many words where they do: what is done with them.
    pub(crate) fn in_few_words<T>(self, with: impl FnOnce(&[u64]) -> T) -> T {
        match self.in_64_bits() {
            Some((num, den)) => with(&[num, den]),
            None => with(&self.words()),
        }
    }

    /// What wrote itself as these words.
    pub(crate) fn of_words(words: &[u64]) -> Option<Self> {
        let wide = |low: u64, high: u64| u128::from(high) << 64 | u128::from(low);
        match *words {
            [num, den] => Some(Self { num: num.into(), den: den.into() }),
            [a, b, c, d] => Some(Self { num: wide(a, b), den: wide(c, d) }),
            _ => None,
        }
    }

    /// How many it is of what there are so many of in one; `None` where that is no whole
    /// number, or does not fit.
    pub(crate) fn in_parts(self, of_one: u128) -> Option<u128> {
        let each = of_one.checked_div(self.den).filter(|_| of_one.checked_rem(self.den) == Some(0));
        self.num.checked_mul(each?)
    }

    /// The reciprocal.
    #[must_use]
    pub fn recip(self) -> Self {
        Self { num: self.den, den: self.num }
    }

    /// The sum, or `None` if it does not fit.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        if let (Some((a, b)), Some((c, d))) = (self.halves(), other.halves())
            && let Some(num) = a.saturating_mul(d).checked_add(c.saturating_mul(b))
        {
            return Some(Self::of_small(num, b.saturating_mul(d)));
        }
        let common = gcd(self.den, other.den);
        let (a, b) = (other.den.checked_div(common)?, self.den.checked_div(common)?);
        let num = self.num.checked_mul(a)?.checked_add(other.num.checked_mul(b)?)?;
        Self::new(num, self.den.checked_mul(a)?)
    }

    /// The product, or `None` if it does not fit.
    #[must_use]
    pub fn times(self, other: Self) -> Option<Self> {
        if let (Some((a, b)), Some((c, d))) = (self.halves(), other.halves()) {
            return Some(Self::of_small(a.saturating_mul(c), b.saturating_mul(d)));
        }
        let (g, h) = (gcd(self.num, other.den), gcd(other.num, self.den));
        let num = self.num.checked_div(g)?.checked_mul(other.num.checked_div(h)?)?;
        let den = self.den.checked_div(h)?.checked_mul(other.den.checked_div(g)?)?;
        Self::new(num, den)
    }

    /// The quotient, or `None` if it does not fit.
    #[must_use]
    pub fn over(self, other: Self) -> Option<Self> {
        self.times(other.recip())
    }

    /// Compared exactly: where products would not fit, by continued fractions, which
    /// decide without multiplying.
    fn compare(self, other: Self) -> Ordering {
        if let (Some((a, b)), Some((c, d))) = (self.halves(), other.halves()) {
            return a.saturating_mul(d).cmp(&c.saturating_mul(b));
        }
        let (mut a, mut b) = (self, other);
        let mut flipped = false;
        loop {
            // Whole parts first; the remainders' reciprocals decide the rest.
            let here = match (div_rem(a.num, a.den), div_rem(b.num, b.den)) {
                (Some((qa, ra)), Some((qb, rb))) => match (qa.cmp(&qb), ra, rb) {
                    (Ordering::Equal, 0, 0) => Ordering::Equal,
                    (Ordering::Equal, 0, _) => Ordering::Less,
                    (Ordering::Equal, _, 0) => Ordering::Greater,
                    (Ordering::Equal, ..) => {
                        a = Self { num: a.den, den: ra };
                        b = Self { num: b.den, den: rb };
                        flipped = !flipped;
                        continue;
                    }
                    (other, ..) => other,
                },
                // What is over nothing has no end.
                (a, b) => b.is_some().cmp(&a.is_some()),
            };
            return if flipped { here.reverse() } else { here };
        }
    }

    /// The nearest float.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "the float is the estimate of an exact value")]
    pub fn to_f64(self) -> f64 {
        match self.in_64_bits() {
            Some((num, den)) => num as f64 / den as f64,
            None => self.num as f64 / self.den as f64,
        }
    }
}

impl Ord for Ratio {
    fn cmp(&self, other: &Self) -> Ordering {
        self.compare(*other)
    }
}

impl PartialOrd for Ratio {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for Ratio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.den == 1 {
            return write!(f, "{}", self.num);
        }
        write!(f, "{}/{}", self.num, self.den)
    }
}

fn div_rem(a: u128, b: u128) -> Option<(u128, u128)> {
    Some((a.checked_div(b)?, a.checked_rem(b)?))
}

/// The greatest common divisor; `gcd(0, b)` is `b`.
#[must_use]
pub fn gcd(a: u128, b: u128) -> u128 {
    // Division of 128 bits is a library call; nearly every value fits 64.
    if let (Ok(a), Ok(b)) = (u64::try_from(a), u64::try_from(b)) {
        return u128::from(gcd64(a, b));
    }
    let (mut a, mut b) = (a, b);
    while let Some(rest) = a.checked_rem(b) {
        a = b;
        b = rest;
    }
    a
}

/// By halving and subtracting: no division, which is the slowest step there is.
pub(crate) fn gcd64(a: u64, b: u64) -> u64 {
    if a == 0 || b == 0 {
        return a | b;
    }
    let twos = (a | b).trailing_zeros();
    let (mut a, mut b) = (a.wrapping_shr(a.trailing_zeros()), b);
    while b != 0 {
        b = b.wrapping_shr(b.trailing_zeros());
        (a, b) = (a.min(b), a.max(b));
        b = b.wrapping_sub(a);
    }
    a.wrapping_shl(twos)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ratio(num: u128, den: u128) -> Ratio {
        Ratio::new(num, den).unwrap()
    }

    #[test]
    fn fractions_order_as_their_values_even_when_products_would_overflow() {
        let big = u128::MAX;
        let cases = [
            (ratio(1, 2), ratio(2, 3), Ordering::Less),
            (ratio(4, 3), ratio(4, 3), Ordering::Equal),
            (ratio(5, 2), ratio(2, 1), Ordering::Greater),
            (ratio(big, big - 1), ratio(big - 1, big - 2), Ordering::Less),
            (ratio(1, big), ratio(1, big - 1), Ordering::Less),
        ];
        for (a, b, want) in cases {
            assert_eq!(a.cmp(&b), want, "{a} against {b}");
            assert_eq!(b.cmp(&a), want.reverse(), "{b} against {a}");
        }
    }

    #[test]
    fn the_greatest_common_divisor_is_that_of_euclid() {
        fn euclid(a: u64, b: u64) -> u64 {
            if b == 0 { a } else { euclid(b, a % b) }
        }
        let some = [0, 1, 2, 3, 4, 6, 7, 12, 96, 97, 360, 1 << 40, u64::MAX, u64::MAX - 1];
        for a in some.into_iter().chain(0..60) {
            for b in some.into_iter().chain(0..60) {
                assert_eq!(gcd64(a, b), euclid(a, b), "{a} and {b}");
            }
        }
    }

    #[test]
    fn a_sum_that_does_not_fit_says_so() {
        assert_eq!(ratio(1, u128::MAX).plus(ratio(1, u128::MAX - 1)), None);
        assert_eq!(ratio(u128::MAX, 1).times(ratio(2, 1)), None);
        assert_eq!(Ratio::new(0, 1), None);
        assert_eq!(Ratio::new(1, 0), None);
    }
}
