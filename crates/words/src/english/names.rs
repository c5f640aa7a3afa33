//! Names that people give to their drivers, to stand in texts of ours.
//!
//! A name is data: it may hold letters of any script and marks that turn text round, and
//! must change nothing around it. So the marks that work beyond their own end are left out
//! where a name is shown, and within a sentence a name that runs from right to left stands
//! between the isolates of the Unicode Bidirectional Algorithm (UAX 9, section 2.4).

use super::rig::numbered;
use coilwright_solver::rig::Rig;

/// The most characters of a name within a sentence: it stands in full where drivers are listed.
const MOST: usize = 24;

/// A name by itself: no space around it, no marks that turn round what comes after it, and
/// none that begin another line.
///
/// # Example
/// ```
/// use coilwright_words::english::names::plain;
/// assert_eq!(plain(" Rear doors "), "Rear doors");
/// assert_eq!(plain("\u{202e}Rear\u{2069}"), "Rear");
/// ```
#[must_use]
pub fn plain(name: &str) -> String {
    let mut text = String::new();
    for c in name.chars() {
        if !matches!(c, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}') {
            text.push(c);
        }
    }
    text.trim().to_owned()
}

/// A name within a text, isolated where it holds a letter that runs from right to left.
///
/// # Example
/// ```
/// use coilwright_words::english::names::within;
/// assert_eq!(within("Rear doors"), "Rear doors");
/// assert_eq!(within("\u{5d0}\u{5d1}"), "\u{2068}\u{5d0}\u{5d1}\u{2069}");
/// ```
#[must_use]
pub fn within(name: &str) -> String {
    isolated(plain(name))
}

fn isolated(name: String) -> String {
    if !name.chars().any(runs_back) {
        return name;
    }
    let mut text = String::from("\u{2068}");
    text.push_str(&name);
    text.push('\u{2069}');
    text
}

/// Whether a letter is in a block of those that run from right to left.
const fn runs_back(c: char) -> bool {
    matches!(c, '\u{590}'..='\u{8ff}' | '\u{200f}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{fefe}'
        | '\u{10800}'..='\u{10fff}' | '\u{1e800}'..='\u{1efff}')
}

/// Adds a name in parentheses, shortened; nothing where there is none.
///
/// # Example
/// ```
/// use coilwright_words::english::names::with;
/// assert_eq!(with("driver 1".to_owned(), "Rear doors"), "driver 1 (Rear doors)");
/// assert_eq!(with("driver 1".to_owned(), " "), "driver 1");
/// ```
#[must_use]
pub fn with(mut text: String, name: &str) -> String {
    let mut short = String::new();
    let mut left = MOST;
    for c in plain(name).chars() {
        if left == 0 {
            while short.ends_with(' ') || short.ends_with('\u{200d}') {
                short.pop();
            }
            short.push('…');
            break;
        }
        left -= 1;
        short.push(c);
    }
    if short.is_empty() {
        return text;
    }
    text.push_str(" (");
    text.push_str(&isolated(short));
    text.push(')');
    text
}

/// What the driver of a number from 0 on is called, as written: what its group is; blank
/// where that has no name.
#[must_use]
pub fn of_driver<'a>(rig: &Rig, names: &'a [String], driver: u8) -> &'a str {
    rig.group_number_of(driver).and_then(|group| names.get(group)).map_or("", String::as_str)
}

/// The driver groups that have names: `Drivers 1 and 2`, and the name.
#[must_use]
pub fn groups(rig: &Rig, names: &[String]) -> Vec<(String, String)> {
    let mut named = Vec::new();
    let mut first = 1;
    for (at, (group, name)) in rig.groups().iter().zip(names).enumerate() {
        let next = first + group.count;
        let name = plain(name);
        if !name.is_empty() {
            named.push((numbered(Some((first, next - 1)), at + 1), name));
        }
        first = next;
    }
    named
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_name_is_shortened_within_a_sentence() {
        let long = with("driver 2".to_owned(), &"x".repeat(60));
        assert_eq!(long, format!("driver 2 ({}…)", "x".repeat(24)));
        // A space or a joiner does not end what is left.
        let cut = format!("{} and more", "x".repeat(23));
        assert_eq!(with(String::new(), &cut), format!(" ({}…)", "x".repeat(23)));
        let joined = format!("{}\u{200d}and more", "x".repeat(23));
        assert_eq!(with(String::new(), &joined), format!(" ({}…)", "x".repeat(23)));
    }

    /// UAX 9: an override works up to its pop or the end of the paragraph, and an isolate
    /// that is popped too early isolates nothing.
    #[test]
    fn a_name_cannot_turn_round_what_is_around_it() {
        for hostile in ["\u{202e}\u{5d0}", "\u{2069}\u{202e}\u{5d0}", "\u{2067}\u{5d0}\u{2066}"] {
            assert_eq!(within(hostile), "\u{2068}\u{5d0}\u{2069}");
            assert_eq!(with("a".into(), hostile), "a (\u{2068}\u{5d0}\u{2069})");
        }
        for c in ['\u{5d0}', '\u{627}', '\u{200f}', '\u{fb50}', '\u{1e900}'] {
            assert!(within(&c.to_string()).starts_with('\u{2068}'), "{c:?}");
        }
        for c in ['a', 'é', 'Ж', '–', '\u{1f50a}', '音'] {
            assert_eq!(within(&c.to_string()), c.to_string());
        }
        assert_eq!(plain("one\u{2028}two\u{2029}"), "onetwo");
    }
}
