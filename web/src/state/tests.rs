use super::*;
use asking::Question;
use form::{At, OutputForm, Place};
use link::LeftOut;

fn marigold() -> State {
    State::with(Saved::of(example::marigold()))
}

/// The page once its request is answered.
fn answer(state: &State) -> State {
    let request = state.read.request.clone().unwrap();
    state.after(Action::Answered(Question::answer(request)))
}

/// The rows of the list that are in the page.
fn rows(state: &State) -> Vec<String> {
    let view = state.view.as_ref().unwrap();
    let rows = state.answered.as_ref().unwrap().rows(view, 0, list::PAGE);
    rows.into_iter().map(|row| row.configuration.key()).collect()
}

#[test]
fn the_last_good_answer_stays_while_the_fields_cannot_be_read() {
    let state = answer(&marigold());
    assert!(state.is_current());
    assert_eq!(state.asking, Asking::Idle);
    let state = state.after(Action::Set(Place::Ohms(0), "4 or 2".into()));
    assert_eq!(state.form.groups[0].ohms, "4 or 2");
    assert!(state.read.at(Place::Ohms(0)).is_some());
    assert!(state.answered.is_some() && !state.is_current());
    assert_eq!(state.asking, Asking::Idle);
    let state = state.after(Action::Set(Place::Ohms(0), "4,0 Ω".into()));
    assert!(state.is_current(), "the same rig written another way");
}

#[test]
fn measured_ohms_are_read_coil_by_coil_and_told_where_their_number_is_wrong() {
    let state = marigold().after(Action::Set(Place::Measured(0), "3.6 3.7".into()));
    assert!(state.read.request.is_none());
    let trouble = state.read.at(Place::Measured(0)).unwrap();
    assert_eq!(trouble.path, "drivers[0].dc_ohms");
    let state = state.after(Action::Set(Place::Measured(0), "3,6 3.7 3.6 3.7 3.6 3.7".into()));
    let group = &state.read.request.as_ref().unwrap().rig.groups()[0];
    assert_eq!(group.dc_ohms.as_deref(), Some(&[3.6, 3.7, 3.6, 3.7, 3.6, 3.7][..]));
    let back = link::open(&link::write(&state.saved())).unwrap().saved;
    assert_eq!(back.form, state.form);
}

#[test]
fn an_answer_to_an_earlier_question_is_dropped() {
    let early = marigold();
    let state = early.after(Action::Set(Place::Count(0), "2".into()));
    let request = early.read.request.clone().unwrap();
    let late = state.after(Action::Answered(Question::answer(request)));
    assert!(late.answered.is_none());
    assert!(matches!(late.asking, Asking::Working(_)));
}

#[test]
fn what_is_removed_comes_back_with_one_tap() {
    let start = marigold()
        .after(Action::AddGroup)
        .after(Action::Set(Place::Ohms(1), "8".into()))
        .after(Action::Set(Place::ChannelCount, "2".into()))
        .after(Action::AddBridge)
        .after(Action::Set(Place::Least(At::Bridge(0)), "2".into()));
    let removals = [
        Action::RemoveGroup(0),
        Action::RemoveGroup(1),
        Action::RemoveAmplifier,
        Action::RemoveBridge(0),
        Action::RemovePoint(At::Channel(0), 1),
    ];
    for removal in removals {
        let without = start.after(removal.clone());
        assert_ne!(without.form, start.form, "{removal:?}");
        let back = without.after(Action::PutBack);
        assert_eq!(back.form, start.form, "{removal:?}");
        assert_eq!(back.removed, None);
    }
}

#[test]
fn the_last_group_cannot_be_removed_and_lists_have_their_bounds() {
    let state = marigold().after(Action::RemoveGroup(0));
    assert_eq!(state.form.groups.len(), 1);
    let mut state = state;
    for _ in 0..20 {
        state = state.after(Action::AddGroup).after(Action::AddBridge);
    }
    assert_eq!(state.form.groups.len(), 8);
    assert_eq!(state.form.amplifier.as_ref().unwrap().bridges.len(), 4);
    let last = &state.form.amplifier.as_ref().unwrap().bridges[3];
    assert_eq!((last.first.as_str(), last.second.as_str()), ("7", "8"));
}

