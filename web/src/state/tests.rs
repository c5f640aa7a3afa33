mod carried;
mod doubt;
mod gate;
#[cfg(not(target_arch = "wasm32"))]
mod golden;
mod job;
mod later;
mod names;

use super::action::acts::*;
use super::*;
use crate::answer::asking::Question;
use crate::link::{self, LeftOut};
use crate::question::fields::OutputForm;
use crate::question::fields::{Amplifier, Group, Output};
use crate::question::place::{At, Place};
use crate::rooms::list::state as list;
use crate::rooms::rigs::Mine;
use crate::{aside as compared, question::example};
use coilwright_solver::answer::Progress;
use std::rc::Rc;

fn marigold() -> State {
    State::with(Saved::of(example::marigold()))
}

/// The page once its request is answered.
fn answer(state: &State) -> State {
    let request = state.question.read.request.clone().unwrap();
    state.after(OnAnswer::Answered(Question::answer(request)))
}

/// The rows of the list that are in the page.
fn rows(state: &State) -> Vec<String> {
    let view = state.rooms.list.view.as_ref().unwrap();
    let rows = state.answer.answered.as_ref().unwrap().rows(view, 0, list::PAGE);
    rows.into_iter().map(|row| row.configuration.key()).collect()
}

#[test]
fn the_last_good_answer_stays_while_the_fields_cannot_be_read() {
    let own = marigold().after(Edit::Set(Place::Group(0, Group::Count), "2".into()));
    let state = answer(&own);
    assert!(state.is_current());
    assert_eq!(state.under_way.asking, Asking::Idle);
    let state = state.after(Edit::Set(Place::Group(0, Group::Ohms), "4 or 2".into()));
    assert_eq!(state.question.form.groups[0].ohms, "4 or 2");
    assert!(state.question.read.at(Place::Group(0, Group::Ohms)).is_some());
    assert!(state.answer.answered.is_some() && !state.is_current());
    assert_eq!(state.under_way.asking, Asking::Idle);
    let state = state.after(Edit::Set(Place::Group(0, Group::Ohms), "4,0 Ω".into()));
    assert!(state.is_current(), "the same rig written another way");
}

#[test]
fn measured_ohms_are_read_coil_by_coil_and_told_where_their_number_is_wrong() {
    let state = marigold().after(Edit::Set(Place::Group(0, Group::Measured), "3.6 3.7".into()));
    assert!(state.question.read.request.is_none());
    let trouble = state.question.read.at(Place::Group(0, Group::Measured)).unwrap();
    assert_eq!(trouble.path, "drivers[0].dc_ohms");
    let state =
        state.after(Edit::Set(Place::Group(0, Group::Measured), "3,6 3.7 3.6 3.7 3.6 3.7".into()));
    let group = &state.question.read.request.as_ref().unwrap().rig.groups()[0];
    assert_eq!(group.dc_ohms.as_deref(), Some(&[3.6, 3.7, 3.6, 3.7, 3.6, 3.7][..]));
    let back = link::open(&link::write(&state.saved())).unwrap().saved;
    assert_eq!(back.form, state.question.form);
}

#[test]
fn an_answer_to_an_earlier_question_is_dropped() {
    let early = marigold();
    let state = early.after(Edit::Set(Place::Group(0, Group::Count), "2".into()));
    let request = early.question.read.request.clone().unwrap();
    let late = state.after(OnAnswer::Answered(Question::answer(request)));
    assert!(late.answer.answered.is_none());
    assert!(matches!(late.under_way.asking, Asking::Working(_)));
}

#[test]
fn what_is_removed_comes_back_with_one_tap() {
    let start = marigold()
        .after(Edit::AddGroup)
        .after(Edit::Set(Place::Group(1, Group::Ohms), "8".into()))
        .after(Edit::Set(Place::Amplifier(Amplifier::Channels), "2".into()))
        .after(Edit::AddBridge)
        .after(Edit::Set(Place::Output(At::Bridge(0), Output::Least), "2".into()));
    let removals = [
        Edit::RemoveGroup(0),
        Edit::RemoveGroup(1),
        Edit::RemoveAmplifier,
        Edit::RemoveBridge(0),
        Edit::RemovePoint(At::Channel(0), 1),
    ];
    for removal in removals {
        let without = start.after(removal.clone());
        assert_ne!(without.question.form, start.question.form, "{removal:?}");
        let back = without.after(OnPage::Undo(false));
        assert_eq!(back.question.form, start.question.form, "{removal:?}");
    }
}

