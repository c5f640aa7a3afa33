//! Numbers as text: few digits, no false ones, in a language's own marks.

use coilwright_solver::ohms::Ratio;

/// How a language marks numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Marks {
    /// Between whole and decimals.
    pub decimal: char,
    /// Between groups of three digits, from five digits up.
    pub group: char,
}

impl Marks {
    /// A whole number.
    ///
    /// # Example
    /// ```
    /// use coilwright_words::figures::Marks;
    /// let marks = Marks { decimal: '.', group: ',' };
    /// assert_eq!(marks.whole(9_999), "9999");
    /// assert_eq!(marks.whole(2_302_806), "2,302,806");
    /// ```
    #[must_use]
    pub fn whole(self, number: u128) -> String {
        let digits = number.to_string();
        if digits.len() < 5 {
            return digits;
        }
        let mut text = String::with_capacity(digits.len() + digits.len() / 3);
        for (i, digit) in digits.chars().enumerate() {
            if i > 0 && (digits.len() - i).is_multiple_of(3) {
                text.push(self.group);
            }
            text.push(digit);
        }
        text
    }

    /// A measured or computed quantity to three significant digits, or to the nearest
    /// whole from 100 up; zeros at the end of the decimals are left out.
    ///
    /// # Example
    /// ```
    /// use coilwright_words::figures::Marks;
    /// let marks = Marks { decimal: '.', group: ',' };
    /// assert_eq!(marks.short(370.79), "371");
    /// assert_eq!(marks.short(62.5), "62.5");
    /// assert_eq!(marks.short(2.0), "2");
    /// ```
    #[must_use]
    pub fn short(self, value: f64) -> String {
        // Past this a count of the last place no longer fits; nothing here comes near.
        if !(0.0..=1e15).contains(&value) {
            return "?".to_owned();
        }
        let places = places_of(value);
        let scale = 10_u64.pow(places);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            clippy::cast_precision_loss,
            reason = "checked above: at most 10^15, or below 100 with at most 6 places"
        )]
        let parts = (value * scale as f64 + 0.5) as u64;
        self.fixed(u128::from(parts), places)
    }

    /// An exact number of ten-thousandths, as the bounds of a field are counted.
    ///
    /// # Example
    /// ```
    /// use coilwright_words::figures::Marks;
    /// let marks = Marks { decimal: '.', group: ',' };
    /// assert_eq!(marks.ten_thousandths(1_000), "0.1");
    /// ```
    #[must_use]
    pub fn ten_thousandths(self, parts: u32) -> String {
        self.fixed(u128::from(parts), 4)
    }

    /// An exact fraction as a decimal, if it ends within the places that are worth
    /// writing: two, or as many as three significant digits take.
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::ohms::Ratio;
    /// use coilwright_words::figures::Marks;
    /// let marks = Marks { decimal: '.', group: ',' };
    /// assert_eq!(marks.exact(Ratio::new(1, 2).unwrap()).as_deref(), Some("0.5"));
    /// assert_eq!(marks.exact(Ratio::new(4, 3).unwrap()), None);
    /// ```
    #[must_use]
    pub fn exact(self, ratio: Ratio) -> Option<String> {
        let places = places_of(ratio.to_f64()).max(2);
        let parts = ratio.numerator().checked_mul(10_u128.pow(places))?;
        let whole = parts.checked_div(ratio.denominator())?;
        let exact = whole.checked_mul(ratio.denominator()) == Some(parts);
        exact.then(|| self.fixed(whole, places))
    }

    /// `parts` counted in units of ten to the minus `places`.
    fn fixed(self, parts: u128, places: u32) -> String {
        let scale = 10_u128.pow(places);
        let mut text = self.whole(parts / scale);
        let mut rest = parts % scale;
        let mut place = scale;
        if rest > 0 {
            text.push(self.decimal);
        }
        while rest > 0 {
            place /= 10;
            let digit = u8::try_from(rest / place).unwrap_or(0);
            text.push(char::from(b'0' + digit));
            rest %= place;
        }
        text
    }
}

/// Decimal places that three significant digits take.
fn places_of(value: f64) -> u32 {
    let steps = [100.0, 10.0, 1.0, 0.1, 0.01, 0.001];
    let above = steps.iter().position(|step| value >= *step);
    u32::try_from(above.unwrap_or(steps.len())).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    const MARKS: Marks = Marks { decimal: '.', group: ',' };

    #[test]
    fn quantities_get_three_digits_and_no_false_ones() {
        let cases = [
            (0.0, "0"),
            (0.000_4, "0.0004"),
            (0.000_000_04, "0"),
            (0.053_2, "0.0532"),
            (0.5, "0.5"),
            (0.0625, "0.0625"),
            (0.999_6, "1"),
            (1.333_33, "1.33"),
            (9.999, "10"),
            (62.5, "62.5"),
            (99.96, "100"),
            (370.79, "371"),
            (658.2, "658"),
            (1_200.0, "1200"),
            (99_999.7, "100,000"),
            (f64::NAN, "?"),
            (f64::INFINITY, "?"),
            (-1.0, "?"),
        ];
        for (value, want) in cases {
            assert_eq!(MARKS.short(value), want, "{value}");
        }
    }

    #[test]
    fn another_language_has_its_own_marks() {
        let marks = Marks { decimal: ',', group: ' ' };
        assert_eq!(marks.short(62.5), "62,5");
        assert_eq!(marks.whole(281_964), "281 964");
    }

    #[test]
    fn a_fraction_is_a_decimal_only_where_that_is_exact() {
        let cases = [
            ((4, 1), Some("4")),
            ((1, 2), Some("0.5")),
            ((1, 8), Some("0.125")),
            ((1, 16), Some("0.0625")),
            ((493, 4), Some("123.25")),
            ((9, 8), None),
            ((4, 3), None),
            ((1, 3), None),
            ((u128::MAX, 2), None),
        ];
        for ((num, den), want) in cases {
            let ratio = Ratio::new(num, den).unwrap();
            assert_eq!(MARKS.exact(ratio).as_deref(), want, "{ratio}");
        }
    }
}
