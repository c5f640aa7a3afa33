//! What an earlier build of the page kept opens as it was: thirty links as the address held
//! them and as that build wrote them again, the storage that it filled with rigs of them, the
//! file that it saved of all, and what it read from that file.
//!
//! `golden.json` was filled by the build of commit 1da305c in a browser; never change it, only
//! add one beside it when links, records or files gain something.

use crate::answer::asking::Question;
use crate::file;
use crate::link;
use crate::rooms::Room;
use crate::rooms::rigs::kept;
use crate::state::State;
use crate::state::action::acts::*;
use crate::state::draft::draft;
use crate::state::opening::{self, Found};
use coilwright_module::value::Value;
use serde_json::Value as Json;

fn golden() -> Json {
    serde_json::from_str(include_str!("golden.json")).unwrap()
}

/// The page of a link, answered, in the room of the rigs.
fn among_rigs(link: &str) -> State {
    let found = Found { fragment: format!("#{link}"), ..Found::default() };
    let mut state = opening::open(&found);
    if let Some(request) = state.question.read.request.clone() {
        state.apply(OnAnswer::Answered(Question::answer(request)));
    }
    state.after(OnPage::Room(Room::Rigs))
}

#[test]
fn links_open_and_are_written_as_ever() {
    let golden = golden();
    let rows = golden["rows"].as_array().unwrap();
    assert_eq!(rows.len(), 30);
    // Browsers keep what follows `:~:` from pages: of such links that build saw a part, and
    // those that are written now hold no such thing.
    let links = rows.iter().map(|row| (row["link"].as_str().unwrap(), row["draft"].as_str()));
    let (cut, whole): (Vec<_>, Vec<_>) = links.partition(|(link, _)| link.contains(":~:"));
    assert_eq!((cut.len(), whole.len()), (12, 18));
    for (link, kept) in whole {
        let state = among_rigs(link);
        let written = draft(&link::write(&state.saved()), &state.rooms.rigs.mine);
        assert_eq!(Some(written.as_str()), kept);
    }
    for (link, _) in cut {
        let opened = link::open(link).unwrap();
        assert_eq!(opened.left_out, [], "in a browser that does not cut it");
        let written = link::write(&opened.saved);
        assert_eq!(link::open(&written).unwrap().saved, opened.saved);
        assert!(!written.contains(":~:"), "{written}");
    }
}

/// The records of the storage, the last one first, as the room lists them.
fn records(golden: &Json) -> Vec<crate::rooms::rigs::Record> {
    let store = golden["store"].as_object().unwrap();
    let texts = store.iter().filter(|(name, _)| name.starts_with("coilwright.rig."));
    let read = |(_, text): (&String, &Json)| kept::read(text.as_str().unwrap()).unwrap();
    let mut records: Vec<_> = texts.map(read).collect();
    records.sort_by_key(|record| core::cmp::Reverse(record.at));
    records
}

#[test]
fn rigs_in_a_storage_are_read_and_written_as_ever() {
    let golden = golden();
    let records = records(&golden);
    assert_eq!(records.len(), 30);
    for record in &records {
        let opened = link::open(&record.link).unwrap();
        assert_eq!(opened.left_out, []);
        assert_eq!(link::write(&opened.saved), record.link);
        let text = record.written();
        assert!(golden["store"].as_object().unwrap().values().any(|kept| *kept == text));
    }
}

#[test]
fn a_file_of_all_is_written_as_ever_and_read_as_ever() {
    let golden = golden();
    let text = golden["files"][0].as_str().unwrap();
    assert_eq!(file::files(&records(&golden)), [text]);
    let value: Value = serde_json::from_str(text).unwrap();
    let rigs = file::read(&value).unwrap();
    let lines: Vec<String> =
        rigs.iter().map(|(name, saved)| format!("{name}\t{}", link::write(saved))).collect();
    let taken: Vec<&str> = golden["taken"].as_str().unwrap().split('\n').collect();
    assert_eq!(lines, taken);
}
