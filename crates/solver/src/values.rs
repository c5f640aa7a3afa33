//! Reading single values within the bounds of their field.

use crate::bounds::{Field, Kind, OPEN};
use crate::count::at_most;
use crate::ohms::{Ohms, Ratio, Watts};
use crate::problem::Code;

/// The most digits before the point of a text that is a number; leading noughts count.
const MOST_DIGITS: u32 = 30;

impl Kind {
    /// The most characters that text can have which is right here; 0 where none is.
    #[must_use]
    pub fn longest_text(self) -> u32 {
        match self {
            Self::Text { most } | Self::AnyText { most } => most,
            Self::OneOfWords(words) => {
                words.iter().fold(0, |most, word| most.max(at_most(word.len())))
            }
            Self::Reading { .. } => const { at_most(OPEN.len()) },
            // Digits, a point and the decimals.
            Self::Ohms { .. } => MOST_DIGITS.saturating_add(5),
            _ => 0,
        }
    }
}

impl Field {
    /// Reads a whole number within the field's bounds.
    ///
    /// # Errors
    /// [`Code::WrongType`] for a fraction, [`Code::OutOfRange`] or [`Code::NotOneOf`]
    /// for a number the field does not take.
    pub fn whole(self, number: f64) -> Result<u32, Code> {
        if !number.is_finite() || libm::trunc(number) != number {
            return Err(Code::WrongType);
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "casts saturate"
        )]
        let n = number as u32;
        let exact = f64::from(n) == number;
        match self.spec().kind {
            Kind::OneOfNumbers(list) if exact && list.contains(&n) => Ok(n),
            Kind::OneOfNumbers(_) => Err(Code::NotOneOf),
            Kind::Whole { least, most } if exact && (least..=most).contains(&n) => Ok(n),
            Kind::Whole { .. } => Err(Code::OutOfRange),
            _ => Err(Code::WrongType),
        }
    }

    /// Reads a number within the field's bounds.
    ///
    /// # Errors
    /// [`Code::OutOfRange`].
    pub fn number(self, number: f64) -> Result<f64, Code> {
        match self.spec().kind {
            Kind::Number { least, most } | Kind::Numbers { least, most } => {
                if number >= least && number <= most { Ok(number) } else { Err(Code::OutOfRange) }
            }
            _ => Err(Code::WrongType),
        }
    }

    /// Reads a text within the field's bounds: characters are counted, not bytes.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] for one too long or with a control character.
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::{bounds::Field, problem::Code};
    /// assert_eq!(Field::Name.text("Rear doors"), Ok("Rear doors"));
    /// assert_eq!(Field::Name.text("Rear\tdoors"), Err(Code::OutOfRange));
    /// ```
    pub fn text(self, text: &str) -> Result<&str, Code> {
        let (most, any) = match self.spec().kind {
            Kind::Text { most } => (most, false),
            Kind::AnyText { most } => (most, true),
            _ => return Err(Code::WrongType),
        };
        for (at, letter) in (0_u32..).zip(text.chars()) {
            if at >= most || !any && letter.is_control() {
                return Err(Code::OutOfRange);
            }
        }
        Ok(text)
    }

    /// Reads what a meter showed as a number, in ohms.
    ///
    /// # Errors
    /// [`Code::OutOfRange`].
    pub fn reading(self, ohms: f64) -> Result<f64, Code> {
        match self.spec().kind {
            Kind::Reading { most } if ohms >= 0.0 && ohms <= most => Ok(ohms),
            Kind::Reading { .. } => Err(Code::OutOfRange),
            _ => Err(Code::WrongType),
        }
    }

    /// Reads a power within the field's bounds, to the nearest ten-thousandth of a watt.
    ///
    /// # Errors
    /// [`Code::OutOfRange`].
    pub fn watts(self, number: f64) -> Result<Watts, Code> {
        let number = self.number(number)?;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            clippy::cast_precision_loss,
            reason = "in bounds: at most 10^9 parts"
        )]
        let parts = libm::round(number * Watts::PARTS as f64) as u64;
        Watts::from_parts(parts).ok_or(Code::OutOfRange)
    }

    /// Reads an exact number of ohms from a number with at most four decimals.
    ///
    /// # Errors
    /// [`Code::TooManyPlaces`] or [`Code::OutOfRange`].
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::bounds::Field;
    /// assert_eq!(Field::CoilOhms.ohms_number(1.4).unwrap().to_string(), "7/5");
    /// ```
    pub fn ohms_number(self, number: f64) -> Result<Ohms, Code> {
        const PARTS: f64 = 10_000.0;
        if !(number > 0.0 && number <= 1e9) {
            return Err(Code::OutOfRange);
        }
        let parts = libm::round(number * PARTS);
        if parts / PARTS != number {
            return Err(Code::TooManyPlaces);
        }
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 10^13")]
        let parts = parts as u128;
        // A number has the decimals that it needs: 2.70 is 2.7.
        let decimals = match parts {
            _ if parts.is_multiple_of(10_000) => 0,
            _ if parts.is_multiple_of(1_000) => 1,
            _ if parts.is_multiple_of(100) => 2,
            _ if parts.is_multiple_of(10) => 3,
            _ => 4,
        };
        self.ohms_in_bounds(Ratio::new(parts, 10_000), decimals)
    }

    /// Reads an exact number of ohms from text: `4`, `1.4` or `4/3`.
    ///
    /// # Errors
    /// [`Code::NotANumberText`], [`Code::TooManyPlaces`] or [`Code::OutOfRange`].
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::{bounds::Field, problem::Code};
    /// assert_eq!(Field::CoilOhms.ohms_text("4/3").unwrap().to_string(), "4/3");
    /// assert_eq!(Field::CoilOhms.ohms_text("four"), Err(Code::NotANumberText));
    /// ```
    pub fn ohms_text(self, text: &str) -> Result<Ohms, Code> {
        if let Some((p, q)) = text.split_once('/') {
            if p.len() > 5 || q.len() > 5 {
                return Err(Code::NotANumberText);
            }
            let (p, q) = (digits(p)?, digits(q)?);
            if q == 0 {
                return Err(Code::NotANumberText);
            }
            return self.ohms_in_bounds(Ratio::new(p, q), 0);
        }
        let (whole, places) = match text.split_once('.') {
            Some((whole, places)) => (whole, Some(places)),
            None => (text, None),
        };
        let whole = digits(whole)?;
        let Some(places) = places else {
            return self.ohms_in_bounds(Ratio::whole(whole), 0);
        };
        let fraction = digits(places)?;
        let (scale, decimals) = match places.len() {
            0 => (1_u128, 0),
            1 => (10, 1),
            2 => (100, 2),
            3 => (1_000, 3),
            4 => (10_000, 4),
            _ => return Err(Code::TooManyPlaces),
        };
        let parts = whole.checked_mul(scale).and_then(|n| n.checked_add(fraction));
        self.ohms_in_bounds(parts.and_then(|parts| Ratio::new(parts, scale)), decimals)
    }

    fn ohms_in_bounds(self, ohms: Option<Ratio>, decimals: u32) -> Result<Ohms, Code> {
        let Kind::Ohms { least, most } = self.spec().kind else {
            return Err(Code::WrongType);
        };
        let bound = |parts: u32| Ratio::new(u128::from(parts), 10_000);
        match (ohms, bound(least), bound(most)) {
            (Some(ohms), Some(least), Some(most)) if ohms >= least && ohms <= most => {
                Ok(Ohms::with_decimals(ohms, decimals))
            }
            _ => Err(Code::OutOfRange),
        }
    }
}

