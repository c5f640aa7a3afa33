//! The head of the job sheet, in a link.

use super::*;

fn with(lines: [&str; 3]) -> Saved {
    let rooms = RoomsKept { sheet: About::of(lines), ..RoomsKept::default() };
    Saved { rooms, room: Room::Sheet, ..Saved::of(two_duals()) }
}

const RIG: &str = "&drivers=2~2~2~500&amplifier=1~1&channel=1~4:420~2:760~1:1200";

/// As those beside it: never change a line, only add.
#[test]
fn golden_links_with_a_head_are_written_and_opened_as_ever() {
    for (lines, parts) in [
        (
            ["Marigold carnival club", "Float 2", "Ann"],
            "&customer=Marigold%20carnival%20club&vehicle=Float%202&done_by=Ann",
        ),
        (["", "Float 2", ""], "&vehicle=Float%202"),
        (["a&b=c~d", "", ""], "&customer=a%26b%3Dc%7Ed"),
        (["", "", ""], ""),
    ] {
        let link = format!("v=1&view=sheet{parts}{RIG}");
        assert_eq!(write(&with(lines)), link);
        let opened = open(&link).unwrap();
        assert_eq!((opened.left_out, opened.saved), (Vec::new(), with(lines)), "{link}");
    }
}

/// Nothing that was typed is lost, whatever it is: letters that run from right to left, marks
/// that turn text round, pictures, blanks at the ends, more than the field takes.
#[test]
fn whatever_stands_at_the_head_comes_back_letter_by_letter() {
    let long = "\u{1f50a}".repeat(300);
    for text in ["\u{5d3}\u{5dc}\u{5ea} 2", "\u{202e}<b>\u{2069}", " Ann ", "\t", ":~:", &long] {
        let saved = with([text, text, text]);
        let link = write(&saved);
        assert!(!link.contains(":~:"), "{link}");
        let opened = open(&link).unwrap();
        assert_eq!((opened.left_out, opened.saved), (Vec::new(), saved), "{text:?}");
    }
}

/// A rig with a head is another one than without, and one that somebody entered.
#[test]
fn a_head_is_worth_keeping() {
    let (bare, headed) = (with([""; 3]), with(["", "Float 2", ""]));
    assert!(!headed.is_same(&bare) && headed.is_same(&headed));
    let example = Saved { form: example::marigold(), ..headed };
    assert!(example.is_worth_keeping());
}

#[test]
fn a_head_that_cannot_be_is_told() {
    for name in ["customer", "vehicle", "done_by"] {
        let opened = open(&format!("v=1&{name}=%FF{RIG}")).unwrap();
        assert_eq!(opened.left_out, [LeftOut::Impossible(name.into())]);
        assert_eq!(opened.saved.form, two_duals());
    }
}
