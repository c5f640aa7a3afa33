//! From the raw text of a field to an exact value.
//!
//! People write `4 Ω`, `1,4` and `500 W`; the contract takes none of these. Only here
//! is text made plain before the solver's own readers judge it, and the raw text
//! itself stays what was typed.

use coilwright_solver::bounds::{Field, Kind};
use coilwright_solver::meter::Reading;
use coilwright_solver::ohms::{Ohms, Watts};
use coilwright_solver::problem::Code;

/// Why a text could not be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unread {
    /// One of the solver's own reasons.
    Code(Code),
    /// `1,200` is a thousand to some and little more than one to others.
    CommaOrThousands,
}

impl From<Code> for Unread {
    fn from(code: Code) -> Self {
        Self::Code(code)
    }
}

// The letter omega and the sign for ohms look alike; keyboards have either.
const OHM_WORDS: &[&str] = &["ohms", "ohm", "\u{3a9}", "\u{2126}"];
const WATT_WORDS: &[&str] = &["watts", "watt", "w"];
const LENGTH_WORDS: &[&str] = &["mm\u{b2}", "mm2", "m"];

/// Reads a whole number; `None` where the field is blank.
pub fn whole(field: Field, raw: &str) -> Result<Option<u32>, Unread> {
    let text = plain(raw, &[]);
    if text.is_empty() {
        return Ok(None);
    }
    let (whole, places) = text.split_once('.').unwrap_or((&text, ""));
    if !digits(whole) || !(places.is_empty() || digits(places)) {
        return Err(Code::NotANumberText.into());
    }
    if places.bytes().any(|b| b != b'0') {
        return Err(Code::WrongType.into());
    }
    // Nine digits are beyond every bound and within every type.
    let number = whole.parse::<u32>().unwrap_or(999_999_999);
    Ok(Some(field.whole(f64::from(number))?))
}

/// Reads an exact number of ohms; `None` where the field is blank.
pub fn ohms(field: Field, raw: &str) -> Result<Option<Ohms>, Unread> {
    let text = plain(raw, OHM_WORDS);
    if text.is_empty() {
        return Ok(None);
    }
    let as_point = field.ohms_text(&text)?;
    if let Some(thousands) = without_thousands(raw, OHM_WORDS)
        && field.ohms_text(&thousands).is_ok()
    {
        return Err(Unread::CommaOrThousands);
    }
    Ok(Some(as_point))
}

/// Reads a power; `None` where the field is blank.
pub fn watts(field: Field, raw: &str) -> Result<Option<Watts>, Unread> {
    let Some(number) = decimal_read(raw, WATT_WORDS)? else { return Ok(None) };
    Ok(Some(field.watts(number)?))
}

/// Reads a length or an area; `None` where the field is blank.
pub fn number(field: Field, raw: &str) -> Result<Option<f64>, Unread> {
    let Some(number) = decimal_read(raw, LENGTH_WORDS)? else { return Ok(None) };
    Ok(Some(field.number(number)?))
}

/// Reads numbers with blanks between them; `None` where there is none.
pub fn list(field: Field, raw: &str) -> Result<Option<Vec<f64>>, Unread> {
    let mut numbers = Vec::new();
    for word in raw.split([' ', '\t', '\u{a0}', ';']) {
        if let Some(number) = decimal_read(word.trim_end_matches(','), OHM_WORDS)? {
            numbers.push(field.number(number)?);
        }
    }
    Ok((!numbers.is_empty()).then_some(numbers))
}

/// A number with at most four decimals.
fn decimal_read(raw: &str, units: &[&str]) -> Result<Option<f64>, Unread> {
    let text = plain(raw, units);
    if text.is_empty() {
        return Ok(None);
    }
    if without_thousands(raw, units).is_some() {
        return Err(Unread::CommaOrThousands);
    }
    let (whole, places) = text.split_once('.').unwrap_or((&text, ""));
    if !digits(whole) || !(places.is_empty() || digits(places)) {
        return Err(Code::NotANumberText.into());
    }
    if places.len() > 4 {
        return Err(Code::TooManyPlaces.into());
    }
    let whole = whole.parse::<u32>().map_err(|_| Code::OutOfRange)?;
    let tenths_of_thousandths = format!("{places:0<4}").parse::<u32>().unwrap_or(0);
    Ok(Some(f64::from(whole) + f64::from(tenths_of_thousandths) / 10_000.0))
}

/// The number in a field as the contract writes it, digits with at most one point or two
/// numbers joined by `/`; `None` where the field is blank.
pub fn as_number(field: Field, raw: &str) -> Result<Option<String>, Unread> {
    let (stated, units) = match field.spec().kind {
        Kind::Ohms { .. } => (ohms(field, raw)?.is_some(), OHM_WORDS),
        Kind::Number { .. } if field.spec().unit == "W" => {
            (watts(field, raw)?.is_some(), WATT_WORDS)
        }
        Kind::Number { .. } => (number(field, raw)?.is_some(), LENGTH_WORDS),
        _ => (whole(field, raw)?.is_some(), &[][..]),
    };
    Ok(stated.then(|| plain(raw, units)))
}

