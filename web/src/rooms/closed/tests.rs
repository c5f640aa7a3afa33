use super::state::{Entered, Probes, Shown, Unled};
use crate::question::example::marigold;
use crate::question::form::Form;
use crate::question::text::Misread;
use crate::rooms::Room;
use crate::state::State;
use crate::state::action::acts::*;
use crate::link::Saved;
use coilwright_solver::bounds::Field;
use coilwright_solver::closed_box::{Filling, Hint};

fn shown(cup: &str, leads: &str) -> Shown {
    Shown { cup: cup.into(), leads: leads.into() }
}

#[test]
fn a_box_is_told_as_soon_as_its_reading_can_be_read() {
    let hint = |cup, leads| shown(cup, leads).found().map(|found| found.hint);
    assert_eq!(hint("", ""), None);
    assert_eq!(hint("3,2 Ω", ""), Some(Hint::Loads));
    assert_eq!(hint(".9", ""), Some(Hint::LeadsFirst));
    assert_eq!(hint(".9", "0,2"), Some(Hint::Loads));
    assert_eq!(hint("OL", ""), Some(Hint::Open));
    assert_eq!(hint("about four", ""), None);
    assert_eq!(hint("3.2", "-1"), None, "leads that cannot be are put right first");
    assert_eq!(shown("3.2", "OL").read_leads(), Err(Unled::Open));
    assert_eq!(shown("3.2", "x").read_leads(), Err(Unled::Misread(Misread::NotOne)));
}

#[test]
fn what_is_typed_is_kept_as_typed_and_comes_back_with_the_link() {
    let mut state = State::with(Saved::of(marigold()));
    state.apply(OnPage::Room(Room::Closed));
    let list = |state: &State| {
        [state.answer.version(), state.rooms.list.version(), state.aside.version()]
    };
    let before = list(&state);
    state.apply(InClosed::Shown(Probes::Cup, "three".into()));
    state.apply(InClosed::Shown(Probes::Touching, "0,2".into()));
    assert_eq!(*state.rooms.closed, shown("three", "0,2"));
    assert!(state.page.touched && list(&state) == before, "typing draws nothing else anew");
    let again = State::with(state.saved());
    assert_eq!((again.page.room, Shown::clone(&again.rooms.closed)), (Room::Closed, shown("three", "0,2")));
}

#[test]
fn the_amplifier_is_read_without_drivers() {
    let mut form = Form::default();
    form.amplifier.as_mut().unwrap().channels[0].least = "2".into();
    let state = State::with(Saved::of(form.clone()));
    let Entered::Amplifier(amplifier) = Entered::of(&state.question) else { panic!("it can be read") };
    assert_eq!(amplifier.channels[0].least, Field::ChannelLeast.ohms_text("2").ok());
    form.amplifier.as_mut().unwrap().channels[0].least = "two".into();
    assert_eq!(Entered::of(&State::with(Saved::of(form.clone())).question), Entered::Unread);
    form.amplifier = None;
    assert_eq!(Entered::of(&State::with(Saved::of(form)).question), Entered::None);
}

#[test]
fn a_filling_is_taken_into_the_rig_and_what_stood_there_is_one_tap_away() {
    let mut form = marigold();
    form.groups[0].count = "2".into();
    form.even_only = false;
    let mut state = State::with(Saved::of(form.clone()));
    let ohms = Field::CoilOhms.ohms_text("7/5").unwrap();
    let filling = Filling { drivers: 2, coils: 2, ohms, in_path: 2, paths: 2, likely: 0.5 };
    state.apply(OnPage::Room(Room::Closed));
    state.apply(InClosed::PlanWith(filling));
    let group = &state.question.form.groups[0];
    assert_eq!(
        (group.count.as_str(), group.coils.as_str(), group.ohms.as_str()),
        ("2", "2", "1.4")
    );
    assert_eq!((state.question.form.groups.len(), state.page.room), (1, Room::List));
    assert!(state.question.form.even_only && state.question.form.joined_only);
    assert_eq!(state.question.form.amplifier, form.amplifier);
    assert_eq!(state.rooms.list.load, Some(ohms));
    assert!(state.question.read.request.is_some());
    state.apply(OnPage::Undo(false));
    assert_eq!(state.question.form, form);
}
