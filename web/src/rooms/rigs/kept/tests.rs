use crate::shell::drafts::{load, save};
use crate::host::shelf::board::Board;
use super::*;
use crate::state::opening::{self, Found};

const RIG: &str = "v=1&drivers=2~2~4~500";
const OTHER: &str = "v=1&drivers=3~1~8~";

fn fresh() -> Mine {
    Mine::default()
}

fn entry(id: String, text: String) -> Entry {
    let record = Record::read(&text);
    Entry { id, text, record, when: String::new(), about: String::new(), against: None }
}

fn all(shelf: &Board) -> Vec<(String, String)> {
    let all = super::all(shelf, &[], entry);
    all.iter().map(|entry| (entry.id.clone(), entry.text.clone())).collect()
}

fn kept(shelf: &Board) -> Vec<(String, String)> {
    let read = |(_, text): (String, String)| Record::read(&text).unwrap();
    all(shelf).into_iter().map(read).map(|record| (record.name, record.link)).collect()
}

fn pair(name: &str, link: &str) -> (String, String) {
    (name.into(), link.into())
}

#[test]
fn what_is_kept_again_takes_its_own_place_and_the_last_stands_first() {
    let shelf = Board::default();
    let (rear, said) = keep(&shelf, &fresh(), "Rear", RIG, 1_000, false).unwrap();
    assert_eq!(said, Said::Kept("Rear".into()));
    keep(&shelf, &fresh(), "Front", OTHER, 2_000, false).unwrap();
    assert_eq!(kept(&shelf), [pair("Front", OTHER), pair("Rear", RIG)]);
    let (rear, _) = keep(&shelf, &rear, "Rear, new", OTHER, 3_000, false).unwrap();
    assert_eq!(kept(&shelf), [pair("Rear, new", OTHER), pair("Front", OTHER)]);
    // A clock that goes back does not undo that.
    let (_, said) = keep(&shelf, &rear, "Rear, new", RIG, 10, false).unwrap();
    assert_eq!(said, Said::Kept("Rear, new".into()));
    assert_eq!(kept(&shelf)[0], pair("Rear, new", RIG));
}

#[test]
fn two_tabs_never_write_over_each_other() {
    let shelf = Board::default();
    let (mine, _) = keep(&shelf, &fresh(), "Rear", RIG, 1_000, false).unwrap();
    let in_another_tab = mine.clone();
    let (theirs, _) = keep(&shelf, &in_another_tab, "Rear", OTHER, 2_000, false).unwrap();
    let (_, said) = keep(&shelf, &mine, "Rear", RIG, 3_000, false).unwrap();
    assert_eq!(said, Said::Beside("Rear (2)".into()));
    assert_eq!(kept(&shelf), [pair("Rear (2)", RIG), pair("Rear", OTHER)]);
    // Theirs still has its own place.
    let (_, said) = keep(&shelf, &theirs, "Rear", RIG, 4_000, false).unwrap();
    assert_eq!(said, Said::Kept("Rear".into()));
    // What another tab deleted is kept again.
    delete(&shelf, &theirs.of.clone().unwrap().0);
    let (_, said) = keep(&shelf, &theirs, "Rear", OTHER, 5_000, false).unwrap();
    assert_eq!(said, Said::Kept("Rear".into()));
    assert_eq!(kept(&shelf).len(), 2);
}

#[test]
fn names_are_told_apart_and_stay_within_their_length() {
    let shelf = Board::default();
    let long = "m".repeat(60);
    for now in 1..=3 {
        keep(&shelf, &fresh(), &long, RIG, now, false).unwrap();
    }
    let names: Vec<String> = kept(&shelf).into_iter().map(|(name, _)| name).collect();
    assert_eq!(names[1], format!("{} (2)", "m".repeat(56)));
    assert_eq!(names[0], format!("{} (3)", "m".repeat(56)));
    let id = &all(&shelf)[1].0;
    assert_eq!(double(&shelf, id, 9), Ok(Said::Doubled(format!("{} (4)", "m".repeat(56)))));
    assert_eq!(double(&shelf, "none", 9), Err(Said::Missing));
    for (name, free) in
        [("(2)", "(2) (2)"), ("2024 (300)", "2024 (300) (2)"), ("a (x)", "a (x) (2)")]
    {
        keep(&shelf, &fresh(), name, RIG, 10, false).unwrap();
        let (mine, _) = keep(&shelf, &fresh(), name, RIG, 11, false).unwrap();
        assert_eq!(mine.name, free, "a number that nobody counted stays");
    }
}

#[test]
fn what_is_deleted_comes_back_as_it_was() {
    let shelf = Board::default();
    keep(&shelf, &fresh(), "Rear", RIG, 1_000, false).unwrap();
    let before = all(&shelf);
    let (id, text) = before[0].clone();
    delete(&shelf, &id);
    assert_eq!(all(&shelf), []);
    assert_eq!(exchange(&shelf, &id, Some(&text)), Ok(None));
    assert_eq!(all(&shelf), before);
    // And goes once more.
    assert_eq!(exchange(&shelf, &id, None), Ok(Some(text)));
    assert_eq!(all(&shelf), []);
}