/// A number as one would type it, to ten-thousandths.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "casts saturate far beyond every bound"
)]
pub fn decimal(number: f64) -> String {
    let parts = (number * 10_000.0).round() as u64;
    let mut text = (parts / 10_000).to_string();
    let places = (10_000 + parts % 10_000).to_string();
    let places = places.get(1..).unwrap_or_default().trim_end_matches('0');
    if !places.is_empty() {
        text.push('.');
        text.push_str(places);
    }
    text
}

/// Ohms as one would type them: a decimal where that is exact, else a fraction.
pub fn ohms_typed(exact: Ohms) -> String {
    let decimal = decimal(exact.to_f64());
    let same = ohms(Field::CoilOhms, &decimal).is_ok_and(|read| read == Some(exact));
    if same { decimal } else { exact.to_string() }
}

/// Ohms as they were given: a decimal with its own decimals, since as a least load it
/// stands for what rounds to it; else a whole number or a fraction.
pub fn ohms_given(ohms: Ohms) -> String {
    match usize::try_from(ohms.decimals()) {
        Ok(decimals @ 1..) => format!("{:.decimals$}", ohms.to_f64()),
        _ => ohms.to_string(),
    }
}

/// Why a reading could not be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misread {
    /// It is below nothing.
    Negative,
    /// It is neither a number nor a word for an open circuit.
    NotOne,
    /// It is a 1 where 1 Ω would be wrong: many meters show one alone where they would show
    /// more than they can (common practice, no source).
    LoneOne,
}

/// Whether a reading is a 1 and nothing else.
#[must_use]
pub fn is_lone_one(raw: &str) -> bool {
    plain(raw, OHM_WORDS) == "1"
}

/// Reads what a meter showed: `1.9`, `0,9`, `.9`, `OL` or `open`; `None` where the field is
/// blank.
pub fn reading(raw: &str) -> Result<Option<Reading>, Misread> {
    let text = plain(raw, OHM_WORDS);
    if text.is_empty() {
        return Ok(None);
    }
    let open = ["OL", "0L", "O.L", "open", "1.OL"];
    if open.iter().any(|word| text.eq_ignore_ascii_case(word)) {
        return Ok(Some(Reading::Open));
    }
    if text.starts_with(['-', '\u{2212}']) {
        return Err(Misread::Negative);
    }
    let (whole, places) = text.split_once('.').unwrap_or((&text, ""));
    let fine = digits(whole) && (places.is_empty() || digits(places));
    if !fine || whole.len() > 6 || places.len() > 4 {
        return Err(Misread::NotOne);
    }
    let whole = whole.parse::<u32>().unwrap_or(0);
    let parts = format!("{places:0<4}").parse::<u32>().unwrap_or(0);
    let ohms = f64::from(whole) + f64::from(parts) / 10_000.0;
    let mut count = 1.0;
    for _ in 0..places.len() {
        count /= 10.0;
    }
    Ok(Some(Reading::Ohms { ohms, count }))
}

fn digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit())
}

/// Without its unit and spaces, with a point for a comma and a digit on each side of it.
fn plain(raw: &str, units: &[&str]) -> String {
    let mut text = String::new();
    for c in bare(raw, units).chars() {
        text.push(if c == ',' { '.' } else { c });
    }
    if text.starts_with('.') && text.len() > 1 {
        text.insert(0, '0');
    }
    if text.len() > 1 && text.ends_with('.') {
        text.pop();
    }
    text
}