#[test]
fn starting_empty_keeps_what_was_typed_one_tap_away_and_the_example_not() {
    let state = marigold().after(Action::StartEmpty);
    assert_eq!((state.form.clone(), state.previous.clone()), (Form::default(), None));
    let typed = state.after(Action::Set(Place::Ohms(0), "4".into()));
    let example = typed.after(Action::ShowExample);
    assert!(example.is_example());
    assert_eq!(example.previous.as_ref().map(|previous| &previous.saved.form), Some(&typed.form));
    let back = example.after(Action::Previous);
    assert_eq!(back.form, typed.form);
    assert_eq!(back.previous, None, "the example needs no keeping");
}

#[test]
fn a_link_opened_while_typing_keeps_what_was_typed() {
    let typed = marigold().after(Action::Set(Place::Count(0), "2".into()));
    let opened = link::open("v=1&drivers=1~2~4~&colour=blue").unwrap();
    let state = typed.after(Action::Open(Box::new(opened), Mine::default()));
    assert_eq!(state.form.groups[0].count, "1");
    assert_eq!(state.previous.as_ref().map(|previous| &previous.saved.form), Some(&typed.form));
    assert_eq!(state.notices, [Notice::LeftOut(vec![LeftOut::Unknown("colour".into())])]);
    assert_eq!(state.after(Action::Dismiss(0)).notices, []);
}

#[test]
fn a_chosen_configuration_survives_only_where_it_exists() {
    let state = answer(&marigold());
    let key = rows(&state)[1].clone();
    let state = state.after(Action::Choose(Some(key.clone())));
    assert_eq!(state.chosen.as_ref().unwrap().key(), key);
    assert_eq!(state.saved().key.as_ref(), Some(&key));
    // The same drivers with another rating can be joined in the same way.
    let other = answer(&state.after(Action::Set(Place::Watts(0), "300".into())));
    assert_eq!(other.key.as_ref(), Some(&key));
    assert!(other.chosen.is_some());
    let fewer = answer(&state.after(Action::Set(Place::Count(0), "2".into())));
    assert_eq!((fewer.key.clone(), fewer.chosen.is_none()), (None, true));
    assert_eq!(fewer.notices, [Notice::KeyUnknown]);
    assert_eq!(answer(&fewer.after(Action::Set(Place::Count(0), "3".into()))).notices, []);
}

#[test]
fn a_rung_lists_what_has_its_load_and_every_load_lists_all() {
    let state = answer(&marigold());
    assert_eq!(rows(&state).len(), 6);
    let load = state.answered.as_ref().unwrap().shown().loads[1].load;
    let one = state.after(Action::Load(Some(load)));
    assert_eq!(load.to_string(), "8/3");
    assert_eq!(rows(&one), ["1:(1a+1b)||(2a+2b)||(3a+3b)", "1:(1a+1b)||((2a||2b)+(3a||3b))"]);
    assert_eq!(one.saved().load, Some(load));
    assert_eq!(rows(&one.after(Action::Load(None))).len(), 6);
    // A load that the next rig does not reach is no longer looked at.
    let other = answer(&one.after(Action::Set(Place::Count(0), "2".into())));
    assert_eq!(other.look.load, None);
}

#[test]
fn with_a_filter_off_groups_open_and_close() {
    let state = answer(&marigold().after(Action::EvenOnly(false)).after(Action::JoinedOnly(false)));
    let all = state.answered.as_ref().unwrap().shown().total.unwrap();
    let view = state.view.clone().unwrap();
    assert!(view.rows < all, "{} of {all}", view.rows);
    let rows = state.answered.as_ref().unwrap().rows(&view, 0, list::PAGE);
    let several = rows.iter().find(|row| row.alike > 1).unwrap();
    let open = state.after(Action::Page(1)).after(Action::Group(Some(several.group)));
    assert_eq!((open.view.as_ref().unwrap().rows, open.look.page), (several.alike, 0));
    let closed = open.after(Action::Group(None));
    assert_eq!(closed.view.as_ref().unwrap().rows, view.rows);
}