#[test]
fn the_last_group_cannot_be_removed_and_lists_have_their_bounds() {
    let state = marigold().after(Edit::RemoveGroup(0));
    assert_eq!(state.question.form.groups.len(), 1);
    let mut state = state;
    for _ in 0..20 {
        state = state.after(Edit::AddGroup).after(Edit::AddBridge);
    }
    assert_eq!(state.question.form.groups.len(), 8);
    assert_eq!(state.question.form.amplifier.as_ref().unwrap().bridges.len(), 4);
    let last = &state.question.form.amplifier.as_ref().unwrap().bridges[3];
    assert_eq!((last.first.as_str(), last.second.as_str()), ("7", "8"));
}

#[test]
fn starting_empty_keeps_what_was_typed_one_tap_away_and_the_example_not() {
    let state = marigold().after(OnPage::StartEmpty);
    assert_eq!((state.question.form.clone(), state.undo.page()), (Form::default(), None));
    let typed = state.after(Edit::Set(Place::Group(0, Group::Ohms), "4".into()));
    let example = typed.after(OnPage::ShowExample);
    assert!(example.is_example());
    assert_eq!(example.undo.page().map(|(saved, _)| saved.form), Some(typed.question.form.clone()));
    let back = example.after(OnPage::Undo(false));
    assert_eq!(back.question.form, typed.question.form);
    assert_eq!(back.undo.page(), None, "the example needed no keeping");
}

#[test]
fn a_link_opened_while_typing_keeps_what_was_typed() {
    let typed = marigold().after(Edit::Set(Place::Group(0, Group::Count), "2".into()));
    let opened = link::open("v=1&drivers=1~2~4~&colour=blue").unwrap();
    let state = typed.after(OnPage::Open(Box::new(opened), Mine::default()));
    assert_eq!(state.question.form.groups[0].count, "1");
    assert_eq!(state.undo.page().map(|(saved, _)| saved.form), Some(typed.question.form.clone()));
    assert_eq!(state.page.notices, [Notice::LeftOut(vec![LeftOut::Unknown("colour".into())])]);
    assert_eq!(state.after(OnPage::Dismiss(0)).page.notices, []);
}

#[test]
fn a_chosen_configuration_survives_only_where_it_exists() {
    let state = answer(&marigold());
    let key = rows(&state)[1].clone();
    let state = state.after(OnPage::Choose(Some(key.clone())));
    assert_eq!(state.answer.chosen.as_ref().unwrap().key(), key);
    assert_eq!(state.saved().key.as_ref(), Some(&key));
    // The same drivers with another rating can be joined in the same way.
    let other = answer(&state.after(Edit::Set(Place::Group(0, Group::Watts), "300".into())));
    assert_eq!(other.answer.key.as_ref(), Some(&key));
    assert!(other.answer.chosen.is_some());
    let fewer = answer(&state.after(Edit::Set(Place::Group(0, Group::Count), "2".into())));
    assert_eq!((fewer.answer.key.clone(), fewer.answer.chosen.is_none()), (None, true));
    assert_eq!(fewer.page.notices, [Notice::KeyUnknown]);
    assert_eq!(
        answer(&fewer.after(Edit::Set(Place::Group(0, Group::Count), "3".into()))).page.notices,
        []
    );
}

#[test]
fn a_rung_lists_what_has_its_load_and_every_load_lists_all() {
    let state = answer(&marigold());
    assert_eq!(rows(&state).len(), 6);
    let load = state.answer.answered.as_ref().unwrap().shown().loads[1].load;
    let one = state.after(InList::Load(Some(load)));
    assert_eq!(load.to_string(), "8/3");
    assert_eq!(rows(&one), ["1:(1a+1b)||(2a+2b)||(3a+3b)", "1:(1a+1b)||((2a||2b)+(3a||3b))"]);
    assert_eq!(one.saved().rooms.list.load, Some(load));
    assert_eq!(rows(&one.after(InList::Load(None))).len(), 6);
    // A load that the next rig does not reach is no longer looked at.
    let other = answer(&one.after(Edit::Set(Place::Group(0, Group::Count), "2".into())));
    assert_eq!(other.rooms.list.load, None);
}

