//! Numbers of one kind as numbers of another, where nothing can be lost.

// Machines of 32 and of 64 bits: what fits 32 is an index, and what is counted fits 64.
const _: () = assert!(usize::BITS >= 32 && usize::BITS <= 64);

/// What is counted, at full width.
pub(crate) const fn wide(count: usize) -> u64 {
    count as u64
}

/// A number as an index or a length.
pub(crate) const fn index(number: u32) -> usize {
    number as usize
}

/// So many as a length: more than a machine can hold are as many as it can.
pub(crate) const fn length(number: u64) -> usize {
    if number > usize::MAX as u64 { usize::MAX } else { number as usize }
}

/// So many, and no more than the largest number of 32 bits: for bounds, not for counts.
pub(crate) const fn at_most(count: usize) -> u32 {
    if wide(count) > u32::MAX as u64 { u32::MAX } else { count as u32 }
}

/// The same of a number that may be wider.
pub(crate) const fn within(number: u64) -> u32 {
    if number > u32::MAX as u64 { u32::MAX } else { number as u32 }
}

/// How many there are of what is never many.
pub(crate) fn tally<T>(things: impl Iterator<Item = T>) -> u32 {
    things.fold(0, |sum, _| sum.saturating_add(1))
}