#[test]
fn four_stand_side_by_side_also_of_different_rigs() {
    let state = answer(&marigold());
    let keys = rows(&state);
    let mut state = state;
    for key in &keys[..3] {
        state = state.after(Action::Compare(key.clone()));
    }
    state = state.after(Action::Compare(keys[1].clone()));
    assert_eq!(state.compared.len(), 2, "a second press takes it back");
    let other = answer(&state.after(Action::Set(Place::Count(0), "2".into())));
    assert!(!other.is_compared(&keys[0]), "it belongs to another rig");
    let mut full = other.clone();
    for key in rows(&other) {
        full = full.after(Action::Compare(key));
    }
    assert_eq!(full.compared.len(), compared::MOST);
    for one in &full.compared {
        assert_eq!(one.read().unwrap().1.key(), one.key);
    }
    assert_eq!(full.after(Action::LeaveOut(0)).compared[..], full.compared[1..]);
}

#[test]
fn where_nothing_fits_the_nearest_that_would_is_one_tap_away() {
    use coilwright_solver::nearest::{Change, Nearest};
    let high = marigold().after(Action::Set(Place::Least(At::Channel(0)), "30".into()));
    let state = answer(&high);
    let answered = state.answered.clone().unwrap();
    assert!(answered.none_fits() && state.nearest.is_none());
    let mut search = Nearest::new(&answered.request);
    let found = loop {
        if let Some(found) = search.step(u64::MAX) {
            break found;
        }
    };
    let state = state.after(Action::Nearest(Rc::new(found.clone())));
    assert!(found.iter().any(|found| matches!(found.change, Change::Coils { .. })));
    assert!(found.iter().any(|found| matches!(found.change, Change::LeastLoad { .. })));
    for found in found {
        let changed = answer(&state.after(Action::Change(found.change)));
        assert!(!changed.answered.as_ref().unwrap().none_fits(), "{:?}", found.change);
        assert_eq!(
            changed.previous.as_ref().map(|previous| &previous.saved.form),
            Some(&state.form)
        );
    }
}

#[test]
fn looking_on_does_not_count_as_touching() {
    let state = answer(&marigold());
    assert!(!state.touched);
    assert!(state.after(Action::Page(0)).touched);
    assert!(state.after(Action::EvenOnly(false)).touched);
}

#[test]
fn a_filter_asks_anew_and_turns_to_the_first_page() {
    let state = answer(&marigold()).after(Action::Page(3));
    assert_eq!(state.look.page, 3);
    let state = state.after(Action::EvenOnly(false));
    assert_eq!(state.look.page, 0);
    assert!(matches!(state.asking, Asking::Working(_)));
    let stopped = state.after(Action::Stop);
    assert_eq!(stopped.asking, Asking::Stopped);
    let late = stopped.after(Action::Progress(Progress { done: 1, of: 2 }));
    assert_eq!(late.asking, Asking::Stopped);
    let back = stopped.after(Action::EvenOnly(true));
    assert_eq!(back.asking, Asking::Idle, "that answer is still here");
}

#[test]
fn unlike_channels_are_filled_from_the_first() {
    let state =
        marigold().after(Action::Set(Place::ChannelCount, "2".into())).after(Action::Alike(false));
    let amplifier = state.form.amplifier.as_ref().unwrap();
    assert_eq!(amplifier.channels.len(), 2);
    let first: &OutputForm = &amplifier.channels[0];
    assert_eq!(first, &amplifier.channels[1]);
}

#[test]
fn a_newer_page_is_told_of_whatever_else_changes_until_it_can_wait() {
    let state = marigold().after(Action::Kept { newer: false });
    assert!(state.kept && !state.newer && !state.touched);
    let state = state.after(Action::Kept { newer: true });
    assert_eq!(state.stamp, marigold().stamp, "nothing else is drawn anew");
    let state = state.after(Action::StartEmpty);
    assert!(state.kept && state.newer);
    assert!(!state.after(Action::Later).newer);
}