/// ASCII digits, at least one; a number too long to hold is far out of range.
fn digits(text: &str) -> Result<u128, Code> {
    if text.is_empty() || !text.bytes().all(|b| b.is_ascii_digit()) {
        return Err(Code::NotANumberText);
    }
    if text.len() > MOST_DIGITS as usize {
        return Err(Code::OutOfRange);
    }
    text.parse().map_err(|_| Code::OutOfRange)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ohms_are_read_exactly_or_refused() {
        let cases = [
            ("4", Ok("4")),
            ("1.4", Ok("7/5")),
            ("0.7", Ok("7/10")),
            ("0.1", Ok("1/10")),
            ("1000", Ok("1000")),
            ("4/3", Ok("4/3")),
            ("16/4", Ok("4")),
            ("1.4000", Ok("7/5")),
            ("1.40000", Err(Code::TooManyPlaces)),
            ("0.0999", Err(Code::OutOfRange)),
            ("1000.0001", Err(Code::OutOfRange)),
            ("0", Err(Code::OutOfRange)),
            ("99999999999999999999999999999999999999999", Err(Code::OutOfRange)),
            ("", Err(Code::NotANumberText)),
            ("4.", Err(Code::NotANumberText)),
            (".5", Err(Code::NotANumberText)),
            ("-4", Err(Code::NotANumberText)),
            ("4e0", Err(Code::NotANumberText)),
            ("4 ", Err(Code::NotANumberText)),
            ("4/0", Err(Code::NotANumberText)),
            ("123456/5", Err(Code::NotANumberText)),
            ("٤", Err(Code::NotANumberText)),
        ];
        for (text, want) in cases {
            let found = Field::CoilOhms.ohms_text(text).map(|ohms| ohms.to_string());
            assert_eq!(found.as_deref(), want.as_ref().map(|s| *s), "{text:?}");
        }
    }

    #[test]
    fn a_number_and_its_text_are_the_same_ohms() {
        for parts in (1_000..2_000_u32).chain([33_333, 9_999_999, 10_000_000]) {
            let number = f64::from(parts) / 10_000.0;
            let text = format!("{number}");
            assert_eq!(
                Field::CoilOhms.ohms_number(number),
                Field::CoilOhms.ohms_text(&text),
                "{text}"
            );
        }
        assert_eq!(Field::CoilOhms.ohms_number(1.0 / 3.0), Err(Code::TooManyPlaces));
        assert_eq!(Field::CoilOhms.ohms_number(f64::NAN), Err(Code::OutOfRange));
    }

    #[test]
    fn a_name_is_counted_in_characters() {
        for (text, fits) in [
            ("", true),
            (&*"é".repeat(60), true),
            (&*"é".repeat(61), false),
            ("<b>\u{202e}\u{1f50a}", true),
            ("two\nlines", false),
            ("nothing\0", false),
        ] {
            assert_eq!(Field::Name.text(text).is_ok(), fits, "{text:?}");
        }
        assert_eq!(Field::Count.text("2"), Err(Code::WrongType));
    }

    #[test]
    fn whole_numbers_are_whole_and_in_bounds() {
        assert_eq!(Field::Count.whole(16.0), Ok(16));
        assert_eq!(Field::Count.whole(17.0), Err(Code::OutOfRange));
        assert_eq!(Field::Count.whole(-1.0), Err(Code::OutOfRange));
        assert_eq!(Field::Count.whole(1e300), Err(Code::OutOfRange));
        assert_eq!(Field::Count.whole(1.5), Err(Code::WrongType));
        assert_eq!(Field::Coils.whole(3.0), Err(Code::NotOneOf));
    }
}
