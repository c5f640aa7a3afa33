//! Files of rigs, written and read again by a JSON reader of others (serde_json).
#![cfg(not(target_arch = "wasm32"))]

use super::super::form::{At, Form, Place};
use super::super::link::tests::{any_saved, comparing, crowded, half_wired, searched};
use super::super::link::{self, Saved};
use super::super::rigs::Record;
use super::super::{Room, read as form_read};
use super::*;
use coilwright_module::value::Value;
use proptest::prelude::*;

fn record(name: &str, saved: &Saved) -> Record {
    Record { at: 1, name: name.into(), link: link::write(saved) }
}

fn value(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{error} in\n{text}"))
}

fn there_and_back(saved: &Saved) -> (String, Saved) {
    let text = write(&[record("Rear", saved)]);
    let mut rigs = read(&value(&text)).unwrap_or_else(|problems| panic!("{problems:?} in\n{text}"));
    assert_eq!(rigs.len(), 1);
    let (name, back) = rigs.remove(0);
    assert_eq!(name, "Rear");
    (text, back)
}

#[test]
fn a_file_of_two_rigs_reads_as_people_expect() {
    let mut unfinished = Form::default();
    unfinished.set(Place::Ohms(0), "4 or \"8\"".into());
    unfinished.set(Place::PointWatts(At::Channel(0), 0), "1,200 W".into());
    let records = [record("Float, \"rear\"", &searched()), record("Front", &Saved::of(unfinished))];
    assert_eq!(write(&records), include_str!("two-rigs.json"));
}

#[test]
fn what_is_longer_than_a_file_has_room_for_is_cut_and_the_rest_is_taken() {
    let mut form = Form::default();
    form.set(Place::Ohms(0), "Ω€".repeat(5_000));
    form.set(Place::Watts(0), "400".into());
    let (_, back) = there_and_back(&Saved::of(form));
    assert_eq!(back.form.groups[0].ohms, "Ω€".repeat(500));
    assert_eq!(back.form.groups[0].watts, "400");
}

#[test]
fn what_a_rig_holds_survives_a_file() {
    for saved in [comparing(), crowded(), half_wired(), searched()] {
        let (text, back) = there_and_back(&saved);
        assert_eq!(back.key, saved.key, "{text}");
        assert_eq!(back.compared.len(), saved.compared.len());
        let before = form_read::read(&saved.form);
        let after = form_read::read(&back.form);
        assert_eq!(after.request, before.request, "{text}");
        assert_eq!(after.build, before.build, "{text}");
        assert_eq!((back.work.at, &back.work.done), (saved.work.at, &saved.work.done));
        assert_eq!(back.work.asked, saved.work.asked);
        assert_eq!(back.room, Room::List);
    }
    let (_, back) = there_and_back(&searched());
    let typed: Vec<&str> = back.work.read.iter().map(|(_, text)| text.as_str()).collect();
    assert_eq!(typed, ["0.2", "2.1", "OL"]);
}

/// Without the rows of rated points in which nothing is written: a file has no place for
/// them, and those after them move up.
fn without_blank_rows(mut form: Form) -> Form {
    if let Some(amplifier) = &mut form.amplifier {
        let bridges = amplifier.bridges.iter_mut().map(|bridge| &mut bridge.output);
        for output in amplifier.channels.iter_mut().chain(bridges) {
            output.rated.retain(|point| !point.is_blank());
        }
    }
    form
}

proptest! {
    #[test]
    fn nothing_typed_is_lost_in_a_file(saved in any_saved()) {
        let saved = Saved { form: without_blank_rows(saved.form.clone()), ..saved };
        let (text, back) = there_and_back(&saved);
        let before = form_read::read(&saved.form);
        let after = form_read::read(&back.form);
        prop_assert_eq!(&after.request, &before.request, "{}", &text);
        prop_assert_eq!(&after.build, &before.build, "{}", &text);
        prop_assert_eq!(&after.troubles, &before.troubles, "{}", &text);
        prop_assert_eq!(&after.box_troubles, &before.box_troubles, "{}", &text);
        prop_assert_eq!(&after.name_troubles, &before.name_troubles, "{}", &text);
        prop_assert_eq!(back.form.names(), saved.form.names(), "{}", &text);
        // What a file makes explicit stays so.
        let (second, again) = there_and_back(&back);
        let (third, _) = there_and_back(&again);
        prop_assert_eq!(third, second);
    }
}
