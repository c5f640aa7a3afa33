//! Least loads in decimals, on channels and bridges of them.

use super::*;

/// 8/3 Ω round to 2.7 and to 2.67, so 16/3 Ω on a bridge of such channels do as well: each
/// channel sees half. 2.70 is another least load than 2.7: what hangs on the one may not hang on
/// the other, and the two are not exchanged for each other.
#[test]
fn a_least_load_in_decimals_stands_for_what_rounds_to_it_on_every_output() {
    let of = |least| Stated { least: Some(least), rated: &[] };
    let pair = |one, other| amplifier(&[of(one), of(other)], &[([1, 2], SILENT)]);
    let three = [drivers(3, 1, "8")];
    let two = [drivers(1, 1, "16/3")];
    for (least, verdict, bridged) in [
        ("2.7", Fits, FitsByDerivation),
        ("2.67", Fits, FitsByDerivation),
        ("2.70", TooLow, TooLow),
        ("2.668", TooLow, TooLow),
        ("8/3", Fits, FitsByDerivation),
        ("27/10", TooLow, TooLow),
        ("3", TooLow, TooLow),
    ] {
        assert_eq!(output(&three, pair(least, least), "1:1a||2a||3a").verdict, verdict, "{least}");
        assert_eq!(output(&two, pair(least, least), "1+2:1a").verdict, bridged, "{least}");
    }
    // The channel that asks for more decides of the bridge, whichever it is.
    for (one, other) in [("2.7", "2.70"), ("2.70", "2.7")] {
        assert_eq!(output(&two, pair(one, other), "1+2:1a").verdict, TooLow);
        let found = |key| output(&three, pair(one, other), key).verdict;
        let (first, second) = (found("1:1a||2a||3a"), found("2:1a||2a||3a"));
        assert_eq!([first, second].contains(&TooLow), [first, second].contains(&Fits));
    }
    // A rated load that stands in for a least load does the same.
    let rated = Stated { least: None, rated: &[("2.7", 300.0)] };
    let load = output(&three, rated.mono(), "1:1a||2a||3a");
    assert_eq!(load.verdict, Fits);
    // What it gives is told of its own load: nothing but the verdict is rounded.
    assert_eq!(load.available.map(|given| given.basis), Some(Basis::Range));
}
