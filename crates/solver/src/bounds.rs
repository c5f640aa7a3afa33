//! The one table of fields: name, kind, least, most, unit and default.
//!
//! It drives the reader of the JSON contract, the page's fields, the messages, the
//! schema, the type declarations and the generators of the tests, so that a bound
//! is written once.

use crate::ohms::{Ohms, Ratio, Watts};
use crate::problem::Code;

/// The most coils a rig may have in all.
pub const MOST_COILS: u32 = 32;
/// The most configurations that are listed.
pub const MOST_CONFIGURATIONS: u64 = 300_000;
/// The most counted steps that are spent on one request.
pub const MOST_WORK: u64 = 40_000_000;

/// The objects of the contract.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Object {
    /// The request itself.
    Request,
    /// A driver group.
    Group,
    /// An amplifier.
    Amplifier,
    /// A channel of an amplifier.
    Channel,
    /// Two channels bridged.
    Bridge,
    /// A rated point: so many watts into so many ohms.
    Point,
}

impl Object {
    /// Every object, the request first.
    pub const ALL: [Self; 6] =
        [Self::Request, Self::Group, Self::Amplifier, Self::Channel, Self::Bridge, Self::Point];

    /// Its fields in the order of the contract.
    pub fn fields(self) -> impl Iterator<Item = Field> {
        Field::ALL.into_iter().filter(move |field| field.spec().object == self)
    }
}

/// What a field takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// Text of at most so many characters, no control characters.
    Text {
        /// The most characters.
        most: u32,
    },
    /// A whole number from least to most.
    Whole {
        /// The least.
        least: u32,
        /// The most.
        most: u32,
    },
    /// One of a few whole numbers.
    OneOfNumbers(&'static [u32]),
    /// One of a few words.
    OneOfWords(&'static [&'static str]),
    /// An exact number of ohms, as a number or as text, from least to most.
    Ohms {
        /// The least, in ten-thousandths of an ohm.
        least: u32,
        /// The most, in ten-thousandths of an ohm.
        most: u32,
    },
    /// Any number from least to most.
    Number {
        /// The least.
        least: f64,
        /// The most.
        most: f64,
    },
    /// True or false.
    Boolean,
    /// An object.
    Object(Object),
    /// A list of objects.
    Objects {
        /// What each entry is.
        of: Object,
        /// The fewest entries.
        least: u32,
        /// The most entries.
        most: u32,
    },
    /// A list of numbers, each from least to most; its length comes from the rig.
    Numbers {
        /// The least of each entry.
        least: f64,
        /// The most of each entry.
        most: f64,
    },
    /// Two different channel numbers.
    TwoChannels,
}

/// What stands in for a field that is left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Default {
    /// Nothing: the field must be there.
    Required,
    /// The value counts as not stated.
    Absent,
    /// This whole number.
    Whole(u32),
    /// This word.
    Word(&'static str),
    /// True.
    True,
    /// An empty list.
    Empty,
}

/// A row of the table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spec {
    /// The object it belongs to.
    pub object: Object,
    /// Its name in the contract.
    pub name: &'static str,
    /// What it takes.
    pub kind: Kind,
    /// What stands in for it.
    pub default: Default,
    /// The unit of its value: `"Ω"`, `"W"` or nothing.
    pub unit: &'static str,
}

