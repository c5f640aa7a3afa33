//! Files of rigs, written and read again by a JSON reader of others (serde_json).
#![cfg(not(target_arch = "wasm32"))]

use super::*;
use crate::aside::Compared;
use crate::job::against::Against;
use crate::job::work::Work;
use crate::link::tests::{any_saved, comparing, crowded, half_wired, searched};
use crate::link::{self, Saved};
use crate::question::fields::{AmplifierForm, BridgeForm, GroupForm, OutputForm, PointForm};
use crate::question::fields::{Group, Output, Rated};
use crate::question::form::{Form, most};
use crate::question::place::{At, Place};
use crate::question::read as form_read;
use crate::rooms::Room;
use crate::rooms::rigs::Record;
use coilwright_module::value::Value;
use coilwright_solver::bounds::Field;
use coilwright_solver::meter::{self, Point, Question};
use coilwright_solver::network::Coil;
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
    unfinished.set(Place::Group(0, Group::Ohms), "4 or \"8\"".into());
    unfinished.set(Place::Rated(At::Channel(0), 0, Rated::Watts), "1,200 W".into());
    let records = [record("Float, \"rear\"", &searched()), record("Front", &Saved::of(unfinished))];
    assert_eq!(write(&records), include_str!("two-rigs.json"));
}

#[test]
fn what_is_longer_than_a_file_has_room_for_is_cut_and_the_rest_is_taken() {
    let mut form = Form::default();
    form.set(Place::Group(0, Group::Ohms), "Ω€".repeat(5_000));
    form.set(Place::Group(0, Group::Watts), "400".into());
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

/// 2.70 asks for more than 2.7 as a least load, and 27/10 is exact: a file keeps which it was.
#[test]
fn what_was_said_against_the_meter_survives_a_file_and_readings_their_order() {
    let step = |step| Point { act: step, place: meter::Place::Step };
    let read = vec![(step(8), "0.2".to_owned()), (step(0), "0.1".to_owned())];
    for (against, field) in [
        (Against::said("Ann answers"), Some("Ann answers")),
        (Against::typed("Ann answ "), None),
        (Against::default(), None),
    ] {
        let work = Work { read: read.clone(), against, ..Work::default() };
        let saved = Saved { work, ..Saved::of(Form::default()) };
        let (text, back) = there_and_back(&saved);
        assert_eq!(back.work, saved.work);
        let written: serde_json::Value = serde_json::from_str(&text).unwrap();
        assert_eq!(written["rigs"][0]["against"].as_str(), field);
    }
}

#[test]
fn ohms_come_back_from_a_file_as_they_were_given() {
    for (typed, back) in [
        ("2.7", "2.7"),
        ("2.70", "2.70"),
        ("2.0", "2.0"),
        ("2", "2"),
        ("27/10", "27/10"),
        ("8/3", "8/3"),
        ("0.7500", "0.7500"),
    ] {
        let mut form = Form { amplifier: Some(AmplifierForm::default()), ..Form::default() };
        form.set(Place::Output(At::Channel(0), Output::Least), typed.into());
        let (text, found) = there_and_back(&Saved::of(form));
        let channel = &found.form.amplifier.unwrap().channels[0];
        assert_eq!(channel.least, back, "{text}");
    }
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

/// As much as a rig can hold.
fn laden() -> Saved {
    let text = || "123.45".to_owned();
    let group = GroupForm {
        count: "16".into(),
        coils: "4".into(),
        ohms: text(),
        watts: text(),
        ..GroupForm::default()
    };
    let rated = vec![PointForm { ohms: text(), watts: text() }; most(At::Channel(0).rated())];
    let output = OutputForm { least: text(), rated, tied: true };
    let bridge = BridgeForm { first: "1".into(), second: "2".into(), output: output.clone() };
    let amplifier = AmplifierForm {
        count: "16".into(),
        channel_count: most(Field::Channels).to_string(),
        alike: false,
        channels: (0..most(Field::Channels))
            .map(|i| OutputForm { least: i.to_string(), ..output.clone() })
            .collect(),
        bridges: vec![bridge; most(Field::Bridges)],
    };
    let form = Form {
        groups: vec![group; most(Field::Drivers)],
        amplifier: Some(amplifier),
        ..half_wired().form
    };
    let coil = |i: u16| Coil { driver: (i / 4) as u8, coil: (i % 4) as u8 };
    let reading = |i: u16| {
        let place = meter::Place::Across(coil(i % 64), coil(i / 64));
        let raw = ["123456.7", "0.0000001", "1000000", "9999999", "OL"][usize::from(i % 5)];
        (Point { act: 998, place }, raw.to_owned())
    };
    let mut read: Vec<_> = (0..500).map(reading).collect();
    read.sort_unstable();
    let work = Work {
        at: 60_000,
        done: (0..1_000).collect(),
        read,
        asked: vec![(Question::Cool, false)],
        against: Against::said(&"said ".repeat(40)),
        old: false,
    };
    let compared = (1..=4).map(|i| Compared {
        form: Form { joined_only: false, ..form.clone() },
        key: format!("{i}:{}", "(1a||2b)+".repeat(40)),
    });
    let key = Some("(1a||2b)+".repeat(40));
    Saved { key, work, compared: compared.collect(), ..Saved::of(form) }
}

/// A file that the page saved is one that it takes, whatever was entered.
#[test]
fn what_goes_into_a_file_is_taken_back_however_much_it_is() {
    let saved = laden();
    let (text, back) = there_and_back(&saved);
    let written: serde_json::Value = serde_json::from_str(&text).unwrap();
    for (field, most) in
        [("readings", most(Field::SavedReadings)), ("typed", most(Field::TypedTexts))]
    {
        assert_eq!(written["rigs"][0][field].as_array().unwrap().len(), most, "{field}");
    }
    assert_eq!(back.compared.len(), 4);
    assert_eq!(
        (back.work.at, back.work.done.last()),
        (0, Some(&999)),
        "steps that a plan may have"
    );
    assert!(text.len() < LARGEST as usize / 4, "{} bytes", text.len());
    let files = files(&vec![record("Rear", &saved); 40]);
    let rigs: usize = files.iter().map(|text| read(&value(text)).unwrap().len()).sum();
    assert_eq!(rigs, 40);
    assert!(files.len() > 1 && files.iter().all(|text| text.len() <= LARGEST as usize));
    let mut form = Form::default();
    form.set(Place::Group(0, Group::Ohms), "4 \u{3a9} ".repeat(500));
    let (_, back) = there_and_back(&Saved::of(form));
    assert_eq!(back.form.groups[0].ohms.chars().count(), 1_000);
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
