use super::super::example::marigold;
use super::super::link::Saved;
use super::super::{Action, Room};
use super::*;
use coilwright_solver::bounds::Field;
use coilwright_solver::closed_box::Hint;

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
    let before = state.stamp;
    state.apply(Action::Room(Room::Closed));
    state.apply(Action::Shown(Probes::Cup, "three".into()));
    state.apply(Action::Shown(Probes::Touching, "0,2".into()));
    assert_eq!(state.shown_by_meter, shown("three", "0,2"));
    assert!(state.touched && state.stamp == before + 1, "typing draws nothing else anew");
    let again = State::with(state.saved());
    assert_eq!((again.room, again.shown_by_meter), (Room::Closed, shown("three", "0,2")));
}

#[test]
fn the_amplifier_is_read_without_drivers() {
    let mut form = Form::default();
    form.amplifier.as_mut().unwrap().channels[0].least = "2".into();
    let state = State::with(Saved::of(form.clone()));
    let Entered::Amplifier(amplifier) = state.entered() else { panic!("it can be read") };
    assert_eq!(amplifier.channels[0].least, Field::ChannelLeast.ohms_text("2").ok());
    form.amplifier.as_mut().unwrap().channels[0].least = "two".into();
    assert_eq!(State::with(Saved::of(form.clone())).entered(), Entered::Unread);
    form.amplifier = None;
    assert_eq!(State::with(Saved::of(form)).entered(), Entered::None);
}

#[test]
fn a_filling_is_taken_into_the_rig_and_what_stood_there_is_one_tap_away() {
    let mut form = marigold();
    form.groups[0].count = "2".into();
    form.even_only = false;
    let mut state = State::with(Saved::of(form.clone()));
    let ohms = Field::CoilOhms.ohms_text("7/5").unwrap();
    let filling = Filling { drivers: 2, coils: 2, ohms, in_path: 2, paths: 2, likely: 0.5 };
    state.apply(Action::Room(Room::Closed));
    state.apply(Action::PlanWith(filling));
    let group = &state.form.groups[0];
    assert_eq!(
        (group.count.as_str(), group.coils.as_str(), group.ohms.as_str()),
        ("2", "2", "1.4")
    );
    assert_eq!((state.form.groups.len(), state.room), (1, Room::List));
    assert!(state.form.even_only && state.form.joined_only);
    assert_eq!(state.form.amplifier, form.amplifier);
    assert_eq!(state.look.load, Some(ohms));
    assert!(state.read.request.is_some());
    state.apply(Action::Previous);
    assert_eq!(state.form, form);
}