#[test]
fn what_comes_back_takes_its_place_again() {
    let shelf = Board::default();
    keep(&shelf, &fresh(), "Rear", RIG, 1_000, false).unwrap();
    let (id, text) = all(&shelf).remove(0);
    // Another tab brought it back already.
    assert_eq!(exchange(&shelf, &id, Some(&text)), Ok(Some(text.clone())));
    assert_eq!(kept(&shelf), [pair("Rear", RIG)]);
    // What gives way is told, so that it can come back in turn.
    delete(&shelf, &id);
    keep(&shelf, &fresh(), "Front", OTHER, 1_000, false).unwrap();
    let front = exchange(&shelf, &id, Some(&text)).unwrap();
    assert_eq!(kept(&shelf), [pair("Rear", RIG)]);
    exchange(&shelf, &id, front.as_deref()).unwrap();
    assert_eq!(kept(&shelf), [pair("Front", OTHER)]);
    let many: Vec<_> = (1..MOST).map(|i| pair(&format!("rig {i}"), RIG)).collect();
    take(&shelf, &many, 5_000).unwrap();
    delete(&shelf, &id);
    keep(&shelf, &fresh(), "more", RIG, 9_999, false).unwrap();
    assert_eq!(exchange(&shelf, &id, Some(&text)), Err(Said::TooMany));
}

#[test]
fn what_is_known_is_not_read_again() {
    let shelf = Board::default();
    keep(&shelf, &fresh(), "Rear", RIG, 1_000, false).unwrap();
    let (mine, _) = keep(&shelf, &fresh(), "Front", OTHER, 2_000, false).unwrap();
    let known = super::all(&shelf, &[], entry);
    keep(&shelf, &mine, "Front", RIG, 3_000, false).unwrap();
    let read = std::cell::Cell::new(0);
    let again = super::all(&shelf, &known, |id, text| {
        read.set(read.get() + 1);
        entry(id, text)
    });
    assert_eq!((again.len(), read.get()), (2, 1), "only what was kept anew");
}

#[test]
fn other_tabs_are_listened_to_where_it_is_about_rigs() {
    assert!(is_about_rigs("coilwright.rig.7") && is_about_rigs("coilwright.layout"));
    assert!(!is_about_rigs("coilwright.draft.a") && !is_about_rigs("coilwright.sun"));
}

#[test]
fn a_full_storage_keeps_what_it_has() {
    let shelf = Board::default();
    let (mine, _) = keep(&shelf, &fresh(), "Rear", RIG, 1_000, false).unwrap();
    let before = all(&shelf);
    shelf.refuse_from.set(1);
    assert_eq!(keep(&shelf, &mine, "Rear", OTHER, 2_000, false), Err(Said::Full));
    assert_eq!(keep(&shelf, &fresh(), "Front", OTHER, 2_000, false), Err(Said::Full));
    assert_eq!(double(&shelf, &before[0].0, 2_000), Err(Said::Full));
    assert_eq!(all(&shelf), before);
}

/// A file is taken whole or not at all: the third of its rigs finds no space.
#[test]
fn a_file_that_does_not_fit_leaves_nothing_behind() {
    let shelf = Board::default();
    keep(&shelf, &fresh(), "Rear", RIG, 1_000, false).unwrap();
    let before = all(&shelf);
    let rigs = [pair("One", RIG), pair("Rear", OTHER), pair("Three", RIG)];
    shelf.refuse_from.set(shelf.writes.get() + 3);
    assert_eq!(take(&shelf, &rigs, 2_000), Err(Said::Full));
    assert_eq!(all(&shelf), before);
    shelf.refuse_from.set(0);
    assert_eq!(take(&shelf, &rigs, 2_000), Ok(Said::Taken(3)));
    let expected =
        [pair("One", RIG), pair("Rear (2)", OTHER), pair("Three", RIG), pair("Rear", RIG)];
    assert_eq!(kept(&shelf), expected);
}

#[test]
fn there_is_a_most() {
    let shelf = Board::default();
    let many: Vec<_> = (0..MOST).map(|i| pair(&format!("rig {i}"), RIG)).collect();
    assert_eq!(take(&shelf, &many, 1), Ok(Said::Taken(MOST)));
    assert_eq!(keep(&shelf, &fresh(), "more", RIG, 9_999, false), Err(Said::TooMany));
    assert_eq!(take(&shelf, &[pair("more", RIG)], 9_999), Err(Said::TooMany));
    assert_eq!(all(&shelf).len(), MOST);
}

