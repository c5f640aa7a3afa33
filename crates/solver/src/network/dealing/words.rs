//! How many leaves each driver gets, packed four bits a driver.

/// The most drivers that are dealt: 32 coils, two or more on each.
pub(super) const DRIVERS: usize = 16;

/// How many leaves each driver gets, four bits each, the first driver highest.
pub(super) type Word = u64;

/// How many bits stand before a driver's digit. Wrapping: drivers number at most 16, and
/// this is the innermost step of all.
pub(super) fn bits_before(driver: usize) -> u32 {
    (driver as u32) << 2
}

pub(super) fn digit(word: Word, driver: usize) -> u8 {
    (word.wrapping_shl(bits_before(driver)) >> 60) as u8
}

pub(super) fn with_digit(word: Word, driver: usize, digit: u8) -> Word {
    word | (Word::from(digit) << 60).wrapping_shr(bits_before(driver))
}

/// All bits of the digits of the drivers from one on.
pub(super) fn bits_from(driver: u8) -> Word {
    if usize::from(driver) < DRIVERS { Word::MAX >> bits_before(driver.into()) } else { 0 }
}

/// The highest bit of each of those digits.
pub(super) fn marks_from(driver: u8) -> Word {
    bits_from(driver) & 0x8888_8888_8888_8888
}

/// Puts a digit in a place: those that stand there or behind it move up by one.
pub(super) fn put_in(word: Word, place: usize, digit: u8) -> Word {
    let bits = bits_before(place);
    let behind = Word::MAX.wrapping_shr(bits);
    (word & !behind) | ((word & behind) >> 4) | (Word::from(digit) << 60).wrapping_shr(bits)
}
