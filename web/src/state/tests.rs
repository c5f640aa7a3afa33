use super::*;
use form::{At, OutputForm, Place};
use link::LeftOut;

fn marigold() -> State {
    State::with(Saved { form: example::marigold(), order: None, key: None })
}

fn answer(state: &State, answer: Answer) -> State {
    let request = state.read.request.clone().unwrap();
    state.after(Action::Answered(Rc::new(Answered { request, answer, uneven: None })))
}

fn some_answer() -> Answer {
    use coilwright_solver::judge::Verdict::Fits;
    list::tests::answer(&[(4, Fits), (2, Fits)])
}

#[test]
fn the_last_good_answer_stays_while_the_fields_cannot_be_read() {
    let state = answer(&marigold(), some_answer());
    assert!(state.is_current());
    assert_eq!(state.asking, Asking::Idle);
    let state = state.after(Action::Set(Place::Ohms(0), "4 or 2".into()));
    assert_eq!(state.form.groups[0].ohms, "4 or 2");
    assert!(state.read.at(Place::Ohms(0)).is_some());
    assert!(state.answer().is_some() && !state.is_current());
    assert_eq!(state.asking, Asking::Idle);
    let state = state.after(Action::Set(Place::Ohms(0), "2,0 Ω".into()));
    assert!(state.is_current(), "the same rig written another way");
}

#[test]
fn an_answer_to_an_earlier_question_is_dropped() {
    let early = marigold();
    let state = early.after(Action::Set(Place::Count(0), "3".into()));
    let request = early.read.request.clone().unwrap();
    let late = state.after(Action::Answered(Rc::new(Answered {
        request,
        answer: some_answer(),
        uneven: None,
    })));
    assert_eq!(late.answered, None);
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
    assert_eq!(example.previous.as_ref(), Some(&typed.form));
    let back = example.after(Action::Previous);
    assert_eq!(back.form, typed.form);
    assert_eq!(back.previous, None, "the example needs no keeping");
}

#[test]
fn a_link_opened_while_typing_keeps_what_was_typed() {
    let typed = marigold().after(Action::Set(Place::Count(0), "3".into()));
    let opened = link::open("v=1&drivers=1~2~4~&colour=blue").unwrap();
    let state = typed.after(Action::Open(opened));
    assert_eq!(state.form.groups[0].count, "1");
    assert_eq!(state.previous.as_ref(), Some(&typed.form));
    assert_eq!(state.notices, [Notice::LeftOut(vec![LeftOut::Unknown("colour".into())])]);
    assert_eq!(state.after(Action::Dismiss(0)).notices, []);
}

#[test]
fn a_chosen_configuration_survives_only_where_it_exists() {
    let state = answer(&marigold(), some_answer());
    let key = state.answer().unwrap().configurations[1].key();
    let state = state.after(Action::Choose(Some(key.clone())));
    assert_eq!(state.chosen().unwrap().rank, 2);
    assert_eq!(state.saved().key.as_ref(), Some(&key));
    let other = state.after(Action::Set(Place::Watts(0), "300".into()));
    let same = answer(&other, some_answer());
    assert_eq!(same.key.as_ref(), Some(&key));
    let none = answer(&other, Answer::default());
    assert_eq!(none.key, None);
    assert_eq!(none.notices, [Notice::KeyUnknown]);
    assert_eq!(answer(&other, some_answer()).notices, []);
}

#[test]
fn looking_on_does_not_count_as_touching() {
    let state = answer(&marigold(), some_answer());
    assert!(!state.touched);
    assert!(state.after(Action::Page(0)).touched);
    assert!(state.after(Action::EvenOnly(false)).touched);
}

#[test]
fn a_filter_asks_anew_and_turns_to_the_first_page() {
    let state = answer(&marigold(), some_answer()).after(Action::Page(3));
    assert_eq!(state.page, 3);
    let state = state.after(Action::EvenOnly(false));
    assert_eq!(state.page, 0);
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