#[test]
fn what_is_damaged_is_listed_last_and_harms_nothing() {
    for damaged in [
        "",
        "1",
        "1\n5\nRear\n",
        "1\n5\nRear\nv=1&dri",
        "9\n5\nRear\nv=1&drivers=2~2~4~500",
        "\u{0}\u{ffff}",
        "1\nx\nRear\nv=1&drivers=2~2~4~500",
        "1\n5\na\u{7}\nv=1&drivers=2~2~4~500",
    ] {
        let shelf = Board::of(&[("coilwright.rig.7", damaged), ("coilwright.layout", "what")]);
        keep(&shelf, &fresh(), "Rear", RIG, 1_000, false).unwrap();
        let found = all(&shelf);
        assert_eq!(found.len(), 2, "{damaged:?}");
        assert_eq!(found[1], ("7".to_owned(), damaged.to_owned()));
        assert_eq!(one(&shelf, "7"), None);
        assert_eq!(double(&shelf, "7", 1), Err(Said::Missing));
    }
}

/// What each earlier layout left in the storage that tabs share, and what was there.
type Layout = (u32, &'static [(&'static str, &'static str)], &'static str);
const EARLIER: [Layout; 4] = [
    (
        1,
        &[
            ("coilwright.draft", "b"),
            ("coilwright.draft.b", "v=1&key=1%3A1a&drivers=2~2~4~500"),
            ("coilwright.sun", "1"),
        ],
        "2",
    ),
    (
        2,
        &[
            ("coilwright.layout", "2"),
            ("coilwright.draft", "a"),
            ("coilwright.draft.a", "v=1&drivers=2~2~4~500&mine=1764130000000~1764130000000~Rear"),
            ("coilwright.rig.1764130000000", "1\n1764130000000\nRear\nv=1&drivers=2~2~4~500"),
        ],
        "2",
    ),
    (
        3,
        &[
            ("coilwright.layout", "3"),
            ("coilwright.draft", "a"),
            (
                "coilwright.draft.a",
                "v=1&meter=9~0.2~1~0.2&against=1~Ann%20answers&drivers=2~2~4~500&mine=1764130000000~1764130000000~Rear",
            ),
            (
                "coilwright.rig.1764130000000",
                "1\n1764130000000\nRear\nv=1&against=1~Ann%20answers&drivers=2~2~4~500",
            ),
        ],
        "2",
    ),
    (
        4,
        &[
            ("coilwright.layout", "4"),
            ("coilwright.draft", "a"),
            (
                "coilwright.draft.a",
                "v=1&customer=Marigold&vehicle=Float%202&waits=v%3D1%26meter%3D0%7E0.2%26drivers%3D1%7E1%7E4%7E&drivers=2~2~4~500&mine=1764130000000~1764130000000~Rear",
            ),
            (
                "coilwright.rig.1764130000000",
                "1\n1764130000000\nRear\nv=1&customer=Marigold&vehicle=Float%202&waits=v%3D1%26meter%3D0%7E0.2%26drivers%3D1%7E1%7E4%7E&drivers=2~2~4~500",
            ),
        ],
        "2",
    ),
];

#[test]
fn every_earlier_layout_is_taken_over_whole() {
    assert_eq!(EARLIER.len(), NOW as usize, "an example of each");
    for (layout, texts, count) in EARLIER {
        let shelf = Board::of(texts);
        assert_eq!(storage(&shelf), Storage::Ready, "{layout}");
        let before = all(&shelf);
        keep(&shelf, &fresh(), "Front", OTHER, 1, false).unwrap();
        assert_eq!(shelf.read(LAYOUT).as_deref(), Some("4"));
        for (name, text) in texts.iter().filter(|(name, _)| *name != LAYOUT) {
            assert_eq!(shelf.read(name).as_deref(), Some(*text), "{layout}: {name}");
        }
        assert!(before.iter().all(|rig| all(&shelf).contains(rig)));
        let latest = load(&shelf, "coilwright.draft");
        let state = opening::open(&Found { latest, ..Found::default() });
        assert_eq!(state.question.form.groups[0].count, count);
        assert_eq!(state.rooms.rigs.mine.name, if layout > 1 { "Rear" } else { "" });
    }
}

#[test]
fn a_later_layout_is_left_alone() {
    let texts = [("coilwright.layout", "5"), ("coilwright.rig.1", "{\"rig\": []}")];
    let shelf = Board::of(&texts);
    assert_eq!(storage(&shelf), Storage::Newer);
    assert_eq!(all(&shelf), []);
    assert_eq!(keep(&shelf, &fresh(), "Rear", RIG, 1, false), Err(Said::Newer));
    assert_eq!(take(&shelf, &[pair("Rear", RIG)], 1), Err(Said::Newer));
    assert_eq!(exchange(&shelf, "1", Some("text")), Err(Said::Newer));
    for (name, text) in texts {
        assert_eq!(shelf.read(name).as_deref(), Some(text));
    }
    // The draft is a link, and links stay what they are.
    save(&shelf, "coilwright.draft", RIG).unwrap();
}
