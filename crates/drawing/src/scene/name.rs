//! What people call things: text of any script and length, in little room.

/// The end of a name that was shortened.
const ELLIPSIS: char = '…';

/// About how wide a letter is in hundredths of its size: no less than in the broader of the
/// faces that pages are shown in (measured on two; common practice, no source).
const fn letter(c: char) -> i32 {
    match c {
        'i' | 'j' | 'l' | 'I' | ' ' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' => 36,
        'm' | 'w' | 'M' | 'W' | '@' | '%' => 100,
        'A'..='Z' | '&' | '+' | '<' | '=' | '>' | '~' => 84,
        '\0'..='~' => 65,
        '\u{7f}'..='\u{24f}' => 84,
        ELLIPSIS => 100,
        // Hands of other scripts, signs and pictures.
        _ => 125,
    }
}

/// About how wide a name is.
pub(crate) fn width(name: &str, size: i32) -> i32 {
    let mut sum = 0_i32;
    for c in name.chars() {
        sum = sum.saturating_add(letter(c));
    }
    sum.saturating_mul(size).saturating_add(99) / 100
}

/// As much of a name as has room, with an ellipsis where something is missing.
pub(crate) fn fitted(name: &str, size: i32, room: i32) -> String {
    if width(name, size) <= room {
        return name.to_owned();
    }
    let mut left = room * 100 / size.max(1) - letter(ELLIPSIS);
    let mut shown = String::new();
    for c in name.chars() {
        left -= letter(c);
        if left < 0 {
            break;
        }
        shown.push(c);
    }
    // Neither a space nor what joins two pictures to one ends what is left.
    while shown.ends_with(' ') || shown.ends_with('\u{200d}') {
        shown.pop();
    }
    shown.push(ELLIPSIS);
    shown
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_name_that_has_room_stands_in_full() {
        assert_eq!(fitted("Rear doors", 12, 100), "Rear doors");
        assert_eq!(fitted("Rear doors and both shelves", 12, 100), "Rear doors…");
        assert_eq!(fitted("WWWWWWWWWWWW", 12, 100), "WWWWWWW…");
        assert_eq!(fitted("Rear door", 12, 55), "Rear…");
        assert_eq!(fitted("anything", 12, 0), "…");
    }

    proptest! {
        #[test]
        fn what_is_left_of_a_name_has_room(name in ".{0,60}", room in 24_i32..400) {
            let shown = fitted(&name, 12, room);
            prop_assert!(width(&shown, 12) <= room, "{}", shown);
            let left = shown.strip_suffix(ELLIPSIS).unwrap_or(&shown);
            prop_assert!(name.starts_with(left));
            prop_assert!(shown == name || shown.ends_with(ELLIPSIS));
        }
    }
}
