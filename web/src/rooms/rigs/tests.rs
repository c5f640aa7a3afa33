use crate::question::fields::{Group};
use crate::question::form::{Form};
use crate::question::place::{Place};
use crate::link::{self, Saved};
use super::state::{Entry, Storage, Told};
use super::{Mine, Record};
use crate::link::Opened;
use crate::question::example;
use crate::rooms::Room;
use crate::state::State;
use crate::state::action::acts::*;
use crate::state::draft::{draft, open_draft};
use std::rc::Rc;

const REAR: &str = "v=1&drivers=2~2~4~500";

fn opened(link: &str) -> Box<Opened> {
    Box::new(link::open(link).unwrap())
}

fn mine(name: &str) -> Mine {
    Mine { name: name.into(), of: Some(("7".into(), 5)) }
}

fn is_as_kept(state: &State) -> Option<bool> {
    state.rooms.rigs.is_as_kept(&state.link_to_keep())
}

fn typed() -> State {
    State::with(Saved::of(example::marigold())).after(Edit::Set(Place::Group(0, Group::Count), "7".into()))
}

#[test]
fn a_record_reads_as_it_was_written() {
    for name in ["Rear", "", "<b>&\"", "Δ 4 Ω", "a=b&c~d"] {
        let record = Record { at: 1_764_130_000_000, name: name.into(), link: REAR.into() };
        assert_eq!(Record::read(&record.written()), Some(record));
    }
}

#[test]
fn names_are_cut_and_cleaned_before_they_are_kept() {
    let named = |name: &str| Mine { name: name.into(), of: None }.named();
    assert_eq!(named("  Rear \n"), "Rear");
    assert_eq!(named("a\u{0}\u{7f}b"), "ab");
    // Nothing in a name turns the sentence around it; marks within it stay.
    assert_eq!(named("\u{202e}raeR\u{2066}"), "raeR");
    assert_eq!(named("אחורי\u{200f} (2)"), "אחורי\u{200f} (2)");
    assert_eq!(named(&"Ω".repeat(99)), "Ω".repeat(60));
    assert_eq!(named(&format!("{} x", "a".repeat(59))), "a".repeat(59));
}

#[test]
fn a_draft_tells_which_rig_it_is_of() {
    let saved = link::open(REAR).unwrap().saved;
    for mine in [
        Mine::default(),
        mine("Rear"),
        mine(""),
        Mine { name: "a~b&mine=c".into(), of: None },
        Mine { name: "Ω 100 %".into(), of: Some(("x~&".into(), u64::MAX)) },
    ] {
        let text = draft(&link::write(&saved), &mine);
        let (opened, found) = open_draft(&text).unwrap();
        assert_eq!((opened.saved, opened.left_out, found), (saved.clone(), vec![], mine));
        // A page that knows nothing of rigs reads the same form.
        assert_eq!(link::open(&text).unwrap().saved.form, saved.form);
    }
    for spoilt in ["&mine=", "&mine=7", "&mine=7~x~Rear", "&mine=7~5~%f", "&mine=%~5~Rear"] {
        let (opened, found) = open_draft(&format!("{REAR}{spoilt}")).unwrap();
        assert_eq!((opened.saved.form, found), (saved.form.clone(), Mine::default()), "{spoilt}");
    }
}

#[test]
fn opening_a_rig_keeps_what_was_typed_one_tap_away() {
    let state = typed().after(InRigs::Name("Mine".into()));
    let there = state.after(OnPage::Open(opened(REAR), mine("Rear")));
    assert_eq!((there.question.form.groups[0].count.as_str(), &there.rooms.rigs.mine), ("2", &mine("Rear")));
    let back = there.after(OnPage::Undo(false));
    assert_eq!((back.question.form.groups[0].count.as_str(), back.rooms.rigs.mine.name.as_str()), ("7", "Mine"));
    // From the room in which it was opened one comes back to the rig itself.
    let back = state
        .after(OnPage::Room(Room::Rigs))
        .after(OnPage::Open(opened(REAR), mine("Rear")))
        .after(OnPage::Undo(false));
    assert_eq!(back.page.room, Room::List);
    // And forth.
    let forth = back.after(OnPage::Undo(true));
    assert_eq!((forth.question.form.groups[0].count.as_str(), &forth.rooms.rigs.mine), ("2", &mine("Rear")));
}

#[test]
fn readings_and_steps_done_come_back_with_what_was_before() {
    let link = "v=1&key=1a%7C%7C2a&job=2~7&meter=1~0.2&cup=2.1~&drivers=2~1~4~";
    let state = State::with(link::open(link).unwrap().saved);
    let there = state.after(OnPage::Open(opened(REAR), Mine::default()));
    let back = there.after(OnPage::Undo(false));
    assert_eq!((&back.job.work, &*back.rooms.closed), (&state.job.work, &*state.rooms.closed));
    assert_eq!(back.answer.key, state.answer.key);
}

#[test]
fn a_rig_is_as_it_was_kept_until_something_changes() {
    let state = typed();
    assert_eq!(is_as_kept(&state), None);
    let record = Record { at: 5, name: "Rear".into(), link: state.link_to_keep() };
    let entry = Entry {
        id: "7".into(),
        text: record.written(),
        when: String::new(),
        record: Some(record),
        about: String::new(),
        against: None,
    };
    let listed = Told::Listed(Storage::Ready, Rc::new(vec![Rc::new(entry)]));
    let kept = state.after(InRigs::Told(listed)).after(InRigs::Told(Told::Mine(mine("Rear"))));
    assert_eq!(is_as_kept(&kept), Some(true));
    let looked = kept.after(OnPage::Room(Room::Rigs));
    assert_eq!(is_as_kept(&looked), Some(true), "looking at the rigs is no change");
    let changed = kept.after(Edit::Set(Place::Group(0, Group::Count), "6".into()));
    assert_eq!(is_as_kept(&changed), Some(false));
    let renamed = kept.after(InRigs::Name("Rear, left".into()));
    assert_eq!(is_as_kept(&renamed), Some(false), "a name is kept too");
}

#[test]
fn what_begins_anew_is_no_rig_that_is_kept() {
    let kept = typed().after(InRigs::Told(Told::Mine(mine("Rear"))));
    for action in
        [OnPage::StartEmpty, OnPage::ShowExample, OnPage::Open(opened(REAR), Mine::default())]
    {
        let anew = kept.after(action);
        assert_eq!(anew.rooms.rigs.mine, Mine::default());
        assert_eq!(anew.undo.page().unwrap().1, mine("Rear"));
    }
    // Changing it does not make it another.
    assert_eq!(kept.after(Edit::AddGroup).rooms.rigs.mine, mine("Rear"));
}

#[test]
fn nothing_is_worth_keeping_that_nobody_entered() {
    assert!(!Saved::of(example::marigold()).is_worth_keeping());
    assert!(!Saved::of(Form::default()).is_worth_keeping());
    assert!(typed().saved().is_worth_keeping());
    let read = State::with(Saved::of(example::marigold()))
        .after(InClosed::Shown(crate::rooms::closed::state::Probes::Cup, "2".into()));
    assert!(read.saved().is_worth_keeping());
}
