//! What groups are called, in a link.

use super::*;

/// Names of every kind: short, of markup, of other scripts, with marks that turn text round.
pub(super) fn any_name() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => Just(String::new()),
        1 => "[A-Za-z ]{1,12}",
        1 => "[ -~]{0,61}",
        1 => ".{0,8}",
        1 => Just("\u{202e}<b>\u{2069}\u{5d0}~&=%\u{1f50a}".to_owned()),
    ]
}

fn named(names: &[&str]) -> Saved {
    let mut form = two_duals();
    form.groups.resize(names.len(), form.groups[0].clone());
    for (group, name) in form.groups.iter_mut().zip(names) {
        group.name = (*name).to_owned();
    }
    Saved::of(form)
}

/// As those beside it: never change a line, only add.
#[test]
fn golden_links_with_names_are_written_and_opened_as_ever() {
    let amplifier = "&amplifier=1~1&channel=1~4:420~2:760~1:1200";
    let group = "&drivers=2~2~2~500";
    for (names, link) in [
        (&["Rear doors"][..], format!("v=1&names=Rear%20doors{group}{amplifier}")),
        (&["", "Boot"], format!("v=1&names=~Boot{group}{group}{amplifier}")),
        (&["Boot", "", ""], format!("v=1&names=Boot~~{group}{group}{group}{amplifier}")),
        (&["a~b&c=d"], format!("v=1&names=a%7Eb%26c%3Dd{group}{amplifier}")),
        (&["", ""], format!("v=1{group}{group}{amplifier}")),
    ] {
        let saved = named(names);
        assert_eq!(write(&saved), link);
        let opened = open(&link).unwrap();
        assert_eq!((opened.left_out, opened.saved), (Vec::new(), saved), "{link}");
    }
}

#[test]
fn names_that_are_nobodys_are_told() {
    use LeftOut::{Impossible, TooMany};
    let good = "&drivers=2~2~4~500";
    for (link, left_out, name) in [
        (format!("v=1&names=a~b{good}"), vec![TooMany("names")], "a"),
        (format!("v=1&names=%FF{good}"), vec![Impossible("names".into())], ""),
        // Which of them is left nobody knows.
        (
            format!("v=1&names=a~b&drivers=oops{good}"),
            vec![Impossible("drivers".into()), TooMany("names"), Impossible("names".into())],
            "",
        ),
        (
            format!("v=1&names=a&drivers=oops{good}"),
            vec![Impossible("drivers".into()), Impossible("names".into())],
            "",
        ),
        (format!("v=1{good}&names=a"), vec![], "a"),
    ] {
        let opened = open(&link).unwrap();
        assert_eq!(opened.left_out, left_out, "{link}");
        assert_eq!(opened.saved.form.groups[0].name, name, "{link}");
    }
}

/// Names are put aside with another rig, and those of the same rig are written once.
#[test]
fn a_rig_that_was_put_aside_has_its_names() {
    let mut saved = named(&["Rear doors"]);
    let mut other = two_duals();
    other.groups[0].count = "3".into();
    other.groups[0].name = "Boot".into();
    let key = || "1a+1b+2a+2b".to_owned();
    saved.compared = vec![
        Compared { form: saved.form.clone(), key: key() },
        Compared { form: other, key: key() },
    ];
    let link = write(&saved);
    assert_eq!(link.matches("names").count(), 2, "{link}");
    assert_eq!(open(&link).unwrap().saved, saved);
}