#[test]
fn with_a_filter_off_groups_open_and_close() {
    let state = answer(&marigold().after(Edit::EvenOnly(false)).after(Edit::JoinedOnly(false)));
    let all = state.answer.answered.as_ref().unwrap().shown().total.unwrap();
    let view = state.rooms.list.view.clone().unwrap();
    assert!(view.rows < all, "{} of {all}", view.rows);
    let rows = state.answer.answered.as_ref().unwrap().rows(&view, 0, list::PAGE);
    let several = rows.iter().find(|row| row.alike > 1).unwrap();
    let open = state.after(InList::Page(1)).after(InList::Group(Some(several.group)));
    assert_eq!(
        (open.rooms.list.view.as_ref().unwrap().rows, open.rooms.list.page),
        (several.alike, 0)
    );
    let closed = open.after(InList::Group(None));
    assert_eq!(closed.rooms.list.view.as_ref().unwrap().rows, view.rows);
}

#[test]
fn four_stand_side_by_side_also_of_different_rigs() {
    let state = answer(&marigold());
    let keys = rows(&state);
    let mut state = state;
    for key in &keys[..3] {
        state = state.after(OnAside::Compare(key.clone()));
    }
    state = state.after(OnAside::Compare(keys[1].clone()));
    assert_eq!(state.aside.compared.len(), 2, "a second press takes it back");
    let other = answer(&state.after(Edit::Set(Place::Group(0, Group::Count), "2".into())));
    assert!(!other.is_compared(&keys[0]), "it belongs to another rig");
    let mut full = other.clone();
    for key in rows(&other) {
        full = full.after(OnAside::Compare(key));
    }
    assert_eq!(full.aside.compared.len(), compared::MOST);
    for one in &full.aside.compared {
        assert_eq!(one.read().unwrap().1.key(), one.key);
    }
    assert_eq!(full.after(OnAside::LeaveOut(0)).aside.compared[..], full.aside.compared[1..]);
}

#[test]
fn where_nothing_fits_the_nearest_that_would_is_one_tap_away() {
    use coilwright_solver::nearest::{Change, Nearest};
    let high =
        marigold().after(Edit::Set(Place::Output(At::Channel(0), Output::Least), "30".into()));
    let state = answer(&high);
    let answered = state.answer.answered.clone().unwrap();
    assert!(answered.none_fits() && state.answer.nearest.is_none());
    let mut search = Nearest::new(&answered.request);
    let found = loop {
        if let Some(found) = search.step(u64::MAX) {
            break found;
        }
    };
    let state = state.after(OnAnswer::Nearest(Rc::new(found.clone())));
    assert!(found.iter().any(|found| matches!(found.change, Change::Coils { .. })));
    assert!(found.iter().any(|found| matches!(found.change, Change::LeastLoad { .. })));
    for found in found {
        let changed = answer(&state.after(Edit::Change(found.change)));
        assert!(!changed.answer.answered.as_ref().unwrap().none_fits(), "{:?}", found.change);
        assert_eq!(
            changed.undo.page().map(|(saved, _)| saved.form),
            Some(state.question.form.clone())
        );
    }
}

#[test]
fn looking_on_does_not_count_as_touching() {
    let state = answer(&marigold());
    assert!(!state.page.touched);
    assert!(state.after(InList::Page(0)).page.touched);
    assert!(state.after(Edit::EvenOnly(false)).page.touched);
}