/// Without its unit and without spaces.
fn bare(raw: &str, units: &[&str]) -> String {
    let mut text = raw.trim();
    for unit in units {
        let Some(at) = text.len().checked_sub(unit.len()) else {
            continue;
        };
        if let (Some(number), Some(end)) = (text.get(..at), text.get(at..))
            && (end.eq_ignore_ascii_case(unit))
        {
            text = number;
            break;
        }
    }
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

/// The number that `1,200` would be if the comma marked thousands.
fn without_thousands(raw: &str, units: &[&str]) -> Option<String> {
    let text = bare(raw, units);
    let (first, rest) = text.split_once(',')?;
    let grouped = digits(first)
        && first.len() <= 3
        && !first.starts_with('0')
        && rest.split(',').all(|group| group.len() == 3 && digits(group));
    grouped.then(|| text.chars().filter(|c| *c != ',').collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn people_write_units_and_commas() {
        let cases = [
            ("4", "4"),
            (" 4 ", "4"),
            ("4 Ω", "4"),
            ("4Ω", "4"),
            ("4 Ohm", "4"),
            ("1,4 ohms", "7/5"),
            ("1.4", "7/5"),
            (".7", "7/10"),
            (",7", "7/10"),
            ("1.", "1"),
            ("4 / 3", "4/3"),
            ("4/3 Ω", "4/3"),
            ("0,125", "1/8"),
        ];
        for (raw, want) in cases {
            let found = ohms(Field::CoilOhms, raw).unwrap().unwrap().to_string();
            assert_eq!(found, want, "{raw:?}");
        }
    }

    #[test]
    fn a_list_has_blanks_between_its_numbers() {
        let read = |raw| list(Field::DcOhms, raw);
        assert_eq!(read("3.6 3,7;  .8 Ω, 4 ohm\u{a0}2"), Ok(Some(vec![3.6, 3.7, 0.8, 4.0, 2.0])));
        assert_eq!(read("  "), Ok(None));
        assert_eq!(read("3.6 three"), Err(Code::NotANumberText.into()));
        assert_eq!(read("3.6 0"), Err(Code::OutOfRange.into()));
        assert_eq!(read("3.6 1,200"), Err(Unread::CommaOrThousands));
    }

    #[test]
    fn blank_is_not_stated_and_nonsense_is_told() {
        assert_eq!(ohms(Field::CoilOhms, "  "), Ok(None));
        assert_eq!(ohms(Field::CoilOhms, "Ω"), Ok(None));
        for raw in ["four", "4 4x", "4..", "1,2,3", "-4", "4e0", ",", "4 W"] {
            let found = ohms(Field::CoilOhms, raw);
            assert_eq!(found, Err(Code::NotANumberText.into()), "{raw:?}");
        }
        assert_eq!(ohms(Field::CoilOhms, "0"), Err(Code::OutOfRange.into()));
    }

    #[test]
    fn a_comma_that_could_mark_thousands_is_asked_about() {
        assert_eq!(watts(Field::PointWatts, "1,200 W"), Err(Unread::CommaOrThousands));
        assert_eq!(ohms(Field::CoilOhms, "1,000"), Err(Unread::CommaOrThousands));
        // 1250 Ω is out of bounds, so 1,250 can only be one and a quarter.
        let ohms = ohms(Field::CoilOhms, "1,250").unwrap().unwrap();
        assert_eq!(ohms.to_string(), "5/4");
    }

    #[test]
    fn watts_are_read_to_four_places() {
        let cases = [
            ("500", 5_000_000),
            ("500 W", 5_000_000),
            ("500w", 5_000_000),
            ("62,5 watts", 625_000),
            ("0.1", 1_000),
            ("1 200", 12_000_000),
            ("99999.9999", 999_999_999),
        ];
        for (raw, parts) in cases {
            let found = watts(Field::Watts, raw).unwrap().unwrap().parts();
            assert_eq!(found, parts, "{raw:?}");
        }
        assert_eq!(watts(Field::Watts, "100000.1"), Err(Code::OutOfRange.into()));
        assert_eq!(watts(Field::Watts, "99999999999"), Err(Code::OutOfRange.into()));
        assert_eq!(watts(Field::Watts, "1.00001"), Err(Code::TooManyPlaces.into()));
        assert_eq!(watts(Field::Watts, "about 500"), Err(Code::NotANumberText.into()));
    }

    #[test]
    fn meters_show_ohms_or_no_end() {
        let ohms = |ohms, count| Ok(Some(Reading::Ohms { ohms, count }));
        for (raw, want) in [
            ("1.9", ohms(1.9, 0.1)),
            ("0,9", ohms(0.9, 0.1)),
            (".9", ohms(0.9, 0.1)),
            ("2.05 Ω", ohms(2.05, 0.01)),
            ("4", ohms(4.0, 1.0)),
            ("OL", Ok(Some(Reading::Open))),
            ("open", Ok(Some(Reading::Open))),
            (" ", Ok(None)),
            ("-0.1", Err(Misread::Negative)),
            ("about two", Err(Misread::NotOne)),
            ("1.2.3", Err(Misread::NotOne)),
        ] {
            match (reading(raw), want) {
                (
                    Ok(Some(Reading::Ohms { ohms, count })),
                    Ok(Some(Reading::Ohms { ohms: other, count: step })),
                ) => {
                    assert!((ohms - other).abs() < 1e-12 && (count - step).abs() < 1e-12, "{raw}");
                }
                (found, want) => assert_eq!(found, want, "{raw:?}"),
            }
        }
    }

    #[test]
    fn counts_are_whole() {
        assert_eq!(whole(Field::Count, " 2 "), Ok(Some(2)));
        assert_eq!(whole(Field::Count, "2.0"), Ok(Some(2)));
        assert_eq!(whole(Field::Count, ""), Ok(None));
        assert_eq!(whole(Field::Count, "2,5"), Err(Code::WrongType.into()));
        assert_eq!(whole(Field::Count, "17"), Err(Code::OutOfRange.into()));
        assert_eq!(whole(Field::Count, "99999999999999"), Err(Code::OutOfRange.into()));
        assert_eq!(whole(Field::Coils, "3"), Err(Code::NotOneOf.into()));
        assert_eq!(whole(Field::Count, "two"), Err(Code::NotANumberText.into()));
    }
}
