//! How many there are.

use super::MARKS;

/// A count with its word: `1 run`, `6 runs`.
///
/// # Example
/// ```
/// use coilwright_words::english::counts::counted;
/// assert_eq!(counted(6, "run", "runs"), "6 runs");
/// ```
#[must_use]
pub fn counted(count: u128, one: &str, many: &str) -> String {
    let word = if count == 1 { one } else { many };
    format!("{} {word}", MARKS.whole(count))
}

/// Runs of wire.
#[must_use]
pub fn runs(runs: u32) -> String {
    counted(u128::from(runs), "run", "runs")
}

/// Loads on the ladder.
#[must_use]
pub fn loads(loads: usize) -> String {
    let loads = u128::try_from(loads).unwrap_or(u128::MAX);
    counted(loads, "load", "loads")
}

/// How many configurations pass the filters, of how many there are without them.
///
/// # Example
/// ```
/// use coilwright_words::english::counts::configurations;
/// assert_eq!(configurations(4, Some(16)), "4 of 16 configurations");
/// assert_eq!(configurations(4, None), "4 of more than 300,000 configurations");
/// assert_eq!(configurations(1, Some(1)), "the only configuration");
/// ```
#[must_use]
pub fn configurations(total: u64, before_filters: Option<u64>) -> String {
    let count = MARKS.whole(u128::from(total));
    match before_filters {
        Some(1) if total == 1 => "the only configuration".to_owned(),
        Some(before) if before == total => {
            format!("all {count} configurations")
        }
        Some(1) => format!("{count} of 1 configuration"),
        Some(before) => format!("{count} of {} configurations", MARKS.whole(u128::from(before))),
        None => format!(
            "{count} of more than {} configurations",
            MARKS.whole(u128::from(coilwright_solver::bounds::MOST_CONFIGURATIONS))
        ),
    }
}

/// That only the first of them are shown; nothing when all are.
///
/// # Example
/// ```
/// use coilwright_words::english::counts::shown;
/// assert_eq!(shown(25, 281_964).as_deref(), Some("the first 25 of 281,964 are shown"));
/// assert_eq!(shown(4, 4), None);
/// ```
#[must_use]
pub fn shown(shown: u64, total: u64) -> Option<String> {
    (shown < total).then(|| {
        format!(
            "the first {} of {} are shown",
            MARKS.whole(u128::from(shown)),
            MARKS.whole(u128::from(total))
        )
    })
}

/// How far the listing is, in percent; without an end to measure by, just that it runs.
///
/// # Example
/// ```
/// use coilwright_words::english::counts::listing;
/// assert_eq!(listing(289, 1156), "Listing configurations: 25 %");
/// assert_eq!(listing(0, 0), "Listing configurations …");
/// ```
#[must_use]
pub fn listing(done: u64, of: u64) -> String {
    match u128::from(done.min(of)).saturating_mul(100).checked_div(u128::from(of)) {
        Some(percent) => format!("Listing configurations: {percent} %"),
        None => "Listing configurations …".to_owned(),
    }
}

/// That evenness was judged without ratings.
pub const RATED_ALIKE: &str = "Some drivers have no rated power: all are taken as equally rated, and usable power is not known.";

/// Beside unlike drivers in series.
pub const UNLIKE_IN_SERIES: &str = "Unlike drivers in series share the voltage by their real impedance, which swings around resonance: even by rating is not even at every frequency.";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_count_is_always_a_phrase() {
        let cases = [
            ((4, Some(16)), "4 of 16 configurations"),
            ((0, Some(3)), "0 of 3 configurations"),
            ((0, Some(1)), "0 of 1 configuration"),
            ((16, Some(16)), "all 16 configurations"),
            ((1, Some(1)), "the only configuration"),
            ((130, None), "130 of more than 300,000 configurations"),
        ];
        for ((total, before), want) in cases {
            assert_eq!(configurations(total, before), want);
        }
    }

    #[test]
    fn one_is_singular() {
        assert_eq!(runs(1), "1 run");
        assert_eq!(runs(6), "6 runs");
        assert_eq!(loads(1), "1 load");
        assert_eq!(loads(0), "0 loads");
        assert_eq!(listing(7, 3), "Listing configurations: 100 %");
    }
}
