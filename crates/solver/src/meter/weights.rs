//! How likely each fault is before anything is read, and what an answer or a reading makes of
//! that: the one place where a fault has its weight. A weight is a part of all together; a
//! reading moves it by its likelihood (`belief`), which is no figure of anybody's.

use super::faults::Kind;

/// Weights before anything is read, as parts of all faults together, a hundred; what is
/// sound weighs a quarter of that, since whoever asks has a reason. Common practice, no
/// source.
///
/// | what | weight |
/// |---|--:|
/// | a jumper missing 12, on the wrong end 6, extra 6, parts joined in series for parallel or the reverse 6 | 30 |
/// | a joint loose or corroded 10, strands that touch 5 | 15 |
/// | leads or contact 10, the meter 5 | 15 |
/// | another coil value: one driver 4, all of a group 4 | 8 |
/// | a coil open | 6 |
/// | a coil shorted 1, some of its turns 1 | 2 |
/// | a driver or a coil reversed | 20 |
/// | cables exchanged 2, the amplifier still connected 1, a capacitor in the way 1 | 4 |
pub const WEIGHTS: [(Kind, f64); 18] = [
    (Kind::Nothing, 25.0),
    (Kind::Missing, 12.0),
    (Kind::WrongEnd, 6.0),
    (Kind::Extra, 6.0),
    (Kind::Otherwise, 6.0),
    (Kind::Loose, 10.0),
    (Kind::Strand, 5.0),
    (Kind::Leads, 10.0),
    (Kind::Meter, 5.0),
    (Kind::OtherDriver, 4.0),
    (Kind::OtherGroup, 4.0),
    (Kind::CoilOpen, 6.0),
    (Kind::CoilShort, 1.0),
    (Kind::Turns, 1.0),
    (Kind::Reversed, 20.0),
    (Kind::Crossed, 2.0),
    (Kind::Amplifier, 1.0),
    (Kind::Capacitor, 1.0),
];

/// Other coils than stated: half and twice are frequent, a quarter and four times are not.
pub(super) const VALUES: [((u8, u8), f64); 4] =
    [((1, 2), 4.0), ((2, 1), 4.0), ((1, 4), 1.0), ((4, 1), 1.0)];

/// A wire on or between terminals of one driver, beside one with a neighbouring driver, which is
/// half as frequent (common practice, no source).
pub(super) const NEARER: f64 = 2.0;
pub(super) const FARTHER: f64 = 1.0;

/// What it makes of an easy cause that it was asked about: once it is said that it is not so,
/// and once it is said that it may be (common practice, no source). An amplifier that is off is
/// out of account.
pub(super) const DENIED: f64 = 0.02;
pub(super) const ADMITTED: f64 = 50.0;

/// How much less likely it is that a reading outside of what is right is so by chance: the
/// normal distributions know no ends.
pub(super) const OUTSIDE: f64 = 0.1;
/// How much likelier a rig is sound while nothing is outside: it is asked with every reading
/// then, and not because somebody has a reason. Where every coil was read and right, a sound
/// rig looks less like another. So weighed that at most one in a hundred sound rigs is doubted
/// (common practice, no source).
pub(super) const INSIDE: [f64; 2] = [1.5, 0.5];

/// How much less likely a coil fails after it was read than it was bad before (common
/// practice, no source).
pub(super) const SINCE: f64 = 0.3;