macro_rules! table {
    ($($(#[$doc:meta])* $field:ident: $object:ident $name:literal $kind:expr, $default:expr, $unit:literal;)*) => {
        /// Every field of the contract, in its order.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Field { $($(#[$doc])* $field,)* }

        impl Field {
            /// Every field, in the order of the contract.
            pub const ALL: [Self; [$(Self::$field),*].len()] = [$(Self::$field),*];

            /// The field's row of the table.
            ///
            /// # Example
            /// ```
            /// use coilwright_solver::bounds::{Field, Kind};
            /// assert_eq!(Field::Coils.spec().kind, Kind::OneOfNumbers(&[1, 2, 4]));
            /// ```
            #[must_use]
            pub const fn spec(self) -> Spec {
                match self {
                    $(Self::$field => Spec {
                        object: Object::$object,
                        name: $name,
                        kind: $kind,
                        default: $default,
                        unit: $unit,
                    },)*
                }
            }
        }
    };
}

const OHMS: Kind = Kind::Ohms { least: 1_000, most: 10_000_000 };
const WATTS: Kind = Kind::Number { least: 0.1, most: 100_000.0 };
const POINTS: Kind = Kind::Objects { of: Object::Point, least: 0, most: 8 };

table! {
    /// The driver groups.
    Drivers: Request "drivers" Kind::Objects { of: Object::Group, least: 1, most: 8 }, Default::Required, "";
    /// The amplifier.
    Amplifier: Request "amplifier" Kind::Object(Object::Amplifier), Default::Absent, "";
    /// Only configurations in which each driver's coils are joined at the driver first.
    JoinedOnly: Request "joined_only" Kind::Boolean, Default::True, "";
    /// Only configurations in which every coil gets the same fraction of its rating.
    EvenOnly: Request "even_only" Kind::Boolean, Default::True, "";
    /// The most configurations to return.
    Limit: Request "limit" Kind::Whole { least: 0, most: 300_000 }, Default::Whole(200), "";
    /// What the group is called.
    Name: Group "name" Kind::Text { most: 60 }, Default::Absent, "";
    /// Drivers in the group.
    Count: Group "count" Kind::Whole { least: 1, most: 16 }, Default::Required, "";
    /// Voice coils on each driver.
    Coils: Group "coils" Kind::OneOfNumbers(&[1, 2, 4]), Default::Required, "";
    /// Nominal impedance of one coil.
    CoilOhms: Group "ohms" OHMS, Default::Required, "Ω";
    /// Continuous power rating.
    Watts: Group "watts" WATTS, Default::Absent, "W";
    /// Whether the watts are of a driver or of a coil.
    WattsPer: Group "watts_per" Kind::OneOfWords(&["driver", "coil"]), Default::Word("driver"), "";
    /// Measured direct-current resistance of each coil.
    DcOhms: Group "dc_ohms" Kind::Numbers { least: 0.01, most: 2_000.0 }, Default::Absent, "Ω";
    /// How many amplifiers of this kind.
    AmplifierCount: Amplifier "count" Kind::Whole { least: 1, most: 4 }, Default::Whole(1), "";
    /// The channels in the amplifier's own order.
    Channels: Amplifier "channels" Kind::Objects { of: Object::Channel, least: 1, most: 8 }, Default::Required, "";
    /// The bridges its maker names.
    Bridges: Amplifier "bridges" Kind::Objects { of: Object::Bridge, least: 0, most: 4 }, Default::Empty, "";
    /// A channel's least load.
    ChannelLeast: Channel "least_ohms" OHMS, Default::Absent, "Ω";
    /// A channel's rated points.
    ChannelRated: Channel "rated" POINTS, Default::Empty, "";
    /// Terminal pairs of a channel, tied inside.
    TerminalPairs: Channel "terminal_pairs" Kind::Whole { least: 1, most: 2 }, Default::Whole(1), "";
    /// The two channels of a bridge.
    BridgeChannels: Bridge "channels" Kind::TwoChannels, Default::Required, "";
    /// A bridge's least load.
    BridgeLeast: Bridge "least_ohms" OHMS, Default::Absent, "Ω";
    /// A bridge's rated points.
    BridgeRated: Bridge "rated" POINTS, Default::Empty, "";
    /// The load of a rated point.
    PointOhms: Point "ohms" OHMS, Default::Required, "Ω";
    /// The power of a rated point.
    PointWatts: Point "watts" WATTS, Default::Required, "W";
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
        self.ohms_in_bounds(Ratio::new(parts, 10_000))
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
            return self.ohms_in_bounds(Ratio::new(p, q));
        }
        let (whole, places) = match text.split_once('.') {
            Some((whole, places)) => (whole, Some(places)),
            None => (text, None),
        };
        let whole = digits(whole)?;
        let Some(places) = places else {
            return self.ohms_in_bounds(Ratio::whole(whole));
        };
        let fraction = digits(places)?;
        if places.len() > 4 {
            return Err(Code::TooManyPlaces);
        }
        let scale = [1, 10, 100, 1_000, 10_000].get(places.len()).copied().unwrap_or(1_u128);
        let parts = whole.checked_mul(scale).and_then(|n| n.checked_add(fraction));
        self.ohms_in_bounds(parts.and_then(|parts| Ratio::new(parts, scale)))
    }

    fn ohms_in_bounds(self, ohms: Option<Ratio>) -> Result<Ohms, Code> {
        let Kind::Ohms { least, most } = self.spec().kind else {
            return Err(Code::WrongType);
        };
        let bound = |parts: u32| Ratio::new(u128::from(parts), 10_000);
        match (ohms, bound(least), bound(most)) {
            (Some(ohms), Some(least), Some(most)) if ohms >= least && ohms <= most => {
                Ok(Ohms::new(ohms))
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
    if text.len() > 30 {
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
    fn whole_numbers_are_whole_and_in_bounds() {
        assert_eq!(Field::Count.whole(16.0), Ok(16));
        assert_eq!(Field::Count.whole(17.0), Err(Code::OutOfRange));
        assert_eq!(Field::Count.whole(-1.0), Err(Code::OutOfRange));
        assert_eq!(Field::Count.whole(1e300), Err(Code::OutOfRange));
        assert_eq!(Field::Count.whole(1.5), Err(Code::WrongType));
        assert_eq!(Field::Coils.whole(3.0), Err(Code::NotOneOf));
    }
}