#[test]
fn a_filter_asks_anew_and_turns_to_the_first_page() {
    let state = answer(&marigold()).after(InList::Page(3));
    assert_eq!(state.rooms.list.page, 3);
    let state = state.after(Edit::EvenOnly(false));
    assert_eq!(state.rooms.list.page, 0);
    assert!(matches!(state.under_way.asking, Asking::Working(_)));
    let stopped = state.after(OnAnswer::Stop);
    assert_eq!(stopped.under_way.asking, Asking::Stopped);
    let late = stopped.after(OnAnswer::Progress(Progress { done: 1, of: 2 }));
    assert_eq!(late.under_way.asking, Asking::Stopped);
    let back = stopped.after(Edit::EvenOnly(true));
    assert_eq!(back.under_way.asking, Asking::Idle, "that answer is still here");
}

#[test]
fn unlike_channels_are_filled_from_the_first() {
    let state = marigold()
        .after(Edit::Set(Place::Amplifier(Amplifier::Channels), "2".into()))
        .after(Edit::Alike(false));
    let amplifier = state.question.form.amplifier.as_ref().unwrap();
    assert_eq!(amplifier.channels.len(), 2);
    let first: &OutputForm = &amplifier.channels[0];
    assert_eq!(first, &amplifier.channels[1]);
}

#[test]
fn a_newer_page_is_told_of_whatever_else_changes_until_it_can_wait() {
    let before = marigold();
    let state = before.after(OnPage::Kept { newer: false });
    assert!(state.page.kept && !state.page.newer && !state.page.touched);
    let state = state.after(OnPage::Kept { newer: true });
    let rest =
        |state: &State| [state.question.version(), state.answer.version(), state.job.version()];
    assert_eq!(rest(&state), rest(&before), "nothing else is drawn anew");
    let state = state.after(OnPage::StartEmpty);
    assert!(state.page.kept && state.page.newer);
    assert!(!state.after(OnPage::NotNow).page.newer);
}

/// Nothing of the example is taken for what somebody's own drivers and amplifier bear.
#[test]
fn the_first_value_typed_makes_the_example_ones_own_rig() {
    let typed = [
        (Place::Group(0, Group::Count), "2"),
        (Place::Group(0, Group::Watts), "300"),
        (Place::Output(At::Channel(0), Output::Least), "2"),
        (Place::Rated(At::Channel(0), 1, crate::question::fields::Rated::Watts), "700"),
    ];
    for (place, text) in typed {
        let state = marigold().after(Edit::Set(place, text.into()));
        assert_eq!(state.question.form.text(place), Some(text), "what is typed stands there");
        let watts = |(at, text): &(Place, &str)| {
            matches!(at, Place::Group(_, Group::Watts) | Place::Rated(..)) && !text.is_empty()
        };
        let left: Vec<Place> =
            state.question.form.places().into_iter().filter(watts).map(|(at, _)| at).collect();
        let own = matches!(place, Place::Group(_, Group::Watts) | Place::Rated(..));
        assert_eq!(left, if own { vec![place] } else { Vec::new() }, "{place:?}");
        // The next one clears nothing, and the example is an undo away.
        let again = state.after(Edit::Set(Place::Group(0, Group::Ohms), "8".into()));
        assert_eq!(again.question.form.text(place), Some(text));
        assert!(state.after(OnPage::Undo(false)).is_example());
    }
    // What drivers are called, and the box, say nothing of the rig.
    let named = marigold().after(Edit::Set(Place::Group(0, Group::Name), "Rear".into()));
    assert_eq!(named.question.form.groups[0].watts, "400");
}

/// Thirty things taken away come back one by one, over a refresh too.
#[test]
fn what_was_done_thirty_times_is_undone_thirty_times() {
    let mut state = State::with(Saved::of(Form::default()));
    let mut before = Vec::new();
    for number in 0..30 {
        state = state.after(Edit::Set(Place::Group(0, Group::Ohms), format!("{}", number + 1)));
        state = state.after(Edit::AddGroup);
        before.push(state.question.form.clone());
        state = state.after(Edit::RemoveGroup(0));
    }
    let found = opening::Found {
        own: Some(draft::draft(&link::write(&state.saved()), &Mine::default())),
        undo: Some(state.undo.written()),
        refreshed: true,
        ..Default::default()
    };
    let mut state = opening::open(&found);
    for form in before.iter().rev() {
        state = state.after(OnPage::Undo(false));
        assert_eq!(state.question.form, *form);
    }
}
